//! Everything on this phone as one file, and a gentle word when the last one is old.

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::spawn_local;
use web_sys::File;

use super::refusals::NoBackupFile;
use super::{home_screen, no_signal};
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::base::stretch::in_words;
use crate::cards::pan::KeptPan;
use crate::cards::quote::Quote;
use crate::cards::recipe::Recipe;
use crate::class::class_list::Class;
use crate::device::send::{self, Sent};
use crate::device::{build, clock, download};
use crate::errand::backup::{Made, Make, Unkept};
use crate::fish::settings::Preference;
use crate::keep::reminder;
use crate::place::Place;
use crate::session::bench::Bench;
use crate::session::drawer::Drawer;
use crate::session::{asked, gathered};
use crate::store::entry::Entry;

const DAY_MS: i64 = 24 * 3_600_000;

/// A backup that is ready to be given out.
#[derive(Clone)]
struct Ready {
    file: File,
    made: Made,
}

/// The section that makes a backup.
pub fn section(bench: Bench) -> AnyView {
    let ready = RwSignal::new_local(None::<Ready>);
    let busy = RwSignal::new(false);
    let said = RwSignal::new(None::<String>);
    let make = move |_| {
        busy.set(true);
        said.set(None);
        spawn_local(async move {
            match all(bench).await {
                Ok(made) => {
                    ready.try_set(Some(made));
                }
                Err(refusal) => {
                    said.try_set(Some(refusal.to_string()));
                }
            }
            busy.try_set(false);
        });
    };
    let given = move || bench.prefer(Preference::BackedUp);
    view! {
        <section class="sheet">
            <h2>"Backup"</h2>
            <p>{move || last(bench)}</p>
            {move || ready.get().map_or_else(
                || view! {
                    <button class="btn main" prop:disabled=move || busy.get() on:click=make>
                        {move || if busy.get() { "Putting it together…" } else { "Make a backup" }}
                    </button>
                }.into_any(),
                |ready| give(ready, said, given),
            )}
            <p class="small" role="status">{move || said.get()}</p>
            <p class="soft small">"One zip file with everything: fish, dishes, classes and photos. Keep it away from this phone: in a message to yourself, or on a computer."</p>
            <a class="btn plain" href=Place::Restore.to_string()>"Restore from a backup"</a>
        </section>
    }
    .into_any()
}

fn give(
    ready: Ready,
    said: RwSignal<Option<String>>,
    given: impl Fn() + Copy + Send + Sync + 'static,
) -> AnyView {
    let size = match ready.file.size() {
        bytes if bytes < 1_000_000.0 => format!("{:.0} kB", (bytes / 1_000.0).ceil()),
        bytes => format!("{:.1} MB", bytes / 1_000_000.0),
    };
    let line = format!(
        "Ready: {} and {}, {size}.",
        counted(ready.made.records, "entry", "entries"),
        counted(ready.made.photos, "photo", "photos"),
    );
    let unread = match (&ready.made.unread, ready.made.silent) {
        (_, true) => Some(SILENT.to_owned()),
        (unread, false) => (!unread.is_empty()).then(|| self::unread(unread)),
    };
    let shares = send::can_share_file(&ready.file);
    let (to_save, to_share) = (ready.file.clone(), ready.file);
    let save = move |_| {
        if download::file(&to_save) {
            given();
            said.set(Some("Saved with your downloads.".to_owned()));
        } else {
            said.set(Some("The browser did not take the file.".to_owned()));
        }
    };
    let share = move |_| {
        send::share_file(&to_share, move |came| {
            if came == Sent::Shared {
                given();
            }
            said.try_set(Some(match came {
                Sent::Shared => "Handed on.".to_owned(),
                _ => "It was not handed on: save the file instead.".to_owned(),
            }));
        });
    };
    view! {
        <p class="num" data-says="kept">{line}</p>
        {unread.map(|sentence| view! { <p class="doubt" role="alert">{sentence}</p> })}
        <div class="row">
            <button class="btn main" on:click=save>"Save the file"</button>
            {shares.then(|| view! { <button class="btn" on:click=share>"Share it…"</button> })}
        </div>
    }
    .into_any()
}

/// What is said where nothing could be learned of the photos.
const SILENT: &str = "Not in it: the photos. This browser does not answer for them: close other tabs of Scaleside, or restart the browser, and make another.";

/// Which photos a backup lacks, by what they belong to.
fn unread(owners: &[String]) -> String {
    let mut named: Vec<&str> = owners.iter().map(String::as_str).collect();
    named.sort_unstable();
    named.dedup();
    format!(
        "Not in it, because this browser can't read them: {} of {}. Take them anew if you can.",
        counted(owners.len(), "photo", "photos"),
        named.join(", "),
    )
}

/// A number with its word.
#[must_use]
pub fn counted(number: usize, one: &str, many: &str) -> String {
    format!("{number} {}", if number == 1 { one } else { many })
}

/// How old the last backup is, and what would be lost with this phone.
fn last(bench: Bench) -> String {
    let last = bench.settings.with(|settings| settings.backed_up);
    let alone = since(bench, last).count();
    let entries = if alone >= reminder::LOOKED_AT {
        format!("{} entries or more", reminder::LOOKED_AT)
    } else {
        counted(alone, "entry", "entries")
    };
    match (last, alone) {
        (Some(at), 0) => format!(
            "The last one was made {}, {}. Nothing was begun since; what was changed since is on this phone alone.",
            clock::moment(at),
            ago(at)
        ),
        (Some(at), _) => format!(
            "The last one was made {}, {}. Begun since, and lost with this phone: {entries}.",
            clock::moment(at),
            ago(at)
        ),
        (None, 0) => "There has been none yet.".to_owned(),
        (None, _) => format!("There has been none yet. Lost with this phone: {entries}."),
    }
}

fn ago(at: Instant) -> String {
    let ms = clock::now().ms_since(at);
    match ms / DAY_MS {
        0 => format!("{} ago", in_words(ms)),
        1 => "a day ago".to_owned(),
        days => format!("{days} days ago"),
    }
}

/// When each of the cook's own since the last backup was begun; of each kind, no more than are worth counting.
fn since(bench: Bench, last: Option<Instant>) -> impl Iterator<Item = Instant> {
    let drawers = bench.drawers;
    (begun_since(bench.fish, last))
        .chain(begun_since(drawers.of::<Recipe>(), last))
        .chain(begun_since(drawers.of::<Class>(), last))
        .chain(begun_since(drawers.of::<Quote>(), last))
        .chain(begun_since(drawers.of::<KeptPan>(), last))
}

/// Above the list of fish: that all of the app is here, and a gentle word when a backup is due.
pub fn reminder(bench: Bench) -> AnyView {
    let due = move || {
        let last = bench.settings.with(|settings| settings.backed_up);
        // Each is read only until there are enough.
        reminder::is_due(last, since(bench, last))
    };
    view! {
        {no_signal::ready()}
        {home_screen::word(bench)}
        {move || due().then(|| view! {
            <a class="item reminder" href=Place::Kept.to_string()>
                <span class="grow"><b>"Make a backup"</b><small>"Ten entries or more are on this phone alone."</small></span>
            </a>
        })}
    }
    .into_any()
}

/// When each of the cook's own that may be newer than the last backup was begun, the latest first.
fn begun_since<T: Entry>(
    drawer: Drawer<T>,
    last: Option<Instant>,
) -> impl Iterator<Item = Instant> {
    let ids = drawer.ids().into_iter();
    ids.filter(move |id| reminder::may_be_since(last, id))
        .take(reminder::LOOKED_AT)
        .filter_map(move |id| {
            drawer.with_untracked(&id, |record| (!record.is_demo()).then_some(record.begun()))?
        })
        .filter(move |begun| last.is_none_or(|last| *begun > last))
}

async fn all(bench: Bench) -> Result<Ready, Refusal> {
    let now = clock::now();
    let unkept = bench.drawers.unkept().into_iter();
    let make = Make {
        unkept: unkept.map(Unkept::from).collect(),
        build: build::number(),
        now,
        name: format!("scaleside-{}.zip", clock::day(now).replace(' ', "-")),
    };
    let answer = asked::send(&make, gathered::shelf().await.into()).await;
    let (made, file) = answer.ok_or(NoBackupFile::NotMade)?;
    Ok(Ready {
        made: made?,
        file: file.dyn_into().map_err(|_| NoBackupFile::NotMade)?,
    })
}
