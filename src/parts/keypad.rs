//! Keys for wet thumbs, and the same from a keyboard.

use leptos::prelude::*;

use super::mark;
use crate::fish::weighing::Key;

/// The keypad. `pounds` says whether the key between pounds and ounces is there.
#[component]
pub fn Keypad(
    /// Whether the key between pounds and ounces is there.
    #[prop(into)]
    pounds: Signal<bool>,
    /// What a key does.
    press: Callback<Key>,
) -> impl IntoView {
    let handle = window_event_listener(leptos::ev::keydown, move |event| {
        if event.ctrl_key() || event.alt_key() || event.meta_key() {
            return;
        }
        if let Some(key) = key_named(&event.key()) {
            event.prevent_default();
            press.run(key);
        }
    });
    on_cleanup(move || handle.remove());
    let figure = move |figure: u8| {
        view! { <button type="button" on:click=move |_| press.run(Key::Figure(figure))>{figure.to_string()}</button> }
    };
    view! {
        <div class="keys" role="group" aria-label="Weight">
            {(1..=3).map(figure).collect_view()}
            <button type="button" aria-label="take the last figure back" on:click=move |_| press.run(Key::Back)>{mark::back()}</button>
            {(4..=6).map(figure).collect_view()}
            <button type="button" aria-label="add another weight" on:click=move |_| press.run(Key::Plus)>"+"</button>
            {(7..=9).map(figure).collect_view()}
            <button type="button" aria-label="take all figures back" on:click=move |_| press.run(Key::Clear)>"C"</button>
            <button type="button" aria-label="decimal point" on:click=move |_| press.run(Key::Point)>"."</button>
            {figure(0)}
            {move || pounds.get().then(|| view! {
                <button type="button" class="word wide" on:click=move |_| press.run(Key::Pounds)>"lb, then ounces"</button>
            })}
        </div>
    }
}

fn key_named(name: &str) -> Option<Key> {
    match name {
        "Backspace" => Some(Key::Back),
        "Delete" => Some(Key::Clear),
        "." | "," => Some(Key::Point),
        "+" => Some(Key::Plus),
        "l" => Some(Key::Pounds),
        _ => {
            let figure = name.parse::<u8>().ok().filter(|figure| *figure <= 9)?;
            Some(Key::Figure(figure))
        }
    }
}
