//! A question answered, wherever it runs: in the worker beside the page, or on the page where there is no worker.
//! What needs the browser's files or its photos stands here; everything else is worked out in [`crate::work`].

pub mod backup;
pub mod beside;
pub mod photo;
pub mod qr;
mod refusals;
pub mod restore;
mod snapshot;

use serde::Serialize;
use serde::de::DeserializeOwned;
use wasm_bindgen::JsValue;

use crate::class::intake::Intake;
use crate::code::find::CodeSearch;
use crate::device::turns::Turn;
use crate::work;
use crate::work::codes::Pasted;
use crate::work::{Ask, QuestionKind};

/// Words of a text looked at before the time is asked for: a hundredth of a second on a slow phone.
const WORDS: usize = 30;

/// A question that takes the browser's own things along, as the second of two.
pub trait Errand: Serialize + DeserializeOwned {
    /// What is said in answer.
    type Answer: Serialize + DeserializeOwned;
    /// Which kind of question it is.
    const KIND: QuestionKind;
}

/// Answers a question of the kind `name`; nothing for what is no such question. Pictures of codes are looked through by
/// [`qr::run`]: what reads them is large, and comes only when there is one.
pub async fn run(name: &str, text: &str, with: &JsValue) -> Option<(String, JsValue)> {
    const BACKUP: &str = backup::Make::KIND.name;
    const LOOK: &str = restore::LookAt::KIND.name;
    const PHOTOS: &str = restore::KeepPhotos::KIND.name;
    const SMALL: &str = photo::MakeSmall::KIND.name;
    const PASTE: &str = Pasted::KIND.name;
    match name {
        SMALL => {
            let (is_done, jpeg) = photo::make_small(with).await;
            Some((said(&is_done)?, jpeg))
        }
        BACKUP => {
            let (answer, file) = backup::make(read(text)?, with).await;
            Some((said(&answer)?, file))
        }
        LOOK => plain(&restore::look(read(text)?, with).await),
        PHOTOS => plain(&restore::keep_photos(read(text)?, with).await),
        PASTE => plain(&pasted(read(text)?).await),
        _ => Some((work::answer(name, text)?, JsValue::UNDEFINED)),
    }
}

/// As [`Pasted::answer`] does, with pauses: on the page a long text would keep every tap waiting.
async fn pasted(asked: Pasted) -> Intake {
    let mut search = CodeSearch::of(&asked.text);
    let mut turn = Turn::begin();
    while search.go_on(WORDS) {
        turn.pause().await;
    }
    Intake::of(search.findings(), asked.known)
}

fn read<T: DeserializeOwned>(text: &str) -> Option<T> {
    serde_json::from_str(text).ok()
}

fn said<T: Serialize>(answer: &T) -> Option<String> {
    serde_json::to_string(answer).ok()
}

fn plain<T: Serialize>(answer: &T) -> Option<(String, JsValue)> {
    Some((said(answer)?, JsValue::UNDEFINED))
}
