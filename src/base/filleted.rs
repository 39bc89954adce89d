//! What a cook says of how the fillets were made, as far as it moves a yield.

use serde::{Deserialize, Serialize};

/// What is asked at the bench.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FilletQuestion {
    /// Whether the skin is on the ready fillets.
    Skin,
    /// What became of the pin bones of a round fish.
    PinBones,
    /// Which knife cut.
    Knife,
    /// How many fillets a flat fish was cut into.
    Method,
}

impl FilletQuestion {
    /// Every question, in the order they are told.
    pub const ALL: [Self; 4] = [Self::Skin, Self::PinBones, Self::Knife, Self::Method];

    /// What it asks about.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Skin => "skin",
            Self::PinBones => "pin bones",
            Self::Knife => "knife",
            Self::Method => "fillets",
        }
    }
}

/// An answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FilletAnswer {
    /// The skin was left on.
    SkinOn,
    /// The skin was taken off.
    SkinOff,
    /// The pin bones were pulled.
    PinBonesPulled,
    /// The pin bones were cut out with a strip of flesh.
    PinBonesCut,
    /// The pin bones were left in.
    PinBonesLeft,
    /// A flexible filleting knife cut.
    FlexibleKnife,
    /// A stiff cook's knife cut.
    StiffKnife,
    /// Four fillets, from the middle line of a flat fish.
    FourFillets,
    /// Two fillets, each over the whole frame of a flat fish.
    TwoFillets,
}

impl FilletAnswer {
    /// Every answer, question by question.
    pub const ALL: [Self; 9] = [
        Self::SkinOn,
        Self::SkinOff,
        Self::PinBonesPulled,
        Self::PinBonesCut,
        Self::PinBonesLeft,
        Self::FlexibleKnife,
        Self::StiffKnife,
        Self::FourFillets,
        Self::TwoFillets,
    ];

    fn bit(self) -> u32 {
        1 << self as u32
    }

    /// What it answers.
    #[must_use]
    pub fn question(self) -> FilletQuestion {
        match self {
            Self::SkinOn | Self::SkinOff => FilletQuestion::Skin,
            Self::PinBonesPulled | Self::PinBonesCut | Self::PinBonesLeft => {
                FilletQuestion::PinBones
            }
            Self::FlexibleKnife | Self::StiffKnife => FilletQuestion::Knife,
            Self::FourFillets | Self::TwoFillets => FilletQuestion::Method,
        }
    }

    /// In words that stand alone.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::SkinOn => "skin on",
            Self::SkinOff => "skin off",
            Self::PinBonesPulled => "pin bones pulled",
            Self::PinBonesCut => "pin bones cut out",
            Self::PinBonesLeft => "pin bones left in",
            Self::FlexibleKnife => "flexible knife",
            Self::StiffKnife => "stiff knife",
            Self::FourFillets => "four fillets",
            Self::TwoFillets => "two fillets",
        }
    }
}

/// What was answered, one answer a question at most: a bit each, in the order of [`FilletAnswer::ALL`]. That order is
/// stored, and only ever added to, at the end.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct FilletAnswers(u32);

impl FilletAnswers {
    /// The answer to a question; nothing where it was not answered.
    #[must_use]
    pub fn to(self, question: FilletQuestion) -> Option<FilletAnswer> {
        let mut answers = FilletAnswer::ALL.into_iter();
        answers.find(|answer| answer.question() == question && self.0 & answer.bit() != 0)
    }

    /// Takes an answer, in place of another to the same question.
    pub fn tell(&mut self, answer: FilletAnswer) {
        while let Some(other) = self.to(answer.question()) {
            self.0 &= !other.bit();
        }
        self.0 |= answer.bit();
    }

    /// Whether nothing was answered.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0 == 0
    }

    /// The answers in words, one after the other: `skin on, pin bones pulled, flexible knife`.
    #[must_use]
    pub fn told(self) -> String {
        let mut told = String::new();
        for answer in FilletQuestion::ALL
            .into_iter()
            .filter_map(|one| self.to(one))
        {
            if !told.is_empty() {
                told.push_str(", ");
            }
            told.push_str(answer.name());
        }
        told
    }
}

impl FromIterator<FilletAnswer> for FilletAnswers {
    fn from_iter<I: IntoIterator<Item = FilletAnswer>>(answers: I) -> Self {
        let mut all = Self::default();
        for answer in answers {
            all.tell(answer);
        }
        all
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_question_has_one_answer_the_last() {
        let told: FilletAnswers = [
            FilletAnswer::StiffKnife,
            FilletAnswer::PinBonesCut,
            FilletAnswer::SkinOn,
            FilletAnswer::FlexibleKnife,
        ]
        .into_iter()
        .collect();
        assert_eq!(told.told(), "skin on, pin bones cut out, flexible knife");
        assert_eq!(
            told.to(FilletQuestion::Knife),
            Some(FilletAnswer::FlexibleKnife)
        );
        assert_eq!(told.to(FilletQuestion::Method), None);
        let stored = serde_json::to_string(&told).unwrap();
        assert_eq!(stored, "41");
        assert_eq!(
            serde_json::from_str::<FilletAnswers>(&stored).unwrap(),
            told
        );
    }

    /// Bits that nobody wrote are of no answer, and two answers to a question are one.
    #[test]
    fn any_number_is_read() {
        let mut all = FilletAnswers(u32::MAX);
        assert_eq!(
            all.told(),
            "skin on, pin bones pulled, flexible knife, four fillets"
        );
        all.tell(FilletAnswer::SkinOff);
        assert_eq!(all.to(FilletQuestion::Skin), Some(FilletAnswer::SkinOff));
        assert!(
            FilletAnswer::ALL
                .iter()
                .enumerate()
                .all(|(nth, one)| one.bit() == 1 << nth)
        );
    }
}
