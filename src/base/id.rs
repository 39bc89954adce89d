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
