//! What takes long is asked here and answered beside the page: by a worker for what a screen waits for, by another, started
//! when it is needed and ended after, for files, and by a third for pictures. The newest question of a kind is the one that
//! is answered.
//! Where there is no worker the page answers by itself, one question at a time, each after a frame.

use std::cell::RefCell;
use std::pin::Pin;
use std::time::Duration;

use js_sys::{Array, Function, Promise};
use leptos::prelude::set_timeout;
use leptos::wasm_split::{SplitLoaderError, wasm_split};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};

use crate::device::turns;
use crate::device::worker::{Heard, Worker, WorkerModule};
use crate::errand::{self, Errand, qr};
use crate::work::queue::{Lost, Queue};
use crate::work::{Ask, QuestionKind, WorkerLane};

/// How long a worker may go on with what nobody waits for any longer before it is ended for the next question.
const PATIENCE: Duration = Duration::from_millis(300);
/// How long a worker may take to start.
const START: Duration = Duration::from_secs(20);

/// How long a worker may look through one picture: those that take longer were made to.
const LOOK: Duration = Duration::from_secs(20);

/// How long who looks through pictures waits for the next one: a camera sees many.
const WAITS: Duration = Duration::from_secs(5);

/// An answer as it travels: text, and what of the browser goes with it.
type Answer = Option<(String, JsValue)>;

/// Somebody waits for an answer.
struct Task {
    kind: QuestionKind,
    text: String,
    with: JsValue,
    then: Box<dyn FnOnce(Answer)>,
}

/// The questions of one lane, and who answers them.
#[derive(Default)]
struct Crew {
    queue: Queue<Task>,
    hired: Hired,
    /// Which worker it is, so that nothing is heard of an earlier one.
    nth: u32,
}

impl Crew {
    /// Ends a worker that has nothing to do.
    fn dismiss_if_idle(&mut self) {
        if self.queue.is_idle() && matches!(self.hired, Hired::Here(_)) {
            self.hired = Hired::Nobody;
            self.nth = self.nth.wrapping_add(1);
        }
    }
}

#[derive(Default)]
enum Hired {
    #[default]
    Nobody,
    Coming(Worker),
    Here(Worker),
    /// It can't be had: the page answers.
    Never,
}

thread_local! {
    static CREWS: [RefCell<Crew>; 3] = Default::default();
}

/// Asks, and waits for the answer. Nothing where a newer question of the same kind has taken its place.
pub async fn ask<Q: Ask>(question: &Q) -> Option<Q::Answer> {
    let text = serde_json::to_string(question).ok()?;
    let (answer, _) = put(Q::KIND, text, JsValue::UNDEFINED).await?;
    serde_json::from_str(&answer).ok()
}

/// As [`ask`], for a question that takes something of the browser's along, and whose answer may bring something.
pub async fn send<Q: Errand>(question: &Q, with: JsValue) -> Option<(Q::Answer, JsValue)> {
    let text = serde_json::to_string(question).ok()?;
    let (answer, with) = put(Q::KIND, text, with).await?;
    Some((serde_json::from_str(&answer).ok()?, with))
}

/// Nobody waits for an answer of this kind any longer: the screen that asked has been left.
pub fn forget(kind: QuestionKind) {
    for dropped in at(kind.lane, |crew| crew.queue.forget(kind)) {
        (dropped.then)(None);
    }
}

async fn put(kind: QuestionKind, text: String, with: JsValue) -> Answer {
    let mut asked = Some((text, with));
    let told = Promise::new(&mut |done: Function, _| {
        let Some((text, with)) = asked.take() else {
            return;
        };
        let then = move |answer: Answer| {
            let answer = answer.map_or(JsValue::UNDEFINED, |(text, with)| {
                Array::of2(&text.into(), &with).into()
            });
            // A promise takes whatever it is given.
            let _ = done.call1(&JsValue::UNDEFINED, &answer);
        };
        let task = Task {
            kind,
            text,
            with,
            then: Box::new(then),
        };
        for replaced in at(kind.lane, |crew| crew.queue.put(kind, task)) {
            (replaced.then)(None);
        }
        end_if_stale(kind.lane);
        go_on(kind.lane);
    });
    let answer: Array = JsFuture::from(told).await.ok()?.dyn_into().ok()?;
    Some((answer.get(0).as_string()?, answer.get(1)))
}

fn at<T>(lane: WorkerLane, work: impl FnOnce(&mut Crew) -> T) -> T {
    CREWS.with(|[screen, files, pictures]| {
        work(&mut *match lane {
            WorkerLane::Screen => screen.borrow_mut(),
            WorkerLane::Files => files.borrow_mut(),
            WorkerLane::Pictures => pictures.borrow_mut(),
        })
    })
}

/// The next question, if it can be put.
fn go_on(lane: WorkerLane) {
    let here = at(lane, |crew| {
        if matches!(crew.hired, Hired::Nobody) && !crew.queue.is_idle() {
            hire(lane, crew);
        }
        let Crew { queue, hired, .. } = crew;
        match hired {
            Hired::Nobody | Hired::Coming(_) => None,
            Hired::Here(worker) => {
                let (number, task) = queue.begin()?;
                let said = worker.ask(number, task.kind.name, &task.text, &task.with);
                if lane == WorkerLane::Pictures {
                    end_if_long(number);
                }
                (!said).then(|| (number, task.kind, task.text.clone(), task.with.clone()))
            }
            Hired::Never => {
                let (number, task) = queue.begin()?;
                Some((number, task.kind, task.text.clone(), task.with.clone()))
            }
        }
    });
    if let Some((number, kind, text, with)) = here {
        turns::after_paint(move || {
            spawn_local(async move {
                let answer = on_the_page(kind, text, with).await;
                over(lane, number, answer);
            });
        });
    }
}

/// The answer of the page itself. Where what answers does not arrive there is none, and the question is put again.
async fn on_the_page(kind: QuestionKind, text: String, with: JsValue) -> Answer {
    answers(kind, text, with).await.ok()?.await
}

/// The one door to all that a worker else works out: a part of the app that comes where there is no worker.
#[wasm_split(answers, wasm_split_path = ::leptos::wasm_split, fallible)]
fn answers(
    QuestionKind { name, lane, .. }: QuestionKind,
    text: String,
    with: JsValue,
) -> Result<Pin<Box<dyn Future<Output = Answer>>>, SplitLoaderError> {
    Ok(Box::pin(async move {
        match lane {
            WorkerLane::Pictures => qr::run(name, &text, &with).await,
            WorkerLane::Screen | WorkerLane::Files => errand::run(name, &text, &with).await,
        }
    }))
}

fn hire(lane: WorkerLane, crew: &mut Crew) {
    crew.nth = crew.nth.wrapping_add(1);
    let nth = crew.nth;
    let module = match lane {
        WorkerLane::Pictures => WorkerModule::PICTURES,
        WorkerLane::Screen | WorkerLane::Files => WorkerModule::WORK,
    };
    crew.hired = match Worker::start(module, move |heard| hear(lane, nth, heard)) {
        Some(worker) => Hired::Coming(worker),
        None => Hired::Never,
    };
    set_timeout(
        move || {
            let late = at(lane, |crew| {
                crew.nth == nth && matches!(crew.hired, Hired::Coming(_))
            });
            if late {
                hear(lane, nth, Heard::Gone);
            }
        },
        START,
    );
}

fn hear(lane: WorkerLane, nth: u32, heard: Heard) {
    if at(lane, |crew| crew.nth != nth) {
        return;
    }
    match heard {
        Heard::Ready => {
            at(lane, |crew| {
                crew.hired = match std::mem::take(&mut crew.hired) {
                    Hired::Coming(worker) => Hired::Here(worker),
                    other => other,
                };
            });
            go_on(lane);
        }
        Heard::Answer(number, answer) => over(lane, number, answer),
        Heard::Gone => lost(lane),
    }
}

/// A question has been answered.
fn over(lane: WorkerLane, number: u32, answer: Answer) {
    let done = at(lane, |crew| {
        let done = crew.queue.over(number);
        match lane {
            WorkerLane::Screen => {}
            // What a file took of memory goes with the worker that read it.
            WorkerLane::Files => crew.dismiss_if_idle(),
            WorkerLane::Pictures => set_timeout(
                move || {
                    at(lane, |crew| {
                        if crew.queue.last() == number {
                            crew.dismiss_if_idle();
                        }
                    });
                },
                WAITS,
            ),
        }
        done
    });
    if let Some((task, wanted)) = done {
        (task.then)(answer.filter(|_| wanted));
    }
    go_on(lane);
}

/// The worker is gone. One that never came won't come the next time either.
fn lost(lane: WorkerLane) {
    let lost = at(lane, |crew| {
        crew.nth = crew.nth.wrapping_add(1);
        crew.hired = match std::mem::take(&mut crew.hired) {
            Hired::Coming(_) | Hired::Never => Hired::Never,
            Hired::Here(_) | Hired::Nobody => Hired::Nobody,
        };
        crew.queue.lost()
    });
    match lost {
        Lost::Nothing => {}
        Lost::Unwanted(task) | Lost::GivenUp(task) => (task.then)(None),
        Lost::AnswerHere(task) => turns::after_paint(move || {
            spawn_local(async move {
                (task.then)(on_the_page(task.kind, task.text, task.with).await);
            });
        }),
    }
    go_on(lane);
}

/// A worker that looks through one picture for too long is ended.
fn end_if_long(number: u32) {
    let lane = WorkerLane::Pictures;
    set_timeout(
        move || {
            if at(lane, |crew| crew.queue.is_at(number)) {
                lost(lane);
            }
        },
        LOOK,
    );
}

/// A worker that goes on for long with what nobody waits for is ended: that is how its work is broken off.
fn end_if_stale(lane: WorkerLane) {
    let stale = move || {
        at(lane, |crew| {
            let works = matches!(crew.hired, Hired::Here(_));
            crew.queue.stale().filter(|_| works)
        })
    };
    if let Some(number) = stale() {
        set_timeout(
            move || {
                if stale() == Some(number) {
                    lost(lane);
                }
            },
            PATIENCE,
        );
    }
}
