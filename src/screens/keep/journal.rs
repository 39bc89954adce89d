//! The journal of one fish.

use leptos::prelude::*;

use super::summary;
use crate::device::clock;
use crate::fish::action::Action;
use crate::fish::record::Fish;
use crate::parts::fish_figures;
use crate::parts::journal_page::{Owner, page};
use crate::place::Stage;
use crate::session::hand::Hand;

/// The journal of a fish.
pub fn screen(hand: Hand) -> AnyView {
    let fish = hand.fish;
    let refused = RwSignal::new(None);
    let name = move |fish: &Fish| match fish.name() {
        name if name == "A fish" => "a fish".to_owned(),
        name => name.to_lowercase(),
    };
    page(Owner {
        kind: "fish",
        id: hand.id(),
        name: Signal::derive(move || fish.with(name)),
        begun: Signal::derive(move || fish.with(|fish| fish.begun)),
        demo: hand.demo(),
        back: hand.at(Stage::Summary),
        journal: Signal::derive(move || fish.with(Fish::journal)),
        send: Callback::new(move |tap| {
            hand.send(Action::Journal(tap), refused);
            refused.get_untracked()
        }),
        more: view! {
            {move || fish.with(fish_figures::figures)}
            {move || fish.with(summary::plate)}
            {move || fish.with(cold)}
        }
        .into_any(),
    })
}

/// The time out of the fridge, as it stood when the fish was finished.
fn cold(fish: &Fish) -> AnyView {
    let Some(chill) = &fish.chill else {
        return ().into_any();
    };
    let sentence = chill.sentence(fish.finished.unwrap_or_else(clock::now));
    view! { <section class="sheet" data-says="cold"><h2>"Out of the fridge"</h2><p>{sentence}</p></section> }
        .into_any()
}
