//! A picture drawn where nobody sees it, in a worker or on the page, and what is read of it there.

use js_sys::{Array, Function, Object, Reflect, Uint8Array, Uint8ClampedArray};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, File, ImageBitmap};

use super::named::{ask, call, named};

/// A canvas of a worker.
const UNSEEN: &str = "OffscreenCanvas";
/// The browser's own reader of codes.
const READER: &str = "BarcodeDetector";

/// A picture on a canvas.
pub struct DrawnPicture {
    canvas: JsValue,
    pen: JsValue,
    wide: u32,
    high: u32,
}

/// Whether pictures can be drawn here: a worker of an older browser has no canvas.
#[must_use]
pub fn is_here() -> bool {
    let global = js_sys::global();
    named(&global, UNSEEN).is_some() || named(&global, "document").is_some()
}

/// The first bytes of a file, `most` of them.
///
/// # Errors
/// The browser's own, where it can't read the file.
pub async fn head(file: &File, most: u32) -> Result<Vec<u8>, JsValue> {
    let head = file.slice_with_i32_and_i32(0, most.try_into().unwrap_or(i32::MAX))?;
    let buffer = JsFuture::from(head.array_buffer()).await?;
    Ok(Uint8Array::new(&buffer).to_vec())
}

/// Draws the picture of a file, no longer than `longest` points.
///
/// # Errors
/// The browser's own, where it can't show the file.
pub async fn drawn(file: &File, longest: u32) -> Result<DrawnPicture, JsValue> {
    let global = js_sys::global();
    let picture: ImageBitmap = ask(&global, "createImageBitmap", &[file.into()])
        .await?
        .dyn_into()?;
    let (wide, high) = fit(picture.width(), picture.height(), longest);
    let drawn = put(&picture, wide, high);
    picture.close();
    drawn
}

/// Draws what a video shows at this moment, no longer than `longest` points; nothing while it shows nothing.
#[must_use]
pub fn of_video(video: &JsValue, longest: u32) -> Option<DrawnPicture> {
    let side = |name: &str| {
        let side = Reflect::get(video, &name.into()).ok()?.as_f64()?;
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let side = side as u32;
        (side > 0).then_some(side)
    };
    let (wide, high) = fit(side("videoWidth")?, side("videoHeight")?, longest);
    put(video, wide, high).ok()
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

fn put(picture: &JsValue, wide: u32, high: u32) -> Result<DrawnPicture, JsValue> {
    let canvas = canvas(wide, high)?;
    let pen = call(&canvas, "getContext", &["2d".into()])?;
    // What can be seen through lies on paper.
    Reflect::set(&pen, &"fillStyle".into(), &"#fff".into())?;
    Reflect::set(&pen, &"imageSmoothingQuality".into(), &"high".into())?;
    let [left, top, right, bottom] = [0, 0, wide, high].map(JsValue::from);
    let all = [left, top, right, bottom];
    call(&pen, "fillRect", &all)?;
    let [left, top, right, bottom] = all;
    let put = [picture.clone(), left, top, right, bottom];
    call(&pen, "drawImage", &put)?;
    Ok(DrawnPicture {
        canvas,
        pen,
        wide,
        high,
    })
}

fn canvas(wide: u32, high: u32) -> Result<JsValue, JsValue> {
    let global = js_sys::global();
    if let Some(class) = named(&global, UNSEEN) {
        let class: Function = class.dyn_into()?;
        return Reflect::construct(&class, &Array::of2(&wide.into(), &high.into()));
    }
    let document = named(&global, "document").ok_or(JsValue::UNDEFINED)?;
    let canvas = call(&document, "createElement", &["canvas".into()])?;
    Reflect::set(&canvas, &"width".into(), &wide.into())?;
    Reflect::set(&canvas, &"height".into(), &high.into())?;
    Ok(canvas)
}

impl DrawnPicture {
    /// Width, height, and four bytes a point: red, green, blue and how solid it is.
    ///
    /// # Errors
    /// The browser's own, where it has no room for them.
    pub fn colours(&self) -> Result<(usize, usize, Vec<u8>), JsValue> {
        let all = [0, 0, self.wide, self.high].map(JsValue::from);
        let held = call(&self.pen, "getImageData", &all)?;
        let colours: Uint8ClampedArray = Reflect::get(&held, &"data".into())?.dyn_into()?;
        let side = |side: u32| usize::try_from(side).unwrap_or(0);
        Ok((side(self.wide), side(self.high), colours.to_vec()))
    }

    /// As a file of a kind such as `image/jpeg`, of a quality from 0 to 1.
    ///
    /// # Errors
    /// The browser's own, where its canvas can't be packed unseen.
    pub async fn packed(&self, kind: &str, quality: f64) -> Result<Uint8Array, JsValue> {
        let wanted = Object::new();
        Reflect::set(&wanted, &"type".into(), &kind.into())?;
        Reflect::set(&wanted, &"quality".into(), &quality.into())?;
        let blob: Blob = ask(&self.canvas, "convertToBlob", &[wanted.into()])
            .await?
            .dyn_into()?;
        Ok(Uint8Array::new(&JsFuture::from(blob.array_buffer()).await?))
    }

    /// The texts of the QR codes that the browser's own reader finds; none where it has none.
    pub async fn read_by_browser(&self) -> Vec<String> {
        self.asked().await.unwrap_or_default()
    }

    async fn asked(&self) -> Result<Vec<String>, JsValue> {
        let class: Function = named(&js_sys::global(), READER)
            .ok_or(JsValue::UNDEFINED)?
            .dyn_into()?;
        let wanted = Object::new();
        let formats = Array::of1(&"qr_code".into());
        Reflect::set(&wanted, &"formats".into(), &formats)?;
        let reader = Reflect::construct(&class, &Array::of1(&wanted))?;
        let found = ask(&reader, "detect", std::slice::from_ref(&self.canvas)).await?;
        let found: Array = found.dyn_into()?;
        let texts = found
            .iter()
            .filter_map(|code| Reflect::get(&code, &"rawValue".into()).ok()?.as_string());
        Ok(texts.collect())
    }
}
