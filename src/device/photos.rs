//! Photos in the browser's own database: they are far too large for local storage.
//!
//! Kept as bytes, not as files of the browser: older phones lose the latter.

use js_sys::{Function, Promise, Uint8Array};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    DomException, IdbDatabase, IdbFactory, IdbKeyRange, IdbObjectStore, IdbOpenDbRequest,
    IdbRequest, IdbTransactionMode,
};

use super::named::named;
use super::refusals::NoPhoto;
use crate::base::refusal::Refusal;
use crate::journal::photo::PhotoName;

const DATABASE: &str = "scaleside";
const PHOTOS: &str = "photos";

/// Keeps a photo under its name.
///
/// # Errors
/// The sentence for a photo that is not kept.
pub async fn keep(name: &PhotoName, jpeg: &[u8]) -> Result<(), Refusal> {
    let value = Uint8Array::from(jpeg);
    let key = JsValue::from_str(&name.to_string());
    change(move |photos| photos.put_with_key(&value, &key).map(|_| ()))
        .await
        .map_err(said)
}

/// The photo of this name; nothing when there is none.
///
/// # Errors
/// The sentence for a database that can't be read.
pub async fn get(name: &PhotoName) -> Result<Option<Vec<u8>>, Refusal> {
    let key = JsValue::from_str(&name.to_string());
    let found = read(|photos| photos.get(&key))
        .await
        .map_err(|_| NoPhoto::Unread)?;
    Ok(found
        .dyn_into()
        .ok()
        .map(|bytes: Uint8Array| bytes.to_vec()))
}

/// The names of all photos that begin with `opening`, the earliest first.
///
/// # Errors
/// The sentence for a database that can't be read.
pub async fn names(opening: &str) -> Result<Vec<PhotoName>, Refusal> {
    let keys = read(|photos| photos.get_all_keys_with_key(&within(opening)?.into()))
        .await
        .map_err(said)?;
    let keys: js_sys::Array = keys.unchecked_into();
    let names = keys
        .iter()
        .filter_map(|key| PhotoName::parse(&key.as_string()?));
    Ok(names.collect())
}

/// Takes every photo away whose name begins with `opening`.
///
/// # Errors
/// The sentence for what may still be there.
pub async fn remove(opening: &str) -> Result<(), Refusal> {
    let range = within(opening).map_err(said)?;
    change(move |photos| photos.delete(&range.into()).map(|_| ()))
        .await
        .map_err(said)
}

fn within(opening: &str) -> Result<IdbKeyRange, JsValue> {
    let end = format!("{opening}\u{ffff}");
    IdbKeyRange::bound(&JsValue::from_str(opening), &JsValue::from_str(&end))
}

async fn read(
    ask: impl FnOnce(&IdbObjectStore) -> Result<IdbRequest, JsValue>,
) -> Result<JsValue, JsValue> {
    let database = open().await?;
    let photos = database
        .transaction_with_str(PHOTOS)?
        .object_store(PHOTOS)?;
    let found = settled(&ask(&photos)?).await;
    database.close();
    found
}

/// Is over once the browser says that the change is on the disk.
async fn change(make: impl FnOnce(&IdbObjectStore) -> Result<(), JsValue>) -> Result<(), JsValue> {
    let database = open().await?;
    let change = database.transaction_with_str_and_mode(PHOTOS, IdbTransactionMode::Readwrite)?;
    make(&change.object_store(PHOTOS)?)?;
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
    let over = JsFuture::from(promise).await;
    database.close();
    over.map(|_| ())
}

async fn open() -> Result<IdbDatabase, JsValue> {
    // A worker has a database too, and no window.
    let factory = named(&js_sys::global(), "indexedDB").ok_or(JsValue::UNDEFINED)?;
    let factory: IdbFactory = factory.unchecked_into();
    let request: IdbOpenDbRequest = factory.open_with_u32(DATABASE, 1)?;
    let asked = request.clone();
    request.set_onupgradeneeded(Some(&once(move || {
        // An upgrade that fails fails the opening, which is told of.
        if let Ok(database) = asked.result() {
            let _ = database
                .unchecked_into::<IdbDatabase>()
                .create_object_store(PHOTOS);
        }
    })));
    settled(&request).await?.dyn_into()
}

async fn settled(request: &IdbRequest) -> Result<JsValue, JsValue> {
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

fn once(f: impl FnOnce() + 'static) -> Function {
    Closure::once_into_js(f).unchecked_into()
}

fn said(error: JsValue) -> Refusal {
    let name = error.dyn_ref::<DomException>().map(DomException::name);
    let why = match name.as_deref() {
        Some("QuotaExceededError") => NoPhoto::NoRoom,
        _ => NoPhoto::NotKept,
    };
    why.into()
}
