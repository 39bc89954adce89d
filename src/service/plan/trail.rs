//! What has been answered so far and why, what was learned from dead ends, and how far back to go.

use super::question::Answer;

/// An answer given: when, at which depth of choices, and because of which others.
#[derive(Clone, Debug)]
struct Given {
    answer: Answer,
    depth: usize,
    /// The answers that force it; none when it was chosen.
    because: Option<Vec<Answer>>,
}

/// At least one of these answers holds in every schedule worth finding. The first two are watched.
pub(super) type Learned = Vec<Answer>;

/// What a dead end teaches.
pub(super) struct Taught {
    /// Go back to this depth of choices,
    pub(super) depth: usize,
    /// where this answer is forced
    pub(super) answer: Answer,
    /// by these.
    pub(super) because: Vec<Answer>,
}

impl Taught {
    pub(super) fn lesson(&self) -> Learned {
        let mut lesson: Learned = self.because.iter().map(|a| a.other()).collect();
        lesson.push(self.answer);
        lesson
    }
}

#[derive(Clone, Debug, Default)]
pub(super) struct Trail {
    given: Vec<Given>,
    /// For each question, its place in `given`.
    place: Vec<Option<usize>>,
    /// Answers whose lessons were looked at.
    seen: usize,
    lessons: Vec<Learned>,
    /// For each answer, the lessons that watch it.
    watching: Vec<Vec<usize>>,
    /// How often each question mattered in a dead end, lately.
    pub(super) weight: Vec<u64>,
    bump: u64,
}

impl Trail {
    pub(super) fn add_question(&mut self) {
        self.place.push(None);
        self.weight.push(0);
        self.watching.push(Vec::new());
        self.watching.push(Vec::new());
    }

    fn given(&self, question: usize) -> Option<&Given> {
        let place = self.place.get(question).copied().flatten()?;
        self.given.get(place)
    }

    /// Whether an answer holds; none while its question is open.
    #[inline]
    pub(super) fn holds(&self, answer: Answer) -> Option<bool> {
        self.given(answer.question()).map(|g| g.answer == answer)
    }

    pub(super) fn len(&self) -> usize {
        self.given.len()
    }

    pub(super) fn give(&mut self, answer: Answer, depth: usize, because: Option<Vec<Answer>>) {
        if let Some(place) = self.place.get_mut(answer.question()) {
            *place = Some(self.given.len());
        }
        self.given.push(Given {
            answer,
            depth,
            because,
        });
    }

    /// Takes back all but the first `len` answers.
    pub(super) fn truncate(&mut self, len: usize) {
        for g in self.given.drain(len.min(self.given.len())..) {
            if let Some(place) = self.place.get_mut(g.answer.question()) {
                *place = None;
            }
        }
        self.seen = self.seen.min(len);
    }

    /// Adds a lesson, which must not be broken by the answers given so far.
    pub(super) fn add_lesson(&mut self, mut lesson: Learned) {
        // Watch what is open or was given last: it is the first to be taken back.
        lesson.sort_by_key(|&a| match self.given(a.question()) {
            Some(g) if g.answer == a => (0, 0),
            None => (1, 0),
            Some(g) => (2, usize::MAX - g.depth),
        });
        for answer in lesson.iter().take(2) {
            if let Some(watching) = self.watching.get_mut(answer.index()) {
                watching.push(self.lessons.len());
            }
        }
        self.lessons.push(lesson);
    }

    /// The next answer forced by a lesson, with what forces it; or the answers that together break one.
    pub(super) fn follow(&mut self) -> Result<Option<(Answer, Vec<Answer>)>, Vec<Answer>> {
        while let Some(g) = self.given.get(self.seen) {
            let lost = g.answer.other();
            let Some(watching) = self.watching.get_mut(lost.index()) else {
                break;
            };
            let mut due = std::mem::take(watching);
            let mut forced = None;
            due.retain(|&lesson| {
                if forced.is_some() {
                    return true;
                }
                match self.look(lesson, lost) {
                    Look::Moved => false,
                    Look::Kept => true,
                    Look::Forces(answer) => {
                        forced = Some((lesson, answer));
                        true
                    }
                }
            });
            if let Some(watching) = self.watching.get_mut(lost.index()) {
                watching.append(&mut due);
            }
            let Some((lesson, answer)) = forced else {
                self.seen += 1;
                continue;
            };
            let rest = self.lessons.get(lesson).into_iter().flatten();
            let because = rest.filter(|&&a| a != answer).map(|a| a.other()).collect();
            return match self.holds(answer) {
                None => Ok(Some((answer, because))),
                Some(_) => {
                    let mut broken: Vec<Answer> = because;
                    broken.push(answer.other());
                    Err(broken)
                }
            };
        }
        Ok(None)
    }

    fn look(&mut self, lesson: usize, lost: Answer) -> Look {
        let Some(mut answers) = self.lessons.get_mut(lesson).map(std::mem::take) else {
            return Look::Kept;
        };
        if answers.first() == Some(&lost) && answers.len() > 1 {
            answers.swap(0, 1);
        }
        let first = answers.first().copied().unwrap_or(lost);
        let look = if self.holds(first) == Some(true) {
            Look::Kept
        } else {
            match answers
                .iter()
                .skip(2)
                .position(|&a| self.holds(a) != Some(false))
            {
                Some(k) => {
                    answers.swap(1, k + 2);
                    if let Some(watching) = answers
                        .get(1)
                        .and_then(|a| self.watching.get_mut(a.index()))
                    {
                        watching.push(lesson);
                    }
                    Look::Moved
                }
                None => Look::Forces(first),
            }
        };
        if let Some(place) = self.lessons.get_mut(lesson) {
            *place = answers;
        }
        look
    }

    /// Learns from answers that can't all hold: the first answer, counted back from the last choice, through
    /// which every chain to the dead end runs is forced to be otherwise. None when no choice was at fault.
    pub(super) fn learn(&mut self, dead_end: &[Answer]) -> Option<Taught> {
        let depth_of = |trail: &Self, a: Answer| trail.given(a.question()).map_or(0, |g| g.depth);
        let deepest = dead_end
            .iter()
            .map(|&a| depth_of(self, a))
            .max()
            .filter(|&d| d > 0)?;
        self.bump += 1 + self.bump / 16;
        let mut marked = vec![false; self.given.len()];
        let mut kept: Vec<Answer> = Vec::new();
        let mut pending = 0;
        let mut now: Vec<Answer> = dead_end.to_vec();
        let mut at = self.given.len();
        let first = loop {
            for answer in now.drain(..) {
                let Some(place) = self.place.get(answer.question()).copied().flatten() else {
                    continue;
                };
                let depth = depth_of(self, answer);
                let Some(mark) = marked.get_mut(place).filter(|m| !**m && depth > 0) else {
                    continue;
                };
                *mark = true;
                if let Some(weight) = self.weight.get_mut(answer.question()) {
                    *weight += self.bump;
                }
                if depth == deepest {
                    pending += 1;
                } else {
                    kept.push(answer);
                }
            }
            // Back to the last marked answer of the deepest choice.
            while at > 0 {
                at -= 1;
                let here = marked.get(at) == Some(&true);
                if here && self.given.get(at).is_some_and(|g| g.depth == deepest) {
                    break;
                }
            }
            let given = self.given.get(at)?;
            pending -= 1;
            if pending == 0 {
                break given.answer;
            }
            now.extend(given.because.iter().flatten());
        };
        if self.bump > 1 << 40 {
            self.bump >>= 20;
            self.weight.iter_mut().for_each(|w| *w >>= 20);
        }
        let depth = kept.iter().map(|&a| depth_of(self, a)).max().unwrap_or(0);
        Some(Taught {
            depth,
            answer: first.other(),
            because: kept,
        })
    }
}

enum Look {
    /// Another answer is watched in its stead.
    Moved,
    Kept,
    /// All others are lost.
    Forces(Answer),
}
