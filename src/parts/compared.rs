//! Tests that were chosen to stand side by side: group by group, and one by one.

use std::sync::Arc;

use leptos::prelude::*;

use super::plot;
use crate::base::text::caseless;
use crate::class::dots::{self, Axis, DotLine};
use crate::compare::group::{self, TestGroup, TestSplit};
use crate::compare::test::Test;
use crate::place::{Place, Stage};
use crate::trade::breakdown::DeliveryForm;
use crate::trade::mass;
use crate::trade::outlook::{Confidence, Outlook};
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
    pub by: TestSplit,
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
            by: TestSplit::default(),
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
                .is_none_or(|name| caseless(&test.species.name()) == caseless(name));
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

fn title(group: &TestGroup<'_>) -> String {
    if group.part.is_empty() {
        group.bought.name()
    } else {
        format!("{}: {}", group.bought.name(), group.part)
    }
}

fn of_group(group: &TestGroup<'_>, confidence: Confidence) -> AnyView {
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
    let published = group.bought.published();
    let published = published.map(|range| format!("{}.", range.told()));
    view! {
        <section class="sheet results" data-says="pooled next published">
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

fn between(group: &TestGroup<'_>) -> AnyView {
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

fn next_fish(group: &TestGroup<'_>, confidence: Confidence) -> AnyView {
    let outlook = group.outlook();
    let trend = outlook.and_then(|outlook| trend_words(&outlook));
    let (figure, words) = match (outlook, group.wanting()) {
        (Some(outlook), _) => {
            let (low, high) = outlook.between(confidence);
            (
                format!("{:.1} to {:.1} %", low * 100.0, high * 100.0),
                match outlook.deliveries {
                    Some(days) => format!(
                        "{}, on another day, from {} fish of {days} days",
                        confidence.name(),
                        outlook.fish
                    ),
                    None => format!(
                        "{}, for one more of the same delivery, from {} fish; fish of three days tell of another day",
                        confidence.name(),
                        outlook.fish
                    ),
                },
            )
        }
        (None, wanting) => (
            "Not yet".to_owned(),
            format!(
                "weigh {wanting} more of this fish in this form, one by one: three tell how far the next may lie off"
            ),
        ),
    };
    // A sentence takes the whole width.
    let class = trend.as_ref().map_or("figure", |_| "figure wide");
    view! {
        <div class=class>
            <dt>"The next fish"</dt>
            <dd>{figure}<small>{words}</small>{trend.map(|words| view! { <small>{words}</small> })}</dd>
        </div>
    }
    .into_any()
}

/// Where the next fish is expected, and why not at the mean.
fn trend_words(outlook: &Outlook) -> Option<String> {
    let trend = outlook.trend?;
    let more = if trend.step > 0.0 { "more" } else { "less" };
    let each = outlook.deliveries.map_or("fish", |_| "day");
    Some(format!(
        "From {each} to {each} you got {more}, some {:.1} points: the next is expected at {:.1} %, not at the mean of your {}, {:.1} %",
        trend.step.abs() * 100.0,
        outlook.mean * 100.0,
        if each == "day" { "days" } else { "fish" },
        trend.mean * 100.0,
    ))
}

/// The tests that are shown one by one, in their groups, each with its heading.
fn shown<'a>(tests: &'a [Test], choice: &Choice) -> Vec<TestGroup<'a>> {
    let mut left = choice.shown;
    let mut groups = group::groups(tests, choice.by);
    for group in &mut groups {
        group.tests.truncate(left);
        left = left.saturating_sub(group.tests.len());
    }
    groups.retain(|group| !group.tests.is_empty());
    groups
}

/// Every test as a dot; the table says the same for those who can't see it.
pub fn picture(tests: &[Test], choice: &Choice) -> AnyView {
    let groups = shown(tests, choice);
    let lines = groups.iter().flat_map(|group| {
        let head = DotLine {
            label: title(group),
            ..DotLine::default()
        };
        std::iter::once(head).chain(group.lines())
    });
    let lines: Vec<DotLine> = lines.collect();
    let Some(axis) = Axis::over(&lines) else {
        return ().into_any();
    };
    let batches = tests.iter().any(|test| test.count > 1);
    view! {
        <section class="sheet results" data-says="pooled next published">
            <h2>"Yield of each test"</h2>
            {plot::drawn(dots::draw(&lines, axis, None, plot::wide()), "", |value| format!("{:.0} %", value * 100.0))}
            <p class="soft small">
                "A dot is the share of one fish that was ready to cook, the latest on top. The bar behind is what is published for that fish and form."
                {batches.then_some(" A triangle is a batch weighed together.")}
            </p>
        </section>
    }
    .into_any()
}

/// Every test as a row of a table, in the order of the picture.
pub fn table(tests: Memo<Arc<Vec<Test>>>, choice: RwSignal<Choice>) -> AnyView {
    let more = move || {
        let all = tests.with(|tests| tests.len());
        let left = all.saturating_sub(choice.with(|choice| choice.shown));
        (left > 0).then(|| format!("Show more: {left} left"))
    };
    let bodies = move || {
        tests.with(|tests| {
            let groups = choice.with(|choice| shown(tests, choice));
            let bodies = groups.iter().map(|group| body(title(group), &group.tests));
            bodies.collect::<Vec<AnyView>>()
        })
    };
    view! {
        <section class="sheet results" data-says="pooled next published">
            <h2>"Weights and yields"</h2>
            <table class="board weights small">
                <thead><tr>
                    <th scope="col">"Test"</th>
                    <th scope="col" class="num">"Ready of delivered"</th>
                    <th scope="col" class="num">"Yield"</th>
                </tr></thead>
                {bodies}
            </table>
            {move || more().map(|words| view! {
                <button class="btn plain noprint" on:click=move |_| choice.update(|choice| choice.shown = choice.shown.saturating_add(FIRST))>{words}</button>
            })}
        </section>
    }
    .into_any()
}

fn body(title: String, rows: &[&Test]) -> AnyView {
    view! {
        <tbody>
            // On a line of its own for the eye; for the ear it is in the head of each row.
            <tr class="named" aria-hidden="true"><td colspan="3">{title.clone()}</td></tr>
            {rows.iter().map(|test| row(&title, test)).collect_view()}
        </tbody>
    }
    .into_any()
}

fn row(title: &str, test: &Test) -> AnyView {
    let decimals = YieldReading::of(&test.breakdown, test.scale).percent_decimals();
    let together =
        (test.count > 1).then(|| view! { <small>{format!("{} fish", test.count)}</small> });
    let place = Place::Fish(test.id.clone(), Stage::Summary);
    view! {
        <tr>
            <th scope="row"><a class="cell" href=place.to_string()><span><i class="unseen">{format!("{title}, ")}</i>{group::day_label(test)}{together}</span></a></th>
            <td class="num">{mass::show(test.breakdown.ready(), test.unit)}<small>{format!(" of {}", mass::show(test.breakdown.delivered(), test.unit))}</small></td>
            <td class="num">{rounding::percent(test.yield_ratio(), decimals)}</td>
        </tr>
    }
    .into_any()
}
