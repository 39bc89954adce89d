//! Every step of a service, one by one, with all that can be done to each, and what else is seldom needed at the stove.

use std::sync::Arc;

use leptos::prelude::*;

use crate::base::instant::Instant;
use crate::base::stretch::stretch;
use crate::device::wake::Wake;
use crate::fish::action::Action;
use crate::parts::estimated;
use crate::parts::lanes::{self, LanesView};
use crate::parts::page::Page;
use crate::parts::planned::{self, ShownPlan};
use crate::parts::timer;
use crate::place::Stage;
use crate::screens::stove::due::DueDock;
use crate::screens::stove::taps::Taps;
use crate::screens::stove::{faces, hours, mute_line, not_cooking, probe};
use crate::service::run::state::StepState;
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

/// All steps of the service.
pub fn screen(hand: Hand) -> AnyView {
    let fish = hand.fish;
    if let Some(other) = not_cooking(hand) {
        return other;
    }
    let taps = Taps::of(hand);
    let told = estimated::of_fish_in_hand(fish, hand.bench.now);
    let planned = planned::of_fish(hand);
    let faces = faces(hand, planned);
    let over = Memo::new(move |_| fish.with(crate::fish::record::Fish::is_over));
    let due = DueDock::of(taps, faces, over);
    let plan_tap = Callback::new(move |tap| taps.plan(tap));
    view! {
        <Page
            title=Stage::AllSteps.name()
            above=hand.name()
            at=Stage::Service
            demo=hand.demo()
            dock=move || due.view(Stage::Service)
        >
            {planned::age(planned)}
            {hours::line(hand, planned)}
            {taps.fault()}
            <section data-says="plan step">
                <h2 class="unseen">"Now"</h2>
                {cards(taps, faces, Stand::Now)}
            </section>
            {planned::quarrel(planned, plan_tap, true)}
            {probe::section(hand, told)}
            {picture(hand, planned)}
            <section data-says="plan step">
                {heading(faces, Stand::Coming, "Coming")}
                {cards(taps, faces, Stand::Coming)}
            </section>
            {as_a_list(hand, planned)}
            <details>
                <summary>"Done"</summary>
                {cards(taps, faces, Stand::Done)}
            </details>
            {reminders(hand)}
            {move || (!over.get()).then(|| view! { <a class="link" href=hand.at(Stage::Pass).to_string()>"Check the plate before all is done"</a> })}
            {start_again(taps)}
        </Page>
    }
    .into_any()
}

/// When a step begins, for an order: what has no hour stands last, as it is written.
fn begins(face: &Face) -> Instant {
    face.span.map_or(Instant(i64::MAX), |(start, _)| start)
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
            Some(view! { <p class="small" data-says="plan step"><b>{format!("“{title}” waits {} for the plate.", stretch(*secs))}</b></p> })
        })
    };
    view! {
        {lanes::picture(hand.fish, planned, hand.bench.now, LanesView::Running)}
        {waits}
    }
    .into_any()
}

/// The lanes and the list of the plan, beside the timers of a wide screen.
pub fn to_come(hand: Hand, planned: ShownPlan) -> AnyView {
    view! {
        // It scrolls by itself: a key must reach it.
        <section class="aside" tabindex="0" aria-label="What is to come" data-says="plan step">
            {lanes::picture(hand.fish, planned, hand.bench.now, LanesView::Running)}
            {planned::list(hand.fish, planned)}
        </section>
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
fn cards(taps: Taps, faces: Memo<Vec<Face>>, of: Stand) -> AnyView {
    let (hand, tap) = (taps.hand, taps.callback());
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
        <div class="sheet small">
            {mute_line(hand.bench)}
            <p class="soft">
                {move || match hand.bench.wake.get() {
                    Wake::Held => "The screen stays on while you cook.",
                    Wake::Dropped => "The screen may switch off: touch it now and then.",
                    Wake::Unknown => "This browser can't keep the screen on: set the phone not to lock.",
                }}
                " An alarm may come late while the phone is locked."
            </p>
        </div>
    }
    .into_any()
}

fn start_again(taps: Taps) -> AnyView {
    let Taps { hand, refused, .. } = taps;
    let sure = RwSignal::new(false);
    view! {
        {move || if sure.get() {
            view! {
                <div class="doubt">
                    <p>"This forgets every time of this service. The weights and the mise en place stay."</p>
                    <div class="row">
                        <button class="btn plain" aria-keyshortcuts="Escape" on:click=move |_| sure.set(false)>"Keep it"</button>
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
