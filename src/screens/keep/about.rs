//! What the app promises and what it does not, its cautions, and where its figures come from.

use std::collections::BTreeSet;

use leptos::prelude::*;

use crate::parts::page::{Page, back_to};
use crate::place::Place;
use crate::trade::plate::trims;
use crate::trade::published;

/// Cautions and sources.
pub fn screen() -> AnyView {
    let sources: BTreeSet<&str> = published::rows()
        .iter()
        .map(|row| row.source)
        .chain([trims::SOURCE])
        .collect();
    view! {
        <Page title="Cautions and sources" above="Scaleside" dock=|| back_to(&Place::Home)>
            <section class="care">
                <b>"Before all else"</b>
                <p>"Your local food-safety code and the person who supervises you decide. What this app says of times and temperatures is a help, not a permit."</p>
            </section>
            <section class="sheet">
                <h2>"What it promises"</h2>
                <p>"The figures come from your own readings, worked out exactly and rounded only when shown. The ± beside a yield is what the steps of your scale leave open; it knows nothing of drip, of a tilted scale or of a tray left on it."</p>
                <p>"A published yield is a range from other people's fish. Yours may lie outside it for a good reason."</p>
            </section>
            <section class="sheet">
                <h2>"What it does not"</h2>
                <p>"It can't see your fish, smell it or take its temperature. It can't ring while the phone is locked. It is not a record of a food-safety plan."</p>
            </section>
            <section class="sheet">
                <h2>"How a yield is worked out"</h2>
                <p>"Yield is the edible portion, raw and ready to cook, divided by the weight as purchased. Cost per usable kilo is what was paid, less what kept parts are worth, divided by the ready weight. The cost factor is that cost divided by the price."</p>
            </section>
            <section class="sheet">
                <h2>"Sources of the published yields and trims"</h2>
                <ul class="plain-list small">{sources.into_iter().map(|source| view! { <li>{source}</li> }).collect_view()}</ul>
            </section>
        </Page>
    }
    .into_any()
}
