//! Where each reading stands in a code, versions 1 and 2. Another program can be written from this page, `mend`
//! (check letters) and `alphabet`.
//!
//! Whole numbers follow one another most significant bit first, five bits a letter:
//!
//! | bits | field | value |
//! |-----:|-------|-------|
//! | 4 | version | 1, or 2; the first field of every version |
//! | 5 | present | one bit each: off the bone, price, student, cooked, several fish |
//! | 7 | fish | number of the species in `fish`; 0 for another |
//! | 3 | form | 0 whole, 1 gutted, 2 gutted and scaled, 3 headed and gutted |
//! | 4 | division | the scale's: 0 to 8 for 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50 g; 9 and 10 for 0.1 and 0.25 oz |
//! | 2 | grain | how weights are counted: 0, 1, 2 in scale steps of 11, 15, 20 bits; 3 in 10 mg, 22 bits |
//! | w | delivered | weight as delivered, w bits by the grain; no weight is over 100 kg |
//! | w | ready | weight ready to cook |
//! | w | off the bone | if present |
//! | 6 | portions | wanted, 1 to 63; 0 not given |
//! | 5 | kit missing | one bit each: pliers, non-stick pan, flexible knife, probe, fine grater |
//! | 2 | technique | one bit each: skin left on, pin bones cut out |
//! | 14 | day | days since 2020-01-01 |
//! | 17 | price figure | if price is present, as are the next three |
//! | 2 | price power | the figure counts hundredths, tenths, units or hundreds of the currency |
//! | 1 | price per | 0 kilogram, 1 avoirdupois pound |
//! | 10 | currency | its ISO 4217 number |
//! | 22 | student | if present: 8 × nickname + (test − 1); nicknames A, B … Z, AA … ZZZZ from 0, tests 1 to 8 |
//! | 24 | student | instead, in version 2: 32 × nickname + (test − 1), tests 1 to 32 |
//! | 4 | dish | if cooked is present, as are the next three: its number, 0 for none |
//! | 7 | skin side | in steps of 5 s |
//! | 6 | finish | in steps of 5 s |
//! | 6 | rest | in steps of 10 s |
//! | 5 | fish together | if several: their number less one, 1 to 31 |
//!
//! Version 2 is written for tests from 9 on, and for no others: an app that knows only version 1 opens all the rest.
//!
//! Zero bits fill the last letter, and letters of zero make the whole, checks included, a multiple of four.
//! One fish with everything filled in, up to 2047 scale steps, takes 160 bits: 40 letters. The barest takes
//! 74 bits, 24 letters; the longest 200 bits, 48 letters.
//!
//! Each sheet has one code: the smallest grain, the finest power of ten that holds the price, and zeros
//! where nothing is. Any other spelling of the same readings is refused, which also catches most of the
//! words that only look like a code.

use std::collections::BTreeSet;

use super::alphabet::GROUP;
use super::bits::{BitReader, BitWriter, Ended, TooWide};
use super::day::Day;
use super::fish::SpeciesCode;
use super::grain::{self, Grained};
use super::mend::CHECKS;
use super::price::{self, Priced};
use super::refusals::NoCode;
use super::sheet::{Cooked, MOST_TESTS, Nickname, Sheet, Student, Technique};
use super::unopened::Unopened;
use crate::base::kit::Kit;
use crate::base::refusal::Refusal;
use crate::trade::breakdown::DeliveryForm;
use crate::trade::money::MassPrice;

/// The latest version of the layout.
pub const VERSION: u8 = 2;

/// How many tests of a species a student has a number for, in each version.
const TESTS: [u8; 2] = [8, MOST_TESTS];
/// The bits of a student, in each version.
const STUDENT: [u32; 2] = [22, 24];

/// Kit in the order of its bits.
const KIT: [Kit; 5] = [
    Kit::Pliers,
    Kit::NonStickPan,
    Kit::FlexibleKnife,
    Kit::Probe,
    Kit::FineGrater,
];

/// Forms in the order of their numbers.
const FORMS: [DeliveryForm; 4] = [
    DeliveryForm::Whole,
    DeliveryForm::Gutted,
    DeliveryForm::GuttedScaled,
    DeliveryForm::HeadedGutted,
];

/// The letters, as values, that carry `sheet`, without the check letters.
///
/// # Errors
/// A sentence when a reading is more than a code carries.
pub(super) fn pack(sheet: &Sheet) -> Result<Vec<u8>, Refusal> {
    let division = grain::number(sheet.scale).ok_or(NoCode::Division)?;
    let weights = grain::grained(sheet.weights, sheet.scale).ok_or(NoCode::Weight)?;
    let price = match sheet.price {
        Some(price) => Some(price::priced(price).ok_or(NoCode::Price)?),
        None => None,
    };
    if sheet.portions == Some(0) || !(1..=32).contains(&sheet.count) {
        return Err(NoCode::Counts.into());
    }
    if sheet
        .student
        .is_some_and(|student| version(Some(student)).is_none() || student.test == 0)
    {
        return Err(NoCode::Test.into());
    }
    let mut writer = BitWriter::default();
    write(sheet, division, weights, price, &mut writer).map_err(|TooWide| NoCode::Counts)?;
    let mut symbols = writer.symbols();
    while !(symbols.len() + CHECKS).is_multiple_of(GROUP) {
        symbols.push(0);
    }
    Ok(symbols)
}

/// The first version that has room for a student's test, or for none.
fn version(student: Option<Student>) -> Option<u8> {
    let test = student.map_or(0, |student| student.test);
    let mut versions = (1..).zip(TESTS);
    versions
        .find(|(_, tests)| test <= *tests)
        .map(|(version, _)| version)
}

/// The tests that have numbers, and the bits of a student.
fn of_student(version: u8) -> Option<(u32, u32)> {
    let nth = usize::from(version.checked_sub(1)?);
    Some((u32::from(*TESTS.get(nth)?), *STUDENT.get(nth)?))
}

fn write(
    sheet: &Sheet,
    division: u8,
    weights: Grained,
    price: Option<Priced>,
    writer: &mut BitWriter,
) -> Result<(), TooWide> {
    let several = sheet.count > 1;
    let form = (0..).zip(FORMS).find(|(_, form)| *form == sheet.form);
    let width = grain::width(weights.grain).ok_or(TooWide)?;
    let version = version(sheet.student).ok_or(TooWide)?;
    writer.put(u32::from(version), 4)?;
    for present in [
        weights.off_bone.is_some(),
        price.is_some(),
        sheet.student.is_some(),
        sheet.cooked.is_some(),
        several,
    ] {
        writer.put(u32::from(present), 1)?;
    }
    writer.put(u32::from(sheet.fish.number()), 7)?;
    writer.put(form.map_or(0, |(number, _)| number), 3)?;
    writer.put(u32::from(division), 4)?;
    writer.put(u32::from(weights.grain), 2)?;
    writer.put(weights.delivered, width)?;
    writer.put(weights.ready, width)?;
    if let Some(off_bone) = weights.off_bone {
        writer.put(off_bone, width)?;
    }
    writer.put(sheet.portions.map_or(0, u32::from), 6)?;
    for kit in KIT {
        writer.put(u32::from(sheet.missing.contains(&kit)), 1)?;
    }
    writer.put(u32::from(sheet.technique.skin_on), 1)?;
    writer.put(u32::from(sheet.technique.pin_bones_cut), 1)?;
    writer.put(u32::from(sheet.day.number()), 14)?;
    if let Some(price) = price {
        writer.put(price.figure, 17)?;
        writer.put(u32::from(price.power), 2)?;
        writer.put(u32::from(price.per_pound), 1)?;
        writer.put(u32::from(price.currency), 10)?;
    }
    if let Some(student) = sheet.student {
        let test = u32::from(student.test).checked_sub(1).ok_or(TooWide)?;
        let (tests, width) = of_student(version).ok_or(TooWide)?;
        writer.put(student.nickname.number() * tests + test, width)?;
    }
    if let Some(cooked) = sheet.cooked {
        writer.put(u32::from(cooked.dish()), 4)?;
        for (steps, width) in cooked.steps().into_iter().zip([7, 6, 6]) {
            writer.put(u32::from(steps), width)?;
        }
    }
    if several {
        writer.put(u32::from(sheet.count) - 1, 5)?;
    }
    Ok(())
}

/// The sheet behind the carried letters of a word that holds.
///
/// # Errors
/// [`Unopened::FutureVersion`], [`Unopened::Newer`] or [`Unopened::OutOfRange`].
pub(super) fn unpack(carried: &[u8]) -> Result<Sheet, Unopened> {
    let mut reader = BitReader::new(carried);
    let version = number(&mut reader, 4).map_err(|Ended| Unopened::OutOfRange("length"))?;
    match version {
        0 => Err(Unopened::OutOfRange("version")),
        1..=VERSION => {
            let sheet = sheet_of(&mut reader, version)?;
            match pack(&sheet) {
                Ok(spelling) if spelling == carried => Ok(sheet),
                _ => Err(Unopened::OutOfRange("spelling")),
            }
        }
        later => Err(Unopened::FutureVersion(later)),
    }
}

/// Whether a code of these versions can begin with these letters, as read: its version, species, form and scale. One in
/// two hundred other texts can.
pub(super) fn may_begin(read: &[u8]) -> bool {
    let masks = [1, 2, 4, 8, 16];
    let bits = read.iter().zip(masks).fold(0_u32, |bits, (letter, mask)| {
        bits << 5 | u32::from(letter ^ mask)
    });
    let field = |from: u32, width: u32| {
        u8::try_from(bits >> (25 - from - width) & ((1 << width) - 1)).unwrap_or(u8::MAX)
    };
    read.len() >= masks.len()
        && (1..=VERSION).contains(&field(0, 4))
        && SpeciesCode::numbered(field(9, 7)).is_some()
        && usize::from(field(16, 3)) < FORMS.len()
        && grain::scale(field(19, 4)).is_some()
}

/// A field of at most eight bits.
fn number(reader: &mut BitReader<'_>, width: u32) -> Result<u8, Ended> {
    u8::try_from(reader.take(width)?).map_err(|_| Ended)
}

fn flag(reader: &mut BitReader<'_>) -> Result<bool, Ended> {
    Ok(reader.take(1)? == 1)
}

fn sheet_of(reader: &mut BitReader<'_>, version: u8) -> Result<Sheet, Unopened> {
    let [off_bone, priced, student, cooked, several] = {
        let mut present = [false; 5];
        for bit in &mut present {
            *bit = flag(reader)?;
        }
        present
    };
    let fish = SpeciesCode::numbered(number(reader, 7)?).ok_or(Unopened::Newer("fish"))?;
    let form = FORMS.get(usize::from(number(reader, 3)?)).copied();
    let form = form.ok_or(Unopened::Newer("form of delivery"))?;
    let scale = grain::scale(number(reader, 4)?).ok_or(Unopened::Newer("scale"))?;
    let grain = number(reader, 2)?;
    let width = grain::width(grain).ok_or(Unopened::OutOfRange("weights"))?;
    let grained = Grained {
        grain,
        delivered: reader.take(width)?,
        ready: reader.take(width)?,
        off_bone: if off_bone {
            Some(reader.take(width)?)
        } else {
            None
        },
    };
    let weights = grain::weights(grained, scale).ok_or(Unopened::OutOfRange("weights"))?;
    let portions = Some(number(reader, 6)?).filter(|portions| *portions > 0);
    let mut missing = BTreeSet::new();
    for kit in KIT {
        if flag(reader)? {
            missing.insert(kit);
        }
    }
    let technique = Technique {
        skin_on: flag(reader)?,
        pin_bones_cut: flag(reader)?,
    };
    let day = u16::try_from(reader.take(14)?).ok().and_then(Day::new);
    Ok(Sheet {
        fish,
        form,
        scale,
        weights,
        price: if priced {
            Some(price_of(reader)?)
        } else {
            None
        },
        portions,
        missing,
        technique,
        day: day.ok_or(Unopened::OutOfRange("day"))?,
        student: if student {
            Some(student_of(reader, version)?)
        } else {
            None
        },
        cooked: if cooked {
            Some(cooked_of(reader)?)
        } else {
            None
        },
        count: if several { number(reader, 5)? + 1 } else { 1 },
    })
}

fn price_of(reader: &mut BitReader<'_>) -> Result<MassPrice, Unopened> {
    let priced = Priced {
        figure: reader.take(17)?,
        power: number(reader, 2)?,
        per_pound: flag(reader)?,
        currency: u16::try_from(reader.take(10)?).map_err(|_| Ended)?,
    };
    if priced.currency > 999 {
        return Err(Unopened::OutOfRange("currency"));
    }
    let currency = price::currency(priced.currency).ok_or(Unopened::Newer("currency"))?;
    price::price(priced, currency).ok_or(Unopened::OutOfRange("price"))
}

fn student_of(reader: &mut BitReader<'_>, version: u8) -> Result<Student, Unopened> {
    let (tests, width) = of_student(version).ok_or(Unopened::OutOfRange("version"))?;
    let both = reader.take(width)?;
    let nickname = Nickname::numbered(both / tests).ok_or(Unopened::OutOfRange("nickname"))?;
    let test = u8::try_from(both % tests + 1).map_err(|_| Ended)?;
    Ok(Student { nickname, test })
}

fn cooked_of(reader: &mut BitReader<'_>) -> Result<Cooked, Unopened> {
    let dish = number(reader, 4)?;
    let steps = [number(reader, 7)?, number(reader, 6)?, number(reader, 6)?];
    Ok(Cooked::in_steps(dish, steps))
}

/// A field that ends past the letters: they hold, but their number belongs to other readings.
impl From<Ended> for Unopened {
    fn from(_: Ended) -> Self {
        Self::OutOfRange("length")
    }
}
