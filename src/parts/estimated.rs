//! The estimate of how a fillet cooks, worked out beside the page, and what it says.

use std::time::Duration;

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::curve;
use super::words;
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::base::stretch::stretch;
use crate::fish::estimate::{Estimate, EstimateQuestion};
use crate::fish::record::Fish;
use crate::heat::advice::Advice;
use crate::heat::band::Banded;
use crate::heat::cook::OtherTurn;
use crate::heat::probe::ProbeCause;
use crate::heat::safety;
use crate::session::asked::{ask, forget};
use crate::work::Ask;
use crate::work::heat::Wanted;

/// How long after the last key an estimate is asked for: half an entry is nothing to work out.
const SETTLED: Duration = Duration::from_millis(250);

/// How far an estimate has come.
#[derive(Clone, PartialEq)]
pub enum Told {
    /// It is being worked out; here is the one from before the last change.
    Working(Option<Box<Estimate>>),
    /// It can't be.
    Refused(Refusal),
    /// Here it is.
    Estimate(Box<Estimate>),
}

/// What is asked of the estimate; nothing while nobody wants one.
type Asked = Memo<Option<Result<EstimateQuestion, Refusal>>>;

impl Told {
    /// The newest estimate there is.
    pub fn newest(&self) -> Option<&Estimate> {
        match self {
            Self::Estimate(estimate) | Self::Working(Some(estimate)) => Some(estimate),
            Self::Working(None) | Self::Refused(_) => None,
        }
    }
}

/// The estimate for a fish, following its card, its steps and its readings.
pub fn of_fish(fish: RwSignal<Fish>, now: RwSignal<Instant>) -> RwSignal<Told> {
    following(Memo::new(move |_| {
        Some(fish.with(|fish| fish.asked(now.get())))
    }))
}

/// The same while fish is in hand: before and after, nothing is worked out.
pub fn of_fish_in_hand(fish: RwSignal<Fish>, now: RwSignal<Instant>) -> RwSignal<Told> {
    following(Memo::new(move |_| {
        let now = now.get();
        fish.with(|fish| (!fish.in_hand(now).is_empty()).then(|| fish.asked(now)))
    }))
}

/// The same of a fish that was measured and has no times yet: with them, nothing more is worked out.
pub fn of_untimed_fish(fish: RwSignal<Fish>, now: RwSignal<Instant>) -> RwSignal<Told> {
    following(Memo::new(move |_| {
        let now = now.get();
        fish.with(|fish| (fish.is_untimed() && fish.heat().is_measured()).then(|| fish.asked(now)))
    }))
}

fn following(asked: Asked) -> RwSignal<Told> {
    let told = RwSignal::new(Told::Working(None));
    on_cleanup(|| forget(Wanted::KIND));
    Effect::new(move |_| match asked.get() {
        None => (),
        Some(Err(refusal)) => told.set(Told::Refused(refusal)),
        Some(Ok(question)) => {
            told.update(|told| {
                *told = Told::Working(match std::mem::replace(told, Told::Working(None)) {
                    Told::Working(before) => before,
                    Told::Estimate(before) => Some(before),
                    Told::Refused(_) => None,
                });
            });
            set_timeout(move || answer(question, asked, told), SETTLED);
        }
    });
    told
}

/// What was asked may have changed in the meantime, and then has its own answer on the way.
fn answer(question: EstimateQuestion, asked: Asked, told: RwSignal<Told>) {
    let still = move |question: &EstimateQuestion| {
        asked
            .try_with_untracked(|asked| matches!(asked, Some(Ok(asked)) if asked == question))
            .unwrap_or(false)
    };
    if !still(&question) {
        return;
    }
    spawn_local(async move {
        let wanted = Wanted(question);
        let answer = ask(&wanted).await;
        if let Some(answer) = answer.filter(|_| still(&wanted.0)) {
            told.set(match answer {
                Ok(estimate) => Told::Estimate(Box::new(estimate)),
                Err(refusal) => Told::Refused(refusal),
            });
        }
    });
}

/// When to turn and when to lift, and how hot it gets: what a cook asks first. What can't be told is said here, where it
/// is not `said_above`.
pub fn brief(
    told: RwSignal<Told>,
    said_above: impl Fn(&Refusal) -> bool + Send + Sync + 'static,
) -> AnyView {
    view! {
        <div aria-live="polite" class="stack" data-says="heat rule">
            {move || told.with(|told| match told {
                Told::Working(None) => view! { <p class="soft">"Working it out…"</p> }.into_any(),
                // What is typed in stands below: it must not move under the thumb.
                Told::Working(Some(before)) => view! {
                    <div class="aged stack">{in_brief(before)}</div>
                    <p class="soft small">"From before your last change…"</p>
                }.into_any(),
                Told::Refused(refusal) if said_above(refusal) => ().into_any(),
                Told::Refused(refusal) => view! { <p class="soft">{refusal.to_string()}</p> }.into_any(),
                Told::Estimate(estimate) => view! {
                    <div class="stack">{in_brief(estimate)}</div>
                    <p class="soft small">"An estimate: the probe decides."</p>
                }.into_any(),
            })}
        </div>
    }
    .into_any()
}

fn in_brief(estimate: &Estimate) -> AnyView {
    let advice = &estimate.advice;
    let core = advice.core_peak_c;
    let secs = |band: Banded<u32>| {
        let face = |secs: u32| words::face(i64::from(secs) * 1000);
        (
            face(band.best),
            format!("{} to {}", face(band.low), face(band.high)),
        )
    };
    let figure = |name: &'static str, (best, band): (String, String)| {
        view! { <div class="figure"><dt>{name}</dt><dd>{best}<small>{band}</small></dd></div> }
            .into_any()
    };
    view! {
        <dl class="figures num">
            {figure("Turn it after", secs(advice.skin_secs))}
            {figure("Lift it after", secs(advice.lift_at))}
        </dl>
        <p>{format!("Its middle gets to {:.0} °C ({:.0} to {:.0}).", core.best, core.low, core.high)}</p>
        {advice.safety.met.is_none().then(|| view! { <p class="care small">"Your rule is not met: see why."</p> })}
        {advice.thin_end.as_ref().and_then(|thin| thin.tip.clone()).map(|tip| view! { <p class="detour">{tip}</p> })}
    }
    .into_any()
}

/// The figures of an estimate, the curve, and what always stands beside them.
pub fn answers(fish: RwSignal<Fish>, told: RwSignal<Told>) -> AnyView {
    view! {
        <div aria-live="polite" class="stack" data-says="heat dry rule">
            {move || told.with(|told| match told {
                Told::Working(None) => view! { <p class="soft">"Working it out…"</p> }.into_any(),
                Told::Working(Some(before)) => view! {
                    <p class="soft">"From before your last change: working it out again…"</p>
                    <div class="aged stack">{figures(fish, before)}</div>
                }.into_any(),
                Told::Refused(refusal) => view! { <p class="soft">{refusal.to_string()}</p> }.into_any(),
                Told::Estimate(estimate) => figures(fish, estimate),
            })}
        </div>
        <div class="care stack" data-says="rule frozen">
            <b>"Only an estimate"</b>
            <p>{safety::ESTIMATE}" "{safety::PROBE}</p>
            <p>{safety::NOT_FOR}" "{safety::PARASITES}</p>
        </div>
    }
    .into_any()
}

fn figures(fish: RwSignal<Fish>, estimate: &Estimate) -> AnyView {
    let advice = &estimate.advice;
    let secs = |band: Banded<u32>| {
        (
            format!("{} min", words::face(i64::from(band.best) * 1000)),
            format!(
                "{} to {}",
                words::face(i64::from(band.low) * 1000),
                words::face(i64::from(band.high) * 1000)
            ),
        )
    };
    let figure = |name: &'static str, (best, band): (String, String)| {
        view! { <div class="figure"><dt>{name}</dt><dd>{best}<small>{band}</small></dd></div> }
            .into_any()
    };
    let core = advice.core_peak_c;
    let safe = advice.safety.met.is_some();
    let (rule, wanted) = fish.with_untracked(|fish| (fish.heat().rule, fish.heat().core.clone()));
    view! {
        <dl class="figures num">
            {figure("Skin side down, over the heat", secs(advice.skin_secs))}
            {figure("Turned, in the pan's own heat", secs(advice.finish_secs))}
            {figure("Lift it out at", secs(advice.lift_at))}
            {figure("Core at its hottest", (format!("{:.0} °C", core.best), format!("{:.0} to {:.0} °C", core.low, core.high)))}
        </dl>
        <p>{format!(
            "Rest it {} at least. Its coldest part is at its hottest {} after it went in{}.",
            stretch(i64::from(advice.rest_secs)),
            stretch(i64::from(advice.peak_at)),
            if advice.peak_at < advice.lift_at.best { ", before it is lifted" } else { "" }
        )}</p>
        <p class=if safe { "notice" } else { "care" }>{advice.safety.sentence.clone()}</p>
        {advice.tips.iter().map(|tip| view! { <p class="detour">{tip.clone()}</p> }).collect_view()}
        {advice.thin_end.as_ref().map(|thin| match &thin.tip {
            Some(tip) => view! { <p class="detour">{tip.clone()}</p> }.into_any(),
            None => view! { <p class="soft small">{format!("The thin end reaches about {:.0} °C.", thin.core_peak_c)}</p> }.into_any(),
        })}
        {cause(estimate).map(|said| view! { <p class="detour">{said}</p> })}
        {curve::picture(advice, rule, &wanted)}
        {other_turns(advice)}
        {advice.reasons().into_iter().map(|reason| view! { <p class="soft small">{reason}</p> }).collect_view()}
        <p class="soft small">{advice.share_said()}</p>
        {advice.stand_in.as_ref().map(|other| view! { <p class="soft small">{other.sentence()}</p> })}
    }
    .into_any()
}

/// What an earlier or a later turn would do, on a slider.
fn other_turns(advice: &Advice) -> AnyView {
    let turns = advice.other_turns.clone();
    let best = advice.skin_secs.best;
    let nearest = (0..turns.len()).min_by_key(|at| turns.get(*at).map(|t| t.turn.abs_diff(best)));
    let (Some(nearest), 2..) = (nearest, turns.len()) else {
        return ().into_any();
    };
    let last = turns.len() - 1;
    let chosen = RwSignal::new(nearest);
    let said = Memo::new(move |_| turns.get(chosen.get()).map(OtherTurn::said));
    view! {
        <div class="field">
            <label for="other-turn">"Turned earlier or later"</label>
            <input id="other-turn" type="range" min="0" max=last step="1" prop:value=nearest aria-describedby="other-turn-said"
                aria-valuetext=move || said.get()
                on:input:target=move |event| chosen.set(event.target().value().parse().unwrap_or(nearest))/>
            <p class="soft small" id="other-turn-said">{move || said.get()}</p>
        </div>
    }
    .into_any()
}

/// What a reading was put down to, in words.
#[must_use]
pub fn cause(estimate: &Estimate) -> Option<&'static str> {
    Some(match estimate.cause? {
        ProbeCause::Contact => {
            "Corrected by the probe: the pan gives its heat to this fish better or worse than was taken."
        }
        ProbeCause::Thickness => {
            "Corrected by the probe: the fillet cooks as if thicker or thinner than measured."
        }
        ProbeCause::Unexplained => {
            "The reading doesn't fit this fish and pan at all: look at the probe, its tip and the entries again. The estimate is left as it was."
        }
    })
}
