//! The timers at the stove: one as large as the phone allows, the others beside it.

use std::sync::Arc;

use leptos::prelude::*;

use super::taps::Taps;
use crate::parts::timer::{self, TimerLook};
use crate::parts::words;
use crate::service::dish::step::Step;
use crate::service::run::Tap;
use crate::service::run::state::StepState;
use crate::service::timetable::face::Face;

/// The timer that is read from afar, and what can be done to it.
pub fn timer(taps: Taps, step: Arc<Step>, face: Memo<Option<Face>>) -> AnyView {
    let looks = Memo::new(move |_| face.with(|face| timer::look(face.as_ref())));
    let (name, title) = (step.title.clone(), step.short_title());
    let class = move || format!("timer large {}", timer::class(looks.get()));
    let read =
        move |of: fn(&Face) -> String| face.with(|face| face.as_ref().map(of)).unwrap_or_default();
    view! {
        <article class=class aria-label=name>
            <div class="face">
                <h2>{title}</h2>
                <span class="soft num small">{move || match looks.get() {
                    TimerLook::Over => read(|face| match face.state {
                        StepState::Over { over_ms, .. } => timer::ended(over_ms),
                        _ => String::new(),
                    }),
                    TimerLook::Held => read(timer::held_for),
                    _ => read(timer::when),
                }}</span>
            </div>
            {digits(move || read(timer::left))}
            <progress max="1000" aria-label="Time gone" prop:value=move || face.with(|face| face.as_ref().map_or(0, timer::gone))></progress>
            {move || buttons(&step, looks.get(), taps)}
        </article>
    }
    .into_any()
}

/// How long until the plate, where no timer runs.
pub fn until_plate(ms: Memo<Option<i64>>) -> AnyView {
    view! {
        <div class="timer large">
            <div class="face"><h2>"Until the plate"</h2></div>
            {digits(move || ms.get().map_or_else(|| "–:––".to_owned(), words::face))}
        </div>
    }
    .into_any()
}

/// Figures that fill the room there is, whatever the font: a phone in a stand is read from an arm's length and more.
fn digits(shown: impl Fn() -> String + Send + 'static) -> AnyView {
    view! {
        <svg class="digits" viewBox="0 0 280 104">
            <text class="left" x="140" y="102" text-anchor="middle" textLength="276" lengthAdjust="spacingAndGlyphs">{shown}</text>
        </svg>
    }
    .into_any()
}

/// What ends a step that rang is in the dock.
fn buttons(step: &Step, look: TimerLook, taps: Taps) -> AnyView {
    let id = || step.id.clone();
    let button = |words: &str, tap: Tap| {
        let words = words.to_owned();
        view! { <button class="btn plain" on:click=move |_| taps.send(tap.clone())>{words}</button> }
    };
    let early = || button(&step.done_word, Tap::Done(id()));
    let more = || button("+30 s", Tap::More(id()));
    let row = match look {
        TimerLook::RunsTimed => vec![
            button(timer::hold_word(step), Tap::Hold(id())),
            more(),
            early(),
        ],
        TimerLook::Held => vec![button("Go on", Tap::Resume(id())), more(), early()],
        TimerLook::Over => vec![more()],
        _ => return ().into_any(),
    };
    view! { <div class="quick">{row}</div> }.into_any()
}

/// The other timers: a tap on one makes it the large one.
pub fn others(
    taps: Taps,
    ids: Memo<Vec<String>>,
    faces: Memo<Vec<Face>>,
    chosen: RwSignal<Option<String>>,
) -> AnyView {
    let of = move |id: &str| faces.with(|faces| faces.iter().find(|face| face.id == id).cloned());
    let chip = move |id: String| {
        let name = taps.hand.fish.with_untracked(|fish| {
            let step = fish.dish().ok()?.step(&id)?;
            Some(step.short_title())
        });
        let face = Memo::new({
            let id = id.clone();
            move |_| of(&id)
        });
        let class =
            move || face.with(|face| format!("chip {}", timer::class(timer::look(face.as_ref()))));
        view! {
            <button class=class on:click=move |_| chosen.set(Some(id.clone()))>
                <span>{name}</span>
                <b class="num">{move || face.with(|face| face.as_ref().map(timer::left))}</b>
            </button>
        }
    };
    view! {
        <div class="chips">
            <For each=move || ids.get() key=Clone::clone let:id>{chip(id)}</For>
        </div>
    }
    .into_any()
}
