//! Identities of records, which an address, a storage key and a file's name can all hold.

use super::instant::Instant;

/// Whether a text can be the identity of a record: 1 to 64 of the letters a to z and the digits, which an
/// address, a storage key and a file's name can all hold.
#[must_use]
pub fn is_id(text: &str) -> bool {
    (1..=64).contains(&text.len())
        && text
            .bytes()
            .all(|b| b.is_ascii_lowercase() || b.is_ascii_digit())
}

/// An identity for what is begun at `now`: later ones sort after earlier ones, and `chance` tells apart
/// two of the same moment.
#[must_use]
pub fn new_id(now: Instant, chance: u32) -> String {
    format!(
        "{}{}",
        base36(now.0.unsigned_abs()),
        base36(u64::from(chance))
    )
}

/// When a record with this identity was begun, as far as the identity tells: the figures of a moment are eight
/// from 1972 to 2059.
#[must_use]
pub fn begun(id: &str) -> Option<Instant> {
    let moment = id.get(..8).filter(|_| id.len() > 8)?;
    i64::from_str_radix(moment, 36).ok().map(Instant)
}

fn base36(mut number: u64) -> String {
    let mut figures = Vec::new();
    loop {
        figures.push(char::from_digit(u32::try_from(number % 36).unwrap_or(0), 36).unwrap_or('0'));
        number /= 36;
        if number == 0 {
            break;
        }
    }
    figures.iter().rev().collect()
}

#[cfg(test)]
mod tests {
    use super::{begun, new_id};
    use crate::base::instant::Instant;

    #[test]
    fn identities_sort_by_their_moment_and_tell_it() {
        let moments = [79_000_000_000, 1_773_099_000_000, 1_773_099_000_001];
        let mut last = String::new();
        for moment in moments {
            let id = new_id(Instant(moment), u32::MAX);
            assert_eq!(begun(&id), Some(Instant(moment)));
            assert!(id > last);
            last = id;
        }
        for id in ["", "bream", "k3f9a", "öööööööö", "-1234567a"] {
            assert!(begun(id).is_none_or(|begun| begun.0 < 0), "{id}");
        }
    }
}
