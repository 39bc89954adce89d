//! Yield and cost: what the fish really gave, and what a portion costs.

use leptos::prelude::*;

use crate::device::clock;
use crate::fish::action::Action;
use crate::fish::record::{Fish, KeptField};
use crate::parts::choice::fault;
use crate::parts::page::{Page, back_to, on_to};
use crate::parts::{range, yield_sheet};
use crate::place::Stage;
use crate::screens::fish::summary;
use crate::session::drawer::identity;
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
    let ids = Memo::new(move |_| {
        fish.with(|fish| {
            fish.kept
                .iter()
                .map(|kept| kept.id.clone())
                .collect::<Vec<_>>()
        })
    });
    let add = move |_| {
        hand.send(Action::Keep(identity(clock::now())), refused);
    };
    view! {
        <details class="sheet" open={!ids.with_untracked(Vec::is_empty)}>
            <summary>"Kept for another dish (frames for stock, cheeks)"</summary>
            <p class="soft small">"What they are worth to you is taken off the cost of the fillets. Leave it out if you are not sure."</p>
            <For each=move || ids.get() key=Clone::clone let:id>{kept_part(hand, id, refused)}</For>
            {fault("kept-fault", move || refused.get())}
            <button class="btn plain" on:click=add>"Add a kept part"</button>
        </details>
    }
    .into_any()
}

fn kept_part(hand: Hand, id: String, refused: RwSignal<Option<String>>) -> AnyView {
    let fish = hand.fish;
    let (field_id, id) = (id.clone(), StoredValue::new(id));
    let said = move || {
        fish.with(|fish| {
            let kept = id.with_value(|id| fish.kept.iter().find(|kept| kept.id == *id))?;
            let price = fish.slip.read_price().ok()?;
            if kept.weight.trim().is_empty() && kept.price.trim().is_empty() {
                return None;
            }
            fish.read_kept(kept, &price)
                .err()
                .map(|refusal| refusal.to_string())
        })
    };
    let entry = move |name: &str, label: String, keyboard: &'static str, of: KeptField| {
        let value = move || {
            fish.with(|fish| {
                let kept = id.with_value(|id| fish.kept.iter().find(|kept| kept.id == *id));
                kept.map(|kept| kept.clone().field_mut(of).clone())
            })
        };
        let typed = move |text: String| {
            hand.send(Action::KeptPart(id.get_value(), of, text), refused);
        };
        let html = format!("{name}-{field_id}");
        view! {
            <div class="field grow">
                <label for=html.clone()>{label}</label>
                <input id=html type="text" inputmode=keyboard autocomplete="off" prop:value=value
                    on:input:target=move |event| typed(event.target().value())/>
            </div>
        }
    };
    let (unit, per) = fish.with_untracked(|fish| (fish.ready.unit, fish.slip.per));
    view! {
        <div class="sheet">
            {entry("kept-name", "What it is".to_owned(), "text", KeptField::Name)}
            <div class="row">
                {entry("kept-weight", format!("Weight ({})", unit.symbol()), "decimal", KeptField::Weight)}
                {entry("kept-price", format!("Worth a {}", per.symbol()), "decimal", KeptField::Price)}
            </div>
            {fault("kept-part-fault", said)}
            <button class="btn bare" on:click=move |_| { hand.send(Action::Unkeep(id.get_value()), refused); }>"Take this part out"</button>
        </div>
    }
    .into_any()
}
