//! Pictures of codes, several at once or one after the other: each is looked through beside the page, adds what it holds to
//! the class at once, and is told of by its number.

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::File;

use super::intake::Intaking;
use crate::class::intake::Intake;
use crate::class::result::ClassResult;
use crate::code::find::find;
use crate::device::photo;
use crate::errand::qr::{ReadPicture, drawn_here};
use crate::session::asked;

/// How many letters of a file's name are shown.
const SHOWN: usize = 30;

/// A picture that was chosen.
#[derive(Clone)]
struct Chosen {
    number: usize,
    name: String,
    /// What came of it, once it has been looked through.
    outcome: RwSignal<Option<PictureOutcome>>,
}

/// What came of a picture, in words, and how many codes it added.
#[derive(Clone)]
pub(super) struct PictureOutcome {
    said: String,
    pub(super) new: usize,
    is_fault: bool,
}

impl PictureOutcome {
    /// What is said of it, after what it is called.
    pub(super) fn line(&self, of: &str) -> impl IntoView + use<> {
        let class = if self.is_fault { "fault" } else { "" };
        view! { <p class=class>{format!("{of}{}", self.said)}</p> }
    }
}

/// The field for pictures.
pub(super) fn field(desk: Intaking) -> AnyView {
    let all = RwSignal::new(Vec::<Chosen>::new());
    let read = move |files: Vec<File>| {
        let before = all.with_untracked(Vec::len);
        let chosen = (before + 1..).zip(&files).map(|(number, file)| Chosen {
            number,
            name: file.name().chars().take(SHOWN).collect(),
            outcome: RwSignal::new(None),
        });
        let chosen: Vec<Chosen> = chosen.collect();
        // All are asked for at once: who reads them stays for all of them.
        for (picture, file) in chosen.iter().zip(files) {
            let outcome = picture.outcome;
            spawn_local(async move {
                let texts = texts(file).await;
                // The screen may have gone meanwhile.
                if outcome.try_get_untracked().is_some() {
                    outcome.set(Some(taken(desk, texts)));
                }
            });
        }
        all.update(|all| {
            all.splice(0..0, chosen);
        });
    };
    view! {
        <label class="btn plain pick">
            <input id="pictures" type="file" accept="image/*" multiple aria-describedby="pictures-hint"
                on:change:target=move |event| read(photo::all_chosen(&event.target()))/>
            {move || if all.with(Vec::is_empty) { "Read pictures of QR codes" } else { "Read more pictures" }}
        </label>
        <p class="hint soft small" id="pictures-hint">"Screenshots or photos, one or several. They are read on this phone, and none is kept."</p>
        <div role="status">{move || all.with(|all| summary(all))}</div>
        // A list with nothing in it is none.
        {move || all.with(|all| (!all.is_empty()).then(|| view! { <ul class="plain-list">{all.iter().map(line).collect_view()}</ul> }))}
    }
    .into_any()
}

fn summary(all: &[Chosen]) -> Option<AnyView> {
    let outcomes: Vec<PictureOutcome> = all.iter().filter_map(|one| one.outcome.get()).collect();
    let new: usize = outcomes.iter().map(|outcome| outcome.new).sum();
    let said = match (outcomes.len(), all.len()) {
        (_, 0) => return None,
        (read, of) if read < of => format!("Reading picture {} of {of}…", read + 1),
        (_, of) => {
            let pictures = if of == 1 { "picture" } else { "pictures" };
            let codes = if new == 1 { "code" } else { "codes" };
            format!("{new} {codes} added from {of} {pictures}.")
        }
    };
    Some(view! { <p><b>{said}</b></p> }.into_any())
}

fn line(picture: &Chosen) -> AnyView {
    let Chosen {
        number,
        name,
        outcome,
    } = picture.clone();
    view! {
        <li class="breaks">
            {move || {
                let of = format!("Picture {number}: ");
                match outcome.get() {
                    None => view! { <p class="soft">{of}"waits…"</p> }.into_any(),
                    Some(outcome) => outcome.line(&of).into_any(),
                }
            }}
            <small class="soft">{name}</small>
        </li>
    }
    .into_any()
}

/// The texts in a picture, or why it was not looked through.
async fn texts(file: File) -> Result<Vec<String>, String> {
    const BROKEN_OFF: &str =
        "reading it was broken off. Take it again, straight on, with nothing else in it.";
    let answer = match asked::send(&ReadPicture::File, file.clone().into()).await {
        // The worker of this browser can't draw: the page does, and no more than that.
        Some((Ok(None), _)) => {
            let (question, grey) = drawn_here(&file).await.map_err(|why| why.to_string())?;
            asked::send(&question, grey).await
        }
        answer => answer,
    };
    match answer {
        Some((Ok(texts), _)) => Ok(texts.unwrap_or_default()),
        Some((Err(why), _)) => Err(why.to_string()),
        None => Err(BROKEN_OFF.to_owned()),
    }
}

/// Adds what a picture holds to the class, and says what came of it.
pub(super) fn taken(desk: Intaking, texts: Result<Vec<String>, String>) -> PictureOutcome {
    let fault = |said: String| PictureOutcome {
        said,
        new: 0,
        is_fault: true,
    };
    let texts = match texts {
        Ok(texts) if texts.is_empty() => {
            return fault(
                "no code in it. Take it again, closer, straight on and with more light.".to_owned(),
            );
        }
        Ok(texts) => texts,
        Err(why) => return fault(why),
    };
    let Some(known) = desk.known() else {
        return fault("this class is gone.".to_owned());
    };
    let findings = find(&texts.join("\n"));
    let students: Vec<String> = findings
        .found
        .iter()
        .map(|found| ClassResult::of(found.opened.clone()).student())
        .collect();
    let intake = Intake::of(findings, known);
    if let Err(why) = desk.add(&intake) {
        return fault(why.to_string());
    }
    let said = match (intake.refused.first(), students.is_empty()) {
        (Some(refused), true) => return fault(format!("its code does not open. {}", refused.why)),
        (None, true) => return fault("its QR code is no result.".to_owned()),
        (_, false) if intake.new == 0 => format!("{}, here already.", students.join(", ")),
        (_, false) => format!("{}, added.", students.join(", ")),
    };
    PictureOutcome {
        said,
        new: intake.new,
        is_fault: false,
    }
}
