//! What follows without a choice, and which answers it follows from.

use super::backward::{OUTSET, PLATING};
use super::question::{Answer, Order};
use super::queue::{least_holding, soonest_holding};
use super::search::{DeadEnd, Goal, Search};
use super::windows::{Overfull, check_load, pushes};

impl Search<'_> {
    /// Keeps every moment soon enough to beat the best schedule so far.
    pub(super) fn hurry(&mut self) -> Result<(), DeadEnd> {
        if let (Goal::Lead { .. }, Some(most)) = (self.goal, self.most()) {
            self.keep(at_most(OUTSET, most), Vec::new())?;
        }
        let Some(most) = self.most_holding() else {
            return Ok(());
        };
        let problem = self.problem;
        let slack = most - soonest_holding(problem, &self.network);
        if slack < 0 {
            return Err(self.because_soonest(problem.held.iter().map(|h| h.0)));
        }
        let least = least_holding(problem, &self.network);
        if least.holding > most {
            let mut because = Vec::new();
            for (from, to) in least.because {
                self.network.explain(from, to, &self.reasons, &mut because);
            }
            return Err(tidy(because));
        }
        for &(moment, weight) in &problem.held {
            let latest = at_most(
                moment,
                i64::from(self.network.soonest(moment)) + slack / weight,
            );
            if !latest.kept(&self.network) {
                let others = problem.held.iter().map(|h| h.0).filter(|&m| m != moment);
                let because = self.because_soonest(others);
                self.keep(latest, because)?;
            }
        }
        Ok(())
    }

    /// The answers that keep moments from being sooner.
    fn because_soonest(&self, moments: impl Iterator<Item = usize>) -> Vec<Answer> {
        let mut because = Vec::new();
        for moment in moments {
            self.network
                .explain(PLATING, moment, &self.reasons, &mut because);
        }
        tidy(because)
    }

    /// The answers that keep moments within their windows.
    fn because_windows(&self, moments: &[usize]) -> Vec<Answer> {
        let mut because = Vec::new();
        for &moment in moments {
            self.network
                .explain(PLATING, moment, &self.reasons, &mut because);
            self.network
                .explain(moment, PLATING, &self.reasons, &mut because);
        }
        tidy(because)
    }

    /// Gives the only answer that is left, wherever one is. True when there was one.
    pub(super) fn answer_forced(&mut self) -> Result<bool, DeadEnd> {
        let mut any = false;
        let open = std::mem::take(&mut self.open);
        let mut still = Vec::with_capacity(open.len());
        for k in open {
            let Some(&question) = self.questions.get(k) else {
                continue;
            };
            let settled = k < self.rivals
                && (question.yes.kept(&self.network) || question.no.kept(&self.network));
            if settled || self.trail.holds(Answer::new(k, true)).is_some() {
                continue;
            }
            let lost = match (
                question.yes.possible(&self.network),
                question.no.possible(&self.network),
            ) {
                (true, true) => {
                    still.push(k);
                    continue;
                }
                (yes, _) => Answer::new(k, !yes),
            };
            let lost_order = if lost.is_yes() {
                question.yes
            } else {
                question.no
            };
            let mut because = Vec::new();
            (self.network).explain(
                lost_order.second,
                lost_order.first,
                &self.reasons,
                &mut because,
            );
            self.give(lost.other(), Some(tidy(because)))?;
            any = true;
        }
        self.open = still;
        Ok(any)
    }

    /// Narrows the windows of pieces by the work that must lie around them. True when something moved.
    pub(super) fn push(&mut self) -> Result<bool, DeadEnd> {
        let mut moved = false;
        let problem = self.problem;
        for pool in &problem.pools {
            if pool.places > 1 {
                check_load(pool, &self.network)
                    .map_err(|Overfull(moments)| self.because_windows(&moments))?;
                continue;
            }
            let pushes = pushes(pool, &self.network)
                .map_err(|Overfull(moments)| self.because_windows(&moments))?;
            for push in pushes {
                let order = if push.at_least {
                    at_least(push.moment, push.gap)
                } else {
                    at_most(push.moment, -i64::from(push.gap))
                };
                if !order.kept(&self.network) {
                    let because = self.because_windows(&push.because);
                    self.keep(order, because)?;
                    moved = true;
                }
            }
        }
        Ok(moved)
    }
}

fn at_most(moment: usize, secs: i64) -> Order {
    Order {
        first: moment,
        second: PLATING,
        gap: i32::try_from(-secs).unwrap_or(i32::MIN / 4),
    }
}

fn at_least(moment: usize, secs: i32) -> Order {
    Order {
        first: PLATING,
        second: moment,
        gap: secs,
    }
}

fn tidy(mut answers: Vec<Answer>) -> Vec<Answer> {
    answers.sort_unstable();
    answers.dedup();
    answers
}
