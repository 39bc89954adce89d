//! The probe during the service: a reading corrects the running estimate, and teaches the pan.

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use crate::cards::pan::{Contact, KeptPan, PanTap};
use crate::device::{clock, focus};
use crate::fish::action::Action;
use crate::fish::estimate::Estimate;
use crate::fish::heat_card::HeatTap;
use crate::fish::serving::PlanTap;
use crate::heat::probe::ProbeCause;
use crate::heat::safety;
use crate::parts::choice::fault;
use crate::parts::estimated::{self, Told};
use crate::parts::words;
use crate::place::Stage;
use crate::service::dish::laid_out::FishTimes;
use crate::service::dish::step::OfFish;
use crate::session::asked::ask;
use crate::session::drawer::Drawer;
use crate::session::hand::Hand;
use crate::work::heat::Readings;

/// The probe, while fish is in the pan or at rest.
pub fn section(hand: Hand) -> AnyView {
    let in_hand = is_in_hand(hand);
    view! { {move || in_hand.get().then(|| shown(hand))} }.into_any()
}

/// Whether fish is in the pan or at rest, so that a probe can be put in.
pub fn is_in_hand(hand: Hand) -> Memo<bool> {
    Memo::new(move |_| {
        hand.bench.now.track();
        hand.fish
            .with(|fish| fish.is_cooking() && fish.so_far(clock::now()).is_some())
    })
}

fn shown(hand: Hand) -> AnyView {
    let fish = hand.fish;
    let pans = Drawer::<KeptPan>::here();
    let typed = RwSignal::new(String::new());
    let refused = RwSignal::new(None);
    let told = estimated::of_fish(fish, hand.bench.now);
    let read = move |_| {
        hand.bench.now.set(clock::now());
        if hand.send(Action::Heat(HeatTap::Probe(typed.get_untracked())), refused) {
            typed.set(String::new());
            teach(hand, pans);
        } else {
            focus::to_fault();
        }
    };
    let last = move || {
        fish.with(|fish| {
            fish.last_reading()?;
            let probed = fish.heat().probed.last()?;
            Some(format!(
                "{} °C at {}",
                probed.typed,
                clock::time_of_day(probed.at)
            ))
        })
    };
    view! {
        <section class="sheet">
            <h2>"Probe"</h2>
            <label class="small" for="probe">{safety::PROBE}</label>
            <div class="row">
                <input id="probe" type="text" inputmode="decimal" autocomplete="off" placeholder="°C" aria-describedby="probe-fault"
                    prop:value=move || typed.get() on:input:target=move |event| typed.set(event.target().value())/>
                <button class="btn" on:click=read>"It shows this"</button>
            </div>
            {fault("probe-fault", move || refused.get())}
            {move || last().map(|last| view! { <p><b>"Read: "</b>{last}</p> })}
            {move || told.with(|told| running(hand, told, refused))}
            <p class="soft small">{safety::ESTIMATE}</p>
        </section>
    }
    .into_any()
}

/// What the estimate says of the rest of it.
fn running(hand: Hand, told: &Told, refused: RwSignal<Option<String>>) -> AnyView {
    let fish = hand.fish;
    match told {
        Told::Working(_) => view! { <p class="soft">"Working it out…"</p> }.into_any(),
        Told::Refused(_) => view! {
            <p class="small">"Measure the fillet, and a reading corrects the rest of its times."</p>
            <a class="btn plain" href=hand.at(Stage::Heat).to_string()>"How the fillet cooks"</a>
        }
        .into_any(),
        Told::Estimate(estimate) => {
            let said = said(fish, estimate);
            let times = FishTimes::from(&estimate.advice);
            let differs = Memo::new(move |_| fish.with(|fish| fish.serving().times != Some(times)));
            let sound = estimate
                .cause
                .is_some_and(|cause| cause != ProbeCause::Unexplained);
            view! {
                <p>{said}</p>
                {estimated::cause(estimate).map(|cause| view! { <p class="soft small">{cause}</p> })}
                {move || (sound && differs.get()).then(|| view! {
                    <button class="btn main" on:click=move |_| { hand.send(Action::Plan(PlanTap::Times(Some(times))), refused); }>"Set the timers by this"</button>
                })}
            }
            .into_any()
        }
    }
}

fn said(fish: RwSignal<crate::fish::record::Fish>, estimate: &Estimate) -> String {
    let advice = &estimate.advice;
    let began = fish.with_untracked(|fish| {
        let (run, dish) = (fish.run.as_ref()?, fish.dish().ok()?);
        let number = fish.panful_in_hand();
        let step = dish.steps.iter().find(|step| {
            step.of_fish == Some(OfFish::SkinSide)
                && crate::service::dish::laid_out::panful(&step.id).1 == number
        })?;
        Some(run.steps.get(&step.id)?.began)
    });
    let at = |secs: u32| {
        began.map_or_else(
            || words::face(i64::from(secs) * 1000),
            |began| clock::time_to_the_second(began.plus_secs(i64::from(secs))),
        )
    };
    let core = advice.core_peak_c;
    format!(
        "By estimate: turn at {}, lift at {}. The core peaks at {:.0} °C ({:.0} to {:.0}) at {}.",
        at(advice.skin_secs.best),
        at(advice.lift_at.best),
        core.best,
        core.low,
        core.high,
        at(advice.peak_at)
    )
}

/// The pan keeps the reading, and is fitted anew.
fn teach(hand: Hand, pans: Drawer<KeptPan>) {
    let found = hand.fish.with_untracked(|fish| {
        let id = fish.heat().pan.kept.clone()?;
        let cooked = fish.pan_reading()?;
        Some((id, cooked.surface()?, cooked))
    });
    let Some((id, surface, cooked)) = found else {
        return;
    };
    // A pan that is no longer kept learns nothing.
    if pans.act(&id, PanTap::Cooked(Box::new(cooked))).is_err() {
        return;
    }
    let Some(cooked) = pans.with_untracked(&id, |pan| pan.cooked_on(surface)) else {
        return;
    };
    spawn_local(async move {
        if let Some(Ok(fitted)) = ask(&Readings(cooked)).await {
            // A pan that was taken away meanwhile needs nothing.
            let _ = pans.act(&id, PanTap::Fitted(Contact::of(surface, &fitted)));
        }
    });
}
