//! The yield of one fish as a card for the binder: one page of A4 or Letter.

use leptos::prelude::*;

use super::result_code::link;
use super::whose::Whose;
use crate::base::kit::Kit;
use crate::base::refusal::Refusal;
use crate::code::letters::Code;
use crate::device::{clock, download};
use crate::fish::record::Fish;
use crate::parts::fish_figures;
use crate::parts::page::{Page, back_to};
use crate::parts::qr;
use crate::parts::range::YieldBeside;
use crate::place::Stage;
use crate::session::hand::Hand;

/// The yield card of one fish.
pub fn screen(hand: Hand) -> AnyView {
    let fish = hand.fish;
    let whose = Whose::of(hand);
    let code = whose.code();
    view! {
        <Page
            title=hand.name()
            above="Yield card"
            demo=hand.demo()
            dock=move || view! {
                {back_to(&hand.at(Stage::Summary))}
                <button class="btn main tall next" on:click=|_| download::print()>"Print"</button>
            }
        >
            <div class="card">
                {move || fish.with(head)}
                {move || fish.with(fish_figures::figures)}
                {move || fish.with(fish_figures::portions)}
                {move || fish.with(YieldBeside::of).map(|beside| beside.section())}
                {move || fish.with(note)}
                <div class="signed">
                    {move || code.with(|code| code.as_ref().map(|code| carried(whose, code.as_ref())))}
                    <p class="sign">"Checked by"</p>
                </div>
            </div>
        </Page>
    }
    .into_any()
}

fn head(fish: &Fish) -> AnyView {
    let kit: Vec<&str> = fish.slip.missing.iter().copied().map(Kit::name).collect();
    let told = fish.filleted_told();
    let together = fish.slip.read_count().ok().filter(|count| *count > 1);
    let lines = [
        ("Date", Some(clock::day(fish.begun))),
        (
            "Delivered",
            fish.slip.form.map(|form| form.name().to_owned()),
        ),
        (
            "Weighed together",
            together.map(|count| format!("{count} fish")),
        ),
        (
            "Price",
            fish.slip.read_price().ok().map(|price| price.show()),
        ),
        ("Smallest step of the scale", Some(fish.slip.scale.name())),
        ("Shown empty, taken off each weight", fish.zero_shown()),
        ("Filleted", (!told.is_empty()).then(|| told.told())),
        ("Without", (!kit.is_empty()).then(|| kit.join(", "))),
    ];
    view! {
        <dl class="facts" data-typed="">
            {lines
                .into_iter()
                .filter_map(|(name, value)| Some(view! { <div><dt>{name}</dt><dd>{value?}</dd></div> }))
                .collect_view()}
        </dl>
    }
    .into_any()
}

/// The code of the result and its picture: who has the card in hand can bring it to a class.
fn carried(whose: Whose, code: Result<&Code, &Refusal>) -> AnyView {
    let inner = match code {
        Ok(code) => {
            let student = whose.shown().map(|shown| shown.title());
            view! {
                {qr::picture(&link(code), "QR code of the link to this result")}
                <p class="letters"><b>{student}</b><span class="num">{code.to_string()}</span></p>
            }
            .into_any()
        }
        Err(refusal) => view! { <p class="soft noprint">{refusal.to_string()}</p> }.into_any(),
    };
    view! { <section class="sheet carried"><h2>"Result code"</h2>{inner}</section> }.into_any()
}

fn note(fish: &Fish) -> AnyView {
    if fish.note.trim().is_empty() {
        return ().into_any();
    }
    view! { <section class="sheet"><h2>"Next time"</h2><p>{fish.note.clone()}</p></section> }
        .into_any()
}
