//! One student's result as a tutor sees it: the readings of a code, and the figures worked out again.

use leptos::prelude::*;

use super::range::YieldBeside;
use super::yield_sheet;
use crate::class::result::{ClassResult, Figures};
use crate::trade::mass::{self, Unit};

/// Readings and figures of a result.
pub fn of(result: &ClassResult) -> AnyView {
    let figures = match &result.figures {
        Ok(figures) => worked(result, figures),
        Err(why) => view! { <p class="fault">{why.to_string()}</p> }.into_any(),
    };
    view! { {figures} {readings(result)} }.into_any()
}

fn worked(result: &ClassResult, figures: &Figures) -> AnyView {
    view! {
        {yield_sheet::told(&figures.sheet)}
        {yield_sheet::portions(&figures.portions)}
        {YieldBeside { key: result.sheet.fish.key().map(str::to_owned), form: result.sheet.form, ratio: figures.yield_ratio }.section()}
    }
    .into_any()
}

fn readings(result: &ClassResult) -> AnyView {
    let sheet = &result.sheet;
    let grams = |weight| mass::show(weight, Unit::Gram);
    let kit: Vec<&str> = sheet.missing.iter().map(|kit| kit.name()).collect();
    let cooked = sheet.cooked.map(|cooked| {
        let [skin, finish, rest] = cooked.secs();
        format!("{skin} s skin side down, {finish} s to finish, {rest} s rest")
    });
    let lines = [
        ("Fish", Some(result.species().to_owned())),
        ("Delivered", Some(sheet.form.name().to_owned())),
        ("As delivered", Some(grams(sheet.weights.delivered))),
        ("Off the bone", sheet.weights.off_bone.map(grams)),
        ("Ready to cook", Some(grams(sheet.weights.ready))),
        ("Smallest step of the scale", Some(sheet.scale.name())),
        (
            "Fish together",
            (sheet.count > 1).then(|| sheet.count.to_string()),
        ),
        ("Price", sheet.price.map(|price| price.show())),
        ("Portions", sheet.portions.map(|count| count.to_string())),
        ("Kit missing", (!kit.is_empty()).then(|| kit.join(", "))),
        ("Filleted", Some(result.filleted_line())),
        ("Cooked", cooked),
        ("Day", Some(sheet.day.to_string())),
        ("Student and test", sheet.student.map(|_| result.student())),
        ("Code", Some(result.code.to_string())),
    ];
    view! {
        <details>
            <summary>"The readings in the code"</summary>
            <table class="small">
                <tbody>
                    {lines.into_iter().filter_map(|(name, value)| Some((name, value?))).map(|(name, value)| view! {
                        <tr><th scope="row">{name}</th><td class="breaks">{value}</td></tr>
                    }).collect_view()}
                </tbody>
            </table>
        </details>
    }
    .into_any()
}
