//! At the pass: the plate is checked before it leaves, and the fish is put away.

use leptos::prelude::*;

use super::Hand;
use crate::parts::choice::{fault, one_of};
use crate::parts::page::{Page, back_to};
use crate::place::Stage;
use crate::record::action::Action;

/// The plate check.
pub fn screen(hand: Hand) -> AnyView {
    let fish = hand.fish;
    let refused = RwSignal::new(None);
    let checks = match fish.with_untracked(|fish| fish.dish().map(|dish| dish.plate_check.clone()))
    {
        Ok(checks) => checks,
        Err(refusal) => return super::summary::no_dish(hand, &refusal),
    };
    let finish = move |_| {
        if hand.send(Action::Finish(true), refused) {
            hand.go(Stage::Summary);
        }
    };
    view! {
        <Page
            title="Check the plate"
            above=hand.name()
            at=Stage::Pass
            demo=hand.demo()
            dock=move || view! {
                {back_to(&hand.at(Stage::Service))}
                <button class="btn main tall next" on:click=finish>"Finish"</button>
            }
        >
            <p class="soft">"Look at it as the guest will. Turn the plate once before you answer."</p>
            {checks
                .into_iter()
                .map(|check| {
                    let id = StoredValue::new(check.id.clone());
                    one_of(
                        check.id,
                        check.ask,
                        "tight",
                        vec![(true, "Yes".to_owned()), (false, "Not yet".to_owned())],
                        move || fish.with(|fish| id.with_value(|id| fish.plate.get(id).copied())),
                        move |answer| { hand.send(Action::Plate(id.get_value(), answer), refused); },
                    )
                })
                .collect_view()}
            <div class="field">
                <label for="note">"What will you do differently next time?"</label>
                <textarea id="note" aria-describedby="note-fault"
                    prop:value=move || fish.with(|fish| fish.note.clone())
                    on:input:target=move |event| { hand.send(Action::Note(event.target().value()), refused); }></textarea>
                {fault("note-fault", move || refused.get())}
            </div>
        </Page>
    }
    .into_any()
}
