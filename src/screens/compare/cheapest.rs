//! Which fish is the cheapest to eat at today's prices.

use std::sync::Arc;

use leptos::prelude::*;

use crate::cards::quote::Quote;
use crate::compare::market::{self, AskingPrice, Basis, CostRange, Offer};
use crate::compare::test::Test;
use crate::device::clock;
use crate::fish::settings::Preference;
use crate::parts::choice::fault;
use crate::parts::market_list;
use crate::parts::page::{Page, back_to};
use crate::parts::whole;
use crate::place::Place;
use crate::session::bench::Bench;
use crate::session::drawer::Drawer;
use crate::trade::mass::{self, Mass, Unit};
use crate::trade::rounding;

/// The market list, with the cook's own tests or those of the demonstration.
pub fn screen(bench: Bench, quotes: Drawer<Quote>, demo: bool) -> AnyView {
    view! {
        <Page
            title="Cheapest to eat"
            above="At today's prices"
            demo=Signal::derive(move || demo)
            dock=move || back_to(&Place::Compare { demo })
        >
            <p class="soft">"The price on the list is for the whole fish. What counts is the price of what you can cook: divided by what the fish gives."</p>
            {whole::once_read(bench.fish, move || ranked(bench, quotes, demo))}
        </Page>
    }
    .into_any()
}

fn ranked(bench: Bench, quotes: Drawer<Quote>, demo: bool) -> AnyView {
    let tests: Vec<Test> = bench.fish.of_each(|fish| {
        let test = Test::of(fish, clock::offset_minutes(fish.begun))?;
        (test.demo == demo).then_some(test)
    });
    let tests = StoredValue::new(tests);
    let offers = Memo::new(move |_| {
        let quotes: Vec<Quote> = market_list::of(quotes, demo)
            .into_iter()
            .map(|(_, quote)| quote)
            .collect();
        Arc::new(tests.with_value(|tests| market::offers(tests, &quotes)))
    });
    let portion = move || bench.settings.with(|settings| settings.portion.clone());
    let mass = Memo::new(move |_| {
        bench
            .settings
            .with(|settings| mass::parse(&settings.portion, Unit::Gram))
            .map_err(|refusal| refusal.to_string())
    });
    view! {
            <div class="field noprint">
                <label for="eaten-portion">"One portion (g)"</label>
                <input id="eaten-portion" type="text" inputmode="decimal" autocomplete="off" aria-describedby="eaten-portion-fault"
                    prop:value=portion
                    on:input:target=move |event| {
                        let text: String = event.target().value().chars().take(12).collect();
                        bench.prefer(Preference::Portion(text));
                    }/>
                {fault("eaten-portion-fault", move || mass.get().err())}
            </div>
            {move || ranking(&offers.get(), mass.get().ok())}
            {market_list::prices(bench, quotes, offers, demo)}
    }
    .into_any()
}

fn ranking(offers: &[Offer], portion: Option<Mass>) -> AnyView {
    let worked: Vec<&Offer> = offers
        .iter()
        .filter(|offer| offer.per_kilo().is_some())
        .collect();
    if worked.is_empty() {
        return view! { <p class="sheet">"Nothing to rank yet: give a fish below its price, or add one that you have not tested."</p> }.into_any();
    }
    let mut currencies: Vec<_> = worked.iter().filter_map(|offer| offer.currency()).collect();
    currencies.dedup();
    let published = worked
        .iter()
        .any(|offer| matches!(offer.basis, Basis::Published { .. }));
    view! {
        <section class="sheet results" data-says="market published">
            <h2>"The cheapest first"</h2>
            <ol class="ranks">
                {worked.iter().enumerate().map(|(nth, offer)| rank(nth.saturating_add(1), offer, portion)).collect_view()}
            </ol>
            {published.then(|| view! {
                <p class="soft small">"Where you have no test of your own, the cost runs from what the highest published yield gives to what the lowest does, and the middle decides the place."</p>
            })}
            {(currencies.len() > 1).then(|| view! {
                <p class="care">"These prices are in several currencies: places compare only within one."</p>
            })}
        </section>
    }
    .into_any()
}

fn rank(place: usize, offer: &Offer, portion: Option<Mass>) -> AnyView {
    let kilo = offer.per_kilo().map(written).unwrap_or_default();
    let each = portion
        .and_then(|mass| offer.per_portion(mass))
        .map(|cost| format!("{} a portion", written(cost)));
    let price = offer.asked.price().map(|price| price.show());
    let asked = match &offer.asked {
        AskingPrice::LastPaid(_) => "as last paid",
        AskingPrice::Typed(_) | AskingPrice::None => "today",
    };
    view! {
        <li class="rank">
            <b class="place">{place}</b>
            <span class="grow">
                <b>{offer.bought.name()}</b>
                <span class="num cost"><b>{kilo}</b>" a usable kilo"</span>
                <span class="num">{each}</span>
                <small>{format!("{} {asked}", price.unwrap_or_default())}</small>
                <small>{basis(&offer.basis)}</small>
            </span>
        </li>
    }
    .into_any()
}

fn basis(basis: &Basis) -> String {
    match basis {
        Basis::Own { tests, pooled } => {
            let tests = if *tests == 1 {
                "test".to_owned()
            } else {
                format!("{tests} tests")
            };
            format!("gives {} by your {tests}", rounding::percent(*pooled, 1))
        }
        Basis::Published { low, high } => format!(
            "published: {} to {}, no test of your own",
            rounding::percent(*low, 1),
            rounding::percent(*high, 1)
        ),
        Basis::Unknown => "no yield is known".to_owned(),
    }
}

fn written(cost: CostRange) -> String {
    if cost.least == cost.most {
        cost.least.show()
    } else {
        format!("{} to {}", cost.least.show(), cost.most.show())
    }
}
