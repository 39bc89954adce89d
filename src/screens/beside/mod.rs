//! What stands beside a yield: what is published, and the parts kept for another dish.

mod kept;

use leptos::prelude::*;

use crate::parts::range::YieldBeside;
use crate::session::hand::Hand;
use crate::trade::plausible::YieldVerdict;

/// Below the yield of a fish.
pub fn section(hand: Hand) -> AnyView {
    let fish = hand.fish;
    // A fold that was opened stays open while other entries change.
    let beside = Memo::new(move |_| fish.with(YieldBeside::of));
    view! {
        {move || beside.get().map(|beside| view! {
            <details class="sheet" open=beside.verdict() != YieldVerdict::Usual>
                <summary>"Beside what is published"</summary>
                {beside.told()}
            </details>
        })}
        {kept::section(hand)}
    }
    .into_any()
}
