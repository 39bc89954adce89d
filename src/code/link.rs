//! A code as the part of a link after `#`: it opens the installed app, and no server is ever sent it.

use super::opening::OpenedCode;
use super::reading::read_one;
use super::unopened::Unopened;

/// What stands before the letters in the part of a link after `#`.
const PLACE: &str = "/c/";

pub(super) fn compose(letters: impl Iterator<Item = char>) -> String {
    let mut fragment = format!("#{PLACE}");
    fragment.extend(letters);
    fragment
}

/// The typed code in the part of a link after `#` (with or without it); `None` for any other place.
#[must_use]
pub fn parse(fragment: &str) -> Option<&str> {
    fragment
        .strip_prefix('#')
        .unwrap_or(fragment)
        .strip_prefix(PLACE)
}

/// Opens the code in the part of a link after `#`; `None` for any other place.
#[must_use]
pub fn open_link(fragment: &str) -> Option<Result<OpenedCode, Unopened>> {
    parse(fragment).map(read_one)
}

#[cfg(test)]
mod tests {
    use super::parse;

    #[test]
    fn only_the_place_of_a_code_is_one() {
        for (fragment, code) in [
            ("#/c/3K7M9QRS", Some("3K7M9QRS")),
            ("/c/3K7M-9QRS", Some("3K7M-9QRS")),
            ("#/c/", Some("")),
            ("#/class/3K7M", None),
            ("#/", None),
            ("", None),
        ] {
            assert_eq!(parse(fragment), code, "{fragment}");
        }
    }
}
