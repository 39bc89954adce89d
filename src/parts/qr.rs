//! A link as a QR code for another phone's camera.

use std::fmt::Write;

use fast_qr::{ECL, QRBuilder};
use leptos::prelude::*;

/// Light modules around the code: ISO/IEC 18004 asks for four.
const QUIET: usize = 4;

/// The picture; nothing for a text that is too long for one.
pub fn picture(text: &str, name: &'static str) -> AnyView {
    let Ok(code) = QRBuilder::new(text).ecl(ECL::M).build() else {
        return ().into_any();
    };
    let side = code.size + 2 * QUIET;
    let mut dark = String::new();
    for y in 0..code.size {
        let row = code[y].iter().take(code.size).enumerate();
        for (x, _) in row.filter(|(_, module)| module.value()) {
            // A text can always be written to.
            let _ = write!(dark, "M{} {}h1v1h-1z", x + QUIET, y + QUIET);
        }
    }
    view! {
        <svg class="qr" viewBox=format!("0 0 {side} {side}") role="img" aria-label=name shape-rendering="crispEdges">
            <rect class="light" width=side height=side/>
            <path class="dark" d=dark/>
        </svg>
    }
    .into_any()
}
