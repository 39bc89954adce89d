//! What many results say beside each other.

use super::Says;
use crate::class::limits;
use crate::class::spread::{self, MAD_SCALE};
use crate::trade::trend::{CHANCE, FEWEST_TREND};

/// The rows, in the order of a lesson.
pub(super) fn rows() -> Vec<Says> {
    vec![
        Says {
            key: "class",
            name: "A class side by side",
            formula: spread::told().into(),
            inputs: "The results of one kind of fish and one form.".into(),
            source: format!("Hyndman and Fan 1996, type 7, for the quarters. Times {MAD_SCALE:.2} it is the standard deviation, where results spread normally.").into(),
            covers: "It is about this class on this day, not about fish at large.".into(),
        },
        Says {
            key: "flag",
            name: "To look at again",
            formula: "A slip has a size of its own: a decimal mark is ten times, a pound for a kilo 2.2 times, one fillet for two a half. All else is told by its distance from the median.".into(),
            inputs: format!("The weights, the price and the form of each result, beside {} or more of its kind.", limits::FEWEST).into(),
            source: "The limits: by simulation of honest classes (our choice).".into(),
            covers: "By distance, at most one honest class in a hundred is troubled. It asks: the tutor decides.".into(),
        },
        Says {
            key: "trend",
            name: "From fish to fish",
            formula: format!("The step is the median of all changes between two fish, each divided by how many fish they lie apart. It is called a trend where chance gives such an order less than {:.0} times in 100.", CHANCE * 100.0).into(),
            inputs: format!("{FEWEST_TREND} or more fish of one student, of one kind and form, in the order of their days.").into(),
            source: "Theil 1950 and Sen 1968 for the step; Kendall's exact test for chance.".into(),
            covers: "With few fish only a plain trend is seen. No trend found does not mean that there is none.".into(),
        },
        Says {
            key: "points",
            name: "Points and marks",
            formula: "The points of all criteria added up, beside the most that they can be.".into(),
            inputs: "What the tutor typed.".into(),
            source: "The tutor. The sum: arithmetic.".into(),
            covers: "No band: the tutor's word.".into(),
        },
    ]
}
