//! The fish and shellfish of the list as the options of a list to choose from, in groups, and one found by any of its names.

use leptos::prelude::*;

use crate::trade::species::{self, Filleted, ListedSpecies};

/// Every fish that is filleted, under what it looks like on the board.
pub fn filleted(chosen: impl Fn() -> String + Copy + Send + Sync + 'static) -> AnyView {
    [
        ("Round fish", Filleted::Round),
        ("Flat fish", Filleted::Flat),
    ]
    .map(|(name, of)| group(name, of, chosen))
    .collect_view()
    .into_any()
}

/// Every one there is, those that are never filleted as well.
pub fn all(chosen: impl Fn() -> String + Copy + Send + Sync + 'static) -> AnyView {
    view! {
        {filleted(chosen)}
        {group("Shellfish, and fish sold in pieces", Filleted::Never, chosen)}
    }
    .into_any()
}

fn group(
    name: &'static str,
    of: Filleted,
    chosen: impl Fn() -> String + Copy + Send + Sync + 'static,
) -> AnyView {
    view! {
        <optgroup label=name>
            {species::species_list()
                .iter()
                .filter(|species| species.filleted == of)
                .map(|species| view! {
                    <option value=species.key selected=move || chosen() == species.key>{species.name}</option>
                })
                .collect_view()}
        </optgroup>
    }
    .into_any()
}

/// What the list holds under a name that was typed: a button that takes it, or why it is not for this job.
pub fn found(
    name: &str,
    take: impl Fn(&'static ListedSpecies) + Copy + Send + Sync + 'static,
) -> Option<AnyView> {
    let listed = species::called(name)?;
    Some(if listed.filleted == Filleted::Never {
        view! {
            <p class="hint">{format!("{}: not filleted, so not for this job. A line of a dish takes the published yield.", listed.name)}</p>
        }
        .into_any()
    } else {
        view! {
            <button class="btn" on:click=move |_| take(listed)>{format!("Take {} from the list", listed.name)}</button>
        }
        .into_any()
    })
}
