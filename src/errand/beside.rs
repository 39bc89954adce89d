//! What a worker does: hears a question, answers it, says the answer; nothing else.

use js_sys::Array;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::spawn_local;
use web_sys::{DedicatedWorkerGlobalScope, MessageEvent};

/// Answers what the page asks, for as long as the worker lives. It must be one: `answer` is given the kind of a question,
/// its text and what of the browser goes with it, and says nothing of a kind that it does not know.
pub fn hear(
    answer: impl AsyncFn(&str, &str, &JsValue) -> Option<(String, JsValue)> + Copy + 'static,
) {
    let scope: DedicatedWorkerGlobalScope = js_sys::global().unchecked_into();
    let say = scope.clone();
    let hear = Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| {
        let say = say.clone();
        spawn_local(async move {
            let asked: Array = event.data().unchecked_into();
            let (name, text) = (asked.get(1).as_string(), asked.get(2).as_string());
            let (name, text) = (name.unwrap_or_default(), text.unwrap_or_default());
            let (text, with) = match answer(&name, &text, &asked.get(3)).await {
                Some((text, with)) => (JsValue::from_str(&text), with),
                None => (JsValue::UNDEFINED, JsValue::UNDEFINED),
            };
            // What can't be said is missed on the page like an answer of a worker that is gone.
            if say
                .post_message(&Array::of3(&asked.get(0), &text, &with))
                .is_err()
            {
                say.close();
            }
        });
    });
    scope.set_onmessage(Some(hear.as_ref().unchecked_ref()));
    hear.forget();
    // An empty list: it is ready.
    if scope.post_message(&Array::new()).is_err() {
        scope.close();
    }
}
