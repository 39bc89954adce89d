//! What a code carries: the readings of one yield test, never the answers.

use std::collections::BTreeSet;
use std::fmt;

use super::day::Day;
use super::fish::SpeciesCode;
use super::refusals::NoCode;
use crate::base::filleted::{FilletAnswer, FilletAnswers, FilletQuestion};
use crate::base::kit::Kit;
use crate::base::refusal::Refusal;
use crate::trade::breakdown::{DeliveryForm, Weights};
use crate::trade::mass::Scale;
use crate::trade::money::MassPrice;

/// The readings of one yield test, as they travel. They need not make sense together: a tutor wants to
/// see the slip that was made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheet {
    /// The species.
    pub fish: SpeciesCode,
    /// The state it was bought in.
    pub form: DeliveryForm,
    /// The scale it was weighed on; one of [`super::grain::divisions`].
    pub scale: Scale,
    /// The three readings, the middle one if taken.
    pub weights: Weights,
    /// The price as purchased, if known.
    pub price: Option<MassPrice>,
    /// Portions wanted, 1 to 63, if given.
    pub portions: Option<u8>,
    /// Fish weighed together, 1 to 32.
    pub count: u8,
    /// Kit that was missing at the bench.
    pub missing: BTreeSet<Kit>,
    /// How the fillets were made.
    pub technique: Technique,
    /// The day of the test.
    pub day: Day,
    /// Whose test it is, if they say.
    pub student: Option<Student>,
    /// How the fillets were cooked, if they were.
    pub cooked: Option<Cooked>,
}

/// How the fillets were made, as far as it moves the yield.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Technique {
    /// Nobody was asked: what followed from the kit and the dish.
    Presumed {
        /// The skin was left on.
        skin_on: bool,
        /// The pin bones were cut out with a strip of flesh, not pulled.
        pin_bones_cut: bool,
    },
    /// What the cook said: at least one answer, and of pin bones and the fillets of a flat fish not both.
    Told(FilletAnswers),
}

impl Technique {
    /// What the cook said; nothing where nobody was asked.
    #[must_use]
    pub fn answers(self) -> FilletAnswers {
        match self {
            Self::Presumed { .. } => FilletAnswers::default(),
            Self::Told(answers) => answers,
        }
    }

    /// What the cook said of a question; nothing where it was not asked.
    #[must_use]
    pub fn told(self, question: FilletQuestion) -> Option<FilletAnswer> {
        self.answers().to(question)
    }
}

/// The most tests of one species that a student has numbers for.
pub const MOST_TESTS: u8 = 32;

/// Whose test it is: enough to put a correction in place of the first try, and no name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Student {
    /// Up to four letters the class agreed on.
    pub nickname: Nickname,
    /// Which of the student's tests of this species, from 1 to [`MOST_TESTS`]. A correction keeps the number.
    pub test: u8,
}

/// One to four letters A to Z.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Nickname(u32);

impl Nickname {
    /// How many nicknames there are: 26 + 26² + 26³ + 26⁴.
    pub const COUNT: u32 = 475_254;

    /// Reads a nickname in either case.
    ///
    /// # Errors
    /// A sentence when it is empty, longer than four letters, or has anything but A to Z.
    pub fn parse(text: &str) -> Result<Self, Refusal> {
        let text = text.trim();
        let letters = text.chars().count();
        let plain = text.chars().all(|c| c.is_ascii_alphabetic());
        if !(1..=4).contains(&letters) || !plain {
            return Err(NoCode::Nickname.into());
        }
        // Counted as a number whose digits run from 1 to 26, so that A and AA differ.
        let number = text.bytes().fold(0, |number, byte| {
            number * 26 + u32::from(byte.to_ascii_uppercase() - b'A') + 1
        });
        Ok(Self(number - 1))
    }

    /// The nickname with this number: A is 0, Z 25, AA 26; `None` from [`Nickname::COUNT`] on.
    #[must_use]
    pub fn numbered(number: u32) -> Option<Self> {
        (number < Self::COUNT).then_some(Self(number))
    }

    /// Its number.
    #[must_use]
    pub fn number(self) -> u32 {
        self.0
    }
}

impl fmt::Display for Nickname {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut letters = Vec::new();
        let mut left = self.0 + 1;
        while left > 0 {
            letters.push(('A'..='Z').nth(((left - 1) % 26) as usize).unwrap_or('A'));
            left = (left - 1) / 26;
        }
        letters.iter().rev().try_for_each(|c| write!(f, "{c}"))
    }
}

/// How the fillets were cooked. Times are kept to the step a code carries them in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Cooked {
    dish: u8,
    skin_side: u8,
    finish: u8,
    rest: u8,
}

impl Cooked {
    /// Seconds a step of the time skin side down, of the finish, and of the rest.
    const STEPS: [u32; 3] = [5, 5, 10];
    /// The most steps of each: 10 min 35 s, 5 min 15 s, 10 min 30 s.
    pub(super) const MOST: [u8; 3] = [127, 63, 63];

    /// Dish `dish` (0 to 15, 0 for one that has no number), the fillets so many seconds skin side down,
    /// finished in the pan's own heat, and rested; each to its nearest step.
    ///
    /// # Errors
    /// A sentence when the dish or a time is more than a code carries.
    pub fn of(
        dish: u8,
        skin_side_secs: u32,
        finish_secs: u32,
        rest_secs: u32,
    ) -> Result<Self, Refusal> {
        if dish > 15 {
            return Err(NoCode::Dish.into());
        }
        let mut steps = [0; 3];
        let secs = [skin_side_secs, finish_secs, rest_secs];
        for (((kept, secs), step), most) in
            steps.iter_mut().zip(secs).zip(Self::STEPS).zip(Self::MOST)
        {
            *kept = u8::try_from(secs.saturating_add(step / 2) / step)
                .ok()
                .filter(|steps| *steps <= most)
                .ok_or(NoCode::Times)?;
        }
        let [skin_side, finish, rest] = steps;
        Ok(Self {
            dish,
            skin_side,
            finish,
            rest,
        })
    }

    /// From the numbers of a code; the layout's field widths keep them in range.
    pub(super) fn in_steps(dish: u8, [skin_side, finish, rest]: [u8; 3]) -> Self {
        Self {
            dish,
            skin_side,
            finish,
            rest,
        }
    }

    pub(super) fn steps(self) -> [u8; 3] {
        [self.skin_side, self.finish, self.rest]
    }

    /// The dish's number, 0 for one that has none.
    #[must_use]
    pub fn dish(self) -> u8 {
        self.dish
    }

    /// Seconds skin side down, of the finish, and of the rest.
    #[must_use]
    pub fn secs(self) -> [u32; 3] {
        let [skin_side, finish, rest] = self.steps().map(u32::from);
        let [skin_step, finish_step, rest_step] = Self::STEPS;
        [
            skin_side * skin_step,
            finish * finish_step,
            rest * rest_step,
        ]
    }
}

#[cfg(test)]
pub(crate) mod sample {
    use rust_decimal::Decimal;

    use super::*;
    use crate::trade::mass::Mass;
    use crate::trade::money::{Currency, PriceUnit};

    /// One fish with everything filled in.
    pub(crate) fn full() -> Sheet {
        let grams = |g: i64| Mass::from_mg(g * 1_000);
        Sheet {
            fish: SpeciesCode::of_key("gilthead_bream"),
            form: DeliveryForm::GuttedScaled,
            scale: Scale::ONE_GRAM,
            weights: Weights {
                delivered: grams(648),
                off_bone: Some(grams(336)),
                ready: grams(302),
            },
            price: MassPrice::new(Decimal::new(1_540, 2), Currency::Eur, PriceUnit::Kilo).ok(),
            portions: Some(2),
            count: 1,
            missing: [
                Kit::Pliers,
                Kit::NonStickPan,
                Kit::FlexibleKnife,
                Kit::Probe,
            ]
            .into(),
            technique: Technique::Presumed {
                skin_on: true,
                pin_bones_cut: true,
            },
            day: Day::new(2_259).unwrap(),
            student: Some(Student {
                nickname: Nickname::parse("tern").unwrap(),
                test: 1,
            }),
            cooked: Cooked::of(1, 150, 60, 240).ok(),
        }
    }

    /// The least a sheet can hold.
    pub(crate) fn bare() -> Sheet {
        let mut sheet = Sheet {
            price: None,
            portions: None,
            student: None,
            cooked: None,
            missing: BTreeSet::new(),
            ..full()
        };
        sheet.weights.off_bone = None;
        sheet
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nicknames_are_counted_without_a_gap() {
        for (text, number) in [
            ("a", 0),
            ("Z", 25),
            ("AA", 26),
            ("zz", 701),
            ("AAA", 702),
            ("ZZZZ", 475_253),
        ] {
            let nickname = Nickname::parse(text).unwrap();
            assert_eq!(nickname.number(), number, "{text}");
            assert_eq!(nickname.to_string(), text.to_uppercase());
        }
        for text in ["", "abcde", "a1", "é", "a b"] {
            assert!(Nickname::parse(text).is_err(), "{text}");
        }
        assert_eq!(Nickname::numbered(Nickname::COUNT), None);
    }

    #[test]
    fn times_are_kept_to_their_steps() {
        for (given, kept) in [
            ([150, 60, 240], Ok([150, 60, 240])),
            ([152, 63, 244], Ok([150, 65, 240])),
            ([153, 2, 245], Ok([155, 0, 250])),
            ([635, 315, 630], Ok([635, 315, 630])),
            ([638, 0, 0], Err(())),
            ([0, 318, 0], Err(())),
            ([0, 0, 635], Err(())),
            ([u32::MAX, 0, 0], Err(())),
        ] {
            let [skin, finish, rest] = given;
            let cooked = Cooked::of(1, skin, finish, rest);
            assert_eq!(cooked.map(Cooked::secs).map_err(|_| ()), kept, "{given:?}");
        }
        assert!(Cooked::of(16, 0, 0, 0).is_err());
    }
}
