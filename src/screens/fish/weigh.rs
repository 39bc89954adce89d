//! One weight on the scale: keyed with a wet thumb, questioned when it is odd, taken.

use leptos::prelude::*;

use crate::device::address;
use crate::fish::action::Action;
use crate::fish::settings::Preference;
use crate::fish::weighing::{Judgement, Key, Which};
use crate::parts::choice::one_of;
use crate::parts::keypad::Keypad;
use crate::parts::page::{Page, back_or, back_to};
use crate::parts::words;
use crate::place::Stage;
use crate::session::hand::Hand;
use crate::trade::mass::Unit;

/// One of the three weighings, at its own stage of the job or put right from the numbers.
pub fn screen(hand: Hand, which: Which, at: Stage) -> AnyView {
    let fish = hand.fish;
    let refused = RwSignal::new(None::<String>);
    let asked = RwSignal::new(false);
    let send = move |action| hand.weigh(action, refused);
    let (stage, title) = match which {
        Which::Whole => (Stage::WeighWhole, "Weigh it as delivered"),
        Which::OffBone => (Stage::WeighOffBone, "Weigh off the bone"),
        Which::Ready => (Stage::WeighReady, "Weigh ready to cook"),
    };
    let before = fish.with_untracked(|fish| fish.stage_before(stage));
    let is_mended = at != stage;
    // Put right from the numbers, it leads back to them and not through all that follows.
    let leave = move || {
        if is_mended {
            address::back_or(&hand.at(Stage::Summary));
        } else {
            hand.go(fish.with_untracked(|fish| fish.stage_after(stage)));
        }
    };
    let press = Callback::new(move |key: Key| {
        asked.set(false);
        send(Action::Key(which, key));
    });
    let take = move |sure: bool| {
        if !sure
            && matches!(
                fish.with_untracked(|fish| fish.judge(which)),
                Judgement::Doubt(_)
            )
        {
            refused.set(None);
            asked.set(true);
            crate::device::focus::to_fault();
        } else if send(Action::Take { which, sure }) {
            leave();
        }
    };
    let question = move || {
        asked
            .get()
            .then(|| fish.with(|fish| fish.judge(which)))
            .and_then(|judgement| match judgement {
                Judgement::Doubt(doubt) => Some(doubt.to_string()),
                Judgement::Fine(_) | Judgement::Wrong(_) => None,
            })
    };
    let unit = Memo::new(move |_| fish.with(|fish| fish.reading(which).unit));
    view! {
        <Page
            title=title
            above=hand.name()
            at=stage
            demo=hand.demo()
            dock=move || view! {
                {if is_mended {
                    back_or(hand.at(Stage::Summary)).into_any()
                } else {
                    back_to(&hand.at(before)).into_any()
                }}
                <button class="btn main tall next" on:click=move |_| take(false)>"Take this weight"</button>
            }
        >
            {hint(which, fish.with_untracked(|fish| fish.slip.read_count().unwrap_or(1)))}
            {(which == Which::Ready).then(|| one_of(
                "raw",
                "Raw?",
                "inline",
                vec![(true, "Raw".to_owned()), (false, "Cooked already".to_owned())],
                move || fish.with(|fish| fish.raw),
                move |raw| {
                    send(Action::Raw(raw));
                    if !raw && let Judgement::Wrong(refusal) = fish.with_untracked(|fish| fish.judge(which)) {
                        refused.set(Some(refusal.to_string()));
                    }
                },
            ))}
            <div class="readout">
                <output aria-live="polite">
                    {move || fish.with(|fish| {
                        let typed = fish.reading(which).typed.clone();
                        if typed.is_empty() {
                            view! { <span class="empty">"0"</span> }.into_any()
                        } else {
                            typed.into_any()
                        }
                    })}
                </output>
                <span class="unit">{move || readout_unit(unit.get(), &fish.with(|fish| fish.reading(which).typed.clone()))}</span>
            </div>
            <div role="alert">
                {move || refused.get().map(|sentence| view! { <p class="fault">{sentence}</p> })}
                {move || question().map(|question| view! {
                    <div class="doubt">
                        <p>{question}</p>
                        <div class="row">
                            <button class="btn plain" on:click=move |_| press.run(Key::Clear)>"Weigh again"</button>
                            <button class="btn" on:click=move |_| take(true)>"Yes, take it"</button>
                        </div>
                    </div>
                })}
            </div>
            <Keypad pounds=Signal::derive(move || unit.get() == Unit::PoundOunce) press=press/>
            {one_of(
                "unit",
                "In",
                "tight",
                Unit::ALL.into_iter().map(|unit| (unit, words::plain_capital(unit.name()))).collect(),
                move || Some(unit.get()),
                move |unit| {
                    send(Action::Unit(which, unit));
                    hand.bench.prefer(Preference::Unit(unit));
                },
            )}
            {(which == Which::OffBone).then(|| view! {
                <button class="btn plain" on:click=move |_| {
                    if send(Action::LeaveOut) {
                        leave();
                    }
                }>"Leave this weight out"</button>
            })}
        </Page>
    }
    .into_any()
}

fn readout_unit(unit: Unit, typed: &str) -> &'static str {
    match unit {
        Unit::PoundOunce if typed.ends_with("lb ") => "",
        Unit::PoundOunce => "oz",
        unit => unit.symbol(),
    }
}

fn hint(which: Which, count: u32) -> AnyView {
    let words = match which {
        Which::Whole if count > 1 => {
            format!("Empty tray on, scale to zero, then all {count} fish together.")
        }
        Which::Whole => "Empty tray on, scale to zero, then the fish.".to_owned(),
        Which::OffBone if count > 1 => {
            format!("The fillets of all {count} fish together, untrimmed, on the same scale.")
        }
        Which::OffBone => "Both fillets, untrimmed, on the same scale.".to_owned(),
        Which::Ready if count > 1 => {
            format!("The fillets of all {count} fish together, trimmed and wiped dry.")
        }
        Which::Ready => "Both fillets, trimmed and wiped dry.".to_owned(),
    };
    view! { <p class="soft">{words}</p> }.into_any()
}
