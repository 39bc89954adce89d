//! A cook's own tests as a table for any spreadsheet: comma-separated values as RFC 4180 describes them.
//!
//! What was keyed and chosen stands first and is read back by [`super::taken`]; what is worked out from it
//! stands last, named so, for the eye and the spreadsheet alone. The cooking is not in the table.

use std::fmt::Display;

use rust_decimal::Decimal;
use time::OffsetDateTime;
use time::format_description::well_known::Rfc3339;

use super::refusals::NoTable;
use super::test::Test;
use crate::base::instant::Instant;
use crate::base::kit::Kit;
use crate::base::refusal::Refusal;
use crate::class::cell::shielded;
use crate::fish::record::{Fish, Kept};
use crate::fish::weighing::Which;
use crate::trade::mass::{Mass, Unit};
use crate::trade::rounding::{half_away, written};

/// The columns that are read back.
pub(super) const READ: [&str; 20] = [
    "identity",
    "begun",
    "fish",
    "form",
    "fish together",
    "delivered",
    "off the bone",
    "ready",
    "scale division",
    "price",
    "currency",
    "price per",
    "portions wanted",
    "portion",
    "missing kit",
    "kept parts",
    "test number",
    "note",
    "finished",
    "filleted",
];

/// A table to be filled in by hand: the columns that a test needs, and those that are of use.
pub const TEMPLATE: &str =
    "fish,form,delivered,ready,off the bone,begun,price,currency,price per,fish together,note\r\n";

/// What a column that is not read back ends in.
pub(super) const WORKED_OUT: &str = "(worked out)";

/// The columns that are worked out, each to be followed by [`WORKED_OUT`].
const FIGURES: [&str; 5] = [
    "delivered g",
    "off the bone g",
    "ready g",
    "yield %",
    "cost per usable kilo",
];

/// Writes one line for each fish that makes a test, in the order given; the demonstration is left out.
/// Lines end in CR LF.
///
/// # Errors
/// A sentence if the table can't be put together.
pub fn write<'a>(fish: impl IntoIterator<Item = &'a Fish>) -> Result<String, Refusal> {
    put_together(fish).map_err(|_| NoTable::Unwritten.into())
}

fn put_together<'a>(
    fish: impl IntoIterator<Item = &'a Fish>,
) -> Result<String, Box<dyn std::error::Error>> {
    let mut writer = csv::WriterBuilder::new()
        .terminator(csv::Terminator::CRLF)
        .from_writer(Vec::new());
    let figures = FIGURES.map(|name| format!("{name} {WORKED_OUT}"));
    writer.write_record(READ.iter().map(ToString::to_string).chain(figures))?;
    for fish in fish {
        if let Some(test) = Test::of(fish, 0).filter(|test| !test.demo) {
            let cells = as_kept(fish).into_iter().chain(worked_out(&test));
            writer.write_record(cells.map(shielded))?;
        }
    }
    Ok(String::from_utf8(writer.into_inner()?)?)
}

fn as_kept(fish: &Fish) -> [String; 20] {
    let slip = &fish.slip;
    let kit: Vec<&str> = slip.missing.iter().copied().map(Kit::name).collect();
    [
        fish.id.clone(),
        moment(fish.begun),
        fish.name(),
        said(slip.form.map(|form| form.name())),
        slip.count.clone(),
        weight(fish, Which::Whole),
        weight(fish, Which::OffBone),
        weight(fish, Which::Ready),
        slip.scale.name(),
        slip.price.clone(),
        slip.currency.code().to_owned(),
        slip.per.name().to_owned(),
        slip.portions.clone(),
        in_unit(&fish.portion, fish.ready.unit),
        kit.join("; "),
        kept(&fish.kept),
        said(fish.test),
        fish.note.clone(),
        said(fish.finished.map(moment)),
        fish.filleted.told(),
    ]
}

fn worked_out(test: &Test) -> [String; 5] {
    let weights = test.breakdown.weights();
    [
        grams(weights.delivered),
        weights.off_bone.map_or_else(String::new, grams),
        grams(weights.ready),
        written(test.yield_ratio() * Decimal::ONE_HUNDRED, 2),
        said(
            test.cost_per_kilo
                .map(|cost| half_away(cost.amount, 4).normalize()),
        ),
    ]
}

fn said(value: Option<impl Display>) -> String {
    value.map_or_else(String::new, |value| value.to_string())
}

/// A weight as it was keyed, once taken; less what the scale shows empty, then in grams.
fn weight(fish: &Fish, which: Which) -> String {
    let reading = fish.reading(which);
    if reading.taken {
        match fish.mass(which) {
            Ok(mass) if fish.slip.zero != Mass::ZERO => grams(mass),
            // A sum of two weighings is one weight in a table, as long as it is exact in grams.
            Ok(sum) if reading.unit == Unit::Gram && reading.typed.contains('+') => grams(sum),
            _ => in_unit(&reading.typed, reading.unit),
        }
    } else {
        String::new()
    }
}

/// Grams bare, so that a spreadsheet counts with them; any other unit with its symbol.
fn in_unit(typed: &str, unit: Unit) -> String {
    let typed = typed.trim();
    match unit {
        _ if typed.is_empty() => String::new(),
        Unit::Gram => typed.to_owned(),
        Unit::Kilo => format!("{typed} kg"),
        Unit::Ounce => format!("{typed} oz"),
        Unit::PoundOunce if typed.contains("lb") => format!("{typed} oz"),
        Unit::PoundOunce => format!("0 lb {typed} oz"),
    }
}

/// A moment as RFC 3339 writes it, in UTC, to the millisecond: `2026-03-09T14:05:12.25Z`.
fn moment(at: Instant) -> String {
    OffsetDateTime::from_unix_timestamp_nanos(i128::from(at.0) * 1_000_000)
        .ok()
        .and_then(|at| at.format(&Rfc3339).ok())
        .unwrap_or_default()
}

/// The kept parts, a small table inside the cell: name, weight, worth.
fn kept(parts: &[Kept]) -> String {
    let mut writer = csv::WriterBuilder::new().from_writer(Vec::new());
    for part in parts {
        // Writing to memory does not fail; a part that could not be written is left out of the cell.
        let _ = writer.write_record([&part.name, &part.weight, &part.price]);
    }
    let bytes = writer.into_inner().unwrap_or_default();
    String::from_utf8(bytes)
        .unwrap_or_default()
        .trim_end()
        .to_owned()
}

fn grams(mass: Mass) -> String {
    Decimal::new(mass.mg(), 3).normalize().to_string()
}
