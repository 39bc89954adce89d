//! What an icon on the home screen offers when it is held: a new fish, or the service that runs.

use std::time::Duration;

use leptos::prelude::*;

use crate::device::address;
use crate::fish::record::Fish;
use crate::parts::page::{Page, back_to};
use crate::place::{Place, Shortcut, Stage};
use crate::session::bench::Bench;

/// Goes on to where it leads, or says that there is nothing.
pub fn screen(bench: Bench, shortcut: Shortcut) -> AnyView {
    let to = match shortcut {
        // Each screen of it would begin another.
        Shortcut::Begin => bench
            .begin(Fish::new)
            .map_err(|refusal| refusal.to_string()),
        Shortcut::Cooking => cooking(bench).ok_or_else(|| {
            "No service runs on this phone. Open a fish in the list to begin one.".to_owned()
        }),
    };
    match to {
        Ok(to) => {
            // The place of this screen is not changed while it is built.
            set_timeout(move || address::replace(&to), Duration::ZERO);
            view! { <Page title="One moment" above="Scaleside">""</Page> }.into_any()
        }
        Err(said) => view! {
            <Page title="Nothing to go on with" above="Scaleside" dock=|| back_to(&Place::Home)>
                <p role="status">{said}</p>
            </Page>
        }
        .into_any(),
    }
}

/// The service of the fish that was begun last of those that cook.
fn cooking(bench: Bench) -> Option<Place> {
    let cooks = bench.cooking.get_untracked();
    let latest = cooks.into_iter().max()?;
    Some(Place::Fish(latest, Stage::Service))
}
