//! A dish for other covers: as a kitchen measures it, with the exact quantity beside it.

use leptos::prelude::*;
use rust_decimal::Decimal;

use crate::cards::recipe::RecipeAction;
use crate::device::download;
use crate::parts::entry_field::TextEntry;
use crate::parts::page::{Page, back_to, on_to};
use crate::place::DishSide;
use crate::session::desk::Desk;
use crate::trade::plate::scaled::{ScaledLine, parse_covers, scaled};
use crate::trade::rounding;

/// The dish scaled.
pub fn screen(desk: Desk) -> AnyView {
    view! {
        <Page title="Scale it" above=desk.title() demo=desk.demo() dock=move || view! {
            {back_to(&desk.at(DishSide::Card))}
            {on_to(&desk.at(DishSide::Order), "What to buy")}
        }>
            {wanted(desk)}
            {move || table(desk)}
            <button class="btn plain noprint" on:click=move |_| download::print()>"Print the list"</button>
        </Page>
    }
    .into_any()
}

/// For how many covers: asked for on both screens that need it.
pub fn wanted(desk: Desk) -> AnyView {
    TextEntry {
        keyboard: "numeric",
        hint: Signal::derive(move || {
            let empty = desk.get(|card| card.wanted.trim().is_empty());
            if empty {
                "Say for how many covers: the list appears below.".to_owned()
            } else {
                String::new()
            }
        }),
        fault: Signal::derive(move || {
            desk.get(|card| {
                let typed = !card.wanted.trim().is_empty();
                let fault = parse_covers(&card.wanted).err().filter(|_| typed);
                fault.map(|refusal| refusal.to_string())
            })
        }),
        ..TextEntry::figure(
            "dish-wanted",
            "For how many covers",
            Signal::derive(move || desk.get(|card| card.wanted.clone())),
            Callback::new(move |text| desk.send(RecipeAction::Wanted(text))),
        )
    }
    .view()
}

/// The lines that are not among those that follow, said so that a short list is never taken for a whole one.
pub fn left_out(open: usize) -> Option<AnyView> {
    (open > 0).then(|| {
        view! { <p class="doubt">{if open == 1 {
            "1 line of the card is not finished, and is not in this list.".to_owned()
        } else {
            format!("{open} lines of the card are not finished, and are not in this list.")
        }}</p> }
        .into_any()
    })
}

fn table(desk: Desk) -> Option<AnyView> {
    let covers = desk.get(|card| parse_covers(&card.wanted).ok())?;
    let reading = desk.reading()?;
    let open = reading.open_lines();
    Some(match scaled(&reading.preparation, covers) {
        Err(refusal) => view! { <p class="fault">{refusal.to_string()}</p> }.into_any(),
        Ok(lines) => view! {
            {left_out(open)}
            <section class="sheet" data-says="order">
                <h2>{format!("Ready to use, for {covers} covers")}</h2>
                <table class="costs">
                    <thead><tr><th scope="col">"Line"</th><th scope="col" class="num">"Measure"</th><th scope="col" class="num">"Exactly"</th></tr></thead>
                    <tbody>{rows(&lines, false)}</tbody>
                </table>
                <p class="soft small">"Rounded to what a kitchen measures; the exact quantity and the difference stand beside it. Weigh salt and acid by taste, not by the factor."</p>
            </section>
        }
        .into_any(),
    })
}

fn rows(lines: &[ScaledLine], inside: bool) -> AnyView {
    lines
        .iter()
        .map(|line| {
            let off = rounding::half_away(line.off() * Decimal::ONE_HUNDRED, 1);
            let off = if off.is_zero() {
                "exact".to_owned()
            } else if off > Decimal::ZERO {
                format!("+{} %", rounding::written(off, 1))
            } else {
                format!("\u{2212}{} %", rounding::written(off.abs(), 1))
            };
            view! {
                <tr>
                    <th scope="row" class=if inside { "inside" } else { "" }>{line.name.clone()}</th>
                    <td class="num"><b>{line.rounded.show(line.unit)}</b></td>
                    <td class="num">{line.exact.show(line.unit)}<small>{off}</small></td>
                </tr>
                {rows(&line.parts, true)}
            }
        })
        .collect_view()
        .into_any()
}
