//! The numbers of one fish and its stages on one page: one tap from any screen of that fish.

use leptos::prelude::*;

use crate::device::clock;
use crate::fish::action::Action;
use crate::fish::record::Fish;
use crate::fish::weighing::Which;
use crate::parts::page::{Page, back_or};
use crate::parts::range::YieldBeside;
use crate::parts::{fish_figures, mark, plate_check, removal};
use crate::place::{JobNumber, Place, Stage};
use crate::session::hand::Hand;
use crate::trade::mass;

/// The numbers of one fish, each a tap to put it right, and its stages.
pub fn screen(hand: Hand) -> AnyView {
    let fish = hand.fish;
    let next = move || fish.with(Fish::next_stage);
    // Nothing was weighed for the service of a dish alone.
    let alone = fish.with_untracked(Fish::is_alone);
    let later = if alone { OF_A_DISH } else { LATER };
    view! {
        <Page
            title=hand.name()
            above=Signal::derive(move || fish.with(|fish| format!("Begun {}", clock::moment(fish.begun))))
            demo=hand.demo()
            dock=move || view! {
                {back_or(Place::Home)}
                {move || match next() {
                    Stage::Summary => view! { <a class="btn main tall next" href="#/">"Your fish"</a> }.into_any(),
                    stage => view! { <a class="btn main tall next" href=hand.at(stage).to_string()>"Go on"</a> }.into_any(),
                }}
            }
        >
            {(!alone).then(|| view! {
                <ul class="rows">
                    {JobNumber::ALL.into_iter().map(|number| number_row(hand, number)).collect_view()}
                    {stage_row(hand, Stage::Yield)}
                </ul>
                {move || fish.with(not_worked_out)}
            })}
            <ul class="rows">{later.into_iter().map(|stage| stage_row(hand, stage)).collect_view()}</ul>
            {move || fish.with(plate)}
            {move || fish.with(|fish| (!fish.note.trim().is_empty()).then(|| view! {
                <section class="sheet"><h2>"Next time"</h2><p>{fish.note.clone()}</p></section>
            }))}
            {(!alone).then(|| view! {
                <details class="sheet">
                    <summary>"All figures"</summary>
                    {move || fish.with(fish_figures::figures)}
                    {move || fish.with(fish_figures::portions)}
                    {move || fish.with(YieldBeside::of).map(|beside| beside.section())}
                </details>
            })}
            <a class="btn" href=hand.at(Stage::Journal).to_string()>"Journal"</a>
            {fish_figures::send_result(hand)}
            {fish_figures::print_card(hand)}
            {remove(hand)}
        </Page>
    }
    .into_any()
}

/// The stages of the service of a dish alone.
const OF_A_DISH: [Stage; 4] = [Stage::Plan, Stage::Prepare, Stage::Service, Stage::Pass];

/// The stages that are no number.
const LATER: [Stage; 4] = [
    Stage::Fillet(0),
    Stage::Prepare,
    Stage::Service,
    Stage::Pass,
];

/// A number of the job. One that is there is put right and brings the cook back here; one that is not there yet is a
/// stage of the job like any other.
fn number_row(hand: Hand, number: JobNumber) -> AnyView {
    let stage = number.stage();
    let at = move || {
        let is_there = hand.fish.with(|fish| fish.is_done(stage));
        if is_there {
            Stage::PutRight(number)
        } else {
            stage
        }
    };
    row(hand, stage, at)
}

fn stage_row(hand: Hand, stage: Stage) -> AnyView {
    row(hand, stage, move || stage)
}

fn row(hand: Hand, stage: Stage, at: impl Fn() -> Stage + Send + 'static) -> AnyView {
    let fish = hand.fish;
    view! {
        <li>
            <a class="item" href=move || hand.at(at()).to_string()>
                <span class="grow" data-says="portion plan"><b>{stage.name()}</b><small>{move || fish.with(|fish| said_of(fish, stage))}</small></span>
                {move || fish.with(|fish| number_of(fish, stage)).map(|number| view! { <b class="num" data-says="yield cost plan">{number}</b> })}
                {move || fish.with(|fish| fish.is_done(stage)).then(|| view! { <span class="done">{mark::done()}<span class="unseen">"done"</span></span> })}
            </a>
        </li>
    }
    .into_any()
}

/// Why there are weights and no yield or no cost.
fn not_worked_out(fish: &Fish) -> AnyView {
    let why = fish.yield_sheet().map(|told| told.map(|(_, why)| why));
    match why {
        Some(Ok(Some(refusal)) | Err(refusal)) => {
            view! { <p class="fault">{refusal.to_string()}</p> }.into_any()
        }
        _ => ().into_any(),
    }
}

/// What a stage came to, in one figure.
fn number_of(fish: &Fish, stage: Stage) -> Option<String> {
    let weight = |which| {
        let unit = fish.reading(which).unit;
        Some(mass::show(fish.taken_mass(which)?, unit))
    };
    match stage {
        Stage::Delivery => Some(fish.slip.read_price().ok()?.show()),
        Stage::WeighWhole => weight(Which::Whole),
        Stage::WeighOffBone => weight(Which::OffBone),
        Stage::WeighReady => weight(Which::Ready),
        Stage::Yield => Some(fish.yield_sheet()?.ok()?.0.gave.value),
        _ => None,
    }
}

fn said_of(fish: &Fish, stage: Stage) -> String {
    match stage {
        Stage::Delivery => {
            let count = fish.slip.read_count().ok().filter(|count| *count > 1);
            let parts = [
                count.map(|count| format!("{count} fish together")),
                fish.slip.form.map(|form| form.name().to_owned()),
            ];
            parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
        }
        Stage::Yield => {
            let portions = fish.portions_told();
            portions
                .first()
                .map_or_else(String::new, |told| told.note.clone())
        }
        Stage::Fillet(_) => format!("{} of {} steps", fish.cut.min(fish.cuts()), fish.cuts()),
        Stage::Prepare => match fish.dish() {
            Ok(dish) if fish.insisted => format!("{} · started before all was ready", dish.brief()),
            Ok(dish) => dish.brief().to_owned(),
            Err(refusal) => refusal.to_string(),
        },
        Stage::Service => fish.run.as_ref().map_or_else(String::new, |run| {
            format!("started {}", clock::time_of_day(run.started))
        }),
        Stage::Pass => fish.finished.map_or_else(String::new, |at| {
            format!("finished {}", clock::time_of_day(at))
        }),
        Stage::WeighWhole
        | Stage::WeighOffBone
        | Stage::WeighFrame
        | Stage::WeighReady
        | Stage::PutRight(_)
        | Stage::Code
        | Stage::Card
        | Stage::Journal
        | Stage::Heat
        | Stage::Plan
        | Stage::Steps
        | Stage::AllSteps
        | Stage::Summary => String::new(),
    }
}

/// The answers of the plate check.
pub fn plate(fish: &Fish) -> AnyView {
    fish.dish().map_or_else(
        |_| ().into_any(),
        |dish| match (fish.finished, &fish.run) {
            (Some(_), Some(_)) if fish.plate.is_empty() => {
                view! { <p class="soft">"The plate was not checked."</p> }.into_any()
            }
            _ => plate_check::answers(&dish.plate_check, &fish.plate),
        },
    )
}

fn remove(hand: Hand) -> AnyView {
    let refused = RwSignal::new(None::<String>);
    let (words, says) = if hand.fish.with_untracked(Fish::is_alone) {
        (
            "Remove this service…",
            "This takes the service out of your list; the dish stays. It is in the bin for 30 days.",
        )
    } else {
        (
            "Remove this fish…",
            "This takes the fish and all its figures out of your list. They stay in the bin for 30 days.",
        )
    };
    let open_again = move |_| {
        hand.send(Action::Finish(false), refused);
    };
    view! {
        {move || refused.get().map(|sentence| view! { <p class="fault" role="alert">{sentence}</p> })}
        {move || hand.fish.with(|fish| fish.finished.is_some()).then(|| view! {
            <button class="btn plain" on:click=open_again>"Open it again"</button>
        })}
        {removal::of_record(
            words,
            says,
            Place::Home,
            Callback::new(move |whereto| hand.bench.fish.remove(&hand.id(), whereto)),
        )}
    }
    .into_any()
}
