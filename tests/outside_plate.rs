//! Dishes against published figures. Each names its source; sums marked "by arithmetic" follow from them.
#![cfg(not(target_arch = "wasm32"))]
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use rust_decimal::Decimal;
use scaleside::trade::money::{Currency, Money};
use scaleside::trade::plate::invoice::{Per, Price};
use scaleside::trade::plate::line::{
    Bought, LineGroup, Makes, PlateLine, Preparation, Source, WholeFish,
};
use scaleside::trade::plate::order::{Buy, order};
use scaleside::trade::plate::plate::{Plate, worth_of_a_point};
use scaleside::trade::plate::price::MenuPrice;
use scaleside::trade::plate::trims::{trim_for, trims};
use scaleside::trade::plate::units::{self, Quantity, QuantityUnit};
use scaleside::trade::rounding::written;

fn decimal(text: &str) -> Decimal {
    text.parse().unwrap()
}

fn bought(trim: &str, price: &str, per: Per) -> Bought {
    Bought {
        trim: decimal(trim),
        price: Price {
            amount: decimal(price),
            currency: Currency::Usd,
            per,
        },
        density: None,
        piece: None,
        group: LineGroup::Fish,
        fish: None,
    }
}

fn quantity(text: &str, unit: QuantityUnit) -> Quantity {
    units::parse(text, unit).unwrap()
}

fn fish_dish(quantity: Quantity, covers: u32, trim: &str, size: &str) -> Preparation {
    let fish = WholeFish {
        size: Some(decimal(size)),
        range: None,
        from: String::new(),
        careful: None,
        credit: Decimal::ZERO,
    };
    Preparation {
        name: "Fish".into(),
        makes: Makes::Covers(covers),
        currency: Currency::Usd,
        share: Decimal::ZERO,
        lines: vec![PlateLine {
            name: "Whole fish".into(),
            quantity,
            unit: QuantityUnit::Gram,
            source: Source::Bought(Bought {
                fish: Some(fish),
                ..bought(trim, "18.90", Per::Kilo)
            }),
        }],
    }
}

/// Quantity to purchase = portions × portion size ÷ yield: Dittmer & Keefe, *Principles of Food, Beverage and
/// Labor Cost Controls*, ch. 6, as quoted in study notes. The worked figures: broccoli 10 lb at 68 % gives 6.8 lb
/// (problem of an open cost-control course, by arithmetic); zucchini 3 lb at 95 %, 5000 g at 87 % and 32 oz at
/// 78 %: *Bakery and Business Math*, ch. 25 "Yield Percents"; beef tenderloin 2500 g gives 1750 g (BCcampus,
/// *Basic Kitchen and Food Service Management*, ch. 12, trim as quoted in a copy); 24 portions of 160 g at 44 %
/// by arithmetic.
#[test]
fn what_to_buy_is_what_is_needed_over_the_yield() {
    for (need, unit, trim, to_buy, digits) in [
        ("6.8", QuantityUnit::Pound, "0.68", "10", 10),
        ("2.85", QuantityUnit::Pound, "0.95", "3", 10),
        ("4350", QuantityUnit::Gram, "0.87", "5000", 10),
        ("32", QuantityUnit::Ounce, "0.78", "41.03", 2),
        ("1750", QuantityUnit::Gram, "0.70", "2500", 10),
        ("3840", QuantityUnit::Gram, "0.44", "8727.3", 1),
    ] {
        let purchase = bought(trim, "1", Per::Kilo)
            .purchase(quantity(need, unit))
            .unwrap();
        let amount = purchase.amount / unit.in_base();
        assert_eq!(
            written(amount, digits),
            written(decimal(to_buy), digits),
            "{need} {trim}"
        );
    }
}

/// Pork loin: 5 kg for $25 give 3.75 kg, so a usable kilo costs $6.667: Ontario Pork, "Costing for Foodservice"
/// (yield), the cost by arithmetic. An invented fish of 2.350 kg at 18.90 a kilo and 44 %: 160 g cost 6.8727.
#[test]
fn a_line_costs_its_purchase() {
    for (need, trim, price, cost) in [
        ("1000", "0.75", "5.00", "6.6667"),
        ("160", "0.44", "18.90", "6.8727"),
    ] {
        let line = PlateLine {
            name: "Loin".into(),
            quantity: quantity(need, QuantityUnit::Gram),
            unit: QuantityUnit::Gram,
            source: Source::Bought(bought(trim, price, Per::Kilo)),
        };
        assert_eq!(written(line.cost().unwrap(), 4), cost);
    }
}

/// Food-cost share: $4.00 of food in a price of $16 is 25 % (Ontario Pork, "Costing for Foodservice"). A plate of
/// 9.60 at 30 % sells for 32.00; with a tax of 10 % the guest pays 35.20 (by arithmetic).
#[test]
fn shares_and_prices_as_they_are_taught() {
    let cost = |text| Money {
        amount: decimal(text),
        currency: Currency::Usd,
    };
    let paid = MenuPrice::paid(decimal("16"), Decimal::ZERO, Currency::Usd).unwrap();
    assert_eq!(paid.food_cost_share(cost("4")), Some(decimal("0.25")));
    assert_eq!(paid.margin(cost("4")).amount, decimal("12"));
    for (tax, with_tax) in [("0", "32"), ("0.10", "35.2")] {
        let price = MenuPrice::at_share(cost("9.60"), decimal("0.30"), decimal(tax)).unwrap();
        assert_eq!(
            (price.net.amount, price.with_tax.amount),
            (decimal("32"), decimal(with_tax))
        );
        let again = MenuPrice::paid(price.with_tax.amount, decimal(tax), Currency::Usd).unwrap();
        assert_eq!(
            written(again.food_cost_share(cost("9.60")).unwrap(), 10),
            "0.3000000000"
        );
    }
}

/// 24 × 160 g at 44 % are 8.7273 kg of fish (by arithmetic on the formula above). Of fish of 2.350 kg, each 1.034 kg
/// ready, that is 3.71 by weight; six whole portions a fish, so four fish do for 24 covers and not for 25.
#[test]
fn whole_fish_are_counted_by_weight_and_by_whole_portions() {
    let dish = fish_dish(quantity("160", QuantityUnit::Gram), 1, "0.44", "2.350");
    for (covers, fish, left) in [(24, 4, "0.6727"), (25, 5, "2.6591"), (6, 1, "0.1682")] {
        let list = order(&dish, covers, Decimal::ZERO).unwrap();
        let line = &list.groups[0].1[0];
        assert!(
            matches!(line.buy, Buy::Fish(count, _) if count == fish),
            "{covers}: {line:?}"
        );
        assert_eq!(written(line.left.amount, 4), left, "{covers}");
    }
}

/// One point more than 44 % on 160 g at 18.90 a kilo: 3.024 ÷ 0.44 less 3.024 ÷ 0.45, by arithmetic 0.15273.
#[test]
fn a_point_of_yield_is_worth_what_it_saves() {
    let dish = fish_dish(quantity("320", QuantityUnit::Gram), 2, "0.44", "2.350");
    let worth = worth_of_a_point(&dish).unwrap().unwrap();
    assert_eq!(written(worth.amount, 5), "0.15273");
    let plate = Plate::of(&dish).unwrap();
    assert_eq!(written(plate.per_cover().amount, 4), "6.8727");
    for trim in ["0.995", "1"] {
        let whole = fish_dish(quantity("320", QuantityUnit::Gram), 2, trim, "2.350");
        assert_eq!(worth_of_a_point(&whole).unwrap(), None, "{trim}");
    }
}

/// Refuse in percent, from FOOD_DES.txt of the USDA National Nutrient Database, Standard Reference release 28: the
/// whole list again, typed from the data file by number, so that a slip of a column shows.
#[test]
fn trim_yields_are_those_of_the_data_file() {
    let file = [
        ("11477", 5),
        ("11953", 13),
        ("11333", 18),
        ("11821", 18),
        ("11951", 18),
        ("11529", 9),
        ("11215", 13),
        ("11677", 12),
        ("11282", 10),
        ("09150", 47),
        ("09159", 16),
        ("09200", 27),
        ("02044", 36),
        ("02045", 41),
        ("02049", 32),
        ("02063", 35),
        ("02064", 39),
        ("02065", 59),
        ("11297", 5),
        ("11165", 15),
        ("11957", 28),
        ("11011", 47),
        ("11052", 12),
        ("11209", 19),
        ("11124", 11),
        ("11246", 56),
        ("11352", 25),
        ("11457", 28),
        ("11260", 3),
        ("11143", 11),
        ("11090", 39),
        ("11135", 61),
        ("11109", 20),
    ];
    assert_eq!(trims().len(), file.len());
    for (ndb, refuse) in file {
        let trim = trims().iter().find(|trim| trim.ndb == ndb).unwrap();
        assert_eq!(trim.refuse, Decimal::from(refuse), "{trim:?}");
    }
}

/// *Bakery and Business Math*, ch. 25, has six of them: zucchini 95 %, green beans 88 %, broccoli 61 %, as the data file;
/// cauliflower 45 % (39), asparagus 56 % (53) and carrots without tops 82 % (89) otherwise. Where they disagree a range is
/// told, and a figure is a proposal, never more.
#[test]
fn where_two_sources_disagree_a_range_is_told() {
    for (name, second, told) in [
        ("Zucchini", "95", "95 %"),
        ("green beans", "88", "88 %"),
        ("broccoli", "61", "61 %"),
        ("cauliflower", "45", "39 % to 45 %"),
        ("asparagus", "56", "53 % to 56 %"),
        ("carrots", "82", "82 % to 89 %"),
    ] {
        let trim = trim_for(name).unwrap();
        assert_eq!(trim.second, Some(decimal(second)), "{name}");
        assert_eq!(trim.told(), told, "{name}");
        assert!(
            trim.sentence()
                .contains(&format!("{second} %: Bakery and Business Math"))
        );
    }
    let seconds = trims().iter().filter(|trim| trim.second.is_some());
    assert_eq!(seconds.count(), 6);
    assert_eq!(trim_for("leek").unwrap().told(), "44 %");
}

/// Weights of one piece ready to use, WEIGHT.txt of the same release: zucchini medium 196 g, red pepper medium
/// 119 g, tomato medium 123 g, a clove of garlic 3.0 g; as bought they are divided by the trim yield.
#[test]
fn one_piece_weighs_what_the_data_file_says() {
    for (name, ready, as_bought) in [
        ("courgette", "196", "206.3"),
        ("red pepper", "119", "145.1"),
        ("tomato", "123", "135.2"),
        ("garlic", "3.0", "3.4"),
    ] {
        let trim = trim_for(name).unwrap();
        assert_eq!(trim.piece_g, Some(decimal(ready)), "{name}");
        assert_eq!(
            written(trim.piece_as_bought_g().unwrap(), 1),
            as_bought,
            "{name}"
        );
    }
}

/// The international avoirdupois ounce and pound, in kilograms, as PyPI `pint` 0.25.3 has them.
#[test]
fn ounces_and_pounds_are_those_of_a_reference_library() {
    for (unit, kilos) in [
        (QuantityUnit::Ounce, "0.028349523125"),
        (QuantityUnit::Pound, "0.45359237"),
    ] {
        assert_eq!(unit.in_base(), decimal(kilos));
    }
}

/// A cup of lemon juice weighs 244 g (WEIGHT.txt, as above) and holds 236.588 ml (16 US tablespoons of 14.7868 ml,
/// from memory, not verified): 100 ml weigh 103.1 g, so 50 ml at 3.00 a kilo cost 0.1547.
#[test]
fn a_volume_meets_a_price_by_weight_through_its_density() {
    let juice = Bought {
        density: Some(decimal("1.0313")),
        ..bought("1", "3.00", Per::Kilo)
    };
    let line = PlateLine {
        name: "Lemon juice".into(),
        quantity: quantity("50", QuantityUnit::Millilitre),
        unit: QuantityUnit::Millilitre,
        source: Source::Bought(juice),
    };
    assert_eq!(written(line.cost().unwrap(), 4), "0.1547");
}
