//! The fish in the picker, what each calls for in the cold, and when its weight should be questioned.

use rust_decimal::Decimal;

use super::breakdown::DeliveryForm;
use super::mass::{Mass, Unit};
use super::plausible;

/// Families "associated with a high amount of histidine", whose flesh may form histamine in the warm:
/// Regulation (EC) No 2073/2005, as amended by (EU) No 1019/2013; list as quoted by seafish.org.
const HISTAMINE_FAMILIES: [&str; 6] = [
    "Scombridae",
    "Clupeidae",
    "Engraulidae",
    "Coryphaenidae",
    "Pomatomidae",
    "Scomberesocidae",
];

/// One fish of any kind: common practice, no source.
const LIGHTEST_G: i64 = 80;
const HEAVIEST_G: i64 = 15_000;

/// A fish the cook can pick.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ListedSpecies {
    /// The name it is stored under.
    pub key: &'static str,
    /// The name at the fishmonger's.
    pub name: &'static str,
    /// The scientific name of the species, or of the group.
    pub scientific: &'static str,
    /// The family; empty for a group of several.
    pub family: &'static str,
    /// Whether it lives on reefs, where large fish may carry ciguatera, which no cooking destroys.
    pub reef: bool,
    lightest_g: i64,
    heaviest_g: i64,
}

impl ListedSpecies {
    /// Whether its family forms histamine when it is kept warm, which no cooking destroys.
    #[must_use]
    pub fn histamine_family(&self) -> bool {
        HISTAMINE_FAMILIES.contains(&self.family)
    }
}

// Made of `species.csv` by `build.rs`.
static SPECIES: &[ListedSpecies] = include!(concat!(env!("OUT_DIR"), "/species.rs"));

/// Every fish, the most usual first.
#[must_use]
pub fn species_list() -> &'static [ListedSpecies] {
    SPECIES
}

/// The fish stored under `key`; `None` for one the cook named.
#[must_use]
pub fn species(key: &str) -> Option<&'static ListedSpecies> {
    species_list().iter().find(|species| species.key == key)
}

/// A delivered weight that is unusual for one fish of its kind, to be asked about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OddWeight {
    pub(super) mass: Mass,
    /// What the cook reads it in.
    pub(super) unit: Unit,
    /// Nothing for one that the cook named.
    pub(super) species: Option<&'static ListedSpecies>,
    /// Whether it is too light; else it is too heavy.
    pub(super) light: bool,
}

/// What is to be asked about a delivered weight that is unusual for one fish of the species with this key (or of
/// any kind, when the cook named it), shown in the cook's `unit`; `None` when there is nothing to ask.
///
/// A fish without head or guts is judged by what it weighed whole. The bounds are common practice,
/// no source.
#[must_use]
pub fn doubt(mass: Mass, species_key: &str, form: DeliveryForm, unit: Unit) -> Option<OddWeight> {
    let known = species(species_key);
    let (lightest, heaviest) = known.map_or((LIGHTEST_G, HEAVIEST_G), |species| {
        (species.lightest_g, species.heaviest_g)
    });
    let whole = mass.in_kilos() * plausible::whole_for(form);
    let light = whole < Decimal::new(lightest, 3);
    let odd = light || whole > Decimal::new(heaviest, 3);
    odd.then_some(OddWeight {
        mass,
        unit,
        species: known,
        light,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_line_is_a_fish_with_a_key_of_its_own() {
        let list = species_list();
        assert_eq!(list.len(), include_str!("species.csv").lines().count() - 1);
        let mut keys: Vec<&str> = list.iter().map(|species| species.key).collect();
        keys.sort_unstable();
        keys.dedup();
        assert_eq!(keys.len(), list.len());
        for species in list {
            assert!(
                !species.name.is_empty() && !species.scientific.is_empty(),
                "{species:?}"
            );
            assert!(
                0 < species.lightest_g && species.lightest_g < species.heaviest_g,
                "{species:?}"
            );
        }
    }

    #[test]
    fn an_unusual_weight_is_questioned() {
        for (grams, key, form, asks) in [
            (648, "gilthead_bream", DeliveryForm::GuttedScaled, None),
            (
                64,
                "gilthead_bream",
                DeliveryForm::Whole,
                Some("64 g is light for one gilthead bream"),
            ),
            (
                6480,
                "gilthead_bream",
                DeliveryForm::Whole,
                Some("is heavy for one gilthead bream"),
            ),
            (110, "gilthead_bream", DeliveryForm::HeadedGutted, None),
            (110, "gilthead_bream", DeliveryForm::Whole, Some("is light")),
            (79, "", DeliveryForm::Whole, Some("light for one fish")),
            (80, "", DeliveryForm::Whole, None),
            (15_000, "", DeliveryForm::Whole, None),
            (15_001, "", DeliveryForm::Whole, Some("heavy for one fish")),
            (60, "sardine", DeliveryForm::Whole, None),
        ] {
            let doubt = doubt(Mass::from_mg(grams * 1000), key, form, Unit::Gram);
            let doubt = doubt.map(|odd| odd.to_string());
            match asks {
                None => assert_eq!(doubt, None, "{grams} g {key}"),
                Some(part) => assert!(doubt.clone().unwrap().contains(part), "{doubt:?}"),
            }
        }
    }
}
