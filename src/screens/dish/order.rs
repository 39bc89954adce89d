//! What to buy for a number of covers, by who sells it.

use leptos::prelude::*;
use rust_decimal::Decimal;

use crate::cards::recipe::RecipeAction;
use crate::device::{download, send};
use crate::parts::entry_field::TextEntry;
use crate::parts::page::{Page, back_to, on_to};
use crate::parts::words;
use crate::place::DishSide;
use crate::screens::dish::scale::{left_out, wanted};
use crate::session::desk::Desk;
use crate::trade::money::Money;
use crate::trade::plate::order::{OrderLine, PurchaseOrder, order, parse_margin};
use crate::trade::plate::scaled::parse_covers;

/// The order.
pub fn screen(desk: Desk) -> AnyView {
    view! {
        <Page title="What to buy" above=desk.title() demo=desk.demo() dock=move || view! {
            {back_to(&desk.at(DishSide::Card))}
            {on_to(&desk.at(DishSide::Scale), "Scale it")}
        }>
            {wanted(desk)}
            {TextEntry {
                hint: Signal::stored("Covers on top of those, for what falls, burns or comes back. Empty: none.".to_owned()),
                fault: Signal::derive(move || {
                    desk.get(|card| parse_margin(&card.margin).err().map(|refusal| refusal.to_string()))
                }),
                ..TextEntry::figure(
                    "dish-margin",
                    "Margin (%)",
                    Signal::derive(move || desk.get(|card| card.margin.clone())),
                    Callback::new(move |text| desk.send(RecipeAction::Margin(text))),
                )
            }.view()}
            {move || listed(desk)}
        </Page>
    }
    .into_any()
}

fn listed(desk: Desk) -> Option<AnyView> {
    let (covers, margin) = desk.get(|card| {
        Some((
            parse_covers(&card.wanted).ok()?,
            parse_margin(&card.margin).ok()?,
        ))
    })?;
    let reading = desk.reading()?;
    let open = reading.open_lines();
    if reading.preparation.lines.is_empty() {
        return Some(left_out(open).unwrap_or_else(|| {
            view! { <p class="soft">"The list appears with the first finished line of the card."</p> }
                .into_any()
        }));
    }
    Some(match order(&reading.preparation, covers, margin) {
        Err(refusal) => view! { <p class="fault">{refusal.to_string()}</p> }.into_any(),
        Ok(order) => whole(desk, &order, open),
    })
}

fn whole(desk: Desk, order: &PurchaseOrder, open: usize) -> AnyView {
    let each = Money {
        amount: order.cost.amount / Decimal::from(order.planned),
        ..order.cost
    };
    let enough = if order.planned == order.covers {
        format!("Enough for {} covers.", order.covers)
    } else {
        format!(
            "Enough for {} covers: {} and the margin, rounded up to whole covers.",
            order.planned, order.covers
        )
    };
    let text = as_text(&desk.title().get(), order);
    let shared = text.clone();
    let said = RwSignal::new(None::<&'static str>);
    let told = move |sent| {
        let _ = said.try_set(Some(match sent {
            send::Sent::Copied => "Copied: paste it into a message.",
            send::Sent::Shared => "Handed over.",
            send::Sent::Refused => "Nothing was sent.",
        }));
    };
    view! {
        {left_out(open)}
        <dl class="figures" data-says="order buy"><div class="figure first wide">
            <dt>"This order costs"</dt>
            <dd>{order.cost.show()}<small>{format!("{enough} {} a cover with what is left over.", each.show())}</small></dd>
        </div></dl>
        {order
            .groups
            .iter()
            .map(|(group, lines)| view! {
                <section class="sheet group">
                    <h2>{group.name()}</h2>
                    <ul class="buys" data-says="order buy published">{lines.iter().map(|line| row(line, order)).collect_view()}</ul>
                </section>
            })
            .collect_view()}
        <p class="soft small">"Pieces and trim are as purchased: the quantity on the plates divided by the yield, never with the waste added on. Fish left over goes on ice at once, within your local rules."</p>
        <div class="row noprint">
            <button class="btn plain" on:click=move |_| send::copy(&text, told)>"Copy the list"</button>
            {send::can_share().then(|| view! { <button class="btn plain" on:click=move |_| send::share(&shared, None, told)>"Share"</button> })}
            <button class="btn plain" on:click=move |_| download::print()>"Print"</button>
        </div>
        <div role="status">{move || said.get().map(|sentence| view! { <p>{sentence}</p> })}</div>
    }
    .into_any()
}

fn row(line: &OrderLine, order: &PurchaseOrder) -> AnyView {
    let cost = Money {
        amount: line.cost,
        currency: order.currency(),
    };
    let left = if line.left.amount.is_zero() {
        String::new()
    } else {
        format!("{} left over as purchased", line.left.show(line.unit))
    };
    let notes: Vec<String> = [line.why.clone(), left]
        .into_iter()
        .filter(|note| !note.is_empty())
        .collect();
    view! {
        <li>
            <span class="grow">
                <b>{line.name.clone()}</b>
                <small>{notes.join("; ")}</small>
                {line.chance.as_ref().map(|chance| view! { <small>{chance.told(line.unit)}</small> })}
            </span>
            <span class="num amount"><b>{words::held(&line.buy.show(line.unit))}</b><small>{cost.show()}</small></span>
        </li>
    }
    .into_any()
}

/// The list as a message to a supplier.
fn as_text(title: &str, order: &PurchaseOrder) -> String {
    let mut text = format!("{title}, {} covers\n", order.planned);
    for (group, lines) in &order.groups {
        text.push_str(&format!("\n{}\n", group.name()));
        for line in lines {
            text.push_str(&format!("{}: {}\n", line.name, line.buy.show(line.unit)));
        }
    }
    text
}
