//! The plan of a fish, worked out again as things happen, and what it says: the list, the quarrel, the ways out.

use std::time::Duration;

use leptos::prelude::*;

use crate::base::stretch::stretch;
use crate::device::clock;
use crate::fish::action::Action;
use crate::fish::record::Fish;
use crate::fish::serving::PlanTap;
use crate::service::dish::Dish;
use crate::service::timetable::{Timetable, face};
use crate::session::hand::Hand;

/// A plan, or why there is none; nothing until the first one has been worked out, and once plating has begun.
pub type Planned = RwSignal<face::Planned>;

/// How often a plan is worked out again while nothing is tapped, in seconds: what is late moves the rest.
const BEAT_SECS: i64 = 5;

/// The plan of a fish, from now on. A tap is shown first: the plan is worked out when the screen has been painted,
/// once for all that was tapped until then.
pub fn of_fish(hand: Hand) -> Planned {
    let (fish, now) = (hand.fish, hand.bench.now);
    let planned: Planned = RwSignal::new(None);
    let beat = Memo::new(move |_| now.get().0.div_euclid(BEAT_SECS * 1000));
    let due = StoredValue::new(false);
    Effect::new(move |_| {
        // Read, not only tracked: a memo that nobody reads never runs, and then follows nothing.
        let _ = beat.get();
        fish.track();
        if !due.get_value() {
            due.set_value(true);
            after_paint(move || work_out(hand, planned, due));
        }
    });
    planned
}

fn work_out(hand: Hand, planned: Planned, due: StoredValue<bool>) {
    let (fish, now) = (hand.fish, hand.bench.now);
    // The screen may have been left in the meantime.
    if due.try_set_value(false).is_some() {
        return;
    }
    let found = fish.try_with_untracked(|fish| {
        let wanted = !fish.is_plated();
        wanted.then(|| fish.timetable(now.get_untracked()))
    });
    let Some(found) = found else { return };
    let plan = plan_of(&found);
    let told = plan.and_then(|plan| fish.with_untracked(|fish| fish.told_by(plan, clock::now())));
    if let Some(tap) = told {
        // It is a word from the plan to the alarm: it refuses nothing, and what can't be kept is told of.
        let _ = hand.bench.fish.act(&hand.id(), Action::Plan(tap));
    }
    let same = planned.with_untracked(|planned| face::still_shows(planned, &found));
    if !same {
        planned.set(found);
    }
}

/// Does something when the next frame is on the screen.
fn after_paint(work: impl FnOnce() + 'static) {
    request_animation_frame(move || set_timeout(work, Duration::ZERO));
}

/// Every step in its order, with its hour: the plan for those who read it, or have it read to them.
pub fn list(fish: RwSignal<Fish>, planned: Planned) -> AnyView {
    view! {
        <ol class="planlist">
            {move || planned.with(|planned| {
                let plan = plan_of(planned)?;
                fish.with_untracked(|fish| Some(rows(plan, &fish.laid_out().ok()?)))
            })}
        </ol>
    }
    .into_any()
}

/// The plan, where there is one.
pub fn plan_of(planned: &face::Planned) -> Option<&Timetable> {
    planned.as_ref()?.as_ref().ok()
}

fn rows(plan: &Timetable, dish: &Dish) -> AnyView {
    plan.slots
        .iter()
        .filter_map(|slot| {
            let step = dish.step(&slot.task)?;
            let lasts = slot.end - slot.start;
            let place = step.station.map(|station| station.name());
            let said: Vec<String> = [
                (lasts > 0).then(|| stretch(lasts)),
                place.map(str::to_owned),
                step.hands.then(|| "hands".to_owned()),
            ]
            .into_iter()
            .flatten()
            .collect();
            let waits = plan.waits.iter().find(|(id, _)| *id == slot.task);
            Some(view! {
                <li>
                    <b class="num">{clock::time_of_day(plan.at(slot.start))}</b>
                    <span>
                        {step.title.clone()}
                        <small>{said.join(" · ")}</small>
                        {waits.map(|(_, secs)| view! { <small class="waits">{format!("then waits {} for the plate", stretch(*secs))}</small> })}
                    </span>
                </li>
            }.into_any())
        })
        .collect_view()
        .into_any()
}

/// What quarrels, and the nearest ways out as buttons; nothing while everything fits. At the stove the reason is
/// folded away, so that it pushes no timer off the screen.
pub fn quarrel(planned: Planned, tap: Callback<PlanTap>, at_the_stove: bool) -> AnyView {
    view! {
        <div role="status">
            {move || planned.with(|planned| planned.as_ref().and_then(|planned| planned.as_ref().err()).map(|stuck| view! {
                <div class="doubt">
                    <b>"This does not fit"</b>
                    {if at_the_stove {
                        view! { <details><summary>"Why"</summary><p>{stuck.sentence.clone()}</p></details> }.into_any()
                    } else {
                        view! { <p>{stuck.sentence.clone()}</p> }.into_any()
                    }}
                    {(!stuck.ways.is_empty()).then(|| view! { <p>"The nearest ways out:"</p> })}
                    {stuck.ways.iter().map(|(say, change)| {
                        let say = say.clone();
                        match change.clone() {
                            Some(change) => view! {
                                <button class="btn" on:click=move |_| tap.run(PlanTap::WayOut(change.clone()))>{say}</button>
                            }.into_any(),
                            None => view! { <p>{say}</p> }.into_any(),
                        }
                    }).collect_view()}
                </div>
            }))}
        </div>
    }
    .into_any()
}

/// How good the plan is, said plainly.
pub fn proof(planned: Planned) -> AnyView {
    view! {
        {move || planned.with(|planned| plan_of(planned).map(|plan| view! { <p class="soft small">{plan.proof_said()}</p> }))}
    }
    .into_any()
}
