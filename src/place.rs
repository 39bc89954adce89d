//! Which screen is shown, as the text after `#`.
