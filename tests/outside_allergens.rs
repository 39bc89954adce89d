//! What the names of ingredients propose, against the lists of two laws: every example that either names is found.
//!
//! The lists stand here as their texts have them: Annex II of Regulation (EU) No 1169/2011, and section 201(qq) of the
//! Federal Food, Drug, and Cosmetic Act (FALCPA of 2004, sesame added by the FASTER Act of 2021). From memory, word for
//! word as far as it goes.
#![allow(clippy::unwrap_used, missing_docs)]

use std::collections::BTreeSet;

use scaleside::trade::plate::allergens::{
    Allergen, AllergenList, Gathered, LineAllergens, proposed,
};
use scaleside::trade::species::species_list;

/// Annex II: its fourteen points, each with what it names by name.
const ANNEX_II: [(&[Allergen], &[&str]); 14] = [
    (
        &[Allergen::Wheat, Allergen::Gluten],
        &["Wheat", "spelt", "khorasan wheat", "rye", "barley", "oats"],
    ),
    (&[Allergen::Crustaceans], &["Crustaceans"]),
    (&[Allergen::Eggs], &["Eggs"]),
    (&[Allergen::Fish], &["Fish"]),
    (&[Allergen::Peanuts], &["Peanuts"]),
    (&[Allergen::Soybeans], &["Soybeans"]),
    (&[Allergen::Milk], &["Milk"]),
    (
        &[Allergen::Nuts],
        &[
            "Nuts",
            "almonds",
            "hazelnuts",
            "walnuts",
            "cashews",
            "pecan nuts",
            "Brazil nuts",
            "pistachio nuts",
            "macadamia or Queensland nuts",
        ],
    ),
    (&[Allergen::Celery], &["Celery"]),
    (&[Allergen::Mustard], &["Mustard"]),
    (&[Allergen::Sesame], &["Sesame seeds"]),
    (&[Allergen::Sulphites], &["sulphites"]),
    (&[Allergen::Lupin], &["Lupin"]),
    (&[Allergen::Molluscs], &["Molluscs"]),
];

/// The nine of the United States, with the examples of the act.
const NINE: [(Allergen, &[&str]); 9] = [
    (Allergen::Milk, &["Milk"]),
    (Allergen::Eggs, &["Egg"]),
    (Allergen::Fish, &["fish", "bass", "flounder", "cod"]),
    (Allergen::Crustaceans, &["crab", "lobster", "shrimp"]),
    (Allergen::Nuts, &["almonds", "pecans", "walnuts"]),
    (Allergen::Wheat, &["wheat"]),
    (Allergen::Peanuts, &["peanuts"]),
    (Allergen::Soybeans, &["soybeans"]),
    (Allergen::Sesame, &["sesame"]),
];

#[test]
fn every_example_of_the_european_list_is_proposed() {
    let mut listed = BTreeSet::new();
    for (of_point, names) in ANNEX_II {
        for name in names {
            let found = proposed(name);
            let meant = of_point.iter().any(|one| found.contains(one));
            assert!(meant, "{name}: {found:?}");
        }
        listed.extend(of_point);
    }
    let ours: BTreeSet<Allergen> = AllergenList::Europe.all().collect();
    assert_eq!(ours.iter().collect::<BTreeSet<_>>(), listed);
}

#[test]
fn every_example_of_the_nine_is_proposed_and_the_list_has_no_other() {
    for (allergen, names) in NINE {
        for name in names {
            assert!(proposed(name).contains(&allergen), "{name}");
        }
    }
    let wanted: BTreeSet<Allergen> = NINE.iter().map(|(allergen, _)| *allergen).collect();
    assert_eq!(
        AllergenList::UnitedStates.all().collect::<BTreeSet<_>>(),
        wanted
    );
}

/// Every fish of the list is a fish by its name as well.
#[test]
fn every_fish_and_shellfish_of_the_list_is_proposed_as_what_it_is() {
    for species in species_list() {
        let kind = match species.key {
            "crab" | "langoustine" | "lobster" | "prawn" => Allergen::Crustaceans,
            "cuttlefish" | "mussel" | "octopus" | "oyster" | "scallop" | "squid" => {
                Allergen::Molluscs
            }
            _ => Allergen::Fish,
        };
        assert!(proposed(species.name).contains(&kind), "{}", species.name);
    }
}

/// The dish of the issue: mussels, bread and cream.
#[test]
fn mussels_bread_and_cream_bring_molluscs_gluten_and_milk() {
    let line = |name: &str| LineAllergens {
        name: name.to_owned(),
        contains: proposed(name),
        confirmed: false,
    };
    let gathered = Gathered::of(
        &[line("Mussels"), line("Bread"), line("Cream")],
        AllergenList::Europe,
    );
    let found: Vec<Allergen> = gathered.proposed.iter().map(|(one, _)| *one).collect();
    assert_eq!(found, [Allergen::Wheat, Allergen::Milk, Allergen::Molluscs]);
    // None of it is told as known, and none of the three as looked through.
    assert_eq!(gathered.confirmed, []);
    assert_eq!(gathered.open, ["Mussels", "Bread", "Cream"]);
    // The law of the United States has no molluscs.
    let there = Gathered::of(&[line("Mussels")], AllergenList::UnitedStates);
    assert_eq!(there.proposed, []);
}
