//! A photo from the camera or from a file, made small. Drawing it anew leaves behind what the camera wrote
//! into the file: the place, the device, the time.

use js_sys::{Array, Function, Object, Promise, Reflect, Uint8Array};
use leptos::prelude::document;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    Blob, BlobPropertyBag, CanvasRenderingContext2d, File, HtmlCanvasElement, HtmlImageElement,
    ImageBitmap, Url,
};

use super::named::{ask, call, named};
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
    let picture: ImageBitmap = ask(&js_sys::global(), "createImageBitmap", &[file.into()])
        .await?
        .dyn_into()?;
    let (wide, high) = fit(picture.width(), picture.height(), LONGEST_SIDE);
    let class: Function = named(&js_sys::global(), "OffscreenCanvas")
        .ok_or(JsValue::UNDEFINED)?
        .dyn_into()?;
    let canvas = Reflect::construct(&class, &Array::of2(&wide.into(), &high.into()))?;
    let pen = call(&canvas, "getContext", &["2d".into()])?;
    Reflect::set(&pen, &"fillStyle".into(), &"#fff".into())?;
    let all = [0.into(), 0.into(), wide.into(), high.into()];
    call(&pen, "fillRect", &all)?;
    let [left, top, wide, high] = all;
    call(
        &pen,
        "drawImage",
        &[(&picture).into(), left, top, wide, high],
    )?;
    picture.close();
    let kind = Object::new();
    Reflect::set(&kind, &"type".into(), &JPEG.into())?;
    Reflect::set(&kind, &"quality".into(), &QUALITY.into())?;
    let blob: Blob = ask(&canvas, "convertToBlob", &[kind.into()])
        .await?
        .dyn_into()?;
    Ok(Uint8Array::new(&JsFuture::from(blob.array_buffer()).await?))
}

/// Width and height of a picture that is made no longer than `most`, never larger.
pub(super) fn fit(wide: u32, high: u32, most: u32) -> (u32, u32) {
    let longest = wide.max(high).max(1);
    if longest <= most {
        return (wide.max(1), high.max(1));
    }
    let scaled = |side: u32| {
        let side = u64::from(side) * u64::from(most) / u64::from(longest);
        u32::try_from(side).unwrap_or(most).max(1)
    };
    (scaled(wide), scaled(high))
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
