//! The camera and what it sees now: opened when somebody asks for it, and shut when this is dropped.

use js_sys::{Array, Object, Reflect};
use leptos::prelude::window;
use wasm_bindgen::{JsCast, JsValue};

use super::canvas::{self, DrawnPicture};
use super::named::{ask, call, named};
use super::refusals::NoCamera;

const DEVICES: &str = "mediaDevices";

/// A camera that is on.
pub struct LiveCamera {
    tracks: Array,
    video: JsValue,
}

impl LiveCamera {
    /// Whether a browser lets a page ask for a camera at all: it does not without a secure connection.
    #[must_use]
    pub fn can_be_asked() -> bool {
        named(&window().navigator(), DEVICES)
            .is_some_and(|devices| named(&devices, "getUserMedia").is_some())
    }

    /// Asks for the camera that looks away from who holds the phone, and shows what it sees in `video`.
    ///
    /// # Errors
    /// The sentence for a camera that is refused, missing or in use.
    pub async fn open(video: JsValue) -> Result<Self, NoCamera> {
        let stream = Self::asked().await.map_err(|why| NoCamera::of(&why))?;
        let tracks = call(&stream, "getTracks", &[]).and_then(JsCast::dyn_into);
        let tracks = tracks.map_err(|why: JsValue| NoCamera::of(&why))?;
        let camera = Self { tracks, video };
        let shown = Reflect::set(&camera.video, &"srcObject".into(), &stream);
        match shown.and(ask(&camera.video, "play", &[]).await) {
            Ok(_) => Ok(camera),
            Err(why) => Err(NoCamera::of(&why)),
        }
    }

    async fn asked() -> Result<JsValue, JsValue> {
        let devices = named(&window().navigator(), DEVICES).ok_or(JsValue::UNDEFINED)?;
        let (side, wanted) = (Object::new(), Object::new());
        // A wish: a laptop's only camera looks the other way.
        Reflect::set(&side, &"facingMode".into(), &"environment".into())?;
        Reflect::set(&wanted, &"video".into(), &side)?;
        ask(&devices, "getUserMedia", &[wanted.into()]).await
    }

    /// What it sees at this moment, no longer than `longest` points; nothing before its first picture.
    #[must_use]
    pub fn picture(&self, longest: u32) -> Option<DrawnPicture> {
        canvas::of_video(&self.video, longest)
    }

    /// Whether it is still on: it may be pulled out, or taken by another program.
    #[must_use]
    pub fn is_on(&self) -> bool {
        let live = |track: JsValue| {
            Reflect::get(&track, &"readyState".into()).is_ok_and(|state| state == "live")
        };
        self.tracks.iter().any(live)
    }
}

impl Drop for LiveCamera {
    fn drop(&mut self) {
        for track in self.tracks.iter() {
            // One that has ended already needs no ending.
            let _ = call(&track, "stop", &[]);
        }
        let _ = Reflect::set(&self.video, &"srcObject".into(), &JsValue::NULL);
    }
}
