//! What is said where there is no timetable. The sentence of a quarrel comes with it, out of the plan.

use std::fmt;

use super::Stuck;
use crate::base::refusal::Said;

impl Said for Stuck {}

impl fmt::Display for Stuck {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.sentence)
    }
}
