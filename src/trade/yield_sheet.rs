//! What a yield test says, line by line, as it stands on a cook's screen, on the card for the binder and before a tutor:
//! worded once, with one rule for the doubt.

use rust_decimal::Decimal;

use super::breakdown::{Breakdown, DeliveryForm};
use super::mass::{self, Mass, Scale, Unit};
use super::money::{Money, PriceUnit};
use super::reading::YieldReading;
use super::rounding;
use super::yields::YieldTest;

/// How a yield is worked out, in a cook's words.
pub const YIELD_IS: &str =
    "Yield is the edible portion, raw and ready to cook, divided by the weight as purchased.";
/// How the cost of a usable kilo and the cost factor are.
pub const COST_IS: &str = "Cost per usable kilo is what was paid, less what kept parts are worth, divided by the ready weight. The cost factor is that cost divided by the price.";
/// What the band of a yield covers.
pub const DOUBT_IS: &str = "The ± beside a yield is the most that the steps of your scale can put it off: each weight one step wrong, in opposite ways. Half of that step hides in what the scale shows with the fish on it, half in what it shows empty. It knows nothing of drip, of a tilted scale or of a tray left on it.";

/// One figure under its name, with what it rests on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Figure {
    /// What it is called.
    pub name: String,
    /// The figure itself.
    pub value: String,
    /// What stands small beside it.
    pub note: String,
}

/// One part of the fish: a line of where it went.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct YieldPart {
    /// What it is called.
    pub name: String,
    /// What it weighed.
    pub mass: String,
    /// Its share of the fish as delivered.
    pub share: String,
}

/// How the fillets are divided.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Portioning {
    /// Into so many equal portions.
    Equal(u32),
    /// Into portions of this weight.
    Weighing(Mass),
}

/// What is told of one fish, or of a batch weighed together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct YieldSheet {
    /// The yield with its doubt.
    pub gave: Figure,
    /// How far the scale can have put the yield off.
    pub doubt: Figure,
    /// What it cost; empty without a price.
    pub costs: Vec<Figure>,
    /// Where it went, from as delivered to ready to cook; empty while the form is not known.
    pub parts: Vec<YieldPart>,
}

fn figure(name: impl Into<String>, value: impl Into<String>, note: impl Into<String>) -> Figure {
    Figure {
        name: name.into(),
        value: value.into(),
        note: note.into(),
    }
}

impl YieldSheet {
    /// What the weights say, and the costs where there is a `test` with a price.
    #[must_use]
    pub fn of(
        breakdown: &Breakdown,
        form: Option<DeliveryForm>,
        scale: Scale,
        unit: Unit,
        test: Option<&YieldTest>,
    ) -> Self {
        let reading = YieldReading::of(breakdown, scale);
        let decimals = reading.percent_decimals();
        let from = form
            .map_or("as delivered", DeliveryForm::name)
            .to_ascii_lowercase();
        Self {
            gave: figure(
                format!("Yield from {from}"),
                rounding::percent(breakdown.yield_ratio(), decimals),
                format!(
                    "± {} at most: each weight up to {} off",
                    points(reading.at_most),
                    scale.name()
                ),
            ),
            doubt: figure(
                "What the scale can hide",
                format!("± {}", points(reading.at_most)),
                format!("19 times in 20 within {}", points(reading.mostly())),
            ),
            costs: test.map(costs).unwrap_or_default(),
            parts: form.map_or_else(Vec::new, |form| parts(breakdown, form, unit, decimals)),
        }
    }
}

impl YieldSheet {
    /// The same, said of one fillet of the two.
    #[must_use]
    pub fn of_one_fillet(mut self) -> Self {
        self.gave.name = self.gave.name.replacen("Yield", "Yield of one fillet", 1);
        self.gave
            .note
            .push_str("; never set beside a published yield, which counts both fillets");
        // The first of what was lost holds the fillet that was not weighed.
        if let Some(lost) = self.parts.get_mut(1) {
            lost.name.push_str(" and the other fillet");
        }
        for cost in &mut self.costs {
            if cost.name.starts_with("Usable") {
                cost.note.push_str("; all of it on one fillet");
            }
        }
        self
    }
}

/// A doubt of a yield in percentage points, rounded up, so that it is never said to be less than it is.
fn points(share: f64) -> String {
    let points = (share * 10_000.0).ceil() / 100.0;
    format!("{points:.2} points")
}

fn costs(test: &YieldTest) -> Vec<Figure> {
    let per = test.price().per();
    let other = match per {
        PriceUnit::Kilo => PriceUnit::Pound,
        PriceUnit::Pound => PriceUnit::Kilo,
    };
    let credit = test.credit();
    let kept = if credit.amount.is_zero() {
        "nothing kept is counted".to_owned()
    } else {
        format!("after {} for parts kept", credit.show())
    };
    vec![
        figure(
            format!("Cost per usable {}", per.name()),
            test.cost_per(per).show(),
            format!("{} a {}", test.cost_per(other).show(), other.symbol()),
        ),
        figure(
            "Cost factor",
            rounding::written(test.cost_factor(), 3),
            "times the price as purchased",
        ),
        figure("Paid", test.cost_as_purchased().show(), test.price().show()),
        figure("Usable fish cost", test.net_cost().show(), kept),
    ]
}

fn parts(breakdown: &Breakdown, form: DeliveryForm, unit: Unit, decimals: u32) -> Vec<YieldPart> {
    let part = |name: String, weight: Mass, share: Decimal| YieldPart {
        name,
        mass: mass::show(weight, unit),
        share: rounding::percent(share, decimals),
    };
    let first = part(
        "As delivered".to_owned(),
        breakdown.delivered(),
        Decimal::ONE,
    );
    let lost = breakdown.losses(form).into_iter();
    let lost = lost.map(|loss| part(format!("− {}", loss.name), loss.mass, loss.share));
    let last = part(
        "Ready to cook".to_owned(),
        breakdown.ready(),
        breakdown.yield_ratio(),
    );
    std::iter::once(first).chain(lost).chain([last]).collect()
}

impl Portioning {
    /// How many portions of which weight, and what one costs. Nothing where the fillets make none.
    #[must_use]
    pub fn figures(self, test: &YieldTest, unit: Unit) -> Vec<Figure> {
        match self {
            Self::Equal(count) => equal(count, test, unit),
            Self::Weighing(portion) => weighing(portion, test, unit),
        }
    }
}

fn equal(count: u32, test: &YieldTest, unit: Unit) -> Vec<Figure> {
    let Some(portion) = test.divided_into(count) else {
        return Vec::new();
    };
    let name = match count {
        1 => "One portion".to_owned(),
        count => format!("{count} equal portions"),
    };
    vec![figure(
        name,
        format!("{} each", mass::show(portion.mass, unit)),
        format!(
            "{} a portion{}",
            portion.cost.show(),
            why_not_paid(count, test, portion.cost)
        ),
    )]
}

/// Why so many portions at the cost shown do not come to what was paid, to the coin; nothing where they do.
fn why_not_paid(count: u32, test: &YieldTest, cost: Money) -> String {
    let (paid, net) = (test.cost_as_purchased(), test.net_cost());
    let credit = test.credit();
    let mut said = String::new();
    if !credit.amount.is_zero() {
        said = format!(", after {} for parts kept", credit.show());
    }
    let digits = cost.currency.minor_digits();
    let shown = rounding::half_away(cost.amount, digits).checked_mul(Decimal::from(count));
    let together = shown.map(|amount| Money { amount, ..cost });
    match together {
        Some(together) if together.show() != net.show() && credit.amount.is_zero() => {
            format!(
                ", rounded: {count} come to {}, and {} was paid",
                together.show(),
                paid.show()
            )
        }
        Some(together) if together.show() != net.show() => {
            format!("{said}, rounded: {count} come to {}", together.show())
        }
        _ => said,
    }
}

fn weighing(portion: Mass, test: &YieldTest, unit: Unit) -> Vec<Figure> {
    let Some(portions) = test.portions(portion) else {
        return Vec::new();
    };
    let served = test.served_portion_cost(portion);
    let count = figure(
        format!("Portions of {}", mass::show(portion, unit)),
        portions.count.to_string(),
        format!("{} left over", mass::show(portions.left_over, unit)),
    );
    let one = figure(
        "Cost of the fish in one",
        test.portion_cost(portion).show(),
        "the rest is used elsewhere",
    );
    let served = served.map(|served| {
        figure(
            "Cost of each one served",
            served.show(),
            "the rest is not used",
        )
    });
    [count, one].into_iter().chain(served).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trade::breakdown::Weights;
    use crate::trade::money::{Currency, MassPrice};

    /// The demonstration's bream: 648 g at 15.40 a kilo gave 302 g. Worked by hand.
    #[test]
    fn a_yield_test_is_told_line_by_line() {
        let g = |grams: i64| Mass::from_mg(grams * 1000);
        let weights = Weights {
            delivered: g(648),
            off_bone: Some(g(336)),
            ready: g(302),
        };
        let breakdown = Breakdown::of(weights).unwrap();
        let price = MassPrice::new(Decimal::new(1540, 2), Currency::Eur, PriceUnit::Kilo).unwrap();
        let test = YieldTest::of(breakdown, price, &[]).unwrap();
        let form = Some(DeliveryForm::GuttedScaled);
        let sheet = YieldSheet::of(&breakdown, form, Scale::ONE_GRAM, Unit::Gram, Some(&test));
        let told = |figure: &Figure| format!("{} {} {}", figure.name, figure.value, figure.note);
        assert!(told(&sheet.gave).starts_with(
            "Yield from gutted and scaled 46.6 % ± 0.23 points at most: each weight up to 1 g off"
        ));
        let costs: Vec<String> = sheet.costs.iter().map(told).collect();
        assert_eq!(costs[0], "Cost per usable kilo €33.04 €14.99 a lb");
        assert_eq!(costs[1], "Cost factor 2.146 times the price as purchased");
        assert_eq!(costs[3], "Usable fish cost €9.98 nothing kept is counted");
        let parts: Vec<String> = (sheet.parts.iter())
            .map(|part| format!("{}: {}, {}", part.name, part.mass, part.share))
            .collect();
        assert_eq!(
            (parts.len(), parts[0].as_str()),
            (4, "As delivered: 648 g, 100.0 %")
        );
        assert!(
            parts[1].ends_with("312 g, 48.1 %") && parts[2].ends_with("34 g, 5.2 %"),
            "{parts:?}"
        );
        let equal = Portioning::Equal(2).figures(&test, Unit::Gram);
        assert_eq!(
            told(&equal[0]),
            "2 equal portions 151 g each €4.99 a portion"
        );
        // 9.9792 in three is 3.3264, and three of 3.33 are 9.99.
        let three = Portioning::Equal(3).figures(&test, Unit::Gram);
        assert_eq!(
            three[0].note,
            "€3.33 a portion, rounded: 3 come to €9.99, and €9.98 was paid"
        );
        let one = sheet.clone().of_one_fillet();
        assert!(told(&one.gave).starts_with("Yield of one fillet from gutted and scaled 46.6 %"));
        assert!(one.gave.note.contains("never set beside a published yield"));
        assert_eq!(
            one.parts[1].name,
            "− head, bones and trimmings and the other fillet"
        );
        let weighed = Portioning::Weighing(g(140)).figures(&test, Unit::Gram);
        let weighed: Vec<String> = weighed.iter().map(told).collect();
        assert_eq!(weighed[0], "Portions of 140 g 2 22 g left over");
        assert_eq!(
            weighed[1],
            "Cost of the fish in one €4.63 the rest is used elsewhere"
        );
        assert_eq!(
            weighed[2],
            "Cost of each one served €4.99 the rest is not used"
        );
        // Without a price, and before the form is known, the weights still say what they can.
        let bare = YieldSheet::of(&breakdown, None, Scale::ONE_GRAM, Unit::Gram, None);
        assert_eq!(bare.gave.name, "Yield from as delivered");
        assert!(bare.costs.is_empty() && bare.parts.is_empty());
    }
}
