//! The probe during the service.

use leptos::prelude::*;

use super::Hand;

/// The probe.
pub fn screen(_hand: Hand) -> AnyView {
    ().into_any()
}
