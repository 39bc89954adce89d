//! A worker beside the page: started, asked, heard, ended.

use std::cell::Cell;

use js_sys::{Array, Object, Reflect};
use leptos::prelude::{document, window};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::spawn_local;
use web_sys::{Event, MessageEvent, Url};

use super::clock;
use super::named::{ask, named};

/// What a worker says.
pub enum Heard {
    /// It can be asked.
    Ready,
    /// The answer to the question of a number, as text and what goes with it; nothing where it knows no such question.
    Answer(u32, Option<(String, JsValue)>),
    /// It is gone.
    Gone,
}

/// A module that runs as a worker: how the page marks the names of its files.
#[derive(Clone, Copy)]
pub struct WorkerModule {
    script: &'static str,
    wasm: &'static str,
}

impl WorkerModule {
    /// What is worked out.
    pub const WORK: Self = Self {
        script: "data-worker-js",
        wasm: "data-worker-wasm",
    };
    /// What looks through pictures.
    pub const PICTURES: Self = Self {
        script: "data-worker-pictures-js",
        wasm: "data-worker-pictures-wasm",
    };
}

/// A worker; it ends when this is dropped.
pub struct Worker {
    worker: web_sys::Worker,
    _hear: Closure<dyn Fn(MessageEvent)>,
    _miss: Closure<dyn Fn(Event)>,
}

impl Worker {
    /// Starts one of the module that the page names by these marks, and reports what it says. Nothing where this browser
    /// has none, or the page does not name its files.
    pub fn start(module: WorkerModule, report: impl Fn(Heard) + Clone + 'static) -> Option<Self> {
        named(&window(), "Worker")?;
        let script = document().query_selector("script[data-worker]").ok()??;
        let base = document().base_uri().ok()??;
        let address = |name: &str| {
            let path = script.get_attribute(name)?;
            Some(Url::new_with_base(&path, &base).ok()?.href())
        };
        let lock = lock();
        let start = Object::new();
        for (name, value) in [
            ("js", address(module.script)?),
            ("wasm", address(module.wasm)?),
            ("lock", lock.clone()),
        ] {
            Reflect::set(&start, &name.into(), &value.into()).ok()?;
        }
        let worker = web_sys::Worker::new(&address("data-worker")?).ok()?;
        let missed = report.clone();
        let hear = Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| {
            let heard = heard(&event.data());
            if matches!(heard, Heard::Ready) {
                watch(lock.clone(), report.clone());
            }
            report(heard);
        });
        let miss = Closure::<dyn Fn(Event)>::new(move |event: Event| {
            // It is answered for all the same, so it is no fault of the page.
            event.prevent_default();
            missed(Heard::Gone);
        });
        worker.set_onmessage(Some(hear.as_ref().unchecked_ref()));
        worker.set_onerror(Some(miss.as_ref().unchecked_ref()));
        worker.post_message(&start).ok()?;
        Some(Self {
            worker,
            _hear: hear,
            _miss: miss,
        })
    }

    /// Asks the question of a number. False where it can't be said.
    pub fn ask(&self, number: u32, name: &str, text: &str, with: &JsValue) -> bool {
        let question = Array::of4(&number.into(), &name.into(), &text.into(), with);
        self.worker.post_message(&question).is_ok()
    }
}

impl Drop for Worker {
    fn drop(&mut self) {
        self.worker.set_onmessage(None);
        self.worker.set_onerror(None);
        self.worker.terminate();
    }
}

/// An empty list says that it is ready, and what is no list that it ends.
fn heard(message: &JsValue) -> Heard {
    let Some(message) = message.dyn_ref::<Array>() else {
        return Heard::Gone;
    };
    if message.length() == 0 {
        return Heard::Ready;
    }
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let number = message.get(0).as_f64().unwrap_or_default() as u32;
    let text = message.get(1).as_string();
    Heard::Answer(number, text.map(|text| (text, message.get(2))))
}

/// A name that no other worker of any tab has.
fn lock() -> String {
    thread_local! {
        static STARTED: Cell<u32> = const { Cell::new(0) };
    }
    let nth = STARTED.replace(STARTED.get().wrapping_add(1));
    let chance = js_sys::Math::random();
    format!("scaleside worker {} {nth} {chance}", clock::now().0)
}

/// Reports that a worker is gone, where this browser tells: the lock it held is free then.
fn watch(lock: String, report: impl Fn(Heard) + 'static) {
    let Some(locks) = named(&window().navigator(), "locks") else {
        return;
    };
    spawn_local(async move {
        let taken = Closure::once_into_js(|| {});
        if ask(&locks, "request", &[lock.into(), taken]).await.is_ok() {
            report(Heard::Gone);
        }
    });
}
