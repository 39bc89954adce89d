//! The parts of a fish that are kept for another dish.

use leptos::prelude::*;

use crate::device::clock;
use crate::fish::action::Action;
use crate::fish::record::KeptField;
use crate::parts::choice::fault;
use crate::session::drawer::identity;
use crate::session::hand::Hand;

/// The parts kept for another dish, folded away until there is one.
pub fn section(hand: Hand) -> AnyView {
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
        hand.weigh(Action::Keep(identity(clock::now())), refused);
    };
    view! {
        <details class="sheet" open={!ids.with_untracked(Vec::is_empty)}>
            <summary>"Parts kept for another dish"</summary>
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
            hand.weigh(Action::KeptPart(id.get_value(), of, text), refused);
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
            <button class="btn bare" on:click=move |_| { hand.weigh(Action::Unkeep(id.get_value()), refused); }>"Take this part out"</button>
        </div>
    }
    .into_any()
}
