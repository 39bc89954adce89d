//! The photos of one record, and the way to add one.

use js_sys::Uint8Array;
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::{File, HtmlInputElement};

use super::sure::sure;
use crate::base::refusal::Refusal;
use crate::device::photos::NoPhoto;
use crate::device::{camera, clock, photo, photos};
use crate::errand::photo::MakeSmall;
use crate::journal::photo::PhotoName;
use crate::session::asked;
use crate::session::drawer::identity;

/// A photo on the screen: its name, and an address of it in this page.
type Shown = (PhotoName, String);

/// The photos of one record. Copied freely: it holds only handles.
#[derive(Clone, Copy)]
pub struct Photos {
    opening: StoredValue<(String, String)>,
    shown: RwSignal<Vec<Shown>>,
    said: RwSignal<Option<String>>,
    busy: RwSignal<bool>,
}

impl Photos {
    /// The photos of the record `id` of a kind, looked for at once.
    #[must_use]
    pub fn of(kind: &str, id: String) -> Self {
        let photos = Self {
            opening: StoredValue::new((kind.to_owned(), id)),
            shown: RwSignal::new(Vec::new()),
            said: RwSignal::new(None),
            busy: RwSignal::new(false),
        };
        on_cleanup(move || {
            let shown = photos.shown.try_update(std::mem::take);
            for (_, address) in shown.unwrap_or_default() {
                camera::forget(&address);
            }
        });
        spawn_local(async move {
            let outcome = photos.look().await;
            photos.done(outcome);
        });
        photos
    }

    async fn look(self) -> Result<(), Refusal> {
        let (kind, id) = self.opening.try_get_value().unwrap_or_default();
        let mut outcome = Ok(());
        for name in photos::names(&PhotoName::opening(&kind, &id)).await? {
            match photos::get(&name).await {
                Ok(Some(jpeg)) => self.show(name, &jpeg),
                Ok(None) => {}
                // The next one would be waited for as long.
                Err(NoPhoto::Silent) => return Err(NoPhoto::Silent.into()),
                // One that is damaged hides no other.
                Err(why) => outcome = Err(why.into()),
            }
        }
        outcome
    }

    fn show(self, name: PhotoName, jpeg: &[u8]) {
        if let Some(address) = camera::address_of(jpeg) {
            // The screen may have gone while the photo was fetched.
            let kept = self
                .shown
                .try_update(|shown| shown.push((name, address.clone())));
            if kept.is_none() {
                camera::forget(&address);
            }
        }
    }

    fn take(self, field: &HtmlInputElement) {
        let Some(file) = photo::chosen(field) else {
            return;
        };
        let (kind, id) = self.opening.get_value();
        self.busy.set(true);
        spawn_local(async move {
            let outcome = async {
                let jpeg = small(file).await?;
                let photo = identity(clock::now());
                let name = PhotoName { kind, id, photo };
                photos::keep(&name, &jpeg).await?;
                self.show(name, &jpeg);
                Ok(())
            };
            let outcome = outcome.await;
            self.done(outcome);
        });
    }

    fn remove(self, name: PhotoName) {
        spawn_local(async move {
            let outcome = photos::remove(&name.to_string()).await;
            if outcome.is_ok() {
                self.shown
                    .try_update(|shown| shown.retain(|(other, _)| *other != name));
            }
            self.done(outcome);
        });
    }

    fn done(self, outcome: Result<(), Refusal>) {
        self.busy.try_set(false);
        self.said
            .try_set(outcome.err().map(|refusal| refusal.to_string()));
    }

    /// The button that takes or chooses a photo.
    pub fn add(self) -> AnyView {
        view! {
            <label class="btn main tall next noprint">
                <input id="photo" class="unseen" type="file" accept="image/*" prop:disabled=move || self.busy.get()
                    on:change:target=move |event| self.take(&event.target())/>
                {move || if self.busy.get() { "Making it small…" } else { "Add a photo" }}
            </label>
        }
        .into_any()
    }

    /// The photos themselves, each with a way to take it out.
    pub fn list(self, of: Signal<String>) -> AnyView {
        view! {
            <div role="status">{move || self.said.get().map(|said| view! { <p class="fault">{said}</p> })}</div>
            <ul class="photos">
                <For each=move || self.shown.get() key=|(name, _)| name.to_string() let:photo>
                    {photo_view(self, photo, of)}
                </For>
            </ul>
        }
        .into_any()
    }
}

/// The photo in `file` made small: beside the page, or by the page itself where that can't be.
async fn small(file: File) -> Result<Vec<u8>, Refusal> {
    match asked::send(&MakeSmall, file.clone().into()).await {
        Some((true, jpeg)) => Ok(Uint8Array::from(jpeg).to_vec()),
        _ => camera::small(file).await,
    }
}

fn photo_view(photos: Photos, (name, address): Shown, of: Signal<String>) -> AnyView {
    view! {
        <li>
            <img src=address alt=move || format!("Photo of {}", of.get())/>
            {sure(
                "Take this photo out…",
                "A photo does not go into the bin: this takes it off the phone.",
                "Take it out",
                Callback::new(move |()| photos.remove(name.clone())),
            )}
        </li>
    }
    .into_any()
}
