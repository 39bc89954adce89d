//! A table for a spreadsheet, written cell by cell, and a cell back.
//!
//! A spreadsheet takes a cell that begins with `=`, `+`, `-`, `@`, a tab or a null for a formula and runs
//! it; such a text gets an apostrophe before it (OWASP Application Security Verification Standard 5.0,
//! 1.2.10, as quoted in a copy; the carriage return and the line feed are ours). One that begins with apostrophes and then such a
//! letter gets one more, so that reading takes exactly one away again.

use super::refusals::NoSheet;
use crate::base::refusal::Refusal;

/// What stands between the cells: spreadsheets of countries with a decimal comma expect a semicolon.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Separator {
    /// A comma; figures with a decimal point.
    #[default]
    Comma,
    /// A semicolon; figures with a decimal comma.
    Semicolon,
}

impl Separator {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Comma, Self::Semicolon];

    /// What it is called.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Comma => "Comma, 46.6",
            Self::Semicolon => "Semicolon, 46,6",
        }
    }

    /// A figure with a decimal point, as its country writes it.
    #[must_use]
    pub fn figure(self, plain: &str) -> String {
        match self {
            Self::Comma => plain.to_owned(),
            Self::Semicolon => plain.replace('.', ","),
        }
    }
}

/// Lines as a table (RFC 4180, but for the semicolon); lines end in CR LF, and no cell can be run.
///
/// # Errors
/// A sentence if the table can't be put together.
pub fn table(
    lines: impl IntoIterator<Item = Vec<String>>,
    by: Separator,
) -> Result<String, Refusal> {
    written(lines, by).map_err(|_| NoSheet::Unwritten.into())
}

fn written(
    lines: impl IntoIterator<Item = Vec<String>>,
    by: Separator,
) -> Result<String, Box<dyn std::error::Error>> {
    let mut writer = csv::WriterBuilder::new()
        .delimiter(match by {
            Separator::Comma => b',',
            Separator::Semicolon => b';',
        })
        .terminator(csv::Terminator::CRLF)
        .from_writer(Vec::new());
    for line in lines {
        writer.write_record(line.into_iter().map(shielded))?;
    }
    Ok(String::from_utf8(writer.into_inner()?)?)
}

/// Whether a spreadsheet could run the text, its own apostrophes left aside.
fn is_live(text: &str) -> bool {
    text.trim_start_matches('\'')
        .starts_with(['=', '+', '-', '@', '\t', '\r', '\n', '\0'])
}

/// The text as it is written to a table.
#[must_use]
pub fn shielded(text: String) -> String {
    if is_live(&text) {
        format!("'{text}")
    } else {
        text
    }
}

/// The text as it was before [`shielded`].
#[must_use]
pub fn bare(cell: &str) -> &str {
    match cell.strip_prefix('\'') {
        Some(rest) if is_live(rest) => rest,
        _ => cell,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_spreadsheet_would_run_is_shielded_and_comes_back() {
        for (text, cell) in [
            ("=1+1", "'=1+1"),
            ("+49", "'+49"),
            ("-5", "'-5"),
            ("@cook", "'@cook"),
            ("\t=1", "'\t=1"),
            ("\r\n=1", "'\r\n=1"),
            ("'=1", "''=1"),
            ("''@", "'''@"),
            ("'tis a fish", "'tis a fish"),
            ("'", "'"),
            ("Bream", "Bream"),
            ("", ""),
        ] {
            assert_eq!(shielded(text.to_owned()), cell);
            assert_eq!(bare(cell), text, "{cell:?}");
        }
        assert_eq!(bare("=1"), "=1", "a table from elsewhere");
    }
}
