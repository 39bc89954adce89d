//! The fish in the picker, what each calls for in the cold, and when its weight should be questioned.

use rust_decimal::Decimal;

use super::breakdown::DeliveryForm;
use super::mass::{Mass, Unit};
use super::plausible;

/// Families whose flesh may form histamine in the warm: those of Regulation (EC) No 2073/2005, as amended by (EU) No
/// 1019/2013 ("associated with a high amount of histidine"; list as quoted by seafish.org), and the jacks, which Food
/// Standards Australia New Zealand names beside them (imported food risk statement on histamine in fish).
const HISTAMINE_FAMILIES: [&str; 7] = [
    "Carangidae",
    "Scombridae",
    "Clupeidae",
    "Engraulidae",
    "Coryphaenidae",
    "Pomatomidae",
    "Scomberesocidae",
];

/// The lightest fish of a kind that is not listed, in grams: common practice, no source, as the next.
pub const LIGHTEST_G: i64 = 80;
/// The heaviest of any kind.
pub const HEAVIEST_G: i64 = 15_000;

/// How it is taken off the bone, where it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Filleted {
    /// One fillet from each side, from the back to the belly.
    Round,
    /// Two from each side, from the middle line outwards: flat fish (Pleuronectiformes).
    Flat,
    /// Not by two fillets: shellfish, and fish of which the tail, the wings or a piece is sold. Its yield is looked up.
    Never,
}

/// A fish or shellfish the cook can pick or look up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ListedSpecies {
    /// The name it is stored under.
    pub key: &'static str,
    /// The name at the fishmonger's.
    pub name: &'static str,
    /// The family; empty for a group of several.
    pub family: &'static str,
    /// Whether it lives on reefs, where large fish may carry ciguatera, which no cooking destroys.
    pub reef: bool,
    lightest_g: i64,
    heaviest_g: i64,
    /// How it is taken off the bone.
    pub filleted: Filleted,
    /// The greatest published share of it, in percent of the whole fish, that is left without head and guts.
    pub(super) headed_percent: Option<Decimal>,
    /// The greatest published share of the whole fish that is fillets with their skin, in percent, rounded up, where that
    /// is more than most fish give; else 0.
    pub(super) most_percent: u8,
    /// What else a cook calls it, parted by `/`: common practice, no source.
    pub(super) also: &'static str,
}

impl ListedSpecies {
    /// Whether it is called so, in capitals or not.
    #[must_use]
    pub fn is_called(&self, name: &str) -> bool {
        // Letters beyond English ones as they are typed: the tables that fold all of them are as large as the list.
        let name = name.trim();
        std::iter::once(self.name)
            .chain(self.also.split('/'))
            .any(|one| !one.is_empty() && one.eq_ignore_ascii_case(name))
    }

    /// Whether its family forms histamine when it is kept warm, which no cooking destroys.
    #[must_use]
    pub fn histamine_family(&self) -> bool {
        HISTAMINE_FAMILIES.contains(&self.family)
    }
}

// Made of `species.csv` by `build.rs`.
static SPECIES: &[ListedSpecies] = include!(concat!(env!("OUT_DIR"), "/species.rs"));

/// Every fish and shellfish: round fish by name, then flat fish, then what is only looked up.
#[must_use]
pub fn species_list() -> &'static [ListedSpecies] {
    SPECIES
}

/// Those that are filleted, which is what the job is about.
pub fn filleted() -> impl Iterator<Item = &'static ListedSpecies> {
    (species_list().iter()).filter(|species| species.filleted != Filleted::Never)
}

/// Whether the fish stored under `key` is a flat fish.
#[must_use]
pub fn is_flat(key: &str) -> bool {
    species(key).is_some_and(|species| species.filleted == Filleted::Flat)
}

/// The one a cook calls so.
#[must_use]
pub fn called(name: &str) -> Option<&'static ListedSpecies> {
    species_list()
        .iter()
        .find(|species| species.is_called(name))
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
    pub(super) may_be_two: bool,
}

impl OddWeight {
    /// Whether two fish of the kind weigh so much, so that two may be on the scale.
    #[must_use]
    pub fn may_be_two(&self) -> bool {
        self.may_be_two
    }
}

/// The fillets off the bone leave less for head and bones than any fish of the kind has, to be asked about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OddOffBone {
    /// What they leave.
    pub(super) left: Mass,
    pub(super) unit: Unit,
    pub(super) species: Option<&'static ListedSpecies>,
    pub(super) form: DeliveryForm,
}

/// Without a figure for the kind: the greatest share without head and guts among the FAO factors but for herring, which
/// is 77 % for salmon (FAO/CWP *Handbook of Fishery Statistics*, as quoted in text copies).
pub(super) const HEADED_PERCENT: Decimal = Decimal::from_parts(77, 0, 0, false, 0);

/// The most of a fish that comes headed and gutted: nine tenths. Common practice, no source.
pub(super) const MOST_OF_HEADED: Decimal = Decimal::from_parts(9, 0, 0, false, 1);

/// What is to be asked about fillets off the bone of `off_bone`, from a fish of `delivered`; `None` when there is nothing
/// to ask.
///
/// A fish without head and guts still has its frame, so fillets never weigh as much as is published for it.
#[must_use]
pub fn off_bone_doubt(
    delivered: Mass,
    off_bone: Mass,
    species_key: &str,
    form: DeliveryForm,
    unit: Unit,
) -> Option<OddOffBone> {
    let known = species(species_key);
    let headed = known
        .and_then(|species| species.headed_percent)
        .unwrap_or(HEADED_PERCENT);
    let most = match form {
        DeliveryForm::HeadedGutted => MOST_OF_HEADED,
        form => headed / Decimal::ONE_HUNDRED * plausible::least_whole_for(form),
    };
    (off_bone.in_kilos() > delivered.in_kilos() * most).then(|| OddOffBone {
        left: delivered.checked_sub(off_bone).unwrap_or_default(),
        unit,
        species: known,
        form,
    })
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
        may_be_two: !light && whole <= Decimal::new(heaviest, 3) * Decimal::TWO,
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
            assert!(!species.name.is_empty(), "{species:?}");
            assert!(
                0 < species.lightest_g && species.lightest_g < species.heaviest_g,
                "{species:?}"
            );
        }
    }

    /// The column beside the species is that of the published figures.
    #[test]
    fn the_share_without_head_and_guts_is_the_published_one() {
        for species in species_list() {
            let published = super::super::published::rows()
                .iter()
                .filter(|row| row.key == species.key && row.form == DeliveryForm::Whole)
                .filter(|row| row.product == super::super::published::Product::HeadedGutted)
                .map(|row| row.high_percent)
                .max();
            assert_eq!(species.headed_percent, published, "{}", species.key);
        }
    }

    #[test]
    fn each_is_found_by_any_of_its_names_and_no_name_is_of_two() {
        for (name, key) in [
            ("branzino", "sea_bass"),
            ("LOUP DE MER", "sea_bass"),
            ("Dorade", "gilthead_bream"),
            ("coley", "saithe"),
            ("Dover sole", "sole"),
            ("scampi", "langoustine"),
            ("mussel", "mussel"),
            ("Flatfish (sole, plaice, turbot)", "flatfish"),
        ] {
            assert_eq!(called(name).map(|species| species.key), Some(key), "{name}");
        }
        assert_eq!(called(""), None);
        assert_eq!(called("unicorn"), None);
        let mut names: Vec<String> = (species_list().iter())
            .flat_map(|species| std::iter::once(species.name).chain(species.also.split('/')))
            .filter(|name| !name.is_empty())
            .map(str::to_ascii_lowercase)
            .collect();
        let count = names.len();
        names.sort();
        names.dedup();
        assert_eq!(names.len(), count);
    }

    #[test]
    fn forty_fish_are_filleted_and_shellfish_are_not() {
        assert!(filleted().count() >= 40, "{}", filleted().count());
        let shellfish =
            "mussel oyster scallop squid cuttlefish octopus prawn langoustine lobster crab";
        for key in shellfish.split(' ') {
            assert_eq!(species(key).unwrap().filleted, Filleted::Never, "{key}");
        }
        assert!(is_flat("plaice") && !is_flat("cod") && !is_flat("skate"));
    }

    #[test]
    fn the_most_that_a_fish_gives_is_the_published_one() {
        use super::super::published::{Product, at_most};
        for species in species_list() {
            let published = super::super::published::rows()
                .iter()
                .filter(|row| row.key == species.key && row.form == DeliveryForm::Whole)
                .filter(|row| matches!(row.product, Product::SkinOnFillet | Product::Fillet))
                .flat_map(super::super::published::PublishedRow::figures)
                .filter(|figure| *figure <= at_most(species.key))
                .map(|figure| figure.ceil())
                .filter(|most| *most > Decimal::from(plausible::USUAL_MOST))
                .max();
            let kept = (species.most_percent > 0).then_some(Decimal::from(species.most_percent));
            assert_eq!(kept, published, "{}", species.key);
        }
    }

    /// Sea bream is 68.0 % without head and guts (FAO/CWP Handbook of Fishery Statistics, as quoted in text copies):
    /// 440.6 g of a whole 648 g. Every published skin-on fillet, and the flesh of Celik et al., lies well below.
    #[test]
    fn a_head_and_frame_of_a_few_grams_are_asked_about() {
        for (delivered, off_bone, key, form, asks) in [
            (
                648,
                336,
                "gilthead_bream",
                DeliveryForm::GuttedScaled,
                false,
            ),
            (648, 440, "gilthead_bream", DeliveryForm::Whole, false),
            (648, 441, "gilthead_bream", DeliveryForm::Whole, true),
            (648, 484, "gilthead_bream", DeliveryForm::Gutted, false),
            (648, 485, "gilthead_bream", DeliveryForm::Gutted, true),
            (648, 645, "", DeliveryForm::HeadedGutted, true),
            (648, 500, "", DeliveryForm::HeadedGutted, false),
            (648, 648, "", DeliveryForm::Whole, true),
            (1000, 770, "", DeliveryForm::Whole, false),
            (300, 240, "herring", DeliveryForm::Whole, false),
        ] {
            let g = |grams: i64| Mass::from_mg(grams * 1000);
            let doubt = off_bone_doubt(g(delivered), g(off_bone), key, form, Unit::Gram);
            assert_eq!(
                doubt.is_some(),
                asks,
                "{delivered} {off_bone} {key} {form:?}"
            );
        }
        let none = off_bone_doubt(
            Mass::from_mg(648_000),
            Mass::from_mg(648_000),
            "cod",
            DeliveryForm::Whole,
            Unit::Gram,
        );
        let said = none.unwrap().to_string();
        assert!(said.starts_with("That leaves 0 g for head, guts"), "{said}");
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
            (
                7400,
                "gilthead_bream",
                DeliveryForm::Whole,
                Some("are there two on the scale"),
            ),
            (
                9000,
                "gilthead_bream",
                DeliveryForm::Whole,
                Some("is it one fish without its box and ice"),
            ),
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
