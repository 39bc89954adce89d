//! Says who: the rows of the table for the figures of a screen, over it until it is closed.

use leptos::html::Dialog;
use leptos::prelude::*;

use crate::device::figures::Tapped;
use crate::says::{self, Says};

thread_local! {
    /// What was tapped, of the one sheet that this page has. It lives as long as the page does.
    static SHEET: ArcRwSignal<Option<Tapped>> = sheet();
}

/// Shows the table for what was tapped.
pub fn show(tapped: Tapped) {
    SHEET.with(|sheet| sheet.set(Some(tapped)));
}

/// Lays the sheet into the page, shut, and answers with what opens it.
fn sheet() -> ArcRwSignal<Option<Tapped>> {
    let tapped = ArcRwSignal::new(None);
    let shown = tapped.clone();
    // Beside the app: a screen that goes does not take it away.
    mount_to_body(move || view(shown.into()));
    tapped
}

fn view(tapped: RwSignal<Option<Tapped>>) -> AnyView {
    let dialog = NodeRef::<Dialog>::new();
    Effect::new(move |_| {
        if let (Some(dialog), true) = (dialog.get(), tapped.with(Option::is_some))
            && !dialog.open()
        {
            // Refused where the page is being left: then there is nobody to read it.
            let _ = dialog.show_modal();
        }
    });
    let close = move || {
        if let Some(dialog) = dialog.get_untracked() {
            dialog.close();
        }
    };
    // It is about the screen that it lies on.
    let left = window_event_listener(leptos::ev::hashchange, move |_| close());
    std::mem::forget(left);
    view! {
        <dialog node_ref=dialog class="says" aria-labelledby="says-who"
            // Its keys are no weights.
            on:keydown=|event| event.stop_propagation()
            on:close=move |_| tapped.set(None)>
            <div class="stack">
                <h2 id="says-who">"Says who?"</h2>
                {move || tapped.with(|tapped| tapped.as_ref().map(table))}
            </div>
            <button class="btn main" on:click=move |_| close()>"Close"</button>
        </dialog>
    }
    .into_any()
}

/// The rows of the figure that was tapped, the first of them open; below them those of the other figures of the screen.
fn table(tapped: &Tapped) -> AnyView {
    let first: Vec<Says> = tapped
        .figure
        .iter()
        .filter_map(|key| says::of(key))
        .collect();
    let others = (tapped.of_page.iter()).filter(|key| !tapped.figure.contains(key));
    let others: Vec<Says> = others.filter_map(|key| says::of(key)).collect();
    let is_only = first.is_empty() && others.len() == 1;
    let asked_all = first.is_empty() && !is_only;
    view! {
        {asked_all.then(|| view! { <p class="soft small">"Tap a figure on the screen, and its own stands open here."</p> })}
        {first.into_iter().enumerate().map(|(nth, row)| told(row, nth == 0)).collect_view()}
        {others.into_iter().map(|row| told(row, is_only)).collect_view()}
    }
    .into_any()
}

fn told(row: Says, is_open: bool) -> AnyView {
    view! {
        <details open=is_open>
            <summary>{row.name}</summary>
            <dl class="sources small">
                <dt>"Worked out"</dt><dd>{row.formula}</dd>
                <dt>"From"</dt><dd>{row.inputs}</dd>
                <dt>"Source"</dt><dd>{row.source}</dd>
                <dt>"How sure"</dt><dd>{row.covers}</dd>
            </dl>
        </details>
    }
    .into_any()
}
