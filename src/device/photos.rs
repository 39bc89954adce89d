//! Photos in the browser's own database: they are far too large for local storage.
//!
//! Kept as bytes, not as files of the browser: older phones lose the latter.

use js_sys::{Array, Uint8Array};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{
    DomException, IdbDatabase, IdbKeyRange, IdbObjectStore, IdbRequest, IdbTransactionMode,
};

use super::database;
use super::folder;
pub use super::refusals::NoPhoto;
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
/// Why it can't be read.
pub async fn get(name: &PhotoName) -> Result<Option<Vec<u8>>, NoPhoto> {
    let key = JsValue::from_str(&name.to_string());
    let found = read(|photos| photos.get(&key)).await.map_err(unread)?;
    if found.is_undefined() {
        return Ok(None);
    }
    let bytes: Uint8Array = found.dyn_into().map_err(|_| NoPhoto::Unread)?;
    Ok(Some(bytes.to_vec()))
}

/// The names of all photos that begin with `opening`, the earliest first.
///
/// # Errors
/// Why they can't be read.
pub async fn names(opening: &str) -> Result<Vec<PhotoName>, NoPhoto> {
    let keys = read(|photos| photos.get_all_keys_with_key(&within(opening)?.into()))
        .await
        .map_err(why)?;
    let keys: Array = keys.unchecked_into();
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

/// Takes over what stands under the plain name and is not here yet, one after the other: together they may be more than
/// the memory holds.
pub(super) async fn take_plain() -> Result<(), JsValue> {
    let plain = database::open(DATABASE, PHOTOS).await?;
    let store = |database: &IdbDatabase| -> Result<IdbObjectStore, JsValue> {
        database.transaction_with_str(PHOTOS)?.object_store(PHOTOS)
    };
    let all: Array = database::settled(&store(&plain)?.get_all_keys()?)
        .await?
        .dyn_into()?;
    for key in all.iter() {
        if read(|photos| photos.get(&key)).await?.is_undefined() {
            let photo = database::settled(&store(&plain)?.get(&key)?).await?;
            change(|photos| photos.put_with_key(&photo, &key).map(|_| ())).await?;
        }
    }
    plain.close();
    Ok(())
}

fn within(opening: &str) -> Result<IdbKeyRange, JsValue> {
    let end = format!("{opening}\u{ffff}");
    IdbKeyRange::bound(&JsValue::from_str(opening), &JsValue::from_str(&end))
}

async fn read(
    ask: impl FnOnce(&IdbObjectStore) -> Result<IdbRequest, JsValue>,
) -> Result<JsValue, JsValue> {
    let database = database::open(&folder::own(DATABASE), PHOTOS).await?;
    let photos = database
        .transaction_with_str(PHOTOS)?
        .object_store(PHOTOS)?;
    let found = database::settled(&ask(&photos)?).await;
    database.close();
    found
}

/// Is over once the browser says that the change is on the disk.
async fn change(make: impl FnOnce(&IdbObjectStore) -> Result<(), JsValue>) -> Result<(), JsValue> {
    let database = database::open(&folder::own(DATABASE), PHOTOS).await?;
    let change = database.transaction_with_str_and_mode(PHOTOS, IdbTransactionMode::Readwrite)?;
    make(&change.object_store(PHOTOS)?)?;
    let over = database::kept(&change).await;
    database.close();
    over
}

fn unread(error: JsValue) -> NoPhoto {
    if database::is_silent(&error) {
        NoPhoto::Silent
    } else {
        NoPhoto::Unread
    }
}

fn why(error: JsValue) -> NoPhoto {
    let name = error.dyn_ref::<DomException>().map(DomException::name);
    match name.as_deref() {
        Some("QuotaExceededError") => NoPhoto::NoRoom,
        _ if database::is_silent(&error) => NoPhoto::Silent,
        _ => NoPhoto::NotKept,
    }
}

fn said(error: JsValue) -> Refusal {
    why(error).into()
}
