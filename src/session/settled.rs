//! A copy of the app in a folder of its host names all that it keeps by that folder. All copies of a host shared the plain
//! names once: at its first start in a folder a copy takes over what stands there, by the rule that joins two homes. It
//! is copied, since another copy may look for it as well; it leaves its old place only where there is no room for both.

use std::collections::BTreeSet;

use wasm_bindgen::JsValue;

use super::bench::Bench;
use super::ledger::meet;
use crate::device::storage::LocalShelf;
use crate::device::turns::Turn;
use crate::device::{build, clock, folder, old_names};
use crate::store::homes::SecondTexts;
use crate::store::keys;
use crate::store::outcome::Fault;
use crate::store::shelf::{Shelf, ShelfFault};

/// How many records are taken over in one go.
const AT_ONCE: usize = 20;

/// Takes over what is there, once. What could not be done is tried again at the next start.
pub async fn settle(bench: Bench) {
    if !folder::is_below() || LocalShelf.get(keys::SETTLED) != Ok(None) {
        return;
    }
    if !old_names::may_be_ours().await || take_over(bench).await.is_ok() {
        // Where it can't be noted, it is found out again.
        let _ = LocalShelf.put(keys::SETTLED, &clock::now().0.to_string());
    }
}

async fn take_over(bench: Bench) -> Result<(), JsValue> {
    let first = old_names::texts().unwrap_or_default();
    if !first.is_empty() {
        old_names::overtake(build::number());
    }
    let all = bring(bench, &first).await;
    let second = old_names::second_texts().await?;
    let all = bring(bench, &second).await && all;
    old_names::take_photos().await?;
    if all { Ok(()) } else { Err(JsValue::NULL) }
}

/// Joins the shelf with texts that stand under the plain names. Returns whether all are here now.
async fn bring(bench: Bench, texts: &SecondTexts) -> bool {
    let mut names: BTreeSet<String> = texts.keys().map(|key| keys::name_of(key)).collect();
    // These are said of each copy apart.
    for own in [keys::SETTLED, keys::BUILD] {
        names.remove(own);
    }
    let names: Vec<String> = names.into_iter().collect();
    let (mut turn, mut brought, mut over) = (Turn::begin(), true, Vec::new());
    for some in names.chunks(AT_ONCE) {
        let mut fault = meet(bench, texts, &some.iter().cloned().collect(), |_| true).1;
        if fault == Some(Fault::Shelf(ShelfFault::Full)) {
            old_names::let_go(&over);
            over.clear();
            fault = one_by_one(bench, texts, some);
        } else if fault.is_none() {
            over.extend_from_slice(some);
        }
        if let Some(fault) = fault {
            brought = false;
            bench.drawers.tell(&[], Some(fault));
        }
        turn.pause().await;
    }
    brought
}

/// Each that is here leaves its old place to the next, for as long as that helps. Returns why what is left is not here.
fn one_by_one(bench: Bench, texts: &SecondTexts, some: &[String]) -> Option<Fault> {
    let mut left = some.to_vec();
    loop {
        let (before, mut fault) = (left.len(), None);
        left.retain(|name| {
            let why = meet(bench, texts, &[name.clone()].into(), |_| true).1;
            if why.is_none() {
                old_names::let_go(std::slice::from_ref(name));
            }
            let stays = why.is_some();
            fault = why.or_else(|| fault.take());
            stays
        });
        if left.len() == before || left.is_empty() {
            return fault.filter(|_| !left.is_empty());
        }
    }
}
