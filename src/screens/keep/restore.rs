//! A backup: looked at before anything is changed, put in, and taken back if it was the wrong one.

use js_sys::Array;
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::{File, HtmlInputElement};

use super::refusals::NoRestore;
use crate::base::refusal::Refusal;
use crate::device::storage::LocalShelf;
use crate::device::turns::{Turn, rest};
use crate::device::{build, clock, launch, photo, photos, tabs};
use crate::errand::restore::{KeepPhotos, Look, LookAt};
use crate::journal::photo::PhotoName;
use crate::keep::backup::last::LastRestore;
use crate::keep::backup::merge;
use crate::keep::backup::merge::Effect;
use crate::keep::kind::Kind;
use crate::parts::backup::counted;
use crate::parts::page::{Page, back_to};
use crate::place::Place;
use crate::session::{asked, gathered};
use crate::store::keys;

/// What was done.
#[derive(Clone)]
struct Done {
    /// How to take it back.
    last: LastRestore,
    /// So many entries were put in.
    entries: usize,
    failed: Option<String>,
    /// Why it can only be taken back while this page is open.
    unkept: Option<String>,
}

/// How far it has come.
#[derive(Clone)]
enum Stand {
    Choosing,
    Reading,
    Looking(Look),
    PuttingIn(usize, usize),
    PutIn(Done),
    TakenBack,
}

/// A restore on its screen.
#[derive(Clone, Copy)]
struct Restoring {
    file: StoredValue<Option<File>, LocalStorage>,
    stand: RwSignal<Stand>,
    refused: RwSignal<Option<String>>,
}

/// Putting a backup in.
pub fn screen() -> AnyView {
    let desk = Restoring {
        file: StoredValue::new_local(None),
        stand: RwSignal::new(Stand::Choosing),
        refused: RwSignal::new(None),
    };
    // A backup that was opened with this app from among the phone's files.
    launch::on_file(move |file| desk.take(file));
    let looking = move || {
        desk.stand
            .with(|stand| matches!(stand, Stand::Looking(look) if does_something(look)))
    };
    view! {
        <Page title="Restore" above="What is kept" dock=move || view! {
            {back_to(&Place::Kept)}
            {move || looking().then(|| view! {
                <button class="btn main tall next" on:click=move |_| desk.put_in()>"Put it in"</button>
            })}
        }>
            <p class="soft">"Choose a backup file. You see first what it would do; nothing on this phone is lost by it."</p>
            <div role="alert">{move || desk.refused.get().map(|said| view! { <p class="fault">{said}</p> })}</div>
            {move || desk.stand.with(|stand| desk.view(stand))}
        </Page>
    }
    .into_any()
}

/// How many of its records would do this.
fn count(look: &Look, effect: Effect) -> usize {
    let lines = look.lines.iter();
    lines.filter(|line| line.effect == effect).count()
}

fn does_something(look: &Look) -> bool {
    !look.photos.is_empty() || look.lines.iter().any(|line| line.effect != Effect::Same)
}

impl Restoring {
    fn take(self, file: File) {
        // The screen may have been left meanwhile.
        if self.stand.try_set(Stand::Reading).is_some() {
            return;
        }
        self.refused.set(None);
        spawn_local(async move {
            let looked = self.look(file).await;
            match looked {
                Ok(look) => self.stand.try_set(Stand::Looking(look)),
                Err(refusal) => {
                    self.refused.try_set(Some(refusal.to_string()));
                    self.stand.try_set(Stand::Choosing)
                }
            };
        });
    }

    async fn look(self, file: File) -> Result<Look, Refusal> {
        let look = LookAt {
            build: build::number(),
        };
        let with = Array::of2(&file, &gathered::shelf().await.into());
        let answer = asked::send(&look, with.into()).await;
        let (look, _) = answer.ok_or(NoRestore::Unread)?;
        self.file.try_update_value(|kept| *kept = Some(file));
        look
    }

    fn put_in(self) {
        let Stand::Looking(look) = self.stand.get_untracked() else {
            return;
        };
        spawn_local(async move {
            match self.put_all_in(look).await {
                Ok(done) => {
                    self.stand.try_set(Stand::PutIn(done));
                }
                Err(refusal) => {
                    self.refused.try_set(Some(refusal.to_string()));
                }
            }
        });
    }

    async fn put_all_in(self, look: Look) -> Result<Done, Refusal> {
        let planned = LastRestore {
            made: look.made,
            at: clock::now(),
            undos: merge::undos(&LocalShelf, build::number(), &look.lines)?,
            photos: look.photos.iter().map(ToString::to_string).collect(),
        };
        let (last, unkept) = match planned.keep(&LocalShelf, build::number()) {
            Ok(last) => (last, None),
            Err((last, fault)) => (last, Some(fault.to_string())),
        };
        let mut done = Done {
            last,
            entries: 0,
            failed: None,
            unkept,
        };
        let all = look.lines.len();
        self.stand.try_set(Stand::PuttingIn(0, all));
        rest().await;
        let mut turn = Turn::begin();
        for (nth, line) in look.lines.iter().enumerate() {
            if turn.pause().await {
                self.stand.try_set(Stand::PuttingIn(nth, all));
            }
            match merge::put_in(&LocalShelf, build::number(), line, clock::now()) {
                Ok(true) => {
                    tabs::tell_this(&keys::of(&line.kind, &line.id));
                    done.entries = done.entries.saturating_add(1);
                }
                Ok(false) => {}
                Err(refusal) => done.failed = Some(refusal.to_string()),
            }
        }
        if let Err(refusal) = self.put_photos_in(look.photos).await {
            done.failed = Some(refusal.to_string());
        }
        Ok(done)
    }

    async fn put_photos_in(self, missing: Vec<PhotoName>) -> Result<(), Refusal> {
        let Some(Some(file)) = self.file.try_get_value() else {
            return Ok(());
        };
        if missing.is_empty() {
            return Ok(());
        }
        let answer = asked::send(&KeepPhotos(missing), file.into()).await;
        answer.ok_or(NoRestore::PhotosLeftOut)?.0
    }

    fn take_back(self, last: LastRestore) {
        spawn_local(async move {
            let mut failed = None;
            let mut turn = Turn::begin();
            for undo in last.undos.iter().rev() {
                turn.pause().await;
                match merge::take_back(&LocalShelf, build::number(), undo, clock::now()) {
                    Ok(()) => tabs::tell_this(&keys::of(&undo.kind, &undo.id)),
                    Err(refusal) => failed = Some(refusal.to_string()),
                }
            }
            for name in last.loose_photos() {
                if let Err(refusal) = photos::remove(&name.to_string()).await {
                    failed = Some(refusal.to_string());
                }
            }
            if failed.is_none() {
                // What stays is taken back to the same once more.
                let _ = last.forget(&LocalShelf, build::number());
                self.stand.try_set(Stand::TakenBack);
            }
            self.refused.try_set(failed);
        });
    }

    fn view(self, stand: &Stand) -> AnyView {
        match stand {
            Stand::Choosing => view! {
                {self.chooser()}
                {self.last()}
            }
            .into_any(),
            Stand::Reading => view! { <p role="status">"Reading the file…"</p> }.into_any(),
            Stand::Looking(look) => looked(look),
            Stand::PuttingIn(nth, all) => {
                view! { <p role="status">{format!("{nth} of {all}…")}</p> }.into_any()
            }
            Stand::PutIn(done) => self.put(done.clone()),
            Stand::TakenBack => view! {
                <p role="status">"Everything is as it was before."</p>
                {self.chooser()}
            }
            .into_any(),
        }
    }

    fn chooser(self) -> AnyView {
        let chosen = move |field: &HtmlInputElement| {
            if let Some(file) = photo::chosen(field) {
                self.take(file);
            }
        };
        view! {
            <label class="btn main tall">
                <input id="backup" class="unseen" type="file" accept=".zip,application/zip"
                    on:change:target=move |event| chosen(&event.target())/>
                "Choose the file"
            </label>
        }
        .into_any()
    }

    /// The last restore, and the way to take it back.
    fn last(self) -> AnyView {
        let Some(last) = LastRestore::read(&LocalShelf, build::number(), clock::now()) else {
            return ().into_any();
        };
        let said = format!(
            "{} from the backup of {}, put in on {}.",
            counts(last.undos.len(), last.photos.len()),
            clock::moment(last.made),
            clock::moment(last.at)
        );
        view! {
            <section class="sheet">
                <h2>"The last restore"</h2>
                <p>{said}</p>
                {self.back(last)}
                <p class="soft small">"What was here before comes back; what it put in goes into the bin."</p>
            </section>
        }
        .into_any()
    }

    fn back(self, last: LastRestore) -> AnyView {
        view! {
            <button class="btn" on:click=move |_| self.take_back(last.clone())>"Take it back"</button>
        }
        .into_any()
    }

    fn put(self, done: Done) -> AnyView {
        let Done {
            last,
            entries,
            failed,
            unkept,
        } = done;
        let entries = counted(entries, "entry", "entries");
        let said = match &failed {
            None => format!("Done: {entries} put in."),
            Some(why) => format!(
                "{entries} put in, and then not all of the rest: {why} Nothing that was here is lost. Make room and choose the file again: what is in is passed by."
            ),
        };
        let failed = failed.is_some();
        let can_undo = !last.undos.is_empty() || !last.photos.is_empty();
        view! {
            <p class=if failed { "fault" } else { "notice" } role="status">{said}</p>
            {can_undo.then(|| self.back(last))}
            {unkept.map(|why| view! {
                <p class="fault">{format!("{why} If it was the wrong backup, take it back before you leave this page.")}</p>
            })}
            {failed.then(|| self.chooser())}
        }
        .into_any()
    }
}

fn counts(entries: usize, photos: usize) -> String {
    let entries = counted(entries, "entry", "entries");
    match photos {
        0 => entries,
        photos => format!("{entries} and {}", counted(photos, "photo", "photos")),
    }
}

fn looked(look: &Look) -> AnyView {
    let rows = [
        (Effect::Added, "not on this phone: added"),
        (
            Effect::Changed,
            "newer in the file: the one here goes into the bin",
        ),
        (
            Effect::Kept,
            "newer here: stays, the file's goes into the bin",
        ),
        (Effect::Same, "the same in both"),
    ];
    view! {
        <section class="sheet">
            <h2>"What it would do"</h2>
            <p class="soft">{format!("Made {}.", clock::moment(look.made))}</p>
            {rows.into_iter().map(|(effect, words)| group(look, effect, words)).collect_view()}
            {(!look.photos.is_empty()).then(|| view! { <p class="num" data-says="kept">{format!("{} not on this phone: added", counted(look.photos.len(), "photo", "photos"))}</p> })}
            {(!does_something(look)).then(|| view! { <p class="notice">"Everything in it is on this phone already."</p> })}
        </section>
        {(!look.unread.is_empty()).then(|| view! {
            <section class="sheet">
                <h2>{format!("Can't be read: {}", look.unread.len())}</h2>
                <p>"The rest can be put in all the same. Keep the file."</p>
                <ul class="plain-list small">
                    {look.unread.iter().take(50).map(|(path, why)| view! { <li class="code">{format!("{path}: {why}")}</li> }).collect_view()}
                </ul>
            </section>
        })}
    }
    .into_any()
}

fn group(look: &Look, effect: Effect, words: &'static str) -> AnyView {
    let count = count(look, effect);
    if count == 0 {
        return ().into_any();
    }
    let lines = look.lines.iter().filter(|line| line.effect == effect);
    let titles: Vec<String> = lines
        .take(200)
        .map(|line| {
            let noun = Kind::named(&line.kind).map_or("", |kind| kind.noun);
            format!("{} ({noun})", line.title)
        })
        .collect();
    view! {
        <details>
            <summary>{format!("{} {words}", counted(count, "entry", "entries"))}</summary>
            <ul class="plain-list small">{titles.into_iter().map(|title| view! { <li>{title}</li> }).collect_view()}</ul>
        </details>
    }
    .into_any()
}
