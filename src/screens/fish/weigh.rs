//! One weight on the scale: keyed with a wet thumb, questioned when it is odd, taken.

use leptos::prelude::*;

use crate::device::{address, focus};
use crate::fish::action::Action;
use crate::fish::record::Fish;
use crate::fish::settings::Preference;
use crate::fish::weighing::{Doubt, Judgement, Key, Remedy, Which};
use crate::parts::choice::{one_of, tick};
use crate::parts::keypad::Keypad;
use crate::parts::page::{Page, back_or, back_to};
use crate::parts::words;
use crate::place::Stage;
use crate::prep::filleting::Shape;
use crate::session::hand::Hand;
use crate::trade::mass::{self, Unit};

/// One of the weighings, at its own stage of the job or put right from the numbers; `filleting` asks how the fillets were made.
pub fn screen(hand: Hand, which: Which, at: Stage, filleting: super::AsksFilleting) -> AnyView {
    let fish = hand.fish;
    let refused = RwSignal::new(None::<String>);
    // How many of the questions about this weight have been asked.
    let asked = RwSignal::new(0_usize);
    let send = move |action| hand.weigh(action, refused);
    let (stage, title) = match which {
        Which::Whole => (Stage::WeighWhole, "Weigh it as delivered"),
        Which::OffBone => (Stage::WeighOffBone, "Weigh off the bone"),
        Which::Ready => (Stage::WeighReady, "Weigh ready to cook"),
        Which::Frame => (Stage::WeighFrame, "Weigh head and bones"),
    };
    // What lies beside the job leads back to where the cook came from, and not through all that follows.
    let back = match which {
        Which::Frame => Some(Stage::WeighOffBone),
        _ => (at != stage).then_some(Stage::Summary),
    };
    let leave = move || match back {
        Some(back) => address::back_or(&hand.at(back)),
        None => hand.go(fish.with_untracked(|fish| fish.stage_after(stage))),
    };
    let before = fish.with_untracked(|fish| fish.stage_before(stage));
    let press = Callback::new(move |key: Key| {
        asked.set(0);
        send(Action::Key(which, key));
    });
    let go_on = move || {
        let doubts = fish.with_untracked(|fish| match fish.judge(which) {
            Judgement::Wrong(_) => 0,
            _ => fish.doubts(which).len(),
        });
        if asked.get_untracked() < doubts {
            refused.set(None);
            asked.update(|asked| *asked = asked.saturating_add(1));
            focus::to_fault();
        } else if send(Action::Take { which, sure: true }) {
            leave();
        } else {
            focus::to_fault();
        }
    };
    // A question is answered beside the weight, never by a second tap of the dock.
    let take = move || {
        if asked.get_untracked() == 0 {
            go_on();
        } else {
            focus::to_fault();
        }
    };
    let mend = move |remedy| {
        let sent = match remedy {
            Remedy::HeadAndFrame => return hand.go(Stage::WeighFrame),
            Remedy::TwoFish => send(Action::Count("2".to_owned())),
            Remedy::OneFillet => send(Action::OneFillet(true)),
        };
        asked.set(0);
        if sent {
            go_on();
        }
    };
    let question = move || {
        let nth = asked.get().checked_sub(1)?;
        fish.with(|fish| fish.doubts(which).into_iter().nth(nth))
    };
    let unit = Memo::new(move |_| fish.with(|fish| unit_of(fish, which)));
    view! {
        <Page
            title=title
            above=hand.name()
            at=stage
            demo=hand.demo()
            dock=move || view! {
                {match back {
                    Some(back) => back_or(hand.at(back)).into_any(),
                    None => back_to(&hand.at(before)).into_any(),
                }}
                <button class="btn main tall next" on:click=move |_| take()>"Take this weight"</button>
            }
        >
            <div class="weigh">
                <div class="scale">
                    {move || fish.with(|fish| hint(fish, which))}
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
                    {readout(hand, which, unit)}
                    <div role="alert">
                        {move || refused.get().map(|sentence| view! { <p class="fault">{sentence}</p> })}
                        {move || question().map(|doubt| view! {
                            <div class="doubt" data-says="odd usual">
                                <p>{doubt.to_string()}</p>
                                <div class="row">
                                    {doubt.remedy().map(|remedy| view! {
                                        <button class="btn" on:click=move |_| mend(remedy)>{remedy_words(remedy)}</button>
                                    })}
                                    <button class="btn plain" aria-keyshortcuts="Escape" on:click=move |_| press.run(Key::Clear)>"Weigh again"</button>
                                    <button class="btn plain" on:click=move |_| go_on()>{yes_words(&doubt)}</button>
                                </div>
                            </div>
                        })}
                    </div>
                    {(which != Which::Frame).then(|| units(unit, move |unit| {
                        send(Action::Unit(which, unit));
                        hand.bench.prefer(Preference::Unit(unit));
                    }))}
                </div>
                <Keypad pounds=Signal::derive(move || unit.get() == Unit::PoundOunce) press=press/>
            </div>
            {(matches!(which, Which::OffBone | Which::Ready) && fish.with_untracked(Fish::shape) == Shape::Round).then(|| tick(
                "Only one fillet is weighed",
                move || fish.with(|fish| fish.one_fillet),
                move |one| {
                    asked.set(0);
                    send(Action::OneFillet(one));
                },
            ))}
            {(which == Which::Ready).then(|| view! {
                <details class="sheet">
                    <summary>"Filleted otherwise?"</summary>
                    {filleting(hand, None)}
                </details>
            })}
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

/// What the scale shows, and what it comes to where several weights are added, or what it shows empty is taken off.
fn readout(hand: Hand, which: Which, unit: Memo<Unit>) -> AnyView {
    let fish = hand.fish;
    let typed = Memo::new(move |_| fish.with(|fish| fish.reading(which).typed.clone()));
    view! {
        <div class="readout">
            <output aria-live="polite" aria-label="Weight">
                {move || match typed.get() {
                    typed if typed.is_empty() => view! { <span class="empty">"0"</span> }.into_any(),
                    typed => typed.replace('+', " + ").into_any(),
                }}
            </output>
            <span class="unit">{move || typed.with(|typed| readout_unit(unit.get(), typed))}</span>
            {move || fish.with(|fish| sum(fish, which)).map(|sum| view! { <span class="unit">{sum}</span> })}
        </div>
    }
    .into_any()
}

fn sum(fish: &Fish, which: Which) -> Option<String> {
    let reading = fish.reading(which);
    if which == Which::Frame {
        let whole = fish.put_together()?;
        return Some(format!(
            "As delivered: {}",
            mass::show(fish.mass_of(&whole).ok()?, whole.unit)
        ));
    }
    let empty = fish.zero_shown();
    let is_sum = reading.typed.contains('+') || empty.is_some();
    let mass = is_sum.then(|| fish.mass(which).ok())??;
    let less = empty.map(|shown| format!("less {shown} empty "));
    let shown = mass::show(mass, reading.unit);
    Some(format!("{}= {shown}", less.unwrap_or_default()))
}

/// Head and frame are weighed in the unit of the fillets they are added to.
fn unit_of(fish: &Fish, which: Which) -> Unit {
    match which {
        Which::Frame => fish.off_bone.unit,
        which => fish.reading(which).unit,
    }
}

/// The units by their symbols, so that all four stand abreast on the smallest phone.
fn units(unit: Memo<Unit>, choose: impl Fn(Unit) + Copy + 'static) -> AnyView {
    view! {
        <div class="choices four" role="group" aria-label="In">
            {Unit::ALL
                .into_iter()
                .map(|each| view! {
                    <label class="choice">
                        <input type="radio" name="unit" prop:checked=move || unit.get() == each on:change=move |_| choose(each)/>
                        <span>{each.symbol()}<i class="unseen">{words::plain_capital(each.name())}</i></span>
                    </label>
                })
                .collect_view()}
        </div>
    }
    .into_any()
}

fn remedy_words(remedy: Remedy) -> &'static str {
    match remedy {
        Remedy::TwoFish => "Two fish",
        Remedy::HeadAndFrame => "Weigh head and bones",
        Remedy::OneFillet => "Only one fillet",
    }
}

fn yes_words(doubt: &Doubt) -> &'static str {
    match doubt {
        Doubt::HalfYield => "Both, take it",
        Doubt::OneFish(odd) if odd.may_be_two() => "One fish, take it",
        _ => "Yes, take it",
    }
}

fn readout_unit(unit: Unit, typed: &str) -> &'static str {
    match unit {
        Unit::PoundOunce if typed.ends_with("lb ") => "",
        Unit::PoundOunce => "oz",
        unit => unit.symbol(),
    }
}

fn hint(fish: &Fish, which: Which) -> AnyView {
    let count = fish.slip.read_count().unwrap_or(1);
    let fillets = match count {
        1 if fish.shape() == Shape::Flat => "All its fillets".to_owned(),
        1 if fish.one_fillet => "One fillet".to_owned(),
        1 => "Both fillets".to_owned(),
        count => format!("The fillets of all {count} fish"),
    };
    let words = match which {
        Which::Whole if count > 1 => format!("Empty tray on, zero, then all {count} fish."),
        Which::Whole => "Empty tray on, zero, then the fish.".to_owned(),
        Which::OffBone => format!("{fillets}, untrimmed, same scale."),
        Which::Ready => {
            let made = words::plain_capital(&fish.filleted_all().told());
            format!("{fillets}, trimmed, wiped dry. {made}.")
        }
        Which::Frame => {
            let off = fish.slip.form.unwrap_or_default().off_the_bone();
            format!("On the same scale: {off}. They are added to the fillets.")
        }
    };
    view! { <p class="soft small">{words}</p> }.into_any()
}
