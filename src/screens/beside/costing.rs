//! Yield and cost: what the fish really gave, and what a portion costs.

use leptos::prelude::*;

use super::kept;
use crate::fish::action::Action;
use crate::fish::record::Fish;
use crate::fish::settings::Preference;
use crate::parts::choice::fault;
use crate::parts::fish_figures::{figures, portions, print_card, send_result};
use crate::parts::page::{Page, back_to, on_to};
use crate::parts::range::YieldBeside;
use crate::parts::yield_sheet;
use crate::place::Stage;
use crate::session::hand::Hand;
use crate::trade::mass::{self, Mass};

/// A scale that shows more steps than this with nothing on it needs its key for zero.
const MOST_STEPS: i64 = 20;

/// Yield and cost: at first sight the share, the cost of a portion and what to do next time; the rest folded.
pub fn screen(hand: Hand) -> AnyView {
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
                <p class="lead">{next_time(hand)}</p>
            </div>
            <details class="sheet">
                <summary>"Costs and losses"</summary>
                {move || fish.with(rest)}
                {empty_scale(hand)}
                {print_card(hand)}
                <details>
                    <summary>"Another portion weight"</summary>
                    {portion_field(hand)}
                </details>
            </details>
            {section(hand)}
            {send_result(hand)}
        </Page>
    }
    .into_any()
}

/// What to do with the next fish, by what is published of such fish.
fn next_time(hand: Hand) -> AnyView {
    let fish = hand.fish;
    view! {
        {move || fish.with(|fish| {
            if fish.one_fillet && fish.ready.taken {
                return Some("Weigh both fillets of the next one: then its yield can be set beside others.");
            }
            YieldBeside::of(fish).map(|beside| beside.verdict().next_time())
        })}
    }
    .into_any()
}

/// Below the yield of a fish.
fn section(hand: Hand) -> AnyView {
    let fish = hand.fish;
    // A fold that was opened stays open while other entries change.
    let beside = Memo::new(move |_| fish.with(YieldBeside::of));
    view! {
        {move || beside.get().map(|beside| view! {
            <details class="sheet">
                <summary>"Beside published yields"</summary>
                {beside.told()}
            </details>
        })}
        {kept::section(hand)}
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

/// What the scale shows with nothing on it: said once, step by step, where it is not nothing. The next fish begins with it.
fn empty_scale(hand: Hand) -> AnyView {
    let fish = hand.fish;
    let refused = RwSignal::new(None);
    let shown = move || fish.with(|fish| mass::show(fish.slip.zero, fish.slip.scale.unit()));
    let step = move |by: i64| {
        let (zero, step) = fish.with_untracked(|fish| (fish.slip.zero, fish.slip.scale.division));
        let next = zero.mg().saturating_add(step.mg().saturating_mul(by));
        if next.saturating_abs() <= step.mg().saturating_mul(MOST_STEPS) {
            hand.weigh(Action::Zero(Mass::from_mg(next)), refused);
            hand.bench.prefer(Preference::Zero(Mass::from_mg(next)));
        }
    };
    view! {
        <details data-typed="">
            <summary>{move || match fish.with(Fish::zero_shown) {
                Some(shown) => format!("Empty, the scale shows {shown}"),
                None => "Empty scale not at 0?".to_owned(),
            }}</summary>
            <div class="stack">
                <p class="hint">"Best: tray on, press zero. Where that fails, say what it shows empty: it is taken off each weight, of the next fish too."</p>
                <div class="row counted" role="group" aria-label="Shown empty">
                    <button class="btn plain" aria-label="One step less" on:click=move |_| step(-1)>"Less"</button>
                    <b class="num" aria-live="polite">{shown}</b>
                    <button class="btn plain" aria-label="One step more" on:click=move |_| step(1)>"More"</button>
                </div>
            </div>
        </details>
    }
    .into_any()
}

fn portion_field(hand: Hand) -> AnyView {
    let fish = hand.fish;
    let refused = RwSignal::new(None);
    let unit = fish.with_untracked(|fish| fish.ready.unit);
    view! {
        <div class="field">
            <label for="portion">{format!("Portion weight ({})", unit.symbol())}</label>
            <p class="hint" id="portion-hint">"Leave it empty to divide the fillets by the portions you want."</p>
            <input id="portion" type="text" inputmode="decimal" autocomplete="off" aria-describedby="portion-hint portion-fault"
                prop:value=move || fish.with(|fish| fish.portion.clone())
                on:input:target=move |event| { hand.weigh(Action::Portion(event.target().value()), refused); }/>
            {fault("portion-fault", move || {
                refused.get().or_else(|| fish.with(|fish| fish.portion_mass().err().map(|refusal| refusal.to_string())))
            })}
        </div>
    }
    .into_any()
}
