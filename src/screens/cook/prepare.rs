//! The chill clock and the mise en place, which hold the service back until they are done.

use std::time::Duration;

use leptos::prelude::*;

use super::by_eye;
use super::cooked_into::which_dish;
use super::timing::Timing;
use crate::base::steady::Uncounted;
use crate::base::stretch::{in_words, stretch};
use crate::device::{bell, clock, focus};
use crate::fish::action::Action;
use crate::fish::heat_card::HeatTap;
use crate::fish::record::Fish;
use crate::parts::choice::{fault, tick};
use crate::parts::cold;
use crate::parts::page::{Page, back_or, back_to};
use crate::parts::{estimated, no_signal, planned, words};
use crate::place::{Place, Stage};
use crate::screens::stove::no_dish;
use crate::service::dish::{Dish, MiseLine};
use crate::session::clock_watch;
use crate::session::hand::Hand;

/// How long the screen is left to itself before the sound is fetched.
const REST: Duration = Duration::from_secs(1);

/// The chill clock and the mise en place.
pub fn screen(hand: Hand) -> AnyView {
    let fish = hand.fish;
    let refused = RwSignal::new(None);
    if let Err(refusal) = fish.with_untracked(|fish| fish.dish().map(|_| ())) {
        return no_dish(hand, &refusal);
    }
    let open = Memo::new(move |_| {
        fish.with(|fish| fish.served().map_or(0, |dish| fish.open_lines(&dish).len()))
    });
    let name = Memo::new(move |_| of_dish(hand, |dish| dish.name.clone()));
    let brief = Memo::new(move |_| {
        of_dish(hand, |dish| match dish.members.len() {
            0 => format!("Dish: {}", dish.brief()),
            dishes => format!("{dishes} dishes in this service"),
        })
    });
    let mise = Memo::new(move |_| of_dish(hand, |dish| dish.mise.clone()));
    let warned =
        Memo::new(move |_| of_dish(hand, |dish| (dish.cautions.clone(), dish.allergens.clone())));
    // Of a dish without fish there is no fillet to keep cold, and none to measure.
    let chills = Memo::new(move |_| fish.with(|fish| !fish.is_alone() || cooks_fish(fish)));
    let cooking = Memo::new(move |_| fish.with(|fish| fish.run.is_some()));
    // Since a start was refused, it is said what is not ready: as it stands now, not as it stood then.
    let start_asked = RwSignal::new(false);
    // By the time it is needed: nobody waits for it before.
    set_timeout(bell::fetch, REST);
    let start = move |insist: bool| {
        // The sound may only be made ready inside a tap.
        bell::arm();
        hand.bench.armed.set(bell::is_armed());
        start_asked.set(true);
        let not_ready = fish.with_untracked(|fish| fish.not_ready().ok().flatten());
        if (insist || not_ready.is_none()) && hand.send(Action::Start { insist }, refused) {
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
                {before(hand)}
                {move || if cooking.get() {
                    view! { <a class="btn main tall next" href=hand.at(Stage::Service).to_string()>"Back to the service"</a> }.into_any()
                } else {
                    view! { <button class="btn hot tall next" on:click=move |_| start(false)>"Start the service"</button> }.into_any()
                }}
            }
        >
            {move || chills.get().then(|| chill(hand, refused))}
            {move || hand.fish.with(|fish| cold::caution(fish.slip.species.as_ref()))}
            {ahead(hand)}
            <section>
                <h2>"Mise en place"</h2>
                <p class="soft" aria-live="polite">{move || match open.get() {
                    0 => "Everything is in its place.".to_owned(),
                    1 => "One thing is not ready yet.".to_owned(),
                    things => format!("{things} things are not ready yet."),
                }}</p>
                <div class="choices one" data-says="step">{move || mise.get().iter().map(|line| mise_line(hand, line, refused)).collect_view()}</div>
            </section>
            <div role="alert">
                {move || refused.get().map(|sentence| view! { <p class="doubt">{sentence}</p> })}
                {move || (start_asked.get() && !cooking.get()).then(|| not_ready(hand, start))}
            </div>
            {no_signal::ready()}
            <details class="sheet" data-says="step cold">
                <summary>"What each line means"</summary>
                <p><b>"Mise en place"</b>": everything in its place before you start."</p>
                {move || mise.get().iter().map(|line| in_full(hand, line)).collect_view()}
            </details>
            <details class="care" data-says="cold step">
                <summary>"Allergens and dangers"</summary>
                {move || warned.with(|(cautions, allergens)| safety(cautions, allergens))}
            </details>
            <details class="sheet">
                <summary>{move || brief.get()}</summary>
                <p>{move || name.get()}</p>
                {which_dish(hand, refused)}
            </details>
        </Page>
    }
    .into_any()
}

/// What is not ready, what can be told of it right here, and the way on in spite of it.
fn not_ready(hand: Hand, start: impl Fn(bool) + Copy + Send + Sync + 'static) -> AnyView {
    let fish = hand.fish;
    let refused = RwSignal::new(None);
    let sentence = Memo::new(move |_| {
        fish.with(|fish| fish.not_ready().ok().flatten().map(|why| why.to_string()))
    });
    // Untimed: whether it was measured, and its times are on their way.
    let untimed =
        Memo::new(move |_| fish.with(|fish| fish.is_untimed().then(|| fish.heat().is_measured())));
    let told = estimated::of_untimed_fish(fish, hand.bench.now);
    Timing::of(hand, told, refused);
    let tap = Callback::new(move |tap: HeatTap| {
        hand.send(Action::Heat(tap), refused);
    });
    view! {
        {move || sentence.get().map(|sentence| view! {
            <div class="doubt">
                <p>{sentence}</p>
                {move || match untimed.get() {
                    None => ().into_any(),
                    Some(false) => view! {
                        {by_eye::choices(tap)}
                        <a class="btn plain" href=hand.at(Stage::Heat).to_string()>"Measured, in mm…"</a>
                    }.into_any(),
                    Some(true) => estimated::brief(told, |_| false),
                }}
                <button class="btn" on:click=move |_| start(true)>"Start anyway"</button>
            </div>
        })}
        {fault("heat-fault", move || refused.get())}
    }
    .into_any()
}

/// Whether fish goes into a pan in its dish.
fn cooks_fish(fish: &Fish) -> bool {
    fish.dish().is_ok_and(Dish::has_fish)
}

/// The way back: to the yield of a fish, to wherever the service of a dish alone was opened from.
fn before(hand: Hand) -> AnyView {
    if hand.fish.with_untracked(Fish::is_alone) {
        back_or(Place::Home).into_any()
    } else {
        back_to(&hand.at(Stage::Yield)).into_any()
    }
}

fn of_dish<T: Default>(hand: Hand, read: impl FnOnce(&Dish) -> T) -> T {
    hand.fish
        .with(|fish| fish.served().map(|dish| read(&dish)).unwrap_or_default())
}

/// What is worked out ahead: how the fillet cooks, and when everything happens.
fn ahead(hand: Hand) -> AnyView {
    let fish = hand.fish;
    let heat = move || {
        fish.with(|fish| match fish.serving().times {
            Some(times) => format!(
                "Skin side {}, then {} turned: for this fillet.",
                stretch(i64::from(times.skin)),
                stretch(i64::from(times.finish))
            ),
            None if fish.is_untimed() => "How thick is it?".to_owned(),
            None => "By the dish's own times.".to_owned(),
        })
    };
    let planned = planned::of_fish(hand);
    let plan = move || {
        planned.with(|planned| match planned {
            None if fish.with(Fish::is_plated) => "Plating has begun.".to_owned(),
            None => "Working it out…".to_owned(),
            Some(Err(_)) => "This does not fit yet: see the ways out.".to_owned(),
            Some(Ok(plan)) => fish.with(|fish| match fish.serving().plate_at {
                Some(_) => format!(
                    "Start at {}, plate at {}.",
                    clock::time_of_day(plan.begins()),
                    clock::time_of_day(plan.at(plan.plating))
                ),
                None => format!(
                    "Start now: plate at {}.",
                    clock::time_of_day(plan.at(plan.plating))
                ),
            }),
        })
    };
    view! {
        <section>
            <h2 class="unseen">"Worked out ahead"</h2>
            <ul class="rows" data-says="heat plan">
                {move || fish.with(cooks_fish).then(|| view! {
                    <li><a class="item" href=hand.at(Stage::Heat).to_string()>
                        <span class="grow">"How the fillet cooks"<small>{heat}</small></span>"›"
                    </a></li>
                })}
                <li><a class="item" href=hand.at(Stage::Plan).to_string()>
                    <span class="grow">"Plan of the service"<small>{plan}</small></span>"›"
                </a></li>
            </ul>
        </section>
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
        <section class="sheet" data-says="cold">
            <h2 class="unseen">"Cold"</h2>
            {move || fish.with(|fish| fish.chill.clone()).map(|chill| {
                let now = now.get();
                let (said, shown) = match (chill.in_fridge_since, chill.chilled_ms(now)) {
                    (Some(since), Some(ms)) => (format!("In the fridge since {}", clock::time_of_day(since)), words::face(ms)),
                    _ => ("Out of the fridge".to_owned(), words::face(chill.out_ms(now))),
                };
                view! {
                    <p class="clockline"><span>{said}</span><b role="timer">{shown}</b></p>
                    {chill.presses(now).then(|| view! { <p class="small">{chill.sentence(now)}</p> })}
                }
            })}
            {doubt(hand)}
            {move || if in_fridge.get() {
                view! { <button class="btn plain" on:click=move |_| { hand.send(Action::Fridge(false), refused); }>"Out of the fridge"</button> }.into_any()
            } else {
                view! { <button class="btn" on:click=move |_| into_the_fridge(hand, refused)>"Fillets into the fridge"</button> }.into_any()
            }}
        </section>
    }
    .into_any()
}

/// Whether the phone's clock can't be trusted for this fish, and what is said of it if it was out of the fridge meanwhile.
fn doubted(hand: Hand) -> Option<(Uncounted, Option<String>)> {
    let now = hand.bench.now.get();
    let (doubt, until) = clock_watch::doubt();
    hand.fish.with(|fish| {
        let out = (fish.chill.as_ref()).filter(|chill| chill.is_doubted(doubt, until));
        let worst = out.map(|chill| chill.at_worst(now, doubt));
        // A timer may run late by it.
        let asks = matches!(doubt, Uncounted::AtMost(_)) && fish.is_cooking();
        (worst.is_some() || asks).then_some((doubt, worst))
    })
}

/// Asks what it was where the clock went ahead: the worse is assumed until the cook says so.
fn doubt(hand: Hand) -> impl IntoView {
    let doubted = Memo::new(move |_| doubted(hand));
    move || {
        doubted.get().map(|(doubt, worst)| {
            let asked = match doubt {
                Uncounted::AtMost(ms) => Some(format!("This phone's clock went ahead by {}. Did the phone sleep for that long, or was its clock set?", in_words(ms))),
                _ => None,
            };
            view! {
                <div class="doubt" role="alert">
                    {asked.map(|asked| view! {
                        <p>{asked}</p>
                        <div class="row">
                            <button class="btn plain" on:click=move |_| clock_watch::settle(hand.bench, true)>"It slept"</button>
                            <button class="btn plain" on:click=move |_| clock_watch::settle(hand.bench, false)>"Its clock was set"</button>
                        </div>
                    })}
                    {worst.map(|worst| view! { <p class="small">{worst}</p> })}
                </div>
            }
        })
    }
}

/// A fish of which nobody knows how long it was out does not go back in.
fn into_the_fridge(hand: Hand, refused: RwSignal<Option<String>>) {
    match untrack(|| doubted(hand)) {
        Some((_, Some(worst))) => refused.set(Some(worst)),
        _ => {
            hand.send(Action::Fridge(true), refused);
        }
    }
}

fn mise_line(hand: Hand, line: &MiseLine, refused: RwSignal<Option<String>>) -> AnyView {
    let fish = hand.fish;
    let (brief, care) = fish.with_untracked(|fish| {
        let missing = &fish.slip.missing;
        let care = line.care(missing).map(str::to_owned);
        (line.brief(missing).to_owned(), care)
    });
    let id = StoredValue::new(line.id.clone());
    let ticked = move || fish.with(|fish| id.with_value(|id| fish.ticked.contains(id)));
    view! {
        {tick(brief, ticked, move |done| { hand.send(Action::Tick(id.get_value(), done), refused); })}
        {care.map(|care| view! { <p class="care small">{care}</p> })}
    }
    .into_any()
}

/// All that is written of a line, its detours on this bench and its cautions.
fn in_full(hand: Hand, line: &MiseLine) -> AnyView {
    let detours = hand.fish.with_untracked(|fish| {
        line.detours
            .iter()
            .filter(|detour| fish.slip.missing.contains(&detour.without))
            .cloned()
            .collect::<Vec<_>>()
    });
    // A missing tool replaces the line.
    let as_ever = detours.is_empty().then(|| line.say.clone());
    view! {
        {as_ever.map(|say| view! { <p>{say}</p> })}
        {detours
            .into_iter()
            .map(|detour| view! {
                <div class="detour small">
                    <b>{format!("Without {}", detour.without.name())}</b>
                    <p>{detour.say}</p>
                    {detour.caution.map(|caution| view! { <p class="care"><b>"Take care"</b>{caution}</p> })}
                </div>
            })
            .collect_view()}
        {line.caution.clone().map(|caution| view! { <p class="care small"><b>"Take care"</b>{caution}</p> })}
    }
    .into_any()
}

/// The cautions and allergens of a dish.
fn safety(cautions: &[String], allergens: &[String]) -> AnyView {
    view! {
            <b>"Before you cook"</b>
            <ul class="plain-list">{cautions.iter().map(|caution| view! { <li>{caution.clone()}</li> }).collect_view()}</ul>
            <b>"Allergens"</b>
            <ul class="plain-list">{allergens.iter().map(|allergen| view! { <li>{allergen.clone()}</li> }).collect_view()}</ul>
    }
    .into_any()
}
