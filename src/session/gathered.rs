//! What a question about everything takes along, gathered in turns so that taps are answered in between.

use js_sys::Array;
use serde_json::value::to_raw_value;

use super::bench::Bench;
use crate::device::storage::LocalShelf;
use crate::device::turns::Turn;
use crate::keep::kind::Raw;
use crate::store::shelf::Shelf;

/// Every text on the shelf, each after its key. A text that can't be read is passed by: it stays where it is.
pub async fn shelf() -> Array {
    let (shelf, mut turn) = (Array::new(), Turn::begin());
    for key in LocalShelf.keys().unwrap_or_default() {
        if let Ok(Some(text)) = LocalShelf.get(&key) {
            shelf.push(&key.into());
            shelf.push(&text.into());
        }
        turn.pause().await;
    }
    shelf
}

/// The text of every fish, the latest first.
pub async fn fish(bench: Bench) -> Vec<Raw> {
    let (mut all, mut turn) = (Vec::new(), Turn::begin());
    for id in bench.fish.ids() {
        if let Some(Ok(text)) = bench.fish.with_untracked(&id, to_raw_value) {
            all.push(text);
        }
        turn.pause().await;
    }
    all
}
