//! How long a text of a cook's own may be.

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
