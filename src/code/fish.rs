//! The fish a code can name: each has a number that is never given to another.

/// Numbers and keys of the species (`trade::species`). Only ever added to, at the end.
const NUMBERED: [(u8, &str); 57] = [
    (1, "gilthead_bream"),
    (2, "sea_bass"),
    (3, "rainbow_trout"),
    (4, "salmon"),
    (5, "mackerel"),
    (6, "cod"),
    (7, "haddock"),
    (8, "hake"),
    (9, "saithe"),
    (10, "herring"),
    (11, "flatfish"),
    (12, "megrim"),
    (13, "snapper"),
    (14, "grouper"),
    (15, "barramundi"),
    (16, "nile_tilapia"),
    (17, "red_tilapia"),
    (18, "grey_mullet"),
    (19, "perch"),
    (20, "brook_trout"),
    (21, "horse_mackerel"),
    (22, "sardine"),
    (23, "tuna"),
    (24, "mahi_mahi"),
    (25, "redfish"),
    (26, "catfish"),
    (27, "alaska_pollock"),
    (28, "red_lionfish"),
    (29, "amberjack"),
    (30, "anchovy"),
    (31, "carp"),
    (32, "gurnard"),
    (33, "john_dory"),
    (34, "ling"),
    (35, "nile_perch"),
    (36, "pacific_salmon"),
    (37, "pike"),
    (38, "pollock"),
    (39, "pouting"),
    (40, "red_bream"),
    (41, "red_mullet"),
    (42, "sea_trout"),
    (43, "spanish_mackerel"),
    (44, "sprat"),
    (45, "whitefish"),
    (46, "whiting"),
    (47, "wolffish"),
    (48, "zander"),
    (49, "brill"),
    (50, "dab"),
    (51, "flounder"),
    (52, "greenland_halibut"),
    (53, "halibut"),
    (54, "lemon_sole"),
    (55, "plaice"),
    (56, "sole"),
    (57, "turbot"),
];

/// A species by its number in a code; 0 is a fish that is not in the list, whose name does not travel.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SpeciesCode(u8);

impl SpeciesCode {
    /// A fish that is not in the list.
    pub const OTHER: Self = Self(0);

    /// The fish with this number; `None` when this list does not know it.
    #[must_use]
    pub fn numbered(number: u8) -> Option<Self> {
        let known = NUMBERED.iter().any(|(known, _)| *known == number);
        (known || number == 0).then_some(Self(number))
    }

    /// The fish with this species key; [`SpeciesCode::OTHER`] when the list has none.
    #[must_use]
    pub fn of_key(key: &str) -> Self {
        NUMBERED
            .iter()
            .find(|(_, known)| *known == key)
            .map_or(Self::OTHER, |(number, _)| Self(*number))
    }

    /// Its number in a code.
    #[must_use]
    pub fn number(self) -> u8 {
        self.0
    }

    /// Its species key; `None` for a fish that is not in the list.
    #[must_use]
    pub fn key(self) -> Option<&'static str> {
        NUMBERED
            .iter()
            .find(|(number, _)| *number == self.0)
            .map(|(_, key)| *key)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_and_a_key_name_one_fish() {
        for (number, key) in NUMBERED {
            assert_eq!(SpeciesCode::of_key(key), SpeciesCode(number));
            assert_eq!(
                SpeciesCode::numbered(number).and_then(SpeciesCode::key),
                Some(key)
            );
        }
        for species in crate::trade::species::filleted() {
            assert_ne!(
                SpeciesCode::of_key(species.key),
                SpeciesCode::OTHER,
                "{}",
                species.key
            );
        }
        assert_eq!(SpeciesCode::of_key("unicorn"), SpeciesCode::OTHER);
        assert_eq!(SpeciesCode::numbered(0), Some(SpeciesCode::OTHER));
        assert_eq!(SpeciesCode::numbered(58), None);
        assert_eq!(SpeciesCode::OTHER.key(), None);
    }
}
