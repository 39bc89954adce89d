//! How wide the screen is: for what is only worth drawing where there is room, and for pictures with words in them.

use js_sys::Number;
use leptos::prelude::{document, window};

/// From so many CSS pixels on two columns stand beside each other: as in `style/stove.css`.
const WIDE: f64 = 800.0;

/// From so many on, a class stands in two columns: as in `style/board.css`.
const TWO_COLUMNS: f64 = 820.0;

/// Whether there is room for a second column.
#[must_use]
pub fn is_wide() -> bool {
    let width = window().inner_width().ok();
    width
        .and_then(|width| width.as_f64())
        .is_some_and(|width| width >= WIDE)
}

/// How wide a picture with words is drawn, in sixteenths of the size of the text: as wide as what is around it, so that
/// its words are as large as those beside it, and grow with them. Never under `least`: then the words grow no further.
#[must_use]
pub fn for_picture(least: f64) -> f64 {
    drawn(least, |wide, measure| wide.min(measure))
}

/// As [`for_picture`], for a picture in one of the two columns of a class, where there are two.
#[must_use]
pub fn for_column(least: f64) -> f64 {
    let two = window().inner_width().ok().and_then(|wide| wide.as_f64());
    if two.is_some_and(|wide| wide >= TWO_COLUMNS) {
        // What is around both is up to twice as wide as one column elsewhere, less half the gap.
        drawn(least, |wide, measure| wide.min(2.0 * measure) / 2.0 + 0.5)
    } else {
        for_picture(least)
    }
}

fn drawn(least: f64, within: impl Fn(f64, f64) -> f64) -> f64 {
    let root = document().document_element();
    let wide = root.as_ref().map_or(0, web_sys::Element::client_width);
    let style = root.and_then(|root| window().get_computed_style(&root).ok().flatten());
    let said = |name: &str| {
        // The browser's own way leaves out what stands behind the figure.
        let figure = Number::parse_float(&style.as_ref()?.get_property_value(name).ok()?);
        figure.is_finite().then_some(figure)
    };
    let rem = said("font-size").filter(|rem| *rem > 0.0).unwrap_or(16.0);
    let most = said("--measure").unwrap_or(38.0);
    // Less the margin of a screen and that of a sheet.
    ((within(f64::from(wide) / rem, most) - 4.0) * 16.0).max(least)
}
