//! The dish against the clock: what to do now, what runs, what comes.

use std::sync::Arc;

use leptos::prelude::*;

use super::due;
use crate::base::instant::Instant;
use crate::base::stretch::stretch;
use crate::device::clock;
use crate::device::wake::Wake;
use crate::fish::action::Action;
use crate::fish::serving::PlanTap;
use crate::parts::lanes::{self, LanesView};
use crate::parts::page::{Page, back_to};
use crate::parts::planned::{self, ShownPlan};
use crate::parts::{timer, words};
use crate::place::Stage;
use crate::service::run::Tap;
use crate::service::run::state::StepState;
use crate::service::timetable::face;
use crate::service::timetable::face::Face;
use crate::session::hand::Hand;

/// Where a step stands on the screen.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Stand {
    /// What has begun, and the one that is to begin next.
    Now,
    Coming,
    Done,
}

/// The service.
pub fn screen(hand: Hand) -> AnyView {
    let fish = hand.fish;
    if let Err(refusal) = fish.with_untracked(|fish| fish.dish().map(|_| ())) {
        return super::no_dish(hand, &refusal);
    }
    if fish.with_untracked(|fish| fish.run.is_none()) {
        return not_started(hand);
    }
    let refused = RwSignal::new(None);
    let now = hand.bench.now;
    let planned = planned::of_fish(hand);
    let faces = Memo::new(move |_| faces(hand, planned, now.get()));
    let tap = Callback::new(move |tap: Tap| {
        now.set(clock::now());
        hand.send(Action::Serve(tap), refused);
    });
    let plan_tap = Callback::new(move |tap: PlanTap| {
        hand.send(Action::Plan(tap), refused);
    });
    let over = Memo::new(move |_| fish.with(crate::fish::record::Fish::is_over));
    view! {
        <Page
            title="Service"
            above=hand.name()
            at=Stage::Service
            demo=hand.demo()
            dock=move || due::dock(hand, faces, over, tap)
        >
            {planned::age(planned)}
            {plate_line(hand, planned, faces)}
            {move || refused.get().map(|sentence: String| view! { <p class="fault" role="alert">{sentence}</p> })}
            <section>
                <h2 class="unseen">"Now"</h2>
                {cards(hand, faces, tap, Stand::Now)}
            </section>
            {planned::quarrel(planned, plan_tap, true)}
            {crate::screens::cook::probe::section(hand)}
            {picture(hand, planned)}
            <section>
                {heading(faces, Stand::Coming, "Coming")}
                {cards(hand, faces, tap, Stand::Coming)}
            </section>
            {as_a_list(hand, planned)}
            <details>
                <summary>"Done"</summary>
                {cards(hand, faces, tap, Stand::Done)}
            </details>
            {reminders(hand)}
            {move || (!over.get()).then(|| view! { <a class="link" href=hand.at(Stage::Pass).to_string()>"Check the plate before all is done"</a> })}
            {start_again(hand, refused)}
        </Page>
    }
    .into_any()
}

/// Every step as it stands, what is still to come at the hour the plan gives it.
fn faces(hand: Hand, planned: ShownPlan, now: Instant) -> Vec<Face> {
    hand.fish.with(|fish| match (&fish.run, fish.dish()) {
        (Some(run), Ok(dish)) => {
            planned.with(|planned| face::faces(dish, &fish.slip.missing, run, planned, now))
        }
        _ => Vec::new(),
    })
}

/// What is next and when the plate is, large enough for arm's length.
fn plate_line(hand: Hand, planned: ShownPlan, faces: Memo<Vec<Face>>) -> AnyView {
    let now = hand.bench.now;
    let plate = Memo::new(move |_| {
        let at = hand.fish.with(|fish| {
            let (run, dish) = (fish.run.as_ref()?, fish.dish().ok()?);
            planned.with(|planned| face::plate_at(dish, run, planned))
        });
        at.map_or_else(|| "…".to_owned(), clock::time_of_day)
    });
    let stuck = Memo::new(move |_| {
        planned.with(|planned| match planned {
            Some(Err(stuck)) if stuck.ways.is_empty() => {
                Some("This does not fit: why stands below.")
            }
            Some(Err(_)) => Some("This does not fit: the ways out stand below."),
            _ => None,
        })
    });
    let clock_now = Memo::new(move |_| clock::time_of_day(now.get()));
    let next = Memo::new(move |_| faces.with(|faces| next(faces, now.get())));
    view! {
        <div class="sheet">
            <p class="clockline num">
                <span>"Now "<b>{move || clock_now.get()}</b></span>
                <span>"Plate about "<b>{move || plate.get()}</b></span>
            </p>
            {move || next.get().map(|(title, left)| view! {
                <p class="nextline"><span>{if left.is_empty() { "Begin now: " } else { "Next: " }}<b>{title}</b></span><b class="num">{left}</b></p>
            })}
            {move || stuck.get().map(|said| view! { <p class="small"><b>{said}</b></p> })}
        </div>
    }
    .into_any()
}

/// When a step begins, for an order: what has no hour stands last, as it is written.
fn begins(face: &Face) -> Instant {
    face.span.map_or(Instant(i64::MAX), |(start, _)| start)
}

/// The step to begin next by a tap, and how long until then; empty: it is time.
fn next(faces: &[Face], now: Instant) -> Option<(String, String)> {
    let to_come = faces.iter().filter(|face| {
        matches!(
            face.state,
            StepState::Waiting { .. } | StepState::Ready { .. }
        )
    });
    let next = to_come.min_by_key(|face| begins(face))?;
    let ready = matches!(next.state, StepState::Ready { .. });
    let left = match next.span.map(|(start, _)| start.ms_since(now)) {
        Some(..1000) | None if ready => String::new(),
        Some(left) => words::face(left),
        None => "…".to_owned(),
    };
    Some((next.title.clone(), left))
}

/// The picture of the plan, and who waits.
fn picture(hand: Hand, planned: ShownPlan) -> AnyView {
    let waits = move || {
        planned.with(|planned| {
            let plan = planned::plan_of(planned)?;
            let (id, secs) = plan.waits.first()?;
            let title = hand.fish.with_untracked(|fish| {
                let dish = fish.dish().ok()?;
                dish.step(id).map(|step| step.title.clone())
            })?;
            Some(view! { <p class="small"><b>{format!("“{title}” waits {} for the plate.", stretch(*secs))}</b></p> })
        })
    };
    view! {
        {lanes::picture(hand.fish, planned, hand.bench.now, LanesView::Running)}
        {waits}
    }
    .into_any()
}

/// The plan as a list. It is drawn only where it is looked at: it changes with every tap.
fn as_a_list(hand: Hand, planned: ShownPlan) -> AnyView {
    let open = RwSignal::new(false);
    view! {
        <details on:toggle=move |_| open.set(true)>
            <summary>"The plan as a list"</summary>
            {move || open.get().then(|| view! {
                {planned::list(hand.fish, planned)}
                {planned::proof(planned)}
            })}
            <a class="link" href=hand.at(Stage::Plan).to_string()>"Change the plan"</a>
        </details>
    }
    .into_any()
}

/// A heading that stands only over something.
fn heading(faces: Memo<Vec<Face>>, of: Stand, words: &'static str) -> AnyView {
    let any = Memo::new(move |_| faces.with(|faces| !grouped(faces, of).is_empty()));
    view! { {move || any.get().then(|| view! { <h2>{words}</h2> })} }.into_any()
}

/// The steps of one group, in their order.
fn grouped(faces: &[Face], of: Stand) -> Vec<&Face> {
    let ready = faces
        .iter()
        .filter(|face| matches!(face.state, StepState::Ready { .. }));
    let next = ready.min_by_key(|face| begins(face));
    let group = |face: &Face| match face.state {
        StepState::Running { .. } | StepState::Held { .. } | StepState::Over { .. } => Stand::Now,
        StepState::Ready { .. } if next.is_some_and(|next| next.id == face.id) => Stand::Now,
        StepState::Ready { .. } | StepState::Waiting { .. } => Stand::Coming,
        StepState::Done { .. } => Stand::Done,
    };
    let mut found: Vec<&Face> = faces.iter().filter(|face| group(face) == of).collect();
    // What has rung stands first, where a glance falls; what is to begin next, last.
    found.sort_by_key(|face| match face.state {
        StepState::Over { .. } => (0, None),
        StepState::Ready { .. } | StepState::Waiting { .. } => (2, Some(begins(face))),
        _ => (1, None),
    });
    found
}

/// The steps of one group. A card is built once and then follows its own step, so that a button under a
/// thumb is never replaced while the clock moves on.
fn cards(hand: Hand, faces: Memo<Vec<Face>>, tap: Callback<Tap>, of: Stand) -> AnyView {
    let ids = Memo::new(move |_| {
        faces.with(|faces| {
            let group = grouped(faces, of).into_iter();
            group.map(|face| face.id.clone()).collect::<Vec<_>>()
        })
    });
    view! {
        <div class="stack">
            <For each=move || ids.get() key=Clone::clone let:id>
                {
                    let step = hand.fish.with_untracked(|fish| Some(Arc::new(fish.dish().ok()?.step(&id)?.clone())));
                    let face = Memo::new(move |_| faces.with(|faces| faces.iter().find(|face| face.id == id).cloned()));
                    step.map(|step| timer::card(hand.fish, step, face, of == Stand::Now, tap))
                }
            </For>
        </div>
    }
    .into_any()
}

/// What the phone can and can't do for the alarms just now.
fn reminders(hand: Hand) -> AnyView {
    view! {
        <section class="sheet small">
            {move || (!hand.bench.armed.get()).then(|| view! { <p><b>"Touch the screen once, so that the alarms can be heard."</b></p> })}
            <p class="soft">
                {move || match hand.bench.wake.get() {
                    Wake::Held => "The screen stays on while you cook.",
                    Wake::Dropped => "The screen may switch off: touch it now and then.",
                    Wake::Unknown => "This browser can't keep the screen on: set the phone not to lock.",
                }}
                " An alarm may come late while the phone is locked."
            </p>
        </section>
    }
    .into_any()
}

fn start_again(hand: Hand, refused: RwSignal<Option<String>>) -> AnyView {
    let sure = RwSignal::new(false);
    view! {
        {move || if sure.get() {
            view! {
                <div class="doubt">
                    <p>"This forgets every time of this service. The weights and the mise en place stay."</p>
                    <div class="row">
                        <button class="btn plain" on:click=move |_| sure.set(false)>"Keep it"</button>
                        <button class="btn" on:click=move |_| if hand.send(Action::StartAgain, refused) { hand.go(Stage::Prepare) }>"Start again"</button>
                    </div>
                </div>
            }.into_any()
        } else {
            view! { <button class="btn bare" on:click=move |_| sure.set(true)>"Start the service again…"</button> }.into_any()
        }}
    }
    .into_any()
}

fn not_started(hand: Hand) -> AnyView {
    view! {
        <Page title="Service" above=hand.name() at=Stage::Service demo=hand.demo() dock=move || back_to(&hand.at(Stage::Prepare))>
            <p>"The service starts from the mise en place: go back one screen."</p>
        </Page>
    }
    .into_any()
}
