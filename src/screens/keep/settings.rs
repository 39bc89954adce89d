//! How timers call.

use leptos::prelude::*;

use crate::device::bell;
use crate::fish::settings::Preference;
use crate::parts::choice::tick;
use crate::parts::page::{Page, back_to};
use crate::place::Place;
use crate::session::bench::Bench;

/// The settings.
pub fn screen(bench: Bench) -> AnyView {
    let settings = bench.settings;
    view! {
        <Page title="Settings" above="Scaleside" dock=|| back_to(&Place::Home)>
            <section class="sheet">
                <h2>"When a timer ends"</h2>
                <div class="choices one">
                    {tick("Sound", move || settings.with(|settings| settings.sound), move |sound| bench.prefer(Preference::Sound(sound)))}
                    {tick("Vibration", move || settings.with(|settings| settings.buzz), move |buzz| bench.prefer(Preference::Buzz(buzz)))}
                    {tick("Read aloud: steps, weights, result", move || settings.with(|settings| settings.aloud), move |aloud| bench.prefer(Preference::Aloud(aloud)))}
                </div>
                <button class="btn" on:click=move |_| { bell::arm(); bell::ring(bell::Tone::Lift); bell::buzz(); }>"Test sound and vibration"</button>
                <p class="soft small">"An end is always shown on the screen too. While the phone is locked no web page can ring on time: keep it awake and in sight."</p>
            </section>
            <a class="btn plain" href=Place::Kept.to_string()>"What is kept, backup and bin"</a>
            <a class="btn plain" href=Place::About.to_string()>"Cautions and sources"</a>
        </Page>
    }
    .into_any()
}
