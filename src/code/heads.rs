//! What stands before the words of a message: a quote mark, the hour, who wrote it.
//!
//! A chat that is copied or exported writes these in many ways; all have an hour, a name, or both. What is no such head
//! is left to the reader of codes as it is, which also looks at the text with its heads in it.

/// As much of a line as a head may take, in characters.
const LONGEST_HEAD: usize = 120;
/// The most words of a name.
const NAME_WORDS: usize = 5;

/// The head of a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct LineHead {
    /// Who wrote it, in small letters; nothing where the head only has an hour.
    pub(super) sender: Option<String>,
    /// The first character, in the line, of the message itself.
    pub(super) end: usize,
}

/// One word of a line: where it starts and ends, and what it is.
struct HeadWord {
    start: usize,
    end: usize,
    text: String,
}

/// What a word is to a stamp of day and hour.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Stamp {
    Hour,
    Date,
    Figures,
    /// A bracket or a dash, am and pm, a day of the week.
    Around,
    None,
}

/// The head that a line begins with, if it has one.
pub(super) fn head(line: &[char]) -> Option<LineHead> {
    let words = words(line);
    let quoted = words.iter().take_while(|word| is_mark(&word.text)).count();
    let words = words.get(quoted..)?;
    let stamped = stamp(words);
    let rest = words.get(stamped..)?;
    let end_of = |nth: usize| {
        let next = rest.get(nth);
        next.map_or(line.len(), |word| word.start)
    };
    if let Some(count) = named(rest, stamped > 0) {
        let sender = name(rest.get(..count)?);
        let end = end_of(count);
        return Some(LineHead { sender, end });
    }
    if stamped > 0 {
        // A name alone under, or beside, its hour stands on a line of its own.
        let alone = rest.len() < NAME_WORDS && rest.iter().all(is_plain);
        let sender = if alone { name(rest) } else { None };
        let end = if alone { line.len() } else { end_of(0) };
        return Some(LineHead { sender, end });
    }
    let count = rest.iter().take_while(|word| is_plain(word)).count();
    let stamp_after = rest.get(count..)?;
    let whole = (1..NAME_WORDS).contains(&count)
        && !stamp_after.is_empty()
        && stamp(stamp_after) == stamp_after.len();
    whole.then(|| LineHead {
        sender: rest.get(..count).and_then(name),
        end: line.len(),
    })
}

fn words(line: &[char]) -> Vec<HeadWord> {
    let mut words: Vec<HeadWord> = Vec::new();
    let mut open = false;
    for (at, character) in line.iter().enumerate().take(LONGEST_HEAD) {
        if character.is_whitespace() {
            open = false;
            continue;
        }
        match words.last_mut().filter(|_| open) {
            Some(word) => {
                word.end = at + 1;
                word.text.push(*character);
            }
            None => words.push(HeadWord {
                start: at,
                end: at + 1,
                text: character.to_string(),
            }),
        }
        open = true;
    }
    // A word that goes on past what is looked at is no word of a head.
    if line.len() > LONGEST_HEAD && words.last().is_some_and(|word| word.end == LONGEST_HEAD) {
        words.pop();
    }
    words
}

fn is_mark(word: &str) -> bool {
    word.chars().all(|c| matches!(c, '>' | '|' | '*'))
}

/// How many of the words are a stamp with an hour in it; none where there is no hour.
fn stamp(words: &[HeadWord]) -> usize {
    let mut hour = false;
    let mut count = 0;
    for word in words {
        match stamped(&word.text) {
            Stamp::Hour => hour = true,
            Stamp::Around | Stamp::Date => {}
            // After the hour a row of figures may be the first group of a code.
            Stamp::Figures if !hour => {}
            Stamp::Figures | Stamp::None => break,
        }
        count += 1;
    }
    if hour { count } else { 0 }
}

fn stamped(word: &str) -> Stamp {
    let inner = word.trim_matches(|c: char| !c.is_alphanumeric());
    if inner.is_empty() {
        return Stamp::Around;
    }
    if inner.chars().all(|c| c.is_ascii_digit()) {
        return Stamp::Figures;
    }
    let figures =
        |part: &str| (1..=4).contains(&part.len()) && part.chars().all(|c| c.is_ascii_digit());
    let clock = inner.trim_end_matches(|c: char| c.is_ascii_alphabetic());
    if clock.contains(':') && clock.split(':').all(figures) {
        return Stamp::Hour;
    }
    if inner.split(['/', '.', '-']).all(figures) {
        return Stamp::Date;
    }
    let short: String = inner.chars().take(3).flat_map(char::to_lowercase).collect();
    let named = [
        "am", "pm", "a.m", "p.m", "mon", "tue", "wed", "thu", "fri", "sat", "sun", "jan", "feb",
        "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec", "at",
    ];
    if named.contains(&short.as_str()) && !inner.chars().any(|c| c.is_ascii_digit()) {
        Stamp::Around
    } else {
        Stamp::None
    }
}

/// How many words are a name with a colon after it, or one in angle brackets.
fn named(words: &[HeadWord], stamped: bool) -> Option<usize> {
    let first = words.first()?;
    if first.text.starts_with('<') && first.text.ends_with('>') && !first.text.contains('@') {
        return Some(1);
    }
    let most = if stamped { NAME_WORDS } else { 3 };
    let count = 1 + words
        .iter()
        .take(most)
        .position(|word| word.text.ends_with(':'))?;
    let mut parts = words.iter().take(count);
    let fits = if stamped {
        first
            .text
            .starts_with(|c: char| c.is_alphabetic() || matches!(c, '~' | '+' | '@'))
    } else {
        parts.all(is_plain)
    };
    fits.then_some(count)
}

/// A word that a name may have: letters of any language, no figures.
fn is_plain(word: &HeadWord) -> bool {
    let inner = word.text.trim_matches(|c: char| !c.is_alphanumeric());
    let letters = |c: char| c.is_alphabetic() || matches!(c, '-' | '\'' | '.' | '’');
    inner.is_empty() || inner.chars().all(letters)
}

fn name(words: &[HeadWord]) -> Option<String> {
    let letters = words
        .iter()
        .flat_map(|word| word.text.chars())
        .filter(|c| c.is_alphanumeric())
        .flat_map(char::to_lowercase);
    let name: String = letters.collect();
    (!name.is_empty()).then_some(name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn heads_of_chats_and_mails_are_told_from_what_is_said() {
        for (line, sender, message) in [
            ("09/03/2026, 12:03 - Tern: 2Y4W", Some("tern"), "2Y4W"),
            (
                "[09.03.26, 12:03:11] Tern Gull: 2Y4W",
                Some("terngull"),
                "2Y4W",
            ),
            ("[12:03] ~Tern: 2Y4W", Some("tern"), "2Y4W"),
            ("12:03 <Tern> 2Y4W", Some("tern"), "2Y4W"),
            ("Tern: here it is", Some("tern"), "here it is"),
            ("> Tern: here it is", Some("tern"), "here it is"),
            ("Tern, [09.03.26 12:03]", Some("tern"), ""),
            ("Tern  12:03 PM", Some("tern"), ""),
            ("[Mon 12:03 PM] Tern", Some("tern"), ""),
            ("+44 7700 900123 12:03", None, ""),
            ("12:03 2026 2Y4W", None, "2026 2Y4W"),
            ("2Y4W-7K3M: mine", None, "?"),
            ("1. 2Y4W", None, "?"),
            ("https://host/#/c/2Y4W", None, "?"),
            ("over and out", None, "?"),
        ] {
            let chars: Vec<char> = line.chars().collect();
            match head(&chars) {
                Some(head) => {
                    let rest: String = chars[head.end..].iter().collect();
                    assert_eq!(
                        (head.sender.as_deref(), rest.as_str()),
                        (sender, message),
                        "{line}"
                    );
                }
                None => assert_eq!(message, "?", "{line}"),
            }
        }
    }
}
