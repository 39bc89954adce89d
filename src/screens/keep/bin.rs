//! What was removed or replaced, and the way back.

use leptos::prelude::*;

use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::device::storage::LocalShelf;
use crate::device::{build, clock, tabs};
use crate::keep::bin::{Bin, Binned, Cause, DAYS};
use crate::keep::kind::Kind;
use crate::parts::page::{Page, back_to};
use crate::parts::sure::sure;
use crate::place::Place;
use crate::session::removal;
use crate::store::keys;
use crate::store::outcome::Held;

/// The bin.
pub fn screen() -> AnyView {
    let list = RwSignal::new(Vec::<(String, String, String)>::new());
    let look = move || {
        let loaded = Bin::new(build::number()).list(&LocalShelf, clock::now());
        list.set(loaded.records.iter().map(line).collect());
    };
    look();
    let said = RwSignal::new(None::<String>);
    let done = move |outcome: Result<String, Refusal>| {
        said.set(Some(outcome.unwrap_or_else(|refusal| refusal.to_string())));
        look();
    };
    let put_back = move |name: &str| {
        let back = Bin::new(build::number()).put_back(&LocalShelf, name, clock::now());
        done(back.map(|(kind, id)| {
            tabs::tell_this(&keys::of(&kind, &id));
            "It is back in its place.".to_owned()
        }));
    };
    // One copy by its name, or all of them.
    let out = move |name: Option<String>| {
        let mut bin = Bin::new(build::number());
        let mut copies = bin.list(&LocalShelf, clock::now()).records;
        copies.retain(|held| name.as_ref().is_none_or(|name| held.id == *name));
        done(take_out(&mut bin, &copies, clock::now()));
    };
    view! {
        <Page title="Bin" above="What is kept" dock=|| back_to(&Place::Kept)>
            <p class="soft" data-says="kept">{format!("What you remove stays here for {DAYS} days, and so does a copy that another took the place of.")}</p>
            <p role="status">{move || said.get()}</p>
            {move || list.with(Vec::is_empty).then(|| view! { <p>"The bin is empty."</p> })}
            <ul class="rows">
                {move || list.get().into_iter().map(|(name, title, line)| view! {
                    <li class="sheet">
                        <div class="grow"><b>{title}</b><small class="soft block" data-says="kept">{line}</small></div>
                        <button class="btn" on:click={ let name = name.clone(); move |_| put_back(&name) }>"Put it back"</button>
                        {sure(
                            "Remove for good…",
                            "This takes it, and any photos of it, off this phone for good. Only a backup can bring it back.",
                            "Remove for good",
                            Callback::new(move |()| out(Some(name.clone()))),
                        )}
                    </li>
                }).collect_view()}
            </ul>
            {move || (!list.with(Vec::is_empty)).then(|| sure(
                "Empty the bin…",
                "This takes everything in the bin off this phone for good.",
                "Empty it",
                Callback::new(move |()| out(None)),
            ))}
        </Page>
    }
    .into_any()
}

/// The name of a copy, its title, and what is said of it.
fn line(held: &Held<Binned>) -> (String, String, String) {
    let Binned {
        kind,
        title,
        removed,
        cause,
        ..
    } = &held.record;
    let noun = Kind::named(kind).map_or(kind.as_str(), |kind| kind.noun);
    let how = match cause {
        Cause::Removed => "removed",
        Cause::Replaced => "replaced",
    };
    let line = format!(
        "{noun}, {how} {} · goes {}",
        clock::moment(*removed),
        clock::day(held.record.until())
    );
    (held.id.clone(), title.clone(), line)
}

/// Takes copies out for good, and with each the photos that nothing else needs.
fn take_out(bin: &mut Bin, copies: &[Held<Binned>], now: Instant) -> Result<String, Refusal> {
    for held in copies {
        bin.take_out(&LocalShelf, &held.id, now)?;
    }
    let gone = copies.iter();
    removal::sweep_photos(
        gone.map(|held| (held.record.kind.clone(), held.record.id.clone()))
            .collect(),
    );
    Ok(match copies {
        [one] => format!("Removed for good: {}.", one.record.title),
        _ => "The bin is empty now.".to_owned(),
    })
}
