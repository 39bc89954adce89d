//! The class as a table for a spreadsheet: comma-separated values as RFC 4180 describes them.

use super::cell::shielded;
use super::flags::Flag;
use super::refusals::NoSheet;
use super::roll::RollRow;
use crate::base::kit::Kit;
use crate::base::refusal::Refusal;
use crate::trade::mass::Mass;
use crate::trade::money::Money;
use crate::trade::rounding::{half_away, written};

/// The first line. Weights are in grams, yields and losses in percent of the delivered weight, costs in the
/// currency named; a decimal point in every language.
const HEADING: [&str; 22] = [
    "nickname",
    "test",
    "date",
    "species",
    "form",
    "scale division",
    "fish",
    "delivered g",
    "off the bone g",
    "ready g",
    "yield %",
    "yield standard uncertainty %",
    "currency",
    "price",
    "price per",
    "cost per usable kilo",
    "portions",
    "cost per portion",
    "kit missing",
    "flags",
    "earlier tries",
    "code",
];

/// Writes one line a row; `flags` are those of [`super::flags::flags`], in the same order. Lines end in CR LF.
///
/// # Errors
/// A sentence if the table can't be put together.
pub fn sheet_csv(rows: &[RollRow], flags: &[Vec<Flag>]) -> Result<String, Refusal> {
    write(rows, flags).map_err(|_| NoSheet::Unwritten.into())
}

fn write(rows: &[RollRow], flags: &[Vec<Flag>]) -> Result<String, Box<dyn std::error::Error>> {
    let mut writer = csv::WriterBuilder::new()
        .terminator(csv::Terminator::CRLF)
        .from_writer(Vec::new());
    writer.write_record(HEADING)?;
    for (nth, row) in rows.iter().enumerate() {
        let flags = flags.get(nth).map_or(&[][..], Vec::as_slice);
        writer.write_record(line(row, flags).map(shielded))?;
    }
    Ok(String::from_utf8(writer.into_inner()?)?)
}

fn line(row: &RollRow, flags: &[Flag]) -> [String; 22] {
    let result = &row.result;
    let sheet = &result.sheet;
    let [nickname, test] = row.whose();
    let figures = result.figures.as_ref().ok();
    let cost = figures.and_then(|figures| figures.cost);
    let kit: Vec<&str> = sheet.missing.iter().copied().map(Kit::name).collect();
    let sentences: Vec<String> = flags.iter().map(Flag::sentence).collect();
    [
        nickname,
        test,
        sheet.day.to_string(),
        result.species().to_owned(),
        sheet.form.name().to_owned(),
        sheet.scale.name(),
        sheet.count.to_string(),
        grams(sheet.weights.delivered),
        sheet.weights.off_bone.map_or_else(String::new, grams),
        grams(sheet.weights.ready),
        text(figures.map(|f| written(f.yield_ratio * rust_decimal::Decimal::ONE_HUNDRED, 2))),
        text(figures.map(|f| format!("{:.3}", f.reading.standard * 100.0))),
        text(sheet.price.map(|price| price.currency().code())),
        text(sheet.price.map(|price| price.amount())),
        text(sheet.price.map(|price| price.per().name())),
        text(cost.map(|cost| amount(cost.per_kilo))),
        text(sheet.portions),
        text(cost.and_then(|cost| cost.per_portion).map(amount)),
        kit.join("; "),
        sentences.join(" "),
        row.earlier.len().to_string(),
        result.code.to_string(),
    ]
}

fn text(value: Option<impl ToString>) -> String {
    value.map_or_else(String::new, |value| value.to_string())
}

fn grams(mass: Mass) -> String {
    rust_decimal::Decimal::new(mass.mg(), 3)
        .normalize()
        .to_string()
}

/// Four decimals, as many as a price keeps.
fn amount(money: Money) -> String {
    half_away(money.amount, 4).normalize().to_string()
}
