//! A photo from the camera or from a file, made small. Drawing it anew leaves behind what the camera wrote
//! into the file: the place, the device, the time.

use js_sys::{Array, Function, Promise, Uint8Array};
use leptos::prelude::document;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    Blob, BlobPropertyBag, CanvasRenderingContext2d, File, HtmlCanvasElement, HtmlImageElement, Url,
};

use super::canvas::{self, fit};
use super::refusals::NoPhoto;
use crate::base::refusal::Refusal;
use crate::journal::photo::LONGEST_SIDE;

const JPEG: &str = "image/jpeg";

/// How much of the picture a JPEG keeps; more is not seen on a phone.
const QUALITY: f64 = 0.82;

/// The photo in `file` as a JPEG no larger than a screen needs, drawn by the page itself.
///
/// # Errors
/// The sentence for a file that the browser can't show.
pub async fn small(file: File) -> Result<Vec<u8>, Refusal> {
    let url = Url::create_object_url_with_blob(&file).map_err(|_| NoPhoto::Unshown)?;
    let drawn = draw(&url).await;
    // An address that is gone already needs no taking back.
    let _ = Url::revoke_object_url(&url);
    drawn.map_err(|_| NoPhoto::Unshown.into())
}

async fn draw(url: &str) -> Result<Vec<u8>, JsValue> {
    let image = HtmlImageElement::new()?;
    image.set_src(url);
    JsFuture::from(image.decode()).await?;
    let (wide, high) = fit(image.natural_width(), image.natural_height(), LONGEST_SIDE);
    let canvas: HtmlCanvasElement = document().create_element("canvas")?.dyn_into()?;
    canvas.set_width(wide);
    canvas.set_height(high);
    let pen: CanvasRenderingContext2d = canvas
        .get_context("2d")?
        .ok_or(JsValue::UNDEFINED)?
        .dyn_into()?;
    let (wide, high) = (f64::from(wide), f64::from(high));
    // A JPEG has no see-through parts.
    pen.set_fill_style_str("#fff");
    pen.fill_rect(0.0, 0.0, wide, high);
    pen.draw_image_with_html_image_element_and_dw_and_dh(&image, 0.0, 0.0, wide, high)?;
    let blob: Blob = JsFuture::from(jpeg(&canvas)?).await?.dyn_into()?;
    let buffer = JsFuture::from(blob.array_buffer()).await?;
    Ok(Uint8Array::new(&buffer).to_vec())
}

fn jpeg(canvas: &HtmlCanvasElement) -> Result<Promise, JsValue> {
    let mut asked = Ok(());
    let promise = Promise::new(&mut |yes: Function, _no: Function| {
        let take = Closure::once_into_js(move |blob: JsValue| {
            let _ = yes.call1(&JsValue::UNDEFINED, &blob);
        });
        asked = canvas.to_blob_with_type_and_encoder_options(
            take.unchecked_ref(),
            JPEG,
            &JsValue::from_f64(QUALITY),
        );
    });
    asked.map(|()| promise)
}

/// The photo in `file` as [`small`] makes it, drawn where nobody sees it: in a worker, which keeps no tap waiting.
///
/// # Errors
/// The browser's own error where it can't draw there, or can't read this file.
pub async fn drawn_unseen(file: &File) -> Result<Uint8Array, JsValue> {
    canvas::drawn(file, LONGEST_SIDE)
        .await?
        .packed(JPEG, QUALITY)
        .await
}

/// An address in this page for a JPEG in memory; [`forget`] it when it is no longer shown.
#[must_use]
pub fn address_of(jpeg: &[u8]) -> Option<String> {
    let kind = BlobPropertyBag::new();
    kind.set_type(JPEG);
    let parts = Array::of1(&Uint8Array::from(jpeg));
    let blob = Blob::new_with_u8_array_sequence_and_options(&parts, &kind).ok()?;
    Url::create_object_url_with_blob(&blob).ok()
}

/// Frees what an address stood for.
pub fn forget(address: &str) {
    // An address that is gone already needs no taking back.
    let _ = Url::revoke_object_url(address);
}
