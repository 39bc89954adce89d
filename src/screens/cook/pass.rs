//! At the pass: the plate is checked before it leaves, and the fish is put away.

use leptos::prelude::*;

use crate::fish::action::Action;
use crate::fish::record::Fish;
use crate::journal::JournalTap;
use crate::parts::choice::fault;
use crate::parts::page::{Page, back_to};
use crate::parts::plate_check;
use crate::place::Stage;
use crate::session::hand::Hand;

/// The plate check.
pub fn screen(hand: Hand) -> AnyView {
    let fish = hand.fish;
    let refused = RwSignal::new(None);
    let checks = match fish.with_untracked(|fish| fish.dish().map(|dish| dish.plate_check.clone()))
    {
        Ok(checks) => checks,
        Err(refusal) => return crate::screens::fish::summary::no_dish(hand, &refusal),
    };
    let journal = Signal::derive(move || fish.with(Fish::journal));
    let send = Callback::new(move |tap| {
        hand.send(Action::Journal(tap), refused);
    });
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
            {plate_check::questions(&checks, journal, send)}
            <div class="field">
                <label for="note">"What will you do differently next time?"</label>
                <textarea id="note" aria-describedby="note-fault"
                    prop:value=move || journal.with(|journal| journal.note.clone())
                    on:input:target=move |event| send.run(JournalTap::Note(event.target().value()))></textarea>
                {fault("note-fault", move || refused.get())}
            </div>
        </Page>
    }
    .into_any()
}
