//! The dish against the clock: what to do now, what runs, what comes.

use leptos::prelude::*;

use super::Hand;
use crate::device::clock;
use crate::device::wake::Wake;
use crate::parts::page::{Page, back_to};
use crate::parts::timer;
use crate::place::Stage;
use crate::record::action::Action;
use crate::service::dish::Dish;
use crate::service::face::{self, Face, FaceState};
use crate::service::run::Tap;

/// Where a step stands on the screen.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Group {
    Now,
    Coming,
    Done,
}

/// The service.
pub fn screen(hand: Hand) -> AnyView {
    let fish = hand.fish;
    let dish = match fish.with_untracked(crate::record::fish::Fish::dish) {
        Ok(dish) => dish,
        Err(refusal) => return super::summary::no_dish(hand, &refusal),
    };
    if fish.with_untracked(|fish| fish.run.is_none()) {
        return not_started(hand);
    }
    let refused = RwSignal::new(None);
    let faces = Memo::new(move |_| {
        let now = hand.bench.now.get();
        fish.with(|fish| {
            fish.run
                .as_ref()
                .map(|run| face::faces(dish, &fish.slip.missing, run, now))
                .unwrap_or_default()
        })
    });
    let tap = Callback::new(move |tap: Tap| {
        hand.bench.now.set(clock::now());
        hand.send(Action::Serve(tap), refused);
    });
    let over = Memo::new(move |_| fish.with(crate::record::fish::Fish::is_served));
    view! {
        <Page
            title="Service"
            above=hand.name()
            at=Stage::Service
            demo=hand.demo()
            dock=move || view! {
                {back_to(&hand.at(Stage::Prepare))}
                {move || {
                    let class = if over.get() { "btn main tall next" } else { "btn plain tall next" };
                    view! { <a class=class href=hand.at(Stage::Pass).to_string()>"Check the plate"</a> }
                }}
            }
        >
            {plate_line(hand, dish)}
            {move || refused.get().map(|sentence: String| view! { <p class="fault" role="alert">{sentence}</p> })}
            <section>
                <h2 class="unseen">"Now"</h2>
                {cards(hand, dish, faces, tap, Group::Now)}
            </section>
            <section>
                <h2>"Coming"</h2>
                {cards(hand, dish, faces, tap, Group::Coming)}
            </section>
            <details>
                <summary>"Done"</summary>
                {cards(hand, dish, faces, tap, Group::Done)}
            </details>
            {reminders(hand)}
            {start_again(hand, refused)}
        </Page>
    }
    .into_any()
}

fn plate_line(hand: Hand, dish: &'static Dish) -> AnyView {
    let fish = hand.fish;
    let plate = Memo::new(move |_| {
        let now = hand.bench.now.get();
        fish.with(|fish| {
            fish.run
                .as_ref()
                .map(|run| clock::time_of_day(face::plate_at(dish, &fish.slip.missing, run, now)))
        })
    });
    let now = Memo::new(move |_| clock::time_of_day(hand.bench.now.get()));
    view! {
        <div class="sheet">
            <p class="clockline num">
                <span>"Now "<b>{move || now.get()}</b></span>
                <span>"Plate about "<b>{move || plate.get().unwrap_or_default()}</b></span>
            </p>
        </div>
    }
    .into_any()
}

fn group(face: &Face) -> Group {
    match face.state {
        FaceState::Ready { .. }
        | FaceState::Running { .. }
        | FaceState::Held { .. }
        | FaceState::Over { .. } => Group::Now,
        FaceState::Waiting { .. } => Group::Coming,
        FaceState::Done { .. } => Group::Done,
    }
}

/// The steps of one group. A card is built once and then follows its own step, so that a button under a
/// thumb is never replaced while the clock moves on.
fn cards(
    hand: Hand,
    dish: &'static Dish,
    faces: Memo<Vec<Face>>,
    tap: Callback<Tap>,
    of: Group,
) -> AnyView {
    let ids = Memo::new(move |_| {
        faces.with(|faces| {
            let mut group: Vec<&Face> = faces.iter().filter(|face| group(face) == of).collect();
            // What has rung stands first, where a glance falls.
            group.sort_by_key(|face| !matches!(face.state, FaceState::Over { .. }));
            group
                .into_iter()
                .map(|face| face.id.clone())
                .collect::<Vec<_>>()
        })
    });
    view! {
        <div class="stack">
            <For each=move || ids.get() key=Clone::clone let:id>
                {
                    let step = dish.step(&id);
                    let face = Memo::new(move |_| faces.with(|faces| faces.iter().find(|face| face.id == id).cloned()));
                    step.map(|step| timer::card(hand.fish, step, face, tap))
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
