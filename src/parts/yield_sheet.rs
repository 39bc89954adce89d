//! What a yield test says, drawn once for the cook, the card and the tutor.

use leptos::prelude::*;

use crate::trade::yield_sheet::{Figure, YieldPart, YieldSheet};

/// The yield with its doubt, what it cost, and where it went.
pub fn told(sheet: &YieldSheet) -> AnyView {
    view! {
        {gave(sheet)}
        {rest(sheet)}
    }
    .into_any()
}

/// The yield with its doubt.
pub fn gave(sheet: &YieldSheet) -> AnyView {
    view! { <dl class="figures" data-says="yield">{figure(&sheet.gave, "figure first wide")}</dl> }
        .into_any()
}

/// What the fish cost, and where it went.
pub fn rest(sheet: &YieldSheet) -> AnyView {
    view! {
        <dl class="figures" data-says="yield cost">
            {figure(&sheet.doubt, "figure wide")}
            {sheet.costs.iter().map(|cost| figure(cost, "figure")).collect_view()}
        </dl>
        {(!sheet.parts.is_empty()).then(|| parts(&sheet.parts))}
    }
    .into_any()
}

/// How many portions, and what one costs: the first figure over the whole width.
pub fn portions(figures: &[Figure]) -> AnyView {
    if figures.is_empty() {
        return ().into_any();
    }
    let class = |nth| if nth == 0 { "figure wide" } else { "figure" };
    view! {
        <dl class="figures" data-says="portion">{figures.iter().enumerate().map(|(nth, told)| figure(told, class(nth))).collect_view()}</dl>
    }
    .into_any()
}

fn figure(told: &Figure, class: &'static str) -> AnyView {
    view! {
        <div class=class>
            <dt>{told.name.clone()}</dt>
            <dd>{told.value.clone()}<small>{told.note.clone()}</small></dd>
        </div>
    }
    .into_any()
}

fn parts(parts: &[YieldPart]) -> AnyView {
    view! {
        <section class="sheet" data-says="losses">
            <h2>"Where it went"</h2>
            <table>
                <thead class="unseen"><tr><th scope="col">"Part"</th><th scope="col">"Weight"</th><th scope="col">"Share"</th></tr></thead>
                <tbody>
                    {parts.iter().map(|part| view! {
                        <tr>
                            <th scope="row">{part.name.clone()}</th>
                            <td class="num">{part.mass.clone()}</td>
                            <td class="num">{part.share.clone()}</td>
                        </tr>
                    }).collect_view()}
                </tbody>
            </table>
            <p class="soft small">"Losses are what is missing between two weighings, drip and scale steps included."</p>
        </section>
    }
    .into_any()
}
