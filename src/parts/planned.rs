//! The plan of a fish, worked out again as things happen, and what it says: the list, the quarrel, the ways out.

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::fresh::fresh;
use super::timeline;
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::base::stretch::stretch;
use crate::device::{clock, turns};
use crate::fish::action::Action;
use crate::fish::record::Fish;
use crate::fish::serving::PlanTap;
use crate::fish::settings::Settings;
use crate::service::dish::Dish;
use crate::service::timetable::Timetable;
use crate::service::timetable::face::{self, WorkedOut};
use crate::session::asked::{ask, forget};
use crate::session::hand::Hand;
use crate::work::Ask;
use crate::work::plan::{PlanQuestion, placed};

/// How often a plan is looked at again while nothing is tapped, in seconds: what is late moves the rest.
const BEAT_SECS: i64 = 5;
/// A plan that is no older, in seconds, needs no word about its age.
const FRESH_SECS: i64 = 2 * BEAT_SECS;
/// An answer that comes within so many milliseconds needs no word that it is waited for.
const SOON_MS: i64 = 1000;

/// The plan of a fish as it is shown. Copied freely: it holds only handles.
#[derive(Clone, Copy)]
pub struct ShownPlan {
    hand: Hand,
    /// Nothing until the first one has been worked out, and once plating has begun.
    shown: RwSignal<face::Planned>,
    /// What is being worked out, and since when.
    asked: RwSignal<Option<(PlanQuestion, Instant)>>,
    /// What was answered last, and when that was asked.
    known: StoredValue<Option<(PlanQuestion, WorkedOut, Instant)>>,
}

/// The plan of a fish, from now on. A tap is shown first: the plan is asked for when the screen has been painted, once
/// for all that was tapped until then.
pub fn of_fish(hand: Hand) -> ShownPlan {
    let planned = ShownPlan {
        hand,
        shown: RwSignal::new(None),
        asked: RwSignal::new(None),
        known: StoredValue::new(None),
    };
    let (fish, now) = (hand.fish, hand.bench.now);
    on_cleanup(|| forget(PlanQuestion::KIND));
    take_room(hand);
    let beat = Memo::new(move |_| now.get().0.div_euclid(BEAT_SECS * 1000));
    let due = StoredValue::new(false);
    Effect::new(move |_| {
        // Read, not only tracked: a memo that nobody reads never runs, and then follows nothing.
        let _ = beat.get();
        fish.track();
        if !due.get_value() {
            due.set_value(true);
            turns::after_paint(move || {
                // The screen may have been left in the meantime.
                if due.try_set_value(false).is_none() {
                    planned.look_again();
                }
            });
        }
    });
    planned
}

/// A service that has not begun has the room that was counted for the one before, until something else is said for it.
fn take_room(hand: Hand) {
    let counted = |settings: &Settings| settings.room.as_ref()?.open().ok().copied();
    let room = hand.bench.settings.with_untracked(counted);
    let unsaid = hand
        .fish
        .with_untracked(|fish| fish.run.is_none() && fish.serving().room.is_none());
    if let Some(room) = room.filter(|_| unsaid) {
        // What can't be kept is told of.
        let _ = hand
            .bench
            .fish
            .act(&hand.id(), Action::Plan(PlanTap::Room(room)));
    }
}

impl ShownPlan {
    /// Reads what is shown, and follows it.
    pub fn with<T>(self, read: impl FnOnce(&face::Planned) -> T) -> T {
        self.shown.with(read)
    }

    /// What is to be asked of the fish as it is now; no question once plating has begun, nothing where the screen or the
    /// fish is gone.
    fn wanted(self) -> Option<Option<Result<PlanQuestion, Refusal>>> {
        let now = self.hand.bench.now.get_untracked();
        self.hand.fish.try_with_untracked(|fish| {
            let wanted = !fish.is_plated();
            wanted.then(|| PlanQuestion::of(fish, now))
        })
    }

    /// Shows what is known, and asks for what is not.
    fn look_again(self) {
        match self.wanted() {
            None => return,
            Some(None) => self.show(None),
            Some(Some(Err(refusal))) => self.show(Some(Err(refusal.into()))),
            Some(Some(Ok(wanted))) if self.show_known(&wanted) => {}
            Some(Some(Ok(wanted))) => return self.ask(wanted),
        }
        // What was asked before is answered by what is known, or has no answer.
        if self.asked.with_untracked(Option::is_some) {
            self.asked.set(None);
            forget(PlanQuestion::KIND);
        }
    }

    /// Shows what was answered, if it answers this; a plan that does not hang on the clock is moved along with it.
    /// Returns whether that is all there is to do.
    fn show_known(self, wanted: &PlanQuestion) -> bool {
        let now = self.hand.bench.now.get_untracked();
        let plate_at = (self.hand.fish).with_untracked(|fish| fish.serving().plate_at);
        let found = self.known.with_value(|known| {
            let (asked, found, _) = known.as_ref().filter(|known| known.0.is_like(wanted))?;
            Some(if asked.is_running() {
                found.clone()
            } else {
                placed(found, plate_at, now)
            })
        });
        let answered = found.is_some() && !wanted.is_running();
        if let Some(found) = found {
            self.tell_alarm(&found);
            self.show(Some(found));
        }
        answered
    }

    /// It is a word from the plan to the alarm: it refuses nothing, and what can't be kept is told of.
    fn tell_alarm(self, found: &WorkedOut) {
        let Ok(plan) = found else { return };
        let fish = self.hand.fish;
        if let Some(tap) = fish.with_untracked(|fish| fish.told_by(plan, clock::now())) {
            let _ = self.hand.bench.fish.act(&self.hand.id(), Action::Plan(tap));
        }
    }

    fn ask(self, wanted: PlanQuestion) {
        // While the clock alone has moved on, the answer that is on its way will do.
        let on_its_way = (self.asked).with_untracked(|asked| {
            asked
                .as_ref()
                .is_some_and(|(asked, _)| asked.is_like(&wanted))
        });
        if on_its_way {
            return;
        }
        let now = self.hand.bench.now.get_untracked();
        self.asked.set(Some((wanted.clone(), now)));
        spawn_local(async move {
            let found = ask(&wanted).await;
            let still = self.asked.try_with_untracked(|asked| {
                asked.as_ref().is_some_and(|(asked, _)| *asked == wanted)
            });
            // Something newer is asked already, or the screen has been left.
            if still != Some(true) {
                return;
            }
            self.asked.set(None);
            if let Some(found) = found {
                self.known.set_value(Some((wanted, found, now)));
                // What was tapped in the meantime is asked for by itself.
                if let Some(Some(Ok(wanted))) = self.wanted() {
                    self.show_known(&wanted);
                }
            }
        });
    }

    fn show(self, found: face::Planned) {
        if let Some(timetable) = face::to_go_by(&found) {
            let slots = timetable.slots.iter();
            let hours = slots.map(|slot| (slot.task.clone(), timetable.at(slot.start)));
            let hours = hours.collect();
            (self.hand.bench.hours).update_value(|known| {
                known.insert(self.hand.id(), hours);
            });
        }
        let same = (self.shown).with_untracked(|shown| face::still_shows(shown, &found));
        if !same {
            self.shown.set(found);
        }
    }

    /// That another is waited for, and how old what is shown is; nothing while that is as it should be.
    fn age(self) -> Option<String> {
        let now = self.hand.bench.now.get();
        let waits = self
            .asked
            .with(|asked| asked.as_ref().map(|(_, since)| now.ms_since(*since)))?;
        if self.shown.with(Option::is_none) {
            return Some("Working it out…".to_owned());
        }
        let (running, age) = self.known.with_value(|known| {
            let (asked, _, since) = known.as_ref()?;
            Some((asked.is_running(), now.ms_since(*since) / 1000))
        })?;
        match (running, waits > SOON_MS, age > FRESH_SECS) {
            (true, _, true) => Some(format!(
                "This is {} old: working it out again…",
                stretch(age)
            )),
            (false, true, _) => {
                Some("From before your last change: working it out again…".to_owned())
            }
            _ => None,
        }
    }
}

/// Says that a plan is waited for, and how old the one on the screen is. It stands over what is there, so that nothing
/// moves under a thumb.
pub fn age(planned: ShownPlan) -> AnyView {
    let said = Memo::new(move |_| planned.age());
    view! { <p class="age" role="status">{move || said.get().map(|said| view! { <span>{said}</span> })}</p> }
        .into_any()
}

/// Every step in its order, with its hour: the plan for those who read it, or have it read to them.
pub fn list(fish: RwSignal<Fish>, planned: ShownPlan) -> AnyView {
    let names = names_of_cooks(fish);
    fresh(move || {
        let rows = planned.with(|planned| {
            let plan = plan_of(planned)?;
            names.with(|names| {
                fish.with_untracked(|fish| Some(rows(plan, &fish.laid_out().ok()?, names)))
            })
        });
        view! { <ol class="planlist">{rows}</ol> }.into_any()
    })
}

/// What the cooks are called. A plan that is shown is drawn anew when that changes, and with nothing else of the fish: what
/// was tapped since has no plan yet.
pub fn names_of_cooks(fish: RwSignal<Fish>) -> Memo<Vec<String>> {
    Memo::new(move |_| fish.with(|fish| fish.serving().names.clone()))
}

/// The plan, where there is one.
pub fn plan_of(planned: &face::Planned) -> Option<&Timetable> {
    planned.as_ref()?.as_ref().ok()
}

fn rows(plan: &Timetable, dish: &Dish, names: &[String]) -> AnyView {
    plan.slots
        .iter()
        .filter_map(|slot| {
            let step = dish.step(&slot.task)?;
            let lasts = slot.end - slot.start;
            let place = step.station.map(|station| match step.oven_c {
                Some(degrees) => format!("{} at {degrees} °C", station.name()),
                None => station.name().to_owned(),
            });
            let said: Vec<String> = [
                (lasts > 0).then(|| stretch(lasts)),
                place,
                match plan.whose(&step.id) {
                    Some(number) => Some(timeline::cook(number, names)),
                    None => step.hands.then(|| "hands".to_owned()),
                },
            ]
            .into_iter()
            .flatten()
            .collect();
            let waits = plan.waits.iter().find(|(id, _)| *id == slot.task);
            Some(view! {
                <li data-says="plan step">
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
pub fn quarrel(planned: ShownPlan, tap: Callback<PlanTap>, at_the_stove: bool) -> AnyView {
    view! {
        <div role="status">
            {move || planned.with(|planned| planned.as_ref().and_then(|planned| planned.as_ref().err()).map(|stuck| view! {
                <div class="doubt" data-says="plan">
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
pub fn proof(planned: ShownPlan) -> AnyView {
    view! {
        {move || planned.with(|planned| plan_of(planned).map(|plan| view! { <p class="soft small" data-says="plan">{plan.proof_said()}</p> }))}
    }
    .into_any()
}
