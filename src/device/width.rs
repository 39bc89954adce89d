//! How wide the screen is, for what is only worth drawing where there is room.

use leptos::prelude::window;

/// From so many CSS pixels on two columns stand beside each other: as in `style/stove.css`.
const WIDE: f64 = 800.0;

/// Whether there is room for a second column.
#[must_use]
pub fn is_wide() -> bool {
    let width = window().inner_width().ok();
    width
        .and_then(|width| width.as_f64())
        .is_some_and(|width| width >= WIDE)
}
