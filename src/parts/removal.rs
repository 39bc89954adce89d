//! The removal of one record: into the bin, or for good where the bin has no room left.

use leptos::prelude::*;
use serde::Serialize;
use serde::de::DeserializeOwned;

use super::bench::Bench;
use super::notice::Notice;
use super::photos;
use super::sure::sure;
use crate::device::storage::LocalShelf;
use crate::device::{address, build, clock, focus};
use crate::place::Place;
use crate::record::bin::{Bin, DAYS, Unbinned};
use crate::record::outcome::Held;
use crate::record::store::Store;
use crate::refusal::Refusal;

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
pub fn remove<T: Clone + Serialize + DeserializeOwned>(
    bench: Bench,
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
            }
        }
        Whereto::Nowhere => {
            let gone = store.remove(&LocalShelf, held, now);
            gone.map_err(|fault| Unbinned::Refused(Refusal::new(fault.to_string())))?;
            photos::sweep(vec![(store.kind().to_owned(), held.id.clone())]);
            Notice::Told(format!("The {noun} was removed for good."))
        }
    };
    bench.notice.set(Some(said));
    Ok(())
}

/// The way to remove a record from its own screen. `list` is shown once it is gone.
pub fn of_record(
    button: &'static str,
    question: &'static str,
    list: Place,
    remove: Callback<Whereto, Result<(), Unbinned>>,
) -> AnyView {
    let no_room = RwSignal::new(false);
    let refused = RwSignal::new(None::<String>);
    let list = StoredValue::new(list);
    let to = move |whereto| {
        Callback::new(move |()| match remove.run(whereto) {
            Ok(()) => address::replace(&list.get_value()),
            Err(Unbinned::NoRoom) => {
                no_room.set(true);
                focus::to_question();
            }
            Err(Unbinned::Refused(refusal)) => refused.set(Some(refusal.to_string())),
        })
    };
    view! {
        {move || refused.get().map(|sentence| view! { <p class="fault" role="alert">{sentence}</p> })}
        {move || if no_room.get() {
            view! {
                <section class="sheet asked noprint" role="alert">
                    <p>{Unbinned::NoRoom.to_string()}</p>
                    <div class="row wrap">
                        <a class="btn" href=Place::Kept.to_string()>"Make a backup"</a>
                        <a class="btn plain" href=Place::Bin.to_string()>"Open the bin"</a>
                    </div>
                    {sure(
                        "Remove for good…",
                        "This takes it, and any photos of it, off this phone for good. Only a backup can bring it back.",
                        "Remove for good",
                        to(Whereto::Nowhere),
                    )}
                </section>
            }.into_any()
        } else {
            sure(button, question, "Remove it", to(Whereto::Bin))
        }}
    }
    .into_any()
}
