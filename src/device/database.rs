//! The browser's own databases, opened, asked and changed; also beside the page, where there is no window.

use js_sys::{Function, Promise};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{IdbDatabase, IdbFactory, IdbOpenDbRequest, IdbRequest, IdbTransaction};

use super::named::named;

/// The database of a name, with one store in it, which is made where there is none.
pub(super) async fn open(name: &str, store: &'static str) -> Result<IdbDatabase, JsValue> {
    // A worker has a database too, and no window.
    let factory = named(&js_sys::global(), "indexedDB").ok_or(JsValue::UNDEFINED)?;
    let factory: IdbFactory = factory.unchecked_into();
    let request: IdbOpenDbRequest = factory.open_with_u32(name, 1)?;
    let asked = request.clone();
    request.set_onupgradeneeded(Some(&once(move || {
        // An upgrade that fails fails the opening, which is told of.
        if let Ok(database) = asked.result() {
            let _ = database
                .unchecked_into::<IdbDatabase>()
                .create_object_store(store);
        }
    })));
    settled(&request).await?.dyn_into()
}

/// What a request answers.
pub(super) async fn settled(request: &IdbRequest) -> Result<JsValue, JsValue> {
    let promise = Promise::new(&mut |yes: Function, no: Function| {
        let (good, bad) = (request.clone(), request.clone());
        request.set_onsuccess(Some(&once(move || {
            let result = good.result().unwrap_or(JsValue::UNDEFINED);
            let _ = yes.call1(&JsValue::UNDEFINED, &result);
        })));
        request.set_onerror(Some(&once(move || {
            let why = bad
                .error()
                .ok()
                .flatten()
                .map_or(JsValue::UNDEFINED, JsValue::from);
            let _ = no.call1(&JsValue::UNDEFINED, &why);
        })));
    });
    JsFuture::from(promise).await
}

/// Is over once the browser says that a change is kept.
pub(super) async fn kept(change: &IdbTransaction) -> Result<(), JsValue> {
    let promise = Promise::new(&mut |yes: Function, no: Function| {
        change.set_oncomplete(Some(&once(move || {
            let _ = yes.call0(&JsValue::UNDEFINED);
        })));
        let failed = change.clone();
        change.set_onabort(Some(&once(move || {
            let why = failed.error().map_or(JsValue::UNDEFINED, JsValue::from);
            let _ = no.call1(&JsValue::UNDEFINED, &why);
        })));
    });
    JsFuture::from(promise).await.map(|_| ())
}

fn once(f: impl FnOnce() + 'static) -> Function {
    Closure::once_into_js(f).unchecked_into()
}
