//! One stored text: a record with the marks that tell a whole one from a torn, damaged or foreign one.
//!
//! The outer shape is a promise kept by every format to come: `format` says how to read `body`, and the
//! checksum is worked out in the same way. So an older build can tell a newer record from a damaged one.
//!
//! The body is raw JSON inside the JSON, not JSON within a string: its exact text is what the checksum
//! covers either way, but a string would escape every quotation mark, and room is short.

use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;

use super::tally::Tally;
use crate::base::crc;

/// The newest format this build writes and reads.
pub const FORMAT: u32 = 1;

/// The longest sealed text, in bytes of UTF-8: longer ones are neither written nor parsed.
pub const MOST_BYTES: usize = 1 << 20;

/// The longest text within a record, in bytes of its JSON: more than a field takes, whatever the letters. See
/// [`base::text`](crate::base::text).
pub const LONGEST: usize = 1 << 15;

/// What every text of ours begins with.
const OPENING: &str = "{\"format\":";

/// The stored shape, in stored order.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Envelope<'a> {
    format: u32,
    counter: u64,
    build: u64,
    #[serde(default)]
    tally: Tally,
    sum: &'a str,
    #[serde(borrow)]
    body: &'a RawValue,
}

/// A text that is whole, and whose body this build knows how to read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Opened<'a> {
    /// The format of the body; at most [`FORMAT`].
    pub format: u32,
    /// Counts the writes of this record: the higher of two copies is the newer. See [`next`].
    pub counter: u64,
    /// The build that wrote it.
    pub build: u64,
    /// How many changes of each tab are in it.
    pub tally: Tally,
    /// CRC-32 over format, counter, build, tally and body, eight lower-case hexadecimal digits.
    pub sum: &'a str,
    /// The record's own JSON text.
    pub body: &'a str,
}

/// Why a stored text can't be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unreadable {
    /// The text stops before its end.
    Torn,
    /// It was not written by Scaleside, or is longer than anything Scaleside writes.
    NotOurs,
    /// It was ours, and something in it has changed since.
    Damaged,
    /// It is whole, and in this newer format.
    FutureFormat(u32),
    /// It is whole, but the body does not hold the kind of record that belongs here.
    Unfamiliar,
}

/// Why a record can't be sealed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unsealable {
    /// The text would be longer than [`MOST_BYTES`].
    TooLong,
    /// The record has no JSON form that reads back as the same kind of record.
    NoText,
}

/// Whether no text within a record is longer than [`LONGEST`]: a screen would lay it out for seconds.
#[must_use]
pub fn is_bounded(body: &str) -> bool {
    let (mut within, mut escaped, mut length) = (false, false, 0);
    for byte in body.bytes() {
        match byte {
            b'"' if !escaped => {
                within = !within;
                length = 0;
            }
            _ => length += usize::from(within),
        }
        if length > LONGEST {
            return false;
        }
        escaped = byte == b'\\' && !escaped;
    }
    true
}

/// The stored text of `record`, written for the `counter`th time, by `build`, with no tab to its name.
///
/// # Errors
/// [`Unsealable`] when what would be stored could never be read again.
pub fn seal<T: Serialize + DeserializeOwned>(
    record: &T,
    counter: u64,
    build: u64,
) -> Result<String, Unsealable> {
    let body = serde_json::to_string(record).map_err(|_| Unsealable::NoText)?;
    // A number that is none, for one, is written as `null` and would only fail at the next start.
    serde_json::from_str::<T>(&body).map_err(|_| Unsealable::NoText)?;
    seal_body(&body, counter, build, &Tally::default()).map(|sealed| sealed.text)
}

/// A sealed text, and the sum that stands in it.
pub(super) struct Sealed {
    pub(super) text: String,
    pub(super) sum: String,
}

/// As [`seal`], for a record that is its own JSON text already, which its kind has read: so it needs no second look.
pub(super) fn seal_body(
    body: &str,
    counter: u64,
    build: u64,
    tally: &Tally,
) -> Result<Sealed, Unsealable> {
    let sum = checksum(FORMAT, counter, build, tally, body);
    let told = match tally.is_empty() {
        true => String::new(),
        false => {
            let tally = serde_json::to_string(tally).map_err(|_| Unsealable::NoText)?;
            format!("\"tally\":{tally},")
        }
    };
    // The shape of [`Envelope`].
    let text = format!(
        "{OPENING}{FORMAT},\"counter\":{counter},\"build\":{build},{told}\"sum\":\"{sum}\",\"body\":{body}}}"
    );
    if text.len() > MOST_BYTES {
        Err(Unsealable::TooLong)
    } else {
        Ok(Sealed { text, sum })
    }
}

/// Opens a stored text: its marks and its body, when it is whole.
///
/// # Errors
/// [`Unreadable`] says why not. No text makes it panic.
pub fn open(text: &str) -> Result<Opened<'_>, Unreadable> {
    let ours = text.starts_with(OPENING) || OPENING.starts_with(text);
    if text.len() > MOST_BYTES || !ours {
        return Err(Unreadable::NotOurs);
    }
    let envelope: Envelope<'_> = serde_json::from_str(text).map_err(|e| {
        if e.is_eof() {
            Unreadable::Torn
        } else {
            Unreadable::Damaged
        }
    })?;
    let Envelope {
        format,
        counter,
        build,
        tally,
        sum,
        body,
    } = envelope;
    let body = body.get();
    if sum != checksum(format, counter, build, &tally, body) {
        return Err(Unreadable::Damaged);
    }
    match format {
        0 => Err(Unreadable::NotOurs),
        FORMAT => Ok(Opened {
            format,
            counter: believed(counter),
            build,
            tally,
            sum,
            body,
        }),
        newer => Err(Unreadable::FutureFormat(newer)),
    }
}

impl Opened<'_> {
    /// The record in the body, brought up from the format it was written in.
    ///
    /// # Errors
    /// [`Unreadable::Unfamiliar`] when the body holds something else.
    pub fn record<T: DeserializeOwned>(&self) -> Result<T, Unreadable> {
        match self.format {
            FORMAT => serde_json::from_str(self.body).map_err(|_| Unreadable::Unfamiliar),
            newer => Err(Unreadable::FutureFormat(newer)),
        }
    }
}

/// The low bits of a counter stand for the tab that wrote it: so copies that two tabs make in the same instant have an
/// order, the same for everyone.
const TAB_BITS: u32 = 20;

/// So many writes nobody makes: a counter that stands for more was made up, and the next one would begin again at nought,
/// below the copy that it is made on.
const MOST_WRITES: u64 = 1 << (u64::BITS - TAB_BITS - 1);

/// As many writes as a record that comes from elsewhere may stand for: with so many more it is still counted.
const MOST_BROUGHT: u64 = 1 << 32;

/// A counter as it is gone by: one that nobody can have reached counts as the first.
fn believed(counter: u64) -> u64 {
    at_most(counter, MOST_WRITES)
}

/// The counter of a record that comes from a file or out of the bin.
#[must_use]
pub fn brought(counter: u64) -> u64 {
    at_most(counter, MOST_BROUGHT)
}

fn at_most(counter: u64, most: u64) -> u64 {
    if writes(counter) > most {
        (1 << TAB_BITS) | (counter & ((1 << TAB_BITS) - 1))
    } else {
        counter
    }
}

/// Whether a copy with this counter would be the newest of those it is made on.
pub(super) fn is_above(counter: u64, before: u64) -> bool {
    counter > before && writes(counter) <= MOST_WRITES
}

/// The counter of a copy that a tab makes on the copy with `counter`: it is higher.
#[must_use]
pub fn next(counter: u64, tab: u32) -> u64 {
    let tab = u64::from(tab) & ((1 << TAB_BITS) - 1);
    (writes(counter).saturating_add(1) << TAB_BITS) | tab
}

/// How many writes a counter stands for.
#[must_use]
pub fn writes(counter: u64) -> u64 {
    counter >> TAB_BITS
}

/// CRC-32 (ISO-HDLC, as in zip and PNG) over the marks and the body, a line feed after each mark.
fn checksum(format: u32, counter: u64, build: u64, tally: &Tally, body: &str) -> String {
    let marks = format!("{format}\n{counter}\n{build}\n{}", tally.lines());
    format!("{:08x}", crc::of_both(marks.as_bytes(), body.as_bytes()))
}
