//! The dishes of a service of several: for how many each is, and when its plate comes.

use leptos::prelude::*;

use super::cooked_into::own_dishes;
use crate::base::part;
use crate::base::refusal::Refusal;
use crate::cards::recipe::Recipe;
use crate::device::clock;
use crate::fish::alongside::{Alongside, AlongsideTap, MOST_ALONGSIDE, read_later};
use crate::fish::record::Fish;
use crate::fish::serving::PlanTap;
use crate::parts::choice::fault;
use crate::parts::entry_field::TextEntry;
use crate::service::dish::Dish;
use crate::session::desk::with_larder;
use crate::session::drawer::{Drawer, identity};
use crate::session::hand::Hand;

/// The value of the list for the first dish over again.
const AGAIN: &str = "again";

/// What is served together, folded: nothing more needs to be said of a service of one dish.
pub fn dishes(hand: Hand, tap: Callback<PlanTap>) -> AnyView {
    let fish = hand.fish;
    let cooking = Memo::new(move |_| fish.with(|fish| fish.run.is_some()));
    let ids = Memo::new(move |_| {
        let ids = |fish: &Fish| {
            fish.serving()
                .alongside
                .iter()
                .map(|one| one.id.clone())
                .collect()
        };
        fish.with(ids)
    });
    follow_cards(hand, tap);
    let summary = move || {
        let served = fish.with(|fish| fish.served().map(|dish| dish.members.len().max(1)));
        match served {
            Ok(1) | Err(_) => "Another dish with it".to_owned(),
            Ok(dishes) => format!("{dishes} dishes in this service"),
        }
    };
    view! {
        {move || (!cooking.get()).then(|| view! {
            <details>
                <summary>{summary}</summary>
                <div class="stack">
                    {move || ids.with(|ids: &Vec<String>| (!ids.is_empty()).then(|| first(hand, tap)))}
                    {move || ids.get().into_iter().map(|id| beside(hand, tap, id)).collect_view()}
                    {add(hand, tap)}
                </div>
            </details>
        })}
    }
    .into_any()
}

/// The dish that the service began with: what it is called, and when its plate comes.
fn first(hand: Hand, tap: Callback<PlanTap>) -> AnyView {
    let fish = hand.fish;
    let name = move || fish.with(|fish| fish.dish().map(|dish| fish.called(dish)));
    let called = move || fish.with(|fish| fish.serving().called.clone());
    let later = move || fish.with(|fish| fish.serving().later.clone());
    let alongside = move |change: AlongsideTap| tap.run(PlanTap::Alongside(change));
    view! {
        <section class="sheet stack">
            <h2>{move || name().unwrap_or_default()}</h2>
            {entry(CALLED, "first", called, || None, move |text| alongside(AlongsideTap::Called(None, text)))}
            {entry(LATER, "first", later, move || read_later(&later()).err(), move |text| alongside(AlongsideTap::Later(None, text)))}
        </section>
    }
    .into_any()
}

/// One that comes with it.
fn beside(hand: Hand, tap: Callback<PlanTap>, id: String) -> AnyView {
    let fish = hand.fish;
    let named = id.clone();
    let id = StoredValue::new(id);
    let this = move || id.get_value();
    fn read<T>(fish: &Fish, id: &str, read: impl FnOnce(&Alongside) -> T) -> Option<T> {
        let known = &fish.serving().alongside;
        known.get(part::place_of(known, id)?).map(read)
    }
    let text = move |of: fn(&Alongside) -> &String| {
        let text = fish.with(|fish| read(fish, &this(), |one| of(one).clone()));
        text.unwrap_or_default()
    };
    let refused = move |why: fn(&Alongside) -> Option<Refusal>| {
        fish.with(|fish| read(fish, &this(), why)).flatten()
    };
    let has_fish = fish.with_untracked(|fish| read(fish, &this(), |one| one.dish.has_fish()));
    let alongside = move |change: AlongsideTap| tap.run(PlanTap::Alongside(change));
    let typed =
        move |tap: fn(String, String) -> AlongsideTap| move |text| alongside(tap(this(), text));
    view! {
        <section class="sheet stack">
            <h2>{move || fish.with(|fish| read(fish, &this(), Alongside::called))}</h2>
            {entry(CALLED, &named, move || text(|one| &one.called), || None, typed(|id, text| AlongsideTap::Called(Some(id), text)))}
            {entry(COVERS, &named, move || text(|one| &one.covers), move || refused(|one| one.covers().err()), typed(AlongsideTap::Covers))}
            {has_fish.unwrap_or(false).then(|| entry(
                AT_ONCE,
                &named,
                move || text(|one| &one.at_once),
                move || refused(|one| one.panfuls().err().filter(|_| one.covers().is_ok())),
                typed(AlongsideTap::AtOnce),
            ))}
            {entry(
                LATER,
                &named,
                move || text(|one| &one.later),
                move || refused(|one| read_later(&one.later).err()),
                typed(|id, text| AlongsideTap::Later(Some(id), text)),
            )}
            <button class="btn plain" on:click=move |_| alongside(AlongsideTap::Out(this()))>"Take it out"</button>
        </section>
    }
    .into_any()
}

/// What is typed of a dish: the name of the field, what stands above and below it, and its keyboard.
type Asked = (&'static str, &'static str, &'static str, &'static str);

const CALLED: Asked = ("called", "Called, in a word or two", "", "text");
const COVERS: Asked = ("covers", "Covers", "", "numeric");
const AT_ONCE: Asked = (
    "at-once",
    "Fillets that lie flat in the pan at once",
    "Empty: all of them.",
    "numeric",
);
const LATER: Asked = (
    "later",
    "Its plate, minutes after the first",
    "Empty: together.",
    "numeric",
);

/// A field of one of the dishes.
fn entry(
    (key, label, hint, keyboard): Asked,
    of: &str,
    value: impl Fn() -> String + Send + Sync + 'static,
    refused: impl Fn() -> Option<Refusal> + Send + Sync + 'static,
    typed: impl Fn(String) + Send + Sync + 'static,
) -> AnyView {
    let entry = TextEntry {
        hint: Signal::stored(hint.to_owned()),
        keyboard,
        fault: Signal::derive(move || refused().map(|refusal| refusal.to_string())),
        ..TextEntry::figure(
            &format!("{key}-{of}"),
            label,
            Signal::derive(value),
            Callback::new(typed),
        )
    };
    entry.view()
}

/// Takes one more dish into the service.
fn add(hand: Hand, tap: Callback<PlanTap>) -> AnyView {
    let fish = hand.fish;
    let recipes = Drawer::<Recipe>::here();
    let cards = own_dishes();
    let refused = RwSignal::new(None::<String>);
    let choose = move |value: String| {
        let id = identity(clock::dated());
        let card = recipes.with_untracked(&value, Clone::clone);
        let chosen = card.and_then(|card| {
            untrack(|| with_larder(hand.bench, recipes, |larder| card.chosen(&value, larder)))
        });
        let from = match chosen {
            Some(Ok(PlanTap::Card(card, dish))) => Some((card, dish)),
            Some(Err(refusal)) => return refused.set(Some(refusal.to_string())),
            _ if value == AGAIN => None,
            _ => return,
        };
        refused.set(None);
        tap.run(PlanTap::Alongside(AlongsideTap::Add(id, from)));
    };
    let again = move || {
        let name = fish.with(|fish| fish.dish().map(|dish| Dish::brief(dish).to_owned()));
        format!("{} again", name.unwrap_or_default())
    };
    let full = move || fish.with(|fish| fish.serving().alongside.len() >= MOST_ALONGSIDE);
    view! {
        {move || (!full()).then(|| view! {
            <div class="field">
                <label for="add-dish">"Take in a dish"</label>
                <p class="hint" id="add-dish-hint">"Of your own dishes, those that say how they are cooked; or the same for later guests."</p>
                <select id="add-dish" aria-describedby="add-dish-hint add-dish-fault" on:change:target=move |event| {
                    choose(event.target().value());
                    event.target().set_value("");
                }>
                    <option value="">"Choose…"</option>
                    <option value=AGAIN>{again}</option>
                    {move || cards.get().into_iter().map(|(id, named)| view! { <option value=id>{named}</option> }).collect_view()}
                </select>
                {fault("add-dish-fault", move || refused.get())}
            </div>
        })}
    }
    .into_any()
}

/// Until the service begins, a dish is as its card says.
fn follow_cards(hand: Hand, tap: Callback<PlanTap>) {
    let fish = hand.fish;
    let recipes = Drawer::<Recipe>::here();
    Effect::new(move |_| {
        let next = fish.with(|fish| {
            fish.serving().alongside.iter().find_map(|one| {
                let card = recipes.with(one.card.as_deref()?, Clone::clone)?;
                with_larder(hand.bench, recipes, |larder| {
                    card.followed_alongside(fish, one, larder)
                })
            })
        });
        // Steps that can't be served were refused where they were typed.
        if let Some(Ok(next)) = next {
            tap.run(next);
        }
    });
}
