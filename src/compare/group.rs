//! Tests in groups of one species and form, parted further by kit, by how they were weighed, or by month.

use std::collections::BTreeMap;

use rust_decimal::prelude::ToPrimitive;

use super::test::Test;
use crate::base::filleted::{FilletAnswer, FilletQuestion};
use crate::base::kit::Kit;
use crate::class::dots::DotLine;
use crate::code::day::Day;
use crate::fish::bought::SpeciesForm;
use crate::trade::breakdown::Breakdown;
use crate::trade::outlook::{FEWEST, Outlook};
use crate::trade::pooled::Pooled;

const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

/// What the tests of one species and form are parted by.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum TestSplit {
    /// Nothing more.
    #[default]
    FishAndForm,
    /// With and without a piece of kit.
    Kit(Kit),
    /// Pin bones pulled, or cut out for want of pliers.
    PinBones,
    /// Weighed one by one, or several together.
    Weighing,
    /// The month.
    Month,
}

impl TestSplit {
    /// Every parting, in the order a picker shows them.
    pub const ALL: [Self; 8] = [
        Self::FishAndForm,
        Self::PinBones,
        Self::Kit(Kit::FlexibleKnife),
        Self::Kit(Kit::NonStickPan),
        Self::Kit(Kit::Probe),
        Self::Kit(Kit::FineGrater),
        Self::Weighing,
        Self::Month,
    ];

    /// Its name in a picker.
    #[must_use]
    pub fn name(self) -> String {
        match self {
            Self::FishAndForm => "Fish and form".to_owned(),
            Self::Kit(kit) => format!("With or without {}", kit.name()),
            Self::PinBones => "Pin bones pulled or cut out".to_owned(),
            Self::Weighing => "One by one or as a batch".to_owned(),
            Self::Month => "Month".to_owned(),
        }
    }

    /// The place of the part a test belongs to; the latest month stands first.
    fn place(self, test: &Test) -> u16 {
        match self {
            Self::FishAndForm => 0,
            Self::Kit(kit) => u16::from(test.missing.contains(&kit)),
            Self::PinBones => match test.filleted.to(FilletQuestion::PinBones) {
                Some(FilletAnswer::PinBonesLeft) => 2,
                Some(told) => u16::from(told == FilletAnswer::PinBonesCut),
                // Not asked: the bones are cut out where there is nothing to pull them with.
                None => u16::from(test.missing.contains(&Kit::Pliers)),
            },
            Self::Weighing => u16::from(test.count > 1),
            Self::Month => test
                .day
                .map(Day::civil)
                .map_or(u16::MAX, |(year, month, _)| (2_200 - year) * 12 - month),
        }
    }

    /// What the part is called that a test belongs to.
    fn part(self, test: &Test) -> String {
        let second = self.place(test) > 0;
        let choose = |first: &str, other: &str| if second { other } else { first }.to_owned();
        match self {
            Self::FishAndForm => String::new(),
            Self::Kit(kit) => format!("{} {}", choose("with", "without"), kit.name()),
            Self::PinBones if self.place(test) == 2 => FilletAnswer::PinBonesLeft.name().to_owned(),
            Self::PinBones => choose("pin bones pulled", "pin bones cut out"),
            Self::Weighing => choose("one by one", "weighed as a batch"),
            Self::Month => test.day.map(Day::civil).map_or_else(
                || "at an unknown date".to_owned(),
                |(year, month, _)| {
                    let name = MONTHS.get(usize::from(month.saturating_sub(1)));
                    format!("{} {year}", name.copied().unwrap_or_default())
                },
            ),
        }
    }
}

/// Tests that belong together, the latest first.
#[derive(Clone, Debug)]
pub struct TestGroup<'a> {
    /// Their species and form.
    pub bought: SpeciesForm,
    /// What the part is called; empty where they are not parted further.
    pub part: String,
    /// The tests.
    pub tests: Vec<&'a Test>,
}

/// The tests in groups: species by name, forms in the order of the slip.
#[must_use]
pub fn groups<'a>(tests: impl IntoIterator<Item = &'a Test>, by: TestSplit) -> Vec<TestGroup<'a>> {
    let mut parted: BTreeMap<_, Vec<&Test>> = BTreeMap::new();
    for test in tests {
        let kind = (test.bought().key(), by.place(test));
        parted.entry(kind).or_default().push(test);
    }
    let latest_first = |mut tests: Vec<&'a Test>| {
        tests.sort_by(|first, other| (other.begun, &other.id).cmp(&(first.begun, &first.id)));
        let first = tests.first()?;
        Some(TestGroup {
            bought: first.bought(),
            part: by.part(first),
            tests,
        })
    };
    parted.into_values().filter_map(latest_first).collect()
}

impl TestGroup<'_> {
    /// How many fish its tests are of.
    #[must_use]
    pub fn fish(&self) -> u32 {
        self.tests
            .iter()
            .fold(0, |all, test| all.saturating_add(test.count))
    }

    /// All of it taken together, totals over totals.
    #[must_use]
    pub fn pooled(&self) -> Option<Pooled> {
        let all: Vec<Breakdown> = self.tests.iter().map(|test| test.breakdown).collect();
        Pooled::of(&all)
    }

    /// The fish that were weighed one by one: only they tell how far one lies from another.
    #[must_use]
    pub fn singles(&self) -> Vec<Breakdown> {
        self.one_by_one().map(|test| test.breakdown).collect()
    }

    /// The spread between single fish, as a share (sample standard deviation); `None` under two of them.
    #[must_use]
    pub fn spread(&self) -> Option<f64> {
        Pooled::of(&self.singles())?.spread
    }

    /// What the next fish is likely to give, the fish of one day taken for one delivery; `None` under three single fish.
    #[must_use]
    pub fn outlook(&self) -> Option<Outlook> {
        // The latest stands first here.
        let in_order = self.one_by_one().rev();
        Outlook::of(in_order.map(|test| (test.day, test.breakdown)))
    }

    /// How many single fish are wanting before the next can be foretold.
    #[must_use]
    pub fn wanting(&self) -> usize {
        FEWEST.saturating_sub(self.one_by_one().count())
    }

    /// Its tests as lines of a picture, what is published behind each.
    #[must_use]
    pub fn lines(&self) -> Vec<DotLine> {
        let band = self
            .bought
            .published()
            .and_then(|range| Some((range.low.to_f64()?, range.high.to_f64()?)));
        self.tests
            .iter()
            .map(|test| DotLine {
                label: day_label(test),
                value: Some(test.yield_drawn()),
                band,
                marked: test.count > 1,
            })
            .collect()
    }

    fn one_by_one(&self) -> impl DoubleEndedIterator<Item = &Test> {
        self.tests.iter().filter(|test| test.count == 1).copied()
    }
}

/// The day of a test, short: `9 Mar 26`.
#[must_use]
pub fn day_label(test: &Test) -> String {
    let Some((year, month, day)) = test.day.map(Day::civil) else {
        return "—".to_owned();
    };
    let month = MONTHS.get(usize::from(month.saturating_sub(1)));
    let short: String = month.copied().unwrap_or_default().chars().take(3).collect();
    format!("{day} {short} {:02}", year % 100)
}
