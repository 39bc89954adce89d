//! A line that is a whole fish: whose yield it takes.

use leptos::prelude::*;

use crate::cards::ingredient::{Ingredient, Origin};
use crate::cards::larder::LineField;
use crate::parts::entry_field::{TextEntry, list};
use crate::parts::{named_fish, whole};
use crate::screens::dish::line::LineDesk;
use crate::trade::breakdown::DeliveryForm;
use crate::trade::published;
use crate::trade::species::{self, Filleted};

/// The heads of the values in the list of yields.
const OWN: &str = "own/";
const TYPED: &str = "typed";
const PUBLISHED: &str = "published";

/// The fields that say which fish, and what is left of it.
pub fn fields(line: LineDesk) -> AnyView {
    let kind = Memo::new(move |_| chosen(&line.get(|line| line.origin.clone())));
    view! {
        {whole::once_read(line.desk.bench.fish, move || whose(line))}
        {move || {
            let kind = kind.get();
            if kind == TYPED {
                typed(line)
            } else if kind == PUBLISHED {
                published_fish(line)
            } else {
                name(line, "Its name on the card (empty: the name of that fish)")
            }
        }}
    }
    .into_any()
}

fn chosen(origin: &Origin) -> String {
    match origin {
        Origin::OwnFish(id) => format!("{OWN}{id}"),
        Origin::PublishedFish(..) => PUBLISHED.to_owned(),
        _ => TYPED.to_owned(),
    }
}

fn whose(line: LineDesk) -> AnyView {
    let own = line.desk.own_fish();
    let none = own.is_empty();
    let mut options: Vec<(String, String)> = own
        .into_iter()
        .map(|(id, words)| (format!("{OWN}{id}"), words))
        .collect();
    options.push((
        PUBLISHED.to_owned(),
        "The published range of a fish".to_owned(),
    ));
    options.push((TYPED.to_owned(), "A yield I type".to_owned()));
    let choose = move |value: String| {
        line.edit(move |line| {
            line.origin = match value.strip_prefix(OWN) {
                Some(id) => Origin::OwnFish(id.to_owned()),
                // Which one, the cook says next.
                None if value == PUBLISHED => {
                    Origin::PublishedFish(String::new(), DeliveryForm::Whole)
                }
                None => Origin::TypedFish,
            };
        });
    };
    let fault = line.said(LineField::Origin, |_| true);
    view! {
        <div class="field">
            <label for="line-yield">"Its yield is that of"</label>
            <div id="line-yield-hint">{none.then(|| view! { <p class="hint">"A fish you weigh whole and ready to cook can be chosen here."</p> })}</div>
            {list(
                "line-yield",
                None,
                Some("line-yield-hint"),
                options,
                Signal::derive(move || chosen(&line.get(|line| line.origin.clone()))),
                Callback::new(choose),
            )}
            <div aria-live="polite">{move || fault.get().map(|sentence| view! { <p class="fault">{sentence}</p> })}</div>
        </div>
    }
    .into_any()
}

fn name(line: LineDesk, label: &str) -> AnyView {
    TextEntry {
        keyboard: "text",
        fault: line.said(LineField::Name, |_| false),
        ..line.entry(
            "line-name",
            label,
            |line| line.name.clone(),
            |line, text| line.name = text,
        )
    }
    .view()
}

fn typed(line: LineDesk) -> AnyView {
    view! {
        {name(line, "Fish")}
        {TextEntry {
            hint: Signal::stored("What is ready to cook, in percent of the fish as bought.".to_owned()),
            fault: line.said(LineField::Trim, |line| !line.trim.trim().is_empty()),
            ..line.entry(
                "line-trim",
                "Yield (%)",
                |line| line.trim.clone(),
                |line, text| line.trim = text,
            )
        }.view()}
    }
    .into_any()
}

fn published_fish(line: LineDesk) -> AnyView {
    let now = move || {
        line.get(|line| match &line.origin {
            Origin::PublishedFish(key, form) => Some((key.clone(), *form)),
            _ => None,
        })
    };
    let set = move |key: String, form| {
        line.edit(move |line: &mut Ingredient| line.origin = Origin::PublishedFish(key, form));
    };
    let key = move || now().map(|(key, _)| key).unwrap_or_default();
    let choose = move |key: String| {
        let form = untrack(now).map_or(DeliveryForm::Whole, |(_, form)| form);
        // Shellfish comes as it was caught.
        let shell = species::species(&key).is_some_and(|listed| listed.filleted == Filleted::Never);
        set(key, if shell { DeliveryForm::Whole } else { form });
    };
    let forms = DeliveryForm::ALL
        .iter()
        .map(|form| (form.name().to_owned(), form.name().to_owned()))
        .collect();
    let range = move || {
        let (key, form) = now()?;
        let range = published::range_for(&key, form)?;
        let rows: Vec<String> = range.rows.iter().map(|row| row.told()).collect();
        Some(view! {
            <div class="detour" data-says="published">
                <b>{range.told()}</b>
                <p>"The middle is counted; the plate shows what both ends would cost. A fish you weigh yourself is better."</p>
                <details><summary>"Where it is from"</summary>
                    {range.derived.into_iter().chain(range.left_out).map(|sum| view! { <p class="small">{sum}</p> }).collect_view()}
                    <ul class="plain-list small">{rows.into_iter().map(|row| view! { <li>{row}</li> }).collect_view()}</ul>
                </details>
            </div>
        })
    };
    view! {
        <div class="field">
            <label for="line-species">"Fish"</label>
            <select id="line-species" prop:value=key on:change:target=move |event| choose(event.target().value())>
                {move || key().is_empty().then(|| view! { <option value="" selected=true>"Which fish?"</option> })}
                {named_fish::all(key)}
            </select>
        </div>
        <div class="field">
            <label for="line-form">"Bought"</label>
            {list(
                "line-form",
                None,
                None,
                forms,
                Signal::derive(move || now().map(|(_, form)| form.name().to_owned()).unwrap_or_default()),
                Callback::new(move |name: String| {
                    let form = DeliveryForm::ALL.into_iter().find(|form| form.name() == name);
                    if let (Some((key, _)), Some(form)) = (untrack(now), form) {
                        set(key, form);
                    }
                }),
            )}
        </div>
        {range}
    }
    .into_any()
}
