//! A link as a QR code for another phone's camera.

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use crate::session::asked::ask;
use crate::work::picture::{Drawn, LinkToDraw};

/// The picture, once it is drawn; nothing for a text that is too long for one.
pub fn picture(text: &str, name: &'static str) -> AnyView {
    let drawn = RwSignal::new(None::<Option<Drawn>>);
    let link = LinkToDraw(text.to_owned());
    spawn_local(async move {
        // The screen may have gone meanwhile.
        let _ = drawn.try_set(ask(&link).await);
    });
    view! {
        {move || match drawn.get() {
            None => view! { <p class="qr soft">"Drawing it…"</p> }.into_any(),
            Some(drawn) => drawn.map(|drawn| svg(drawn, name)).into_any(),
        }}
    }
    .into_any()
}

fn svg(Drawn { side, dark }: Drawn, name: &'static str) -> AnyView {
    view! {
        <svg class="qr" viewBox=format!("0 0 {side} {side}") role="img" aria-label=name shape-rendering="crispEdges">
            <rect class="light" width=side height=side/>
            <path class="dark" d=dark/>
        </svg>
    }
    .into_any()
}
