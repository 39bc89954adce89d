//! A step as it is typed, and how it is read.

use super::field::{EditFault, Field, at, refuse};
use super::refusals::NoEdit;
use crate::service::dish::step::{Begins, Edge, Link, OfFish, Station, Step};

/// The longest name of a step or of a dish, and the longest words, in letters: what fits a phone at arm's length.
pub(super) const LONGEST_TITLE: usize = 60;
const LONGEST_SAY: usize = 240;
/// The longest time and the longest gap, in seconds.
const LONGEST_SECS: u32 = 4 * 3600;
/// The most seconds that one cover adds to a step.
const MOST_PER_COVER: u32 = 600;
/// What an oven is set to, °C.
const OVEN_C: std::ops::RangeInclusive<u16> = 30..=350;

/// One step as typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StepDraft {
    /// Its name.
    pub title: String,
    /// What to do.
    pub say: String,
    /// What can hurt somebody; may be empty.
    pub caution: String,
    /// Its length in seconds.
    pub secs: String,
    /// What each cover past two adds to it, in seconds; empty: nothing.
    pub per_cover: String,
    /// Whether that is on a timer; a step without one ends by eye.
    pub timed: bool,
    /// Whether it needs hands all the while.
    pub hands: bool,
    /// The seconds at its start that need hands, where they are free after that; may be empty.
    pub hands_first: String,
    /// Where it happens.
    pub station: Option<Station>,
    /// How hot the oven is for it, °C; empty: all the same.
    pub oven_c: String,
    /// What it does to the fish.
    pub of_fish: Option<OfFish>,
    /// Whether it begins by itself.
    pub at_once: bool,
    /// What it waits for.
    pub links: Vec<LinkDraft>,
}

/// One thing a step waits for, as typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LinkDraft {
    /// The id of the earlier step.
    pub to: String,
    /// The edge of it that counts.
    pub edge: Edge,
    /// The least gap in seconds; empty: none.
    pub least: String,
    /// The greatest gap in seconds; empty: none.
    pub most: String,
}

impl StepDraft {
    /// A step as it stands, to be changed.
    #[must_use]
    pub fn of(step: &Step) -> Self {
        let number = |secs: u32| {
            if secs == 0 {
                String::new()
            } else {
                secs.to_string()
            }
        };
        Self {
            title: step.title.clone(),
            say: step.say.clone(),
            caution: step.caution.clone().unwrap_or_default(),
            secs: step.lasts.unwrap_or(step.takes).to_string(),
            per_cover: number(step.per_cover),
            timed: step.lasts.is_some(),
            hands: step.hands,
            hands_first: number(step.hands_first),
            station: step.station,
            oven_c: step.oven_c.map(|c| c.to_string()).unwrap_or_default(),
            of_fish: step.of_fish,
            at_once: step.begins == Begins::AtOnce,
            links: (step.links.iter())
                .map(|link| LinkDraft {
                    to: link.to.clone(),
                    edge: link.edge,
                    least: number(link.least),
                    most: link.most.map(|most| most.to_string()).unwrap_or_default(),
                })
                .collect(),
        }
    }

    /// The step as typed; what is not asked for stays as it was.
    pub(super) fn read(&self, step: &Step) -> Result<Step, EditFault> {
        let secs = at(Field::Secs, secs(&self.secs))?;
        if self.timed && secs == 0 {
            return refuse(Field::Secs, NoEdit::NoTimer);
        }
        let per_cover = at(Field::PerCover, secs_or_none(&self.per_cover))?.unwrap_or(0);
        if per_cover > MOST_PER_COVER {
            return refuse(Field::PerCover, NoEdit::ManyPerCover);
        }
        let hands_first = at(Field::HandsFirst, secs_or_none(&self.hands_first))?.unwrap_or(0);
        if hands_first > secs {
            return refuse(Field::HandsFirst, NoEdit::ManyHands);
        }
        let mut links = Vec::new();
        for (nth, link) in self.links.iter().enumerate() {
            let least = at(Field::Gap(nth), secs_or_none(&link.least))?.unwrap_or(0);
            let most = at(Field::Gap(nth), secs_or_none(&link.most))?;
            if most.is_some_and(|most| most < least) {
                return refuse(Field::Gap(nth), NoEdit::GapsCrossed);
            }
            links.push(Link {
                to: link.to.clone(),
                edge: link.edge,
                least,
                most,
            });
        }
        let caution = at(Field::Caution, text(&self.caution, LONGEST_SAY, None))?;
        Ok(Step {
            title: at(
                Field::Title,
                text(&self.title, LONGEST_TITLE, Some(NoEdit::NoTitle)),
            )?,
            say: at(
                Field::Say,
                text(&self.say, LONGEST_SAY, Some(NoEdit::NoWords)),
            )?,
            caution: (!caution.is_empty()).then_some(caution),
            lasts: self.timed.then_some(secs),
            takes: if self.timed { step.takes } else { secs },
            per_cover: if self.timed { 0 } else { per_cover },
            hands: self.hands,
            hands_first: if self.hands { 0 } else { hands_first },
            station: self.station,
            oven_c: at(Field::Oven, degrees(&self.oven_c))?,
            of_fish: self.of_fish,
            begins: if self.at_once {
                Begins::AtOnce
            } else {
                Begins::Tap
            },
            links,
            ..step.clone()
        })
    }
}

pub(super) fn text(typed: &str, longest: usize, asks: Option<NoEdit>) -> Result<String, NoEdit> {
    let typed = typed.trim();
    match asks {
        Some(asks) if typed.is_empty() => Err(asks),
        _ if typed.chars().count() > longest => Err(NoEdit::Long(longest)),
        _ => Ok(typed.to_owned()),
    }
}

fn secs_or_none(typed: &str) -> Result<Option<u32>, NoEdit> {
    match typed.trim() {
        "" => Ok(None),
        _ => secs(typed).map(Some),
    }
}

/// Degrees of an oven; nothing for an empty field.
fn degrees(typed: &str) -> Result<Option<u16>, NoEdit> {
    let typed = typed.trim();
    if typed.is_empty() {
        return Ok(None);
    }
    let degrees = typed.parse::<u16>().ok();
    let degrees = degrees.filter(|degrees| OVEN_C.contains(degrees));
    degrees.map(Some).ok_or(NoEdit::NoOven)
}

pub(super) fn whole(typed: &str, most: u16) -> Result<u16, NoEdit> {
    let number = typed.trim().parse::<u16>().ok();
    number
        .filter(|number| *number <= most)
        .ok_or(NoEdit::NoWhole(most))
}

/// Whole seconds, or minutes and seconds with a colon between.
fn secs(typed: &str) -> Result<u32, NoEdit> {
    let typed = typed.trim();
    let wrong = || NoEdit::NoTime(typed.to_owned());
    let number = |text: &str| text.parse::<u32>().map_err(|_| wrong());
    let secs = match typed.split_once(':') {
        None => number(typed)?,
        Some((minutes, secs)) => number(secs)
            .ok()
            .filter(|secs| *secs < 60)
            .and_then(|secs| number(minutes).ok()?.checked_mul(60)?.checked_add(secs))
            .ok_or_else(wrong)?,
    };
    if secs > LONGEST_SECS {
        return Err(NoEdit::TooLong);
    }
    Ok(secs)
}
