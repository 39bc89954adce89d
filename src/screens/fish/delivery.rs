//! The delivery slip: species, form, price, scale, portions, missing kit.

use leptos::prelude::*;

use crate::base::kit::Kit;
use crate::device::address;
use crate::fish::action::Action;
use crate::fish::settings::Preference;
use crate::fish::slip::{SlipLine, Species};
use crate::parts::choice::{fault, one_of, tick};
use crate::parts::cold;
use crate::parts::named_fish;
use crate::parts::page::{Page, back_or, back_to};
use crate::parts::words;
use crate::place::{Place, Stage};
use crate::session::hand::Hand;
use crate::trade::breakdown::DeliveryForm;
use crate::trade::mass::Scale;
use crate::trade::money::{Currency, PriceUnit};
use crate::trade::odd_price;

/// The values of the list for a fish that is not in it.
const ANOTHER: &str = "another";
const ANOTHER_FLAT: &str = "another-flat";

/// The delivery slip, where the job begins or put right from the numbers.
pub fn screen(hand: Hand, at: Stage) -> AnyView {
    let fish = hand.fish;
    let is_mended = at != Stage::Delivery;
    let tried = RwSignal::new(false);
    let refused = RwSignal::new(None);
    let send = move |action| {
        hand.weigh(action, refused);
    };
    let faults = Memo::new(move |_| fish.with(|fish| fish.slip.read().err().unwrap_or_default()));
    let said = move |line: SlipLine| {
        faults.with(|faults| {
            faults
                .iter()
                .find(|(at, _)| *at == line)
                .filter(|_| tried.get())
                .map(|(_, refusal)| refusal.to_string())
        })
    };
    let odd = move || {
        let price = fish.with(|fish| fish.slip.read_price().ok())?;
        odd_price::doubt(price)
    };
    let asked = RwSignal::new(false);
    // What was said before is in sight.
    let is_missing = fish.with_untracked(|fish| !fish.slip.missing.is_empty());
    let leave = move || {
        if is_mended {
            address::back_or(&hand.at(Stage::Summary));
        } else {
            hand.go(Stage::WeighWhole);
        }
    };
    let next = move |_| {
        if faults.with(Vec::is_empty) && odd().is_some() {
            asked.set(true);
            crate::device::focus::to_fault();
        } else if faults.with(Vec::is_empty) {
            leave();
        } else {
            tried.set(true);
            crate::device::focus::to_fault();
        }
    };
    view! {
        <Page
            title="What came in?"
            above=hand.name()
            at=Stage::Delivery
            demo=hand.demo()
            dock=move || view! {
                {if is_mended {
                    back_or(hand.at(Stage::Summary)).into_any()
                } else {
                    back_to(&Place::Home).into_any()
                }}
                <button class="btn main tall next" on:click=next>
                    {if is_mended { "Done" } else { "Weigh it whole" }}
                </button>
            }
        >
            {which_fish(hand, send, move || said(SlipLine::Species))}
            {one_of(
                "form",
                "Delivered",
                "",
                DeliveryForm::ALL.into_iter().map(|form| (form, words::plain_capital(form.name()))).collect(),
                move || fish.with(|fish| fish.slip.form),
                move |form| send(Action::Form(form)),
            )}
            {fault("form-fault", move || said(SlipLine::Form))}
            {price(hand, send, move || said(SlipLine::Price))}
            <div role="alert">
                {move || asked.get().then(odd).flatten().map(|odd| view! {
                    <div class="doubt" data-says="odd">
                        <p>{odd.to_string()}</p>
                        <div class="row">
                            {odd.likely().map(|likely| view! {
                                <button class="btn" on:click=move |_| send(Action::Price(likely.typed()))>{format!("Make it {}", likely.show())}</button>
                            })}
                            <button class="btn plain" on:click=move |_| leave()>"It is right"</button>
                        </div>
                    </div>
                })}
            </div>
            {one_of(
                "scale",
                "Smallest step of your scale",
                "tight",
                Scale::CHOICES.into_iter().map(|scale| (scale, scale.name())).collect(),
                move || Some(fish.with(|fish| fish.slip.scale)),
                move |scale| {
                    send(Action::Scale(scale));
                    hand.bench.prefer(Preference::Scale(scale));
                },
            )}
            <div class="field">
                <label for="portions">"Portions wanted"</label>
                <input id="portions" type="text" inputmode="numeric" autocomplete="off" aria-describedby="portions-fault"
                    prop:value=move || fish.with(|fish| fish.slip.portions.clone())
                    on:input:target=move |event| send(Action::Portions(event.target().value()))/>
                {fault("portions-fault", move || said(SlipLine::Portions))}
            </div>
            <div class="field">
                <label for="count">"Fish weighed together"</label>
                <input id="count" type="text" inputmode="numeric" autocomplete="off" aria-describedby="count-fault"
                    prop:value=move || fish.with(|fish| fish.slip.count.clone())
                    on:input:target=move |event| send(Action::Count(event.target().value()))/>
            </div>
            {fault("count-fault", move || said(SlipLine::Count))}
            <details open=is_missing>
                <summary>"Missing from your bench?"</summary>
            <div class="choices one" role="group" aria-label="Missing">
                    {Kit::ALL
                        .into_iter()
                        .map(|kit| tick(
                            format!("No {}", kit.name()),
                            move || fish.with(|fish| fish.slip.missing.contains(&kit)),
                            move |missing| {
                                send(Action::Missing(kit, missing));
                                hand.bench.prefer(Preference::Missing(kit, missing));
                            },
                        ))
                        .collect_view()}
            </div>
            </details>
            {fault("slip-fault", move || refused.get())}
        </Page>
    }
    .into_any()
}

fn which_fish(
    hand: Hand,
    send: impl Fn(Action) + Copy + Send + Sync + 'static,
    said: impl Fn() -> Option<String> + Copy + Send + Sync + 'static,
) -> AnyView {
    let fish = hand.fish;
    let key = move || {
        fish.with(|fish| {
            let key = match &fish.slip.species {
                None => "",
                Some(Species::Listed(key)) => key,
                Some(Species::Other(_)) if fish.slip.flat => ANOTHER_FLAT,
                Some(Species::Other(_)) => ANOTHER,
            };
            key.to_owned()
        })
    };
    let other = move || {
        fish.with(|fish| match &fish.slip.species {
            Some(Species::Other(name)) => Some(name.clone()),
            _ => None,
        })
    };
    let is_other = Memo::new(move |_| other().is_some());
    let choose = move |value: String| match value.as_str() {
        "" => {}
        ANOTHER | ANOTHER_FLAT => send(Action::Another {
            flat: value == ANOTHER_FLAT,
        }),
        _ => send(Action::Species(Species::Listed(value))),
    };
    view! {
        <div class="field">
            <label for="species">"Fish"</label>
            <select id="species" aria-describedby="species-fault" prop:value=key on:change:target=move |event| choose(event.target().value())>
                <option value="">"Choose the fish"</option>
                <option value=ANOTHER selected=move || key() == ANOTHER>"Type its name"</option>
                <option value=ANOTHER_FLAT selected=move || key() == ANOTHER_FLAT>"Type its name: a flat fish"</option>
                {named_fish::filleted(key)}
            </select>
            {move || is_other.get().then(|| view! {
                <label for="species-name">"Its name"</label>
                <input id="species-name" type="text" autocomplete="off" aria-describedby="species-fault"
                    prop:value=move || other().unwrap_or_default()
                    on:input:target=move |event| send(Action::Species(Species::Other(event.target().value())))/>
                {move || named_fish::found(&other().unwrap_or_default(), move |listed| {
                    send(Action::Species(Species::Listed(listed.key.to_owned())));
                })}
            })}
            {fault("species-fault", said)}
            {move || fish.with(|fish| cold::caution(fish.slip.species.as_ref()))}
        </div>
    }
    .into_any()
}

fn price(
    hand: Hand,
    send: impl Fn(Action) + Copy + Send + Sync + 'static,
    said: impl Fn() -> Option<String> + Copy + Send + Sync + 'static,
) -> AnyView {
    let fish = hand.fish;
    let choose_currency = move |code: String| {
        if let Some(currency) = Currency::ALL
            .into_iter()
            .find(|currency| currency.code() == code)
        {
            send(Action::Currency(currency));
            hand.bench.prefer(Preference::Currency(currency));
        }
    };
    let choose_per = move |symbol: String| {
        if let Some(per) = PriceUnit::ALL
            .into_iter()
            .find(|per| per.symbol() == symbol)
        {
            send(Action::Per(per));
            hand.bench.prefer(Preference::Per(per));
        }
    };
    view! {
        <div class="field">
            <label for="price">"Price"</label>
            <div class="beside">
                <input id="price" type="text" inputmode="decimal" autocomplete="off" aria-describedby="price-fault"
                    prop:value=move || fish.with(|fish| fish.slip.price.clone())
                    on:input:target=move |event| send(Action::Price(event.target().value()))/>
                <select aria-label="Currency" on:change:target=move |event| choose_currency(event.target().value())>
                    {Currency::ALL
                        .into_iter()
                        .map(|currency| view! {
                            <option value=currency.code() selected=move || fish.with(|fish| fish.slip.currency == currency)>{currency.code()}</option>
                        })
                        .collect_view()}
                </select>
                <select aria-label="Priced by" on:change:target=move |event| choose_per(event.target().value())>
                    {PriceUnit::ALL
                        .into_iter()
                        .map(|per| view! {
                            <option value=per.symbol() selected=move || fish.with(|fish| fish.slip.per == per)>{format!("a {}", per.symbol())}</option>
                        })
                        .collect_view()}
                </select>
            </div>
            {fault("price-fault", said)}
        </div>
    }
    .into_any()
}
