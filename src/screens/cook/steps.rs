//! The steps of a dish, to be changed: for one fish, or on the card of a cook's own dish.

use leptos::prelude::*;

use super::refusals::NoSteps;
use crate::base::refusal::Refusal;
use crate::cards::recipe::{Recipe, RecipeAction, Serves};
use crate::fish::action::Action;
use crate::fish::serving::PlanTap;
use crate::parts::page::{Page, back_to};
use crate::parts::step_editor::Editor;
use crate::place::{DishSide, Stage};
use crate::service::dish::{Dish, Sound};
use crate::service::menu::edit::Edit;
use crate::service::menu::field::{EditFault, Field};
use crate::session::desk::Desk;
use crate::session::drawer::Drawer;
use crate::session::hand::Hand;

/// The steps of the dish of one fish.
pub fn screen(hand: Hand) -> AnyView {
    let fish = hand.fish;
    let refused = RwSignal::new(None);
    let dish = Memo::new(move |_| fish.with(|fish| fish.dish().ok().cloned()));
    let cooking = fish.with_untracked(|fish| fish.run.is_some());
    let edit = Callback::new(move |edit: Edit| {
        let edited = dish.with_untracked(|dish| edited(dish.as_ref(), &edit));
        match edited {
            Err(fault) => Some(fault),
            Ok(dish) => {
                let done = hand.act(Action::Plan(PlanTap::Own(Box::new(dish))));
                refused.set(done.as_ref().err().map(ToString::to_string));
                done.err().map(whole)
            }
        }
    });
    view! {
        <Page title="Steps of the dish" above=hand.name() at=Stage::Prepare demo=hand.demo() dock=move || back_to(&hand.at(Stage::Plan))>
            {if cooking {
                view! { <p class="doubt">"The service has begun: its steps stay as they are. Start it again to change them."</p> }.into_any()
            } else {
                view! {
                    <p class="soft">"What you change here is for this fish. Keep it as a dish of your own to cook it again."</p>
                    {Editor { dish: dish.into(), edit }.view()}
                    {keep(dish, refused)}
                    {move || refused.get().map(|sentence: String| view! { <p class="notice" role="status">{sentence}</p> })}
                }.into_any()
            }}
        </Page>
    }
    .into_any()
}

/// The steps on the card of a cook's own dish, and what plans it by them. Without any of its own it starts from those
/// Scaleside comes with.
pub fn of_card(desk: Desk, plan_it: impl Fn() -> AnyView + Send + Sync + 'static) -> AnyView {
    let dish = Memo::new(move |_| {
        desk.get(|card| match card.steps.as_deref() {
            Some(own) => Some(own.clone()),
            None => card.starting().ok().cloned(),
        })
    });
    let edit = Callback::new(move |edit: Edit| {
        let edited = dish.with_untracked(|dish| edited(dish.as_ref(), &edit));
        match edited {
            Err(fault) => Some(fault),
            Ok(dish) => {
                let was = untrack(|| desk.get(|card| card.steps.clone()));
                let is = Box::new(dish.into_dish());
                desk.act(RecipeAction::Steps { was, is }).err().map(whole)
            }
        }
    });
    view! {
        <Page title="Steps of the service" above=desk.title() demo=desk.demo() dock=move || view! { {back_to(&desk.at(DishSide::Card))} {plan_it()} }>
            <p class="soft">"How the dish is cooked, step by step. A fish takes a copy when it is prepared: a service that runs is never moved."</p>
            {Editor { dish: dish.into(), edit }.view()}
        </Page>
    }
    .into_any()
}

fn edited(dish: Option<&Dish>, edit: &Edit) -> Result<Sound, EditFault> {
    let dish = dish.ok_or_else(|| whole(NoSteps::Gone.into()))?;
    dish.edited(edit)
}

fn whole(refusal: Refusal) -> EditFault {
    EditFault {
        field: Field::Whole,
        refusal,
    }
}

/// Keeps the steps as a dish of the cook's own.
fn keep(dish: Memo<Option<Dish>>, said: RwSignal<Option<String>>) -> AnyView {
    let recipes = Drawer::<Recipe>::here();
    let bench = crate::session::bench::Bench::here();
    let keep = move |_| {
        let Some(dish) = dish.get_untracked() else {
            return;
        };
        let name = dish.name.clone();
        let settings = bench.settings.get_untracked();
        let begun = recipes.begin(|now| {
            let mut card = Recipe::new(Serves::Covers, now, &settings);
            card.name.clone_from(&dish.name);
            card.steps = Some(Box::new(dish));
            Ok(card)
        });
        said.set(Some(match begun {
            Ok(_) => format!("“{name}” is kept among your dishes."),
            Err(refusal) => refusal.to_string(),
        }));
    };
    view! { <button class="btn main" on:click=keep>"Keep as a dish of my own"</button> }.into_any()
}
