//! The dishes of a service of several: for how many each is, and when its plate comes.

use leptos::prelude::*;

use crate::base::part;
use crate::base::refusal::Refusal;
use crate::cards::recipe::Recipe;
use crate::device::clock;
use crate::fish::alongside::{Alongside, AlongsideTap, MOST_ALONGSIDE, read_later};
use crate::fish::record::Fish;
use crate::fish::serving::PlanTap;
use crate::parts::choice::fault;
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

/// The dish that the service began with: when its plate comes.
fn first(hand: Hand, tap: Callback<PlanTap>) -> AnyView {
    let fish = hand.fish;
    let name = move || {
        fish.with(|fish| {
            fish.dish()
                .map(|dish| fish.called(dish))
                .unwrap_or_default()
        })
    };
    view! {
        <section class="sheet stack">
            <h2>{name}</h2>
            {called("first-called".to_owned(), move || fish.with(|fish| fish.serving().called.clone()), move |text| {
                tap.run(PlanTap::Alongside(AlongsideTap::Called(None, text)));
            })}
            {later("first-later".to_owned(), move || fish.with(|fish| fish.serving().later.clone()), move |text| {
                tap.run(PlanTap::Alongside(AlongsideTap::Later(None, text)));
            })}
        </section>
    }
    .into_any()
}

/// One that comes with it.
fn beside(hand: Hand, tap: Callback<PlanTap>, id: String) -> AnyView {
    let fish = hand.fish;
    let id = StoredValue::new(id);
    let this = move || id.get_value();
    fn read<T>(fish: &Fish, id: &str, read: impl FnOnce(&Alongside) -> T) -> Option<T> {
        let known = &fish.serving().alongside;
        known.get(part::place_of(known, id)?).map(read)
    }
    let text = move |of: fn(&Alongside) -> &String| {
        fish.with(|fish| read(fish, &this(), |one| of(one).clone()))
            .unwrap_or_default()
    };
    let refused = move |why: fn(&Alongside) -> Option<Refusal>| {
        fish.with(|fish| read(fish, &this(), why))
            .flatten()
            .map(|refusal| refusal.to_string())
    };
    let has_fish = fish.with_untracked(|fish| read(fish, &this(), |one| one.dish.has_fish()));
    let field = move |key: &'static str, label: &'static str| {
        let name = format!("{key}-{}", this());
        (name.clone(), label, format!("{name}-fault"))
    };
    let (covers, covers_label, covers_fault) = field("covers", "Covers");
    let (at_once, at_once_label, at_once_fault) =
        field("at-once", "Fillets that lie flat in the pan at once");
    view! {
        <section class="sheet stack">
            <h2>{move || fish.with(|fish| read(fish, &this(), Alongside::called))}</h2>
            {called(format!("called-{}", this()), move || text(|one| &one.called), move |text| {
                tap.run(PlanTap::Alongside(AlongsideTap::Called(Some(this()), text)));
            })}
            <div class="field">
                <label for=covers.clone()>{covers_label}</label>
                <input id=covers type="text" inputmode="numeric" autocomplete="off" aria-describedby=covers_fault.clone()
                    prop:value=move || text(|one| &one.covers)
                    on:input:target=move |event| tap.run(PlanTap::Alongside(AlongsideTap::Covers(this(), event.target().value())))/>
                {fault(covers_fault, move || refused(|one| one.covers().err()))}
            </div>
            {has_fish.unwrap_or(false).then(|| view! {
                <div class="field">
                    <label for=at_once.clone()>{at_once_label}</label>
                    <input id=at_once type="text" inputmode="numeric" autocomplete="off" placeholder="all of them" aria-describedby=at_once_fault.clone()
                        prop:value=move || text(|one| &one.at_once)
                        on:input:target=move |event| tap.run(PlanTap::Alongside(AlongsideTap::AtOnce(this(), event.target().value())))/>
                    {fault(at_once_fault, move || refused(|one| one.covers().and_then(|_| one.panfuls()).err()))}
                </div>
            })}
            {later(format!("later-{}", this()), move || text(|one| &one.later), move |text| {
                tap.run(PlanTap::Alongside(AlongsideTap::Later(Some(this()), text)));
            })}
            <button class="btn plain" on:click=move |_| tap.run(PlanTap::Alongside(AlongsideTap::Out(this())))>"Take it out"</button>
        </section>
    }
    .into_any()
}

/// What a dish is called in the service: it stands before each of its steps.
fn called(
    id: String,
    text: impl Fn() -> String + Copy + Send + Sync + 'static,
    typed: impl Fn(String) + Copy + Send + Sync + 'static,
) -> AnyView {
    view! {
        <div class="field">
            <label for=id.clone()>"Called, in a word or two"</label>
            <input id=id type="text" autocomplete="off" prop:value=text on:input:target=move |event| typed(event.target().value())/>
        </div>
    }
    .into_any()
}

/// When a plate comes, in minutes after the first ones.
fn later(
    id: String,
    text: impl Fn() -> String + Copy + Send + Sync + 'static,
    typed: impl Fn(String) + Copy + Send + Sync + 'static,
) -> AnyView {
    let fault_id = format!("{id}-fault");
    view! {
        <div class="field">
            <label for=id.clone()>"Its plate, minutes after the first"</label>
            <input id=id type="text" inputmode="numeric" autocomplete="off" placeholder="together" aria-describedby=fault_id.clone()
                prop:value=text
                on:input:target=move |event| typed(event.target().value())/>
            {fault(fault_id, move || read_later(&text()).err().map(|refusal| refusal.to_string()))}
        </div>
    }
    .into_any()
}

/// Takes one more dish into the service.
fn add(hand: Hand, tap: Callback<PlanTap>) -> AnyView {
    let fish = hand.fish;
    let recipes = Drawer::<Recipe>::here();
    let cards = Memo::new(move |_| {
        let ids = recipes.ids().into_iter();
        ids.filter_map(|id| {
            let named = recipes.with(&id, |card| card.steps.as_ref().map(|_| card.title()))??;
            Some((id, named))
        })
        .collect::<Vec<_>>()
    });
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
