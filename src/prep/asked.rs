//! What is asked of the filleting, at which cut, and which answers can be true of this fish on this bench.

use std::collections::BTreeSet;

use super::filleting::Shape;
use crate::base::filleted::{FilletAnswer, FilletQuestion};
use crate::base::kit::Kit;

/// The answers that can be true; the first is what follows from the kit and from dishes that are cooked on the skin.
/// With one answer there is nothing to ask, with none the question is of other fish.
#[must_use]
pub fn fitting(
    question: FilletQuestion,
    shape: Shape,
    missing: &BTreeSet<Kit>,
) -> &'static [FilletAnswer] {
    use FilletAnswer::{
        FlexibleKnife, FourFillets, PinBonesCut, PinBonesLeft, PinBonesPulled, SkinOff, SkinOn,
        StiffKnife, TwoFillets,
    };
    match (question, shape) {
        (FilletQuestion::Skin, _) => &[SkinOn, SkinOff],
        (FilletQuestion::PinBones, Shape::Round) if missing.contains(&Kit::Pliers) => {
            &[PinBonesCut, PinBonesLeft]
        }
        (FilletQuestion::PinBones, Shape::Round) => &[PinBonesPulled, PinBonesCut, PinBonesLeft],
        (FilletQuestion::Knife, _) if missing.contains(&Kit::FlexibleKnife) => &[StiffKnife],
        (FilletQuestion::Knife, _) => &[FlexibleKnife, StiffKnife],
        (FilletQuestion::Method, Shape::Flat) => &[FourFillets, TwoFillets],
        (FilletQuestion::PinBones | FilletQuestion::Method, _) => &[],
    }
}

/// What is asked at the cut with this id.
#[must_use]
pub fn at_cut(id: &str) -> &'static [FilletQuestion] {
    match id {
        "back" => &[FilletQuestion::Knife],
        "flat_middle" => &[FilletQuestion::Method, FilletQuestion::Knife],
        "pins" => &[FilletQuestion::PinBones],
        "skin" => &[FilletQuestion::Skin],
        _ => &[],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::prep::filleting::cuts_for;
    use crate::trade::breakdown::DeliveryForm;

    /// Whatever can differ is asked at one cut of each fish, and an answer is one to its question.
    #[test]
    fn what_can_differ_is_asked_once() {
        for shape in [Shape::Round, Shape::Flat] {
            for form in DeliveryForm::ALL {
                let cuts = cuts_for(shape, form);
                for question in FilletQuestion::ALL {
                    let answers = fitting(question, shape, &BTreeSet::new());
                    let times = cuts
                        .iter()
                        .flat_map(|cut| at_cut(cut.id))
                        .filter(|asked| **asked == question)
                        .count();
                    assert_eq!(times, usize::from(answers.len() > 1), "{question:?}");
                    assert!(answers.iter().all(|one| one.question() == question));
                }
            }
        }
    }

    #[test]
    fn the_kit_says_what_follows() {
        let none = BTreeSet::new();
        let bare = BTreeSet::from([Kit::Pliers, Kit::FlexibleKnife]);
        for (question, missing, first, count) in [
            (FilletQuestion::PinBones, &none, "pin bones pulled", 3),
            (FilletQuestion::PinBones, &bare, "pin bones cut out", 2),
            (FilletQuestion::Knife, &none, "flexible knife", 2),
            (FilletQuestion::Knife, &bare, "stiff knife", 1),
            (FilletQuestion::Skin, &bare, "skin on", 2),
        ] {
            let answers = fitting(question, Shape::Round, missing);
            assert_eq!((answers[0].name(), answers.len()), (first, count));
        }
    }
}
