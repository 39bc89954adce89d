//! What the app promises and what it does not, its cautions, and where its figures come from.

use std::collections::BTreeSet;

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use crate::base::instant::Instant;
use crate::device::{build, clock, text_file};
use crate::parts::page::{Page, back_to};
use crate::place::Place;
use crate::trade::plate::trims;
use crate::trade::{published, yield_sheet};

/// Cautions and sources.
pub fn screen() -> AnyView {
    let sources: BTreeSet<&str> = published::rows()
        .iter()
        .map(|row| row.source)
        .chain([trims::SOURCE, trims::SECOND_SOURCE])
        .collect();
    view! {
        <Page title="Cautions and sources" above="Scaleside" dock=|| back_to(&Place::Home)>
            <div class="care stack">
                <b>"Before all else"</b>
                <p>"Your local food-safety code and the person who supervises you decide. What this app says of times and temperatures is a help, not a permit."</p>
            </div>
            <section class="sheet">
                <h2>"What it promises"</h2>
                <p>"The figures come from your own readings, worked out exactly and rounded only when shown. "{yield_sheet::DOUBT_IS}</p>
                <p>"A published yield is a range from other people's fish. Yours may lie outside it for a good reason."</p>
            </section>
            <section class="sheet">
                <h2>"What it does not"</h2>
                <p>"It can't see your fish, smell it or take its temperature. It can't ring while the phone is locked. It is not a record of a food-safety plan."</p>
            </section>
            <section class="sheet">
                <h2>"How a yield is worked out"</h2>
                <p>{yield_sheet::YIELD_IS}" "{yield_sheet::COST_IS}</p>
            </section>
            <section class="sheet">
                <h2>"What is yours stays yours"</h2>
                <p>"Everything you key, photograph or bring in stays in this browser, on this phone. Scaleside asks its host for its own files and for nothing else, and sends nothing to anybody: there is no account and no count of visits. What leaves the phone is what you send yourself, and clearing this site's data in the browser removes the rest."</p>
            </section>
            <section class="sheet">
                <h2>"Sources of the published yields and trims"</h2>
                <ul class="plain-list small" data-says="published trim">{sources.into_iter().map(|source| view! { <li>{source}</li> }).collect_view()}</ul>
            </section>
            {licences()}
            <p class="soft small num">{version()}</p>
        </Page>
    }
    .into_any()
}

/// Of all that is built in: made by `.ci/licences`, and kept on the phone with the rest.
const LICENCES: &str = "licences.txt";

/// Of what others made that is built in.
fn licences() -> AnyView {
    let text = RwSignal::new(None::<String>);
    let open = move |_| {
        if text.with_untracked(Option::is_none) {
            spawn_local(async move {
                let missing = "This did not arrive. Where there is a signal, try again.";
                let came = text_file::of_this_build(LICENCES).await;
                text.try_set(Some(came.unwrap_or_else(|| missing.to_owned())));
            });
        }
    };
    view! {
        <details class="sheet" on:toggle=open>
            <summary>"Licences of what is built in"</summary>
            <pre>{move || text.get()}</pre>
        </details>
    }
    .into_any()
}

/// Which Scaleside this is.
fn version() -> String {
    let made = i64::try_from(build::number()).unwrap_or_default();
    let day = clock::day(Instant(made.saturating_mul(1000)));
    let name = build::name().unwrap_or_else(|| "made by hand".to_owned());
    format!(
        "Scaleside {}, build {name} of {day}.",
        env!("CARGO_PKG_VERSION")
    )
}
