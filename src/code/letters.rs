//! A code in the hand: written out, said aloud, sent as a link.

use std::fmt;

use super::refusals::NoCode;
use super::sheet::Sheet;
use super::{alphabet, layout, link, mend};
use crate::base::refusal::Refusal;

/// A whole code, check letters included.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Code(pub(super) Vec<u8>);

impl Code {
    /// The code of a sheet.
    ///
    /// # Errors
    /// A sentence when a reading is more than a code carries.
    pub fn of(sheet: &Sheet) -> Result<Self, Refusal> {
        let sealed = mend::seal(&layout::pack(sheet)?);
        sealed.map(Self).ok_or_else(|| NoCode::Length.into())
    }

    /// How many letters it has: 24 to 48.
    #[must_use]
    pub fn letters(&self) -> usize {
        self.0.len()
    }

    /// The words to say, one string a group: letters by the radiotelephony spelling alphabet.
    #[must_use]
    pub fn spoken(&self) -> Vec<String> {
        alphabet::spoken(&self.0)
    }

    /// The part of a link after the address: `#/c/` and the letters without hyphens.
    #[must_use]
    pub fn link(&self) -> String {
        link::compose(self.0.iter().copied().map(alphabet::letter))
    }
}

/// Written in groups of four, parted by hyphens.
impl fmt::Display for Code {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&alphabet::grouped(&self.0))
    }
}

#[cfg(test)]
mod tests {
    use rust_decimal::Decimal;

    use super::super::alphabet::GROUP;
    use super::super::opening::open;
    use super::super::sheet::{Student, sample};
    use super::*;
    use crate::trade::breakdown::Weights;
    use crate::trade::mass::{Mass, Scale};
    use crate::trade::money::{Currency, MassPrice, PriceUnit};

    #[test]
    fn one_fish_with_everything_takes_forty_letters_and_the_barest_twenty_four() {
        let several = Sheet {
            count: 32,
            ..sample::full()
        };
        for (sheet, letters) in [(sample::full(), 40), (sample::bare(), 24), (several, 44)] {
            let code = Code::of(&sheet).unwrap();
            assert_eq!(code.letters(), letters);
            let opened = open(&code.to_string()).unwrap();
            assert_eq!((&opened.sheet, opened.mending()), (&sheet, None));
            assert_eq!(code.spoken().len(), letters / GROUP);
        }
    }

    #[test]
    fn a_link_opens_as_the_code_does() {
        let code = Code::of(&sample::full()).unwrap();
        assert_eq!(code.link().len(), "#/c/".len() + 40);
        let opened = link::open_link(&code.link()).unwrap().unwrap();
        assert_eq!(opened.code, code);
    }

    /// The ninth fish of a student does not take the place of the eighth; the longest code is as long as it was.
    #[test]
    fn from_the_ninth_test_on_a_code_is_of_version_two() {
        let student = sample::full().student.unwrap();
        for (test, first) in [(1, '2'), (8, '2'), (9, '4'), (32, '4')] {
            let several = Sheet {
                student: Some(Student { test, ..student }),
                count: 32,
                ..sample::full()
            };
            let code = Code::of(&several).unwrap();
            assert_eq!(code.letters(), 44);
            // The first five bits are the version and whether there is an off-bone weight, masked by 1.
            let begins = code.to_string().chars().next().unwrap();
            assert!(
                begins == first || begins == char::from(first as u8 + 1),
                "{code}"
            );
            assert_eq!(open(&code.to_string()).unwrap().sheet, several);
        }
    }

    #[test]
    fn what_a_code_can_t_carry_is_refused() {
        let student = sample::full().student.unwrap();
        for (sheet, said) in [
            (
                Sheet {
                    portions: Some(64),
                    ..sample::full()
                },
                "1 to 63 portions",
            ),
            (
                Sheet {
                    portions: Some(0),
                    ..sample::full()
                },
                "1 to 63 portions",
            ),
            (
                Sheet {
                    count: 0,
                    ..sample::full()
                },
                "1 to 32 fish",
            ),
            (
                Sheet {
                    count: 33,
                    ..sample::full()
                },
                "1 to 32 fish",
            ),
            (
                Sheet {
                    student: Some(Student {
                        test: 33,
                        ..student
                    }),
                    ..sample::full()
                },
                "tests numbered 1 to 32",
            ),
            (
                Sheet {
                    student: Some(Student { test: 0, ..student }),
                    ..sample::full()
                },
                "tests numbered 1 to 32",
            ),
            (
                Sheet {
                    scale: Scale {
                        division: Mass::from_mg(3),
                    },
                    ..sample::full()
                },
                "scale's division",
            ),
            (
                Sheet {
                    weights: Weights {
                        delivered: Mass::from_mg(100_000_001),
                        ..sample::full().weights
                    },
                    ..sample::full()
                },
                "weight as heavy",
            ),
            (
                Sheet {
                    price: Some(
                        MassPrice::new(Decimal::new(12_345, 3), Currency::Eur, PriceUnit::Kilo)
                            .unwrap(),
                    ),
                    ..sample::full()
                },
                "too many figures",
            ),
        ] {
            let refusal = Code::of(&sheet).unwrap_err().to_string();
            assert!(refusal.contains(said), "{refusal}");
        }
    }
}
