//! What may be served: a dish of a cook's own is held against the clock before a fish is cooked into it.

pub mod draft;
pub mod edit;
pub mod field;
mod refusals;

use std::collections::BTreeSet;

use crate::base::refusal::Refusal;
use crate::service::dish::{Dish, Sound};
use crate::service::timetable::Timetable;
use crate::service::timetable::of_dish::Service;

/// The dish checked, its steps in an order that their links allow, and its gaps such that one cook can keep them, in
/// whatever order.
///
/// # Errors
/// A sentence that names the step or the line at fault, or says which gaps quarrel.
pub fn sound(dish: Dish) -> Result<Sound, Refusal> {
    let dish = dish.in_order()?;
    let service = Service {
        dish: &dish,
        missing: &BTreeSet::new(),
        cooks: 1,
    };
    Timetable::refuse_quarrels(&service)?;
    Ok(Sound::vouched(dish))
}
