//! What is kept on this phone: how much room it takes, the backup, the bin, and what was set aside.

use leptos::prelude::*;

use crate::device::storage::LocalShelf;
use crate::parts::bench::Bench;
use crate::parts::page::{Page, back_to};
use crate::place::Place;
use crate::record::keys;

/// What is kept.
pub fn screen(_bench: Bench) -> AnyView {
    let room = keys::used_bytes(&LocalShelf).map_or_else(
        |fault| fault.to_string(),
        |bytes| {
            format!(
                "Your entries take {} kB of the 5 MB or so that a browser gives.",
                bytes.div_ceil(1000)
            )
        },
    );
    view! {
        <Page title="What is kept" above="Settings" dock=|| back_to(&Place::Settings)>
            <section class="sheet">
                <h2>"Room"</h2>
                <p>"Everything stays in this browser, on this phone. Nothing is sent anywhere."</p>
                <p class="num">{room}</p>
                <p class="soft small">"A private window forgets when it is closed, and some phones clear a site that was not visited for a week: add Scaleside to the home screen to keep it."</p>
            </section>
            <a class="btn plain" href=Place::Bin.to_string()>"Bin: put back what was removed"</a>
        </Page>
    }
    .into_any()
}
