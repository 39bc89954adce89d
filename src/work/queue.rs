//! Who is next: one question at a time, the newest of its kind, and none lost when who answers is lost.

use std::collections::VecDeque;

use super::{QuestionKind, WorkerLane};

/// How often a question is put to a worker that is lost over it before the page answers it itself.
const TRIES: u8 = 2;

/// The questions of one lane.
#[derive(Debug)]
pub struct Queue<T> {
    waiting: VecDeque<Put<T>>,
    busy: Option<Busy<T>>,
    numbers: u32,
}

#[derive(Debug)]
struct Put<T> {
    kind: QuestionKind,
    tried: u8,
    task: T,
}

#[derive(Debug)]
struct Busy<T> {
    number: u32,
    put: Put<T>,
    wanted: bool,
}

/// What becomes of the question that was being answered when the worker was lost.
#[derive(Debug, PartialEq, Eq)]
pub enum Lost<T> {
    /// There was none, or it is the next to be asked again.
    Nothing,
    /// Nobody waits for it any longer.
    Unwanted(T),
    /// It has cost enough workers.
    AnswerHere(T),
    /// It has cost enough workers, and could cost the page.
    GivenUp(T),
}

impl<T> Default for Queue<T> {
    fn default() -> Self {
        Self {
            waiting: VecDeque::new(),
            busy: None,
            numbers: 0,
        }
    }
}

impl<T> Queue<T> {
    /// A question is put last. Returns those that it takes the place of.
    pub fn put(&mut self, kind: QuestionKind, task: T) -> Vec<T> {
        let replaced = if kind.newest {
            self.forget(kind)
        } else {
            Vec::new()
        };
        self.waiting.push_back(Put {
            kind,
            tried: 0,
            task,
        });
        replaced
    }

    /// Nobody waits for an answer of this kind any longer. Returns the questions that were not begun.
    pub fn forget(&mut self, kind: QuestionKind) -> Vec<T> {
        let forgotten = |put: &Put<T>| put.kind.name == kind.name;
        let (mut kept, mut dropped) = (VecDeque::new(), Vec::new());
        for put in self.waiting.drain(..) {
            if forgotten(&put) {
                dropped.push(put.task);
            } else {
                kept.push_back(put);
            }
        }
        self.waiting = kept;
        if let Some(busy) = &mut self.busy {
            busy.wanted &= !forgotten(&busy.put);
        }
        dropped
    }

    /// The next question and its number, where none is being answered: it is, from now on.
    pub fn begin(&mut self) -> Option<(u32, &T)> {
        if self.busy.is_some() {
            return None;
        }
        let put = self.waiting.pop_front()?;
        self.numbers = self.numbers.wrapping_add(1);
        let busy = self.busy.insert(Busy {
            number: self.numbers,
            put,
            wanted: true,
        });
        Some((busy.number, &busy.put.task))
    }

    /// A question has been answered. Returns it, and whether the answer is still wanted; nothing for a number that is
    /// not being answered.
    pub fn over(&mut self, number: u32) -> Option<(T, bool)> {
        let busy = self.busy.take_if(|busy| busy.number == number)?;
        Some((busy.put.task, busy.wanted))
    }

    /// The number of the question that is being answered though nobody waits for it any longer.
    #[must_use]
    pub fn stale(&self) -> Option<u32> {
        let busy = self.busy.as_ref()?;
        (!busy.wanted).then_some(busy.number)
    }

    /// The number of the question that was begun last.
    #[must_use]
    pub fn last(&self) -> u32 {
        self.numbers
    }

    /// Whether the question of this number is being answered.
    #[must_use]
    pub fn is_at(&self, number: u32) -> bool {
        self.busy.as_ref().is_some_and(|busy| busy.number == number)
    }

    /// The worker is lost, or was ended.
    pub fn lost(&mut self) -> Lost<T> {
        let Some(Busy {
            mut put, wanted, ..
        }) = self.busy.take()
        else {
            return Lost::Nothing;
        };
        put.tried = put.tried.saturating_add(1);
        if !wanted {
            Lost::Unwanted(put.task)
        } else if put.tried < TRIES {
            self.waiting.push_front(put);
            Lost::Nothing
        } else if put.kind.lane == WorkerLane::Pictures {
            Lost::GivenUp(put.task)
        } else {
            Lost::AnswerHere(put.task)
        }
    }

    /// Whether nothing is being answered and nothing waits.
    #[must_use]
    pub fn is_idle(&self) -> bool {
        self.busy.is_none() && self.waiting.is_empty()
    }
}

#[cfg(test)]
mod tests {
    use super::{Lost, Queue};
    use crate::work::{QuestionKind, WorkerLane};

    const PLAN: QuestionKind = QuestionKind {
        name: "plan",
        lane: WorkerLane::Screen,
        newest: true,
    };
    const PAN: QuestionKind = QuestionKind {
        name: "pan",
        newest: false,
        ..PLAN
    };

    fn begun(queue: &mut Queue<&'static str>) -> Option<(u32, &'static str)> {
        queue.begin().map(|(number, task)| (number, *task))
    }

    #[test]
    fn one_at_a_time_in_their_order() {
        let mut queue = Queue::default();
        assert!(queue.is_idle());
        assert!(queue.put(PLAN, "a").is_empty());
        assert!(queue.put(PAN, "b").is_empty());
        assert_eq!(begun(&mut queue), Some((1, "a")));
        assert_eq!(begun(&mut queue), None);
        assert_eq!(queue.over(7), None);
        assert_eq!(queue.over(1), Some(("a", true)));
        assert_eq!(begun(&mut queue), Some((2, "b")));
        assert_eq!(queue.over(1), None, "an answer that comes twice");
        assert_eq!(queue.over(2), Some(("b", true)));
        assert!(queue.is_idle());
    }

    #[test]
    fn the_newest_of_its_kind_takes_the_place_of_the_older_ones() {
        let mut queue = Queue::default();
        queue.put(PLAN, "first");
        assert_eq!(begun(&mut queue), Some((1, "first")));
        assert_eq!(queue.stale(), None);
        queue.put(PAN, "kept");
        assert!(queue.put(PLAN, "second").is_empty());
        assert_eq!(queue.stale(), Some(1));
        assert_eq!(queue.put(PLAN, "third"), ["second"]);
        assert!(queue.put(PAN, "kept too").is_empty());
        assert_eq!(queue.over(1), Some(("first", false)));
        let mut rest = Vec::new();
        while let Some((number, task)) = begun(&mut queue) {
            assert_eq!(queue.over(number), Some((task, true)));
            rest.push(task);
        }
        assert_eq!(rest, ["kept", "third", "kept too"]);
    }

    #[test]
    fn what_nobody_waits_for_is_forgotten() {
        let mut queue = Queue::default();
        queue.put(PLAN, "begun");
        assert_eq!(begun(&mut queue), Some((1, "begun")));
        queue.put(PAN, "other");
        queue.put(PLAN, "waits");
        assert_eq!(queue.forget(PLAN), ["waits"]);
        assert_eq!(queue.stale(), Some(1));
        assert_eq!(queue.lost(), Lost::Unwanted("begun"));
        assert_eq!(begun(&mut queue), Some((2, "other")));
        assert_eq!(queue.stale(), None);
    }

    #[test]
    fn a_question_outlives_its_worker_and_costs_no_third() {
        let mut queue = Queue::default();
        assert_eq!(queue.lost(), Lost::Nothing);
        queue.put(PAN, "hard");
        queue.put(PLAN, "next");
        assert_eq!(begun(&mut queue), Some((1, "hard")));
        assert_eq!(queue.lost(), Lost::Nothing);
        assert_eq!(begun(&mut queue), Some((2, "hard")), "asked again, first");
        assert_eq!(queue.over(1), None, "a late answer of the lost worker");
        assert_eq!(queue.lost(), Lost::AnswerHere("hard"));
        assert_eq!(begun(&mut queue), Some((3, "next")));
        queue.put(PLAN, "newer");
        assert_eq!(queue.lost(), Lost::Unwanted("next"));
        assert_eq!(begun(&mut queue), Some((4, "newer")));
    }

    #[test]
    fn a_picture_that_costs_workers_does_not_cost_the_page() {
        let mut queue = Queue::default();
        let picture = QuestionKind {
            lane: WorkerLane::Pictures,
            ..PAN
        };
        queue.put(picture, "made to harm");
        queue.put(picture, "next");
        assert_eq!(begun(&mut queue), Some((1, "made to harm")));
        assert_eq!(queue.lost(), Lost::Nothing);
        assert_eq!(begun(&mut queue), Some((2, "made to harm")));
        assert!(queue.is_at(2) && !queue.is_at(1));
        assert_eq!(queue.lost(), Lost::GivenUp("made to harm"));
        assert!(!queue.is_at(2));
        assert_eq!(begun(&mut queue), Some((3, "next")));
    }
}
