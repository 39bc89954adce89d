//! Whether all of this build lies on this phone, so that every screen opens without a signal.

use js_sys::{Array, Function, Object, Promise, Reflect};
use leptos::prelude::window;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

use super::build;
use super::named::{call, named};

/// Whether it does: asked of the worker that answers this page without a signal, which fetches what lacks where it can.
/// False where there is no such worker, or one of another build.
pub async fn is_kept_whole() -> bool {
    let Some(answer) = asked() else { return false };
    let whole = JsFuture::from(answer).await;
    let whole = whole.ok().and_then(|build| build.as_string());
    whole.is_some_and(|whole| Some(whole) == build::name())
}

/// The question, on its way to the worker.
fn asked() -> Option<Promise> {
    let workers = named(&window().navigator(), "serviceWorker")?;
    let worker = named(&workers, "controller")?;
    let class: Function = named(&window(), "MessageChannel")?.dyn_into().ok()?;
    let channel = Reflect::construct(&class, &Array::new()).ok()?;
    let (ours, theirs) = (named(&channel, "port1")?, named(&channel, "port2")?);
    let question = Object::new();
    Reflect::set(&question, &JsValue::from_str("whole"), &JsValue::TRUE).ok()?;
    let answer = Promise::new(&mut |resolve, _| {
        let heard = Closure::once_into_js(move |event: JsValue| {
            let data = Reflect::get(&event, &JsValue::from_str("data"));
            let _ = resolve.call1(&JsValue::NULL, &data.unwrap_or(JsValue::NULL));
        });
        let _ = Reflect::set(&ours, &JsValue::from_str("onmessage"), &heard);
    });
    call(
        &worker,
        "postMessage",
        &[question.into(), Array::of1(&theirs).into()],
    )
    .ok()?;
    Some(answer)
}
