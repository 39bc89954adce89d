//! What is said where the browser does not take a photo.

use std::fmt;

use js_sys::Reflect;
use wasm_bindgen::JsValue;

use crate::base::refusal::Said;

/// Why there is no photo.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoPhoto {
    /// The browser can't show what was chosen.
    Unshown,
    /// There is no room for it.
    NoRoom,
    /// The browser keeps none.
    NotKept,
    /// The browser can't read one that it has kept.
    Unread,
    /// What keeps the photos does not answer.
    Silent,
}

impl Said for NoPhoto {}

impl fmt::Display for NoPhoto {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Unshown => {
                "This browser can't open that picture: choose a JPEG or PNG, or take the photo anew."
            }
            Self::NoRoom => {
                "This phone has no room left for the photo: take some photos away first."
            }
            Self::Unread => {
                "A photo that was kept here can't be read by this browser any more. The others are shown."
            }
            Self::Silent => {
                "This browser does not answer for its photos. Close other tabs of Scaleside, or restart the browser, and try again."
            }
            Self::NotKept => {
                "This browser does not let Scaleside keep photos. Everything else is kept as before."
            }
        })
    }
}

/// Why there is no camera.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoCamera {
    /// The browser, or who holds the phone, does not let this page use it.
    Refused,
    /// The phone has none.
    Missing,
    /// It is there and can't be used.
    Busy,
}

impl NoCamera {
    /// From what the browser says of it (W3C, Media Capture and Streams, `getUserMedia`).
    pub(super) fn of(why: &JsValue) -> Self {
        let name = Reflect::get(why, &"name".into());
        match name.ok().and_then(|name| name.as_string()).as_deref() {
            Some("NotAllowedError" | "SecurityError") => Self::Refused,
            Some("NotFoundError" | "OverconstrainedError") => Self::Missing,
            _ => Self::Busy,
        }
    }
}

impl Said for NoCamera {}

impl fmt::Display for NoCamera {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Refused => {
                "This browser may not use the camera here. Allow it in the settings of this page, or choose pictures."
            }
            Self::Missing => "No camera is found. Choose pictures, or paste the letters.",
            Self::Busy => {
                "The camera can't be used now: another program may have it. Close that and try again, or choose pictures."
            }
        })
    }
}
