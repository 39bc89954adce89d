//! Whose a result is: the nickname and the number that its code is shown with, and no other fish's ever after.
//!
//! It is a record of its own under the identity of its fish, first written when the code is first shown. So it stays when
//! the fish is removed, and the number with it; two tabs that number two fish write two records; and a first visit, which
//! shows no code, needs to know nothing of it.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::record::Fish;
use super::refusals::{NoFishTap, NothingToSend};
use super::slip::Species;
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::code::sheet::{MOST_TESTS, Nickname, Sheet};
use crate::store::entry::Entry;

/// What a code is shown with.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Shown {
    /// Of which fish the tests are counted: the species by its key. Fish without a table of yields share their numbers, as
    /// they share their place in a code.
    pub species: String,
    /// The letters of the student, in capitals; empty where the code says nobody.
    pub nickname: String,
    /// Which of the student's tests it is; nothing where every number was given.
    pub number: Option<u8>,
}

/// Whose the result of one fish is.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Credit {
    /// When the fish was begun.
    pub begun: Instant,
    /// Whether it is the demonstration.
    pub demo: bool,
    /// What its code is shown with.
    pub now: Shown,
    /// What it was shown with before that was put right: it may have been sent, so it is given to no other.
    pub before: Vec<Shown>,
}

/// What the code is shown with was put right.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CreditTap {
    /// What it is shown with from now on.
    pub now: Shown,
    /// What it was shown with on an earlier visit. While letters are being typed, those that stand there for a moment are
    /// nobody's.
    pub before: Option<Shown>,
}

impl Shown {
    /// Whether both would be one test of one student.
    #[must_use]
    pub fn is_same_test(&self, other: &Self) -> bool {
        self.number.is_some() && !self.nickname.is_empty() && self == other
    }

    /// The readings of a fish as its code carries them, with this.
    ///
    /// # Errors
    /// The sentence for what has to be filled in or mended first.
    pub fn carried(&self, fish: &Fish, offset_minutes: i32) -> Result<Sheet, Refusal> {
        match self.number {
            Some(number) => fish.carried(&self.nickname, number, offset_minutes),
            None => Err(NothingToSend::NoNumber.into()),
        }
    }

    /// What it is called in a list.
    #[must_use]
    pub fn title(&self) -> String {
        match (self.nickname.as_str(), self.number) {
            ("", _) => "No letters".to_owned(),
            (nickname, None) => nickname.to_owned(),
            (nickname, Some(number)) => format!("{nickname} {number}"),
        }
    }

    fn checked(&self) -> Result<(), Refusal> {
        if !self.nickname.is_empty() {
            Nickname::parse(&self.nickname)?;
        }
        match self.number {
            None | Some(1..=MOST_TESTS) => Ok(()),
            Some(_) => Err(NoFishTap::TestNumber.into()),
        }
    }
}

impl Credit {
    /// Whose the result of a fish is when its code is first shown, with these letters. `all` the fish and `credits` are those
    /// of this phone, its own among them or not.
    #[must_use]
    pub fn first(
        fish: &Fish,
        nickname: &str,
        all: &[Fish],
        credits: &BTreeMap<String, Self>,
    ) -> Self {
        Self {
            begun: fish.begun,
            demo: fish.demo,
            now: next(fish, nickname, all, credits),
            before: Vec::new(),
        }
    }

    fn all(&self) -> impl Iterator<Item = &Shown> {
        self.before.iter().chain([&self.now])
    }

    /// Whether another fish was shown with what this one is shown with now.
    #[must_use]
    pub fn clashes_with(&self, other: &Self) -> bool {
        self.demo == other.demo && other.all().any(|shown| shown.is_same_test(&self.now))
    }
}

impl Entry for Credit {
    type Action = CreditTap;
    const KIND: &'static str = "credit";
    const NOUN: &'static str = "result number";

    fn begun(&self) -> Instant {
        self.begun
    }

    fn is_demo(&self) -> bool {
        self.demo
    }

    fn apply(&self, tap: &CreditTap, _now: Instant) -> Result<Self, Refusal> {
        tap.now.checked()?;
        let mut next = self.clone();
        if let Some(before) = tap.before.as_ref().filter(|before| **before != tap.now)
            && !next.before.contains(before)
        {
            next.before.push(before.clone());
        }
        next.now = tap.now.clone();
        Ok(next)
    }
}

/// Of which fish the tests of this one are counted.
#[must_use]
pub fn counted_as(fish: &Fish) -> &'static str {
    let species = fish.slip.species.as_ref().and_then(Species::key);
    crate::code::fish::SpeciesCode::of_key(species.unwrap_or_default())
        .key()
        .unwrap_or("other")
}

/// What a fish is shown with to the student of `nickname`: the number said by its cook in an earlier build, or its place
/// among those begun before it, where that is free; else the first after all that were given.
#[must_use]
pub fn next(
    fish: &Fish,
    nickname: &str,
    all: &[Fish],
    credits: &BTreeMap<String, Credit>,
) -> Shown {
    let series = |shown: &Shown| shown.species == counted_as(fish) && shown.nickname == nickname;
    let others = credits
        .iter()
        .filter(|(id, credit)| **id != fish.id && credit.demo == fish.demo);
    let given: Vec<u8> = others
        .flat_map(|(_, credit)| credit.all())
        .filter(|shown| series(shown) && !nickname.is_empty())
        .filter_map(|shown| shown.number)
        .collect();
    let is_before = |other: &&Fish| {
        // A fish whose code was not shown yet may become anybody's.
        let credit = credits.get(&other.id);
        let is_theirs = credit.is_none_or(|credit| series(&credit.now));
        (other.id != fish.id && other.demo == fish.demo && is_theirs)
            && counted_as(other) == counted_as(fish)
            && (other.begun, &other.id) < (fish.begun, &fish.id)
    };
    let before = all.iter().filter(is_before).count();
    let place = u8::try_from(before).map_or(u8::MAX, |before| before.saturating_add(1));
    let last = given.iter().copied().max().unwrap_or(0);
    let number = [fish.test.unwrap_or(place), last.saturating_add(1)]
        .into_iter()
        .chain(1..=MOST_TESTS)
        .find(|number| (1..=MOST_TESTS).contains(number) && !given.contains(number));
    Shown {
        species: counted_as(fish).to_owned(),
        nickname: nickname.to_owned(),
        number,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fish::demo;
    use crate::fish::settings::Settings;

    const NOW: Instant = Instant(1_773_099_000_000);

    fn fish(nth: u8) -> Fish {
        let mut fish = demo::bream(format!("k{nth:02}"), NOW, &Settings::default());
        fish.demo = false;
        fish.begun = NOW.plus_secs(i64::from(nth));
        fish
    }

    /// Shows the code of a fish to a student.
    fn show(
        fish: &Fish,
        nickname: &str,
        all: &[Fish],
        credits: &mut BTreeMap<String, Credit>,
    ) -> u8 {
        let credit = Credit::first(fish, nickname, all, credits);
        let number = credit.now.number;
        credits.insert(fish.id.clone(), credit);
        number.unwrap_or(0)
    }

    #[test]
    fn each_student_counts_their_own_and_no_number_comes_again() {
        let all: Vec<Fish> = (0..4).map(fish).collect();
        let mut credits = BTreeMap::new();
        let whose = ["TERN", "GULL", "TERN", "GULL"];
        let numbers: Vec<u8> = (all.iter().zip(whose))
            .map(|(fish, nickname)| show(fish, nickname, &all, &mut credits))
            .collect();
        assert_eq!(numbers, [1, 1, 2, 2]);
        // Those that were sent are removed, and those after do not take their numbers.
        assert_eq!(show(&fish(5), "TERN", &[], &mut credits), 3);
        let mut wreckfish = fish(6);
        wreckfish.slip.species = Some(Species::Other("Wreckfish".into()));
        assert_eq!(show(&wreckfish, "TERN", &[], &mut credits), 1);
        let mut demo = fish(7);
        demo.demo = true;
        assert_eq!(show(&demo, "TERN", &[], &mut credits), 1);
        for nth in 4..=MOST_TESTS {
            assert_eq!(show(&fish(10 + nth), "TERN", &[], &mut credits), nth);
        }
        assert_eq!(
            show(&fish(99), "TERN", &[], &mut credits),
            0,
            "none is left"
        );
        assert_eq!(show(&fish(98), "GULL", &[], &mut credits), 3);
    }

    /// As a build before this one counted, whose code may have been sent.
    #[test]
    fn a_fish_of_an_earlier_build_keeps_its_number() {
        let all: Vec<Fish> = (0..3).map(fish).collect();
        let mut credits = BTreeMap::new();
        for nth in [2, 0, 1_u8] {
            let number = show(&all[usize::from(nth)], "TERN", &all, &mut credits);
            assert_eq!(number, nth + 1);
        }
        let mut said = fish(3);
        said.test = Some(7);
        assert_eq!(show(&said, "TERN", &all, &mut credits), 7);
        said.id = "k04".into();
        assert_eq!(show(&said, "TERN", &all, &mut credits), 8, "7 is given");
    }

    #[test]
    fn what_was_shown_and_put_right_is_nobody_else_s() {
        let one = fish(0);
        let credit = Credit::first(&one, "TERN", &[], &BTreeMap::new());
        let gull = Shown {
            nickname: "GULL".into(),
            ..credit.now.clone()
        };
        let tap = CreditTap {
            now: gull.clone(),
            before: Some(credit.now.clone()),
        };
        let right = credit.apply(&tap, NOW).unwrap();
        assert_eq!((&right.now, right.before.len()), (&gull, 1));
        assert_eq!(right.apply(&tap, NOW).unwrap(), right);
        let credits = [(one.id.clone(), right.clone())].into();
        let second = Credit::first(&fish(1), "TERN", &[one], &credits);
        assert_eq!(second.now.number, Some(2));
        assert!(!right.clashes_with(&second) && credit.clashes_with(&right));
        // Letters on the way to others leave nothing behind.
        let typing = CreditTap {
            before: None,
            ..tap
        };
        assert_eq!(credit.apply(&typing, NOW).unwrap().before, []);
        for (nickname, number, said) in [
            ("TERN5", Some(1), "one to four letters"),
            ("TERN", Some(33), "32"),
            ("TERN", Some(0), "32"),
        ] {
            let now = Shown {
                nickname: nickname.into(),
                number,
                ..gull.clone()
            };
            let refusal = credit.apply(&CreditTap { now, before: None }, NOW);
            let refusal = refusal.unwrap_err().to_string();
            assert!(refusal.contains(said), "{refusal}");
        }
    }
}
