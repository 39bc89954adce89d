//! The market list: what each fish is offered for today, and where another is added.

use std::sync::Arc;

use leptos::prelude::*;

use super::choice::fault;
use super::words;
use crate::cards::quote::{Quote, QuoteAction};
use crate::compare::market::{AskingPrice, Basis, Offer};
use crate::device::clock;
use crate::fish::bought::SpeciesForm;
use crate::fish::slip::Species;
use crate::session::bench::Bench;
use crate::session::drawer::Drawer;
use crate::session::removal::Whereto;
use crate::trade::breakdown::DeliveryForm;
use crate::trade::money::{Currency, PriceUnit};

/// The quotes of the cook's own list or of the demonstration's, the latest first, each with its identity.
pub fn of(quotes: Drawer<Quote>, demo: bool) -> Vec<(String, Quote)> {
    quotes
        .ids()
        .into_iter()
        .filter_map(|id| {
            let quote = quotes.with(&id, Clone::clone)?;
            (quote.demo == demo).then_some((id, quote))
        })
        .collect()
}

/// One market list on its screen.
#[derive(Clone, Copy)]
struct PriceList {
    bench: Bench,
    quotes: Drawer<Quote>,
    demo: bool,
    refused: RwSignal<Option<String>>,
}

/// Today's prices, a field for each fish on the list, and a way to add one.
pub fn prices(
    bench: Bench,
    quotes: Drawer<Quote>,
    offers: Memo<Arc<Vec<Offer>>>,
    demo: bool,
) -> AnyView {
    let desk = PriceList {
        bench,
        quotes,
        demo,
        refused: RwSignal::new(None),
    };
    // By name and not by rank, so that no field moves away under the thumb that fills it.
    let lines = Memo::new(move |_| {
        let mut lines: Vec<SpeciesForm> =
            offers.with(|offers| offers.iter().map(|offer| offer.bought.clone()).collect());
        lines.sort_by_key(SpeciesForm::key);
        lines
    });
    view! {
        <section class="sheet noprint" data-says="market published">
            <h2>"Today's prices"</h2>
            {move || lines.get().into_iter().enumerate().map(|(nth, bought)| price(desk, offers, nth, bought)).collect_view()}
            {fault("list-fault", move || desk.refused.get())}
            {another(desk)}
        </section>
    }
    .into_any()
}

impl PriceList {
    fn quote(self, bought: &SpeciesForm) -> Option<(String, Quote)> {
        of(self.quotes, self.demo)
            .into_iter()
            .find(|(_, quote)| quote.bought().key() == bought.key())
    }

    /// Changes the quote of a bought; the first change puts it on the list.
    fn change(self, bought: &SpeciesForm, start: (PriceUnit, Currency), action: QuoteAction) {
        let outcome = untrack(|| {
            let id = match self.quote(bought) {
                Some((id, _)) => id,
                None => self.add(bought.clone(), start)?,
            };
            self.quotes.act(&id, action)
        });
        self.refused
            .set(outcome.err().map(|refusal| refusal.to_string()));
    }

    /// Takes a bought off the list; its quotes go to the bin.
    fn take_off(self, bought: &SpeciesForm) {
        let quotes = untrack(|| of(self.quotes, self.demo));
        let outcome = quotes
            .into_iter()
            .filter(|(_, quote)| quote.bought().key() == bought.key())
            .try_for_each(|(id, _)| self.quotes.remove(&id, Whereto::Bin));
        self.refused
            .set(outcome.err().map(|refusal| refusal.to_string()));
    }

    fn add(
        self,
        bought: SpeciesForm,
        (per, currency): (PriceUnit, Currency),
    ) -> Result<String, crate::base::refusal::Refusal> {
        self.quotes
            .begin(|now| Ok(Quote::new(bought, self.demo, per, currency, now)))
    }
}

fn price(
    desk: PriceList,
    offers: Memo<Arc<Vec<Offer>>>,
    nth: usize,
    bought: SpeciesForm,
) -> AnyView {
    let offer = {
        let key = bought.key();
        Memo::new(move |_| {
            offers.with(|offers| {
                offers
                    .iter()
                    .find(|offer| offer.bought.key() == key)
                    .cloned()
            })
        })
    };
    let asked = move || offer.with(|offer| offer.as_ref().map(|offer| offer.asked.clone()));
    // What was tested stays on the list without a price too.
    let tested = move || {
        offer.with(|offer| {
            matches!(
                offer.as_ref().map(|offer| &offer.basis),
                Some(Basis::Own { .. })
            )
        })
    };
    let name = bought.name();
    let take_off = format!("Take it off the list: {name}");
    let bought = StoredValue::new(bought);
    let quote =
        Memo::new(move |_| bought.with_value(|bought| desk.quote(bought).map(|(_, quote)| quote)));
    let paid = move || match asked() {
        Some(AskingPrice::LastPaid(price)) => Some(price),
        _ => None,
    };
    let start = move || {
        quote
            .with(|quote| quote.as_ref().map(|quote| (quote.per, quote.currency)))
            .or_else(|| paid().map(|price| (price.per(), price.currency())))
            .unwrap_or_else(|| {
                desk.bench
                    .settings
                    .with(|settings| (settings.per, settings.currency))
            })
    };
    let typed = move || {
        quote.with(|quote| {
            quote
                .as_ref()
                .map_or_else(String::new, |quote| quote.price.clone())
        })
    };
    let send =
        move |action| bought.with_value(|bought| desk.change(bought, untrack(start), action));
    let id = format!("quote-{nth}");
    let (hint_id, fault_id) = (format!("quote-hint-{nth}"), format!("quote-fault-{nth}"));
    let hint = move || match (
        paid(),
        quote.with(|quote| {
            let priced = quote.as_ref().filter(|quote| !quote.price.is_empty());
            priced.map(|quote| quote.typed)
        }),
    ) {
        (Some(price), _) => format!("Left empty, it is what you paid last: {}.", price.show()),
        (None, Some(typed)) => format!("Typed {}.", clock::day(typed)),
        (None, None) => String::new(),
    };
    view! {
        <div class="field">
            <label for=id.clone()>{name}</label>
            <div class="beside">
                <input id=id type="text" inputmode="decimal" autocomplete="off" aria-describedby=format!("{hint_id} {fault_id}") prop:value=typed
                    on:input:target=move |event| send(QuoteAction::Price(event.target().value()))/>
                <select aria-label="Currency" on:change:target=move |event| {
                    let code = event.target().value();
                    if let Some(currency) = Currency::ALL.into_iter().find(|currency| currency.code() == code) {
                        send(QuoteAction::Currency(currency));
                    }
                }>
                    {Currency::ALL.into_iter().map(|currency| view! {
                        <option value=currency.code() selected=move || start().1 == currency>{currency.code()}</option>
                    }).collect_view()}
                </select>
                <select aria-label="Priced by" on:change:target=move |event| {
                    let symbol = event.target().value();
                    if let Some(per) = PriceUnit::ALL.into_iter().find(|per| per.symbol() == symbol) {
                        send(QuoteAction::Per(per));
                    }
                }>
                    {PriceUnit::ALL.into_iter().map(|per| view! {
                        <option value=per.symbol() selected=move || start().0 == per>{format!("a {}", per.symbol())}</option>
                    }).collect_view()}
                </select>
            </div>
            <p class="hint" id=hint_id.clone()>{hint}</p>
            <div id=fault_id aria-live="polite">
                {move || match asked() {
                    Some(AskingPrice::Typed(Err(refusal))) => Some(view! { <p class="fault">{refusal.to_string()}</p> }),
                    _ => None,
                }}
            </div>
            {move || (!tested()).then(|| view! {
                <button class="btn bare" aria-label=take_off.clone() on:click=move |_| bought.with_value(|bought| desk.take_off(bought))>
                    "Take it off the list"
                </button>
            })}
        </div>
    }
    .into_any()
}

/// A fish that was not tested: then the published range stands in.
fn another(desk: PriceList) -> AnyView {
    let species = RwSignal::new(String::new());
    let form = RwSignal::new(DeliveryForm::default());
    let add = move |_| {
        let key = species.get_untracked();
        if key.is_empty() {
            desk.refused
                .set(Some("Choose the fish to add first.".to_owned()));
            return;
        }
        let bought = SpeciesForm {
            species: Species::Listed(key),
            form: form.get_untracked(),
        };
        let start = desk
            .bench
            .settings
            .with_untracked(|settings| (settings.per, settings.currency));
        let known = untrack(|| desk.quote(&bought)).is_some();
        let outcome = if known {
            Ok(())
        } else {
            desk.add(bought, start).map(|_| ())
        };
        desk.refused
            .set(outcome.err().map(|refusal| refusal.to_string()));
        species.set(String::new());
    };
    view! {
        <details>
            <summary>"Add a fish to the list"</summary>
            <div class="stack">
                <div class="field">
                    <label for="add-fish">"Fish"</label>
                    <select id="add-fish" prop:value=move || species.get() on:change:target=move |event| species.set(event.target().value())>
                        <option value="">"Choose the fish"</option>
                        {super::named_fish::all(move || species.get())}
                    </select>
                </div>
                {super::choice::one_of(
                    "add-form",
                    "Delivered",
                    "",
                    DeliveryForm::ALL.into_iter().map(|form| (form, words::capital(form.name()))).collect(),
                    move || Some(form.get()),
                    move |chosen| form.set(chosen),
                )}
                <button class="btn" on:click=add>"Add to the list"</button>
            </div>
        </details>
    }
    .into_any()
}
