//! Whose result it is: nickname and number, fixed on the fish when its code is first shown, and put right on that fish alone.

use leptos::prelude::*;

use crate::code::sheet::Nickname;
use crate::fish::action::Action;
use crate::fish::numbering::MOST_TESTS;
use crate::fish::record::Fish;
use crate::fish::settings::Preference;
use crate::parts::choice::fault;
use crate::session::hand::Hand;

/// Fixes what the code is first shown with: the nickname that was typed last on this phone, and the number that is due. It
/// waits until the other fish are read.
pub fn fix(hand: Hand) {
    Effect::new(move |_| {
        if hand
            .fish
            .with(|fish| fish.student.is_some() && fish.test.is_some())
            || !hand.bench.fish.read_all()
        {
            return;
        }
        let nickname = hand
            .bench
            .settings
            .with_untracked(|settings| settings.nickname.clone());
        // A fish that can't be written is told of by its drawer.
        let _ = hand.act(Action::Whose(nickname.clone(), number(hand, &nickname)));
    });
    // The number is given for good when the screen is left: while a nickname is typed, it is that of its first letters.
    on_cleanup(move || keep_given(hand));
}

fn keep_given(hand: Hand) {
    let (bench, fish) = (hand.bench, hand.fish.try_get_untracked());
    let given = bench
        .settings
        .try_with_untracked(|settings| settings.given.clone());
    if let (Some(fish), Some(given)) = (fish, given) {
        let next = fish.given_with(&given);
        if next != given {
            bench.prefer(Preference::Given(next));
        }
    }
}

fn number(hand: Hand, nickname: &str) -> u8 {
    let all: Vec<Fish> = hand.bench.fish.of_each(|other| Some(other.clone()));
    let given = hand
        .bench
        .settings
        .with_untracked(|settings| settings.given.clone());
    let fish = hand.fish.get_untracked();
    fish.number_for(nickname, &given, &all).min(MOST_TESTS)
}

/// The nickname and the number of the test, to be put right.
pub fn fields(hand: Hand) -> AnyView {
    let bench = hand.bench;
    let first = hand
        .fish
        .with_untracked(|fish| fish.student.clone().zip(fish.test));
    let shown = move || hand.fish.with(|fish| fish.student.clone());
    let typed = RwSignal::new(None::<String>);
    let refused = RwSignal::new(None::<String>);
    let first = StoredValue::new(first);
    let take = move |text: String| {
        typed.set(Some(text.clone()));
        let letters = text.trim().to_uppercase();
        if let (false, Err(refusal)) = (letters.is_empty(), Nickname::parse(&letters)) {
            refused.set(Some(refusal.to_string()));
            return;
        }
        // As it was, it has the number it had.
        let as_it_was = first
            .get_value()
            .filter(|(nickname, _)| *nickname == letters);
        let number = as_it_was.map_or_else(|| number(hand, &letters), |(_, number)| number);
        match hand.act(Action::Whose(letters.clone(), number)) {
            Ok(()) => refused.set(None),
            Err(refusal) => refused.set(Some(refusal.to_string())),
        }
        bench.prefer(Preference::Nickname(letters));
    };
    let wrong = RwSignal::new(None);
    let number = move || {
        hand.fish.with(|fish| {
            fish.test
                .map_or_else(String::new, |number| number.to_string())
        })
    };
    view! {
        <div class="row">
            <div class="field grow">
                <label for="nickname">"Nickname, up to four letters"</label>
                <input id="nickname" type="text" autocomplete="off" autocapitalize="characters" spellcheck="false"
                    aria-describedby="nickname-hint nickname-fault" prop:value=move || typed.get().or_else(shown).unwrap_or_default()
                    on:input:target=move |event| take(event.target().value())/>
            </div>
            <div class="field grow">
                <label for="test">"Your test of this fish, number"</label>
                <select id="test" prop:value=number
                    on:change:target=move |event| {
                        if let Ok(number) = event.target().value().parse() {
                            hand.send(Action::Test(number), wrong);
                        }
                    }>
                    {(1..=MOST_TESTS).map(|choice| view! {
                        <option value=choice.to_string() selected={move || number() == choice.to_string()}>{choice.to_string()}</option>
                    }).collect_view()}
                </select>
            </div>
        </div>
        {fault("nickname-fault", move || refused.get().or(wrong.get()))}
        {move || clash(hand).map(|sentence| view! { <p class="care">{sentence}</p> })}
        <p class="hint soft small" id="nickname-hint">"Use the letters your class agreed on, and no name. They belong to this fish: another student on this phone types others for the next. Sent again with the same letters and number, a code takes the place of the one before."</p>
    }
    .into_any()
}

/// Another fish of this phone with the same letters and number: one code would take the place of the other.
fn clash(hand: Hand) -> Option<String> {
    let fish = hand.fish.get();
    let (nickname, number) = fish
        .student
        .as_ref()
        .filter(|letters| !letters.is_empty())
        .zip(fish.test)?;
    let same = |other: &Fish| {
        let same = other.id != fish.id
            && other.demo == fish.demo
            && other.student.as_ref() == Some(nickname);
        (same && other.test == Some(number) && other.slip.species == fish.slip.species)
            .then_some(())
    };
    let others = hand.bench.fish.of_each(same);
    (!others.is_empty()).then(|| {
        format!("Another {} of {nickname} on this phone has number {number}: your tutor would take this one for its correction.", fish.name().to_lowercase())
    })
}
