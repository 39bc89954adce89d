//! How timers call, and what is kept on this phone.

use leptos::prelude::*;

use crate::device::bell;
use crate::device::storage::LocalShelf;
use crate::parts::bench::Bench;
use crate::parts::choice::tick;
use crate::parts::page::{Page, back_to};
use crate::place::Place;
use crate::record::keys;

/// The settings.
pub fn screen(bench: Bench) -> AnyView {
    let settings = bench.settings;
    let room = keys::used_bytes(&LocalShelf).map_or_else(
        |fault| fault.to_string(),
        |bytes| {
            format!(
                "Your fish take {} kB of the 5 MB or so that a browser gives.",
                bytes.div_ceil(1000)
            )
        },
    );
    view! {
        <Page title="Settings" above="Scaleside" dock=|| back_to(&Place::Home)>
            <section class="sheet">
                <h2>"When a timer ends"</h2>
                <div class="choices one">
                    {tick("Sound", move || settings.with(|settings| settings.sound), move |sound| bench.prefer(move |settings| settings.sound = sound))}
                    {tick("Vibration", move || settings.with(|settings| settings.buzz), move |buzz| bench.prefer(move |settings| settings.buzz = buzz))}
                </div>
                <button class="btn" on:click=move |_| { bell::arm(); bell::ring(); bell::buzz(); }>"Test sound and vibration"</button>
                <p class="soft small">"An end is always shown on the screen too. While the phone is locked no web page can ring on time: keep it awake and in sight."</p>
            </section>
            <section class="sheet">
                <h2>"What is kept"</h2>
                <p>"Everything stays in this browser, on this phone. Nothing is sent anywhere."</p>
                <p class="num">{room}</p>
                <p class="soft small">"A private window forgets when it is closed, and some phones clear a site that was not visited for a week: add Scaleside to the home screen to keep it."</p>
            </section>
            <a class="btn plain" href=Place::About.to_string()>"Cautions and sources"</a>
        </Page>
    }
    .into_any()
}
