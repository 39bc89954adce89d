//! What follows from how the fish in hand really went, and the tap that sets its timers by it. Nothing is set by itself.

use leptos::prelude::*;

use crate::fish::action::Action;
use crate::fish::in_the_pan::WhatFollows;
use crate::fish::serving::PlanTap;
use crate::parts::estimated::Told;
use crate::session::hand::Hand;

/// What follows of each panful that is in hand and went otherwise than planned; what went in last is first.
pub fn of_fish(hand: Hand, told: RwSignal<Told>) -> Memo<Vec<WhatFollows>> {
    Memo::new(move |_| {
        let now = hand.bench.now.get();
        let in_hand = hand.fish.with(|fish| fish.in_hand(now));
        let follows = |told: &Told| {
            let pans = in_hand.iter();
            pans.filter_map(|pan| pan.follows(told.newest())).collect()
        };
        told.with(follows)
    })
}

/// What follows of every panful. The one to be lifted next is shown whole, the others in a sentence each: the screen has no
/// room for more.
pub fn all(
    hand: Hand,
    mut follows: Vec<WhatFollows>,
    refused: RwSignal<Option<String>>,
) -> AnyView {
    // What went in first is lifted first.
    follows.reverse();
    let mut follows = follows.into_iter();
    let first = follows.next().map(|said| shown(hand, said, refused));
    let others =
        follows.map(|said| view! { <p class="say follows">{said.sentence}</p> }.into_any());
    view! { {first}{others.collect_view()} }.into_any()
}

/// The sentence, the figures it follows from, and the tap.
pub fn shown(hand: Hand, said: WhatFollows, refused: RwSignal<Option<String>>) -> AnyView {
    let core = said.core.map(|(core, wanted)| {
        format!(
            "Middle, by estimate: {:.0} °C ({:.0} to {:.0}); wanted: {wanted:.0} °C.",
            core.best, core.low, core.high
        )
    });
    let panful = said.panful;
    let set = said.anew.map(|(times, later)| {
        view! {
            <button class="btn plain" on:click=move |_| { hand.send(Action::Plan(PlanTap::Anew(panful, times, later)), refused); }>"Set the timer by this"</button>
        }
    });
    view! {
        <p class="say follows">{said.sentence}</p>
        {core.map(|core| view! { <p class="small num">{core}</p> })}
        {set}
    }
    .into_any()
}
