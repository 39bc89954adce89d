//! The end of a timer, heard and felt. It is always shown as well: a phone on silent does neither.

use std::cell::{Cell, RefCell};

use js_sys::{Array, Reflect};
use leptos::prelude::window;
use wasm_bindgen::JsValue;
use web_sys::{AudioContext, AudioContextState, OscillatorType};

use super::clock;
use super::named::named;
use crate::base::instant::Instant;

/// A sound that was asked for is there, or is not, after so many milliseconds.
const SETTLES_MS: i64 = 2_000;

thread_local! {
    /// When the sound was last asked for in a tap.
    static TRIED: Cell<Option<Instant>> = const { Cell::new(None) };
    static AUDIO: RefCell<Option<AudioContext>> = const { RefCell::new(None) };
}

/// Fetches what sounds, which takes a phone a while: before the tap that needs it. It stays mute until [`arm`].
pub fn fetch() {
    AUDIO.with_borrow_mut(|audio| {
        if audio.is_none() {
            *audio = AudioContext::new().ok();
        }
    });
}

/// Gets the sound ready. Browsers let a page sound only after a tap, so this is called inside one.
pub fn arm() {
    fetch();
    TRIED.set(Some(clock::now()));
    AUDIO.with_borrow(|audio| {
        if let Some(audio) = audio {
            let _ = audio.resume();
        }
    });
}

/// Whether a ring can be heard: after a reload only once the page has been touched, and not while the phone has
/// suspended its sound, as it does under a call.
#[must_use]
pub fn is_armed() -> bool {
    AUDIO.with_borrow(|audio| {
        let state = audio.as_ref().map(AudioContext::state);
        state.is_some_and(|state| state == AudioContextState::Running)
    })
}

/// Why a ring can't be heard.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mute {
    /// The page was not touched yet: browsers let no page sound before that.
    Untouched,
    /// It was, and the phone keeps the sound back all the same.
    HeldBack,
    /// This browser has no sound to give.
    Refused,
}

/// Why nothing can be heard at `now`, while [`is_armed`] says so.
#[must_use]
pub fn why_mute(now: Instant) -> Mute {
    let tried = TRIED.get();
    match tried {
        None => Mute::Untouched,
        Some(_) if AUDIO.with_borrow(Option::is_none) => Mute::Refused,
        Some(at) if now.ms_since(at) > SETTLES_MS => Mute::HeldBack,
        Some(_) => Mute::Untouched,
    }
}

/// What a ring means; each is heard apart from the others.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// Something is to begin: two low notes.
    Begin,
    /// Turn it: two notes, high and low in turn.
    Turn,
    /// A timer is up, or the fish is to come out: three rising notes, twice.
    Lift,
}

impl Tone {
    /// The pitches of its notes, in hertz.
    fn notes(self) -> &'static [f32] {
        match self {
            Self::Begin => &[440.0, 440.0],
            Self::Turn => &[1175.0, 660.0, 1175.0, 660.0, 1175.0, 660.0],
            Self::Lift => &[660.0, 880.0, 1175.0, 660.0, 880.0, 1175.0],
        }
    }
}

/// Rings once.
pub fn ring(tone: Tone) {
    AUDIO.with_borrow(|audio| {
        if let Some(audio) = audio {
            for (place, pitch) in tone.notes().iter().enumerate() {
                #[allow(clippy::cast_precision_loss)]
                let _ = note(audio, *pitch, place as f64 * 0.22);
            }
        }
    });
}

fn note(audio: &AudioContext, pitch: f32, after: f64) -> Result<(), JsValue> {
    let from = audio.current_time() + after;
    let tone = audio.create_oscillator()?;
    let volume = audio.create_gain()?;
    tone.set_type(OscillatorType::Triangle);
    tone.frequency().set_value(pitch);
    volume.gain().set_value_at_time(0.0001, from)?;
    volume
        .gain()
        .exponential_ramp_to_value_at_time(0.6, from + 0.02)?;
    volume
        .gain()
        .exponential_ramp_to_value_at_time(0.0001, from + 0.2)?;
    tone.connect_with_audio_node(&volume)?;
    volume.connect_with_audio_node(&audio.destination())?;
    tone.start_with_when(from)?;
    tone.stop_with_when(from + 0.22)
}

/// Shakes the phone, where it can.
pub fn buzz() {
    let navigator = window().navigator();
    // A page that was not touched yet may not, and is told off for it.
    if named(&navigator, "userActivation").is_some_and(|touched| {
        Reflect::get(&touched, &JsValue::from_str("hasBeenActive")).is_ok_and(|was| was.is_falsy())
    }) {
        return;
    }
    // Some browsers have no such function, and calling what is not there would end the module.
    if Reflect::has(&navigator, &JsValue::from_str("vibrate")).unwrap_or(false) {
        let pattern: Array = [300, 150, 300, 150, 600]
            .into_iter()
            .map(JsValue::from)
            .collect();
        let _ = navigator.vibrate_with_pattern(&pattern);
    }
}
