//! How a record leaves this phone: into the bin or for good, its photos with it.

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::notice::{Notice, Notices};
use crate::device::storage::LocalShelf;
use crate::device::{build, clock, photos, tabs};
use crate::journal::photo::PhotoName;
use crate::keep::bin::{Bin, Binned, DAYS, Unbinned};
use crate::keep::kind::{Kind, Raw};
use crate::store::keys;
use crate::store::outcome::Held;
use crate::store::records::{Keepable, Store};
use crate::store::shelf::Shelf;

/// Where the copies of a record stand that was set aside, and where they belong.
const STUCK: &str = "scaleside stuck/";
const SLOTS: &str = "scaleside/1/";

/// Where a removed record goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Whereto {
    /// Into the bin, with an offer to put it back.
    Bin,
    /// Off the phone, with its photos.
    Nowhere,
}

/// Takes a record off the shelf, and says so.
///
/// # Errors
/// Why the record has to stay.
pub fn remove<T: Keepable>(
    notices: Notices,
    store: &mut Store<T>,
    held: &Held<T>,
    noun: &str,
    whereto: Whereto,
) -> Result<(), Unbinned> {
    let now = clock::now();
    let said = match whereto {
        Whereto::Bin => {
            let copy = Bin::new(build::number()).remove(&LocalShelf, store, held, now)?;
            Notice::Undo {
                sentence: format!("The {noun} is in the bin, and stays there for {DAYS} days."),
                copy,
                put_back,
            }
        }
        Whereto::Nowhere => {
            let gone = store.remove(&LocalShelf, held, now);
            gone.map_err(|fault| Unbinned::Refused(fault.into()))?;
            sweep_photos(vec![(store.kind().to_owned(), held.id.clone())]);
            Notice::Told(format!("The {noun} was removed for good."))
        }
    };
    notices.shown.set(Some(said));
    Ok(())
}

/// Takes the record off the shelf that no screen can show: the page that said so has moved its copies (`public/mend.js`).
/// They are back in their place for no longer than it takes to put them into the bin.
pub fn put_aside(notices: Notices) {
    let keys = LocalShelf.keys().unwrap_or_default();
    let stuck = keys
        .iter()
        .filter_map(|key| Some((key, key.strip_prefix(STUCK)?)));
    let mut name = None;
    for (key, place) in stuck {
        // Of several, the others wait for the next start.
        let Some((of, _)) = place.rsplit_once('/') else {
            continue;
        };
        if name.get_or_insert(of) == &of
            && let Ok(Some(text)) = LocalShelf.get(key)
            && LocalShelf.put(&format!("{SLOTS}{place}"), &text).is_ok()
        {
            let _ = LocalShelf.remove(key);
        }
    }
    let found = name.and_then(|of| {
        let (kind, id) = of.split_once('/')?;
        let kind = Kind::named(kind)?;
        let store = Store::<Raw>::new(kind.name, build::number());
        Some((kind, store.reread(&LocalShelf, id).ok()??, store))
    });
    if let Some((kind, held, mut store)) = found
        && remove(notices, &mut store, &held, kind.noun, Whereto::Bin).is_err()
    {
        notices.say(
            "What was set aside could not be put into the bin: make room, and set it aside again.",
        );
    }
}

/// Puts back what was just removed, and says so.
fn put_back(copy: &str) -> String {
    let back = Bin::new(build::number()).put_back(&LocalShelf, copy, clock::now());
    match back {
        Ok((kind, id)) => {
            tabs::tell_this(&keys::of(&kind, &id));
            "It is back in its place.".to_owned()
        }
        Err(refusal) => refusal.to_string(),
    }
}

/// Takes away the photos of records that are gone for good, from their place and from the bin.
pub fn sweep_photos(gone: Vec<(String, String)>) {
    if gone.is_empty() {
        return;
    }
    let binned = Bin::new(build::number()).list(&LocalShelf, clock::now());
    for (kind, id) in gone {
        let in_bin = |held: &Held<Binned>| held.record.kind == kind && held.record.id == id;
        let here = Kind::named(&kind).is_none_or(|kind| {
            let here = Store::<Raw>::new(kind.name, build::number()).reread(&LocalShelf, &id);
            here.is_ok_and(|here| here.is_some())
        });
        if !here && !binned.records.iter().any(in_bin) {
            spawn_local(async move {
                // What stays for now is swept with the next that goes, or takes a little room.
                let _ = photos::remove(&PhotoName::opening(&kind, &id)).await;
            });
        }
    }
}
