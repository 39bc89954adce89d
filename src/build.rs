//! Makes rows of Rust from the tables that every first visit looks into: nothing of them is read in the browser. And
//! has the linker say, in the app's own module, what calls what, so that it can be taken apart along its doors.

use std::error::Error;
use std::path::Path;
use std::{env, fs};

/// What a column holds.
#[derive(Clone, Copy)]
enum Holds {
    /// A text.
    Text,
    /// A word or a number as Rust writes it.
    Plain,
    /// A decimal number.
    Figure,
    /// A decimal number, or nothing.
    MaybeFigure,
    /// A variant of an enumeration, in lower case with underscores.
    Name(&'static str),
    /// What is there for whoever reads the table, and not for the app.
    Apart,
    /// Factors, each with its country and who printed it, parted by `; `.
    Factors,
}

use Holds::{Apart, Factors, Figure, MaybeFigure, Name, Plain, Text};

const PUBLISHED: [(&str, Holds); 12] = [
    ("key", Text),
    ("species", Text),
    ("scientific", Text),
    ("form", Name("DeliveryForm")),
    ("product", Name("Product")),
    ("low_percent", Figure),
    ("high_percent", Figure),
    ("central_percent", MaybeFigure),
    ("source", Text),
    ("mark", Text),
    ("note", Text),
    ("factors", Factors),
];

const SPECIES: [(&str, Holds); 11] = [
    ("key", Text),
    ("name", Text),
    ("scientific", Apart),
    ("family", Text),
    ("reef", Plain),
    ("lightest_g", Plain),
    ("heaviest_g", Plain),
    ("filleted", Name("Filleted")),
    ("headed_percent", MaybeFigure),
    ("most_percent", Plain),
    ("also", Text),
];

fn main() -> Result<(), Box<dyn Error>> {
    println!("cargo::rerun-if-changed=src/build.rs");
    if env::var("CARGO_CFG_TARGET_ARCH")? == "wasm32" {
        println!("cargo::rustc-link-arg-bin=scaleside=--emit-relocs");
    }
    rows("published", "PublishedRow", &PUBLISHED)?;
    rows("species", "ListedSpecies", &SPECIES)
}

/// Writes the rows of `src/trade/<table>.csv`, whose columns stand in the order of `columns`.
fn rows(table: &str, row: &str, columns: &[(&str, Holds)]) -> Result<(), Box<dyn Error>> {
    let path = format!("src/trade/{table}.csv");
    println!("cargo::rerun-if-changed={path}");
    let mut made = String::from("&[\n");
    for (at, record) in csv::Reader::from_path(&path)?.records().enumerate() {
        let record = record?;
        if record.len() != columns.len() {
            return Err(format!("{path}, row {at}: {} columns", record.len()).into());
        }
        let kept = columns.iter().zip(&record);
        let kept = kept.filter(|((_, holds), _)| !matches!(holds, Apart));
        let fields = kept.map(|((field, holds), cell)| {
            let value =
                value(*holds, cell).ok_or(format!("{path}, row {at}: {field} is {cell:?}"))?;
            Ok(format!("{field}: {value}"))
        });
        let fields = fields.collect::<Result<Vec<_>, Box<dyn Error>>>()?;
        made += &format!("    {row} {{ {} }},\n", fields.join(", "));
    }
    made += "]\n";
    let folder = env::var("OUT_DIR")?;
    fs::write(Path::new(&folder).join(format!("{table}.rs")), made)?;
    Ok(())
}

fn value(holds: Holds, cell: &str) -> Option<String> {
    Some(match holds {
        Text => format!("{cell:?}"),
        Apart => return None,
        Plain => cell.to_owned(),
        Figure => figure(cell)?,
        MaybeFigure if cell.is_empty() => "None".to_owned(),
        MaybeFigure => format!("Some({})", figure(cell)?),
        Name(of) => {
            let words = cell.split('_').map(|word| {
                let (head, tail) = word.split_at_checked(1)?;
                Some(head.to_uppercase() + tail)
            });
            format!("{of}::{}", words.collect::<Option<String>>()?)
        }
        Factors => {
            let each = cell.split("; ").filter(|one| !one.is_empty());
            let each = each.map(|one| {
                let (number, rest) = one.split_once(' ')?;
                let (country, by) = rest.rsplit_once(' ')?;
                let number = figure(number)?;
                Some(format!(
                    "NationalFactor {{ factor: {number}, country: {country:?}, by: {by:?} }}"
                ))
            });
            format!("&[{}]", each.collect::<Option<Vec<_>>>()?.join(", "))
        }
    })
}

fn figure(cell: &str) -> Option<String> {
    let (whole, part) = cell.split_once('.').unwrap_or((cell, ""));
    let digits: u32 = format!("{whole}{part}").parse().ok()?;
    Some(format!(
        "Decimal::from_parts({digits}, 0, 0, false, {})",
        part.len()
    ))
}
