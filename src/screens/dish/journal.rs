//! The journal of one dish.

use leptos::prelude::*;

use super::{allergens, plate};
use crate::cards::recipe::{Recipe, RecipeAction, Serves};
use crate::parts::journal_page::{Owner, page};
use crate::parts::plate_check;
use crate::place::DishSide;
use crate::session::desk::Desk;
use crate::store::entry::Entry;

/// The journal of a dish, or of a part made ahead.
pub fn screen(desk: Desk) -> AnyView {
    let checks = desk.get(Recipe::plate_check);
    let journal = Signal::derive(move || desk.get(|card| card.journal.clone()));
    let send = Callback::new(move |tap| {
        desk.send(RecipeAction::Journal(tap));
        desk.refused.get_untracked()
    });
    let answer = Callback::new(move |tap| {
        send.run(tap);
    });
    let is_plate = desk.get(|card| card.serves) == Serves::Covers;
    let plate = is_plate.then(|| {
        view! {
            <section class="noprint">
                <h2>"The plate"</h2>
                <div class="checks">{plate_check::questions(&checks, journal, answer)}</div>
            </section>
            <div class="paper">{move || journal.with(|journal| plate_check::answers(&checks, &journal.plate))}</div>
        }
    });
    page(Owner {
        kind: Recipe::KIND,
        id: desk.id(),
        name: desk.title(),
        begun: Signal::derive(move || desk.get(|card| card.begun)),
        demo: desk.demo(),
        back: desk.at(DishSide::Card),
        journal,
        send,
        more: view! {
            {plate}
            <section class="paper"><h2>"Allergens"</h2>{move || allergens::gathered(desk)}</section>
            {move || plate::cost(desk)}
        }
        .into_any(),
    })
}
