//! The filleting, one step a screen.

use leptos::prelude::*;

use crate::base::text::first_sentence;
use crate::fish::action::Action;
use crate::parts::page::{Page, back_to};
use crate::parts::picture;
use crate::place::Stage;
use crate::prep::filleting;
use crate::prep::filleting::BenchCut;
use crate::session::hand::Hand;

/// One step of the filleting, counted from nought.
pub fn screen(hand: Hand, step: usize) -> AnyView {
    let fish = hand.fish;
    let cuts = fish.with_untracked(|fish| {
        fish.slip.form.map_or_else(Vec::new, |form| {
            filleting::cuts_for(form, &fish.slip.missing)
        })
    });
    let stage = Stage::Fillet(step);
    let before = fish.with_untracked(|fish| fish.stage_before(stage));
    let Some(cut) = cuts.get(step).cloned() else {
        return missing(hand);
    };
    let off_bone = fish.with_untracked(|fish| fish.is_off_bone_at(step));
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
    view! {
        <Page
            title=cut.cut.title
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
            {picture::of_cut(cut.cut.part, off_bone)}
            {body(&cut)}
            {move || refused.get().map(|sentence: String| view! { <p class="fault" role="alert">{sentence}</p> })}
        </Page>
    }
    .into_any()
}

/// What to do, on this bench, and what can hurt at it in one sentence; the rest is folded.
fn body(cut: &BenchCut) -> AnyView {
    let step = cut.cut;
    let care = cut.detours.iter().find_map(|detour| detour.caution);
    let care = care.or(step.caution).map_or("", first_sentence);
    let mut says = Vec::new();
    let mut folded = vec![("Check: ", step.looks)];
    folded.extend(step.caution.map(|caution| ("Take care: ", caution)));
    for detour in &cut.detours {
        says.push(("", detour.say));
        folded.push(("With all the kit: ", step.say));
        folded.push(("It costs: ", detour.costs));
        folded.extend(detour.caution.map(|caution| ("Take care: ", caution)));
    }
    if says.is_empty() {
        says.push(("", step.say));
    }
    let told = |class: &'static str, lines: Vec<(&'static str, &'static str)>| {
        let line = |(name, words): (&'static str, &'static str)| {
            view! { <p class=class><b>{name}</b>{words}</p> }
        };
        lines.into_iter().map(line).collect_view()
    };
    let careful = (!care.is_empty()).then_some(("Take care", care));
    view! {
        {told("care", careful.into_iter().collect())}
        {told("lead", says)}
        <details class="sheet">
            <summary>"Check"</summary>
            {told("", folded)}
        </details>
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
