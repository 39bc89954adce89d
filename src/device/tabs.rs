//! Other tabs: what they write to storage is announced here, and what needs one tab at a time waits its turn.

use std::cell::RefCell;
use std::time::Duration;

use js_sys::Promise;
use leptos::prelude::set_timeout;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{StorageEvent, StorageEventInit, Window};

use super::folder;
use super::named::{call, named};

/// The lock that a tab holds while it looks at what the others wrote.
const TURN: &str = "scaleside records";

/// How long a turn lasts after its work: by then the other tabs have heard of it.
const HEARD: Duration = Duration::from_millis(40);

thread_local! {
    static WAITING: RefCell<Vec<String>> = const { RefCell::new(Vec::new()) };
}

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
    let heard = Closure::<dyn FnMut(_)>::new(move |event: StorageEvent| {
        let key = event.key().map(|key| folder::plain(&key));
        // Another copy of the app, in another folder of this host, says nothing to this one.
        if key != Some(None) {
            f(key.flatten());
        }
    });
    window.add_event_listener_with_callback("storage", heard.as_ref().unchecked_ref())?;
    Ok(TabListener { window, heard })
}

/// Announces to this tab itself that the record of `key` was written past the screens that show it.
pub fn tell_this(key: &str) {
    let what = StorageEventInit::new();
    what.set_key(Some(&folder::own(key)));
    if let Some(window) = web_sys::window()
        && let Ok(event) = StorageEvent::new_with_event_init_dict("storage", &what)
    {
        // An event that no one takes leaves the screens as they were until the next start.
        let _ = window.dispatch_event(&event);
    }
}

/// Does `work` when no other tab is at its own; once, however often it is asked for under the same name
/// meanwhile. Where the browser knows no turns, a little later.
pub fn in_turn(name: &str, work: impl FnOnce() + 'static) {
    let name = name.to_owned();
    if WAITING.with_borrow(|waiting| waiting.contains(&name)) {
        return;
    }
    WAITING.with_borrow_mut(|waiting| waiting.push(name.clone()));
    let work = move || {
        WAITING.with_borrow_mut(|waiting| waiting.retain(|other| *other != name));
        work();
    };
    let locks = web_sys::window().and_then(|window| named(&window.navigator(), "locks"));
    let Some(locks) = locks else {
        set_timeout(work, HEARD);
        return;
    };
    let turn = Closure::once_into_js(move |_lock: JsValue| {
        work();
        Promise::new(&mut |done, _| {
            set_timeout(
                move || {
                    let _ = done.call0(&JsValue::UNDEFINED);
                },
                HEARD,
            );
        })
    });
    // A page on its way out gets no turn, and needs none.
    let _ = call(&locks, "request", &[folder::own(TURN).into(), turn]);
}
