//! A page that holds one button: what Leptos itself weighs, measured beside the app.

#[cfg(target_arch = "wasm32")]
fn main() {
    use leptos::prelude::*;

    mount_to_body(|| {
        let taps = RwSignal::new(0);
        view! { <button on:click=move |_| taps.update(|n| *n += 1)>{move || taps.get()}</button> }
    });
}

#[cfg(not(target_arch = "wasm32"))]
fn main() {}
