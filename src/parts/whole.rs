//! What rests on all records of a kind, however many: a word until they are read.

use leptos::prelude::*;

use crate::session::drawer::Drawer;
use crate::store::entry::Entry;

/// The word that stands for what is not worked out yet.
pub fn reading() -> AnyView {
    view! { <p class="soft" role="status">"Reading what is kept…"</p> }.into_any()
}

/// What `view` makes once every record is in memory.
pub fn once_read<T: Entry>(
    records: Drawer<T>,
    view: impl Fn() -> AnyView + Send + 'static,
) -> AnyView {
    let is_read = Memo::new(move |_| records.read_all());
    view! {
        {move || if is_read.get() { untrack(&view) } else { reading() }}
    }
    .into_any()
}
