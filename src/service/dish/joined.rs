//! Several dishes of one service as one dish: they share its pans, its oven and its hands, so one plan holds them all.
//! Dishes that go out together are plated one after the other, the first of the list last; those for later guests are
//! plated so many minutes after the first.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use super::step::{Begins, Edge, Link, Station, Step};
use super::{Dish, PlateCheck, in_order};
use crate::base::refusal::Refusal;
use crate::service::dish::refusals::NoDish;

/// What stands between the name of a dish in the service and the name of a step, in what is stored.
const OF: char = '.';
/// The longest that a dish waits, plated, for the next one of the same guests, in seconds: common practice, no source.
const TOGETHER_SECS: u32 = 180;

/// A dish that is served with others, laid out.
#[derive(Clone, Debug)]
pub struct Laid {
    /// What its steps are told apart by; nothing for the dish of the fish itself.
    pub key: String,
    /// What it is called among the others, in a word or two.
    pub name: String,
    /// The dish.
    pub dish: Dish,
    /// Its plate comes so many seconds after the first one.
    pub later_secs: u32,
}

/// One dish of a service of several.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Member {
    /// What it is called among the others.
    pub name: String,
    /// Its plate comes so many seconds after the first one.
    pub later_secs: u32,
    /// The step that plates it.
    pub plating: String,
}

/// What goes out at one time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wave<'a> {
    /// Its plates come so many seconds after the first ones.
    pub later_secs: u32,
    /// The step that plates the last of them: with its beginning they go out.
    pub plating: &'a Step,
    /// The dishes of it, where there are several in the service.
    pub members: &'a [Member],
}

impl Dish {
    /// A dish and others in one service, whichever comes first. Only the first of the list keeps its fish: what an estimate
    /// of the heat says is of one fillet.
    ///
    /// # Errors
    /// A sentence for a dish without a plate.
    pub fn joined(first: Laid, others: Vec<Laid>) -> Result<Self, Refusal> {
        if others.is_empty() {
            return Ok(first.dish);
        }
        let dish = first.dish.clone();
        let mut all: Vec<Laid> = std::iter::once(first).chain(others).collect();
        let first = all.iter().map(|one| one.later_secs).min().unwrap_or(0);
        for one in &mut all {
            one.later_secs -= first;
        }
        let names = names(&all);
        let mut joined = Self {
            name: names.join(" + "),
            mise: Vec::new(),
            steps: Vec::new(),
            plate_check: Vec::new(),
            ..dish
        };
        for (one, name) in all.iter().zip(&names) {
            joined.take_in(one, name)?;
        }
        // The first of the list is plated last: its fish waits least.
        joined.members.reverse();
        joined.members.sort_by_key(|member| member.later_secs);
        joined.link_platings();
        joined.steps = in_order(std::mem::take(&mut joined.steps))?;
        Ok(joined)
    }

    fn take_in(&mut self, one: &Laid, name: &str) -> Result<(), NoDish> {
        let (key, dish) = (&one.key, &one.dish);
        let plating = dish.plating();
        let plating = plating.ok_or_else(|| NoDish::NoPlate(dish.name.clone()))?;
        self.members.push(Member {
            name: name.to_owned(),
            later_secs: one.later_secs,
            plating: keyed(key, &plating.id),
        });
        self.steps.extend(dish.steps.iter().map(|step| {
            let mut step = step.clone();
            step.id = keyed(key, &step.id);
            step.title = format!("{name}: {}", step.title);
            step.of_fish = step.of_fish.filter(|_| key.is_empty());
            for link in &mut step.links {
                link.to = keyed(key, &link.to);
            }
            step
        }));
        for line in &dish.mise {
            // The same tool is made ready once.
            if line.is_for_each() {
                self.mise.push(line.of_dish(name, keyed(key, &line.id)));
            } else if self.mise.iter().all(|known| known.say != line.say) {
                let mut line = line.clone();
                line.id = keyed(key, &line.id);
                self.mise.push(line);
            }
        }
        self.plate_check
            .extend(dish.plate_check.iter().map(|check| PlateCheck {
                id: keyed(key, &check.id),
                ask: format!("{name}: {}", check.ask),
            }));
        add_new(&mut self.allergens, &dish.allergens);
        add_new(&mut self.cautions, &dish.cautions);
        self.oven_within_c = self.oven_within_c.min(dish.oven_within_c);
        self.oven_change_secs = self.oven_change_secs.max(dish.oven_change_secs);
        Ok(())
    }

    /// Plates that go out together are made one after the other; those of later guests come when they are asked for.
    fn link_platings(&mut self) {
        let waves: Vec<(u32, Vec<String>)> = (self.members)
            .chunk_by(|one, next| one.later_secs == next.later_secs)
            .map(|wave| {
                let platings = wave.iter().map(|member| member.plating.clone());
                let later = wave.first().map_or(0, |member| member.later_secs);
                (later, platings.collect())
            })
            .collect();
        let mut links: Vec<(String, Link)> = Vec::new();
        for (_, platings) in &waves {
            for (before, after) in platings.iter().zip(platings.iter().skip(1)) {
                links.push((
                    after.clone(),
                    Link {
                        to: before.clone(),
                        edge: Edge::End,
                        least: 0,
                        most: Some(TOGETHER_SECS),
                    },
                ));
            }
        }
        let mut last = waves
            .iter()
            .filter_map(|(later, wave)| Some((*later, wave.last()?)));
        if let Some((_, first)) = last.next() {
            links.extend(last.map(|(later, plating)| {
                let link = Link {
                    to: first.clone(),
                    edge: Edge::Start,
                    least: later,
                    most: Some(later),
                };
                (plating.clone(), link)
            }));
        }
        for step in &mut self.steps {
            let more = links.iter().filter(|(of, _)| *of == step.id);
            let before = step.links.len();
            step.links.extend(more.map(|(_, link)| link.clone()));
            if step.links.len() > before {
                step.begins = Begins::Tap;
            }
        }
    }

    /// What goes out, and when, the earliest first: one wave where there is one dish.
    #[must_use]
    pub fn waves(&self) -> Vec<Wave<'_>> {
        let several = self
            .members
            .chunk_by(|one, next| one.later_secs == next.later_secs);
        let several = several.filter_map(|members| {
            let last = members.last()?;
            Some(Wave {
                later_secs: last.later_secs,
                plating: self.step(&last.plating)?,
                members,
            })
        });
        let one = self.plating().map(|plating| Wave {
            later_secs: 0,
            plating,
            members: &[],
        });
        let one = one.filter(|_| self.members.is_empty());
        several.chain(one).collect()
    }

    /// The step that plates: the first one at the plate that food comes to. A plate that is only warmed has none on it.
    pub(in crate::service) fn plating(&self) -> Option<&Step> {
        let plates = || (self.steps.iter()).filter(|step| step.station == Some(Station::Plate));
        plates()
            .find(|step| self.takes_food(step))
            .or_else(|| plates().next())
    }

    /// Whether a step waits for one that is done elsewhere, through whatever steps between.
    fn takes_food(&self, step: &Step) -> bool {
        let (mut known, mut next) = (BTreeSet::new(), vec![step]);
        while let Some(step) = next.pop() {
            let before = step.links.iter().filter_map(|link| self.step(&link.to));
            for before in before.filter(|before| known.insert(&before.id)) {
                if before.station != Some(Station::Plate) {
                    return true;
                }
                next.push(before);
            }
        }
        false
    }

    /// The wave that a step is for.
    #[must_use]
    pub fn wave_of<'a>(&self, step: &str, waves: &[Wave<'a>]) -> Option<Wave<'a>> {
        let of = |wave: &&Wave<'a>| {
            let mut platings = wave.members.iter().map(|member| &member.plating);
            wave.members.is_empty() || platings.any(|plating| key_of(plating) == key_of(step))
        };
        waves.iter().find(of).copied()
    }
}

/// As many letters as a dish is called by among others.
const SHORT: usize = 14;

/// A fish in one word, such as bream: the last of its name.
#[must_use]
pub fn fish_word(name: &str) -> String {
    let word = name.split_whitespace().next_back().unwrap_or_default();
    let word = word.trim_matches(['(', ')']);
    let mut letters = word.chars();
    let first = letters.next().map(|first| first.to_ascii_uppercase());
    first.into_iter().chain(letters).take(SHORT).collect()
}

/// A name in so few letters that it can stand before every step: its first words.
#[must_use]
pub fn short_name(name: &str) -> String {
    let fits = |text: &&str| text.chars().count() <= SHORT;
    let name = name.trim();
    if fits(&name) {
        return name.to_owned();
    }
    let ends = name.match_indices(' ').map(|(at, _)| name.split_at(at).0);
    // No small word is left over at the end.
    let found = ends.rev().find(|first| {
        let last = first.rsplit(' ').next().unwrap_or_default();
        fits(first) && last.chars().count() > 3
    });
    let cut = || name.chars().take(SHORT - 1).chain(['…']).collect();
    found.map_or_else(cut, str::to_owned)
}

/// The name of a step among those of all dishes.
fn keyed(key: &str, id: &str) -> String {
    match key {
        "" => id.to_owned(),
        key => format!("{key}{OF}{id}"),
    }
}

/// Which dish a step is of, and what it is called there.
#[must_use]
pub fn of_which(id: &str) -> (&str, &str) {
    id.split_once(OF).unwrap_or(("", id))
}

fn key_of(id: &str) -> &str {
    of_which(id).0
}

fn add_new(known: &mut Vec<String>, more: &[String]) {
    for one in more {
        if !known.contains(one) {
            known.push(one.clone());
        }
    }
}

/// What the dishes are called, each by a name that no other has: where two are the same, by when the later one comes.
fn names(all: &[Laid]) -> Vec<String> {
    let mut taken: BTreeSet<String> = BTreeSet::new();
    let named = all.iter().map(|one| {
        let mut name = one.name.clone();
        let same = all.iter().filter(|other| other.name == name).count();
        if same > 1 && one.later_secs > 0 {
            name = format!("{name} +{}", one.later_secs / 60);
        }
        let (plain, mut nth) = (name.clone(), 2_u32);
        while !taken.insert(name.clone()) {
            name = format!("{plain} {nth}");
            nth = nth.saturating_add(1);
        }
        name
    });
    named.collect()
}

#[cfg(test)]
mod tests {
    use super::{fish_word, short_name};

    #[test]
    fn a_name_is_cut_at_its_words() {
        for (name, short) in [
            ("Hake in the pan", "Hake"),
            ("Baked beetroot", "Baked beetroot"),
            ("Pan-cooked sea bream", "Pan-cooked"),
            ("Bouillabaisserie", "Bouillabaisse…"),
            ("", ""),
        ] {
            assert_eq!(short_name(name), short, "{name}");
        }
        for (name, word) in [
            ("Gilthead bream", "Bream"),
            ("Coley (saithe)", "Saithe"),
            ("ørret", "ørret"),
            ("", ""),
        ] {
            assert_eq!(fish_word(name), word, "{name}");
        }
    }
}
