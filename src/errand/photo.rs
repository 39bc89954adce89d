//! A photo made small beside the page, where the browser can draw there.

use serde::{Deserialize, Serialize};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::File;

use super::Errand;
use crate::device::camera;
use crate::work::{QuestionKind, WorkerLane};

/// A photo to be made small. The file goes with it, and the JPEG with the answer.
#[derive(Serialize, Deserialize)]
pub struct MakeSmall;

impl Errand for MakeSmall {
    /// Whether it was done; if not, the page draws by itself.
    type Answer = bool;
    const KIND: QuestionKind = QuestionKind {
        name: "a photo made small",
        lane: WorkerLane::Files,
        newest: false,
    };
}

/// Makes it small.
pub(super) async fn make_small(file: &JsValue) -> (bool, JsValue) {
    let drawn = match file.dyn_ref::<File>() {
        Some(file) => camera::drawn_unseen(file).await,
        None => Err(JsValue::UNDEFINED),
    };
    (drawn.is_ok(), drawn.map_or(JsValue::UNDEFINED, Into::into))
}
