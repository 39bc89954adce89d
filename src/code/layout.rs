//! Where each reading stands in a code, versions 1 to 4. Another program can be written from this page, `mend`
//! (check letters) and `alphabet`.
//!
//! Whole numbers follow one another most significant bit first, five bits a letter:
//!
//! | bits | field | value |
//! |-----:|-------|-------|
//! | 4 | version | 1 to 4; the first field of every version |
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
//! | 2 | technique | one bit each: skin left on, pin bones cut out; what followed from the kit, for nobody was asked |
//! | 6 | technique | instead, in versions 3 and 4: 18 × skin + 6 × knife + cut, each 0 where it was not told; skin 1 on, 2 off; knife 1 flexible, 2 stiff; cut 1 pin bones pulled, 2 cut out, 3 left in, 4 four fillets of a flat fish, 5 two; never 0 |
//! | 14 | day | days since 2020-01-01 |
//! | 17 | price figure | if price is present, as are the next three |
//! | 2 | price power | the figure counts hundredths, tenths, units or hundreds of the currency |
//! | 1 | price per | 0 kilogram, 1 avoirdupois pound |
//! | 10 | currency | its ISO 4217 number |
//! | 6 | currency | instead, in versions 3 and 4: its place from 0 in the order of the letters, AUD BRL CAD CHF CZK DKK EUR GBP HKD HUF INR ISK JPY KRW MXN NOK NZD PLN SEK SGD THB TRY USD VND ZAR; new ones at the end |
//! | 22 | student | if present: 8 × nickname + (test − 1); nicknames A, B … Z, AA … ZZZZ from 0, tests 1 to 8 |
//! | 24 | student | instead, in versions 2 and 4: 32 × nickname + (test − 1), tests 1 to 32 |
//! | 4 | dish | if cooked is present, as are the next three: its number, 0 for none |
//! | 7 | skin side | in steps of 5 s |
//! | 6 | finish | in steps of 5 s |
//! | 6 | rest | in steps of 10 s |
//! | 5 | fish together | if several: their number less one, 1 to 31 |
//!
//! Version 2 is written for tests from 9 on, version 3 where the cook said how the fillets were made, version 4 for both, and
//! none of them for anything else: an app that knows only version 1 opens all the rest. What is said of the filleting takes
//! the four bits that the shorter currency leaves: a code with a price is no longer for it.
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
use super::answers;
use super::bits::{BitReader, BitWriter, Ended, TooWide};
use super::day::Day;
use super::fish::SpeciesCode;
use super::grain::{self, Grained};
use super::mend::CHECKS;
use super::price::{self, Priced};
use super::refusals::NoCode;
use super::sheet::{Cooked, Nickname, Sheet, Student, Technique};
use super::unopened::Unopened;
use super::version::{VARIANTS, VERSION, Variant, version};
use crate::base::kit::Kit;
use crate::base::refusal::Refusal;
use crate::trade::breakdown::DeliveryForm;
use crate::trade::money::MassPrice;

/// Bits of a currency by its ISO 4217 number, and by its short one.
const CURRENCY: [u32; 2] = [10, 6];

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
    if version(sheet).is_none() || sheet.student.is_some_and(|student| student.test == 0) {
        return Err(NoCode::Test.into());
    }
    if let Technique::Told(told) = &sheet.technique
        && answers::number(told).is_none()
    {
        return Err(NoCode::Answers.into());
    }
    let mut writer = BitWriter::default();
    write(sheet, division, weights, price, &mut writer).map_err(|TooWide| NoCode::Counts)?;
    let mut symbols = writer.symbols();
    while !(symbols.len() + CHECKS).is_multiple_of(GROUP) {
        symbols.push(0);
    }
    Ok(symbols)
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
    let (version, variant) = version(sheet).ok_or(TooWide)?;
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
    match &sheet.technique {
        Technique::Presumed {
            skin_on,
            pin_bones_cut,
        } => {
            writer.put(u32::from(*skin_on), 1)?;
            writer.put(u32::from(*pin_bones_cut), 1)?;
        }
        Technique::Told(told) => {
            writer.put(answers::number(told).ok_or(TooWide)?, answers::WIDTH)?;
        }
    }
    writer.put(u32::from(sheet.day.number()), 14)?;
    if let Some(price) = price {
        writer.put(price.figure, 17)?;
        writer.put(u32::from(price.power), 2)?;
        writer.put(u32::from(price.per_pound), 1)?;
        let [iso, short] = CURRENCY;
        if variant.told {
            writer.put(price::short(price.currency).ok_or(TooWide)?, short)?;
        } else {
            writer.put(u32::from(price::numeric(price.currency)), iso)?;
        }
    }
    if let Some(student) = sheet.student {
        let test = u32::from(student.test).checked_sub(1).ok_or(TooWide)?;
        let tests = u32::from(variant.tests);
        writer.put(student.nickname.number() * tests + test, variant.student)?;
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
    let Some(nth) = version.checked_sub(1) else {
        return Err(Unopened::OutOfRange("version"));
    };
    let Some(variant) = VARIANTS.get(usize::from(nth)) else {
        return Err(Unopened::FutureVersion(version));
    };
    let sheet = sheet_of(&mut reader, *variant)?;
    match pack(&sheet) {
        Ok(spelling) if spelling == carried => Ok(sheet),
        _ => Err(Unopened::OutOfRange("spelling")),
    }
}

/// Whether a code of these versions can begin with these letters, as read: its version, species, form and scale. One in
/// twenty-five other texts can.
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

fn sheet_of(reader: &mut BitReader<'_>, variant: Variant) -> Result<Sheet, Unopened> {
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
    let technique = if variant.told {
        let told = answers::answers(reader.take(answers::WIDTH)?);
        Technique::Told(told.ok_or(Unopened::OutOfRange("filleting"))?)
    } else {
        Technique::Presumed {
            skin_on: flag(reader)?,
            pin_bones_cut: flag(reader)?,
        }
    };
    let day = u16::try_from(reader.take(14)?).ok().and_then(Day::new);
    Ok(Sheet {
        fish,
        form,
        scale,
        weights,
        price: if priced {
            Some(price_of(reader, variant)?)
        } else {
            None
        },
        portions,
        missing,
        technique,
        day: day.ok_or(Unopened::OutOfRange("day"))?,
        student: if student {
            Some(student_of(reader, variant)?)
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

fn price_of(reader: &mut BitReader<'_>, variant: Variant) -> Result<MassPrice, Unopened> {
    let (figure, power, per_pound) = (reader.take(17)?, number(reader, 2)?, flag(reader)?);
    let [iso, short] = CURRENCY;
    let currency = if variant.told {
        price::of_short(reader.take(short)?)
    } else {
        let numeric = u16::try_from(reader.take(iso)?).map_err(|_| Ended)?;
        if numeric > 999 {
            return Err(Unopened::OutOfRange("currency"));
        }
        price::currency(numeric)
    };
    let priced = Priced {
        figure,
        power,
        per_pound,
        currency: currency.ok_or(Unopened::Newer("currency"))?,
    };
    price::price(priced).ok_or(Unopened::OutOfRange("price"))
}

fn student_of(reader: &mut BitReader<'_>, variant: Variant) -> Result<Student, Unopened> {
    let tests = u32::from(variant.tests);
    let both = reader.take(variant.student)?;
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

#[cfg(test)]
mod tests {
    use super::super::mend::LONGEST;
    use super::super::sheet::sample;
    use super::*;
    use crate::base::filleted::FilletAnswer;
    use crate::trade::mass::Mass;

    /// What is said of the filleting costs no letter where there is a price, and the longest sheet still has a code.
    #[test]
    fn what_is_told_costs_few_letters() {
        let told = Technique::Told([FilletAnswer::SkinOff].into_iter().collect());
        let letters = |sheet: &Sheet| pack(sheet).unwrap().len() + CHECKS;
        for (sheet, presumed, with) in [(sample::full(), 40, 40), (sample::bare(), 24, 24)] {
            assert_eq!(letters(&sheet), presumed);
            let technique = told;
            assert_eq!(letters(&Sheet { technique, ..sheet }), with);
        }
        let mut longest = sample::full();
        longest.weights.delivered = Mass::from_mg(648_510);
        longest.count = 2;
        longest.student = longest.student.map(|student| Student {
            test: 32,
            ..student
        });
        assert_eq!(letters(&longest), LONGEST);
        longest.technique = told;
        assert_eq!(letters(&longest), LONGEST);
        let nothing = Technique::Told(std::iter::empty().collect());
        longest.technique = nothing;
        assert!(pack(&longest).is_err());
    }
}
