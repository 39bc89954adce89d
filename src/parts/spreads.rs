//! How the class spreads: median, quartiles and spread of every measure, group by group.

use leptos::prelude::*;

use super::measure::{measures, name, written};
use crate::class::board::Board;
use crate::class::group::{ClassGroup, ClassSplit, FEWEST_SPREAD, Measure, groups};
use crate::class::spread;
use crate::trade::published;
use crate::trade::rounding;

/// Some rows of the board, all of one species and form, parted by `by`.
pub fn of_rows(board: &Board, rows: &[usize], by: ClassSplit) -> AnyView {
    let measures = measures(&board.currencies());
    view! {
        {groups(board.results(rows), by).iter().map(|group| of_group(group, by, &measures)).collect_view()}
        <p class="soft small" data-says="class">{spread::told()}</p>
    }
    .into_any()
}

fn of_group(group: &ClassGroup<'_>, by: ClassSplit, measures: &[Measure]) -> AnyView {
    let label = super::words::capital(&group.label);
    let count = match group.results.len() {
        1 => "1 result".to_owned(),
        count => format!("{count} results"),
    };
    let pooled = group.pooled().map(|pooled| {
        format!(
            "All weighed together: {}.",
            rounding::percent(pooled.yield_ratio, 1)
        )
    });
    let published = group
        .results
        .first()
        .filter(|_| by == ClassSplit::SpeciesAndForm)
        .and_then(|result| published::range_for(result.sheet.fish.key()?, result.sheet.form))
        .map(|range| format!("{}.", range.told()));
    let all = group.results.len();
    let lines: Vec<AnyView> = measures
        .iter()
        .filter_map(|measure| Some((*measure, group.spread(*measure)?)))
        .filter(|(_, spread)| spread.count >= FEWEST_SPREAD)
        .map(|(measure, spread)| {
            let figure = |value| view! { <td class="num">{written(measure, value)}</td> };
            view! {
                <tbody>
                    // On a line of its own for the eye; for the ear it comes before the first figure.
                    <tr class="named" aria-hidden="true">
                        <td colspan="4">
                            {name(measure)}
                            {(spread.count < all).then(|| view! { <span class="soft small">{format!(" · {} of them", spread.count)}</span> })}
                        </td>
                    </tr>
                    <tr>
                        <td class="num"><span class="unseen">{format!("{}: ", name(measure))}</span>{written(measure, spread.lower_quartile)}</td>
                        {figure(spread.median)}
                        {figure(spread.upper_quartile)}
                        {figure(spread.robust_deviation)}
                    </tr>
                </tbody>
            }
            .into_any()
        })
        .collect();
    let table = if lines.is_empty() {
        view! { <p class="soft small">"Fewer than three: no spread is shown."</p> }.into_any()
    } else {
        view! {
            <table class="spreads small">
                    <thead><tr>
                        <th scope="col" class="num">"Low"</th>
                        <th scope="col" class="num">"Median"</th>
                        <th scope="col" class="num">"High"</th>
                        <th scope="col" class="num">"Spread"</th>
                    </tr></thead>
                    {lines}
            </table>
        }
        .into_any()
    };
    view! {
        <div class="group" data-says="class pooled published">
            <h3>{label}<span class="soft small">{format!(" · {count}")}</span></h3>
            <p class="small">{pooled}" "{published}</p>
            {table}
        </div>
    }
    .into_any()
}
