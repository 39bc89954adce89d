//! The dishes that can be served: those Scaleside comes with, and those of a cook's own, each checked against the clock.

pub mod edit;

use std::collections::BTreeSet;
use std::sync::OnceLock;

use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::service::dish::Dish;
use crate::service::run::Run;
use crate::service::run::face::faces;
use crate::service::timetable::Timetable;
use crate::service::timetable::of_dish::Service;

static SHIPPED: OnceLock<Result<Vec<Dish>, Refusal>> = OnceLock::new();

/// The dishes that Scaleside comes with.
///
/// # Errors
/// A sentence, when the data in this build can't be read or doesn't hold together.
pub fn shipped() -> Result<&'static [Dish], Refusal> {
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
    shipped()?
        .iter()
        .find(|dish| dish.id == id)
        .ok_or_else(|| Refusal::new("This dish is not in this version of Scaleside."))
}

impl Dish {
    /// A dish from its JSON text, checked and put in an order that its links allow. Cooked by one cook in that
    /// order, it keeps all its gaps.
    ///
    /// # Errors
    /// A sentence that names the step or the line at fault.
    pub fn parse(json: &str) -> Result<Self, Refusal> {
        let dish: Self = serde_json::from_str(json)
            .map_err(|why| Refusal::new(format!("A dish can't be read: {why}.")))?;
        let dish = dish.in_order()?;
        match dish.late_when_on_time() {
            Some(sentence) => Err(Refusal::new(sentence)),
            None => Ok(dish),
        }
    }

    /// The dish checked, its steps in an order that their links allow, and its gaps such that one cook can keep them,
    /// in whatever order.
    ///
    /// # Errors
    /// A sentence that names the step or the line at fault.
    pub fn checked(self) -> Result<Self, Refusal> {
        let dish = self.in_order()?;
        if dish.late_when_on_time().is_some() {
            let service = Service {
                dish: &dish,
                missing: &BTreeSet::new(),
                cooks: 1,
            };
            if let Err(stuck) = Timetable::of(&service, None, None, Instant(0)) {
                return Err(Refusal::new(stuck.sentence));
            }
        }
        Ok(dish)
    }

    /// A step that comes too late for a greatest gap although everything goes to time, one step after the other as
    /// written.
    fn late_when_on_time(&self) -> Option<String> {
        let start = Instant(0);
        let run = Run::start(self, start);
        let faces = faces(self, &BTreeSet::new(), &run, start);
        let late = faces.into_iter().find(|face| face.warning.is_some())?;
        Some(format!(
            "“{}” can't keep its gaps. {}",
            late.title, late.warning?
        ))
    }
}
