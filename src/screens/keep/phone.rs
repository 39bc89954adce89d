//! What is kept on this phone: the backup, the bin, how much room is left, and what was set aside.

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use crate::device::room::{self, Room};
use crate::device::storage::LocalShelf;
use crate::device::{download, photos};
use crate::parts::backup::{self, counted};
use crate::parts::page::{Page, back_to};
use crate::parts::{home_screen, no_signal};
use crate::place::Place;
use crate::session::bench::Bench;
use crate::store::keys;

/// What is kept.
pub fn screen(bench: Bench) -> AnyView {
    view! {
        <Page title="What is kept" above="Settings" dock=|| back_to(&Place::Settings)>
            <p>"Everything stays in this browser, on this phone. Nothing is sent anywhere."</p>
            {no_signal::ready()}
            {backup::section(bench)}
            <a class="btn plain" href=Place::Bin.to_string()>"Bin: put back what was removed"</a>
            {how_long()}
            {home_screen::section()}
            {how_much()}
            {set_aside()}
        </Page>
    }
    .into_any()
}

/// Whether the browser promises to keep it, and the way out where it does not.
fn how_long() -> AnyView {
    let promised = RwSignal::new(None::<bool>);
    let asked = RwSignal::new(false);
    let private = RwSignal::new(false);
    spawn_local(async move {
        promised.try_set(room::is_promised().await);
        private.try_set(room::is_private().await);
    });
    let ask = move |_| {
        spawn_local(async move {
            promised.try_set(room::promise().await);
            asked.try_set(true);
        });
    };
    let said = move || match (promised.get(), asked.get()) {
        (Some(true), _) => {
            "This browser has promised to keep it, even when the phone runs short of room."
        }
        (Some(false), false) => "This browser may clear it when the phone runs short of room.",
        (Some(false), true) => {
            "The browser said no: it may clear it when the phone runs short of room. Ask again once Scaleside is on the home screen."
        }
        (None, _) => {
            "This browser does not say whether it keeps it when the phone runs short of room."
        }
    };
    view! {
        <section class="sheet">
            <h2>"How long it stays"</h2>
            <p role="status">{said}</p>
            {move || (promised.get() == Some(false)).then(|| view! {
                <button class="btn" on:click=ask>"Ask the browser to keep it"</button>
            })}
            {move || private.get().then(|| view! {
                <p class="fault" role="alert">"This looks like a private window: all of it is forgotten when the window is closed. Save a backup before, or open Scaleside in an ordinary one."</p>
            })}
            <p class="care">"A private window forgets everything when it is closed. Some phones clear a site that was not opened for a week. Add Scaleside to the home screen, and make a backup."</p>
        </section>
    }
    .into_any()
}

fn how_much() -> AnyView {
    let entries = keys::used_bytes(&LocalShelf).map_or_else(
        |fault| fault.to_string(),
        |bytes| {
            format!(
                "Entries: {} kB of the 5 MB or so that a browser gives.",
                bytes.div_ceil(1000)
            )
        },
    );
    let rest = RwSignal::new(None::<String>);
    let pictures = RwSignal::new(None::<String>);
    spawn_local(async move {
        rest.try_set(room::room().await.map(room_words));
        let names = photos::names("").await;
        pictures.try_set(Some(match names {
            Ok(names) => format!("Photos: {}.", names.len()),
            Err(refusal) => refusal.to_string(),
        }));
    });
    view! {
        <section class="sheet">
            <h2>"Room"</h2>
            <p class="num" data-says="kept">{entries}</p>
            <p class="num" data-says="kept">{move || pictures.get()}</p>
            <p class="num" data-says="kept">{move || rest.get()}</p>
        </section>
    }
    .into_any()
}

fn room_words(room: Room) -> String {
    let megabytes = |bytes: f64| bytes / 1_000_000.0;
    format!(
        "The app, entries and photos take {:.1} MB; this browser has {:.0} MB left for them.",
        megabytes(room.used),
        megabytes((room.most - room.used).max(0.0))
    )
}

/// What could not be read, whole, as a file for someone who may mend it.
fn set_aside() -> AnyView {
    let found = keys::asides(&LocalShelf).unwrap_or_default();
    if found.is_empty() {
        return ().into_any();
    }
    let refused = RwSignal::new(false);
    let title = format!(
        "Set aside: {}",
        counted(found.len(), "stored copy", "stored copies")
    );
    let lines: Vec<String> = found
        .keys()
        .filter_map(|key| key.splitn(4, '/').nth(3).map(str::to_owned))
        .collect();
    let save = move |_| {
        let text = serde_json::to_string_pretty(&found).unwrap_or_default();
        let name = "scaleside-set-aside.json";
        refused.set(!download::text(name, "application/json", &text));
    };
    view! {
        <section class="sheet">
            <h2>{title}</h2>
            <p>"These could not be read when Scaleside started. Each is kept whole, as it was found."</p>
            <ul class="plain-list small">{lines.into_iter().map(|line| view! { <li class="code">{line}</li> }).collect_view()}</ul>
            <button class="btn" on:click=save>"Save them as a file"</button>
            {move || refused.get().then(|| view! { <p class="fault">"The browser did not take the file."</p> })}
        </section>
    }
    .into_any()
}
