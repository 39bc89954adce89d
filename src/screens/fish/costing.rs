//! Yield and cost: what the fish really gave, and what a portion costs.

use leptos::prelude::*;

use crate::fish::action::Action;
use crate::fish::record::Fish;
use crate::parts::choice::fault;
use crate::parts::page::{Page, back_to, on_to};
use crate::parts::yield_sheet;
use crate::place::Stage;
use crate::session::hand::Hand;

/// Yield and cost, with what to do the `next_time`, and what stands `beside` them.
pub fn screen(hand: Hand, next_time: AnyView, beside: AnyView) -> AnyView {
    let fish = hand.fish;
    view! {
        <Page
            title="What this fish gave"
            above=hand.name()
            at=Stage::Yield
            demo=hand.demo()
            dock=move || view! {
                {back_to(&hand.at(Stage::WeighReady))}
                {on_to(&hand.at(Stage::Prepare), "Chill and prepare")}
            }
        >
            <div class="first-sight">
                {move || fish.with(gave)}
                {move || fish.with(portions)}
                {next_time}
            </div>
            <details class="sheet">
                <summary>"Costs, and where it went"</summary>
                {move || fish.with(rest)}
            </details>
            <details class="sheet">
                <summary>"Another portion weight"</summary>
                {portion_field(hand)}
            </details>
            {beside}
            {send_result(hand)}
        </Page>
    }
    .into_any()
}

/// The way to the result code, once there is a yield to send.
pub fn send_result(hand: Hand) -> AnyView {
    let href = hand.at(Stage::Code).to_string();
    let card = hand.at(Stage::Card).to_string();
    view! {
        {move || hand.fish.with(|fish| fish.ready.taken).then(|| view! {
            <a class="btn" href=href.clone()>"Send the result"</a>
            <a class="btn plain" href=card.clone()>"Yield card to print"</a>
        })}
    }
    .into_any()
}

/// The yield alone, and why there is no cost; or the sentence that says what is missing.
fn gave(fish: &Fish) -> AnyView {
    match fish.yield_sheet() {
        Some(Ok((sheet, why))) => view! {
            {yield_sheet::gave(&sheet)}
            {why.map(|refusal| view! { <p class="fault">{refusal.to_string()}</p> })}
        }
        .into_any(),
        _ => figures(fish),
    }
}

/// What is not the yield itself: costs and parts.
fn rest(fish: &Fish) -> AnyView {
    match fish.yield_sheet() {
        Some(Ok((sheet, _))) => yield_sheet::rest(&sheet),
        _ => ().into_any(),
    }
}

/// The figures of a fish, or the sentence that says what is missing.
pub fn figures(fish: &Fish) -> AnyView {
    match fish.yield_sheet() {
        Some(Ok((sheet, why))) => view! {
            {yield_sheet::told(&sheet)}
            {why.map(|refusal| view! { <p class="fault">{refusal.to_string()}</p> })}
        }
        .into_any(),
        Some(Err(refusal)) => view! { <p class="fault">{refusal.to_string()}</p> }.into_any(),
        None => view! { <p class="soft">"The yield appears once the fish is weighed whole and the fillets are weighed ready to cook."</p> }.into_any(),
    }
}

fn portion_field(hand: Hand) -> AnyView {
    let fish = hand.fish;
    let refused = RwSignal::new(None);
    let unit = fish.with_untracked(|fish| fish.ready.unit);
    view! {
        <div class="field">
            <label for="portion">{format!("Portion weight ({})", unit.symbol())}</label>
            <p class="hint">"Leave it empty to divide the fillets by the portions you want."</p>
            <input id="portion" type="text" inputmode="decimal" autocomplete="off" aria-describedby="portion-fault"
                prop:value=move || fish.with(|fish| fish.portion.clone())
                on:input:target=move |event| { hand.weigh(Action::Portion(event.target().value()), refused); }/>
            {fault("portion-fault", move || {
                refused.get().or_else(|| fish.with(|fish| fish.portion_mass().err().map(|refusal| refusal.to_string())))
            })}
        </div>
    }
    .into_any()
}

/// How many portions of which weight, and what one costs.
pub fn portions(fish: &Fish) -> AnyView {
    yield_sheet::portions(&fish.portions_told())
}
