//! That everything is here, said once it has been looked at and is so; nothing before.

use std::time::Duration;

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::mark;
use crate::device::kept_whole::is_kept_whole;

/// How long after it was not so it is looked at again: twice as long each time, up to a limit.
const AGAIN: Duration = Duration::from_secs(3);
const SELDOM: Duration = Duration::from_secs(60);

/// The line that says so.
pub fn ready() -> AnyView {
    let whole = RwSignal::new(false);
    look(whole, AGAIN);
    view! {
        // Its line is kept until it is said: what stands below must not move under the thumb.
        <div role="status">
            <p class=move || if whole.get() { "ready small" } else { "ready small yet" }>{mark::done()}"Ready without a signal"</p>
        </div>
    }
    .into_any()
}

fn look(whole: RwSignal<bool>, again: Duration) {
    spawn_local(async move {
        let found = is_kept_whole().await;
        // The screen may have been left in the meantime.
        let is_shown = whole.try_set(found).is_none();
        if is_shown && !found {
            let next = again.saturating_mul(2).min(SELDOM);
            set_timeout(move || look(whole, next), again);
        }
    });
}
