//! The chill clock and the mise en place, which hold the service back until they are done.

use leptos::prelude::*;

use super::Hand;
use crate::device::{bell, clock, focus};
use crate::parts::choice::tick;
use crate::parts::cold;
use crate::parts::page::{Page, back_to};
use crate::parts::words;
use crate::place::Stage;
use crate::record::action::Action;
use crate::service::dish::{Dish, MiseLine};

/// The chill clock and the mise en place.
pub fn screen(hand: Hand) -> AnyView {
    let fish = hand.fish;
    let refused = RwSignal::new(None);
    let dish = match fish.with_untracked(crate::record::fish::Fish::dish) {
        Ok(dish) => dish,
        Err(refusal) => return super::summary::no_dish(hand, &refusal),
    };
    let open = Memo::new(move |_| fish.with(|fish| fish.open_lines(dish).len()));
    let cooking = Memo::new(move |_| fish.with(|fish| fish.run.is_some()));
    let start = move |insist: bool| {
        // The sound may only be made ready inside a tap.
        bell::arm();
        hand.bench.armed.set(bell::is_armed());
        if hand.send(Action::Start { insist }, refused) {
            hand.go(Stage::Service);
        } else {
            focus::to_fault();
        }
    };
    view! {
        <Page
            title="Chill and prepare"
            above=hand.name()
            at=Stage::Prepare
            demo=hand.demo()
            dock=move || view! {
                {back_to(&hand.at(Stage::Yield))}
                {move || if cooking.get() {
                    view! { <a class="btn main tall next" href=hand.at(Stage::Service).to_string()>"Back to the service"</a> }.into_any()
                } else {
                    view! { <button class="btn hot tall next" on:click=move |_| start(false)>"Start the service"</button> }.into_any()
                }}
            }
        >
            {chill(hand, refused)}
            {move || hand.fish.with(|fish| cold::caution(fish.slip.species.as_ref()))}
            <section>
                <h2>{format!("Mise en place: {}", dish.name)}</h2>
                <p class="soft" aria-live="polite">{move || match open.get() {
                    0 => "Everything is in its place.".to_owned(),
                    1 => "One line is open.".to_owned(),
                    lines => format!("{lines} lines are open."),
                }}</p>
                <div class="choices one">{dish.mise.iter().map(|line| mise_line(hand, line, refused)).collect_view()}</div>
            </section>
            <div role="alert">
                {move || refused.get().map(|sentence| view! {
                    <div class="doubt">
                        <p>{sentence}</p>
                        {(open.get() > 0 && !cooking.get()).then(|| view! {
                            <button class="btn" on:click=move |_| start(true)>"Start anyway"</button>
                        })}
                    </div>
                })}
            </div>
            {safety(dish)}
        </Page>
    }
    .into_any()
}

fn chill(hand: Hand, refused: RwSignal<Option<String>>) -> AnyView {
    let fish = hand.fish;
    let now = hand.bench.now;
    let in_fridge = Memo::new(move |_| {
        fish.with(|fish| {
            fish.chill
                .as_ref()
                .is_some_and(|chill| chill.in_fridge_since.is_some())
        })
    });
    view! {
        <section class="sheet">
            <h2>"Cold"</h2>
            {move || fish.with(|fish| fish.chill.clone()).map(|chill| {
                let now = now.get();
                let (said, shown) = match (chill.in_fridge_since, chill.chilled_ms(now)) {
                    (Some(since), Some(ms)) => (format!("In the fridge since {}", clock::time_of_day(since)), words::face(ms)),
                    _ => ("Out of the fridge, in all".to_owned(), words::face(chill.out_ms(now))),
                };
                view! {
                    <p class="clockline"><span>{said}</span><b role="timer">{shown}</b></p>
                    <p class="small soft">{chill.sentence(now)}</p>
                }
            })}
            {move || if in_fridge.get() {
                view! { <button class="btn plain" on:click=move |_| { hand.send(Action::Fridge(false), refused); }>"Out of the fridge"</button> }.into_any()
            } else {
                view! { <button class="btn" on:click=move |_| { hand.send(Action::Fridge(true), refused); }>"Fillets into the fridge"</button> }.into_any()
            }}
        </section>
    }
    .into_any()
}

fn mise_line(hand: Hand, line: &'static MiseLine, refused: RwSignal<Option<String>>) -> AnyView {
    let fish = hand.fish;
    let detours = fish.with_untracked(|fish| {
        line.detours
            .iter()
            .filter(|detour| fish.slip.missing.contains(&detour.without))
            .collect::<Vec<_>>()
    });
    view! {
        {tick(
            line.say.as_str(),
            move || fish.with(|fish| fish.ticked.contains(&line.id)),
            move |done| { hand.send(Action::Tick(line.id.clone(), done), refused); },
        )}
        {detours
            .into_iter()
            .map(|detour| view! {
                <div class="detour small">
                    <b>{format!("Without {}", detour.without.name())}</b>
                    <p>{detour.say.as_str()}</p>
                    {detour.caution.as_deref().map(|caution| view! { <p class="care"><b>"Take care"</b>{caution}</p> })}
                </div>
            })
            .collect_view()}
        {line.caution.as_deref().map(|caution| view! { <p class="care small"><b>"Take care"</b>{caution}</p> })}
    }
    .into_any()
}

/// The cautions and allergens of a dish.
fn safety(dish: &'static Dish) -> AnyView {
    view! {
        <section class="care">
            <b>"Before you cook"</b>
            <ul class="plain-list">{dish.cautions.iter().map(|caution| view! { <li>{caution.as_str()}</li> }).collect_view()}</ul>
            <b>"Allergens"</b>
            <ul class="plain-list">{dish.allergens.iter().map(|allergen| view! { <li>{allergen.as_str()}</li> }).collect_view()}</ul>
        </section>
    }
    .into_any()
}
