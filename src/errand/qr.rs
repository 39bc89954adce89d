//! A picture looked through for QR codes: drawn no larger than needed, read by the browser where it has a reader, and else
//! by the app's own.

use js_sys::Uint8Array;
use serde::{Deserialize, Serialize};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::File;

use super::Errand;
use super::refusals::NoPicture;
use crate::base::refusal::Refusal;
use crate::code::picture::{self, GreyPicture, HEAD, LONGEST_SIDE, MOST_POINTS};
use crate::device::canvas::{self, DrawnPicture};
use crate::work::{QuestionKind, WorkerLane};

/// The longest file that is opened, in bytes.
const MOST_BYTES: f64 = 60e6;

/// A picture to be looked through.
#[derive(Serialize, Deserialize)]
pub enum ReadPicture {
    /// The file goes with it.
    File,
    /// It is drawn already; its grey values go with it.
    Drawn {
        /// Its width in points.
        wide: usize,
        /// Its height.
        high: usize,
        /// Which one of its looks is enough, for one of many that a camera sees; all of them where none is named.
        look: Option<usize>,
    },
}

impl Errand for ReadPicture {
    /// The texts of the codes in it; nothing where the page has to draw it.
    type Answer = Result<Option<Vec<String>>, Refusal>;
    const KIND: QuestionKind = QuestionKind {
        name: "a picture looked through",
        lane: WorkerLane::Pictures,
        newest: false,
    };
}

/// Answers a question about a picture; nothing for what is no such question.
pub async fn run(name: &str, text: &str, with: &JsValue) -> Option<(String, JsValue)> {
    if name != ReadPicture::KIND.name {
        return None;
    }
    super::plain(&look_through(super::read(text)?, with).await)
}

async fn look_through(asked: ReadPicture, with: &JsValue) -> Result<Option<Vec<String>>, Refusal> {
    let (grey, look) = match asked {
        ReadPicture::Drawn { wide, high, look } => {
            let light = Uint8Array::new(with).to_vec();
            (GreyPicture::new(wide, high, light), look)
        }
        ReadPicture::File => {
            let file: &File = with.dyn_ref().ok_or(NoPicture::Unshown)?;
            check(file).await?;
            if !canvas::is_here() {
                return Ok(None);
            }
            let drawn = shown(file).await?;
            let texts = drawn.read_by_browser().await;
            if !texts.is_empty() {
                return Ok(Some(texts));
            }
            (grey(&drawn), None)
        }
    };
    // What is too small to look through has no code in it.
    let texts = grey.map(|grey| look.map_or_else(|| grey.texts(), |nth| grey.texts_at(nth)));
    Ok(Some(texts.unwrap_or_default()))
}

/// The question about a picture that the page draws itself, and what goes with it.
///
/// # Errors
/// The sentence for what the browser can't show.
pub async fn drawn_here(file: &File) -> Result<(ReadPicture, JsValue), Refusal> {
    let asked = question(&shown(file).await?, None);
    Ok(asked.ok_or(NoPicture::Unshown)?)
}

/// The question about the `nth` of many pictures that a camera sees, and what goes with it; nothing for one that can't be looked
/// through.
#[must_use]
pub fn seen_by_camera(drawn: &DrawnPicture, nth: usize) -> Option<(ReadPicture, JsValue)> {
    question(drawn, Some(nth))
}

fn question(drawn: &DrawnPicture, look: Option<usize>) -> Option<(ReadPicture, JsValue)> {
    let grey = grey(drawn)?;
    let (wide, high, light) = grey.parts();
    let asked = ReadPicture::Drawn { wide, high, look };
    Some((asked, Uint8Array::from(light).into()))
}

/// Refuses what would take more memory than a phone has to spare, before any of it is opened.
async fn check(file: &File) -> Result<(), NoPicture> {
    if file.size() < 1.0 {
        return Err(NoPicture::Empty);
    }
    if file.size() > MOST_BYTES {
        return Err(NoPicture::TooLong);
    }
    let head = canvas::head(file, HEAD).await;
    let points = head.ok().and_then(|head| picture::points(&head));
    match points.ok_or(NoPicture::Unshown)? {
        points if points > MOST_POINTS => Err(NoPicture::TooLarge(points / 1_000_000)),
        _ => Ok(()),
    }
}

async fn shown(file: &File) -> Result<DrawnPicture, NoPicture> {
    let drawn = canvas::drawn(file, LONGEST_SIDE).await;
    drawn.map_err(|_| NoPicture::Unshown)
}

fn grey(drawn: &DrawnPicture) -> Option<GreyPicture> {
    let (wide, high, colours) = drawn.colours().ok()?;
    GreyPicture::of_colours(wide, high, &colours)
}
