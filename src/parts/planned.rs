//! The plan of a fish, worked out again as things happen, and what it says: the list, the quarrel, the ways out.

use leptos::prelude::*;

use crate::device::clock;
use crate::instant::Instant;
use crate::record::fish::Fish;
use crate::record::serving::PlanTap;
use crate::service::dish::Dish;
use crate::service::stretch::stretch;
use crate::service::timetable::{Stuck, Timetable};

/// A plan, or why there is none.
pub type Planned = Memo<Result<Timetable, Stuck>>;

/// How often a plan is worked out again while nothing is tapped, in seconds: what is late moves the rest.
const BEAT_SECS: i64 = 5;

/// The plan of a fish, from now on.
pub fn of_fish(fish: RwSignal<Fish>, now: RwSignal<Instant>) -> Planned {
    let beat = Memo::new(move |_| now.get().0.div_euclid(BEAT_SECS * 1000));
    Memo::new(move |_| {
        // Read, not only tracked: a memo that nobody reads never runs, and then follows nothing.
        let _ = beat.get();
        fish.with(|fish| fish.timetable(now.get_untracked()))
    })
}

/// Every step in its order, with its hour: the plan for those who read it, or have it read to them.
pub fn list(fish: RwSignal<Fish>, planned: Planned) -> AnyView {
    view! {
        <ol class="planlist">
            {move || planned.with(|planned| {
                let plan = planned.as_ref().ok()?;
                fish.with(|fish| Some(rows(plan, &fish.laid_out().ok()?)))
            })}
        </ol>
    }
    .into_any()
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
            {move || planned.with(|planned| planned.as_ref().err().map(|stuck| view! {
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
        {move || planned.with(|planned| planned.as_ref().ok().map(|plan| view! { <p class="soft small">{plan.proof_said()}</p> }))}
    }
    .into_any()
}
