//! The cook's own tests side by side: what many fish tell.

use std::sync::Arc;

use leptos::prelude::*;

use crate::base::text::caseless;
use crate::compare::group::TestSplit;
use crate::compare::test::Test;
use crate::device::{address, clock, download};
use crate::fish::demo;
use crate::fish::slip::Species;
use crate::parts::choice::one_of;
use crate::parts::compared::{self, Choice};
use crate::parts::page::{Page, back_to, on_to};
use crate::parts::tests_file;
use crate::parts::whole;
use crate::parts::words;
use crate::place::Place;
use crate::session::bench::Bench;
use crate::trade::breakdown::DeliveryForm;
use crate::trade::outlook::Confidence;

/// The cook's own tests, or those of the demonstration.
pub fn screen(bench: Bench, demo: bool) -> AnyView {
    let tests = Memo::new(move |_| {
        if !bench.fish.read_all() {
            return Arc::new(Vec::new());
        }
        let _ = bench.fish.ids();
        Arc::new(bench.fish.of_each(|fish| {
            let test = Test::of(fish, clock::offset_minutes(fish.begun))?;
            (test.demo == demo).then_some(test)
        }))
    });
    let empty = Memo::new(move |_| tests.with(|tests| tests.is_empty()));
    view! {
        <Page
            title=if demo { "Compare the demo's fish" } else { "Compare your fish" }
            above="What many fish tell"
            demo=Signal::derive(move || demo)
            dock=move || view! {
                {back_to(&Place::Home)}
                {on_to(&Place::Cheapest { demo }, "Cheapest to eat")}
            }
        >
            {whole::once_read(bench.fish, move || view! {
                {move || if empty.get() { nothing_yet(bench) } else { all(tests) }}
                {(!demo).then(|| tests_file::save_and_bring(bench))}
            }.into_any())}
            {move || (!demo && !empty.get()).then(other_way)}
        </Page>
    }
    .into_any()
}

fn other_way() -> AnyView {
    view! { <a class="btn bare noprint" href=Place::Compare { demo: true }.to_string()>"Look at the demo's tests"</a> }
        .into_any()
}

fn nothing_yet(bench: Bench) -> AnyView {
    let refused = RwSignal::new(None::<String>);
    let open = move |_| match open_demo(bench) {
        Ok(()) => address::go(&Place::Compare { demo: true }),
        Err(refusal) => refused.set(Some(refusal.to_string())),
    };
    view! {
        <div class="sheet">
            <p class="lead">"No test to compare yet."</p>
            <p class="soft">"A fish stands here once it is weighed as delivered and ready to cook. Three of one kind tell what the next one will give."</p>
            <button class="btn" on:click=open>"Open the demo's three tests"</button>
            {move || refused.get().map(|sentence| view! { <p class="fault" role="alert">{sentence}</p> })}
        </div>
    }
    .into_any()
}

/// Puts the demo's tests that are not here yet on the phone.
fn open_demo(bench: Bench) -> Result<(), crate::base::refusal::Refusal> {
    let here: Vec<Option<Species>> = bench.fish.of_each(|fish| {
        Test::of(fish, 0)
            .filter(|test| test.demo)
            .map(|test| Some(test.species))
    });
    for make in demo::TESTED {
        let made = make(String::new(), clock::now(), &bench.settings.get_untracked());
        if !here.contains(&made.slip.species) {
            bench.begin(make)?;
        }
    }
    Ok(())
}

fn all(tests: Memo<Arc<Vec<Test>>>) -> AnyView {
    let choice = RwSignal::new(Choice::default());
    let chosen = Memo::new(move |_| tests.with(|tests| choice.with(|choice| choice.among(tests))));
    view! {
        {choosers(tests, choice)}
        {move || choice.with(|choice| chosen.with(|tests| compared::picture(tests, choice)))}
        {move || choice.with(|choice| chosen.with(|tests| compared::groups(tests, choice)))}
        {compared::table(chosen, choice)}
        <button class="btn noprint" on:click=move |_| {
            choice.update(|choice| choice.shown = usize::MAX);
            // The rows are on the page after the browser's next turn.
            request_animation_frame(|| request_animation_frame(download::print));
        }>"Print this comparison"</button>
    }
    .into_any()
}

/// Large taps for what is compared; a choice of one is no choice.
fn choosers(tests: Memo<Arc<Vec<Test>>>, choice: RwSignal<Choice>) -> AnyView {
    let (mut fish, mut forms): (Vec<String>, Vec<DeliveryForm>) = (Vec::new(), Vec::new());
    tests.with_untracked(|tests| {
        fish.extend(tests.iter().map(|test| test.species.name()));
        forms.extend(tests.iter().map(|test| test.form));
    });
    fish.sort_by_cached_key(|name| caseless(name));
    fish.dedup_by_key(|name| caseless(name));
    forms.sort_unstable();
    forms.dedup();
    let names = StoredValue::new(fish.clone());
    let fish: Vec<(usize, String)> = std::iter::once("All".to_owned())
        .chain(fish)
        .enumerate()
        .collect();
    let forms: Vec<(Option<DeliveryForm>, String)> = std::iter::once((None, "All".to_owned()))
        .chain(
            forms
                .into_iter()
                .map(|form| (Some(form), words::capital(form.name()))),
        )
        .collect();
    let nth_of = move || {
        choice.with(|choice| {
            let name = choice.fish.as_deref()?;
            names.with_value(|names| names.iter().position(|known| known == name))
        })
    };
    view! {
        <div class="stack noprint">
            {(fish.len() > 2).then(|| one_of(
                "which-fish",
                "Fish",
                "",
                fish,
                move || Some(nth_of().map_or(0, |nth| nth.saturating_add(1))),
                move |nth: usize| choice.update(|choice| {
                    choice.fish = nth.checked_sub(1).and_then(|nth| names.with_value(|names| names.get(nth).cloned()));
                }),
            ))}
            {(forms.len() > 2).then(|| one_of(
                "which-form",
                "Delivered",
                "",
                forms,
                move || Some(choice.with(|choice| choice.form)),
                move |form| choice.update(|choice| choice.form = form),
            ))}
            <details class="sheet">
                <summary>"Kit, technique, month; how sure"</summary>
                <div class="stack">
                    {one_of(
                        "by",
                        "Side by side",
                        "one",
                        TestSplit::ALL.into_iter().map(|by| (by, by.name())).collect(),
                        move || Some(choice.with(|choice| choice.by)),
                        move |by| choice.update(|choice| choice.by = by),
                    )}
                    {one_of(
                        "sure",
                        "The next fish is to be right",
                        "",
                        Confidence::ALL.into_iter().map(|sure| (sure, sure.name().to_owned())).collect(),
                        move || Some(choice.with(|choice| choice.confidence)),
                        move |sure| choice.update(|choice| choice.confidence = sure),
                    )}
                </div>
            </details>
        </div>
    }
    .into_any()
}
