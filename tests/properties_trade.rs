//! What must hold for any fish, price and text.
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
use scaleside::trade::breakdown::{Breakdown, DeliveryForm, Weights};
use scaleside::trade::mass::{self, Mass, Scale, Unit};
use scaleside::trade::money::{self, Currency, MassPrice, PriceUnit};
use scaleside::trade::plausible::plausible;
use scaleside::trade::published;
use scaleside::trade::reading::YieldReading;
use scaleside::trade::rounding;
use scaleside::trade::species::doubt;
use scaleside::trade::yields::{Trimming, YieldTest};

/// Any fish up to 100 kg with each weight no heavier than the one before.
fn any_fish() -> impl Strategy<Value = Breakdown> {
    (1..=100_000_000_i64)
        .prop_flat_map(|delivered| (Just(delivered), 1..=delivered))
        .prop_flat_map(|(delivered, off_bone)| {
            (Just(delivered), Just(off_bone), any::<bool>(), 1..=off_bone)
        })
        .prop_map(|(delivered, off_bone, weighed, ready)| {
            Breakdown::of(Weights {
                delivered: Mass::from_mg(delivered),
                off_bone: weighed.then_some(Mass::from_mg(off_bone)),
                ready: Mass::from_mg(ready),
            })
            .unwrap()
        })
}

fn any_price() -> impl Strategy<Value = MassPrice> {
    (
        1..=100_000_000_000_i64,
        prop::sample::select(PriceUnit::ALL.to_vec()),
    )
        .prop_map(|(amount, per)| {
            MassPrice::new(Decimal::new(amount, 4), Currency::Eur, per).unwrap()
        })
}

fn any_form() -> impl Strategy<Value = DeliveryForm> {
    prop::sample::select(DeliveryForm::ALL.to_vec())
}

fn close(got: Decimal, wanted: Decimal) -> bool {
    (got - wanted).abs() <= wanted.abs() * Decimal::new(1, 12)
}

proptest! {
    // A failing case is printed, and then belongs in a table of cases, not in a file of seeds.
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn losses_and_fillets_make_the_whole_fish(fish in any_fish(), form in any_form()) {
        let losses = fish.losses(form);
        let lost: i64 = losses.iter().map(|loss| loss.mass.mg()).sum();
        prop_assert_eq!(lost + fish.ready().mg(), fish.delivered().mg());
        prop_assert!(losses.iter().all(|loss| loss.mass >= Mass::ZERO));
        let shares: Decimal = losses.iter().map(|loss| loss.share).sum();
        prop_assert!(close(shares + fish.yield_ratio(), Decimal::ONE));
    }

    #[test]
    fn usable_cost_and_credit_make_what_was_paid(
        fish in any_fish(),
        price in any_price(),
        kept in 0_i64..=100,
        worth in 1_i64..=100,
        count in 1_u32..=40,
    ) {
        // A trimming that is some share of what was trimmed, at some share of the price of the fish.
        let mass = Mass::from_mg(fish.total_loss().mg() * kept / 100);
        let amount = rounding::half_away(price.amount() * Decimal::new(worth, 2), 4);
        let trimmings: Vec<Trimming> = MassPrice::new(amount, Currency::Eur, price.per())
            .ok()
            .filter(|_| mass > Mass::ZERO)
            .map(|price| Trimming { name: "frame".to_owned(), mass, price })
            .into_iter()
            .collect();
        let test = YieldTest::of(fish, price, &trimmings).unwrap();
        let paid = price.cost_of(fish.delivered()).amount;
        let net = test.net_cost().amount;
        prop_assert_eq!(test.cost_as_purchased().amount, paid);
        prop_assert!(close(net + test.credit().amount, paid));
        if price.per() == PriceUnit::Kilo {
            prop_assert_eq!(net + test.credit().amount, paid, "exact, not only close");
        }
        prop_assert!(close(test.cost_per_kilo().amount * fish.ready().in_kilos(), net));
        prop_assert!(close(test.cost_per_pound().amount * fish.ready().in_pounds(), net));
        prop_assert!(close(test.portion_cost(fish.ready()).amount, net));
        let equal = test.divided_into(count).unwrap();
        prop_assert!(close(equal.cost.amount * Decimal::from(count), net));
        prop_assert!((equal.mass.mg() * i64::from(count) - fish.ready().mg()).abs() <= i64::from(count));
        // Without a credit the factor is one over the yield; a credit only lowers it.
        prop_assert!(test.cost_factor() * test.yield_ratio() <= Decimal::ONE + Decimal::new(1, 12));
        if trimmings.is_empty() {
            prop_assert!(close(test.cost_factor() * test.yield_ratio(), Decimal::ONE));
        }
    }

    #[test]
    fn portions_and_what_is_left_make_the_fillets(
        fish in any_fish(),
        price in any_price(),
        portion in 1_i64..=1_000_000,
    ) {
        let test = YieldTest::of(fish, price, &[]).unwrap();
        let portion = Mass::from_mg(portion);
        let portions = test.portions(portion).unwrap();
        prop_assert_eq!(
            portions.count * portion.mg() + portions.left_over.mg(),
            fish.ready().mg()
        );
        if let Some(served) = test.served_portion_cost(portion) {
            // What is thrown away is paid for by what is served.
            prop_assert!(served.amount >= test.portion_cost(portion).amount * Decimal::new(999_999_999, 9));
        } else {
            prop_assert_eq!(portions.count, 0);
        }
    }

    #[test]
    fn a_yield_lies_within_its_own_band(
        fish in any_fish(),
        scale in prop::sample::select(Scale::CHOICES.to_vec()),
    ) {
        let reading = YieldReading::of(&fish, scale);
        let share: f64 = fish.yield_ratio().to_string().parse().unwrap();
        prop_assert!(reading.lowest <= share + 1e-12 && share <= reading.highest + 1e-12);
        prop_assert!(reading.standard > 0.0);
        prop_assert!(0.0 < reading.mostly() && reading.mostly() <= reading.at_most);
    }

    /// A scale that shows so much too much with each weight tells the same in the end.
    #[test]
    fn a_zero_that_is_told_moves_nothing(
        scale in prop::sample::select(Scale::CHOICES.to_vec()),
        steps in 300_i64..=10_000,
        zero in -20_i64..=20,
        times in 1_i64..=2,
    ) {
        let shown = |steps: i64| {
            let ounces = |hundredths: i64| format!("{}.{:02}", hundredths / 100, hundredths % 100);
            match scale {
                Scale::TENTH_OUNCE => mass::parse(&ounces(steps * 10), Unit::Ounce),
                Scale::QUARTER_OUNCE => mass::parse(&ounces(steps * 25), Unit::Ounce),
                Scale { division } => Ok(Mass::from_mg(division.mg() * steps)),
            }
        };
        let off = zero * times;
        let (true_one, read) = (shown(steps), shown(steps + off));
        prop_assume!(true_one.is_ok() && read.is_ok()); // a long run of ounces passes 100 kg
        let told = scale.less_zero(read.unwrap(), Mass::from_mg(zero * scale.division.mg()), times);
        prop_assert_eq!(told, true_one.unwrap());
        prop_assert!(scale.on_a_step(told));
    }

    #[test]
    fn what_is_shown_is_read_back_to_the_last_digit(mg in 1_000_i64..=100_000_000) {
        // The step of the last digit shown, in milligrams, halved and rounded up.
        for (unit, half_step) in [
            (Unit::Gram, 50),
            (Unit::Kilo, 500),
            (Unit::Ounce, 143),
            (Unit::PoundOunce, 143),
        ] {
            let shown = mass::show(Mass::from_mg(mg), unit);
            let read = mass::parse(&shown, unit).unwrap();
            prop_assert!((read.mg() - mg).abs() <= half_step, "{shown}: {read:?} and {mg}");
            prop_assert_eq!(mass::show(read, unit), shown, "a second showing changes nothing");
        }
    }

    #[test]
    fn a_mass_and_a_price_are_stored_and_read_back(mg in any::<i64>(), price in any_price()) {
        let mass = Mass::from_mg(mg);
        let stored = serde_json::to_string(&mass).unwrap();
        prop_assert_eq!(&stored, &mg.to_string());
        prop_assert_eq!(serde_json::from_str::<Mass>(&stored).unwrap(), mass);
        let stored = serde_json::to_string(&price).unwrap();
        prop_assert_eq!(serde_json::from_str::<MassPrice>(&stored).unwrap(), price);
    }

    #[test]
    fn every_reading_a_scale_can_show_is_on_a_step(
        scale in prop::sample::select(Scale::CHOICES.to_vec()),
        steps in 1_i64..=10_000,
    ) {
        let ounces = |hundredths: i64| format!("{}.{:02}", hundredths / 100, hundredths % 100);
        let mass = match scale {
            Scale::TENTH_OUNCE => mass::parse(&ounces(steps * 10), Unit::Ounce),
            Scale::QUARTER_OUNCE => mass::parse(&ounces(steps * 25), Unit::Ounce),
            Scale { division } => Ok(Mass::from_mg(division.mg() * steps)),
        };
        prop_assume!(mass.is_ok()); // a long run of ounces passes 100 kg
        prop_assert!(scale.on_a_step(mass.unwrap()));
    }

    #[test]
    fn no_text_breaks_a_field(text in any::<String>(), typed in "[-0-9., lboz\u{a0}]{0,24}") {
        for text in [text, typed] {
            for unit in Unit::ALL {
                if let Ok(mass) = mass::parse(&text, unit) {
                    prop_assert!(Mass::ZERO < mass && mass <= Mass::HEAVIEST, "{text:?}");
                }
            }
            if let Ok(amount) = money::parse_amount(&text) {
                prop_assert!(MassPrice::new(amount, Currency::Eur, PriceUnit::Kilo).is_ok());
            }
        }
    }

    #[test]
    fn no_stored_number_breaks_a_sum(
        weights in any::<[i64; 3]>(),
        division in any::<i64>(),
        key in prop::sample::select(vec!["cod", "", "no such fish"]),
        form in any_form(),
        price in any_price(),
    ) {
        let [delivered, off_bone, ready] = weights.map(Mass::from_mg);
        let scale = Scale { division: Mass::from_mg(division) };
        prop_assert!(scale.standard_uncertainty_mg() >= 0.0);
        prop_assert!(scale.on_a_step(Mass::ZERO) && !scale.name().is_empty());
        prop_assert!(division <= 0 || scale.on_a_step(scale.division));
        if let Some(odd) = doubt(delivered, key, form, Unit::PoundOunce) {
            let question = odd.to_string();
            prop_assert!(question.contains("light") != question.contains("heavy"));
        }
        let cost = price.cost_of(delivered);
        prop_assert_eq!(cost.show_fine().starts_with('\u{2212}'), rounding::half_away(cost.amount, 4) < Decimal::ZERO);
        prop_assert!(published::range_for(key, form).is_none_or(|range| range.low <= range.high));
        let weights = Weights { delivered, off_bone: Some(off_bone), ready };
        if let Ok(fish) = Breakdown::of(weights) {
            prop_assert!(!plausible(key, form, fish.yield_ratio()).sentence().is_empty());
            let reading = YieldReading::of(&fish, scale);
            prop_assert!(reading.standard.is_finite() && reading.lowest <= reading.highest);
            prop_assert!(reading.mostly() >= 0.0);
            let _ = scale.less_zero(delivered, Mass::from_mg(division), 7);
        }
    }
}
