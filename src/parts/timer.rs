//! One step of the service as a card: its timer, read at arm's length, and what can be done with it.

use std::sync::Arc;

use leptos::prelude::*;

use super::words;
use crate::device::clock;
use crate::fish::record::Fish;
use crate::service::dish::step::Step;
use crate::service::run::Tap;
use crate::service::run::state::StepState;
use crate::service::timetable::due::SOON_MS;
use crate::service::timetable::face::Face;

/// How a card looks and which buttons it has; it changes far less often than the time on it.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum TimerLook {
    /// It can't begin yet.
    Waits,
    /// It can begin.
    Ready,
    /// Its timer runs.
    RunsTimed,
    /// It has begun, and ends by eye.
    RunsUntimed,
    /// Its timer stands still.
    Held,
    /// Its timer has rung.
    Over,
    /// It is done.
    Done,
}

/// How a card looks for a step that stands so.
pub fn look(face: Option<&Face>) -> TimerLook {
    match face.map(|face| &face.state) {
        None | Some(StepState::Waiting { .. }) => TimerLook::Waits,
        Some(StepState::Ready { .. }) => TimerLook::Ready,
        Some(StepState::Running { ends: Some(_), .. }) => TimerLook::RunsTimed,
        Some(StepState::Running { ends: None, .. }) => TimerLook::RunsUntimed,
        Some(StepState::Held { .. }) => TimerLook::Held,
        Some(StepState::Over { .. }) => TimerLook::Over,
        Some(StepState::Done { .. }) => TimerLook::Done,
    }
}

/// The classes of a timer that looks so.
pub fn class(look: TimerLook) -> &'static str {
    match look {
        TimerLook::RunsTimed | TimerLook::RunsUntimed => "runs",
        TimerLook::Held => "held",
        TimerLook::Over => "over",
        TimerLook::Waits | TimerLook::Ready | TimerLook::Done => "",
    }
}

/// The card of one step. What to do is written out where it is done now.
pub fn card(
    fish: RwSignal<Fish>,
    step: Arc<Step>,
    face: Memo<Option<Face>>,
    is_now: bool,
    tap: Callback<Tap>,
) -> AnyView {
    let looks = Memo::new(move |_| face.with(|face| look(face.as_ref())));
    let class = move || format!("timer {}", class(looks.get()));
    let (name, title, shown) = (step.title.clone(), step.title.clone(), step.clone());
    view! {
        <article class=class aria-label=name>
            <div class="face" data-says="plan step">
                <h3>{title}</h3>
                <span class="soft num small">{move || face.with(|face| face.as_ref().map(when).unwrap_or_default())}</span>
            </div>
            {move || timed(looks.get()).then(|| view! {
                <div class="face" data-says="plan step">
                    <span class="left">{move || face.with(|face| face.as_ref().map(left).unwrap_or_default())}</span>
                    <span>{move || match looks.get() {
                        TimerLook::Held => face.with(|face| face.as_ref().map(held_for)).unwrap_or_default(),
                        TimerLook::Over => "time is up".to_owned(),
                        _ => "left".to_owned(),
                    }}</span>
                </div>
                <progress max="1000" aria-label="Time gone" prop:value=move || face.with(|face| face.as_ref().map_or(0, gone))></progress>
            })}
            {move || (is_now && says(looks.get())).then(|| said(fish, &shown))}
            {move || face.with(|face| face.as_ref().and_then(|face| face.warning.clone())).map(|warning| view! { <p class="fault small">{warning}</p> })}
            {move || buttons(&step, looks.get(), tap)}
        </article>
    }
    .into_any()
}

fn timed(look: TimerLook) -> bool {
    matches!(
        look,
        TimerLook::RunsTimed | TimerLook::Held | TimerLook::Over
    )
}

fn says(look: TimerLook) -> bool {
    !matches!(look, TimerLook::Waits | TimerLook::Done)
}

/// All that is written of a step, its detours on this bench and its cautions.
pub fn said(fish: RwSignal<Fish>, step: &Step) -> AnyView {
    let missing = fish.with_untracked(|fish| fish.slip.missing.clone());
    // A missing tool replaces the step.
    let as_ever = step.detours_for(&missing).next().is_none();
    view! {
        {as_ever.then(|| view! { <p data-says="step">{step.say.clone()}</p> })}
        {step.detours_for(&missing).map(|detour| view! {
            <div class="detour" data-says="step">
                <b>{format!("Without {}", detour.without.name())}</b>
                <p>{detour.say.clone()}</p>
                {detour.caution.clone().map(|caution| view! { <p class="care" data-says="step"><b>"Take care"</b>{caution}</p> })}
            </div>
        }).collect_view()}
        {step.caution.clone().map(|caution| view! { <p class="care"><b>"Take care"</b>{caution}</p> })}
    }
    .into_any()
}

fn buttons(step: &Step, look: TimerLook, tap: Callback<Tap>) -> AnyView {
    let id = || step.id.clone();
    let button = |words: &str, class: &'static str, sent: Tap| {
        let words = words.to_owned();
        view! { <button class=class on:click=move |_| tap.run(sent.clone())>{words}</button> }
            .into_any()
    };
    let done = |class| button(&step.done_word, class, Tap::Done(id()));
    let more = || button("+30 s", "btn plain", Tap::More(id()));
    let untimed = step.lasts.is_none();
    let at_a_stroke = || button(&step.done_word, "btn main", Tap::AtAStroke(id()));
    let row = match look {
        TimerLook::Waits => return ().into_any(),
        // A step of the hand is begun and done in one tap, if the cook likes.
        TimerLook::Ready if untimed => vec![
            button("Begin", "btn plain", Tap::Begin(id())),
            at_a_stroke(),
        ],
        TimerLook::Ready => vec![button("Begin", "btn main tall", Tap::Begin(id()))],
        TimerLook::RunsTimed => vec![
            button(hold_word(step), "btn plain", Tap::Hold(id())),
            more(),
            done("btn main"),
        ],
        TimerLook::RunsUntimed => vec![done("btn main tall")],
        TimerLook::Held => vec![
            button("Go on", "btn main", Tap::Resume(id())),
            more(),
            done("btn plain"),
        ],
        TimerLook::Over => vec![more(), done("btn hot")],
        TimerLook::Done => vec![button(
            "Not done after all",
            "btn plain",
            Tap::NotDone(id()),
        )],
    };
    view! { <div class="taps">{row}</div> }.into_any()
}

/// Until when a timer runs, or when a step begins or was done.
pub fn when(face: &Face) -> String {
    match &face.state {
        StepState::Waiting { on, ready_at } => match (on.as_slice(), ready_at) {
            ([], Some(at)) => format!("from {}", clock::time_of_day(*at)),
            _ => about(face),
        },
        StepState::Ready { .. } if face.begins_by(clock::now().plus_ms(SOON_MS)) => {
            "now".to_owned()
        }
        StepState::Ready { .. } => about(face),
        StepState::Running {
            ends: Some(ends), ..
        } if face.held_ms >= 1000 => {
            format!("until {}, {}", clock::time_of_day(*ends), held_for(face))
        }
        StepState::Running {
            ends: Some(ends), ..
        } => format!("until {}", clock::time_of_day(*ends)),
        StepState::Running { ends: None, .. } | StepState::Held { .. } | StepState::Over { .. } => {
            String::new()
        }
        StepState::Done { at } => clock::time_of_day(*at),
    }
}

/// The hour the plan gives a step; nothing while there is no plan.
fn about(face: &Face) -> String {
    let begins = face.span.map(|(start, _)| clock::time_of_day(start));
    begins
        .map(|hour| format!("about {hour}"))
        .unwrap_or_default()
}

/// From so many milliseconds on it is worth saying how long ago a timer ended.
const AGO_MS: i64 = 60_000;

/// That a timer is up; and, once that is a while ago, for how long.
#[must_use]
pub fn ended(over_ms: i64) -> String {
    if over_ms < AGO_MS {
        "time is up".to_owned()
    } else {
        format!("ended {} ago", words::face(over_ms.saturating_sub(999)))
    }
}

/// How long a timer stood still.
pub fn held_for(face: &Face) -> String {
    format!("held {}", words::face(face.held_ms))
}

/// What holding is called: on the heat only the clock stands still.
pub fn hold_word(step: &Step) -> &'static str {
    match step.station {
        Some(station) if station.is_hot() => "Hold timer",
        _ => "Hold",
    }
}

/// What a timer shows: what is left, or what it is over.
pub fn left(face: &Face) -> String {
    match face.state {
        StepState::Running { left_ms, .. } | StepState::Held { left_ms, .. } => {
            words::face(left_ms)
        }
        StepState::Over { over_ms, .. } => format!("+{}", words::face(over_ms.saturating_sub(999))),
        _ => String::new(),
    }
}

/// How much of the whole is gone, in thousandths. Not 64 bits wide: those reach the page as a big integer,
/// which a progress bar refuses.
pub fn gone(face: &Face) -> u16 {
    let (left, of) = match face.state {
        StepState::Running { left_ms, of_ms, .. } | StepState::Held { left_ms, of_ms, .. } => {
            (left_ms, of_ms)
        }
        StepState::Over { .. } => return 1000,
        _ => return 0,
    };
    of.saturating_sub(left)
        .saturating_mul(1000)
        .checked_div(of)
        .and_then(|gone| u16::try_from(gone).ok())
        .unwrap_or(0)
}
