//! One cell of a table for a spreadsheet, and back.
//!
//! A spreadsheet takes a cell that begins with `=`, `+`, `-`, `@`, a tab or a null for a formula and runs
//! it; such a text gets an apostrophe before it (OWASP Application Security Verification Standard 5.0,
//! 1.2.10, as quoted in a copy; the carriage return and the line feed are ours). One that begins with apostrophes and then such a
//! letter gets one more, so that reading takes exactly one away again.

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
