//! The dishes that Scaleside comes with. A test holds each of them against the clock on every bench; here they are only
//! read.

use std::sync::OnceLock;

use super::Dish;
use super::refusals::NoDish;
use crate::base::refusal::Refusal;

/// The fixed times of the fish in these dishes fit a fillet up to this thickness, mm: a test holds them to the estimate.
pub const FIXED_TIMES_FIT_MM: u32 = 12;

static SHIPPED: OnceLock<Result<Vec<Dish>, Refusal>> = OnceLock::new();
static PLAIN: OnceLock<Result<Dish, Refusal>> = OnceLock::new();

/// The dishes that Scaleside comes with.
///
/// # Errors
/// A sentence, when the data in this build can't be read or doesn't hold together.
pub fn dishes() -> Result<&'static [Dish], Refusal> {
    SHIPPED
        .get_or_init(|| {
            [
                include_str!("data/bream.json"),
                include_str!("data/fillet.json"),
            ]
            .into_iter()
            .map(Dish::parse)
            .collect()
        })
        .as_deref()
        .map_err(Clone::clone)
}

/// The shipped dish called `id` (`bream` is the demo, `fillet` any fish of the cook's own).
///
/// # Errors
/// A sentence, when there is no such dish or the data in this build is unsound.
pub fn by_id(id: &str) -> Result<&'static Dish, Refusal> {
    dishes()?
        .iter()
        .find(|dish| dish.id == id)
        .ok_or_else(|| NoDish::NotShipped.into())
}

/// Where a cook's own dish without fish begins: steps to be changed, and no dish to be served as they are.
///
/// # Errors
/// A sentence, when the data in this build is unsound.
pub fn plain() -> Result<&'static Dish, Refusal> {
    PLAIN
        .get_or_init(|| Dish::parse(include_str!("data/plain.json")))
        .as_ref()
        .map_err(Clone::clone)
}
