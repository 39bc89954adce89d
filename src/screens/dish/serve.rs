//! The way from a dish to its service, fish or not, weighed or not.

use leptos::prelude::*;

use crate::cards::recipe::RecipeAction;
use crate::device::{address, clock};
use crate::fish::action::Action;
use crate::place::{DishSide, Place, Stage};
use crate::session::desk::Desk;
use crate::session::drawer::identity;

/// How many of the latest fish are looked at for a service of this dish that is not over yet.
const LOOKED_AT: usize = 20;

/// The button on the card. Where the card does not say how the dish is cooked, that comes first.
pub fn button(desk: Desk) -> AnyView {
    let tap = move |_| {
        if desk.get(|card| card.steps.is_some()) {
            plan(desk);
        } else {
            address::go(&desk.at(DishSide::Steps));
        }
    };
    view! { <button class="btn" on:click=move |event| untrack(|| tap(event))>"Plan this dish"</button> }.into_any()
}

/// The button beside its steps: those that stand there become its own.
pub fn button_at_steps(desk: Desk) -> AnyView {
    let tap = move || {
        let starts = desk.get(|card| match card.steps {
            Some(_) => None,
            None => card.starting().ok().cloned().map(Box::new),
        });
        if let Some(is) = starts {
            let kept = desk.act(RecipeAction::Steps { was: None, is });
            if kept.is_err() {
                return;
            }
        }
        plan(desk);
    };
    view! { <button class="btn main tall next" on:click=move |_| untrack(tap)>"Plan this dish"</button> }.into_any()
}

/// Goes to the plan of its service: of one that is not over yet, or else of a new one.
fn plan(desk: Desk) {
    let bench = desk.bench;
    if let Some(id) = open_service(desk) {
        follow(desk, &id);
        return address::go(&Place::Fish(id, Stage::Plan));
    }
    let (now, card) = (clock::dated(), desk.id());
    let id = identity(now);
    let settings = bench.settings.get_untracked();
    let made = desk.with_larder(|larder| {
        desk.get(|recipe| recipe.served_alone(&card, id.clone(), now, (&settings, larder)))
    });
    let Some(made) = made else { return };
    match made.and_then(|fish| bench.fish.put_in(&id, fish)) {
        Ok(()) => address::go(&Place::Fish(id, Stage::Plan)),
        Err(refusal) => desk.refused.set(Some(refusal.to_string())),
    }
}

/// The service of this dish that is not over yet.
fn open_service(desk: Desk) -> Option<String> {
    let card = desk.id();
    let drawer = desk.bench.fish;
    drawer.ids().into_iter().take(LOOKED_AT).find(|id| {
        let is_it = drawer.with_untracked(id, |fish| {
            fish.is_alone()
                && fish.finished.is_none()
                && fish.serving().card.as_deref() == Some(&card)
        });
        is_it == Some(true)
    })
}

/// Brings a service that has not begun up to what the card says now. One that runs stays as it is.
fn follow(desk: Desk, id: &str) {
    let fish = desk.bench.fish.with_untracked(id, Clone::clone);
    let tap = fish
        .and_then(|fish| desk.with_larder(|larder| desk.get(|card| card.followed(&fish, larder))));
    // Steps that can't be served were refused where they were typed.
    if let Some(Ok(tap)) = tap {
        let _ = desk.bench.fish.act(id, Action::Plan(tap));
    }
}
