//! The thickness of a fillet as a cook tells it without a ruler.

use leptos::prelude::*;

use crate::fish::heat_card::HeatTap;
use crate::screens::stove::drawn;

/// Thicknesses a cook can judge by eye, in millimetres.
const BY_EYE: [(u32, &str); 3] = [
    (12, "Pencil and a half"),
    (19, "Finger's width"),
    (28, "Two fingers flat"),
];

/// A button for each.
pub(super) fn choices(tap: Callback<HeatTap>) -> AnyView {
    view! {
        <div class="by-eye" data-says="heat">
            {BY_EYE.into_iter().map(|(mm, say)| view! {
                <button class="btn plain" on:click=move |_| tap.run(HeatTap::ByEye(mm))>{drawn::thickness(mm)}<span>{format!("{say}: {mm} mm")}</span></button>
            }).collect_view()}
        </div>
    }
    .into_any()
}
