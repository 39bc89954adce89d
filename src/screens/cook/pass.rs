//! At the pass: the plate is checked before it leaves, and the fish is put away.

use leptos::prelude::*;

use crate::device::focus;
use crate::fish::action::Action;
use crate::fish::record::Fish;
use crate::journal::JournalTap;
use crate::parts::choice::fault;
use crate::parts::page::{Page, back_to};
use crate::parts::photos::Photos;
use crate::parts::plate_check;
use crate::place::Stage;
use crate::screens::stove::{drawn, no_dish};
use crate::service::dish::PlateCheck;
use crate::service::run::Tap;
use crate::session::hand::Hand;
use crate::store::entry::Entry;

/// The plate check.
pub fn screen(hand: Hand) -> AnyView {
    let fish = hand.fish;
    let refused = RwSignal::new(None);
    let checks = match fish.with_untracked(|fish| fish.dish().map(|dish| dish.plate_check.clone()))
    {
        Ok(checks) => checks,
        Err(refusal) => return no_dish(hand, &refusal),
    };
    let journal = Signal::derive(move || fish.with(Fish::journal));
    let send = Callback::new(move |tap| {
        hand.send(Action::Journal(tap), refused);
    });
    let asked = RwSignal::new(false);
    // A plate that is right is answered in one tap: it goes while it is hot. What was answered stays.
    let is_unanswered = {
        let checks = checks.clone();
        Memo::new(move |_| fish.with(|fish| unanswered(fish, &checks).next().is_some()))
    };
    let all_yes = {
        let checks = checks.clone();
        move |_| {
            let open: Vec<String> =
                fish.with_untracked(|fish| unanswered(fish, &checks).cloned().collect());
            for id in open {
                send.run(JournalTap::Plate(id, true));
            }
        }
    };
    let open = {
        let checks = checks.clone();
        Memo::new(move |_| fish.with(|fish| left_open(fish, &checks)))
    };
    // What is left to be done of the service once the plate is right: wiping the rim, and away with it.
    let last = Memo::new(move |_| {
        fish.with(|fish| {
            let step = fish.run.as_ref()?.last_open(fish.dish().ok()?)?;
            Some((step.id.clone(), step.done_word.clone()))
        })
    });
    let finish = move |sure: bool| {
        if !sure && open.with_untracked(Option::is_some) {
            asked.set(true);
            focus::to_fault();
            return;
        }
        let served = last.get_untracked().is_none_or(|(id, _)| {
            let begun = fish.with_untracked(|fish| {
                fish.run
                    .as_ref()
                    .is_some_and(|run| run.steps.contains_key(&id))
            });
            let tap = if begun {
                Tap::Done(id)
            } else {
                Tap::AtAStroke(id)
            };
            hand.send(Action::Serve(tap), refused)
        });
        if served && hand.send(Action::Finish(true), refused) {
            hand.go(Stage::Summary);
        }
    };
    // How a cook's own dish lies on the plate, the cook knows.
    let is_shipped = fish.with_untracked(|fish| fish.own_dish.is_none());
    let photos = Photos::of(Fish::KIND, hand.id());
    view! {
        <Page
            title="Check the plate"
            above=hand.name()
            at=Stage::Pass
            demo=hand.demo()
            dock=move || view! {
                {back_to(&hand.at(Stage::Service))}
                <button class="btn main tall next" on:click=move |_| finish(false)>
                    {move || last.get().map_or_else(|| "Finish".to_owned(), |(_, word)| word)}
                </button>
            }
        >
            {move || open.get().filter(|_| asked.get()).map(|open| view! {
                <div class="doubt" role="alert">
                    <p>{open}</p>
                    <div class="row">
                        <button class="btn plain" aria-keyshortcuts="Escape" on:click=move |_| asked.set(false)>"Go on here"</button>
                        <button class="btn" on:click=move |_| finish(true)>"Finish all the same"</button>
                    </div>
                </div>
            })}
            <div class="checks">{plate_check::questions(&checks, journal, send)}</div>
            <div class="row">
                {move || is_unanswered.get().then(|| view! { <button class="btn plain" on:click=all_yes.clone()>"All yes"</button> })}
                {photos.add()}
            </div>
            {is_shipped.then(drawn::plate)}
            {photos.list(hand.name())}
            <div class="field">
                <label for="note">"Next time, I will…"</label>
                <textarea id="note" aria-describedby="note-fault"
                    prop:value=move || journal.with(|journal| journal.note.clone())
                    on:input:target=move |event| send.run(JournalTap::Note(event.target().value()))></textarea>
                {fault("note-fault", move || refused.get())}
            </div>
        </Page>
    }
    .into_any()
}

/// The questions that have no answer yet, by name.
fn unanswered<'a>(fish: &Fish, checks: &'a [PlateCheck]) -> impl Iterator<Item = &'a String> {
    let ids = checks.iter().map(|check| &check.id);
    ids.filter(|id| !fish.plate.contains_key(*id))
}

/// What a fish that is called finished now leaves open; nothing when all was done and answered.
fn left_open(fish: &Fish, checks: &[PlateCheck]) -> Option<String> {
    let unanswered = unanswered(fish, checks).count();
    let cooks = fish.run.as_ref().is_some_and(|run| {
        let last = fish.dish().ok().and_then(|dish| run.last_open(dish));
        !fish.is_over() && last.is_none()
    });
    let service = "The service is not over: there may be fish in the pan.";
    let plate = match unanswered {
        0 => None,
        1 => Some("One question about the plate is not answered.".to_owned()),
        many => Some(format!(
            "{many} questions about the plate are not answered."
        )),
    };
    match (cooks, plate) {
        (false, plate) => plate,
        (true, None) => Some(service.to_owned()),
        (true, Some(plate)) => Some(format!("{service} {plate}")),
    }
}
