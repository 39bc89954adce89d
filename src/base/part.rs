//! What stands in a list of a record and is addressed by an identity of its own, so that a tap finds the thing it
//! named, whatever other tabs have added or taken out meanwhile.
//!
//! A part that was stored without an identity has the number of its place, from 1: every tab that reads the same copy
//! gives it the same. It is written only where it says more than the place does, so that what the first builds stored
//! reads and is written again as it was.

use std::collections::BTreeSet;

use serde::de::{Deserialize, Deserializer};
use serde::ser::{Serialize, Serializer};

use super::id::is_id;

/// A part of a record.
pub trait Part {
    /// Its identity among the parts of its list.
    fn id(&self) -> &str;
    /// The same, to be given.
    fn id_mut(&mut self) -> &mut String;
}

/// Where the part `id` stands.
pub fn place_of<P: Part>(parts: &[P], id: &str) -> Option<usize> {
    parts.iter().position(|part| part.id() == id)
}

/// The part `id`.
pub fn find_mut<'p, P: Part>(parts: &'p mut [P], id: &str) -> Option<&'p mut P> {
    parts.iter_mut().find(|part| part.id() == id)
}

/// Gives every part an identity that no other has: its own, or the number of its place.
pub fn name_all<P: Part>(parts: &mut [P]) {
    let mut taken = BTreeSet::new();
    for part in parts.iter_mut() {
        // Whatever a text may hold that comes from elsewhere: an identity stands in an address too.
        if !is_id(part.id()) || !taken.insert(part.id().to_owned()) {
            part.id_mut().clear();
        }
    }
    for (nth, part) in parts.iter_mut().enumerate() {
        if part.id().is_empty() {
            let mut id = number(nth);
            while !taken.insert(id.clone()) {
                id.push('x');
            }
            *part.id_mut() = id;
        }
    }
}

/// Reads a list of parts, for `serde(deserialize_with)`.
///
/// # Errors
/// What the list itself has.
pub fn read<'de, D: Deserializer<'de>, P: Part + Deserialize<'de>>(
    from: D,
) -> Result<Vec<P>, D::Error> {
    let mut parts = Vec::deserialize(from)?;
    name_all(&mut parts);
    Ok(parts)
}

/// Writes a list of parts, for `serde(serialize_with)`.
///
/// # Errors
/// What the list itself has.
pub fn write<S: Serializer, P: Part + Clone + Serialize>(
    parts: &[P],
    to: S,
) -> Result<S::Ok, S::Error> {
    to.collect_seq(parts.iter().enumerate().map(|(nth, part)| {
        let mut part = part.clone();
        if part.id() == number(nth) {
            part.id_mut().clear();
        }
        part
    }))
}

fn number(nth: usize) -> String {
    nth.saturating_add(1).to_string()
}

#[cfg(test)]
mod tests {
    use super::{Part, name_all, read, write};
    use serde::{Deserialize, Serialize};

    #[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
    struct Leek {
        #[serde(default, skip_serializing_if = "String::is_empty")]
        id: String,
    }

    impl Part for Leek {
        fn id(&self) -> &str {
            &self.id
        }

        fn id_mut(&mut self) -> &mut String {
            &mut self.id
        }
    }

    fn leeks(ids: &[&str]) -> Vec<Leek> {
        ids.iter().map(|&id| Leek { id: id.into() }).collect()
    }

    #[test]
    fn each_has_its_own_name_and_what_is_written_reads_back() {
        for (stored, named) in [
            (vec![], vec![]),
            (vec!["", "", ""], vec!["1", "2", "3"]),
            (vec!["", "k3", ""], vec!["1", "k3", "3"]),
            (vec!["k3", "k3", "k3"], vec!["k3", "2", "3"]),
            (vec!["2", ""], vec!["2", "2x"]),
            (vec!["../x", "<b>", "k3"], vec!["1", "2", "k3"]),
            (vec!["3", "", "3x", ""], vec!["3", "2", "3x", "4"]),
            (
                vec!["2", "", "2x", "4", ""],
                vec!["2", "2xx", "2x", "4", "5"],
            ),
        ] {
            let mut parts = leeks(&stored);
            name_all(&mut parts);
            assert_eq!(parts, leeks(&named), "{stored:?}");
            let text = write(&parts, serde_json::value::Serializer)
                .unwrap()
                .to_string();
            let again: Vec<Leek> = read(&mut serde_json::Deserializer::from_str(&text)).unwrap();
            assert_eq!(again, parts, "{text}");
        }
        // One of three was taken out: the others keep their names.
        let text = write(&leeks(&["1", "3"]), serde_json::value::Serializer).unwrap();
        assert_eq!(text.to_string(), r#"[{},{"id":"3"}]"#);
    }
}
