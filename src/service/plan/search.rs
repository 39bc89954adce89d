//! Branch and bound over the orders at the stations and of the hands, which learns from its dead ends.
//!
//! The state is a network: the gaps of the kitchen, and those of the orders chosen so far. Its soonest moments bound
//! every schedule that keeps those orders; where they overfill no pool they are the best such schedule. Otherwise
//! some question (of two pieces, which first?) is answered by choice, and everything that follows is drawn. At a
//! dead end the answers to blame are read off the chains of the network, a lesson is kept so that they are never
//! given together again, and the search goes back to the first choice that the lesson touches. A dead end that no
//! choice is to blame for is the proof that nothing better exists.
//!
//! The number of choices is the only limit, so the same kitchen always gets the same plan.

use std::collections::{BTreeMap, BTreeSet};

use super::backward::{Backward, OUTSET, PLATING};
use super::choose::Crowded;
use super::crowd::rivals;
use super::network::{Network, Reasons};
use super::question::{Answer, Order, Question};
use super::queue::{least_holding, soonest_holding};
use super::trail::Trail;

/// A schedule: seconds before plating of every moment, and what it is worth.
#[derive(Clone, Debug)]
pub(super) struct Schedule {
    pub(super) moments: Vec<i32>,
    pub(super) holding: i64,
    pub(super) lead: i64,
}

impl Schedule {
    /// Everything at its soonest.
    pub(super) fn soonest(problem: &Backward, network: &Network) -> Self {
        Self {
            moments: network.gaps_from(PLATING).to_vec(),
            holding: soonest_holding(problem, network),
            lead: i64::from(network.soonest(OUTSET)),
        }
    }
}

/// What is made least.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Goal {
    /// Nothing: any schedule will do.
    Fit,
    Holding,
    /// The lead, with no more than so much holding.
    Lead {
        holding: i64,
    },
}

/// Answers that can't all hold.
pub(super) type DeadEnd = Vec<Answer>;

pub(super) struct Search<'a> {
    pub(super) problem: &'a Backward,
    pub(super) goal: Goal,
    /// No schedule is worth less than this.
    floor: i64,
    pub(super) best: Option<Schedule>,
    /// Choices made.
    pub(super) nodes: u64,
    pub(super) questions: Vec<Question>,
    /// How many of the questions, from the first, must be put to every schedule.
    pub(super) rivals: usize,
    pub(super) asked: BTreeMap<Order, usize>,
    pub(super) crowds_met: BTreeSet<Vec<Answer>>,
    pub(super) network: Network,
    pub(super) reasons: Reasons,
    pub(super) trail: Trail,
    /// Questions the network does not answer yet.
    pub(super) open: Vec<usize>,
    /// The state before each choice.
    pub(super) before: Vec<Before>,
}

pub(super) struct Before {
    network: Network,
    pub(super) open: Vec<usize>,
    reasons: usize,
    answers: usize,
}

impl<'a> Search<'a> {
    /// None when the gaps of the kitchen contradict each other with no order chosen.
    pub(super) fn new(problem: &'a Backward, goal: Goal, best: Option<Schedule>) -> Option<Self> {
        let mut reasons = Reasons::default();
        let network = problem.network(&mut reasons)?;
        let questions = rivals(problem);
        let mut trail = Trail::default();
        questions.iter().for_each(|_| trail.add_question());
        Some(Self {
            problem,
            goal,
            floor: i64::MIN,
            best,
            nodes: 0,
            open: (0..questions.len()).collect(),
            rivals: questions.len(),
            questions,
            asked: BTreeMap::new(),
            crowds_met: BTreeSet::new(),
            network,
            reasons,
            trail,
            before: Vec::new(),
        })
    }

    /// The least the goal can be.
    pub(super) fn floor(&self) -> i64 {
        match self.goal {
            Goal::Fit => 0,
            Goal::Holding => least_holding(self.problem, &self.network).holding,
            Goal::Lead { .. } => i64::from(self.network.soonest(OUTSET)),
        }
    }

    /// Looks on until the best is found and proven, or `limit` choices were made. True when it is proven: then
    /// `best` is the best there is, and none means that nothing fits.
    pub(super) fn run(&mut self, limit: u64) -> bool {
        self.floor = self.floor();
        let (mut dead_ends, mut patience) = (0, FIRST_PATIENCE);
        let mut given = Ok(());
        while !self.reached() {
            given = match given.and_then(|()| self.follow()) {
                Err(dead_end) => {
                    let Some(taught) = self.trail.learn(&dead_end) else {
                        return true;
                    };
                    dead_ends += 1;
                    self.back_to(taught.depth);
                    self.trail.add_lesson(taught.lesson());
                    let given = self.give(taught.answer, Some(taught.because));
                    if given.is_ok() && dead_ends >= patience {
                        (dead_ends, patience) = (0, patience + patience / 4);
                        self.back_to(0);
                    }
                    given
                }
                Ok(Some(_)) if self.nodes >= limit => return false,
                Ok(Some(answer)) => {
                    self.nodes += 1;
                    self.before.push(Before {
                        network: self.network.clone(),
                        open: self.open.clone(),
                        reasons: self.reasons.len(),
                        answers: self.trail.len(),
                    });
                    self.give(answer, None)
                }
                Ok(None) => {
                    self.best = Some(Schedule::soonest(self.problem, &self.network));
                    self.back_to(0);
                    Ok(())
                }
            };
        }
        true
    }

    /// Whether it can be told with no choice made that no schedule has a goal of `most` or less.
    pub(super) fn rules_out(problem: &'a Backward, goal: Goal, most: i64) -> bool {
        let a_little_worse = Schedule {
            moments: Vec::new(),
            holding: most + 1,
            lead: most + 1,
        };
        Self::new(problem, goal, Some(a_little_worse))
            .is_none_or(|mut search| search.follow().is_err())
    }

    /// Whether the best schedule is as good as any can be.
    fn reached(&self) -> bool {
        self.best.as_ref().is_some_and(|best| match self.goal {
            Goal::Fit => true,
            Goal::Holding => best.holding <= self.floor,
            Goal::Lead { .. } => best.lead <= self.floor,
        })
    }

    fn back_to(&mut self, depth: usize) {
        if let Some(before) = self.before.drain(depth.min(self.before.len())..).next() {
            self.network = before.network;
            self.open = before.open;
            self.reasons.truncate(before.reasons);
            self.trail.truncate(before.answers);
        }
    }

    pub(super) fn order(&self, answer: Answer) -> Option<Order> {
        let question = self.questions.get(answer.question())?;
        Some(if answer.is_yes() {
            question.yes
        } else {
            question.no
        })
    }

    pub(super) fn give(
        &mut self,
        answer: Answer,
        because: Option<Vec<Answer>>,
    ) -> Result<(), DeadEnd> {
        self.trail.give(answer, self.before.len(), because);
        let Some(order) = self.order(answer) else {
            return Ok(());
        };
        self.keep(order, vec![answer])
    }

    /// Keeps a gap because of some answers.
    pub(super) fn keep(&mut self, order: Order, mut because: Vec<Answer>) -> Result<(), DeadEnd> {
        let Order { first, second, gap } = order;
        if order.possible(&self.network) {
            self.network
                .keep(first, second, gap, because, &mut self.reasons);
            return Ok(());
        }
        self.network
            .explain(second, first, &self.reasons, &mut because);
        Err(because)
    }

    /// The most the goal may come to, to be better than the best schedule so far.
    pub(super) fn most(&self) -> Option<i64> {
        self.best.as_ref().map(|best| match self.goal {
            Goal::Fit => i64::MAX,
            Goal::Holding => best.holding - 1,
            Goal::Lead { .. } => best.lead - 1,
        })
    }

    pub(super) fn most_holding(&self) -> Option<i64> {
        match self.goal {
            Goal::Fit => None,
            Goal::Holding => self.most(),
            Goal::Lead { holding } => Some(holding),
        }
    }

    /// Draws every conclusion, and then returns the next choice to make; none when the soonest moments are a
    /// schedule.
    fn follow(&mut self) -> Result<Option<Answer>, DeadEnd> {
        let mut pushed = false;
        loop {
            while let Some((answer, because)) = self.trail.follow()? {
                self.give(answer, Some(because))?;
            }
            self.hurry()?;
            if self.answer_forced()? {
                continue;
            }
            // Once a choice: two windows may push each other on a second at a time.
            if !pushed {
                pushed = true;
                if self.push()? {
                    continue;
                }
            }
            if let Some(choice) = self.choose_rivals() {
                return Ok(Some(choice));
            }
            match self.meet_crowds()? {
                Crowded::No => return Ok(None),
                Crowded::Forced => {}
                Crowded::Choose(answer) => return Ok(Some(answer)),
            }
        }
    }
}

/// Dead ends before the search starts again with what it has learned.
const FIRST_PATIENCE: u32 = 50;
