//! What the ingredient of a line costs as it is bought.

use leptos::prelude::*;

use crate::cards::ingredient::{Ingredient, Origin, PricedBy};
use crate::cards::larder::LineField;
use crate::parts::entry_field::{TextEntry, list};
use crate::screens::dish::card::units;
use crate::screens::dish::line::LineDesk;
use crate::trade::plate::trims::trim_for;
use crate::trade::rounding;

/// The price, and what brings it together with the quantity.
pub fn fields(line: LineDesk, is_fish: bool) -> AnyView {
    let mut options = vec![(String::new(), "for…".to_owned())];
    options.extend(
        PricedBy::ALL
            .iter()
            .map(|per| (per.name().to_owned(), format!("a {}", per.name()))),
    );
    let per = list(
        "line-per",
        Some("What the price is for"),
        None,
        options,
        Signal::derive(move || {
            line.get(|line| line.per.map(PricedBy::name).unwrap_or_default().to_owned())
        }),
        Callback::new(move |name: String| {
            line.edit(move |line| {
                line.per = PricedBy::ALL.into_iter().find(|per| per.name() == name);
            });
        }),
    );
    let currency = Signal::derive(move || {
        let code = line.desk.get(|card| card.currency.code());
        format!("Price as bought ({code})")
    });
    let packed = Memo::new(move |_| line.get(|line| line.per == Some(PricedBy::Pack)));
    view! {
        {TextEntry {
            label: currency,
            hint: Signal::derive(move || if line.get(|line| matches!(line.origin, Origin::OwnFish(_))) {
                "Empty: what you paid for that fish. Type today's price over it.".to_owned()
            } else {
                String::new()
            }),
            fault: line.said(LineField::Price, |line| !line.price.trim().is_empty()),
            beside: per,
            ..line.entry(
                "line-price",
                "",
                |line| line.price.clone(),
                |line, text| line.price = text,
            )
        }.view()}
        {move || packed.get().then(|| TextEntry {
            fault: line.said(LineField::Pack, |line| !line.pack.trim().is_empty()),
            beside: units(
                "line-pack-unit",
                "Unit of the pack",
                Signal::derive(move || line.get(|line| line.pack_unit)),
                Callback::new(move |unit| line.edit(move |line| line.pack_unit = unit)),
            ),
            ..line.entry(
                "line-pack",
                "In one pack",
                |line| line.pack.clone(),
                |line, text| line.pack = text,
            )
        }.view())}
        {meeting(line, is_fish)}
    }
    .into_any()
}

/// What brings quantity and price together, asked for only where they don't meet by themselves.
fn meeting(line: LineDesk, is_fish: bool) -> AnyView {
    let asks = Memo::new(move |_| line.get(Ingredient::meeting));
    let piece = move |label: &str, hint: Signal<String>| {
        TextEntry {
            hint,
            fault: line.said(LineField::Piece, |line| !line.quantity.trim().is_empty()),
            ..line.entry(
                "line-piece",
                label,
                |line| line.piece.clone(),
                |line, text| line.piece = text,
            )
        }
        .view()
    };
    view! {
        {move || match (is_fish, asks.get()) {
            (true, _) => piece(
                "One whole fish weighs (g)",
                Signal::stored("For the order: how many fish of this size. Empty: that of your own fish, or an order in kilos.".to_owned()),
            ),
            (_, Some(LineField::Piece)) => {
                let hint = move || line.get(|line| {
                    let known = trim_for(&line.name).and_then(|trim| {
                        let grams = rounding::half_away(trim.piece_as_bought_g()?, 1).normalize();
                        Some(format!(" Published: {} weighs {grams} g, worked out from its ready weight.", trim.piece))
                    });
                    format!("Pieces meet a weight here.{}", known.unwrap_or_default())
                });
                piece("One piece weighs, as bought (g)", Signal::derive(hint))
            }
            (_, Some(LineField::Density)) => TextEntry {
                hint: Signal::stored("A volume meets a weight here: fill 100 ml into a jug on the scale.".to_owned()),
                fault: line.said(LineField::Density, |line| !line.quantity.trim().is_empty()),
                ..line.entry(
                    "line-density",
                    "100 ml of it weigh (g)",
                    |line| line.density.clone(),
                    |line, text| line.density = text,
                )
            }.view(),
            _ => ().into_any(),
        }}
    }
    .into_any()
}
