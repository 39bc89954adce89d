//! Which build this is: the later of two builds has the greater number.

/// Seconds since 1970 of the commit this was built from; nought in a build made by hand.
#[must_use]
pub fn number() -> u64 {
    option_env!("SCALESIDE_BUILD")
        .and_then(|text| text.parse().ok())
        .unwrap_or(0)
}
