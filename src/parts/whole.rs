//! What rests on all of the cook's fish, however many: a word until they are read.

use leptos::prelude::*;

use crate::fish::record::Fish;
use crate::session::drawer::Drawer;

/// The word that stands for what is not worked out yet.
pub fn reading() -> AnyView {
    view! { <p class="soft" role="status">"Reading your fish…"</p> }.into_any()
}

/// What `view` makes once every fish is in memory.
pub fn once_read(fish: Drawer<Fish>, view: impl Fn() -> AnyView + Send + 'static) -> AnyView {
    let is_read = Memo::new(move |_| fish.read_all());
    view! {
        {move || if is_read.get() { untrack(&view) } else { reading() }}
    }
    .into_any()
}
