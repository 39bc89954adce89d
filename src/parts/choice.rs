//! One of a few, or some of a few: large labels over the browser's own radio buttons and boxes.

use leptos::prelude::*;

/// One of a few.
pub fn one_of<T: Copy + PartialEq + Send + Sync + 'static>(
    name: impl Into<String>,
    legend: impl Into<String>,
    class: &'static str,
    options: Vec<(T, String)>,
    chosen: impl Fn() -> Option<T> + Copy + Send + Sync + 'static,
    choose: impl Fn(T) + Copy + Send + Sync + 'static,
) -> AnyView {
    let (name, legend) = (name.into(), legend.into());
    view! {
        <fieldset class="field">
            <legend>{legend}</legend>
            <div class=format!("choices {class}")>
                {options
                    .into_iter()
                    .map(|(value, words)| view! {
                        <label class="choice">
                            <input type="radio" name=name.clone() prop:checked=move || chosen() == Some(value) on:change=move |_| choose(value)/>
                            <span>{words}</span>
                        </label>
                    })
                    .collect_view()}
            </div>
        </fieldset>
    }
    .into_any()
}

/// A box to tick.
pub fn tick(
    words: impl IntoView + 'static,
    ticked: impl Fn() -> bool + Copy + Send + Sync + 'static,
    set: impl Fn(bool) + 'static,
) -> AnyView {
    view! {
        <label class="choice">
            <input type="checkbox" prop:checked=ticked on:change:target=move |event| set(event.target().checked())/>
            <span>{words}</span>
        </label>
    }
    .into_any()
}

/// The sentence beside a field that can't be taken.
pub fn fault(
    id: impl Into<String>,
    sentence: impl Fn() -> Option<String> + Send + Sync + 'static,
) -> AnyView {
    view! {
        <div id=id.into() aria-live="polite">
            {move || sentence().map(|sentence| view! { <p class="fault">{sentence}</p> })}
        </div>
    }
    .into_any()
}
