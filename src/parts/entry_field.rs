//! A field to type into and a list to choose from, each with its label, its hint and its sentence.

use leptos::prelude::*;

/// What a field is made of besides its value.
pub struct TextEntry {
    /// Its name on the page, which no other has.
    pub id: String,
    /// What stands above it.
    pub label: Signal<String>,
    /// What stands below the label; empty for nothing.
    pub hint: Signal<String>,
    /// The keyboard a phone shows: `decimal`, `numeric` or `text`.
    pub keyboard: &'static str,
    /// What it holds.
    pub value: Signal<String>,
    /// What typing does.
    pub typed: Callback<String>,
    /// The sentence beside it.
    pub fault: Signal<Option<String>>,
    /// What stands beside it on its line.
    pub beside: AnyView,
}

impl TextEntry {
    /// A field without hint and fault, for figures.
    pub fn figure(id: &str, label: &str, value: Signal<String>, typed: Callback<String>) -> Self {
        Self {
            id: id.to_owned(),
            label: Signal::stored(label.to_owned()),
            hint: Signal::stored(String::new()),
            keyboard: "decimal",
            value,
            typed,
            fault: Signal::stored(None),
            beside: ().into_any(),
        }
    }

    /// The field.
    pub fn view(self) -> AnyView {
        let Self {
            id,
            label,
            hint,
            keyboard,
            value,
            typed,
            fault,
            beside,
        } = self;
        let sentence = format!("{id}-fault");
        let explained = format!("{id}-hint");
        let (beneath, said) = (explained.clone(), sentence.clone());
        let described = move || match hint.with(String::is_empty) {
            true => said.clone(),
            false => format!("{beneath} {said}"),
        };
        view! {
            <div class="field">
                <label for=id.clone()>{move || label.get()}</label>
                {move || {
                    let hint = hint.get();
                    (!hint.is_empty()).then(|| view! { <p class="hint" id=explained.clone()>{hint}</p> })
                }}
                <div class="with">
                    <input id=id type="text" inputmode=keyboard autocomplete="off" aria-describedby=described
                        prop:value=move || value.get()
                        on:input:target=move |event| typed.run(event.target().value())/>
                    {beside}
                </div>
                <div id=sentence aria-live="polite">
                    {move || fault.get().map(|sentence| view! { <p class="fault">{sentence}</p> })}
                </div>
            </div>
        }
        .into_any()
    }
}

/// A list to choose from; without a label on the page `name` is read out, and after it what stands in `hint`.
pub fn list(
    id: &str,
    name: Option<&'static str>,
    hint: Option<&'static str>,
    options: Vec<(String, String)>,
    chosen: Signal<String>,
    choose: Callback<String>,
) -> AnyView {
    let id = id.to_owned();
    view! {
        <select id=id aria-label=name aria-describedby=hint prop:value=move || chosen.get() on:change:target=move |event| choose.run(event.target().value())>
            {options
                .into_iter()
                .map(|(value, words)| {
                    let own = value.clone();
                    view! { <option value=value selected=move || chosen.with(|chosen| *chosen == own)>{words}</option> }
                })
                .collect_view()}
        </select>
    }
    .into_any()
}
