//! Which number a student's test gets: no other fish has it, and none had it that is gone.
//!
//! The numbers that were given are kept with the preferences, as a line of text for the phone: `TERN/gilthead_bream/7`,
//! the bits of the number being the tests 1, 2 and 3. Fish without a table of yields share their numbers, as they
//! share their place in a code.

use crate::base::text::LONGEST_TEXT;
use crate::fish::record::Fish;
use crate::fish::slip::Species;

/// As many tests of a species as a code has numbers for.
pub const MOST_TESTS: u8 = 32;

/// Whose tests are counted, and of which fish.
fn series(fish: &Fish, nickname: &str) -> String {
    let species = fish.slip.species.as_ref().and_then(Species::key);
    let species = species.unwrap_or("other");
    format!("{}/{species}/", nickname.trim().to_uppercase())
}

fn bit(number: u8) -> u32 {
    match number {
        1..=MOST_TESTS => 1 << (number - 1),
        _ => 0,
    }
}

fn kept(given: &str, series: &str) -> u32 {
    let line = given.split(' ').find_map(|line| line.strip_prefix(series));
    line.and_then(|bits| bits.parse().ok()).unwrap_or(0)
}

impl Fish {
    /// The number this fish gets when its code is first shown with a nickname: its place among those begun before it, where
    /// that is free, else the first after all that were given. `others` are all the fish of this phone.
    #[must_use]
    pub fn number_for<'a>(
        &self,
        nickname: &str,
        given: &str,
        others: impl IntoIterator<Item = &'a Self>,
    ) -> u8 {
        let series = self::series(self, nickname);
        let mut taken = if self.demo { 0 } else { kept(given, &series) };
        let mut before = 0_u8;
        for other in others
            .into_iter()
            .filter(|other| other.id != self.id && other.demo == self.demo)
        {
            // A fish whose code was not shown yet may become anybody's.
            let whose = other.student.as_deref().unwrap_or(nickname);
            if self::series(other, whose) != series {
                continue;
            }
            if other.student.is_some() {
                taken |= other.test.map_or(0, bit);
            }
            before =
                before.saturating_add(u8::from((other.begun, &other.id) < (self.begun, &self.id)));
        }
        let free = |number: &u8| taken & bit(*number) == 0;
        let said = self.test.filter(|_| self.student.is_none());
        let own = said.unwrap_or(before.saturating_add(1));
        let last = (1..=MOST_TESTS)
            .rev()
            .find(|number| !free(number))
            .unwrap_or(0);
        Some(own).filter(free).unwrap_or(last.saturating_add(1))
    }

    /// What was given, with the number of this fish; as it was where that is a demonstration, or the line is full.
    #[must_use]
    pub fn given_with(&self, given: &str) -> String {
        let (Some(nickname), Some(number), false) = (&self.student, self.test, self.demo) else {
            return given.to_owned();
        };
        // A code without a nickname has no number.
        if nickname.is_empty() {
            return given.to_owned();
        }
        let series = self::series(self, nickname);
        let bits = kept(given, &series) | bit(number);
        let others = given
            .split(' ')
            .filter(|line| !line.is_empty() && !line.starts_with(&series));
        let mut lines: Vec<String> = others.map(str::to_owned).collect();
        lines.push(format!("{series}{bits}"));
        // The oldest are let go where there is no room for all.
        let mut text = lines.join(" ");
        while text.chars().count() > LONGEST_TEXT {
            lines.remove(0);
            text = lines.join(" ");
        }
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::instant::Instant;
    use crate::fish::demo;
    use crate::fish::settings::Settings;

    fn fish(id: &str) -> Fish {
        let mut fish = demo::bream(id.into(), Instant(1_773_099_000_000), &Settings::default());
        fish.demo = false;
        fish.begun = fish.begun.plus_secs(id.bytes().map(i64::from).sum());
        fish
    }

    fn shown(mut fish: Fish, nickname: &str, given: &mut String, others: &[Fish]) -> Fish {
        fish.test = Some(fish.number_for(nickname, given, others));
        fish.student = Some(nickname.into());
        *given = fish.given_with(given);
        fish
    }

    #[test]
    fn a_number_is_given_once_and_each_student_counts_their_own() {
        let mut given = String::new();
        let mut all = vec![fish("a"), fish("b"), fish("c")];
        all[0] = shown(all[0].clone(), "TERN", &mut given, &all.clone());
        all[1] = shown(all[1].clone(), "GULL", &mut given, &all.clone());
        all[2] = shown(all[2].clone(), "tern", &mut given, &all.clone());
        let numbers: Vec<Option<u8>> = all.iter().map(|fish| fish.test).collect();
        assert_eq!(numbers, [Some(1), Some(1), Some(2)]);
        // Those that were sent are removed, and the next ones do not take their numbers.
        let next = shown(fish("d"), "TERN", &mut given, &[]);
        assert_eq!(next.test, Some(3));
        let mut other = fish("e");
        other.slip.species = Some(Species::Other("Wreckfish".into()));
        assert_eq!(shown(other, "TERN", &mut given, &[]).test, Some(1));
        for nth in 4..=32 {
            assert_eq!(shown(fish("f"), "TERN", &mut given, &[]).test, Some(nth));
        }
        assert_eq!(shown(fish("f"), "TERN", &mut given, &[]).test, Some(33));
    }

    /// As a build before this one counted, whose code may have been sent.
    #[test]
    fn a_fish_of_an_earlier_build_keeps_its_number() {
        let all = [fish("a"), fish("b"), fish("c")];
        let numbers: Vec<u8> = all
            .iter()
            .map(|one| one.number_for("TERN", "", &all))
            .collect();
        assert_eq!(numbers, [1, 2, 3]);
        let mut said = fish("d");
        said.test = Some(7);
        assert_eq!(said.number_for("TERN", "", &all), 7);
    }
}
