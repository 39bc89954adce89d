//! Tests that were chosen to stand side by side: group by group, and one by one.

use std::sync::Arc;

use leptos::prelude::*;

use super::plot;
use crate::class::dots::{self, Line};
use crate::class::spread::Spread;
use crate::compare::group::{self, By, Group};
use crate::compare::test::Test;
use crate::place::{Place, Stage};
use crate::trade::breakdown::DeliveryForm;
use crate::trade::mass;
use crate::trade::outlook::Confidence;
use crate::trade::reading::YieldReading;
use crate::trade::rounding;

/// How many tests are shown before more are asked for.
const FIRST: usize = 20;

/// What was chosen to be compared.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// Only this fish, by name.
    pub fish: Option<String>,
    /// Only this delivery form.
    pub form: Option<DeliveryForm>,
    /// What the tests of one fish and form are parted by.
    pub by: By,
    /// How often the next fish is to come out as foretold.
    pub confidence: Confidence,
    /// How many tests are shown one by one.
    pub shown: usize,
}

impl Default for Choice {
    fn default() -> Self {
        Self {
            fish: None,
            form: None,
            by: By::default(),
            confidence: Confidence::default(),
            shown: FIRST,
        }
    }
}

impl Choice {
    /// The tests that were chosen.
    #[must_use]
    pub fn among(&self, tests: &[Test]) -> Arc<Vec<Test>> {
        let is_chosen = |test: &&Test| {
            let fish = self
                .fish
                .as_ref()
                .is_none_or(|name| test.species.name().to_lowercase() == name.to_lowercase());
            fish && self.form.is_none_or(|form| test.form == form)
        };
        Arc::new(tests.iter().filter(is_chosen).cloned().collect())
    }
}

/// Each group as figures.
pub fn groups(tests: &[Test], choice: &Choice) -> AnyView {
    let groups = group::groups(tests, choice.by);
    let mut forms: Vec<DeliveryForm> = groups.iter().map(|group| group.bought.form).collect();
    forms.sort_unstable();
    forms.dedup();
    view! {
        {(forms.len() > 1).then(|| view! {
            <p class="care">
                <b>"Not the same start"</b>
                "A fish that comes gutted or without its head starts lighter, so its yield is higher. Forms stand apart here and are never taken together."
            </p>
        })}
        {groups.iter().map(|group| of_group(group, choice.confidence)).collect_view()}
    }
    .into_any()
}

fn title(group: &Group<'_>) -> String {
    if group.part.is_empty() {
        group.bought.name()
    } else {
        format!("{}: {}", group.bought.name(), group.part)
    }
}

fn of_group(group: &Group<'_>, confidence: Confidence) -> AnyView {
    let Some(pooled) = group.pooled() else {
        return ().into_any();
    };
    let unit = group
        .tests
        .first()
        .map_or(mass::Unit::Gram, |test| test.unit);
    let counted = match (group.tests.len(), group.fish()) {
        (1, 1) => "1 fish".to_owned(),
        (1, fish) => format!("1 test of {fish} fish"),
        (tests, fish) if usize::try_from(fish) == Ok(tests) => format!("{tests} fish"),
        (tests, fish) => format!("{tests} tests of {fish} fish"),
    };
    let published = group.bought.published().map(|range| {
        format!(
            "Published for this fish and form: {} to {}.",
            rounding::percent(range.low, 1),
            rounding::percent(range.high, 1)
        )
    });
    view! {
        <section class="sheet results">
            <h2>{title(group)}<span class="soft small">{format!(" · {counted}")}</span></h2>
            <dl class="figures">
                <div class="figure first wide">
                    <dt>"Yield, all taken together"</dt>
                    <dd>{rounding::percent(pooled.yield_ratio, 1)}
                        <small>{format!(
                            "{} ready to cook from {} delivered",
                            mass::show(pooled.ready, unit),
                            mass::show(pooled.delivered, unit)
                        )}</small>
                    </dd>
                </div>
                {between(group)}
                {next_fish(group, confidence)}
            </dl>
            {published.map(|sentence| view! { <p class="soft small">{sentence}</p> })}
        </section>
    }
    .into_any()
}

fn between(group: &Group<'_>) -> AnyView {
    let (figure, words) = match group.spread() {
        Some(spread) => (
            format!("± {:.1} %", spread * 100.0),
            "how far one fish lies from the others: two in three are within it",
        ),
        None => ("—".to_owned(), "it takes two fish weighed one by one"),
    };
    view! {
        <div class="figure">
            <dt>"Spread between fish"</dt>
            <dd>{figure}<small>{words}</small></dd>
        </div>
    }
    .into_any()
}

fn next_fish(group: &Group<'_>, confidence: Confidence) -> AnyView {
    let (figure, words) = match (group.outlook(), group.wanting()) {
        (Some(outlook), _) => {
            let (low, high) = outlook.between(confidence);
            (
                format!("{:.1} to {:.1} %", low * 100.0, high * 100.0),
                format!(
                    "{}, from {} fish of your own",
                    confidence.name(),
                    outlook.fish
                ),
            )
        }
        (None, wanting) => (
            "Not yet".to_owned(),
            format!(
                "weigh {wanting} more of this fish in this form, one by one: three tell how far the next may lie off"
            ),
        ),
    };
    view! {
        <div class="figure">
            <dt>"The next fish"</dt>
            <dd>{figure}<small>{words}</small></dd>
        </div>
    }
    .into_any()
}

/// Every test as a dot and as a row of a table, in the same order.
pub fn every_test(tests: Memo<Arc<Vec<Test>>>, choice: RwSignal<Choice>) -> AnyView {
    let more = move || {
        let left = tests
            .with(|tests| tests.len())
            .saturating_sub(choice.with(|choice| choice.shown));
        (left > 0).then(|| format!("Show more: {left} left"))
    };
    view! {
        <section class="sheet results">
            <h2>"Every test, the latest first"</h2>
            {move || choice.with(|choice| one_by_one(&tests.get(), choice))}
            {move || more().map(|words| view! {
                <button class="btn plain noprint" on:click=move |_| choice.update(|choice| choice.shown = choice.shown.saturating_add(FIRST))>{words}</button>
            })}
        </section>
    }
    .into_any()
}

fn one_by_one(tests: &[Test], choice: &Choice) -> AnyView {
    let yields: Vec<f64> = tests.iter().map(Test::yield_drawn).collect();
    let Some(spread) = Spread::of(&yields) else {
        return ().into_any();
    };
    let (mut lines, mut bodies, mut left) = (Vec::new(), Vec::new(), choice.shown);
    for group in group::groups(tests, choice.by) {
        let rows: Vec<&Test> = group.tests.iter().take(left).copied().collect();
        if rows.is_empty() {
            break;
        }
        left = left.saturating_sub(rows.len());
        lines.push(Line {
            label: title(&group),
            ..Line::default()
        });
        lines.extend(group.lines().into_iter().take(rows.len()));
        bodies.push(body(title(&group), &rows));
    }
    let picture = dots::draw(&lines, &spread);
    let strays =
        (!picture.beyond.is_empty()).then_some(" An arrow points to one too far off to be drawn.");
    let batches = tests.iter().any(|test| test.count > 1);
    view! {
        {plot::drawn(picture, "", |value| format!("{:.0} %", value * 100.0))}
        <p class="soft small">
            "A dot is the yield of one fish. The bar behind is what is published for that fish and form. The broken line is the median."
            {batches.then_some(" A triangle is a batch weighed together.")}
            {strays}
        </p>
        <table class="board">
            <thead><tr>
                <th scope="col">"Test"</th>
                <th scope="col" class="num">"Delivered"</th>
                <th scope="col" class="num">"Ready"</th>
                <th scope="col" class="num">"Yield"</th>
            </tr></thead>
            {bodies}
        </table>
    }
    .into_any()
}

fn body(title: String, rows: &[&Test]) -> AnyView {
    view! {
        <tbody>
            <tr><th colspan="4" scope="rowgroup">{title}</th></tr>
            {rows.iter().map(|test| row(test)).collect_view()}
        </tbody>
    }
    .into_any()
}

fn row(test: &Test) -> AnyView {
    let decimals = YieldReading::of(&test.breakdown, test.scale).percent_decimals();
    let together = (test.count > 1).then(|| format!(" · {} fish", test.count));
    let place = Place::Fish(test.id.clone(), Stage::Summary);
    view! {
        <tr>
            <th scope="row"><a class="cell" href=place.to_string()>{group::day_label(test)}{together}</a></th>
            <td class="num">{mass::show(test.breakdown.delivered(), test.unit)}</td>
            <td class="num">{mass::show(test.breakdown.ready(), test.unit)}</td>
            <td class="num">{rounding::percent(test.yield_ratio(), decimals)}</td>
        </tr>
    }
    .into_any()
}
