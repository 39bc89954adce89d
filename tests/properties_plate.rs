//! What must hold for any dish.
#![cfg(not(target_arch = "wasm32"))]
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use proptest::prelude::*;
use rust_decimal::Decimal;
use scaleside::base::instant::Instant;
use scaleside::cards::exchange;
use scaleside::fish::settings::Settings;
use scaleside::trade::money::Currency;
use scaleside::trade::plate::chance::OrderChance;
use scaleside::trade::plate::invoice::{Per, Price};
use scaleside::trade::plate::line::{
    Bought, LineGroup, Makes, PlateLine, Preparation, Source, WholeFish,
};
use scaleside::trade::plate::order::order;
use scaleside::trade::plate::plate::Plate;
use scaleside::trade::plate::scaled::{kitchen, scaled};
use scaleside::trade::plate::units::{Dimension, Quantity, QuantityUnit};

/// What a division of decimals may leave, as a share of the figure.
const DUST: Decimal = Decimal::from_parts(1, 0, 0, false, 15);

fn close(a: Decimal, b: Decimal) -> bool {
    (a - b).abs() <= DUST * (a.abs() + b.abs() + Decimal::ONE)
}

fn unit(kind: Dimension) -> QuantityUnit {
    match kind {
        Dimension::Mass => QuantityUnit::Gram,
        Dimension::Volume => QuantityUnit::Millilitre,
        Dimension::Pieces => QuantityUnit::Piece,
    }
}

/// A quantity of the kind that its price is by, a milligram to a hundred kilos.
fn any_bought() -> impl Strategy<Value = (Quantity, Bought)> {
    (
        0..3_usize,
        1..100_000_000_i64,
        1..=1000_i64,
        1..1_000_000_i64,
        1..5_000_000_i64,
        proptest::option::of(50_000..5_000_000_i64),
        0..6_usize,
    )
        .prop_map(|(kind, amount, trim, price, pack, size, group)| {
            let kind = [Dimension::Mass, Dimension::Volume, Dimension::Pieces][kind];
            let pack = Quantity::new(kind, Decimal::new(pack, 6));
            let per = match (kind, amount % 2) {
                (_, 0) => Per::Pack(pack),
                (Dimension::Mass, _) => [Per::Kilo, Per::Pound][usize::from(price % 2 == 0)],
                (Dimension::Volume, _) => Per::Litre,
                (Dimension::Pieces, _) => Per::Piece,
            };
            let size = size.filter(|_| kind == Dimension::Mass);
            let bought = Bought {
                trim: Decimal::new(trim, 3),
                price: Price {
                    amount: Decimal::new(price, 2),
                    currency: Currency::Eur,
                    per,
                },
                density: None,
                piece: None,
                group: LineGroup::ALL[group],
                fish: size.map(|size| WholeFish {
                    size: Some(Decimal::new(size, 6)),
                    range: None,
                    from: String::new(),
                    careful: None,
                    credit: Decimal::new(price / 8, 2),
                }),
            };
            (Quantity::new(kind, Decimal::new(amount, 6)), bought)
        })
}

fn lines(most: usize) -> impl Strategy<Value = Vec<PlateLine>> {
    proptest::collection::vec(any_bought(), 1..most).prop_map(|all| {
        let line = |(nth, (quantity, bought)): (usize, (Quantity, Bought))| PlateLine {
            name: format!("Line {nth}"),
            quantity,
            unit: unit(quantity.kind),
            source: Source::Bought(bought),
        };
        all.into_iter().enumerate().map(line).collect()
    })
}

fn dish(makes: Makes, share: i64, lines: Vec<PlateLine>) -> Preparation {
    Preparation {
        name: "Dish".into(),
        makes,
        currency: Currency::Eur,
        share: Decimal::new(share, 3),
        lines,
    }
}

/// The dish with every quantity so many times as large, for so many times the covers.
fn times(dish: &Preparation, factor: u32) -> Preparation {
    let mut more = dish.clone();
    more.makes = Makes::Covers(dish.covers() * factor);
    for line in &mut more.lines {
        line.quantity = line.quantity.times(Decimal::from(factor)).unwrap();
    }
    more
}

proptest! {
    #[test]
    fn cost_is_linear_in_covers(lines in lines(8), covers in 1..50_u32, factor in 1..40_u32, share in 0..500_i64) {
        let one = dish(Makes::Covers(covers), share, lines);
        let more = times(&one, factor);
        let (one, more) = (Plate::of(&one).unwrap(), Plate::of(&more).unwrap());
        prop_assert!(close(one.total * Decimal::from(factor), more.total));
        prop_assert!(close(one.per_cover().amount, more.per_cover().amount));
    }

    /// A part used up whole costs what its lines would cost on the plate itself; used by halves it costs half.
    #[test]
    fn the_cost_of_a_part_is_conserved(lines in lines(6), made in 1..1_000_000_i64, used in 1..=100_i64, share in 0..500_i64) {
        let made = Quantity::new(Dimension::Mass, Decimal::new(made, 6));
        let part = dish(Makes::Amount(made), share, lines.clone());
        let alone = part.cost().unwrap();
        let share_used = Decimal::new(used, 2);
        let rest = Decimal::ONE - share_used;
        let uses: Vec<PlateLine> = [share_used, rest]
            .into_iter()
            .filter(|share| !share.is_zero())
            .map(|share| PlateLine {
                name: "Part".into(),
                quantity: made.times(share).unwrap(),
                unit: QuantityUnit::Gram,
                source: Source::Part(part.clone()),
            })
            .collect();
        prop_assert!(close(uses[0].cost().unwrap(), alone * share_used));
        let plate = Plate::of(&dish(Makes::Covers(3), 0, uses)).unwrap();
        prop_assert!(close(plate.total, alone));
        let flat = Plate::of(&dish(Makes::Covers(3), share, lines)).unwrap();
        prop_assert!(close(flat.total, alone));
    }

    #[test]
    fn the_lines_and_the_rest_are_the_whole(lines in lines(8), share in 0..500_i64) {
        let plate = Plate::of(&dish(Makes::Covers(2), share, lines)).unwrap();
        let sum: Decimal = plate.lines.iter().map(|line| line.cost).sum();
        prop_assert!(close(sum + plate.unmeasured, plate.total));
        prop_assert!(plate.lines.is_sorted_by(|a, b| a.cost >= b.cost));
    }

    /// Of every line of the dish and of its parts there is enough, weighed and by whole portions.
    #[test]
    fn an_order_covers_the_need(lines in lines(8), inner in lines(4), covers in 1..20_u32, wanted in 1..500_u32, margin in 0..=100_i64) {
        let made = Quantity::new(Dimension::Mass, Decimal::ONE);
        let mut all = lines;
        all.push(PlateLine {
            name: "Part".into(),
            quantity: Quantity::new(Dimension::Mass, Decimal::new(3, 1)),
            unit: QuantityUnit::Gram,
            source: Source::Part(dish(Makes::Amount(made), 0, inner)),
        });
        let dish = dish(Makes::Covers(covers), 0, all);
        let margin = Decimal::new(margin, 2);
        let list = order(&dish, wanted, margin).unwrap();
        prop_assert!(Decimal::from(list.planned) >= Decimal::from(wanted) * (Decimal::ONE + margin));
        let bought: Vec<_> = list.groups.iter().flat_map(|(_, lines)| lines).collect();
        let names: usize = dish.lines.iter().map(|line| match &line.source {
            Source::Part(part) => part.lines.len(),
            Source::Bought(_) => 1,
        }).sum();
        // Lines of one name and price stand together: never more lines than ingredients.
        prop_assert!(bought.len() <= names);
        let mut needed = Decimal::ZERO;
        for line in &bought {
            let amount = line.buy.amount();
            prop_assert!(amount + DUST * (amount + Decimal::ONE) >= line.need.amount, "{:?}", line);
            prop_assert!(close(line.left.amount, (amount - line.need.amount).max(Decimal::ZERO)));
            needed += line.cost;
        }
        prop_assert!(close(needed, list.cost.amount));
        // What is bought costs no less than what the plates need.
        let plates = Plate::of(&dish).unwrap().per_cover().amount * Decimal::from(list.planned);
        prop_assert!(needed + DUST * (needed + plates) >= plates);
    }

    /// What an order by a published range leaves to chance is what the same order at the low end would buy beyond it.
    #[test]
    fn what_is_left_to_chance_is_the_order_at_the_low_end(lines in lines(4), covers in 1..20_u32, wanted in 1..200_u32, width in 0..=400_i64) {
        let (mut ranged, mut at_low) = (dish(Makes::Covers(covers), 0, lines.clone()), dish(Makes::Covers(covers), 0, lines));
        for (line, low_line) in ranged.lines.iter_mut().zip(&mut at_low.lines) {
            if let (Source::Bought(bought), Source::Bought(low)) = (&mut line.source, &mut low_line.source)
                && let Some(fish) = &mut bought.fish
            {
                let half = bought.trim * Decimal::new(width, 3);
                fish.range = Some((bought.trim - half, bought.trim + half));
                low.trim = bought.trim - half;
            }
        }
        let flat = |dish: &Preparation| {
            let list = order(dish, wanted, Decimal::ZERO).unwrap();
            list.groups.into_iter().flat_map(|(_, lines)| lines).collect::<Vec<_>>()
        };
        for (line, low) in flat(&ranged).iter().zip(flat(&at_low)) {
            prop_assert_eq!(&line.name, &low.name);
            match &line.chance {
                Some(OrderChance::Low { buy, more, .. }) => {
                    prop_assert!(width > 0);
                    prop_assert!(close(buy.amount(), low.buy.amount()), "{:?} {:?}", line, low);
                    prop_assert!(close(more.amount, (low.buy.amount() - line.buy.amount()).max(Decimal::ZERO)));
                    prop_assert!(!line.chance.as_ref().unwrap().told(line.unit).is_empty());
                }
                Some(OrderChance::NoRange(_)) => prop_assert_eq!(width, 0),
                None => {}
            }
        }
    }

    #[test]
    fn what_a_kitchen_measures_is_near_and_never_nothing(amount in 1..200_000_000_i64, at in 0..9_usize) {
        let unit = QuantityUnit::ALL[at];
        let exact = Quantity::new(unit.kind(), Decimal::new(amount, 6));
        let rounded = kitchen(exact, unit);
        prop_assert!(rounded.amount > Decimal::ZERO);
        let off = (rounded.amount - exact.amount).abs();
        // Half a step at most, and a step is never over a fifth of what is weighed, but for the least amounts.
        prop_assert!(off <= exact.amount / Decimal::TEN || off <= unit.in_base(), "{exact:?} {rounded:?}");
    }

    #[test]
    fn scaling_is_exact_before_it_is_rounded(lines in lines(5), covers in 1..30_u32, wanted in 1..3000_u32) {
        let dish = dish(Makes::Covers(covers), 0, lines);
        let scaled = scaled(&dish, wanted).unwrap();
        prop_assert_eq!(scaled.len(), dish.lines.len());
        for (line, scaled) in dish.lines.iter().zip(&scaled) {
            let back = scaled.exact.amount * Decimal::from(covers) / Decimal::from(wanted);
            prop_assert!(close(back, line.quantity.amount));
        }
    }

    #[test]
    fn no_text_stops_the_reader(text in ".{0,300}", name in any::<String>(), ingredient in any::<String>()) {
        let now = Instant(0);
        let _ = exchange::read(&text, now, &Settings::default());
        let dish = serde_json::json!({"@type": "Recipe", "name": name, "recipeYield": text, "recipeIngredient": [ingredient, text]});
        let imported = exchange::read(&dish.to_string(), now, &Settings::default()).unwrap();
        prop_assert_eq!(imported.dish().unwrap().lines.len() <= 2, true);
    }
}
