//! What follows from how the fish in hand really went, and the tap that sets its timers by it. Nothing is set by itself.

use leptos::prelude::*;

use crate::fish::action::Action;
use crate::fish::in_the_pan::WhatFollows;
use crate::fish::serving::PlanTap;
use crate::parts::estimated::Told;
use crate::session::hand::Hand;

/// What follows, while fish is in hand and went otherwise than planned.
pub fn of_fish(hand: Hand, told: RwSignal<Told>) -> Memo<Option<WhatFollows>> {
    Memo::new(move |_| {
        let now = hand.bench.now.get();
        let pan = hand.fish.with(|fish| fish.in_the_pan(now))?;
        told.with(|told| pan.follows(told.newest()))
    })
}

/// The sentence, the figures it follows from, and the tap.
pub fn shown(hand: Hand, said: WhatFollows, refused: RwSignal<Option<String>>) -> AnyView {
    let core = said.core.map(|(core, wanted)| {
        format!(
            "Middle, by estimate: {:.0} °C ({:.0} to {:.0}); wanted: {wanted:.0} °C.",
            core.best, core.low, core.high
        )
    });
    let set = said.anew.map(|(times, later)| {
        view! {
            <button class="btn plain" on:click=move |_| { hand.send(Action::Plan(PlanTap::Anew(times, later)), refused); }>"Set the timer by this"</button>
        }
    });
    view! {
        <p class="say follows">{said.sentence}</p>
        {core.map(|core| view! { <p class="small num">{core}</p> })}
        {set}
    }
    .into_any()
}
