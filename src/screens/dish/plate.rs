//! What a cover costs, line by line, and what it sells for.

use leptos::prelude::*;
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use crate::cards::larder::{CardField, CardReading};
use crate::cards::recipe::{RecipeAction, Serves};
use crate::device::{download, width};
use crate::parts::entry_field::TextEntry;
use crate::parts::page::{Page, back_to, on_to};
use crate::place::DishSide;
use crate::session::desk::Desk;
use crate::trade::money::Money;
use crate::trade::plate::line::{Makes, Preparation};
use crate::trade::plate::plate::{Plate, ends, worth_of_a_point};
use crate::trade::plate::price::{MenuPrice, parse_menu, parse_target, parse_tax};
use crate::trade::plate::units::Dimension;
use crate::trade::rounding;

/// The most bars of the picture.
const MOST_BARS: usize = 12;
/// The least width of the picture, in its own units, and how wide a letter may be.
const LEAST_WIDTH: f64 = 200.0;
const LETTER: f64 = 7.0;

/// The plate.
pub fn screen(desk: Desk) -> AnyView {
    let is_dish = desk.get(|card| card.serves) == Serves::Covers;
    view! {
        <Page
            title=if is_dish { "The plate" } else { "What it costs" }
            above=desk.title()
            demo=desk.demo()
            dock=move || view! {
                {back_to(&desk.at(DishSide::Card))}
                {if is_dish {
                    on_to(&desk.at(DishSide::Order), "What to buy").into_any()
                } else {
                    on_to(&desk.at(DishSide::Card), "To its lines").into_any()
                }}
            }
        >
            {move || desk.reading().map(|reading| costs(desk, &reading))}
            {is_dish.then(|| fields(desk))}
            {move || is_dish.then(|| desk.reading().and_then(|reading| selling(desk, &reading)))}
            {move || desk.reading().and_then(|reading| point(&reading.preparation))}
            <button class="btn plain noprint" on:click=move |_| download::print()>"Print the cost card"</button>
        </Page>
    }
    .into_any()
}

/// What is still open, what a cover costs, the bars and the table.
fn costs(desk: Desk, reading: &CardReading) -> AnyView {
    let open = reading.open_lines();
    let general = [CardField::Makes, CardField::Share]
        .into_iter()
        .find_map(|field| reading.said(field));
    let missing = (open > 0).then(|| {
        let lines = if open == 1 {
            "1 line is".to_owned()
        } else {
            format!("{open} lines are")
        };
        let first = reading.faults.iter().find_map(|(field, refusal)| match field {
            CardField::Line(at, _) => {
                let id = desk.get(|card| card.lines.get(*at).map(|line| line.id.clone()))?;
                Some((*at, id, refusal.to_string()))
            }
            CardField::Makes | CardField::Share => None,
        });
        view! {
            <div class="doubt">
                <p>{format!("{lines} not counted yet: the true cost is higher.")}</p>
                {first.map(|(at, id, why)| view! {
                    <p>{format!("Line {}: {why}", at + 1)}</p>
                    <a class="btn plain" href=desk.at(DishSide::Line(id)).to_string()>{format!("Finish line {}", at + 1)}</a>
                })}
            </div>
        }
    });
    let plate = Plate::of(&reading.preparation);
    view! {
        {general.map(|sentence| view! { <p class="fault">{sentence}</p> })}
        {missing}
        {match plate {
            Ok(plate) if plate.lines.is_empty() => view! { <p class="soft">"Its cost appears with the first finished line."</p> }.into_any(),
            Ok(plate) => view! {
                {figure(&reading.preparation, &plate)}
                {bars(&plate)}
                {table(&plate)}
            }.into_any(),
            Err(refusal) => view! { <p class="fault">{refusal.to_string()}</p> }.into_any(),
        }}
    }
    .into_any()
}

/// What a cover costs, once every line is counted.
pub fn cost(desk: Desk) -> Option<AnyView> {
    let reading = desk.reading()?;
    let plate = Plate::of(&reading.preparation).ok()?;
    let whole = reading.open_lines() == 0 && !plate.lines.is_empty();
    whole.then(|| figure(&reading.preparation, &plate))
}

fn figure(preparation: &Preparation, plate: &Plate) -> AnyView {
    let range = ends(preparation).ok().flatten().map(|(least, most)| {
        format!(
            "{} to {} across the published yields.",
            least.show(),
            most.show()
        )
    });
    let all = Money {
        amount: plate.total,
        currency: plate.currency,
    };
    let (head, small) = match preparation.makes {
        Makes::Covers(1) => (
            "Food cost of the cover".to_owned(),
            "everything on the card".to_owned(),
        ),
        Makes::Covers(covers) => (
            "Food cost of a cover".to_owned(),
            format!("{} for {covers} covers, divided by {covers}", all.show()),
        ),
        Makes::Amount(made) => {
            let (by, each) = match made.kind {
                Dimension::Mass => (Decimal::TEN, "100 g"),
                Dimension::Volume => (Decimal::TEN, "100 ml"),
                Dimension::Pieces => (Decimal::ONE, "one piece"),
            };
            let amount = all.amount.checked_div(made.amount).unwrap_or_default() / by;
            let one = Money { amount, ..all };
            (
                format!(
                    "All {} of it cost",
                    made.show(crate::trade::plate::units::QuantityUnit::Gram)
                ),
                format!("{} for {each}", one.show_fine()),
            )
        }
    };
    view! {
        <dl class="figures" data-says="plate"><div class="figure first wide">
            <dt>{head}</dt>
            <dd>{plate.per_cover().show()}<small>{small}</small>{range.map(|range| view! { <small>{range}</small> })}</dd>
        </div></dl>
    }
    .into_any()
}

/// A picture of the same figures as the table below it.
fn bars(plate: &Plate) -> AnyView {
    let most = plate.lines.first().map_or(Decimal::ONE, |line| line.cost);
    let unmeasured =
        (!plate.unmeasured.is_zero()).then(|| ("Not measured".to_owned(), plate.unmeasured));
    let rows: Vec<(String, Decimal)> = plate
        .lines
        .iter()
        .take(MOST_BARS)
        .map(|line| (line.name.clone(), line.cost))
        .chain(unmeasured)
        .collect();
    let height = rows.len() * 34 + 4;
    let wide = width::for_picture(LEAST_WIDTH);
    // Less what the share of the cost takes.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let most_letters = ((wide - 40.0) / LETTER) as usize;
    let first = rows.first().map(|(name, cost)| {
        format!(
            "Bars: {name} is the largest, {} of the cost. The table below has every figure.",
            rounding::percent(plate.share_of(*cost), 0)
        )
    });
    view! {
        <svg class="bars" role="img" aria-label=first.unwrap_or_default() viewBox=format!("0 0 {wide:.0} {height}") data-says="plate">
            {rows
                .into_iter()
                .enumerate()
                .map(|(at, (name, cost))| {
                    let share = cost.checked_div(most).and_then(|share| share.to_f64()).unwrap_or(0.0);
                    let y = at * 34;
                    let percent = rounding::percent(plate.share_of(cost), 0);
                    view! {
                        <text x="0" y=y + 13>{shortened(&name, most_letters)}</text>
                        <text x=wide y=y + 13 text-anchor="end">{percent}</text>
                        <rect class=if at == 0 { "bar first" } else { "bar" } x="0" y=y + 18 width=format!("{:.1}", (share * wide).max(1.5)) height="10" rx="2"/>
                    }
                })
                .collect_view()}
        </svg>
    }
    .into_any()
}

fn shortened(name: &str, most: usize) -> String {
    if name.chars().count() <= most {
        return name.to_owned();
    }
    let head: String = name.chars().take(most.saturating_sub(1)).collect();
    format!("{head}…")
}

fn table(plate: &Plate) -> AnyView {
    view! {
        <section class="sheet" data-says="plate">
            <h2>{if plate.covers > 1 { "Cost of a cover by line" } else { "Cost by line" }}</h2>
            <table class="costs">
                <thead><tr><th scope="col">"Line"</th><th scope="col" class="num">"Cost"</th><th scope="col" class="num">"Share"</th></tr></thead>
                <tbody>
                    {plate
                        .lines
                        .iter()
                        .map(|line| view! {
                            <tr class="named">
                                <th scope="row">{line.name.clone()}</th>
                                <td class="num">{plate.one(line.cost).show()}</td>
                                <td class="num">{rounding::percent(plate.share_of(line.cost), 0)}</td>
                            </tr>
                            <tr><td colspan="3"><small>{line.sum.clone()}</small></td></tr>
                        })
                        .collect_view()}
                    {(!plate.unmeasured.is_zero()).then(|| view! {
                        <tr>
                            <th scope="row">"Never measured"</th>
                            <td class="num">{plate.one(plate.unmeasured).show()}</td>
                            <td class="num">{rounding::percent(plate.share_of(plate.unmeasured), 0)}</td>
                        </tr>
                    })}
                    <tr class="sum">
                        <th scope="row">"Together"</th>
                        <td class="num">{plate.per_cover().show()}</td>
                        <td class="num">"100 %"</td>
                    </tr>
                </tbody>
            </table>
            <p class="soft small">{if plate.covers > 1 {
                format!("The sums under the names are for {} covers together.", plate.covers)
            } else {
                "Each sum is quantity, divided by what is left after trimming, times the price.".to_owned()
            }}</p>
        </section>
    }
    .into_any()
}

fn fields(desk: Desk) -> AnyView {
    let fault =
        |said: Option<crate::base::refusal::Refusal>| said.map(|refusal| refusal.to_string());
    view! {
        <section class="noprint" data-says="menu">
            <h2>"Price"</h2>
            {TextEntry {
                hint: Signal::stored("What the guest pays, tax included. Empty if it is not fixed yet.".to_owned()),
                fault: Signal::derive(move || fault(parse_menu(&desk.get(|card| card.price.clone())).err())),
                ..TextEntry::figure(
                    "menu-price",
                    "Price on the menu",
                    Signal::derive(move || desk.get(|card| card.price.clone())),
                    Callback::new(move |text| desk.send(RecipeAction::Price(text))),
                )
            }.view()}
            <div class="pair">
                {TextEntry {
                    fault: Signal::derive(move || fault(parse_tax(&desk.get(|card| card.tax.clone())).err())),
                    ..TextEntry::figure(
                        "menu-tax",
                        "Tax in it (%)",
                        Signal::derive(move || desk.get(|card| card.tax.clone())),
                        Callback::new(move |text| desk.send(RecipeAction::Tax(text))),
                    )
                }.view()}
                {TextEntry {
                    fault: Signal::derive(move || fault(desk.get(|card| {
                        let typed = !card.target.trim().is_empty();
                        parse_target(&card.target).err().filter(|_| typed)
                    }))),
                    ..TextEntry::figure(
                        "menu-target",
                        "Wanted share (%)",
                        Signal::derive(move || desk.get(|card| card.target.clone())),
                        Callback::new(move |text| desk.send(RecipeAction::Target(text))),
                    )
                }.view()}
            </div>
        </section>
    }
    .into_any()
}

/// Food-cost share and margin at the price, and the price at the wanted share.
fn selling(desk: Desk, reading: &CardReading) -> Option<AnyView> {
    let plate = Plate::of(&reading.preparation).ok()?;
    if plate.lines.is_empty() {
        return None;
    }
    let cost = plate.per_cover();
    let (price, tax, target) =
        desk.get(|card| (card.price.clone(), card.tax.clone(), card.target.clone()));
    let tax = parse_tax(&tax).ok()?;
    let paid = parse_menu(&price)
        .ok()
        .flatten()
        .and_then(|price| MenuPrice::paid(price, tax, plate.currency).ok());
    let wanted = parse_target(&target)
        .ok()
        .and_then(|share| Some((share, MenuPrice::at_share(cost, share, tax).ok()?)));
    let taxed = !tax.is_zero();
    Some(
        view! {
            <dl class="figures" data-says="menu">
                {paid.map(|paid| {
                    let share = paid.food_cost_share(cost).map(|share| rounding::percent(share, 1));
                    view! {
                        <div class="figure">
                            <dt>{format!("Food-cost share at {}", paid.with_tax.show())}</dt>
                            <dd>{share.unwrap_or_default()}<small>{format!("{} ÷ {}{}", cost.show(), paid.net.show(), if taxed { " without tax" } else { "" })}</small></dd>
                        </div>
                        <div class="figure">
                            <dt>"Margin on a cover"</dt>
                            <dd>{paid.margin(cost).show()}<small>"the price without tax, less the food"</small></dd>
                        </div>
                    }
                })}
                {wanted.map(|(share, price)| view! {
                    <div class="figure wide">
                        <dt>{format!("Price at a share of {}", rounding::percent(share, 1))}</dt>
                        <dd>{price.with_tax.show()}
                            <small>{if taxed {
                                format!("{} ÷ {} = {} without tax, and {} tax", cost.show(), rounding::percent(share, 1), price.net.show(), rounding::percent(tax, 1))
                            } else {
                                format!("{} ÷ {}; no tax is counted", cost.show(), rounding::percent(share, 1))
                            }}</small>
                        </dd>
                    </div>
                })}
            </dl>
        }
        .into_any(),
    )
}

/// What one point of yield is worth.
fn point(preparation: &Preparation) -> Option<AnyView> {
    let worth = worth_of_a_point(preparation).ok().flatten()?;
    let hundred = Money {
        amount: worth.amount * Decimal::ONE_HUNDRED,
        currency: worth.currency,
    };
    Some(view! {
        <dl class="figures" data-says="plate"><div class="figure wide">
            <dt>"One point more yield on the fish is worth"</dt>
            <dd>{format!("{} a cover", worth.show())}
                <small>{format!("{} on a hundred covers: that is what a careful knife earns.", hundred.show())}</small>
            </dd>
        </div></dl>
    }
    .into_any())
}
