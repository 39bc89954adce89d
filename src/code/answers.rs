//! What a cook said of the filleting as one number of a code.

use crate::base::filleted::{FilletAnswer, FilletAnswers, FilletQuestion};

/// The first digit: the skin.
const SKIN: [FilletAnswer; 2] = [FilletAnswer::SkinOn, FilletAnswer::SkinOff];
/// The second: the knife.
const KNIFE: [FilletAnswer; 2] = [FilletAnswer::FlexibleKnife, FilletAnswer::StiffKnife];
/// The third: the pin bones of a round fish, or the fillets of a flat one.
const CUT: [FilletAnswer; 5] = [
    FilletAnswer::PinBonesPulled,
    FilletAnswer::PinBonesCut,
    FilletAnswer::PinBonesLeft,
    FilletAnswer::FourFillets,
    FilletAnswer::TwoFillets,
];

/// Each digit counts from nought, which is no answer.
const DIGITS: [&[FilletAnswer]; 3] = [&SKIN, &KNIFE, &CUT];

/// Bits of the number: 3 × 3 × 6 are 54.
pub(super) const WIDTH: u32 = 6;

/// The number of some answers; `None` where there is none, or pin bones and the fillets of a flat fish are both answered.
pub(super) fn number(answers: &FilletAnswers) -> Option<u32> {
    if answers.is_empty() {
        return None;
    }
    let both = [FilletQuestion::PinBones, FilletQuestion::Method];
    if both.iter().all(|question| answers.to(*question).is_some()) {
        return None;
    }
    let told = |of: &[FilletAnswer]| {
        let place = (1..)
            .zip(of)
            .find(|(_, one)| answers.to(one.question()) == Some(**one));
        place.map_or(0, |(place, _)| place)
    };
    let digits = DIGITS.iter();
    let number = digits.fold(0, |number, of| number * (of.len() + 1) + told(of));
    u32::try_from(number).ok()
}

/// The answers with a number; `None` where no answers have it.
pub(super) fn answers(number: u32) -> Option<FilletAnswers> {
    let mut left = usize::try_from(number).ok().filter(|number| *number > 0)?;
    let mut told = FilletAnswers::default();
    for of in DIGITS.iter().rev() {
        let base = of.len() + 1;
        if let Some(place) = (left % base).checked_sub(1) {
            told.tell(*of.get(place)?);
        }
        left /= base;
    }
    (left == 0).then_some(told)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_number_is_of_other_answers() {
        let known: Vec<u32> = (0..1 << WIDTH)
            .filter(|number| {
                answers(*number).is_some_and(|told| {
                    assert_eq!(super::number(&told), Some(*number), "{told:?}");
                    true
                })
            })
            .collect();
        assert_eq!(known, (1..54).collect::<Vec<u32>>());
        let both = [FilletAnswer::PinBonesCut, FilletAnswer::TwoFillets];
        assert_eq!(number(&both.into_iter().collect()), None);
        assert_eq!(number(&FilletAnswers::default()), None);
    }
}
