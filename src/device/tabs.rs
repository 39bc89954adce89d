//! Other tabs: what they write to storage is announced here.

use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{StorageEvent, StorageEventInit, Window};

/// A listener that stops when it is dropped.
#[must_use = "the listener stops when this is dropped"]
pub struct TabListener {
    window: Window,
    heard: Closure<dyn FnMut(StorageEvent)>,
}

impl Drop for TabListener {
    fn drop(&mut self) {
        let heard = self.heard.as_ref().unchecked_ref();
        // A listener that can't be taken off was never on.
        let _ = self
            .window
            .remove_event_listener_with_callback("storage", heard);
    }
}

/// Calls `f` with the key that another tab has written or taken away; with nothing when it cleared them all.
///
/// # Errors
/// The browser's own error when there is no window to listen to.
pub fn on_other_tab(mut f: impl FnMut(Option<String>) + 'static) -> Result<TabListener, JsValue> {
    let window = web_sys::window().ok_or_else(|| JsValue::from_str("no window"))?;
    let heard = Closure::<dyn FnMut(_)>::new(move |event: StorageEvent| f(event.key()));
    window.add_event_listener_with_callback("storage", heard.as_ref().unchecked_ref())?;
    Ok(TabListener { window, heard })
}

/// Announces to this tab itself that the record of `key` was written past the screens that show it.
pub fn tell_this(key: &str) {
    let what = StorageEventInit::new();
    what.set_key(Some(key));
    if let Some(window) = web_sys::window()
        && let Ok(event) = StorageEvent::new_with_event_init_dict("storage", &what)
    {
        // An event that no one takes leaves the screens as they were until the next start.
        let _ = window.dispatch_event(&event);
    }
}
