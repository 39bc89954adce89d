//! How much room this site takes on the phone, and whether the browser promises to keep it.

use js_sys::Reflect;
use leptos::prelude::window;
use wasm_bindgen::JsValue;

use super::named::{ask, named};

/// What the browser says of this site's room, in bytes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Room {
    /// Taken by everything of this site, the app itself included.
    pub used: f64,
    /// The most it would give.
    pub most: f64,
}

/// Asks how much room is taken; nothing where the browser does not say.
pub async fn room() -> Option<Room> {
    let manager = named(&window().navigator(), "storage")?;
    let said = ask(&manager, "estimate", &[]).await.ok()?;
    let bytes = |name| {
        Reflect::get(&said, &JsValue::from_str(name))
            .ok()
            .and_then(|value| value.as_f64())
    };
    Some(Room {
        used: bytes("usage")?,
        most: bytes("quota")?,
    })
}

/// Whether this is a private window, as far as browsers let a page see (from memory): Firefox and Safari open no folder of
/// the site's own in one, and Chromium gives it no more room than a share of the working memory.
pub async fn is_private() -> bool {
    let Some(manager) = named(&window().navigator(), "storage") else {
        return false;
    };
    if named(&manager, "getDirectory").is_some()
        && ask(&manager, "getDirectory", &[]).await.is_err()
    {
        return true;
    }
    let heap = named(&window(), "performance").and_then(|of| named(&of, "memory"));
    let heap = heap.and_then(|of| Reflect::get(&of, &JsValue::from_str("jsHeapSizeLimit")).ok());
    match (heap.and_then(|most| most.as_f64()), room().await) {
        (Some(heap), Some(room)) => room.most < 2.0 * heap,
        _ => false,
    }
}

/// Whether the browser has promised to keep this site's data; nothing where it can't.
pub async fn is_promised() -> Option<bool> {
    answer("persisted").await
}

/// Asks for that promise, and returns the answer.
pub async fn promise() -> Option<bool> {
    answer("persist").await
}

async fn answer(question: &str) -> Option<bool> {
    let manager = named(&window().navigator(), "storage")?;
    let said = ask(&manager, question, &[]).await.ok()?;
    said.as_bool()
}
