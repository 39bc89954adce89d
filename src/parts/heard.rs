//! Weights and what they come to, read aloud where a cook wants it. It looks on, so that the screens know nothing of it.

use std::time::Duration;

use leptos::prelude::*;

use crate::device::voice;
use crate::place::Place;
use crate::session::bench::Bench;

/// A weight is said once no key has been pressed for so long.
const SETTLED: Duration = Duration::from_millis(700);

/// Reads aloud from now on, for as long as the page lives.
pub fn follow(bench: Bench) {
    let owner = Owner::new();
    owner.with(|| {
        let stands = Memo::new(move |_| {
            let wanted = bench.settings.with(|settings| settings.aloud);
            let place = bench.place.get();
            let Place::Fish(id, stage) = place else {
                return None;
            };
            let said = || bench.fish.with(&id, |fish| fish.read_out(stage)).flatten();
            wanted.then(said).flatten()
        });
        Effect::new(move |_| {
            if let Some(words) = stands.get() {
                let say = move || {
                    if stands.get_untracked().as_ref() == Some(&words) {
                        voice::say(&words);
                    }
                };
                set_timeout(say, SETTLED);
            }
        });
    });
    // It looks on until the page is gone.
    std::mem::forget(owner);
}
