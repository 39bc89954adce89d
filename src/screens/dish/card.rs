//! A dish as it is written: its name, for how many, its lines, and where it goes from here.

use leptos::prelude::*;

use crate::cards::exchange;
use crate::cards::larder::CardField;
use crate::cards::recipe::{Recipe, RecipeAction, Serves};
use crate::device::{address, clock, download, send};
use crate::parts::entry_field::{TextEntry, list};
use crate::parts::later::later;
use crate::parts::page::{Page, back_to, on_to};
use crate::parts::removal;
use crate::place::{DishSide, Place};
use crate::screens::dish::serve;
use crate::session::desk::Desk;
use crate::session::drawer::identity;
use crate::trade::money::{Currency, Money};
use crate::trade::plate::line::Makes;
use crate::trade::plate::units::QuantityUnit;

/// The card of a dish.
pub fn screen(desk: Desk) -> AnyView {
    let serves = desk.get(|card| card.serves);
    let add = move |_| {
        let id = identity(clock::now());
        desk.send(RecipeAction::AddLine(id.clone()));
        if desk.refused.with_untracked(Option::is_none) {
            address::go(&desk.at(DishSide::Line(id)));
        }
    };
    let above = match serves {
        Serves::Covers => "A dish",
        Serves::Amount => "A part made ahead",
    };
    view! {
        <Page title=desk.title() above=above demo=desk.demo() dock=move || view! {
            {back_to(&Place::Dishes)}
            {on_to(&desk.at(DishSide::Plate), if serves == Serves::Covers { "Read the plate" } else { "Read its cost" })}
        }>
            {name(desk)}
            {if serves == Serves::Covers { covers(desk) } else { makes(desk) }}
            <h2>"Lines"</h2>
            <ul class="rows">{move || lines(desk)}</ul>
            <div class="row">
                <button class="btn main" on:click=add>"Add a line"</button>
                {(serves == Serves::Covers).then(|| serve::button(desk))}
            </div>
            {later(move || below(desk, serves))}
        </Page>
    }
    .into_any()
}

/// What stands below the lines.
fn below(desk: Desk, serves: Serves) -> AnyView {
    view! {
        {share(desk)}
        {method(desk)}
        {allergens_way(desk)}
        <p class="care"><b>"Allergens"</b>"Go by the labels of what you buy and by your local list; the person who supervises you decides what the guest is told."</p>
        {move || desk.refused.get().map(|sentence| view! { <p class="fault" role="alert">{sentence}</p> })}
        {(serves == Serves::Covers).then(|| view! {
            <a class="btn plain" href=desk.at(DishSide::Steps).to_string()>"Steps of the service"</a>
            <div class="row">
                <a class="btn plain" href=desk.at(DishSide::Scale).to_string()>"Scale it"</a>
                <a class="btn plain" href=desk.at(DishSide::Order).to_string()>"What to buy"</a>
            </div>
        })}
        <a class="btn plain" href=desk.at(DishSide::Journal).to_string()>"Journal: photos and notes"</a>
        {exchange(desk)}
        {remove(desk)}
    }
    .into_any()
}

/// What a guest may react to, in a line, and the way to where it is confirmed.
fn allergens_way(desk: Desk) -> AnyView {
    let said = move || {
        let gathered = desk.with_larder(|larder| desk.get(|card| card.allergens(larder)));
        let names: Vec<&str> = (gathered.confirmed.iter())
            .map(|(one, _)| one.name())
            .collect();
        match (names.is_empty(), gathered.open.len()) {
            (true, 0) => "none: confirmed".to_owned(),
            (false, 0) => names.join(", "),
            (true, open) => format!("{open} not confirmed"),
            (false, open) => format!("{}; {open} not confirmed", names.join(", ")),
        }
    };
    view! {
        {move || (!desk.get(|card| card.lines.is_empty())).then(|| view! {
            <ul class="rows"><li><a class="item" href=desk.at(DishSide::Allergens).to_string()>
                <span class="grow"><b>"Allergens"</b><small>{said}</small></span>"›"
            </a></li></ul>
        })}
    }
    .into_any()
}

/// A field that is a text of the card.
fn text_of(desk: Desk, read: fn(&Recipe) -> String) -> Signal<String> {
    Signal::derive(move || desk.get(read))
}

fn name(desk: Desk) -> AnyView {
    TextEntry {
        keyboard: "text",
        ..TextEntry::figure(
            "dish-name",
            "Name",
            text_of(desk, |card| card.name.clone()),
            Callback::new(move |text| desk.send(RecipeAction::Name(text))),
        )
    }
    .view()
}

fn covers(desk: Desk) -> AnyView {
    TextEntry {
        keyboard: "numeric",
        hint: Signal::stored("The quantities of all lines are for so many together.".to_owned()),
        fault: Signal::derive(move || desk.said(CardField::Makes)),
        beside: currency(desk),
        ..TextEntry::figure(
            "dish-covers",
            "Covers, and the currency",
            text_of(desk, |card| card.covers.clone()),
            Callback::new(move |text| desk.send(RecipeAction::Covers(text))),
        )
    }
    .view()
}

fn makes(desk: Desk) -> AnyView {
    let unit = units(
        "makes-unit",
        "Unit of what it makes",
        Signal::derive(move || desk.get(|card| card.makes_unit)),
        Callback::new(move |unit| {
            desk.send(RecipeAction::Makes(
                desk.get(|card| card.makes.clone()),
                unit,
            ));
        }),
    );
    view! {
        {TextEntry {
            hint: Signal::stored("Weigh or measure what the lines below give together, once it is made.".to_owned()),
            fault: Signal::derive(move || desk.said(CardField::Makes)),
            beside: unit,
            ..TextEntry::figure(
                "dish-makes",
                "What it makes",
                text_of(desk, |card| card.makes.clone()),
                Callback::new(move |text| {
                    desk.send(RecipeAction::Makes(text, desk.get(|card| card.makes_unit)));
                }),
            )
        }.view()}
        {currency(desk)}
    }
    .into_any()
}

fn currency(desk: Desk) -> AnyView {
    list(
        "dish-currency",
        Some("Currency"),
        None,
        Currency::ALL
            .iter()
            .map(|currency| (currency.code().to_owned(), currency.code().to_owned()))
            .collect(),
        Signal::derive(move || desk.get(|card| card.currency.code().to_owned())),
        Callback::new(move |code: String| {
            let found = Currency::ALL
                .into_iter()
                .find(|currency| currency.code() == code);
            if let Some(currency) = found {
                desk.send(RecipeAction::Currency(currency));
            }
        }),
    )
}

/// A list of units.
pub fn units(
    id: &str,
    name: &'static str,
    chosen: Signal<QuantityUnit>,
    choose: Callback<QuantityUnit>,
) -> AnyView {
    list(
        id,
        Some(name),
        None,
        QuantityUnit::ALL
            .iter()
            .map(|unit| (unit.symbol().to_owned(), unit.symbol().to_owned()))
            .collect(),
        Signal::derive(move || chosen.get().symbol().to_owned()),
        Callback::new(move |symbol: String| {
            let found = QuantityUnit::ALL
                .into_iter()
                .find(|unit| unit.symbol() == symbol);
            if let Some(unit) = found {
                choose.run(unit);
            }
        }),
    )
}

/// Every line with its quantity and what it costs, or what is still to be said of it.
fn lines(desk: Desk) -> AnyView {
    let Some(reading) = desk.reading() else {
        return ().into_any();
    };
    let covers = reading.preparation.covers();
    let currency = reading.preparation.currency;
    let for_covers = matches!(reading.preparation.makes, Makes::Covers(_));
    let ids: Vec<String> = desk.get(|card| card.lines.iter().map(|line| line.id.clone()).collect());
    ids.into_iter()
        .enumerate()
        .map(|(at, id)| {
            let title = desk.get(|card| {
                let line = card.lines.get(at)?;
                Some(desk.with_larder(|larder| line.title(larder)))
            });
            let read = reading
                .places
                .iter()
                .zip(&reading.preparation.lines)
                .find(|(place, _)| **place == at);
            let (small, cost) = match read {
                Some((_, line)) => {
                    let amount = line.cost().unwrap_or_default() / rust_decimal::Decimal::from(covers);
                    (line.quantity.show(line.unit), Money { amount, currency }.show())
                }
                None => ("to be finished".to_owned(), String::new()),
            };
            let per = if for_covers && covers > 1 && !cost.is_empty() { "a cover" } else { "" };
            view! {
                <li><a class=if read.is_some() { "item" } else { "item here" } href=desk.at(DishSide::Line(id)).to_string()>
                    <span class="grow"><b>{title.unwrap_or_default()}</b><small data-typed="">{small}</small></span>
                    <span class="num amount" data-says="plate">{cost}<small>{per}</small></span>
                </a></li>
            }
        })
        .collect_view()
        .into_any()
}

fn share(desk: Desk) -> AnyView {
    TextEntry {
        hint: Signal::stored(
            "Salt, frying oil, a squeeze of lemon: added to the cost of the lines, in percent. Empty: nothing.".to_owned(),
        ),
        fault: Signal::derive(move || desk.said(CardField::Share)),
        ..TextEntry::figure(
            "dish-share",
            "For what is never measured (%)",
            text_of(desk, |card| card.share.clone()),
            Callback::new(move |text| desk.send(RecipeAction::Share(text))),
        )
    }
    .view()
}

fn method(desk: Desk) -> AnyView {
    view! {
        <div class="field">
            <label for="dish-method">"How it is made"</label>
            <p class="hint" id="method-hint">"One step a line."</p>
            <textarea id="dish-method" aria-describedby="method-hint" autocomplete="off" prop:value=move || desk.get(|card| card.method.clone())
                on:input:target=move |event| desk.send(RecipeAction::Method(event.target().value()))></textarea>
        </div>
    }
    .into_any()
}

/// The ways out of the app: a file, the share sheet, the clipboard.
fn exchange(desk: Desk) -> AnyView {
    let said = RwSignal::new(None::<String>);
    let text = move || {
        let card = desk.recipes.with(&desk.id(), Clone::clone)?;
        let id = desk.id();
        Some(desk.with_larder(|larder| exchange::write(&id, &card, larder)))
    };
    let save = move |_| {
        let name = format!("{}.jsonld", file_name(&desk.get(Recipe::title)));
        let saved =
            untrack(text).is_some_and(|text| download::text(&name, "application/ld+json", &text));
        said.set(Some(if saved {
            format!("Saved as {name}.")
        } else {
            "This browser did not save the file: copy the dish instead.".to_owned()
        }));
    };
    let told = move |sent| {
        let _ = said.try_set(Some(
            match sent {
                send::Sent::Copied => "Copied: paste it into a message.",
                send::Sent::Shared => "Handed over.",
                send::Sent::Refused => "Nothing was sent.",
            }
            .to_owned(),
        ));
    };
    view! {
        <details class="sheet">
            <summary>"Give it to another kitchen"</summary>
            <p class="soft small">"As schema.org/Recipe in JSON-LD, an open standard. The parts made ahead go with it; your fish goes with its yield and price."</p>
            <div class="row">
                <button class="btn plain" on:click=save>"Save as a file"</button>
                <button class="btn plain" on:click=move |_| { if let Some(text) = untrack(text) { send::copy(&text, told); } }>"Copy"</button>
                {send::can_share().then(|| view! {
                    <button class="btn plain" on:click=move |_| { if let Some(text) = untrack(text) { send::share(&text, None, told); } }>"Share"</button>
                })}
            </div>
            <div role="status">{move || said.get().map(|sentence| view! { <p>{sentence}</p> })}</div>
        </details>
    }
    .into_any()
}

/// Letters and figures of a title, for a file.
fn file_name(title: &str) -> String {
    let words: Vec<String> = title
        .split(|letter: char| !letter.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .take(6)
        .map(str::to_lowercase)
        .collect();
    words.join("-")
}

fn remove(desk: Desk) -> AnyView {
    removal::of_record(
        "Remove this card…",
        "This takes the card, its journal and its photos out of your list. They stay in the bin for 30 days. A dish that uses it will have to be finished again.",
        Place::Dishes,
        Callback::new(move |whereto| desk.recipes.remove(&desk.id(), whereto)),
    )
}
