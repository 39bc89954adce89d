//! How the fillets of a fish were made: what the cook said, or what follows from the kit and the dish until then.

use super::record::Fish;
use crate::base::filleted::{FilletAnswer, FilletAnswers, FilletQuestion};
use crate::prep::asked;

impl Fish {
    /// The answers that can be true of this fish on this bench, the one that follows from its kit first.
    #[must_use]
    pub fn fitting(&self, question: FilletQuestion) -> &'static [FilletAnswer] {
        asked::fitting(question, self.shape(), &self.slip.missing)
    }

    /// What was told, as long as it can be true.
    fn told_of(&self, question: FilletQuestion) -> Option<FilletAnswer> {
        let told = self.filleted.to(question);
        told.filter(|answer| self.fitting(question).contains(answer))
    }

    /// What counts as the answer: what was told, as long as it can be true, or what follows from the kit.
    #[must_use]
    pub fn filleted_as(&self, question: FilletQuestion) -> Option<FilletAnswer> {
        let follows = || self.fitting(question).first().copied();
        self.told_of(question).or_else(follows)
    }

    /// All that counts as answers, told or not: what the scale shows beside the ready weight.
    #[must_use]
    pub fn filleted_all(&self) -> FilletAnswers {
        let answers = FilletQuestion::ALL.into_iter();
        answers
            .filter_map(|question| self.filleted_as(question))
            .collect()
    }

    /// What was told and can be true: empty for a fish of a build that did not ask.
    #[must_use]
    pub fn filleted_told(&self) -> FilletAnswers {
        let told = FilletQuestion::ALL.into_iter();
        told.filter_map(|question| self.told_of(question)).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::instant::Instant;
    use crate::base::kit::Kit;
    use crate::fish::action::Action;
    use crate::fish::demo;
    use crate::fish::settings::Settings;
    use crate::fish::slip::Species;
    use crate::fish::weighing::Which;

    const NOW: Instant = Instant(1_773_099_000_000);

    /// The demonstration, at a bench that lacks nothing.
    fn bream() -> Fish {
        let mut fish = demo::bream("a".into(), NOW, &Settings::default());
        fish.slip.missing.clear();
        fish
    }

    fn after(fish: Fish, actions: &[Action]) -> Fish {
        let weigh = |fish: Fish, action| fish.weigh(action, NOW).unwrap();
        actions.iter().fold(fish, weigh)
    }

    fn ready() -> [Action; 4] {
        let take = |which| Action::Take { which, sure: true };
        [
            take(Which::Whole),
            take(Which::OffBone),
            Action::Raw(true),
            take(Which::Ready),
        ]
    }

    #[test]
    fn what_stands_beside_the_ready_weight_is_told_with_it() {
        let fish = bream();
        assert!(fish.filleted_told().is_empty());
        assert_eq!(
            fish.filleted_all().told(),
            "skin on, pin bones pulled, flexible knife"
        );
        let cut = Action::Filleted(FilletAnswer::PinBonesCut);
        let fish = after(fish, &[cut]);
        assert_eq!(fish.filleted_told().told(), "pin bones cut out");
        let fish = after(fish, &ready());
        assert_eq!(
            fish.filleted_told().told(),
            "skin on, pin bones cut out, flexible knife"
        );
        // Said otherwise afterwards, and taken back.
        let off = after(fish.clone(), &[Action::Filleted(FilletAnswer::SkinOff)]);
        assert!(off.filleted_told().told().starts_with("skin off"));
        assert_eq!(after(off, &[Action::Filleted(FilletAnswer::SkinOn)]), fish);
    }

    #[test]
    fn what_can_no_longer_be_true_is_not_told() {
        let fish = bream();
        let fish = after(fish, &ready());
        let bare = after(fish.clone(), &[Action::Missing(Kit::Pliers, true)]);
        assert_eq!(bare.filleted_told().told(), "skin on, flexible knife");
        assert_eq!(
            bare.filleted_as(FilletQuestion::PinBones),
            Some(FilletAnswer::PinBonesCut)
        );
        let flat = Action::Species(Species::Listed("plaice".into()));
        let flat = after(fish, &[flat]);
        assert_eq!(flat.filleted_told().told(), "skin on, flexible knife");
        assert_eq!(
            flat.filleted_all().told(),
            "skin on, flexible knife, four fillets"
        );
    }

    /// What an earlier build stored has no answers, and is stored as it was.
    #[test]
    fn a_fish_of_an_earlier_build_was_not_asked() {
        let fish = bream();
        let stored = serde_json::to_string(&fish).unwrap();
        assert!(!stored.contains("filleted"));
        let read: Fish = serde_json::from_str(&stored).unwrap();
        assert!(read.filleted_told().is_empty());
    }
}
