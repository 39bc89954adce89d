//! Which dish a fish is cooked into.

use leptos::prelude::*;

use crate::base::refusal::Refusal;
use crate::cards::recipe::Recipe;
use crate::fish::action::Action;
use crate::fish::serving::PlanTap;
use crate::service::dish::shipped;
use crate::session::desk::with_larder;
use crate::session::drawer::Drawer;
use crate::session::hand::Hand;

/// The value of the list for a dish that was changed for this fish alone.
const CHANGED: &str = "changed";

/// The cook's own dishes that say how they are cooked, each by its card and its name.
pub fn own_dishes() -> Memo<Vec<(String, String)>> {
    let recipes = Drawer::<Recipe>::here();
    Memo::new(move |_| {
        let ids = recipes.ids().into_iter();
        ids.filter_map(|id| {
            let named = recipes.with(&id, |card| card.steps.as_ref().map(|_| card.title()))??;
            Some((id, named))
        })
        .collect()
    })
}

/// Which dish it is cooked into: those Scaleside comes with, and the cook's own that say how they are cooked.
pub fn which_dish(hand: Hand, refused: RwSignal<Option<String>>) -> AnyView {
    let fish = hand.fish;
    let recipes = Drawer::<Recipe>::here();
    let cards = own_dishes();
    let chosen = Memo::new(move |_| {
        fish.with(|fish| match (&fish.serving().card, &fish.own_dish) {
            (Some(card), _) => card.clone(),
            (None, Some(_)) => CHANGED.to_owned(),
            (None, None) => fish.dish.clone(),
        })
    });
    let plan = move |tap: Result<PlanTap, Refusal>| match tap {
        Ok(tap) => {
            hand.send(Action::Plan(tap), refused);
        }
        Err(refusal) => refused.set(Some(refusal.to_string())),
    };
    let choose = move |value: String| {
        let card = recipes.with_untracked(&value, Clone::clone);
        let own = card.map(|card| {
            untrack(|| with_larder(hand.bench, recipes, |larder| card.chosen(&value, larder)))
        });
        match own.flatten() {
            Some(tap) => plan(tap),
            None if value == CHANGED => {}
            None => plan(Ok(PlanTap::Shipped(value))),
        }
    };
    Effect::new(move |_| {
        let tap = fish.with(|fish| {
            let card = fish.serving().card.as_deref()?;
            let card = recipes.with(card, Clone::clone)?;
            with_larder(hand.bench, recipes, |larder| card.followed(fish, larder))
        });
        if let Some(tap) = tap {
            plan(tap);
        }
    });
    let gone = Memo::new(move |_| {
        fish.with(|fish| match fish.serving().card.as_deref() {
            Some(card) if fish.run.is_none() => {
                recipes.with(card, |card| card.steps.is_some()) != Some(true)
            }
            _ => false,
        })
    });
    let options = move || {
        let shipped = shipped::dishes().unwrap_or_default().iter();
        let mut options: Vec<(String, String)> = shipped
            .map(|dish| (dish.id.clone(), dish.name.clone()))
            .chain(cards.get())
            .collect();
        if chosen.with(|chosen| chosen == CHANGED) {
            options.push((CHANGED.to_owned(), "As changed for this fish".to_owned()));
        }
        if gone.get() {
            options.push((
                chosen.get(),
                "A dish that is no longer among yours".to_owned(),
            ));
        }
        options
            .into_iter()
            .map(|(id, named)| {
                let value = id.clone();
                view! { <option value=value selected=move || chosen.get() == id>{named}</option> }
            })
            .collect_view()
    };
    view! {
        {move || fish.with(|fish| fish.run.is_none() && !fish.is_alone()).then(|| view! {
            <div class="field">
                <label for="which-dish">"Cooked into"</label>
                <select id="which-dish" aria-describedby="which-dish-hint" on:change:target=move |event| choose(event.target().value())>{options}</select>
                <div id="which-dish-hint">{move || gone.get().then(|| view! { <p class="hint">"This dish is no longer among yours: the fish keeps it as it last was."</p> })}</div>
            </div>
        })}
    }
    .into_any()
}
