//! The removal of one record: into the bin, or for good where the bin has no room left.

use leptos::prelude::*;

use super::sure::sure;
use crate::device::{address, focus};
use crate::keep::bin::Unbinned;
use crate::place::Place;
use crate::session::removal::Whereto;

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
                    <div class="row">
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
