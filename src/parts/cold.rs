//! What a kind of fish calls for beyond the usual care, shown where it is bought and where it is kept.

use leptos::prelude::*;

use crate::fish::slip::Species;
use crate::trade::species;

/// The caution of a species, where it has one.
#[must_use]
pub fn caution(chosen: Option<&Species>) -> AnyView {
    let listed = chosen.and_then(Species::key).and_then(species::species);
    let histamine = listed.is_some_and(species::ListedSpecies::histamine_family);
    let reef = listed.is_some_and(|listed| listed.reef);
    view! {
        {histamine.then(|| view! {
            <p class="care">
                <b>"Keep it cold all the way"</b>
                "Fish of this family can form histamine in the warm, and no washing, freezing or cooking takes it out again. If the cold was broken, ask your supervisor."
            </p>
        })}
        {reef.then(|| view! {
            <p class="care">
                <b>"Ask where it was caught"</b>
                "A large reef fish can carry ciguatera, which no cooking or freezing destroys. Your supplier and your local code decide."
            </p>
        })}
    }
    .into_any()
}
