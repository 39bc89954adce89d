//! QR codes in a picture, read beside the page.

use js_sys::{Array, Uint8Array};
use serde::{Deserialize, Serialize};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::File;

use super::Errand;
use crate::device::camera;
use crate::work::seen::{GreyPicture, texts};
use crate::work::{QuestionKind, WorkerLane};

/// A picture to be read. The file goes with it; or, where a worker can't draw, its width and its points as the page drew
/// them.
#[derive(Serialize, Deserialize)]
pub struct ReadCodes;

impl Errand for ReadCodes {
    /// What its codes say; nothing where it can't be drawn here.
    type Answer = Option<Vec<String>>;
    const KIND: QuestionKind = QuestionKind {
        name: "codes in a picture",
        lane: WorkerLane::Files,
        newest: false,
    };
}

/// Reads it.
pub(super) async fn read(with: &JsValue) -> Option<Vec<String>> {
    let (wide, bytes) = match with.dyn_ref::<File>() {
        Some(file) => camera::points_unseen(file).await.ok()?,
        None => {
            let drawn: &Array = with.dyn_ref()?;
            let wide = drawn.get(0).as_f64()?;
            let bytes: Uint8Array = drawn.get(1).dyn_into().ok()?;
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a width in points")]
            let wide = wide as u32;
            (wide, bytes.to_vec())
        }
    };
    let wide = usize::try_from(wide).ok().filter(|wide| *wide > 0)?;
    Some(texts(&GreyPicture::of_colours(wide, &bytes)))
}
