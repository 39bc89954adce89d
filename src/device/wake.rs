//! Keeping the screen awake while a timer runs. Reached by name: the interface is not in every browser.

use std::cell::RefCell;

use js_sys::Reflect;
use leptos::prelude::window;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::spawn_local;

use super::named::{ask, call, named};

/// Whether the screen is kept awake.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wake {
    /// It is.
    Held,
    /// It is not, though this browser could.
    Dropped,
    /// This browser can't.
    Unknown,
}

thread_local! {
    static LOCK: RefCell<Option<JsValue>> = const { RefCell::new(None) };
}

/// Asks for the screen to stay awake and reports what the browser answered.
pub fn hold(report: impl Fn(Wake) + 'static) {
    if LOCK.with_borrow(|lock| lock.as_ref().is_some_and(|lock| !released(lock))) {
        report(Wake::Held);
        return;
    }
    spawn_local(async move {
        report(match request().await {
            Ok(lock) => {
                LOCK.set(Some(lock));
                Wake::Held
            }
            Err(None) => Wake::Unknown,
            Err(Some(_)) => Wake::Dropped,
        });
    });
}

/// Lets the screen sleep again.
pub fn release() {
    if let Some(lock) = LOCK.take() {
        let _ = call(&lock, "release", &[]);
    }
}

async fn request() -> Result<JsValue, Option<JsValue>> {
    let keeper = named(&window().navigator(), "wakeLock").ok_or(None)?;
    ask(&keeper, "request", &[JsValue::from_str("screen")])
        .await
        .map_err(Some)
}

fn released(lock: &JsValue) -> bool {
    Reflect::get(lock, &JsValue::from_str("released")).is_ok_and(|released| released.is_truthy())
}
