//! One weight on the scale: keyed figure by figure, judged, then taken.

use serde::{Deserialize, Serialize};

use crate::base::refusal::Refusal;
use crate::trade::mass::{self, Mass, Scale, Unit};
use crate::trade::plausible::YieldVerdict;
use crate::trade::species::{OddOffBone, OddWeight};

/// The most figures a weight is keyed in.
const LONGEST: usize = 12;

/// The most weights that are added up, less one.
const MOST_ADDED: usize = 6;

/// Which of the three weighings of a fish.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Which {
    /// The fish as delivered.
    Whole,
    /// The fillets off the bone, untrimmed.
    OffBone,
    /// The fillets trimmed, raw, ready to cook.
    Ready,
    /// What came off the fillets: with them it makes the fish as delivered again, where its weight was wrong.
    Frame,
}

/// A key of the keypad.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Key {
    /// 0 to 9.
    Figure(u8),
    /// The decimal point.
    Point,
    /// The word between pounds and ounces.
    Pounds,
    /// What is keyed next is weighed beside what was keyed so far, and added to it.
    Plus,
    /// Takes the last figure back.
    Back,
    /// Takes all of them back.
    Clear,
}

/// What has been keyed for one weighing, as keyed, so that a reload loses no figure.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct ScaleReading {
    /// The figures as keyed.
    pub typed: String,
    /// The unit they are in.
    pub unit: Unit,
    /// Whether the cook has said that this is what the scale shows.
    pub taken: bool,
}

impl ScaleReading {
    /// An empty reading in `unit`.
    #[must_use]
    pub fn empty(unit: Unit) -> Self {
        Self {
            typed: String::new(),
            unit,
            taken: false,
        }
    }

    /// The mass as keyed, before what the empty scale shows is taken off: see [`super::record::Fish::mass`].
    ///
    /// # Errors
    /// The sentence for figures that are no weight.
    pub fn mass(&self) -> Result<Mass, Refusal> {
        mass::parse_sum(&self.typed, self.unit)
    }

    /// How many weights were added up.
    #[must_use]
    pub fn weights(&self) -> i64 {
        self.typed.split('+').fold(0, |all, _| all + 1)
    }

    /// Whether a scale can have shown it: each of the weights that were added up.
    #[must_use]
    pub fn is_on_a_step(&self, scale: Scale) -> bool {
        let mut parts = self.typed.split('+');
        parts.all(|part| mass::parse(part, self.unit).is_ok_and(|mass| scale.on_a_step(mass)))
    }

    /// The reading after one key. A key that makes no sense where it comes changes nothing.
    #[must_use]
    pub fn keyed(&self, key: Key) -> Self {
        let (before, last) = self
            .typed
            .rsplit_once('+')
            .map_or(("", self.typed.as_str()), |parts| parts);
        let mut typed = last.to_owned();
        match key {
            Key::Plus if mass::parse(last, self.unit).is_err() => return self.clone(),
            Key::Plus if before.matches('+').count() >= MOST_ADDED => return self.clone(),
            Key::Plus => typed = format!("{}+", last.trim_end()),
            Key::Back if last.is_empty() => {
                return Self {
                    typed: before.to_owned(),
                    unit: self.unit,
                    taken: false,
                };
            }
            Key::Figure(figure) => {
                let last = typed.rsplit(' ').next().unwrap_or_default();
                if last == "0" {
                    typed.pop();
                }
                typed.push(char::from(b'0'.saturating_add(figure.min(9))));
            }
            Key::Point => {
                let last = typed.rsplit(' ').next().unwrap_or_default();
                if !last.contains('.') {
                    if last.is_empty() {
                        typed.push('0');
                    }
                    typed.push('.');
                }
            }
            Key::Pounds => {
                if self.unit == Unit::PoundOunce && !typed.is_empty() && !typed.contains("lb") {
                    typed.push_str(" lb ");
                }
            }
            Key::Back => {
                if let Some(pounds) = typed.strip_suffix(" lb ") {
                    typed = pounds.to_owned();
                } else {
                    typed.pop();
                }
            }
            Key::Clear => return Self::empty(self.unit),
        }
        if typed.trim_end_matches('+').len() > LONGEST {
            return self.clone();
        }
        let typed = if before.is_empty() {
            typed
        } else {
            format!("{before}+{typed}")
        };
        Self {
            typed,
            unit: self.unit,
            taken: false,
        }
    }

    /// The reading in another unit: the same figures, unless pounds and ounces have to be put together.
    #[must_use]
    pub fn in_unit(&self, unit: Unit) -> Self {
        let typed = match (self.typed.contains("lb"), self.mass()) {
            (true, Ok(mass)) => mass::show(mass, unit)
                .trim_end_matches(unit.symbol())
                .trim()
                .to_owned(),
            (true, Err(_)) => String::new(),
            (false, _) => self.typed.clone(),
        };
        Self {
            typed,
            unit,
            taken: false,
        }
    }
}

/// What makes a weight worth asking about. Shown as a question to the cook.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Doubt {
    /// It leaves less for head and bones than any fish of the kind has.
    OffBone(OddOffBone),
    /// It is what one fillet of the two would weigh.
    HalfYield,
    /// It lies between two steps of this scale.
    BetweenSteps(Scale),
    /// The fish would be an odd one.
    OneFish(OddWeight),
    /// So many fish are on the scale, and each would be an odd one.
    EachOf(i64, OddWeight),
    /// The yield would be an odd one.
    Yield(YieldVerdict),
}

/// What may be behind an odd weight, so that one tap puts it right.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Remedy {
    /// Two fish are on the scale.
    TwoFish,
    /// The fish as delivered was weighed wrong: what came off the fillets is weighed too.
    HeadAndFrame,
    /// One of the fillets is not on the scale.
    OneFillet,
}

impl Doubt {
    /// What one tap puts right, where there is such a thing.
    #[must_use]
    pub fn remedy(&self) -> Option<Remedy> {
        match self {
            Self::OneFish(odd) if odd.may_be_two() => Some(Remedy::TwoFish),
            Self::OffBone(_) => Some(Remedy::HeadAndFrame),
            Self::HalfYield => Some(Remedy::OneFillet),
            _ => None,
        }
    }
}

/// What is to be said of a weight as keyed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Judgement {
    /// It can be taken.
    Fine(Mass),
    /// It can be taken once the cook has been asked about this.
    Doubt(Doubt),
    /// It can't be taken, and why.
    Wrong(Refusal),
}

#[cfg(test)]
mod tests {
    use super::{Key, ScaleReading};
    use crate::trade::mass::Unit;

    fn keyed(unit: Unit, keys: &[Key]) -> String {
        keys.iter()
            .fold(ScaleReading::empty(unit), |reading, key| {
                reading.keyed(*key)
            })
            .typed
    }

    #[test]
    fn keys_make_a_weight() {
        use Key::{Back, Clear, Figure, Point, Pounds};
        for (unit, keys, expect) in [
            (Unit::Gram, vec![Figure(6), Figure(4), Figure(8)], "648"),
            (Unit::Gram, vec![Figure(0), Figure(4)], "4"),
            (Unit::Gram, vec![Figure(6), Figure(4), Back], "6"),
            (Unit::Gram, vec![Back, Clear], ""),
            (Unit::Kilo, vec![Point, Figure(6), Point, Figure(4)], "0.64"),
            (Unit::Gram, vec![Figure(1), Pounds], "1"),
            (Unit::PoundOunce, vec![Pounds], ""),
            (
                Unit::PoundOunce,
                vec![Figure(1), Pounds, Figure(6), Point, Figure(5), Pounds],
                "1 lb 6.5",
            ),
            (Unit::PoundOunce, vec![Figure(1), Pounds, Back], "1"),
            (
                Unit::PoundOunce,
                vec![Figure(1), Pounds, Point, Figure(5)],
                "1 lb 0.5",
            ),
        ] {
            assert_eq!(keyed(unit, &keys), expect, "{keys:?}");
        }
    }

    /// Two fillets weighed one after the other.
    #[test]
    fn plus_adds_what_is_keyed_next() {
        use Key::{Back, Clear, Figure, Plus, Point, Pounds};
        for (unit, keys, expect) in [
            (Unit::Gram, vec![Plus], ""),
            (Unit::Gram, vec![Figure(0), Plus], "0"),
            (
                Unit::Gram,
                vec![Figure(7), Plus, Plus, Figure(0), Figure(8)],
                "7+8",
            ),
            (Unit::Gram, vec![Figure(7), Plus, Point, Figure(5)], "7+0.5"),
            (Unit::Gram, vec![Figure(7), Plus, Back], "7"),
            (
                Unit::Gram,
                vec![Figure(7), Plus, Figure(8), Back, Back, Back],
                "",
            ),
            (Unit::Gram, vec![Figure(7), Plus, Figure(8), Clear], ""),
            (
                Unit::PoundOunce,
                vec![Figure(1), Pounds, Plus, Figure(2), Pounds, Figure(3)],
                "1 lb+2 lb 3",
            ),
        ] {
            assert_eq!(keyed(unit, &keys), expect, "{keys:?}");
        }
        let sum = ScaleReading {
            typed: "151.5+150".to_owned(),
            unit: Unit::Gram,
            taken: true,
        };
        assert_eq!(sum.mass().unwrap().mg(), 301_500);
        let endless = keyed(Unit::Gram, &[Figure(7), Plus].repeat(40));
        assert_eq!(endless.matches('+').count(), 7);
        assert!(keyed(Unit::Gram, &[[Figure(7)].as_slice(), &[Plus]].concat()).ends_with('+'));
    }

    #[test]
    fn a_weight_too_long_to_be_one_stops_growing() {
        assert_eq!(keyed(Unit::Gram, &[Key::Figure(7); 40]).len(), 12);
    }
}
