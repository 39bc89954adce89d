//! The questions about the finished plate, and what was answered.

use std::collections::BTreeMap;

use leptos::prelude::*;

use super::choice::one_of;
use crate::journal::{Journal, JournalTap};
use crate::service::dish::PlateCheck;

/// The questions, each answered with a tap.
pub fn questions(
    checks: &[PlateCheck],
    journal: Signal<Journal>,
    send: Callback<JournalTap>,
) -> AnyView {
    let question = |check: &PlateCheck| {
        let id = StoredValue::new(check.id.clone());
        let answer =
            move || journal.with(|journal| id.with_value(|id| journal.plate.get(id).copied()));
        let remedy = check.remedy();
        let asked = one_of(
            check.id.clone(),
            check.ask.clone(),
            "inline",
            vec![(true, "Yes".to_owned()), (false, "Not yet".to_owned())],
            answer,
            move |answer| send.run(JournalTap::Plate(id.get_value(), answer)),
        );
        view! {
            {asked}
            <div aria-live="polite">
                {move || remedy.filter(|_| answer() == Some(false)).map(|remedy| view! { <p class="detour">{remedy}</p> })}
            </div>
        }
    };
    checks.iter().map(question).collect_view().into_any()
}

/// The answers; nothing while none was given.
pub fn answers(checks: &[PlateCheck], answered: &BTreeMap<String, bool>) -> AnyView {
    if answered.is_empty() {
        return ().into_any();
    }
    let row = |check: &PlateCheck| {
        let answer = match answered.get(&check.id) {
            Some(true) => "yes",
            Some(false) => "not yet",
            None => "not said",
        };
        view! { <tr data-says="step"><th scope="row">{check.ask.clone()}</th><td class="num">{answer}</td></tr> }
    };
    view! {
        <section class="sheet">
            <h2>"The plate"</h2>
            <table><tbody>{checks.iter().map(row).collect_view()}</tbody></table>
        </section>
    }
    .into_any()
}
