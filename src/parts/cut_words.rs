//! What is said of a cut: what to do on this bench, and what can hurt at it in one sentence; the rest is folded.

use std::collections::BTreeSet;

use leptos::prelude::*;

use crate::base::kit::Kit;
use crate::base::text::first_sentence;
use crate::prep::filleting::CutWords;

/// The words of a cut on a bench without `missing`: a missing tool replaces the step.
pub fn told(words: &'static CutWords, missing: &BTreeSet<Kit>) -> AnyView {
    let detours = words.without(missing);
    let care = detours.iter().find_map(|detour| detour.caution);
    let care = care.or(words.caution).map_or("", first_sentence);
    let mut says = Vec::new();
    let mut folded = vec![("Check: ", words.looks)];
    folded.extend(words.or.map(|or| ("Another way: ", or)));
    folded.extend(words.caution.map(|caution| ("Take care: ", caution)));
    for detour in &detours {
        says.push(("", detour.say));
        folded.push(("It costs: ", detour.costs));
        folded.extend(detour.caution.map(|caution| ("Take care: ", caution)));
    }
    if says.is_empty() {
        says.push(("", words.say));
    }
    let lines = |class: &'static str, lines: Vec<(&'static str, &'static str)>| {
        let line = |(name, words): (&'static str, &'static str)| {
            view! { <p class=class><b>{name}</b>{words}</p> }
        };
        lines.into_iter().map(line).collect_view()
    };
    let careful = (!care.is_empty()).then_some(("Take care", care));
    view! {
        {lines("care", careful.into_iter().collect())}
        {lines("lead", says)}
        <details class="sheet">
            <summary>"Check"</summary>
            {lines("", folded)}
        </details>
    }
    .into_any()
}
