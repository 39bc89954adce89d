//! The second home of every record: a database that has on the disk, within moments, what it took. Texts under the keys
//! of local storage; how the two are joined is not decided here, but in [`crate::store::homes`].
//!
//! By the browser's own interface, as the photos: the crates that wrap it bring a queue for each request, and end the
//! module where an event lacks what it should have.

use std::cell::RefCell;
use std::collections::BTreeSet;

use js_sys::Array;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{IdbDatabase, IdbKeyRange, IdbObjectStore, IdbTransaction, IdbTransactionMode};

use super::database;
use super::folder;
use super::storage;
use crate::store::homes::SecondTexts;

const DATABASE: &str = "scaleside ledger";
const TEXTS: &str = "texts";

/// How many texts are looked at in one go.
const PAGE: u32 = 200;

thread_local! {
    /// Kept open, since a tap is told at once; let go of when the browser, or whoever deletes it, says so.
    static OPEN: RefCell<Option<IdbDatabase>> = const { RefCell::new(None) };
}

/// A text, or nothing, under a key.
type Told = (String, Option<String>);

/// Does `work` with what stands under these keys, and keeps what it says. Nobody else writes meanwhile.
///
/// # Errors
/// The browser's own error; nothing is changed then.
pub async fn change(
    keys: &BTreeSet<String>,
    work: impl FnOnce(SecondTexts) -> Vec<Told>,
) -> Result<(), JsValue> {
    let change = transaction(IdbTransactionMode::Readwrite).await?;
    let texts = change.object_store(TEXTS)?;
    let asked: Result<Vec<_>, JsValue> = keys
        .iter()
        .map(|key| Ok((key, texts.get(&JsValue::from_str(key))?)))
        .collect();
    let mut found = SecondTexts::new();
    for (key, request) in asked? {
        if let Some(text) = database::settled(&request).await?.as_string() {
            found.insert(key.clone(), text);
        }
    }
    if let Err(error) = tell(&texts, work(found)) {
        // Half of it must not stand there.
        let _ = change.abort();
        return Err(error);
    }
    database::kept(&change).await
}

fn tell(texts: &IdbObjectStore, told: Vec<Told>) -> Result<(), JsValue> {
    for (key, text) in told {
        let key = JsValue::from_str(&key);
        match text {
            Some(text) => texts.put_with_key(&JsValue::from_str(&text), &key)?,
            None => texts.delete(&key)?,
        };
    }
    Ok(())
}

/// A part of what stands there.
pub struct LedgerPage {
    /// The keys of texts that local storage does not hold as they are.
    pub other: Vec<String>,
    /// Every key of this page.
    pub keys: Vec<String>,
}

/// The texts after a key, some of them. Empty when there are no more.
///
/// # Errors
/// The browser's own error.
pub async fn page(after: &str) -> Result<LedgerPage, JsValue> {
    let look = transaction(IdbTransactionMode::Readonly).await?;
    let texts = look.object_store(TEXTS)?;
    let range: JsValue = IdbKeyRange::lower_bound_with_open(&after.into(), true)?.into();
    let keys = texts.get_all_keys_with_key_and_limit(&range, PAGE)?;
    let values = texts.get_all_with_key_and_limit(&range, PAGE)?;
    let keys: Array = database::settled(&keys).await?.dyn_into()?;
    let values: Array = database::settled(&values).await?.dyn_into()?;
    let mut page = LedgerPage {
        other: Vec::new(),
        keys: Vec::new(),
    };
    for (key, value) in keys.iter().zip(values.iter()) {
        let key = key.as_string().unwrap_or_default();
        if !storage::holds(&key, &value) {
            page.other.push(key.clone());
        }
        page.keys.push(key);
    }
    Ok(page)
}

/// Every text that stands there under the plain name.
pub(super) async fn plain_texts() -> Result<SecondTexts, JsValue> {
    let open = database::open(DATABASE, TEXTS).await?;
    let texts = open.transaction_with_str(TEXTS)?.object_store(TEXTS)?;
    let (keys, values) = (texts.get_all_keys()?, texts.get_all()?);
    let keys: Array = database::settled(&keys).await?.dyn_into()?;
    let values: Array = database::settled(&values).await?.dyn_into()?;
    open.close();
    let both = keys.iter().zip(values.iter());
    Ok(both
        .filter_map(|(key, value)| Some((key.as_string()?, value.as_string()?)))
        .collect())
}

async fn transaction(mode: IdbTransactionMode) -> Result<IdbTransaction, JsValue> {
    let begin = |open: &IdbDatabase| open.transaction_with_str_and_mode(TEXTS, mode);
    let known = OPEN.with_borrow(Clone::clone);
    // One that was closed meanwhile is opened anew.
    if let Some(Ok(begun)) = known.as_ref().map(begin) {
        return Ok(begun);
    }
    let open = database::open(&folder::own(DATABASE), TEXTS).await?;
    let gone = open.clone();
    let let_go = Closure::once_into_js(move || {
        gone.close();
        OPEN.take();
    });
    open.set_onversionchange(Some(let_go.unchecked_ref()));
    OPEN.replace(Some(open.clone()));
    begin(&open)
}
