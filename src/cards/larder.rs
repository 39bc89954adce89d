//! A card as it reads: every figure taken, or the sentence that stands beside its field.
//!
//! A card leans on others: on the cook's own fish for a yield, on parts made ahead for their cost.

use rust_decimal::Decimal;

use super::ingredient::{Ingredient, Origin};
use super::purchase::read_bought;
use super::recipe::{Recipe, Serves};
use super::refusals::{NoLine, NoPart};
use crate::base::refusal::Refusal;
use crate::fish::record::Fish;
use crate::trade::money::Currency;
use crate::trade::plate::allergens::AllergenList;
use crate::trade::plate::line::{Makes, PlateLine, Preparation, Source};
use crate::trade::plate::percentage::parse_percent;
use crate::trade::plate::scaled::parse_covers;
use crate::trade::plate::units::{self, Dimension};

/// The share for what is never measured, at most, in percent.
const MOST_SHARE: u32 = 50;

/// How many parts may lie in one another, and how many lines a part and all its own parts may have together: far past
/// any kitchen's. A card that came from elsewhere may be made so that they multiply.
const DEEPEST: usize = 10;
const MOST_LINES_OF_A_PART: usize = 500;

/// What a card leans on, looked up by identity.
#[derive(Clone, Copy)]
pub struct Larder<'a> {
    /// One of the cook's own fish.
    pub fish: &'a dyn Fn(&str) -> Option<Fish>,
    /// Another card.
    pub card: &'a dyn Fn(&str) -> Option<Recipe>,
    /// A more careful yield to order such a fish by, and why, where enough of them are known.
    pub careful: &'a dyn Fn(&Fish) -> Option<(Decimal, String)>,
    /// Whose list of allergens this kitchen goes by.
    pub list: AllergenList,
}

/// A field that a sentence stands beside.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CardField {
    /// What the lines are for.
    Makes,
    /// The share for what is never measured.
    Share,
    /// A field of the line at this place, counted from nought.
    Line(usize, LineField),
}

/// A field of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LineField {
    /// What it is.
    Name,
    /// How much.
    Quantity,
    /// Where it comes from.
    Origin,
    /// What is left after trimming.
    Trim,
    /// What it costs.
    Price,
    /// What is in a pack.
    Pack,
    /// What 100 ml weigh.
    Density,
    /// What one weighs.
    Piece,
}

/// A card as it reads.
#[derive(Clone, Debug)]
pub struct CardReading {
    /// What could be read; a line with a fault is not in it.
    pub preparation: Preparation,
    /// Where each line of the preparation stands on the card, from nought.
    pub places: Vec<usize>,
    /// What could not be read, each with its sentence.
    pub faults: Vec<(CardField, Refusal)>,
}

impl CardReading {
    /// The sentence beside a field.
    #[must_use]
    pub fn said(&self, field: CardField) -> Option<String> {
        let fault = self.faults.iter().find(|(at, _)| *at == field);
        fault.map(|(_, refusal)| refusal.to_string())
    }

    /// How many lines are not counted.
    #[must_use]
    pub fn open_lines(&self) -> usize {
        let mut open: Vec<usize> = self
            .faults
            .iter()
            .filter_map(|(field, _)| match field {
                CardField::Line(at, _) => Some(*at),
                CardField::Makes | CardField::Share => None,
            })
            .collect();
        open.dedup();
        open.len()
    }
}

/// Reads the card `id`.
#[must_use]
pub fn read(id: &str, card: &Recipe, larder: Larder) -> CardReading {
    let mut walk = Walk {
        trail: vec![id.to_owned()],
        lines_left: MOST_LINES_OF_A_PART,
        is_too_much: false,
    };
    read_within(card, larder, &mut walk)
}

/// The way through a card and its parts.
struct Walk {
    /// The cards that are being read, the outermost first, so that a part in itself is found.
    trail: Vec<String>,
    /// How many lines of this part may still be read.
    lines_left: usize,
    /// Whether there was more than is read. However far in that was, it is said of the part that stands on the card.
    is_too_much: bool,
}

fn read_within(card: &Recipe, larder: Larder, walk: &mut Walk) -> CardReading {
    let mut faults = Vec::new();
    let makes = keep(&mut faults, CardField::Makes, read_makes(card));
    let share = keep(&mut faults, CardField::Share, read_share(&card.share));
    let mut lines = Vec::new();
    let mut places = Vec::new();
    for (at, written) in card.lines.iter().enumerate() {
        match read_line(written, card.currency, larder, walk) {
            Ok(line) => {
                lines.push(line);
                places.push(at);
            }
            Err(of_line) => faults.extend(
                of_line
                    .into_iter()
                    .map(|(field, refusal)| (CardField::Line(at, field), refusal)),
            ),
        }
    }
    CardReading {
        preparation: Preparation {
            name: card.title(),
            makes: makes.unwrap_or(Makes::Covers(1)),
            currency: card.currency,
            share: share.unwrap_or_default(),
            lines,
        },
        places,
        faults,
    }
}

pub(super) fn keep<T, F>(
    faults: &mut Vec<(F, Refusal)>,
    field: F,
    read: Result<T, Refusal>,
) -> Option<T> {
    match read {
        Ok(value) => Some(value),
        Err(refusal) => {
            faults.push((field, refusal));
            None
        }
    }
}

fn read_makes(card: &Recipe) -> Result<Makes, Refusal> {
    match card.serves {
        Serves::Covers => parse_covers(&card.covers).map(Makes::Covers),
        Serves::Amount if card.makes.trim().is_empty() => Err(NoPart::NoAmount.into()),
        Serves::Amount => units::parse(&card.makes, card.makes_unit).map(Makes::Amount),
    }
}

fn read_share(text: &str) -> Result<Decimal, Refusal> {
    match text.trim() {
        "" => Ok(Decimal::ZERO),
        text => parse_percent(text, "The share for what is not measured", MOST_SHARE),
    }
}

pub(super) type LineFaults = Vec<(LineField, Refusal)>;

fn read_line(
    written: &Ingredient,
    currency: Currency,
    larder: Larder,
    walk: &mut Walk,
) -> Result<PlateLine, LineFaults> {
    let mut faults = LineFaults::new();
    if written.name.trim().is_empty()
        && matches!(written.origin, Origin::Bought | Origin::TypedFish)
    {
        faults.push((LineField::Name, NoLine::Unnamed.into()));
    }
    let quantity = keep(
        &mut faults,
        LineField::Quantity,
        units::parse(&written.quantity, written.unit).and_then(|quantity| {
            if written.origin.is_fish() && quantity.kind != Dimension::Mass {
                return Err(NoLine::FishNotByWeight.into());
            }
            Ok(quantity)
        }),
    );
    let source = match &written.origin {
        Origin::Part(id) => keep(
            &mut faults,
            LineField::Origin,
            read_part(id, currency, larder, walk),
        ),
        _ => read_bought(written, currency, larder, &mut faults).map(Source::Bought),
    };
    let (Some(quantity), Some(source), true) = (quantity, source, faults.is_empty()) else {
        return Err(faults);
    };
    let line = PlateLine {
        name: written.title(larder),
        quantity,
        unit: written.unit,
        source,
    };
    match line.cost() {
        Ok(_) => Ok(line),
        Err(refusal) => Err(vec![(written.meeting_field(), refusal)]),
    }
}

fn read_part(
    id: &str,
    currency: Currency,
    larder: Larder,
    walk: &mut Walk,
) -> Result<Source, Refusal> {
    if id.is_empty() {
        return Err(NoPart::Unchosen.into());
    }
    let card = (larder.card)(id).ok_or(NoPart::Gone)?;
    let title = card.title();
    if walk.trail.iter().any(|known| known == id) {
        return Err(NoPart::InItself(title).into());
    }
    if card.currency != currency {
        return Err(NoPart::OtherCurrency(title, card.currency).into());
    }
    if walk.trail.len() == 1 {
        // One part that is too much keeps no other from being read.
        (walk.lines_left, walk.is_too_much) = (MOST_LINES_OF_A_PART, false);
    }
    walk.is_too_much |= walk.trail.len() == DEEPEST || walk.lines_left < card.lines.len();
    if walk.is_too_much {
        return Err(NoPart::TooMuch(title).into());
    }
    walk.lines_left = walk.lines_left.saturating_sub(card.lines.len());
    walk.trail.push(id.to_owned());
    let reading = read_within(&card, larder, walk);
    walk.trail.pop();
    if walk.is_too_much {
        return Err(NoPart::TooMuch(title).into());
    }
    match reading.faults.into_iter().next() {
        Some((_, refusal)) => Err(NoPart::Unfinished(title, refusal).into()),
        None => Ok(Source::Part(reading.preparation)),
    }
}
