//! What a guest may react to: the lists of two laws, and what the name of an ingredient proposes.
//!
//! A name only proposes. What the cook confirms counts; what nobody has confirmed is never told as absent.

use std::collections::BTreeSet;
use std::sync::LazyLock;

use serde::{Deserialize, Serialize};

use crate::trade::species::species_list;

/// One thing a guest may react to. Wheat is one of the cereals with gluten: the law of the United States names it alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Allergen {
    /// Wheat, spelt and khorasan among it.
    Wheat,
    /// Another cereal with gluten: rye, barley, oats.
    Gluten,
    /// Crustaceans.
    Crustaceans,
    /// Eggs.
    Eggs,
    /// Fish.
    Fish,
    /// Peanuts.
    Peanuts,
    /// Soybeans.
    Soybeans,
    /// Milk, its lactose among it.
    Milk,
    /// Nuts that grow on trees.
    Nuts,
    /// Celery.
    Celery,
    /// Mustard.
    Mustard,
    /// Sesame seeds.
    Sesame,
    /// Sulphur dioxide and sulphites.
    Sulphites,
    /// Lupin.
    Lupin,
    /// Molluscs.
    Molluscs,
}

impl Allergen {
    /// Every one, in the order of the European list.
    pub const ALL: [Self; 15] = [
        Self::Wheat,
        Self::Gluten,
        Self::Crustaceans,
        Self::Eggs,
        Self::Fish,
        Self::Peanuts,
        Self::Soybeans,
        Self::Milk,
        Self::Nuts,
        Self::Celery,
        Self::Mustard,
        Self::Sesame,
        Self::Sulphites,
        Self::Lupin,
        Self::Molluscs,
    ];

    /// What it is called.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Wheat => "Gluten: wheat",
            Self::Gluten => "Gluten: rye, barley, oats",
            Self::Crustaceans => "Crustaceans",
            Self::Eggs => "Eggs",
            Self::Fish => "Fish",
            Self::Peanuts => "Peanuts",
            Self::Soybeans => "Soybeans",
            Self::Milk => "Milk",
            Self::Nuts => "Tree nuts",
            Self::Celery => "Celery",
            Self::Mustard => "Mustard",
            Self::Sesame => "Sesame",
            Self::Sulphites => "Sulphites",
            Self::Lupin => "Lupin",
            Self::Molluscs => "Molluscs",
        }
    }

    /// What it is called in the table of words.
    fn key(self) -> &'static str {
        match self {
            Self::Wheat => "wheat",
            Self::Gluten => "gluten",
            Self::Crustaceans => "crustaceans",
            Self::Eggs => "eggs",
            Self::Fish => "fish",
            Self::Peanuts => "peanuts",
            Self::Soybeans => "soybeans",
            Self::Milk => "milk",
            Self::Nuts => "nuts",
            Self::Celery => "celery",
            Self::Mustard => "mustard",
            Self::Sesame => "sesame",
            Self::Sulphites => "sulphites",
            Self::Lupin => "lupin",
            Self::Molluscs => "molluscs",
        }
    }

    fn of_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|allergen| allergen.key() == key)
    }
}

/// Whose list is gone by. The local one may ask for more.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum AllergenList {
    /// The 14 of Annex II of Regulation (EU) No 1169/2011, its cereals told apart.
    #[default]
    Europe,
    /// The nine major food allergens of the United States: FALCPA of 2004, and sesame by the FASTER Act of 2021.
    UnitedStates,
}

impl AllergenList {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Europe, Self::UnitedStates];

    /// What it is called where it is chosen.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Europe => "European Union: 14",
            Self::UnitedStates => "United States: 9",
        }
    }

    /// Where it stands.
    #[must_use]
    pub fn source(self) -> &'static str {
        match self {
            Self::Europe => "Regulation (EU) No 1169/2011, Annex II",
            Self::UnitedStates => "FALCPA of 2004 and FASTER Act of 2021",
        }
    }

    /// Whether it names this.
    #[must_use]
    pub fn names(self, allergen: Allergen) -> bool {
        match self {
            Self::Europe => true,
            Self::UnitedStates => !matches!(
                allergen,
                Allergen::Gluten
                    | Allergen::Celery
                    | Allergen::Mustard
                    | Allergen::Sulphites
                    | Allergen::Lupin
                    | Allergen::Molluscs
            ),
        }
    }

    /// All that it names.
    pub fn all(self) -> impl Iterator<Item = Allergen> {
        let names = move |allergen: &Allergen| self.names(*allergen);
        Allergen::ALL.into_iter().filter(names)
    }
}

/// A word or several, and what they propose.
struct Named {
    words: Vec<String>,
    may_be: Option<Allergen>,
}

/// Words of kitchens, chosen for this table by what the two laws name: common practice, no source; and the list of species.
/// Each row of words may be one thing; of several words the longest run is taken before any shorter one inside it.
static NAMED: LazyLock<Vec<Named>> = LazyLock::new(|| {
    let rows = include_str!("allergens.csv").lines().skip(1);
    let each = rows.filter_map(|row| row.split_once(','));
    let mut named: Vec<Named> = each
        .flat_map(|(all, may_be)| {
            all.split('/').map(|name| Named {
                words: words(name),
                may_be: Allergen::of_key(may_be.trim()),
            })
        })
        .collect();
    named.extend(species_list().iter().map(|species| Named {
        words: words(species.name),
        may_be: Some(of_species(species.key)),
    }));
    named.sort_by_key(|named| std::cmp::Reverse(named.words.len()));
    named
});

/// What the name of an ingredient proposes. Nothing found is no word that nothing is in it.
#[must_use]
pub fn proposed(name: &str) -> BTreeSet<Allergen> {
    let words = words(name);
    let mut taken = vec![false; words.len()];
    let mut found = BTreeSet::new();
    let mut at_length = usize::MAX;
    let mut now_taken: Vec<usize> = Vec::new();
    for named in NAMED.iter() {
        let length = named.words.len();
        if length < at_length {
            // Words of one run may propose several things; only shorter runs must leave them alone.
            for at in now_taken.drain(..) {
                if let Some(taken) = taken.get_mut(at) {
                    *taken = true;
                }
            }
            at_length = length;
        }
        for (at, run) in words.windows(length.max(1)).enumerate() {
            let is_free = taken.iter().skip(at).take(length).all(|taken| !taken);
            let is_it = run.iter().zip(&named.words).all(|(one, word)| one == word);
            if is_free && is_it {
                found.extend(named.may_be);
                now_taken.extend(at..at.saturating_add(length));
            }
        }
    }
    found
}

/// What a fish or shellfish of the list is to the law.
fn of_species(key: &str) -> Allergen {
    match key {
        "crab" | "langoustine" | "lobster" | "prawn" => Allergen::Crustaceans,
        "cuttlefish" | "mussel" | "octopus" | "oyster" | "scallop" | "squid" => Allergen::Molluscs,
        _ => Allergen::Fish,
    }
}

/// The words of a name as they are compared: small letters without accents, one of a kind.
fn words(name: &str) -> Vec<String> {
    let plain: String = name
        .chars()
        .flat_map(char::to_lowercase)
        .map(bare)
        .collect();
    plain
        .split(|letter: char| !letter.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(singular)
        .collect()
}

fn bare(letter: char) -> char {
    match letter {
        'à' | 'á' | 'â' | 'ä' | 'ã' | 'å' => 'a',
        'è' | 'é' | 'ê' | 'ë' => 'e',
        'ì' | 'í' | 'î' | 'ï' => 'i',
        'ò' | 'ó' | 'ô' | 'ö' | 'õ' => 'o',
        'ù' | 'ú' | 'û' | 'ü' => 'u',
        'ç' => 'c',
        'ñ' => 'n',
        other => other,
    }
}

fn singular(word: &str) -> String {
    let ends = |end: &str| word.strip_suffix(end).filter(|stem| stem.len() > 2);
    match (ends("ies"), ends("oes"), ends("s")) {
        (Some(stem), _, _) => format!("{stem}y"),
        (_, Some(stem), _) => format!("{stem}o"),
        // "Bass" and "molluscs" end alike: a word of two is one.
        (_, _, Some(stem)) if !stem.ends_with('s') => stem.to_owned(),
        _ => word.to_owned(),
    }
}

/// What the lines of a dish, and of the parts made ahead in it, come to.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Gathered {
    /// What the cook has confirmed, each with the ingredients it is in.
    pub confirmed: Vec<(Allergen, Vec<String>)>,
    /// What names alone propose, not confirmed by anybody.
    pub proposed: Vec<(Allergen, Vec<String>)>,
    /// The ingredients of which nobody has said yet what is in them.
    pub open: Vec<String>,
}

/// What is said of one ingredient.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct LineAllergens {
    /// What it is called.
    pub name: String,
    /// What is in it.
    pub contains: BTreeSet<Allergen>,
    /// Whether the cook has confirmed that, and that nothing else is.
    pub confirmed: bool,
}

impl Gathered {
    /// What several ingredients come to by one list. What is confirmed of one is not told as proposed of another.
    #[must_use]
    pub fn of(all: &[LineAllergens], list: AllergenList) -> Self {
        let names = |allergen: Allergen, confirmed: bool| {
            let mut names: Vec<String> = Vec::new();
            for said in all {
                let has = said.confirmed == confirmed && said.contains.contains(&allergen);
                if has && !names.contains(&said.name) {
                    names.push(said.name.clone());
                }
            }
            (!names.is_empty()).then_some((allergen, names))
        };
        let mut open: Vec<String> = Vec::new();
        for said in all.iter().filter(|said| !said.confirmed) {
            if !open.contains(&said.name) {
                open.push(said.name.clone());
            }
        }
        Self {
            confirmed: list.all().filter_map(|one| names(one, true)).collect(),
            proposed: list.all().filter_map(|one| names(one, false)).collect(),
            open,
        }
    }

    /// The same in sentences, to be read and printed.
    #[must_use]
    pub fn sentences(&self) -> Vec<String> {
        let named = |(allergen, names): &(Allergen, Vec<String>)| {
            format!("{} ({})", allergen.name(), names.join(", "))
        };
        let all = |found: &[(Allergen, Vec<String>)]| -> Vec<String> {
            found.iter().map(named).collect()
        };
        let mut said = all(&self.confirmed);
        said.extend(
            all(&self.proposed)
                .into_iter()
                .map(|one| format!("By its name, not confirmed: {one}")),
        );
        if !self.open.is_empty() {
            said.push(format!("Not confirmed yet: {}", self.open.join(", ")));
        }
        said
    }
}

#[cfg(test)]
mod tests;
