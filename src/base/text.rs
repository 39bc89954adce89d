//! A text of a cook's own: how long it may be, and when two are the same name.

use super::refusal::Refusal;
use super::refusals::NoText;

/// The longest text a field takes, in letters.
pub const LONGEST_TEXT: usize = 2_000;

/// The text as it is kept.
///
/// # Errors
/// A sentence for more than [`LONGEST_TEXT`] letters.
pub fn short(text: &str) -> Result<String, Refusal> {
    if text.chars().count() > LONGEST_TEXT {
        return Err(NoText::TooLong.into());
    }
    Ok(text.to_owned())
}

/// What two spellings of a name that is typed have in common: capitals and the spaces around it tell no names apart, in
/// whatever alphabet. Only compared, never stored or shown.
///
/// Each letter is raised and then lowered, whatever stands beside it, as the default caseless matching of the Unicode
/// Standard (section 3.13) has it for all but a few letters of historic scripts: `ß` is `ss`, and a final sigma is a sigma.
/// Letters put together from parts are other letters.
#[must_use]
pub fn caseless(name: &str) -> String {
    let raised = name.trim().chars().flat_map(char::to_uppercase);
    raised.flat_map(char::to_lowercase).collect()
}

/// A text up to the end of its first sentence: a full stop before a space.
#[must_use]
pub fn first_sentence(text: &str) -> &str {
    let end = text.find(". ").and_then(|stop| text.get(..=stop));
    end.unwrap_or(text)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn capitals_tell_no_names_apart_and_accents_do() {
        let cases = [
            ("Sea Bream", " sea bream ", true),
            ("WEISSER HEILBUTT", "Weißer Heilbutt", true),
            ("ΛΑΒΡΆΚΙ ΜΎΛΟΣ", "λαβράκι μύλος", true),
            ("ЛЕЩ", "лещ", true),
            ("ÉGLEFIN", "églefin", true),
            ("ﬁllet", "FILLET", true),
            ("eglefin", "églefin", false),
            ("sea bream", "seabream", false),
        ];
        for (one, other, same) in cases {
            assert_eq!(caseless(one) == caseless(other), same, "{one} {other}");
        }
    }

    #[test]
    fn a_sentence_ends_at_its_stop() {
        for (text, first) in [
            ("", ""),
            ("Wipe the rim", "Wipe the rim"),
            ("Wipe the rim.", "Wipe the rim."),
            ("Rounds of 1.5 cm in. Turn once.", "Rounds of 1.5 cm in."),
        ] {
            assert_eq!(super::first_sentence(text), first);
        }
    }
}
