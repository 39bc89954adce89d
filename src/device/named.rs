//! What not every browser has, reached by its name: to call what is not there would end the module.

use js_sys::{Array, Function, Promise, Reflect};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

/// What `on` has under `name`, if it is an object or a function.
pub(super) fn named(on: &JsValue, name: &str) -> Option<JsValue> {
    Reflect::get(on, &JsValue::from_str(name))
        .ok()
        .filter(|found| found.is_object() || found.is_function())
}

/// Calls a method by its name.
pub(super) fn call(on: &JsValue, name: &str, with: &[JsValue]) -> Result<JsValue, JsValue> {
    let function: Function = Reflect::get(on, &JsValue::from_str(name))?.dyn_into()?;
    function.apply(on, &with.iter().collect::<Array>())
}

/// Calls a method that answers later.
pub(super) async fn ask(on: &JsValue, name: &str, with: &[JsValue]) -> Result<JsValue, JsValue> {
    let answer = call(on, name, with)?;
    JsFuture::from(answer.dyn_into::<Promise>()?).await
}

/// A new object of a class that takes one text.
pub(super) fn construct(on: &JsValue, name: &str, text: &str) -> Option<JsValue> {
    let class: Function = named(on, name)?.dyn_into().ok()?;
    Reflect::construct(&class, &Array::of1(&JsValue::from_str(text))).ok()
}
