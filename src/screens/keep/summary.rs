//! The whole job of one fish on one page, found again from the list.

use leptos::prelude::*;

use crate::device::clock;
use crate::fish::action::Action;
use crate::fish::record::Fish;
use crate::fish::weighing::Which;
use crate::parts::page::{Page, back_to};
use crate::parts::range::YieldBeside;
use crate::parts::{plate_check, removal};
use crate::place::{Place, Stage};
use crate::screens::fish::costing;
use crate::session::hand::Hand;
use crate::trade::mass;

/// The whole job of one fish.
pub fn screen(hand: Hand) -> AnyView {
    let fish = hand.fish;
    let next = move || fish.with(Fish::next_stage);
    view! {
        <Page
            title=hand.name()
            above=Signal::derive(move || fish.with(|fish| format!("Begun {}", clock::moment(fish.begun))))
            demo=hand.demo()
            dock=move || view! {
                {back_to(&Place::Home)}
                {move || (next() != Stage::Summary).then(|| view! {
                    <a class="btn main tall next" href=move || hand.at(next()).to_string()>"Go on"</a>
                })}
            }
        >
            <ol class="rows">{Stage::JOB.into_iter().map(|stage| stage_row(hand, stage)).collect_view()}</ol>
            {move || fish.with(costing::figures)}
            {move || fish.with(costing::portions)}
            {move || fish.with(YieldBeside::of).map(|beside| beside.section())}
            {move || fish.with(plate)}
            {move || fish.with(|fish| (!fish.note.trim().is_empty()).then(|| view! {
                <section class="sheet"><h2>"Next time"</h2><p>{fish.note.clone()}</p></section>
            }))}
            <a class="btn" href=hand.at(Stage::Journal).to_string()>"Journal: photos and notes"</a>
            {costing::send_result(hand)}
            {remove(hand)}
        </Page>
    }
    .into_any()
}

fn stage_row(hand: Hand, stage: Stage) -> AnyView {
    let fish = hand.fish;
    let href = hand.at(stage).to_string();
    view! {
        <li>
            <a class="item" href=href>
                <span class="grow"><b>{stage.name()}</b><small>{move || fish.with(|fish| said_of(fish, stage))}</small></span>
                {move || fish.with(|fish| fish.is_done(stage)).then(|| view! { <span class="done">"✓"<span class="unseen">"done"</span></span> })}
            </a>
        </li>
    }
    .into_any()
}

fn said_of(fish: &Fish, stage: Stage) -> String {
    let weight = |which| {
        let reading = fish.reading(which);
        reading
            .taken_mass()
            .map_or_else(String::new, |weight| mass::show(weight, reading.unit))
    };
    match stage {
        Stage::Delivery => {
            let count = fish.slip.read_count().ok().filter(|count| *count > 1);
            let parts = [
                count.map(|count| format!("{count} fish together")),
                fish.slip.form.map(|form| form.name().to_owned()),
                fish.slip.read_price().ok().map(|price| price.show()),
            ];
            parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
        }
        Stage::WeighWhole => weight(Which::Whole),
        Stage::WeighOffBone => weight(Which::OffBone),
        Stage::WeighReady => weight(Which::Ready),
        Stage::Fillet(_) => format!("{} of {} steps", fish.cut.min(fish.cuts()), fish.cuts()),
        Stage::Prepare => match fish.dish() {
            Ok(dish) if fish.insisted => format!("{} · started with lines open", dish.name),
            Ok(dish) => dish.name.clone(),
            Err(refusal) => refusal.to_string(),
        },
        Stage::Service => fish.run.as_ref().map_or_else(String::new, |run| {
            format!("started {}", clock::time_of_day(run.started))
        }),
        Stage::Pass => fish.finished.map_or_else(String::new, |at| {
            format!("finished {}", clock::time_of_day(at))
        }),
        Stage::Yield
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
    let open_again = move |_| {
        hand.send(Action::Finish(false), refused);
    };
    view! {
        {move || refused.get().map(|sentence| view! { <p class="fault" role="alert">{sentence}</p> })}
        {move || hand.fish.with(|fish| fish.finished.is_some()).then(|| view! {
            <button class="btn plain" on:click=open_again>"Open it again"</button>
        })}
        {removal::of_record(
            "Remove this fish…",
            "This takes the fish and all its figures out of your list. They stay in the bin for 30 days.",
            Place::Home,
            Callback::new(move |whereto| hand.bench.fish.remove(&hand.id(), whereto)),
        )}
    }
    .into_any()
}
