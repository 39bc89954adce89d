//! Published trim yields and the weights of one piece, each with its source; proposed by an ingredient's name.

use std::sync::LazyLock;

use rust_decimal::Decimal;
use serde::Deserialize;

use crate::trade::rounding;

/// Where every figure of the table is from.
pub const SOURCE: &str =
    "USDA National Nutrient Database, Standard Reference release 28 (FOOD_DES.txt, WEIGHT.txt)";

/// Where the second figures are from.
pub const SECOND_SOURCE: &str = "Bakery and Business Math (open textbook), ch. 25, Yield Percents";

/// One published trim yield.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
pub struct Trim {
    /// The ingredient, as a cook names it.
    pub name: String,
    /// Other words it goes by, parted by `/`.
    pub words: String,
    /// What is thrown away, in percent of what is bought.
    pub refuse: Decimal,
    /// What the refuse is; empty where the list does not say.
    pub what: String,
    /// Its number in the source.
    pub ndb: String,
    /// What is left by the second source, in percent of what is bought.
    pub second: Option<Decimal>,
    /// What one piece is called, where a weight of one is published.
    pub piece: String,
    /// Grams of one piece, ready to use.
    pub piece_g: Option<Decimal>,
}

impl Trim {
    /// What is left, as a share of what is bought.
    #[must_use]
    pub fn left(&self) -> Decimal {
        Decimal::ONE - self.refuse / Decimal::ONE_HUNDRED
    }

    /// What is left by every source that has it, the least first.
    #[must_use]
    pub fn range(&self) -> (Decimal, Decimal) {
        let second = self.second.map(|percent| percent / Decimal::ONE_HUNDRED);
        let second = second.unwrap_or_else(|| self.left());
        (self.left().min(second), self.left().max(second))
    }

    /// The same in words: a range where the sources disagree.
    #[must_use]
    pub fn told(&self) -> String {
        let (low, high) = self.range();
        let high = rounding::percent(high, 0);
        if low == self.range().1 {
            high
        } else {
            format!("{} to {high}", rounding::percent(low, 0))
        }
    }

    /// The figures and where each is from, in a few sentences.
    #[must_use]
    pub fn sentence(&self) -> String {
        let off = if self.what.is_empty() {
            String::new()
        } else {
            format!(" Taken off: {}.", self.what)
        };
        let second = self.second.map_or_else(String::new, |percent| {
            format!(" {percent} %: {SECOND_SOURCE}.")
        });
        format!(
            "{}: {} is left.{off} {}: {SOURCE}, NDB {}.{second}",
            self.name,
            self.told(),
            rounding::percent(self.left(), 0),
            self.ndb
        )
    }

    /// Grams of one piece as bought: the published weight ready to use, divided by the trim yield.
    #[must_use]
    pub fn piece_as_bought_g(&self) -> Option<Decimal> {
        self.piece_g?.checked_div(self.left())
    }
}

/// Reads a table of trim yields: one result for each line after the heading.
fn read(table: &str) -> impl Iterator<Item = Result<Trim, csv::Error>> {
    csv::Reader::from_reader(table.as_bytes()).into_deserialize()
}

// A line that can't be read would be left out; a test refuses such a table before it ships.
static TRIMS: LazyLock<Vec<Trim>> = LazyLock::new(|| {
    read(include_str!("trims.csv"))
        .filter_map(Result::ok)
        .collect()
});

/// Every published trim yield.
#[must_use]
pub fn trims() -> &'static [Trim] {
    &TRIMS
}

/// The trim yield published for an ingredient of this name; the one with the most words in common, so that
/// "baby courgette" is not taken for a courgette.
#[must_use]
pub fn trim_for(name: &str) -> Option<&'static Trim> {
    let spoken: Vec<String> = words(name).collect();
    let fits = |trim: &&Trim| {
        let names = std::iter::once(trim.name.as_str()).chain(trim.words.split('/'));
        let most = names.filter_map(|known| {
            let known: Vec<String> = words(known).collect();
            let all = !known.is_empty() && known.iter().all(|word| spoken.contains(word));
            let other = spoken
                .iter()
                .any(|word| OTHERWISE.contains(&word.as_str()) && !known.contains(word));
            (all && !other).then_some(known.len())
        });
        most.max().unwrap_or(0)
    };
    // Of equals the first stands.
    trims()
        .iter()
        .rev()
        .max_by_key(fits)
        .filter(|trim| fits(trim) > 0)
}

/// Words that make another thing of a vegetable, for which the figure of the raw one is wrong.
const OTHERWISE: [&str; 20] = [
    "baby", "new", "spring", "sweet", "juice", "powder", "puree", "purée", "paste", "oil", "seed",
    "zest", "dried", "tinned", "canned", "frozen", "stock", "vinegar", "starch", "sauce",
];

/// Words in small letters, in the singular as far as a final s tells.
fn words(text: &str) -> impl Iterator<Item = String> {
    text.split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(|word| {
            let word = word.to_lowercase();
            match word.strip_suffix("oes") {
                Some(stem) => format!("{stem}o"),
                None => word.strip_suffix('s').unwrap_or(&word).to_owned(),
            }
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_line_of_the_table_is_read() {
        let table = include_str!("trims.csv");
        let rows: Vec<Trim> = read(table).collect::<Result<_, _>>().unwrap();
        assert_eq!(rows.len(), table.lines().count() - 1);
        for row in &rows {
            assert!(
                row.left() > Decimal::ZERO && row.left() <= Decimal::ONE,
                "{row:?}"
            );
            assert_eq!(row.ndb.len(), 5, "{row:?}");
            assert_eq!(row.piece.is_empty(), row.piece_g.is_none(), "{row:?}");
            assert_eq!(trim_for(&row.name), Some(row), "{row:?}");
        }
    }

    #[test]
    fn a_name_finds_its_figure_and_no_other() {
        for (name, wanted) in [
            ("Leeks, in rounds", Some("Leek")),
            ("cherry tomatoes", Some("Tomato")),
            ("Potatoes", Some("Potato")),
            ("baby courgettes", Some("Baby courgette")),
            ("courgette", Some("Courgette")),
            ("Flat parsley", Some("Parsley")),
            ("a clove of garlic", Some("Garlic")),
            ("spring onion", None),
            ("olive oil", None),
            ("lemon juice", None),
            ("sweet potatoes", None),
            ("tomato purée", None),
            ("Sweet red pepper", Some("Red pepper")),
            ("", None),
            ("Asparagus", Some("Asparagus")),
            // Small ones lose another share: the grown one's figure is not theirs.
            ("baby carrots", None),
            ("new potatoes", None),
        ] {
            let found = trim_for(name).map(|trim| trim.name.as_str());
            assert_eq!(found, wanted, "{name}");
        }
    }
}
