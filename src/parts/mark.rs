//! Marks: small drawings of our own. A character may be missing from a phone's font; a drawing is there.

use leptos::prelude::*;

/// A mark drawn with one line, on a field of 24 by 24.
fn drawn(path: &'static str) -> AnyView {
    view! { <svg class="mark" viewBox="0 0 24 24" aria-hidden="true"><path d=path/></svg> }
        .into_any()
}

/// The stages of a fish one below the other, each with its dot.
pub fn stages() -> AnyView {
    drawn("M4 6h.01M4 12h.01M4 18h.01M9 6h12M9 12h12M9 18h12")
}

/// A fish, for the list of all of them.
pub fn all_fish() -> AnyView {
    drawn("M2 12Q9 4 17 12Q9 20 2 12ZM17 12l5-4v8ZM7 11h.01")
}

/// Slides that are set one by one.
pub fn settings() -> AnyView {
    drawn("M3 7h9M18 7h3M3 17h3M12 17h9M15 4.5v5M9 14.5v5")
}

/// A figure taken back.
pub fn back() -> AnyView {
    drawn("M8 5h13v14H8L2 12ZM11 9l6 6M17 9l-6 6")
}

/// A thing done.
pub fn done() -> AnyView {
    drawn("M4 13l5 5L20 6")
}

/// Something to look at.
pub fn flag() -> AnyView {
    drawn("M12 4L21 20H3ZM12 10v5M12 17.5h.01")
}
