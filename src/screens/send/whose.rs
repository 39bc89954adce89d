//! Whose result it is: letters and number, fixed when the code is first shown, and put right for that fish alone.

use leptos::prelude::*;

use crate::base::refusal::Refusal;
use crate::code::letters::Code;
use crate::code::sheet::{MOST_TESTS, Nickname};
use crate::device::clock;
use crate::fish::credit::{self, Credit, CreditTap, Shown};
use crate::fish::record::Fish;
use crate::fish::settings::Preference;
use crate::parts::choice::fault;
use crate::session::drawer::Drawer;
use crate::session::hand::Hand;

/// Whose the result of the fish in hand is.
#[derive(Clone, Copy)]
pub struct Whose {
    hand: Hand,
    credits: Drawer<Credit>,
    /// What the code was shown with when the screen was opened, if it had been shown before.
    before: StoredValue<Option<Shown>>,
    refused: RwSignal<Option<String>>,
}

impl Whose {
    /// Takes up what stands there, or fixes what the code is first shown with: the letters that were typed last on this
    /// phone, and the number that is due. It waits until the other fish are read.
    pub fn of(hand: Hand) -> Self {
        let credits = Drawer::<Credit>::here();
        let known = credits.with_untracked(&hand.id(), |credit| credit.now.clone());
        let whose = Self {
            hand,
            credits,
            before: StoredValue::new(known),
            refused: RwSignal::new(None),
        };
        Effect::new(move |_| whose.fix());
        whose
    }

    /// What the code is shown with; nothing while the other fish are being read.
    pub fn shown(self) -> Option<Shown> {
        self.credits
            .with(&self.hand.id(), |credit| credit.now.clone())
    }

    /// The code of the fish as it stands, or what has to be filled in first; nothing while the other fish are being read.
    pub fn code(self) -> Memo<Option<Result<Code, Refusal>>> {
        Memo::new(move |_| {
            self.hand.fish.with(|fish| {
                let offset = clock::offset_minutes(fish.begun);
                let sheet = self.shown()?.carried(fish, offset);
                Some(sheet.and_then(|sheet| Code::of(&sheet)))
            })
        })
    }

    fn known(self) -> Option<Shown> {
        self.credits
            .with_untracked(&self.hand.id(), |credit| credit.now.clone())
    }

    fn fix(self) {
        let are_read = [self.hand.bench.fish.read_all(), self.credits.read_all()];
        if are_read.contains(&false) {
            return;
        }
        let (id, fish) = (self.hand.id(), self.hand.fish.get());
        match self.credits.with(&id, |credit| credit.now.clone()) {
            None => {
                let settings = self.hand.bench.settings;
                let nickname = settings.with_untracked(|settings| settings.nickname.clone());
                let first = Credit::first(&fish, &nickname, &self.all(), &self.credits.by_id());
                // Another tab may just have done the same; what can't be written is told of by the drawer.
                let _ = self.credits.put_in(&id, first);
            }
            // The species was put right since: the tests of another fish are counted apart.
            Some(shown) if shown.species != credit::counted_as(&fish) => {
                self.put_right(self.next(&shown.nickname));
            }
            Some(_) => {}
        }
    }

    fn all(self) -> Vec<Fish> {
        self.hand.bench.fish.of_each(|fish| Some(fish.clone()))
    }

    /// What the code is shown with to the student of these letters: what it was shown with before, if they are those.
    fn next(self, nickname: &str) -> Shown {
        let fish = self.hand.fish.get_untracked();
        let due = credit::next(&fish, nickname, &self.all(), &self.credits.by_id());
        let before = self.before.get_value();
        let again =
            before.filter(|before| before.nickname == nickname && before.species == due.species);
        again.unwrap_or(due)
    }

    fn put_right(self, now: Shown) {
        let before = self.before.get_value();
        let done = self.credits.act(&self.hand.id(), CreditTap { now, before });
        self.refused
            .set(done.err().map(|refusal| refusal.to_string()));
    }

    fn take(self, text: &str) {
        let letters = text.trim().to_uppercase();
        if let (false, Err(refusal)) = (letters.is_empty(), Nickname::parse(&letters)) {
            return self.refused.set(Some(refusal.to_string()));
        }
        // Until it is fixed, it is to be fixed with these.
        if self.known().is_some() {
            self.put_right(self.next(&letters));
        }
        self.hand.bench.prefer(Preference::Nickname(letters));
    }

    fn number(self, number: u8) {
        if let Some(shown) = self.known() {
            let number = Some(number);
            self.put_right(Shown { number, ..shown });
        }
    }

    /// Another fish of this phone with the same letters and number: one code would take the place of the other.
    fn clash(self) -> Option<String> {
        let id = self.hand.id();
        let own = self.credits.with(&id, Clone::clone)?;
        let others = self.credits.by_id();
        let clashes =
            |(other, credit): (&String, &Credit)| *other != id && own.clashes_with(credit);
        let number = own.now.number.filter(|_| others.iter().any(clashes))?;
        Some(format!(
            "Number {number} of {} was given to another fish: your tutor is asked whether this one is its correction. If it is not, choose a number that is free.",
            own.now.nickname
        ))
    }

    /// The letters and the number of the test, to be put right.
    pub fn fields(self) -> AnyView {
        let typed = RwSignal::new(None::<String>);
        let letters = move || typed.get().or_else(|| Some(self.shown()?.nickname));
        let number = move || {
            let number = self.shown().and_then(|shown| shown.number);
            number.map_or_else(String::new, |number| number.to_string())
        };
        view! {
            <div class="row">
                <div class="field grow">
                    <label for="nickname">"Nickname, up to four letters"</label>
                    <input id="nickname" type="text" autocomplete="off" autocapitalize="characters" spellcheck="false"
                        aria-describedby="nickname-hint nickname-fault" prop:value=move || letters().unwrap_or_default()
                        on:input:target=move |event| {
                            let text = event.target().value();
                            self.take(&text);
                            typed.set(Some(text));
                        }/>
                </div>
                <div class="field grow">
                    <label for="test">"Your test of this fish, number"</label>
                    <select id="test" prop:value=number
                        on:change:target=move |event| {
                            if let Ok(number) = event.target().value().parse() {
                                self.number(number);
                            }
                        }>
                        {(1..=MOST_TESTS).map(|choice| view! {
                            <option value=choice.to_string() selected={move || number() == choice.to_string()}>{choice.to_string()}</option>
                        }).collect_view()}
                    </select>
                </div>
            </div>
            {fault("nickname-fault", move || self.refused.get())}
            {move || self.clash().map(|sentence| view! { <p class="care">{sentence}</p> })}
            <p class="hint soft small" id="nickname-hint">"Use the letters your class agreed on, and no name. They stay with this fish: another student on this phone types theirs for the next. To correct a result, send it again with the same letters and number."</p>
        }
        .into_any()
    }
}
