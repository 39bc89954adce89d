//! Tests taken from a table, of this program's own writing or filled in by hand. A line that can't be taken
//! costs no other; nothing here panics, whatever the text.

use serde::{Deserialize, Serialize};

use csv::StringRecord;

use super::refusals::{NoTable, NoTest};
use super::row::{self, Days};
use super::table::{READ, WORKED_OUT};
use super::test::Test;
use super::written_day::DayOrder;
use crate::base::crc;
use crate::base::id;
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::class::cell::bare;
use crate::fish::record::Fish;
use crate::fish::settings::Settings;
use crate::fish::weighing::{Doubt, Judgement, Which};

/// The most lines of one table.
pub const MOST_LINES: usize = 10_000;
/// The columns without which a line is no test.
pub(super) const NEEDED: [&str; 4] = ["fish", "form", "delivered", "ready"];

/// What stands for the moment in the identity of a test without a day, whenever it is read: before all others.
const UNDATED: Instant = Instant(79_000_000_000);

/// What a table holds.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FoundTests {
    /// The fish, each with its line in the text, from 1.
    pub fish: Vec<(usize, Fish)>,
    /// The lines that can't be taken, and why.
    pub refused: Vec<(usize, String)>,
    /// The lines that are taken and ask to be looked at: a price that doesn't read, a yield that is odd.
    pub odd: Vec<(usize, String)>,
    /// The columns that mean nothing here.
    pub aside: Vec<String>,
    /// The first line that was not read, of a table that is too long.
    pub unread_from: Option<usize>,
}

/// Reads a table of tests: cells parted by commas, semicolons or tabs, a heading first, columns in any order.
/// An empty cell for scale, currency or price unit is what `settings` say, one for the day is `today`. A line without an
/// identity gets one from what stands in it, so that it is known when it comes again.
///
/// # Errors
/// A sentence for a text that is no such table at all.
pub fn read(text: &str, settings: &Settings, today: Instant) -> Result<FoundTests, Refusal> {
    let text = text.trim_start_matches('\u{feff}');
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(delimiter(text))
        .flexible(true)
        .has_headers(false)
        .from_reader(text.as_bytes());
    // The heading, and one line more than are taken, which tells that there are more.
    let records: Vec<_> = reader.records().take(MOST_LINES + 2).collect();
    let mut records = records.into_iter();
    let heading = match records.next() {
        Some(Ok(heading)) => heading,
        Some(Err(_)) | None => return Err(NoTable::NoneThere.into()),
    };
    let names: Vec<String> = heading
        .iter()
        .map(|name| bare(name).trim().to_lowercase())
        .collect();
    if let Some(lacking) = NEEDED
        .into_iter()
        .find(|needed| !names.iter().any(|name| name == needed))
    {
        return Err(NoTable::NoColumn(lacking).into());
    }
    let mut found = FoundTests {
        aside: names
            .iter()
            .filter(|name| !READ.contains(&name.as_str()) && !name.ends_with(WORKED_OUT))
            .filter(|name| !name.is_empty())
            .cloned()
            .collect(),
        ..FoundTests::default()
    };
    let mut lines = Lines::of(text);
    let at = names.iter().position(|name| name == "begun");
    let column = records.as_slice().iter().flatten();
    let days = Days {
        order: DayOrder::of(column.filter_map(|record| Some(bare(record.get(at?)?)))),
        today,
    };
    for (nth, record) in records.enumerate() {
        let at = match &record {
            Ok(record) => record.position(),
            Err(error) => error.position(),
        };
        let line = lines.number(at.map_or(0, csv::Position::byte));
        let Ok(record) = record else {
            let why = NoTest::Unreadable.to_string();
            found.refused.push((line, why));
            continue;
        };
        if nth >= MOST_LINES {
            found.unread_from = Some(line);
            break;
        }
        if record.iter().all(|cell| cell.trim().is_empty()) {
            continue;
        }
        match test(&names, &record, (settings, days)) {
            Ok(fish) => {
                found.odd.extend(odd(&fish).map(|odd| (line, odd)));
                found.fish.push((line, fish));
            }
            Err(refusal) => found.refused.push((line, refusal.to_string())),
        }
    }
    Ok(found)
}

/// Finds the line, from 1, on which a record begins. The reader's own count is one short after CR LF.
struct Lines<'a> {
    rest: &'a [u8],
    read: u64,
    line: usize,
}

impl<'a> Lines<'a> {
    fn of(text: &'a str) -> Self {
        Self {
            rest: text.as_bytes(),
            read: 0,
            line: 1,
        }
    }

    /// The line of what stands first at or after a byte; bytes only ever grow.
    fn number(&mut self, byte: u64) -> usize {
        while let Some((first, rest)) = self.rest.split_first() {
            if self.read >= byte && !matches!(first, b'\r' | b'\n') {
                break;
            }
            self.line = self.line.saturating_add(usize::from(*first == b'\n'));
            self.read = self.read.saturating_add(1);
            self.rest = rest;
        }
        self.line
    }
}

/// What parts the cells: whichever of the three is most often in the first line. A spreadsheet set to a
/// decimal comma writes semicolons.
fn delimiter(text: &str) -> u8 {
    let first = text.lines().next().unwrap_or_default().as_bytes();
    let times = |mark: u8| first.iter().filter(|byte| **byte == mark).count();
    [b',', b';', b'\t']
        .into_iter()
        .rev()
        .max_by_key(|mark| times(*mark))
        .unwrap_or(b',')
}

/// What of a test that is taken asks to be looked at.
fn odd(fish: &Fish) -> Option<String> {
    let price = fish.slip.price.trim();
    let unread = fish.slip.read_price().err().filter(|_| !price.is_empty());
    if let Some(why) = unread {
        return Some(NoTest::NoPrice(price.to_owned(), why).to_string());
    }
    match fish.judge(Which::Ready) {
        Judgement::Doubt(doubt @ Doubt::Yield(_)) => Some(doubt.to_string()),
        _ => None,
    }
}

fn test(
    names: &[String],
    record: &StringRecord,
    (settings, days): (&Settings, Days),
) -> Result<Fish, Refusal> {
    let cell = |wanted: &str| {
        let at = names.iter().position(|name| name == wanted);
        at.and_then(|at| record.get(at)).map_or("", bare)
    };
    let id = match cell("identity").trim() {
        "" => {
            let all: Vec<&str> = record.iter().collect();
            let sum = crc::of(all.join("\u{1f}").as_bytes());
            id::new_id(days.begun(cell("begun"))?.unwrap_or(UNDATED), sum)
        }
        id if id::is_id(id) => id.to_owned(),
        id => return Err(NoTest::NoIdentity(id.to_owned()).into()),
    };
    row::fish(id, (settings, days), cell)
}

/// What a table brings to this phone, to be looked over before it is kept.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Brought {
    /// What is to be added.
    pub new: Vec<Fish>,
    /// The lines of tests that are here already.
    pub known: Vec<usize>,
    /// The lines of tests that are here with other figures: this phone's stay as they are.
    pub differing: Vec<(usize, String)>,
    /// The lines that can't be taken, and why.
    pub refused: Vec<(usize, String)>,
    /// The lines that are to be added and ask to be looked at.
    #[serde(default)]
    pub odd: Vec<(usize, String)>,
    /// The columns that mean nothing here.
    pub aside: Vec<String>,
    /// The first line that was not read, of a table that is too long.
    pub unread_from: Option<usize>,
}

/// Sorts what a table holds by what is here: `here` gives the fish with an identity. Nothing that is here
/// is ever changed.
#[must_use]
pub fn sort(found: FoundTests, here: impl Fn(&str) -> Option<Fish>) -> Brought {
    let mut brought = Brought {
        refused: found.refused,
        aside: found.aside,
        unread_from: found.unread_from,
        ..Brought::default()
    };
    let mut firsts = std::collections::HashMap::new();
    for (line, fish) in found.fish {
        let twin = firsts
            .get(&fish.id)
            .and_then(|nth: &usize| brought.new.get(*nth));
        match twin.cloned().or_else(|| here(&fish.id)) {
            Some(other) if same(&other, &fish) => brought.known.push(line),
            Some(other) => brought.differing.push((line, other.name())),
            None => {
                let of_line = found.odd.iter().filter(|(at, _)| *at == line);
                brought.odd.extend(of_line.cloned());
                firsts.insert(fish.id.clone(), brought.new.len());
                brought.new.push(fish);
            }
        }
    }
    brought
}

/// Whether two are the same test, however their weights were typed.
fn same(one: &Fish, other: &Fish) -> bool {
    let told = |fish: &Fish| {
        let test = Test::of(fish, 0)?;
        let weights = test.breakdown.weights();
        Some((
            test.bought().key(),
            test.count,
            weights,
            fish.slip.price.clone(),
        ))
    };
    told(one) == told(other)
}
