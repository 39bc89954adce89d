//! A backup, looked at before anything is changed, and put in.

use leptos::prelude::*;

use crate::parts::page::{Page, back_to};
use crate::place::Place;

/// Putting a backup in.
pub fn screen() -> AnyView {
    view! { <Page title="Restore" above="What is kept" dock=|| back_to(&Place::Kept)><p></p></Page> }
    .into_any()
}
