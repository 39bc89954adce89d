//! A word with one letter missing, or one too many: each place is tried, and only one answer is an answer.
//!
//! What stands behind the place moves by one, and with it its mask; so from one place to the next only two letters of
//! the word change, and the five values that must be zero (see `mend`) are carried along.

use super::alphabet::GROUP;
use super::galois::{Wide, times};
use super::mend::is_length;
use super::running::powers;

/// A word that is one letter off what was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OneOff {
    /// The whole word as it should have been read, as values.
    pub word: Vec<u8>,
    /// The place, from 0, of the letter that was missing, or of the one that was too many.
    pub place: usize,
    /// Whether it was missing.
    pub missing: bool,
}

/// The one word that has these letters but for one that is missing, or one too many. `None` where there is no such word, or
/// more than one.
#[must_use]
pub fn one_off(read: &[Option<u8>]) -> Option<OneOff> {
    let letters: Vec<u8> = read.iter().copied().collect::<Option<_>>()?;
    let missing = is_length(letters.len() + 1);
    if !(missing || letters.len() > 1 && is_length(letters.len() - 1)) {
        return None;
    }
    let length = if missing {
        letters.len() + 1
    } else {
        letters.len() - 1
    };
    let masks = masks(length);
    let at_place: Vec<[Wide; 5]> = (0..length).rev().map(powers).collect();
    let mut sums = beginning(&letters, length, missing, &masks, &at_place)?;
    let mut found: Option<OneOff> = None;
    for place in 0..=letters.len() {
        if let Some(letter) = fitting(&sums, missing, place, &masks, &at_place) {
            let mut word = letters.clone();
            match letter {
                Some(letter) => word.insert(place, letter),
                None if place < word.len() => {
                    word.remove(place);
                }
                None => break,
            }
            // One letter more in a row of the same is the same word.
            match &found {
                Some(known) if known.word != word => return None,
                Some(_) => {}
                None => {
                    found = Some(OneOff {
                        word,
                        place,
                        missing,
                    })
                }
            }
        }
        let (Some(this), next) = (letters.get(place), letters.get(place + 1)) else {
            break;
        };
        let (Some(mask), Some(power)) = (masks.get(place), at_place.get(place)) else {
            break;
        };
        if missing {
            // The letter takes the place, and leaves the next one free.
            let (Some(next_mask), Some(next_power)) =
                (masks.get(place + 1), at_place.get(place + 1))
            else {
                break;
            };
            add(&mut sums, this ^ mask, power);
            add(&mut sums, this ^ next_mask, next_power);
        } else {
            add(&mut sums, this ^ next.copied().unwrap_or(0), power);
        }
    }
    found
}

/// The values of the word whose first letter is the one that is left open, or left out.
fn beginning(
    letters: &[u8],
    length: usize,
    missing: bool,
    masks: &[u8],
    at_place: &[[Wide; 5]],
) -> Option<[Wide; 5]> {
    let unsent = Wide::of(u8::try_from(length / GROUP).ok()?);
    let mut sums = [Wide::ZERO; 5];
    for (sum, power) in sums.iter_mut().zip(powers(length)) {
        *sum = unsent.times(power);
    }
    let rest = letters.iter().skip(usize::from(!missing));
    let from = usize::from(missing);
    for ((letter, mask), power) in rest
        .zip(masks.iter().skip(from))
        .zip(at_place.iter().skip(from))
    {
        add(&mut sums, letter ^ mask, power);
    }
    Some(sums)
}

/// The letter that makes the word hold at `place`, masked out again; nothing in it where a letter is left out.
fn fitting(
    sums: &[Wide; 5],
    missing: bool,
    place: usize,
    masks: &[u8],
    at_place: &[[Wide; 5]],
) -> Option<Option<u8>> {
    if !missing {
        return sums.iter().all(|sum| *sum == Wide::ZERO).then_some(None);
    }
    let [first, rest @ ..] = sums;
    let [_, powers @ ..] = at_place.get(place)?;
    let fits = rest
        .iter()
        .zip(powers)
        .all(|(sum, power)| *sum == scaled(*power, first.low));
    (first.high == 0 && fits).then_some(Some(first.low ^ masks.get(place)?))
}

fn add(sums: &mut [Wide; 5], symbol: u8, powers: &[Wide; 5]) {
    for (sum, power) in sums.iter_mut().zip(powers) {
        *sum = sum.plus(scaled(*power, symbol));
    }
}

fn scaled(wide: Wide, by: u8) -> Wide {
    Wide {
        low: times(wide.low, by),
        high: times(wide.high, by),
    }
}

/// What is added to each letter of a word (see `mend`).
fn masks(length: usize) -> Vec<u8> {
    std::iter::successors(Some(1), |mask| Some(times(*mask, 2)))
        .take(length)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::mend::{CHECKS, LONGEST, SHORTEST, seal};
    use super::*;

    fn words() -> impl Iterator<Item = Vec<u8>> {
        (SHORTEST..=LONGEST).step_by(4).map(|length| {
            let carried: Vec<u8> = (0..length - CHECKS)
                .map(|i| (i * i * 7 + i + 3) as u8 % 32)
                .collect();
            seal(&carried).unwrap()
        })
    }

    #[test]
    fn every_letter_of_every_length_is_missed_and_every_one_too_many_left_out() {
        for word in words() {
            for place in 0..word.len() {
                let mut read: Vec<Option<u8>> = word.iter().copied().map(Some).collect();
                read.remove(place);
                let found = one_off(&read).unwrap();
                assert_eq!((&found.word, found.missing), (&word, true), "{place}");
                for extra in [0, 7, 31] {
                    let mut read: Vec<Option<u8>> = word.iter().copied().map(Some).collect();
                    read.insert(place, Some(extra));
                    let found = one_off(&read).unwrap();
                    assert_eq!((&found.word, found.missing), (&word, false), "{place}");
                }
            }
            let whole: Vec<Option<u8>> = word.iter().copied().map(Some).collect();
            assert_eq!(one_off(&whole), None);
            assert_eq!(one_off(&whole[2..]), None);
        }
        assert_eq!(one_off(&[]), None);
        assert_eq!(one_off(&[None; 39]), None);
    }
}
