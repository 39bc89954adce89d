//! One file a screen: reads a record, shows it, sends what was tapped.

use leptos::prelude::*;

/// Shows the app in the page's body.
pub fn mount() {
    mount_to_body(|| view! { <main><h1>"Scaleside bench"</h1></main> });
}
