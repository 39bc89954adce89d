//! Goes along a JSON text, piece by piece. A piece that is passed over is looked at as closely as one that is read.

use std::borrow::Cow;
use std::str::Chars;

use super::Misread;

/// A JSON text, read up to some place.
pub struct Scan<'de> {
    text: &'de str,
    at: usize,
}

impl<'de> Scan<'de> {
    /// At the beginning of a text.
    pub fn of(text: &'de str) -> Self {
        Self { text, at: 0 }
    }

    /// The byte that the next piece begins with.
    pub fn peek(&mut self) -> Result<u8, Misread> {
        loop {
            match self.text.as_bytes().get(self.at) {
                None => return Err(Misread::Ended),
                Some(b' ' | b'\n' | b'\r' | b'\t') => self.at += 1,
                Some(byte) => return Ok(*byte),
            }
        }
    }

    /// Goes past a mark, which must come next.
    pub fn take(&mut self, mark: u8) -> Result<(), Misread> {
        if self.peek()? != mark {
            return Err(Misread::Wrong);
        }
        self.at += 1;
        Ok(())
    }

    /// Whether a list or an object has one more, up to which it then goes.
    pub fn goes_on(&mut self, is_first: bool, end: u8) -> Result<bool, Misread> {
        if self.peek()? == end {
            return Ok(false);
        }
        if !is_first {
            self.take(b',')?;
        }
        Ok(true)
    }

    /// That nothing comes any more.
    pub fn end(&mut self) -> Result<(), Misread> {
        match self.peek() {
            Err(Misread::Ended) => Ok(()),
            _ => Err(Misread::Wrong),
        }
    }

    /// A text.
    pub fn string(&mut self) -> Result<Cow<'de, str>, Misread> {
        let quoted = self.quoted()?;
        if quoted.contains('\\') {
            unescaped(quoted).map(Cow::Owned).ok_or(Misread::Wrong)
        } else {
            Ok(Cow::Borrowed(quoted))
        }
    }

    /// A number, or one of the three words, as it stands there.
    pub fn bare(&mut self) -> Result<&'de str, Misread> {
        self.peek()?;
        let from = self.at;
        let is_bare = |byte: &u8| byte.is_ascii_alphanumeric() || b"+-.".contains(byte);
        while self.text.as_bytes().get(self.at).is_some_and(is_bare) {
            self.at += 1;
        }
        let bare = self.since(from)?;
        if matches!(bare, "null" | "true" | "false") || is_number(bare) {
            Ok(bare)
        } else if self.at == self.text.len() && is_begun(bare) {
            Err(Misread::Ended)
        } else {
            Err(Misread::Wrong)
        }
    }

    /// Any value, as it stands there. However deep it goes, it takes no more of the stack.
    pub fn value(&mut self) -> Result<&'de str, Misread> {
        self.peek()?;
        let from = self.at;
        let mut ends = Vec::new();
        loop {
            let end = match self.peek()? {
                b'{' => Some(b'}'),
                b'[' => Some(b']'),
                _ => None,
            };
            let mut is_first = end.is_some();
            match end {
                Some(end) => {
                    self.at += 1;
                    ends.push(end);
                }
                None if self.peek()? == b'"' => {
                    self.quoted()?;
                }
                None => {
                    self.bare()?;
                }
            }
            while let Some(&end) = ends.last() {
                if self.goes_on(is_first, end)? {
                    if end == b'}' {
                        self.quoted()?;
                        self.take(b':')?;
                    }
                    break;
                }
                self.at += 1;
                ends.pop();
                is_first = false;
            }
            if ends.is_empty() {
                return self.since(from);
            }
        }
    }

    fn since(&self, from: usize) -> Result<&'de str, Misread> {
        self.text.get(from..self.at).ok_or(Misread::Wrong)
    }

    /// What stands between quotation marks.
    fn quoted(&mut self) -> Result<&'de str, Misread> {
        self.take(b'"')?;
        let from = self.at;
        loop {
            match self.byte(0)? {
                b'"' => break,
                b'\\' => self.escape()?,
                0..=31 => return Err(Misread::Wrong),
                _ => self.at += 1,
            }
        }
        let quoted = self.since(from)?;
        self.at += 1;
        Ok(quoted)
    }

    fn escape(&mut self) -> Result<(), Misread> {
        let length = match self.byte(1)? {
            b'"' | b'\\' | b'/' | b'b' | b'f' | b'n' | b'r' | b't' => 2,
            b'u' => 6,
            _ => return Err(Misread::Wrong),
        };
        for digit in 2..length {
            if !self.byte(digit)?.is_ascii_hexdigit() {
                return Err(Misread::Wrong);
            }
        }
        self.at += length;
        Ok(())
    }

    fn byte(&self, ahead: usize) -> Result<u8, Misread> {
        let byte = self.text.as_bytes().get(self.at + ahead);
        byte.copied().ok_or(Misread::Ended)
    }
}

fn unescaped(quoted: &str) -> Option<String> {
    let (mut text, mut rest) = (String::new(), quoted);
    while let Some((plain, escape)) = rest.split_once('\\') {
        text.push_str(plain);
        let mut after = escape.chars();
        text.push(match after.next()? {
            'b' => '\u{8}',
            'f' => '\u{c}',
            'n' => '\n',
            'r' => '\r',
            't' => '\t',
            'u' => by_number(&mut after)?,
            same => same,
        });
        rest = after.as_str();
    }
    text.push_str(rest);
    Some(text)
}

/// The character that stands as its number in UTF-16: in two halves, where it is a high one.
fn by_number(after: &mut Chars<'_>) -> Option<char> {
    let first = half(after)?;
    if !(0xD800..0xDC00).contains(&first) {
        return char::from_u32(first.into());
    }
    *after = after.as_str().strip_prefix("\\u")?.chars();
    let both = [first, half(after)?];
    char::decode_utf16(both).next()?.ok()
}

fn half(after: &mut Chars<'_>) -> Option<u16> {
    let (figures, rest) = after.as_str().split_at_checked(4)?;
    *after = rest.chars();
    u16::from_str_radix(figures, 16).ok()
}

/// Whether more could make it a number or a word.
fn is_begun(bare: &str) -> bool {
    let mut words = ["null", "true", "false"].iter();
    words.any(|word| word.starts_with(bare)) || is_number(&format!("{bare}0"))
}

fn is_number(bare: &str) -> bool {
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    let figure = bare.strip_prefix('-').unwrap_or(bare);
    let (figure, power) = match figure.split_once(['e', 'E']) {
        Some((figure, power)) => (figure, power.strip_prefix(['+', '-']).unwrap_or(power)),
        None => (figure, "0"),
    };
    let (whole, fraction) = figure.split_once('.').unwrap_or((figure, "0"));
    (whole == "0" || !whole.starts_with('0')) && [whole, fraction, power].into_iter().all(digits)
}
