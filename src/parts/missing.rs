//! What is shown where a record is not on this phone.

use leptos::prelude::*;

use super::page::{Page, back_to};
use crate::place::Place;

/// A fish that is not on this phone.
pub fn fish() -> AnyView {
    view! {
        <Page title="This fish is not here" above="Scaleside" dock=|| back_to(&Place::Home)>
            <p>"It may have been removed, or kept on another phone. Your other fish are in the list."</p>
        </Page>
    }
    .into_any()
}
