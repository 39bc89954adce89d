//! The camera held over one phone or card after another: each code that comes into its picture is added to the class at
//! once. Nothing of what it sees is kept.

use std::collections::HashSet;

use leptos::html::{Dialog, Video};
use leptos::prelude::*;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::spawn_local;

use super::intake::Intaking;
use super::pictures::{PictureOutcome, taken};
use crate::device::canvas::DrawnPicture;
use crate::device::live_camera::LiveCamera;
use crate::device::turns;
use crate::errand::qr::seen_by_camera;
use crate::session::asked;

/// The longest side of what is looked at, in points: as many pictures as can be rather than fine ones.
const LONGEST_SIDE: u32 = 800;
const WHAT_TO_DO: &str = "Hold the camera over a QR code";
/// How many of the last codes stand below the picture.
const SHOWN: usize = 3;

/// The camera while it looks for codes.
#[derive(Clone, Copy)]
struct Lookout {
    desk: Intaking,
    dialog: NodeRef<Dialog>,
    /// What came of each code, the newest first.
    outcomes: RwSignal<Vec<PictureOutcome>>,
    refused: RwSignal<Option<String>>,
}

/// The button that opens the camera; nothing where a page can't ask for one.
pub(super) fn field(desk: Intaking) -> AnyView {
    if !LiveCamera::can_be_asked() {
        return ().into_any();
    }
    let lookout = Lookout {
        desk,
        dialog: NodeRef::new(),
        outcomes: RwSignal::new(Vec::new()),
        refused: RwSignal::new(None),
    };
    let dialog = lookout.dialog;
    let on = RwSignal::new(false);
    let open = move |_| {
        lookout.outcomes.set(Vec::new());
        lookout.refused.set(None);
        on.set(true);
        if let Some(dialog) = dialog.get_untracked() {
            // Refused where the page is being left: then there is nobody to look.
            let _ = dialog.show_modal();
        }
    };
    let shown = move || {
        on.get().then(|| {
            view! {
                <p class="lead">{WHAT_TO_DO}</p>
                {lookout.view()}
                <button class="btn main" on:click=move |_| lookout.close()>"Done"</button>
            }
        })
    };
    view! {
        <button class="btn plain" on:click=open>"Hold the camera over codes"</button>
        <dialog node_ref=dialog class="live" aria-label=WHAT_TO_DO on:close=move |_| on.set(false)>{shown}</dialog>
    }
    .into_any()
}

impl Lookout {
    fn view(self) -> AnyView {
        let video = NodeRef::<Video>::new();
        // Gone with what is shown here: the camera is closed, or the screen left.
        let shown = RwSignal::new(());
        Effect::new(move |_| {
            if let Some(video) = video.get() {
                let is_shown = move || shown.try_get_untracked().is_some();
                spawn_local(self.look(video.into(), is_shown));
            }
        });
        let told = move || {
            let refused = self.refused.get();
            if let Some(sentence) = refused {
                return view! { <p class="fault">{sentence}</p> }.into_any();
            }
            self.outcomes.with(|outcomes| {
                let new: usize = outcomes.iter().map(|outcome| outcome.new).sum();
                let codes = if new == 1 { "code" } else { "codes" };
                let lines = outcomes.iter().take(SHOWN).map(|outcome| outcome.line(""));
                view! {
                    <p><b>{format!("{new} {codes} added.")}</b></p>
                    {lines.collect_view()}
                }
                .into_any()
            })
        };
        view! {
            <video node_ref=video muted=true playsinline=true aria-label="What the camera sees"></video>
            <div role="status" class="told">{told}</div>
        }
        .into_any()
    }

    fn close(self) {
        if let Some(dialog) = self.dialog.try_get_untracked().flatten() {
            dialog.close();
        }
    }

    /// Looks for as long as somebody holds the camera over codes.
    async fn look(self, video: JsValue, is_shown: impl Fn() -> bool) {
        let camera = match LiveCamera::open(video).await {
            Ok(camera) => camera,
            Err(why) => {
                let _ = self.refused.try_set(Some(why.to_string()));
                return;
            }
        };
        let mut known = HashSet::new();
        let mut nth = 0;
        while is_shown() {
            // Who locked the phone comes back to the button: nothing looks meanwhile.
            if document().hidden() {
                return self.close();
            }
            if !camera.is_on() {
                let ended = "The camera has stopped. Close this and open it again.";
                let _ = self.refused.try_set(Some(ended.to_owned()));
                return;
            }
            for text in read(camera.picture(LONGEST_SIDE), nth).await {
                // Held over the same one it says so once.
                if is_shown() && known.insert(text.clone()) {
                    let outcome = taken(self.desk, Ok(vec![text]));
                    self.outcomes.update(|all| all.insert(0, outcome));
                }
            }
            nth += 1;
            turns::rest().await;
        }
    }
}

/// The texts in the `nth` picture that a camera sees, by the browser's reader where it has one.
async fn read(drawn: Option<DrawnPicture>, nth: usize) -> Vec<String> {
    let Some(drawn) = drawn else {
        return Vec::new();
    };
    let texts = drawn.read_by_browser().await;
    if !texts.is_empty() {
        return texts;
    }
    let Some((question, grey)) = seen_by_camera(&drawn, nth) else {
        return Vec::new();
    };
    let answer = asked::send(&question, grey).await;
    answer
        .and_then(|(texts, _)| texts.ok()?)
        .unwrap_or_default()
}
