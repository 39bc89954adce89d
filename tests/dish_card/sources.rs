//! Where a line takes its cost from: a part made ahead, a fish of one's own, the published range.

use rust_decimal::Decimal;
use scaleside::cards::exchange;
use scaleside::cards::ingredient::{Ingredient, Origin, PricedBy};
use scaleside::cards::larder;
use scaleside::cards::larder::{CardField, Larder, LineField};
use scaleside::cards::purchase::careful_yield;
use scaleside::cards::recipe::Recipe;
use scaleside::fish::demo;
use scaleside::fish::record::Kept;
use scaleside::fish::settings::Settings;
use scaleside::trade::breakdown::DeliveryForm;
use scaleside::trade::mass::Unit;
use scaleside::trade::money::{Currency, PriceUnit};
use scaleside::trade::outlook::Outlook;
use scaleside::trade::plate::allergens::AllergenList;
use scaleside::trade::plate::line::LineGroup;
use scaleside::trade::plate::order::{Buy, order};
use scaleside::trade::plate::plate::{Plate, ends};
use scaleside::trade::plate::units::QuantityUnit;
use scaleside::trade::rounding::written;

use crate::phone::{NOW, Phone, bream, demo_phone, dish, leek, part, uses};

#[test]
fn a_part_that_contains_itself_is_refused_in_one_sentence() {
    let itself = Phone::of([("a", part("100", vec![uses("a", "10")]))]);
    let round = Phone::of([
        ("a", part("100", vec![leek(), uses("b", "10")])),
        ("b", part("100", vec![uses("c", "10")])),
        ("c", part("100", vec![uses("a", "10")])),
    ]);
    for (phone, line) in [(itself, 0), (round, 1)] {
        let said = phone
            .read("a")
            .said(CardField::Line(line, LineField::Origin))
            .unwrap();
        assert!(said.contains("would contain itself"), "{said}");
    }
    // The same part twice is no circle.
    let twice = Phone::of([
        ("sauce", part("100", vec![leek()])),
        (
            "plate",
            dish(vec![uses("sauce", "10"), uses("sauce", "20")]),
        ),
    ]);
    assert!(twice.read("plate").faults.is_empty());
}

/// Worked by hand: 60 g of 100 g made; the lines of the sauce cost 0.2 / 0.44 × 3.30 = 1.50, so 0.90 for
/// two covers.
#[test]
fn parts_that_multiply_or_never_end_are_refused_in_one_sentence_each() {
    // Five cards, each made of sixty of the next: 777 million lines, were they all read.
    let names = ["dish", "one", "two", "three", "four", "five"];
    let mut phone = Phone::of([
        ("five", part("100", vec![leek()])),
        ("sauce", part("100", vec![leek()])),
    ]);
    for pair in names.windows(2) {
        let lines = (0..60).map(|_| uses(pair[1], "1")).collect();
        phone.cards.insert(pair[0].into(), part("60", lines));
    }
    let dish = phone.cards.get_mut("dish").unwrap();
    dish.lines.push(uses("sauce", "10"));
    let reading = phone.read("dish");
    assert_eq!(reading.places, [60], "the sauce is read beside them");
    assert_eq!(reading.open_lines(), 60);
    for (_, refusal) in &reading.faults {
        let said = refusal.to_string();
        assert!(said.contains("too many parts in parts"), "{said}");
        assert!(!said.contains("not finished"), "said once: {said}");
    }
    let written = phone.with(|larder| exchange::write("dish", &phone.cards["dish"], larder));
    assert!(written.len() < 100_000, "{}", written.len());

    // A chain of parts in parts that would run out of stack.
    let ids: Vec<String> = (0..5_000).map(|nth| format!("part-{nth}")).collect();
    let card = |id: &str| {
        let nth: usize = id.strip_prefix("part-")?.parse().ok()?;
        Some(part("100", vec![uses(ids.get(nth + 1)?, "50")]))
    };
    let larder = Larder {
        fish: &|_| None,
        card: &card,
        careful: &|_| None,
        list: AllergenList::default(),
    };
    let first = card("part-0").unwrap();
    let reading = larder::read("part-0", &first, larder);
    assert_eq!(reading.open_lines(), 1);
    assert!(
        reading.faults[0]
            .1
            .to_string()
            .contains("too many parts in parts")
    );
}

#[test]
fn as_many_parts_in_parts_as_a_kitchen_has_are_read() {
    let ids: Vec<String> = (0..9).map(|nth| format!("part-{nth}")).collect();
    let card = |id: &str| {
        let nth: usize = id.strip_prefix("part-")?.parse().ok()?;
        let inner = ids.get(nth + 1).map(|next| uses(next, "50"));
        Some(part("100", vec![inner.unwrap_or_else(leek)]))
    };
    let larder = Larder {
        fish: &|_| None,
        card: &card,
        careful: &|_| None,
        list: AllergenList::default(),
    };
    let reading = larder::read("part-0", &card("part-0").unwrap(), larder);
    assert_eq!(reading.faults, vec![]);
}

#[test]
fn a_part_is_carried_in_by_the_quantity_used() {
    let phone = Phone::of([
        ("sauce", part("100", vec![leek()])),
        ("plate", dish(vec![uses("sauce", "60")])),
    ]);
    assert_eq!(written(phone.cost_of_a_cover("plate"), 10), "0.4500000000");
    for (used, unit, made, said) in [
        (
            "60",
            QuantityUnit::Millilitre,
            QuantityUnit::Gram,
            "made by weight",
        ),
        (
            "60",
            QuantityUnit::Gram,
            QuantityUnit::Piece,
            "made by pieces",
        ),
    ] {
        let mut phone = phone.clone();
        phone.cards.get_mut("sauce").unwrap().makes_unit = made;
        let line = Ingredient {
            unit,
            ..uses("sauce", used)
        };
        phone.cards.insert("plate".into(), dish(vec![line]));
        let sentence = phone
            .read("plate")
            .said(CardField::Line(0, LineField::Quantity))
            .unwrap();
        assert!(sentence.contains(said), "{sentence}");
    }
    let mut phone = phone;
    phone.cards.get_mut("sauce").unwrap().currency = Currency::Gbp;
    let said = phone
        .read("plate")
        .said(CardField::Line(0, LineField::Origin))
        .unwrap();
    assert!(said.contains("one currency"), "{said}");
}

/// The demo's fish: 648 g at 15.40 a kilo gave 302 g; 300 g of it cost 0.300 ÷ (302/648) × 15.40, by hand
/// 9.91311…, half of it a cover.
#[test]
fn a_fish_of_ones_own_brings_its_yield_its_price_and_its_size() {
    let line = Ingredient {
        quantity: "300".into(),
        origin: Origin::OwnFish("f".into()),
        ..Ingredient::default()
    };
    let mut phone = Phone::of([("plate", dish(vec![line.clone()]))]);
    phone.fish.insert("f".into(), bream("f"));
    assert_eq!(written(phone.cost_of_a_cover("plate"), 5), "4.95656");
    let reading = phone.read("plate");
    assert_eq!(reading.preparation.lines[0].name, "Gilthead bream");
    let list = order(&reading.preparation, 24, Decimal::ZERO).unwrap();
    let bought = &list.groups[0].1[0];
    assert!(matches!(&bought.buy, Buy::Fish(12, each) if each.show(QuantityUnit::Gram) == "648 g"));
    assert!(
        bought.why.contains("2 whole portions of 150 g"),
        "{}",
        bought.why
    );

    let dearer = Ingredient {
        price: "20.00".into(),
        per: Some(PricedBy::Kilo),
        ..line.clone()
    };
    phone.cards.insert("plate".into(), dish(vec![dearer]));
    assert_eq!(written(phone.cost_of_a_cover("plate"), 4), "6.4371");

    let card = Recipe {
        currency: Currency::Usd,
        ..dish(vec![line])
    };
    phone.cards.insert("plate".into(), card);
    let said = phone
        .read("plate")
        .said(CardField::Line(0, LineField::Price))
        .unwrap();
    assert!(said.contains("paid in EUR"), "{said}");
    let unweighed = demo::bream("f".into(), NOW, &Settings::default());
    phone.fish.insert("f".into(), unweighed);
    let said = phone
        .read("plate")
        .said(CardField::Line(0, LineField::Origin))
        .unwrap();
    assert!(said.contains("Weigh this fish"), "{said}");
}

/// The published beef rib with credits, as quoted in a lecture summary of Dittmer & Keefe: 28 lb for 36.40, parts
/// kept worth 8.00, 16 lb left at 1.775 a pound. A plate with a pound of it bears the same, at another day's price the
/// credit stays what it was, and an order is paid in full.
#[test]
fn parts_kept_of_a_fish_are_taken_off_the_plate_and_not_off_the_order() {
    let mut rib = bream("f");
    rib.slip.price = "1.30".into();
    rib.slip.per = PriceUnit::Pound;
    for (reading, typed) in [(&mut rib.whole, "28 lb"), (&mut rib.ready, "16 lb")] {
        reading.typed = typed.into();
        reading.unit = Unit::PoundOunce;
    }
    rib.kept = [("3 lb", "0.10"), ("4 lb", "0.30"), ("5 lb", "1.30")]
        .map(|(weight, price)| Kept {
            id: String::new(),
            name: "Part".into(),
            weight: weight.into(),
            price: price.into(),
        })
        .into();
    let line = Ingredient {
        quantity: "2".into(),
        unit: QuantityUnit::Pound,
        origin: Origin::OwnFish("f".into()),
        ..Ingredient::default()
    };
    let mut phone = Phone::of([("plate", dish(vec![line.clone()]))]);
    phone.fish.insert("f".into(), rib);
    assert_eq!(written(phone.cost_of_a_cover("plate"), 5), "1.77500");
    let preparation = phone.read("plate").preparation;
    let sum = preparation.lines[0].sum();
    assert!(
        sum.ends_with("at €1.30 per lb, less €1.00 for parts kept"),
        "{sum}"
    );
    // One whole rib, at what is asked for it.
    let list = order(&preparation, 2, Decimal::ZERO).unwrap();
    assert_eq!(written(list.groups[0].1[0].cost, 2), "36.40");

    for (price, cover) in [("2.60", "4.05000"), ("0.20", "0.00000")] {
        let other_day = Ingredient {
            price: price.into(),
            per: Some(PricedBy::Pound),
            ..line.clone()
        };
        phone.cards.insert("plate".into(), dish(vec![other_day]));
        assert_eq!(written(phone.cost_of_a_cover("plate"), 5), cover);
    }
}

/// Yields of 44, 46 and 48 %: x̄ 46, s 2; t(2) at 0.90 is 1.886 in printed tables, so the low end for a new
/// fish is 46 − 1.886 × 2 × √(4/3) = 41.64 %.
#[test]
fn three_fish_of_ones_own_make_the_order_careful() {
    let outlook = Outlook::of_yields(&[0.44, 0.46, 0.48]).unwrap();
    let (low, words) = careful_yield(&outlook).unwrap();
    assert_eq!(low.to_string(), "0.4164");
    assert!(
        words.contains("your 3 fish") && words.contains("Student's t"),
        "{words}"
    );

    let line = Ingredient {
        quantity: "300".into(),
        origin: Origin::OwnFish("f".into()),
        ..Ingredient::default()
    };
    let mut phone = Phone::of([("plate", dish(vec![line]))]);
    phone.fish.insert("f".into(), bream("f"));
    let larder = Larder {
        fish: &|id| phone.fish.get(id).cloned(),
        card: &|_| None,
        careful: &|_| careful_yield(&outlook),
        list: AllergenList::default(),
    };
    let reading = larder::read("plate", &phone.cards["plate"], larder);
    // 26.98 % of 648 g is one portion of 150 g, where 46.6 % were two.
    let list = order(&reading.preparation, 24, Decimal::ZERO).unwrap();
    let bought = &list.groups[0].1[0];
    assert!(matches!(bought.buy, Buy::Fish(24, _)), "{:?}", bought.buy);
    assert!(bought.why.contains("Student's t"), "{}", bought.why);
}

#[test]
fn a_published_yield_costs_between_its_ends() {
    let line = Ingredient {
        name: "Bream".into(),
        quantity: "300".into(),
        price: "15.40".into(),
        per: Some(PricedBy::Kilo),
        origin: Origin::PublishedFish("gilthead_bream".into(), DeliveryForm::Whole),
        ..Ingredient::default()
    };
    let reading = Phone::of([("plate", dish(vec![line]))]).read("plate");
    let (least, most) = ends(&reading.preparation).unwrap().unwrap();
    let middle = Plate::of(&reading.preparation).unwrap().per_cover();
    assert!(least.amount < middle.amount && middle.amount < most.amount);
    // 0.150 × 15.40 / 0.471, the lower end of the published range.
    assert_eq!(written(most.amount, 4), "4.9045");
}

#[test]
fn the_demo_is_whole_and_marked() {
    let phone = demo_phone();
    for (id, cost) in [("sauce", "2.86"), ("plate", "7.54")] {
        assert!(phone.cards[id].demo);
        assert_eq!(written(phone.cost_of_a_cover(id), 2), cost);
    }
    let list = order(&phone.read("plate").preparation, 24, Decimal::new(5, 2)).unwrap();
    assert_eq!((list.covers, list.planned), (24, 26));
    let groups: Vec<LineGroup> = list.groups.iter().map(|(group, _)| *group).collect();
    assert_eq!(
        groups,
        [LineGroup::Fish, LineGroup::Vegetables, LineGroup::DryStore]
    );
}

/// 2 × 0.200 ÷ 0.44 kg, in the dish and in its sauce, are bought as one.
#[test]
fn the_same_thing_in_two_places_is_bought_once() {
    let dearer = Ingredient {
        price: "4.00".into(),
        ..leek()
    };
    for (second, bought) in [(leek(), vec!["910 g"]), (dearer, vec!["460 g", "460 g"])] {
        let phone = Phone::of([
            ("sauce", part("100", vec![second])),
            ("plate", dish(vec![leek(), uses("sauce", "100")])),
        ]);
        let list = order(&phone.read("plate").preparation, 2, Decimal::ZERO).unwrap();
        assert_eq!(list.groups.len(), 1);
        let lines = list.groups[0].1.iter();
        let shown: Vec<String> = lines.map(|line| line.buy.show(line.unit)).collect();
        assert_eq!(shown, bought);
    }
}
