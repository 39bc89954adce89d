//! The phone's own voice. Reached by name: it is not in every browser, and nothing is said where there is none. Only a
//! voice that lies on the phone is used: another would send the words to somebody, and be silent without a signal.

use js_sys::{Array, Reflect};
use leptos::prelude::window;
use wasm_bindgen::JsValue;

use super::named::{call, construct, named};

/// Says something, after what is being said.
pub fn say(words: &str) {
    let Some(speaker) = named(&window(), "speechSynthesis") else {
        return;
    };
    let Some(voice) = own_voice(&speaker) else {
        return;
    };
    let Some(utterance) = construct(&window(), "SpeechSynthesisUtterance", words) else {
        return;
    };
    for (name, value) in [("voice", voice), ("lang", JsValue::from_str("en"))] {
        let _ = Reflect::set(&utterance, &JsValue::from_str(name), &value);
    }
    let _ = call(&speaker, "speak", &[utterance]);
}

/// A voice of this phone that speaks English.
fn own_voice(speaker: &JsValue) -> Option<JsValue> {
    let voices = Array::from(&call(speaker, "getVoices", &[]).ok()?);
    let read = |voice: &JsValue, name: &str| Reflect::get(voice, &JsValue::from_str(name)).ok();
    voices.iter().find(|voice| {
        let speaks = read(voice, "lang").and_then(|lang| lang.as_string());
        speaks.is_some_and(|lang| lang.starts_with("en"))
            && read(voice, "localService").is_some_and(|here| here.is_truthy())
    })
}
