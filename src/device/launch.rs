//! Files that the phone opens with this app, once it is on the home screen and its manifest was heard.

use js_sys::Array;
use leptos::prelude::window;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::spawn_local;
use web_sys::File;

use super::named::{ask, call, named};

/// Calls `take` with a file that is opened with this app; the browser keeps it until somebody asks, and whoever asks last
/// is called.
pub fn on_file(take: impl Fn(File) + Clone + 'static) {
    let Some(queue) = named(&window(), "launchQueue") else {
        return;
    };
    let heard = Closure::<dyn Fn(JsValue)>::new(move |launch: JsValue| {
        let files = named(&launch, "files").and_then(|files| files.dyn_into::<Array>().ok());
        // One at a time: a backup or a table.
        let Some(handle) = files.map(|files| files.get(0)).filter(JsValue::is_object) else {
            return;
        };
        let take = take.clone();
        spawn_local(async move {
            let file = ask(&handle, "getFile", &[]).await;
            // What can't be opened is not here: the field to choose it stands on the screen.
            if let Ok(Ok(file)) = file.map(JsCast::dyn_into) {
                take(file);
            }
        });
    });
    // A browser that refuses opens no files with this app.
    let _ = call(&queue, "setConsumer", &[heard.into_js_value()]);
}
