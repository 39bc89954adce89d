//! The browser's own databases, opened, asked and changed; also beside the page, where there is no window.

use js_sys::{Array, Function, Promise};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    DomException, IdbDatabase, IdbFactory, IdbOpenDbRequest, IdbRequest, IdbTransaction,
};

use super::named::{call, named};

/// How long a database may take to answer, in milliseconds.
const PATIENCE_MS: u32 = 20_000;

/// The database of a name, with one store in it, which is made where there is none.
pub(super) async fn open(name: &str, store: &'static str) -> Result<IdbDatabase, JsValue> {
    // A worker has a database too, and no window.
    let factory = named(&js_sys::global(), "indexedDB").ok_or(JsValue::UNDEFINED)?;
    let factory: IdbFactory = factory.unchecked_into();
    let request: IdbOpenDbRequest = factory.open_with_u32(name, 1)?;
    let asked = request.clone();
    let upgrade = Closure::once(move || {
        // An upgrade that fails fails the opening, which is told of.
        if let Ok(database) = asked.result() {
            let _ = database
                .unchecked_into::<IdbDatabase>()
                .create_object_store(store);
        }
    });
    request.set_onupgradeneeded(Some(upgrade.as_ref().unchecked_ref()));
    let opened = settled(&request).await;
    request.set_onupgradeneeded(None);
    opened?.dyn_into()
}

/// What a request answers. Nothing of it is held on to after that: an answer may be a photo.
pub(super) async fn settled(request: &IdbRequest) -> Result<JsValue, JsValue> {
    let promise = Promise::new(&mut |yes: Function, no: Function| {
        request.set_onsuccess(Some(&yes));
        request.set_onerror(Some(&no));
    });
    let settled = in_time(promise).await;
    request.set_onsuccess(None);
    request.set_onerror(None);
    match settled {
        Ok(_) => request.result(),
        // A request that is still on its way has no error to ask for.
        Err(_) => Err(request.error().map_or(SILENT, reason)),
    }
}

/// Is over once the browser says that a change is kept.
pub(super) async fn kept(change: &IdbTransaction) -> Result<(), JsValue> {
    let promise = Promise::new(&mut |yes: Function, no: Function| {
        change.set_oncomplete(Some(&yes));
        change.set_onabort(Some(&no));
    });
    let settled = in_time(promise).await;
    change.set_oncomplete(None);
    change.set_onabort(None);
    match settled {
        Ok(_) => Ok(()),
        Err(_) => Err(reason(change.error())),
    }
}

/// What stands for no answer at all.
const SILENT: JsValue = JsValue::NULL;

/// Whether a database failed by saying nothing: the next question would wait for as long.
pub(super) fn is_silent(error: &JsValue) -> bool {
    error.is_null()
}

fn reason(error: Option<DomException>) -> JsValue {
    error.map_or(JsValue::UNDEFINED, JsValue::from)
}

/// Some databases never answer: who waits is told so in the end.
async fn in_time(answer: Promise) -> Result<JsValue, JsValue> {
    let late = Promise::new(&mut |_, no: Function| {
        // A browser without timers waits as long as it takes.
        let _ = call(
            &js_sys::global(),
            "setTimeout",
            &[no.into(), PATIENCE_MS.into()],
        );
    });
    JsFuture::from(Promise::race(&Array::of2(&answer, &late))).await
}
