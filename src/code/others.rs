//! Letters and figures that are somebody else's business, and no code.

/// The fewest and the most letters of an account number (ISO 13616).
const ACCOUNT: std::ops::RangeInclusive<usize> = 15..=34;

/// Whether these groups, or those after a word such as IBAN, begin with an international account number: two letters, two
/// check digits, and what makes them hold by ISO/IEC 7064, MOD 97-10.
pub(super) fn is_account(groups: &[String]) -> bool {
    let is_word = groups
        .first()
        .is_some_and(|first| !first.contains(|c: char| c.is_ascii_digit()));
    (0..=usize::from(is_word)).any(|from| {
        let mut number = String::new();
        groups.iter().skip(from).any(|group| {
            number.push_str(&group.to_ascii_uppercase());
            ACCOUNT.contains(&number.len()) && holds(&number)
        })
    })
}

fn holds(number: &str) -> bool {
    let shape = |(at, c): (usize, char)| {
        if at < 2 {
            c.is_ascii_uppercase()
        } else {
            c.is_ascii_digit()
        }
    };
    if !number.chars().enumerate().take(4).all(shape) {
        return false;
    }
    let turned = number.chars().skip(4).chain(number.chars().take(4));
    let remainder = turned.fold(0, |sum: u32, c| match c.to_digit(36) {
        Some(figure) if figure < 10 => (sum * 10 + figure) % 97,
        Some(figure) => (sum * 100 + figure) % 97,
        None => 0,
    });
    remainder == 1
}

/// Whether all of it are the figures of a number to base 16: what programs name things by.
pub(super) fn is_hexadecimal(letters: &str) -> bool {
    letters.len() >= 16 && letters.chars().all(|c| c.is_ascii_hexdigit())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The examples of the IBAN registry (SWIFT, release 99), from memory.
    #[test]
    fn account_numbers_are_told_by_their_check_digits() {
        for (number, account) in [
            ("GB29 NWBK 6016 1331 9268 19", true),
            ("DE89370400440532013000", true),
            ("FR14 2004 1010 0505 0001 3M02 606", true),
            ("MT84 MALT 0110 0001 2345 MTLC AST0 01S", true),
            ("IBAN NL91 ABNA 0417 1643 00", true),
            ("GB28 NWBK 6016 1331 9268 19", false),
            ("2Y4W WFEP 6BV7 BSFS 8KF7", false),
        ] {
            let groups: Vec<String> = number.split(' ').map(str::to_owned).collect();
            assert_eq!(is_account(&groups), account, "{number}");
        }
        assert!(is_hexadecimal("550e8400e29b41d4a716") && !is_hexadecimal("2Y4WWFEP6BV7BSFS"));
    }
}
