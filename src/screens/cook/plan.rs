//! The plan of the service: when to start for a plate at its hour, and what happens when.

use leptos::prelude::*;

use super::alongside;
use crate::base::folded::Folded;
use crate::base::stretch::stretch;
use crate::device::clock;
use crate::fish::action::Action;
use crate::fish::record::Fish;
use crate::fish::serving::PlanTap;
use crate::fish::settings::Preference;
use crate::parts::choice::{fault, one_of};
use crate::parts::lanes::{self, LanesView};
use crate::parts::page::{Page, back_or, back_to};
use crate::parts::planned::{self, ShownPlan};
use crate::parts::words;
use crate::place::{DishSide, Place, Stage};
use crate::service::dish::Dish;
use crate::service::dish::kitchen_room::{Counted, MOST_COUNTED};
use crate::service::dish::laid_out::{MOST_COOKS, MOST_PANS};
use crate::service::timetable::late::how_late;
use crate::session::hand::Hand;

/// The most fillets that a pan of a cook's range takes at once, to be chosen from.
const MOST_AT_ONCE: u32 = 6;

/// The plan.
pub fn screen(hand: Hand) -> AnyView {
    let fish = hand.fish;
    let refused = RwSignal::new(None);
    let planned = planned::of_fish(hand);
    let tap = Callback::new(move |tap: PlanTap| {
        hand.bench.now.set(clock::now());
        hand.send(Action::Plan(tap), refused);
    });
    let cooking = Memo::new(move |_| fish.with(|fish| fish.run.is_some()));
    let fits = Memo::new(move |_| planned.with(|planned| planned::plan_of(planned).is_some()));
    let alone = fish.with_untracked(Fish::is_alone);
    let is_planned = Memo::new(move |_| planned.with(Option::is_some));
    view! {
        <Page
            title="Plan of the service"
            above=hand.name()
            at=Stage::Prepare
            demo=hand.demo()
            dock=move || view! {
                {move || if cooking.get() {
                    view! { <a class="btn main tall next" href=hand.at(Stage::Service).to_string()>"Back to the service"</a> }.into_any()
                } else if alone {
                    view! {
                        {back_or(Place::Home)}
                        <a class="btn main tall next" href=hand.at(Stage::Prepare).to_string()>"Prepare it"</a>
                    }.into_any()
                } else {
                    back_to(&hand.at(Stage::Prepare)).into_any()
                }}
            }
        >
            {planned::age(planned)}
            {hour(hand, tap)}
            {pan_room(hand, tap)}
            {headline(hand, planned)}
            {planned::quarrel(planned, tap, false)}
            {lanes::picture(fish, planned, hand.bench.now, LanesView::Whole)}
            {planned::proof(planned)}
            {move || fits.get().then(|| view! {
                <details>
                    <summary>"Step by step"</summary>
                    {planned::list(fish, planned)}
                </details>
            })}
            // It comes with the plan, or it would move under the thumb.
            {move || is_planned.get().then(|| view! {
                {alongside::dishes(hand, tap)}
                {bench(hand, tap, refused)}
            })}
            {fault("plan-fault", move || refused.get())}
        </Page>
    }
    .into_any()
}

fn headline(hand: Hand, planned: ShownPlan) -> AnyView {
    let fish = hand.fish;
    let said = move || {
        planned.with(|planned| {
            let plan = planned::plan_of(planned)?;
            let now = hand.bench.now.get();
            let plate = plan.at(plan.plating);
            let lead = plate.ms_since(plan.begins()) / 1000;
            let ahead = plan.begins().ms_since(now) / 1000;
            let wanted = fish.with(|fish| fish.serving().plate_at.is_some() && fish.run.is_none());
            let begun_now = now.plus_secs(lead);
            let dish = fish.with_untracked(Fish::laid_out).ok()?;
            let later = plan.plates(&dish).into_iter().skip(1);
            let later = later.map(|at| clock::time_of_day(plan.at(at)));
            let note = wanted.then(|| match how_late(plate, begun_now) {
                Some(late) => format!(
                    "Too late for {}: begun now, it is on the plate at {}, {} late. Choose a later hour, or go now.",
                    clock::time_of_day(plate),
                    clock::time_of_day(begun_now),
                    late
                ),
                None if ahead < 60 => "It is time to begin.".to_owned(),
                None => format!(
                    "In {}. Start the service from the mise en place: the alarm rings when it is time to begin.",
                    stretch(ahead - ahead % 60)
                ),
            });
            Some(view! {
                <div class="sheet" data-says="plan">
                    <p class="clockline num">
                        <span>"Begin "<b>{clock::time_of_day(plan.begins())}</b></span>
                        <span>"Plate "<b>{clock::time_of_day(plan.at(plan.plating))}</b></span>
                        {later.map(|hour| view! { <span>"then "<b>{hour}</b></span> }).collect_view()}
                    </p>
                    <p class="soft small">{format!("{} from the first step to the plate.", stretch(lead))}</p>
                    {note.map(|note| view! { <p class="small"><b>{note}</b></p> })}
                </div>
            })
        })
    };
    view! { {said} }.into_any()
}

/// Asks how many fillets lie in a pan at once, where there are more than two and nobody has said it.
fn pan_room(hand: Hand, tap: Callback<PlanTap>) -> AnyView {
    let unplaced = Memo::new(move |_| hand.fish.with(Fish::fillets_unplaced));
    view! {
        {move || unplaced.get().map(|fillets| {
            let choices = (1..=fillets.min(MOST_AT_ONCE)).map(|count| (count, count.to_string()));
            view! {
                <div class="doubt">
                    {one_of(
                        "pan-room",
                        format!("{fillets} fillets: how many lie flat in your pan at once, not touching?"),
                        "six",
                        choices.collect(),
                        || None,
                        move |count: u32| tap.run(PlanTap::AtOnce(count.to_string())),
                    )}
                    <p class="small">"Until you say so, the plan counts them all as one panful."</p>
                </div>
            }
        })}
    }
    .into_any()
}

/// By the hour of the plate, or now.
fn hour(hand: Hand, tap: Callback<PlanTap>) -> AnyView {
    let fish = hand.fish;
    let plate_at = Memo::new(move |_| fish.with(|fish| fish.serving().plate_at));
    let by_hour = RwSignal::new(plate_at.get_untracked().is_some());
    view! {
        {one_of(
            "when",
            "When",
            "",
            vec![(false, "As soon as it can".to_owned()), (true, "At an hour".to_owned())],
            move || Some(by_hour.get()),
            move |by| {
                by_hour.set(by);
                if !by {
                    tap.run(PlanTap::PlateAt(None));
                }
            },
        )}
        {move || by_hour.get().then(|| view! {
            <div class="field">
                <label for="plate-at">"Plate at"</label>
                <input id="plate-at" type="time"
                    prop:value=move || plate_at.get().map(clock::time_of_day).unwrap_or_default()
                    on:change:target=move |event| {
                        if let Some(at) = clock::next_at(&event.target().value(), clock::now()) {
                            tap.run(PlanTap::PlateAt(Some(at)));
                        }
                    }/>
            </div>
        })}
    }
    .into_any()
}

/// Where the steps are changed: those of a dish served alone on its card, which it follows.
fn steps_at(hand: Hand, fish: &Fish) -> Place {
    match &fish.serving().card {
        Some(card) if fish.is_alone() => Place::Dish(card.clone(), DishSide::Steps),
        _ => hand.at(Stage::Steps),
    }
}

/// How many there are of something in this kitchen: said once, it holds for the next service too.
fn counted(hand: Hand, tap: Callback<PlanTap>, what: Counted) -> AnyView {
    let fish = hand.fish;
    let room = move || fish.with(|fish| fish.serving().room.unwrap_or_default());
    let choices = std::iter::once((None, "Any".to_owned()));
    let choices = choices.chain((1..=MOST_COUNTED).map(|count| (Some(count), count.to_string())));
    one_of(
        what.key(),
        words::capital(what.name()),
        "six",
        choices.collect(),
        move || Some(room().of(what)),
        move |count| {
            if let Some(room) = untrack(room).with(what, count) {
                tap.run(PlanTap::Room(room));
                // A value of three numbers has a text.
                if let Ok(room) = Folded::of(room) {
                    hand.bench.prefer(Preference::Room(room));
                }
            }
        },
    )
}

/// What the cooks are called, where there are several.
fn names(hand: Hand, tap: Callback<PlanTap>) -> AnyView {
    let fish = hand.fish;
    let cooks = Memo::new(move |_| fish.with(|fish| fish.serving().cooks));
    let named = move |number: usize| {
        let names = move |fish: &Fish| fish.serving().names.get(number - 1).cloned();
        view! {
            <div class="field">
                <label for=format!("cook-{number}")>{format!("Cook {number} is called")}</label>
                <input id=format!("cook-{number}") type="text" autocomplete="off"
                    prop:value=move || fish.with(names).unwrap_or_default()
                    on:input:target=move |event| tap.run(PlanTap::Cook(number, event.target().value()))/>
            </div>
        }
    };
    view! {
        {move || (cooks.get() > 1).then(|| {
            let all = 1..=usize::try_from(cooks.get()).unwrap_or(1);
            view! { <div class="stack">{all.map(named).collect_view()}</div> }
        })}
    }
    .into_any()
}

/// The hands, the pans and the panfuls.
fn bench(hand: Hand, tap: Callback<PlanTap>, refused: RwSignal<Option<String>>) -> AnyView {
    let fish = hand.fish;
    let alone = fish.with_untracked(Fish::is_alone);
    let has_fish = Memo::new(move |_| fish.with(|fish| fish.dish().is_ok_and(Dish::has_fish)));
    let cooks = (1..=MOST_COOKS).map(|cooks| (cooks, cooks.to_string()));
    view! {
        <details>
            <summary>"Cooks and pans"</summary>
            <div class="stack">
            {one_of("cooks", "Cooks", "six", cooks.collect(), move || Some(fish.with(|fish| fish.serving().cooks)), move |cooks| tap.run(PlanTap::Cooks(cooks)))}
            {names(hand, tap)}
            {one_of("pans", "Pans", "six", (1..=MOST_PANS).map(|pans| (pans, pans.to_string())).collect(), move || Some(fish.with(|fish| fish.serving().pans)), move |pans| tap.run(PlanTap::Pans(pans)))}
            {Counted::ALL.map(|what| counted(hand, tap, what)).collect_view()}
            {alone.then(|| view! {
                <div class="field">
                    <label for="covers">"Covers"</label>
                    <input id="covers" type="text" inputmode="numeric" autocomplete="off"
                        prop:value=move || fish.with(|fish| fish.slip.portions.clone())
                        on:input:target=move |event| { hand.send(Action::Portions(event.target().value()), refused); }/>
                </div>
            })}
            {move || has_fish.get().then(|| view! { <div class="field">
                <label for="at-once">"Fillets that lie flat in the pan at once"</label>
                <p class="hint" id="at-once-hint">{move || fish.with(|fish| format!("For {} portions. Empty: all of them.", fish.slip.portions))}</p>
                <input id="at-once" type="text" inputmode="numeric" autocomplete="off" aria-describedby="at-once-hint"
                    prop:value=move || fish.with(|fish| fish.serving().at_once.clone())
                    on:input:target=move |event| tap.run(PlanTap::AtOnce(event.target().value()))/>
            </div> })}
            <a class="btn plain" href=move || fish.with(|fish| steps_at(hand, fish)).to_string()>"Change the steps of the dish"</a>
            </div>
        </details>
    }
    .into_any()
}
