//! What stands beside a yield: what is published, and the parts kept for another dish.

mod kept;

use leptos::prelude::*;

use crate::parts::range::YieldBeside;
use crate::session::hand::Hand;

/// What to do with the next fish, by what is published of such fish.
pub fn next_time(hand: Hand) -> AnyView {
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
pub fn section(hand: Hand) -> AnyView {
    let fish = hand.fish;
    // A fold that was opened stays open while other entries change.
    let beside = Memo::new(move |_| fish.with(YieldBeside::of));
    view! {
        {move || beside.get().map(|beside| view! {
            <details class="sheet">
                <summary>"Beside what is published"</summary>
                {beside.told()}
            </details>
        })}
        {kept::section(hand)}
    }
    .into_any()
}
