//! Which build this is: the later of two builds has the greater number.

use leptos::prelude::document;

/// Seconds since 1970 of the commit this was built from; nought in a build made by hand.
#[must_use]
pub fn number() -> u64 {
    option_env!("SCALESIDE_BUILD")
        .and_then(|text| text.parse().ok())
        .unwrap_or(0)
}

/// What the host calls the build of this page: some figures and letters made of the bytes of all its files.
#[must_use]
pub fn name() -> Option<String> {
    let meta = document().query_selector("meta[name=scaleside-build]");
    let name = meta.ok()??.get_attribute("content");
    name.filter(|name| !name.is_empty())
}
