//! Yield and cost: what the fish really gave, and what a portion costs.

use leptos::prelude::*;

use crate::device::clock;
use crate::fish::action::Action;
use crate::fish::record::{Fish, KeptField};
use crate::parts::choice::fault;
use crate::parts::page::{Page, back_to, on_to};
use crate::parts::range;
use crate::place::Stage;
use crate::session::drawer::identity;
use crate::session::hand::Hand;
use crate::trade::mass::{self, Mass, Unit};
use crate::trade::money::PriceUnit;
use crate::trade::reading::YieldReading;
use crate::trade::rounding;
use crate::trade::yields::YieldTest;

/// Yield and cost.
pub fn screen(hand: Hand) -> AnyView {
    let fish = hand.fish;
    view! {
        <Page
            title="What this fish gave"
            above=hand.name()
            at=Stage::Yield
            demo=hand.demo()
            dock=move || view! {
                {back_to(&hand.at(Stage::WeighReady))}
                {on_to(&hand.at(Stage::Prepare), "Chill and prepare")}
            }
        >
            {move || fish.with(figures)}
            {portion_field(hand)}
            {move || fish.with(portions)}
            {move || fish.with(range::of_fish)}
            {kept(hand)}
            {send_result(hand)}
        </Page>
    }
    .into_any()
}

/// The way to the result code, once there is a yield to send.
pub fn send_result(hand: Hand) -> AnyView {
    let href = hand.at(Stage::Code).to_string();
    let card = hand.at(Stage::Card).to_string();
    view! {
        {move || hand.fish.with(|fish| fish.ready.taken).then(|| view! {
            <a class="btn" href=href.clone()>"Send the result"</a>
            <a class="btn plain" href=card.clone()>"Yield card to print"</a>
        })}
    }
    .into_any()
}

/// The figures of a fish, or the sentence that says what is missing.
pub fn figures(fish: &Fish) -> AnyView {
    let unit = fish.ready.unit;
    match (fish.yield_test(), fish.breakdown()) {
        (Some(Ok(test)), _) => with_cost(fish, &test),
        (_, Some(Ok(breakdown))) => {
            let why = fish.yield_test().and_then(Result::err).map(|refusal| refusal.to_string());
            view! {
                <dl class="figures">{yield_figure(fish, breakdown.yield_ratio())}</dl>
                {losses(fish, unit)}
                <p class="fault">{why.unwrap_or_default()}</p>
            }
            .into_any()
        }
        (_, Some(Err(refusal))) => view! { <p class="fault">{refusal.to_string()}</p> }.into_any(),
        (_, None) => view! { <p class="soft">"The yield appears once the fish is weighed whole and the fillets are weighed ready to cook."</p> }.into_any(),
    }
}

fn with_cost(fish: &Fish, test: &YieldTest) -> AnyView {
    let unit = fish.ready.unit;
    let per = test.price().per();
    let other = if per == PriceUnit::Kilo {
        PriceUnit::Pound
    } else {
        PriceUnit::Kilo
    };
    let credit = test.credit();
    view! {
        <dl class="figures">
            {yield_figure(fish, test.yield_ratio())}
            <div class="figure">
                <dt>{format!("Cost per usable {}", per.name())}</dt>
                <dd>{test.cost_per(per).show()}
                    <small>{format!("{} a {}", test.cost_per(other).show(), other.symbol())}</small>
                </dd>
            </div>
            <div class="figure">
                <dt>"Cost factor"</dt>
                <dd>{rounding::written(test.cost_factor(), 3)}<small>"times the price as purchased"</small></dd>
            </div>
            <div class="figure">
                <dt>"Paid"</dt>
                <dd>{test.cost_as_purchased().show()}<small>{test.price().show()}</small></dd>
            </div>
            <div class="figure">
                <dt>"Usable fish cost"</dt>
                <dd>{test.net_cost().show()}
                    <small>{if credit.amount.is_zero() { "nothing kept is counted".to_owned() } else { format!("after {} for parts kept", credit.show()) }}</small>
                </dd>
            </div>
        </dl>
        {losses(fish, unit)}
    }
    .into_any()
}

fn yield_figure(fish: &Fish, ratio: rust_decimal::Decimal) -> AnyView {
    let Some(Ok(breakdown)) = fish.breakdown() else {
        return ().into_any();
    };
    let reading = YieldReading::of(&breakdown, fish.slip.scale);
    let from = fish
        .slip
        .form
        .map_or("as delivered", |form| form.name())
        .to_ascii_lowercase();
    view! {
        <div class="figure first wide">
            <dt>{format!("Yield from {from}")}</dt>
            <dd>{rounding::percent(ratio, reading.percent_decimals())}
                <small>{format!(
                    "± {}: what a scale that steps in {} leaves open",
                    points(reading.standard),
                    fish.slip.scale.name()
                )}</small>
            </dd>
        </div>
    }
    .into_any()
}

/// A standard uncertainty of a yield in percentage points, to two significant figures.
fn points(standard: f64) -> String {
    let points = standard * 100.0;
    if points < 0.1 {
        format!("{points:.2} %")
    } else {
        format!("{points:.1} %")
    }
}

fn losses(fish: &Fish, unit: Unit) -> AnyView {
    let (Some(Ok(breakdown)), Some(form)) = (fish.breakdown(), fish.slip.form) else {
        return ().into_any();
    };
    let decimals = YieldReading::of(&breakdown, fish.slip.scale).percent_decimals();
    let line = |name: String, mass: Mass, share: rust_decimal::Decimal| {
        view! {
            <tr>
                <th scope="row">{name}</th>
                <td class="num">{mass::show(mass, unit)}</td>
                <td class="num">{rounding::percent(share, decimals)}</td>
            </tr>
        }
    };
    view! {
        <section class="sheet">
            <h2>"Where it went"</h2>
            <table>
                <thead class="unseen"><tr><th>"Part"</th><th>"Weight"</th><th>"Share"</th></tr></thead>
                <tbody>
                    {line("As delivered".to_owned(), breakdown.delivered(), rust_decimal::Decimal::ONE)}
                    {breakdown
                        .losses(form)
                        .into_iter()
                        .map(|loss| line(format!("− {}", loss.name), loss.mass, loss.share))
                        .collect_view()}
                    {line("Ready to cook".to_owned(), breakdown.ready(), breakdown.yield_ratio())}
                </tbody>
            </table>
            <p class="soft small">"Losses are what is missing between two weighings, drip and scale steps included."</p>
        </section>
    }
    .into_any()
}

fn portion_field(hand: Hand) -> AnyView {
    let fish = hand.fish;
    let refused = RwSignal::new(None);
    let unit = fish.with_untracked(|fish| fish.ready.unit);
    view! {
        <div class="field">
            <label for="portion">{format!("Portion weight ({})", unit.symbol())}</label>
            <p class="hint">"Leave it empty to divide the fillets by the portions you want."</p>
            <input id="portion" type="text" inputmode="decimal" autocomplete="off" aria-describedby="portion-fault"
                prop:value=move || fish.with(|fish| fish.portion.clone())
                on:input:target=move |event| { hand.send(Action::Portion(event.target().value()), refused); }/>
            {fault("portion-fault", move || {
                refused.get().or_else(|| fish.with(|fish| fish.portion_mass().err().map(|refusal| refusal.to_string())))
            })}
        </div>
    }
    .into_any()
}

/// How many portions of which weight, and what one costs.
pub fn portions(fish: &Fish) -> AnyView {
    let Some(Ok(test)) = fish.yield_test() else {
        return ().into_any();
    };
    let unit = fish.ready.unit;
    match fish.portion_mass() {
        Ok(Some(portion)) => by_weight(&test, portion, unit),
        Ok(None) => by_count(fish, &test, unit),
        Err(_) => ().into_any(),
    }
}

fn by_count(fish: &Fish, test: &YieldTest, unit: Unit) -> AnyView {
    let Some((count, equal)) = fish
        .slip
        .read()
        .ok()
        .and_then(|order| Some((order.portions, test.divided_into(order.portions)?)))
    else {
        return ().into_any();
    };
    view! {
        <dl class="figures">
            <div class="figure wide">
                <dt>{if count == 1 { "One portion".to_owned() } else { format!("{count} equal portions") }}</dt>
                <dd>{format!("{} each", mass::show(equal.mass, unit))}
                    <small>{format!("{} a portion", equal.cost.show())}</small>
                </dd>
            </div>
        </dl>
    }
    .into_any()
}

fn by_weight(test: &YieldTest, portion: Mass, unit: Unit) -> AnyView {
    let Some(portions) = test.portions(portion) else {
        return ().into_any();
    };
    let served = test.served_portion_cost(portion);
    view! {
        <dl class="figures">
            <div class="figure wide">
                <dt>{format!("Portions of {}", mass::show(portion, unit))}</dt>
                <dd>{portions.count.to_string()}
                    <small>{format!("{} left over", mass::show(portions.left_over, unit))}</small>
                </dd>
            </div>
            <div class="figure">
                <dt>"Cost of the fish in one"</dt>
                <dd>{test.portion_cost(portion).show()}<small>"the rest is used elsewhere"</small></dd>
            </div>
            {served.map(|served| view! {
                <div class="figure">
                    <dt>"Cost of each one served"</dt>
                    <dd>{served.show()}<small>"the rest is not used"</small></dd>
                </div>
            })}
        </dl>
    }
    .into_any()
}

fn kept(hand: Hand) -> AnyView {
    let fish = hand.fish;
    let refused = RwSignal::new(None);
    let ids = Memo::new(move |_| {
        fish.with(|fish| {
            fish.kept
                .iter()
                .map(|kept| kept.id.clone())
                .collect::<Vec<_>>()
        })
    });
    let add = move |_| {
        hand.send(Action::Keep(identity(clock::now())), refused);
    };
    view! {
        <details class="sheet" open={!ids.with_untracked(Vec::is_empty)}>
            <summary>"Kept for another dish (frames for stock, cheeks)"</summary>
            <p class="soft small">"What they are worth to you is taken off the cost of the fillets. Leave it out if you are not sure."</p>
            <For each=move || ids.get() key=Clone::clone let:id>{kept_part(hand, id, refused)}</For>
            {fault("kept-fault", move || refused.get())}
            <button class="btn plain" on:click=add>"Add a kept part"</button>
        </details>
    }
    .into_any()
}

fn kept_part(hand: Hand, id: String, refused: RwSignal<Option<String>>) -> AnyView {
    let fish = hand.fish;
    let (field_id, id) = (id.clone(), StoredValue::new(id));
    let said = move || {
        fish.with(|fish| {
            let kept = id.with_value(|id| fish.kept.iter().find(|kept| kept.id == *id))?;
            let price = fish.slip.read_price().ok()?;
            if kept.weight.trim().is_empty() && kept.price.trim().is_empty() {
                return None;
            }
            fish.read_kept(kept, &price)
                .err()
                .map(|refusal| refusal.to_string())
        })
    };
    let entry = move |name: &str, label: String, keyboard: &'static str, of: KeptField| {
        let value = move || {
            fish.with(|fish| {
                let kept = id.with_value(|id| fish.kept.iter().find(|kept| kept.id == *id));
                kept.map(|kept| kept.clone().field_mut(of).clone())
            })
        };
        let typed = move |text: String| {
            hand.send(Action::KeptPart(id.get_value(), of, text), refused);
        };
        let html = format!("{name}-{field_id}");
        view! {
            <div class="field grow">
                <label for=html.clone()>{label}</label>
                <input id=html type="text" inputmode=keyboard autocomplete="off" prop:value=value
                    on:input:target=move |event| typed(event.target().value())/>
            </div>
        }
    };
    let (unit, per) = fish.with_untracked(|fish| (fish.ready.unit, fish.slip.per));
    view! {
        <div class="sheet">
            {entry("kept-name", "What it is".to_owned(), "text", KeptField::Name)}
            <div class="row">
                {entry("kept-weight", format!("Weight ({})", unit.symbol()), "decimal", KeptField::Weight)}
                {entry("kept-price", format!("Worth a {}", per.symbol()), "decimal", KeptField::Price)}
            </div>
            {fault("kept-part-fault", said)}
            <button class="btn bare" on:click=move |_| { hand.send(Action::Unkeep(id.get_value()), refused); }>"Take this part out"</button>
        </div>
    }
    .into_any()
}
