//! The figures of a fish, as its screens show them, and the ways to send them.

use leptos::prelude::*;

use super::yield_sheet;
use crate::fish::record::Fish;
use crate::place::Stage;
use crate::session::hand::Hand;

/// The way to the result code, once there is a yield to send.
pub fn send_result(hand: Hand) -> AnyView {
    way(hand, Stage::Code, "btn", "Send the result")
}

/// The way to the yield card, once there is a yield to print.
pub fn print_card(hand: Hand) -> AnyView {
    way(hand, Stage::Card, "btn plain", "Yield card to print")
}

fn way(hand: Hand, to: Stage, class: &'static str, words: &'static str) -> AnyView {
    let href = hand.at(to).to_string();
    view! {
        {move || hand.fish.with(|fish| fish.ready.taken).then(|| view! { <a class=class href=href.clone()>{words}</a> })}
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

/// How many portions of which weight, and what one costs.
pub fn portions(fish: &Fish) -> AnyView {
    yield_sheet::portions(&fish.portions_told())
}
