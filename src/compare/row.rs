//! One line of a table of tests as a fish.

use time::OffsetDateTime;
use time::format_description::well_known::Rfc3339;

use super::refusals::NoTest;
use super::written_day::{self, DayOrder};
use super::written_price::taken_apart;
use crate::base::filleted::FilletAnswer;
use crate::base::instant::Instant;
use crate::base::kit::Kit;
use crate::base::part;
use crate::base::refusal::Refusal;
use crate::base::text::caseless;
use crate::code::sheet::MOST_TESTS;
use crate::fish::record::{Fish, Kept};
use crate::fish::settings::Settings;
use crate::fish::slip::{SlipLine, Species};
use crate::fish::weighing::ScaleReading;
use crate::trade::breakdown::DeliveryForm;
use crate::trade::mass::{self, Mass, Scale, Unit};
use crate::trade::money::{Currency, PriceUnit};
use crate::trade::species::{Filleted, called};

/// The most letters of one cell.
const LONGEST_CELL: usize = 2_000;
/// The most kept parts of one fish.
const MOST_KEPT: usize = 8;

/// The fish a line tells of; `cell` gives the text under the name of a column, empty where there is none.
///
/// # Errors
/// The sentence for what can't be taken.
pub(super) fn fish<'a>(
    id: String,
    (settings, days): (&Settings, Days),
    cell: impl Fn(&str) -> &'a str,
) -> Result<Fish, Refusal> {
    for column in [
        "fish",
        "price",
        "portions wanted",
        "portion",
        "kept parts",
        "note",
    ] {
        if cell(column).chars().count() > LONGEST_CELL {
            return Err(NoTest::LongCell(column).into());
        }
    }
    let begun = days.begun(cell("begun"))?.unwrap_or(days.today);
    let mut fish = Fish::new(id, begun, settings);
    let slip = &mut fish.slip;
    slip.species = Some(species(cell("fish")));
    slip.form = Some(form(cell("form"))?);
    let price = taken_apart(cell("price"), slip.currency);
    slip.price = price.figure;
    let (at, to) = ("scale division", cell("scale division"));
    slip.scale = named(at, to, slip.scale, &Scale::CHOICES, Scale::name)?;
    // What the scale shows empty is off the weights of a table already.
    slip.zero = Mass::ZERO;
    let (at, to) = ("currency", cell("currency"));
    let usual = price.currency.unwrap_or(slip.currency);
    slip.currency = named(at, to, usual, &Currency::ALL, |c| c.code().to_owned())?;
    let (at, to) = ("price per", cell("price per"));
    let usual = price.per.unwrap_or(slip.per);
    slip.per = named(at, to, usual, &PriceUnit::ALL, |per| per.name().to_owned())?;
    for (column, field) in [
        ("fish together", &mut slip.count),
        ("portions wanted", &mut slip.portions),
    ] {
        let text = cell(column).trim();
        if !text.is_empty() {
            text.clone_into(field);
        }
    }
    for name in cell("missing kit").split(';').map(str::trim) {
        if !name.is_empty() {
            let kit = named("missing kit", name, Kit::Pliers, &Kit::ALL, |kit| {
                kit.name().to_owned()
            })?;
            slip.missing.insert(kit);
        }
    }
    fish.whole = weight(cell("delivered"), "delivered")?;
    if !cell("off the bone").trim().is_empty() {
        fish.off_bone = weight(cell("off the bone"), "off the bone")?;
    }
    fish.ready = weight(cell("ready"), "ready")?;
    fish.portion = portion(cell("portion"), fish.ready.unit);
    fish.kept = kept(cell("kept parts"))?;
    fish.note = cell("note").to_owned();
    fish.test = match cell("test number").trim() {
        "" => None,
        text => Some(
            text.parse()
                .ok()
                .filter(|test| (1..=MOST_TESTS).contains(test))
                .ok_or(NoTest::NoNumber)?,
        ),
    };
    // A line written by hand is of a fish that has been eaten.
    fish.finished = match (cell("finished").trim(), cell("identity").trim()) {
        ("", "") => Some(begun),
        ("", _) => None,
        (text, _) => Some(moment(text)?),
    };
    for name in cell("filleted").split([',', ';']).map(str::trim) {
        if !name.is_empty() {
            let (at, first) = ("filleted", FilletAnswer::SkinOn);
            let answer = named(at, name, first, &FilletAnswer::ALL, |one| {
                one.name().to_owned()
            })?;
            fish.filleted.tell(answer);
        }
    }
    fish.raw = Some(true);
    fish.cut = fish.cuts();
    let faults = fish.slip.read().err().unwrap_or_default();
    let fault = faults
        .into_iter()
        .find(|(line, _)| matches!(line, SlipLine::Species | SlipLine::Form | SlipLine::Count));
    match (fault, fish.breakdown()) {
        (Some((_, refusal)), _) | (None, Some(Err(refusal))) => Err(refusal),
        (None, None) => Err(NoTest::Unweighed.into()),
        (None, Some(Ok(_))) => Ok(fish),
    }
}

/// How the days of a table are read.
#[derive(Clone, Copy, Debug)]
pub(super) struct Days {
    /// Which figure stands first where strokes part them.
    pub(super) order: DayOrder,
    /// The moment at which the table is read: a test without a day gets this one.
    pub(super) today: Instant,
}

impl Days {
    /// When a test was begun: a moment, or a day alone, taken at noon; nothing for an empty cell.
    ///
    /// # Errors
    /// The sentence for a text that is neither, that may be two days, or that is still to come.
    pub(super) fn begun(self, text: &str) -> Result<Option<Instant>, Refusal> {
        let text = text.trim();
        if text.is_empty() {
            return Ok(None);
        }
        // What this program wrote itself is taken, whatever the clock said then.
        if let Ok(at) = moment(text) {
            return Ok(Some(at));
        }
        let at = written_day::read(text, self.order)?;
        // Noon may be ahead of now, and a phone west of where it was written a day behind.
        if at > self.today.plus_secs(36 * 3600) {
            return Err(NoTest::DayAhead(text.to_owned()).into());
        }
        Ok(Some(at))
    }
}

fn moment(text: &str) -> Result<Instant, Refusal> {
    OffsetDateTime::parse(text, &Rfc3339)
        .ok()
        .and_then(|at| i64::try_from(at.unix_timestamp_nanos().div_euclid(1_000_000)).ok())
        .map(Instant)
        .ok_or_else(|| NoTest::NoDate(text.to_owned()).into())
}

fn species(name: &str) -> Species {
    let name = name.trim();
    let listed = called(name).filter(|species| species.filleted != Filleted::Never);
    listed.map_or_else(
        || Species::Other(name.to_owned()),
        |species| Species::Listed(species.key.to_owned()),
    )
}

fn form(text: &str) -> Result<DeliveryForm, Refusal> {
    let text = text.trim();
    DeliveryForm::ALL
        .into_iter()
        .find(|form| caseless(form.name()) == caseless(text))
        .ok_or_else(|| NoTest::NoForm(text.to_owned()).into())
}

/// What a cell names among `all`; `usual` for an empty one.
fn named<T: Copy>(
    column: &'static str,
    text: &str,
    usual: T,
    all: &[T],
    name: impl Fn(T) -> String,
) -> Result<T, Refusal> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(usual);
    }
    let found = all
        .iter()
        .find(|one| caseless(&name(**one)) == caseless(text));
    found.copied().ok_or_else(|| {
        NoTest::Unknown {
            column,
            text: text.to_owned(),
        }
        .into()
    })
}

/// A weight as it stands in a cell: grams where no unit is named.
fn weight(text: &str, column: &'static str) -> Result<ScaleReading, Refusal> {
    let (typed, unit) = typed(text);
    let reading = ScaleReading {
        typed,
        unit,
        taken: true,
    };
    match reading.mass() {
        Ok(_) => Ok(reading),
        Err(refusal) => Err(NoTest::NoWeight(column, refusal).into()),
    }
}

fn typed(text: &str) -> (String, Unit) {
    let text = text.trim().to_lowercase();
    if text.contains("lb") {
        let ounces = text.strip_suffix("oz").unwrap_or(&text);
        return (ounces.trim().to_owned(), Unit::PoundOunce);
    }
    for (symbol, unit) in [("kg", Unit::Kilo), ("oz", Unit::Ounce), ("g", Unit::Gram)] {
        if let Some(figure) = text.strip_suffix(symbol) {
            return (figure.trim().to_owned(), unit);
        }
    }
    (text, Unit::Gram)
}

/// The weight of a portion as it is typed in the unit of the ready weight; a text that is no weight stays.
fn portion(text: &str, wanted: Unit) -> String {
    let (typed, unit) = typed(text);
    let reading = ScaleReading {
        typed,
        unit,
        taken: false,
    };
    match reading.mass() {
        Ok(mass) if unit != wanted => mass::show(mass, wanted)
            .trim_end_matches(wanted.symbol())
            .trim()
            .to_owned(),
        _ => reading.typed,
    }
}

fn kept(text: &str) -> Result<Vec<Kept>, Refusal> {
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .from_reader(text.as_bytes());
    let mut parts: Vec<Kept> = reader
        .records()
        .filter_map(Result::ok)
        .map(|part| {
            let cell = |nth| part.get(nth).unwrap_or_default().to_owned();
            Kept {
                id: String::new(),
                name: cell(0),
                weight: cell(1),
                price: cell(2),
            }
        })
        .collect();
    if parts.len() > MOST_KEPT {
        return Err(NoTest::ManyKept.into());
    }
    part::name_all(&mut parts);
    Ok(parts)
}
