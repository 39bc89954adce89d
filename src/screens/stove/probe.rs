//! The probe during the service: a reading corrects the running estimate, and teaches the pan.

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::follows;
use crate::base::kit::Kit;
use crate::cards::pan::{Contact, KeptPan, PanTap};
use crate::device::{clock, focus};
use crate::fish::action::Action;
use crate::fish::heat_card::HeatTap;
use crate::heat::safety;
use crate::parts::choice::fault;
use crate::parts::estimated::{self, Told};
use crate::place::Stage;
use crate::session::asked::ask;
use crate::session::drawer::Drawer;
use crate::session::hand::Hand;
use crate::work::heat::Readings;

/// The probe, while fish is in the pan or at rest; `told` is what the estimate says of it.
pub fn section(hand: Hand, told: RwSignal<Told>) -> AnyView {
    let in_hand = is_in_hand(hand);
    view! { {move || in_hand.get().then(|| shown(hand, told))} }.into_any()
}

/// Whether fish is in the pan or at rest, so that a probe can be put in, and there is one.
pub fn is_in_hand(hand: Hand) -> Memo<bool> {
    Memo::new(move |_| {
        hand.bench.now.track();
        hand.fish.with(|fish| {
            let has_probe = !fish.slip.missing.contains(&Kit::Probe);
            has_probe && fish.is_cooking() && fish.so_far(clock::now()).is_some()
        })
    })
}

fn shown(hand: Hand, told: RwSignal<Told>) -> AnyView {
    let fish = hand.fish;
    let pans = Drawer::<KeptPan>::here();
    let typed = RwSignal::new(String::new());
    let refused = RwSignal::new(None);
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
                <button class="btn" aria-keyshortcuts="Enter" on:click=read>"It shows this"</button>
            </div>
            {fault("probe-fault", move || refused.get())}
            {move || last().map(|last| view! { <p><b>"Read: "</b>{last}</p> })}
            {move || told.with(|told| running(hand, told, refused))}
            <p class="soft small">{safety::ESTIMATE}</p>
        </section>
    }
    .into_any()
}

/// What the estimate says of the rest of it: beside the bell of the timer, never as a second hour.
fn running(hand: Hand, told: &Told, refused: RwSignal<Option<String>>) -> AnyView {
    match told {
        Told::Working(None) => view! { <p class="soft">"Working it out…"</p> }.into_any(),
        Told::Refused(_) => view! {
            <p class="small">"Measure the fillet, and a reading corrects the rest of its times."</p>
            <a class="btn plain" href=hand.at(Stage::Heat).to_string()>"How the fillet cooks"</a>
        }
        .into_any(),
        Told::Estimate(estimate) | Told::Working(Some(estimate)) => {
            let cause = estimated::cause(estimate);
            let estimate = estimate.clone();
            let said = Memo::new(move |_| {
                let now = hand.bench.now.get();
                let pan = hand.fish.with(|fish| fish.in_the_pan(now));
                pan.map(|pan| pan.asked(Some(&estimate)))
            });
            view! {
                {move || said.get().map(|said| follows::shown(hand, said, refused))}
                {cause.map(|cause| view! { <p class="soft small">{cause}</p> })}
            }
            .into_any()
        }
    }
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
