//! The filleting, one step a screen.

use leptos::prelude::*;

use crate::fish::action::Action;
use crate::fish::record::Fish;
use crate::parts::cut_words;
use crate::parts::page::{Page, back_to};
use crate::place::Stage;
use crate::prep::filleting::Cut;
use crate::session::hand::Hand;

/// One step of the filleting, counted from nought; `beside` is what stands beside its words and comes later, its drawing
/// first, and the words too of a cut that has none here; `filleting` asks what is said of the filleting.
pub fn screen(
    hand: Hand,
    step: usize,
    beside: impl Fn(Hand, &'static Cut) -> AnyView + Copy + Send + 'static,
    filleting: super::AsksFilleting,
) -> AnyView {
    let fish = hand.fish;
    let cuts = fish.with_untracked(Fish::cut_list);
    let stage = Stage::Fillet(step);
    let before = fish.with_untracked(|fish| fish.stage_before(stage));
    let Some(cut) = cuts.get(step).copied() else {
        return missing(hand);
    };
    let refused = RwSignal::new(None);
    let on = move |_| {
        if hand.weigh(Action::Cut(step.saturating_add(1)), refused) {
            hand.go(fish.with_untracked(|fish| fish.stage_after(stage)));
        }
    };
    // Who knows the cuts goes by them.
    let to_scale = move |_| {
        let (last, to) = fish.with_untracked(|fish| fish.scale_after(step));
        if hand.weigh(Action::Cut(last.saturating_add(1)), refused) {
            hand.go(to);
        }
    };
    let count = format!("{} of {}", step.saturating_add(1), cuts.len());
    let (title, lacks) = fish.with_untracked(|fish| {
        let missing = fish.slip.missing.clone();
        (cut.title_without(&missing), missing)
    });
    view! {
        <Page
            title=title
            above=hand.name()
            at=stage
            demo=hand.demo()
            dock=move || view! {
                {back_to(&hand.at(before))}
                <button class="btn main tall next" on:click=on>"Next"</button>
            }
        >
            <div class="row counted">
                <p class="soft small">{count}</p>
                <button class="btn bare" on:click=to_scale>"To the scale"</button>
            </div>
            {beside(hand, cut)}
            {cut.words.map(|words| cut_words::told(words, &lacks))}
            {filleting(hand, Some(cut))}
            {move || refused.get().map(|sentence: String| view! { <p class="fault" role="alert">{sentence}</p> })}
        </Page>
    }
    .into_any()
}

fn missing(hand: Hand) -> AnyView {
    view! {
        <Page title="Filleting" above=hand.name() at=Stage::Fillet(0) demo=hand.demo() dock=move || back_to(&hand.at(Stage::Delivery))>
            <p class="fault">"Say first how the fish was delivered: the steps depend on it."</p>
        </Page>
    }
    .into_any()
}
