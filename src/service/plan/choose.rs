//! Which question to settle next, where the soonest moments would put too much on at once.

use super::backward::OUTSET;
use super::crowd::crowds;
use super::question::{Answer, Order, Question};
use super::search::{DeadEnd, Goal, Search};

/// What an order would cost: the goal, then what the schedule is judged by otherwise.
type Cost = (i64, i64);

impl Search<'_> {
    /// What the soonest moments would cost with one more order; none when it leads nowhere.
    fn cost(&self, order: Order) -> Option<Cost> {
        if !order.possible(&self.network) {
            return None;
        }
        let second = self.network.soonest(order.first) + order.gap;
        let from_second = self.network.gaps_from(order.second);
        let moved = |moment: usize| {
            let pushed = second + from_second.get(moment).copied().unwrap_or(0);
            i64::from(self.network.soonest(moment).max(pushed))
        };
        let lead = moved(OUTSET);
        let held: i64 = self.problem.held.iter().map(|&(m, w)| w * moved(m)).sum();
        if self.most_holding().is_some_and(|most| held > most) {
            return None;
        }
        Some(match self.goal {
            Goal::Lead { .. } => (lead, held),
            Goal::Fit | Goal::Holding => (held, lead),
        })
    }

    /// Of the rivals that overlap at the soonest moments, the most telling, and the better answer to it.
    pub(super) fn choose_rivals(&self) -> Option<Answer> {
        let mut choice = Choice::default();
        for &k in self.open.iter().take_while(|&&k| k < self.rivals) {
            let Some(q) = self.questions.get(k) else {
                continue;
            };
            if !q.yes.broken(&self.network) || !q.no.broken(&self.network) {
                continue;
            }
            let weight = self.trail.weight.get(k).copied().unwrap_or(0);
            let (yes, no) = (self.cost(q.yes), self.cost(q.no));
            // What leads nowhere is tried first: the dead end teaches why.
            let (Some(yes_cost), Some(no_cost)) = (yes, no) else {
                return Some(Answer::new(k, yes.is_none()));
            };
            let (yes_room, no_room) = (q.yes.room(&self.network), q.no.room(&self.network));
            let prefer_yes = (yes_cost, -yes_room) <= (no_cost, -no_room);
            let key = (
                weight,
                yes_cost.min(no_cost),
                yes_cost.max(no_cost),
                -yes_room.min(no_room),
            );
            choice.offer(key, Answer::new(k, prefer_yes));
        }
        choice.best.map(|b| b.1)
    }

    /// Sees to the pools of two places and more that are overfull at the soonest moments.
    pub(super) fn meet_crowds(&mut self) -> Result<Crowded, DeadEnd> {
        let mut choice = Choice::default();
        for crowd in crowds(self.problem, &self.network) {
            let answers: Vec<Answer> = crowd.iter().map(|&order| self.ask(order)).collect();
            if self.crowds_met.insert(answers.clone()) {
                self.trail.add_lesson(answers.clone());
            }
            let open: Vec<Answer> = (answers.iter().copied())
                .filter(|&a| self.trail.holds(a).is_none())
                .collect();
            match open.as_slice() {
                [] => return Err(answers.iter().map(|a| a.other()).collect()),
                [only] => {
                    let others = answers.iter().filter(|a| *a != only);
                    let because = others.map(|a| a.other()).collect();
                    self.give(*only, Some(because))?;
                    return Ok(Crowded::Forced);
                }
                _ => {}
            }
            let mut possible = false;
            for answer in open {
                let Some(order) = self.order(answer).filter(|o| o.possible(&self.network)) else {
                    continue;
                };
                possible = true;
                let weight = self
                    .trail
                    .weight
                    .get(answer.question())
                    .copied()
                    .unwrap_or(0);
                let cost = self.cost(order).unwrap_or((i64::MAX / 2, 0));
                choice.offer(
                    (
                        weight,
                        (-cost.0, -cost.1),
                        (0, 0),
                        order.room(&self.network),
                    ),
                    answer,
                );
            }
            if !possible {
                return Ok(Crowded::Forced);
            }
        }
        Ok(choice.best.map_or(Crowded::No, |b| Crowded::Choose(b.1)))
    }

    /// The answer that says yes to an order, asked for the first time or again.
    fn ask(&mut self, order: Order) -> Answer {
        let next = self.questions.len();
        let k = *self.asked.entry(order).or_insert(next);
        if k == next {
            self.questions.push(Question {
                yes: order,
                no: order.denied(),
            });
            self.trail.add_question();
        }
        let answer = Answer::new(k, true);
        if k == next {
            self.open.push(k);
            self.before.iter_mut().for_each(|b| b.open.push(k));
        }
        answer
    }
}

/// What came of looking at the crowds.
pub(super) enum Crowded {
    No,
    Forced,
    Choose(Answer),
}

type Key = (u64, Cost, Cost, i32);

/// The most telling choice seen so far.
#[derive(Default)]
struct Choice {
    best: Option<(Key, Answer)>,
}

impl Choice {
    fn offer(&mut self, key: Key, answer: Answer) {
        if self.best.as_ref().is_none_or(|b| key > b.0) {
            self.best = Some((key, answer));
        }
    }
}
