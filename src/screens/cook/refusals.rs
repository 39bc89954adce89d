//! What is said where there is no dish to change.

use std::fmt;

use crate::base::refusal::Said;

/// Why the steps of a dish can't be changed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoSteps {
    /// The dish has gone.
    Gone,
}

impl Said for NoSteps {}

impl fmt::Display for NoSteps {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Gone => f.write_str("This dish is no longer here."),
        }
    }
}
