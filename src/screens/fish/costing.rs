//! Yield and cost: what the fish really gave, and what a portion costs.

use leptos::prelude::*;

use crate::fish::action::Action;
use crate::fish::record::{Fish, Kept};
use crate::parts::choice::fault;
use crate::parts::page::{Page, back_to, on_to};
use crate::parts::{range, yield_sheet};
use crate::place::Stage;
use crate::screens::fish::summary;
use crate::session::hand::Hand;

/// Yield and cost.
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
            {move || fish.with(figures)}
            {portion_field(hand)}
            {move || fish.with(portions)}
            {move || fish.with(range::of_fish)}
            {kept(hand)}
            {summary::send_result(hand)}
        </Page>
    }
    .into_any()
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
                on:input:target=move |event| { hand.send(Action::Portion(event.target().value()), refused); }/>
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

fn kept(hand: Hand) -> AnyView {
    let fish = hand.fish;
    let refused = RwSignal::new(None);
    let count = Memo::new(move |_| fish.with(|fish| fish.kept.len()));
    view! {
        <details class="sheet" open={count.get_untracked() != 0}>
            <summary>"Kept for another dish (frames for stock, cheeks)"</summary>
            <p class="soft small">"What they are worth to you is taken off the cost of the fillets. Leave it out if you are not sure."</p>
            {move || (0..count.get()).map(|at| kept_part(hand, at, refused)).collect_view()}
            {fault("kept-fault", move || refused.get())}
            <button class="btn plain" on:click=move |_| { hand.send(Action::Keep, refused); }>"Add a kept part"</button>
        </details>
    }
    .into_any()
}

fn kept_part(hand: Hand, at: usize, refused: RwSignal<Option<String>>) -> AnyView {
    let fish = hand.fish;
    let part = move || fish.with(|fish| fish.kept.get(at).cloned().unwrap_or_default());
    let change = move |edit: &dyn Fn(&mut Kept)| {
        let mut kept = fish.with_untracked(|fish| fish.kept.get(at).cloned().unwrap_or_default());
        edit(&mut kept);
        hand.send(Action::KeptPart(at, kept), refused);
    };
    let said = move || {
        fish.with(|fish| {
            let kept = fish.kept.get(at)?;
            let price = fish.slip.read_price().ok()?;
            if kept.weight.trim().is_empty() && kept.price.trim().is_empty() {
                return None;
            }
            fish.read_kept(kept, &price)
                .err()
                .map(|refusal| refusal.to_string())
        })
    };
    let (unit, per) = fish.with_untracked(|fish| (fish.ready.unit, fish.slip.per));
    view! {
        <div class="sheet">
            <div class="field">
                <label for=format!("kept-{at}")>"What it is"</label>
                <input id=format!("kept-{at}") type="text" autocomplete="off" prop:value=move || part().name
                    on:input:target=move |event| { let text = event.target().value(); change(&|kept| kept.name.clone_from(&text)); }/>
            </div>
            <div class="row">
                <div class="field grow">
                    <label for=format!("kept-weight-{at}")>{format!("Weight ({})", unit.symbol())}</label>
                    <input id=format!("kept-weight-{at}") type="text" inputmode="decimal" autocomplete="off" prop:value=move || part().weight
                        on:input:target=move |event| { let text = event.target().value(); change(&|kept| kept.weight.clone_from(&text)); }/>
                </div>
                <div class="field grow">
                    <label for=format!("kept-price-{at}")>{format!("Worth a {}", per.symbol())}</label>
                    <input id=format!("kept-price-{at}") type="text" inputmode="decimal" autocomplete="off" prop:value=move || part().price
                        on:input:target=move |event| { let text = event.target().value(); change(&|kept| kept.price.clone_from(&text)); }/>
                </div>
            </div>
            {fault("kept-part-fault", said)}
            <button class="btn bare" on:click=move |_| { hand.send(Action::Unkeep(at), refused); }>"Take this part out"</button>
        </div>
    }
    .into_any()
}
