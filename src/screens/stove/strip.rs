//! The timers that run, on every screen but their own: one tap leads back to the stove.

use leptos::prelude::*;

use crate::parts::{timer, words};
use crate::place::{Place, Stage};
use crate::service::run::state::{StepState, begun};
use crate::session::bench::Bench;

/// What the strip says of one fish.
#[derive(Clone, PartialEq)]
struct Running {
    id: String,
    /// Each timer: its step, what is left of it, and whether it has rung.
    timers: Vec<(String, String, bool)>,
}

/// A line for each fish that cooks; nothing on the screens that show its timers.
pub fn timers(bench: Bench) -> AnyView {
    // One memo for the view that reads both.
    let running = Memo::new(move |_| {
        let running = running(bench);
        let mut timers = running.iter().flat_map(|of| &of.timers);
        let said = timers.any(|(_, _, rung)| *rung).then(|| super::mute(bench));
        (running, said.flatten())
    });
    view! {
        {move || running.with(|(running, said)| (!running.is_empty()).then(|| view! {
            <nav class="running" aria-label="Timers that run" data-says="plan step">
                {running.iter().map(line).collect_view()}
                {said.map(|said| view! { <p class="care small">{said}</p> })}
            </nav>
        }))}
    }
    .into_any()
}

fn line(running: &Running) -> AnyView {
    let place = Place::Fish(running.id.clone(), Stage::Service).to_string();
    let rung = running.timers.iter().any(|(_, _, rung)| *rung);
    let timers = running.timers.iter().map(|(title, left, _)| {
        view! { <span>{title.clone()}" "<b class="num">{left.clone()}</b></span> }
    });
    view! { <a class:over=rung href=place>{timers.collect_view()}</a> }.into_any()
}

fn running(bench: Bench) -> Vec<Running> {
    let now = bench.now.get();
    let shown = bench.place.with(|place| match place {
        Place::Fish(id, Stage::Service | Stage::AllSteps) => Some(id.clone()),
        _ => None,
    });
    let cooking = bench.cooking.get();
    let others = cooking.into_iter().filter(|id| shown.as_ref() != Some(id));
    let of_fish = |id: String| {
        let timers = bench.fish.with(&id, |fish| {
            let (Some(run), Ok(dish)) = (&fish.run, fish.dish()) else {
                return Vec::new();
            };
            let begun = begun(dish, &fish.slip.missing, run, now).into_iter();
            let mut timers: Vec<_> = begun
                .filter_map(|(title, state)| match state {
                    StepState::Running {
                        ends: Some(_),
                        left_ms,
                        ..
                    } => Some((left_ms, (title, words::face(left_ms), false))),
                    StepState::Held { left_ms, .. } => Some((
                        left_ms,
                        (title, format!("held {}", words::face(left_ms)), false),
                    )),
                    StepState::Over { over_ms, .. } => {
                        Some((-over_ms, (title, timer::ended(over_ms), true)))
                    }
                    _ => None,
                })
                .collect();
            timers.sort_by_key(|(left_ms, _)| *left_ms);
            timers.into_iter().map(|(_, timer)| timer).collect()
        })?;
        (!timers.is_empty()).then_some(Running { id, timers })
    };
    others.filter_map(of_fish).collect()
}
