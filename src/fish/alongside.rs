//! The dishes that are served with a fish, or with a dish that is served alone: in the same service, for the same guests or
//! for later ones.

use serde::{Deserialize, Serialize};

use super::refusals::NoService;
use super::serving::{Serving, read_panfuls};
use super::slip::read_portions;
use crate::base::part::{self, Part};
use crate::base::refusal::Refusal;
use crate::base::text::short;
use crate::fish::record::Fish;
use crate::service::dish::joined::{Laid, fish_word, of_which, short_name};
use crate::service::dish::laid_out::Laying;
use crate::service::dish::{Dish, Sound};
use crate::service::timetable::of_dish::Change;

/// The most dishes beside the first.
pub const MOST_ALONGSIDE: usize = 5;
/// The latest that a plate is asked for after the first ones, in minutes: a long evening.
const LATEST_MINUTES: u32 = 240;

/// A dish served with another.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Alongside {
    /// Its identity among them.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub id: String,
    /// Its card; nothing where it is the first dish over again.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub card: Option<String>,
    /// The dish, as its card says until the service begins.
    pub dish: Dish,
    /// What it is called in the service, as typed; empty: by its own name.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub called: String,
    /// How many covers, as typed.
    pub covers: String,
    /// How many fillets of it lie in the pan at once, as typed; empty: all of them.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub at_once: String,
    /// How many minutes after the first plates of the service its plate comes, as typed; empty: with them.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub later: String,
}

impl Part for Alongside {
    fn id(&self) -> &str {
        &self.id
    }

    fn id_mut(&mut self) -> &mut String {
        &mut self.id
    }
}

/// A tap on the dishes of a service.
#[derive(Clone, Debug, PartialEq)]
pub enum AlongsideTap {
    /// A dish comes with it, under this identity: that of a card, or the first one over again.
    Add(String, Option<(String, Box<Sound>)>),
    /// Its card was changed since.
    Follow(String, Box<Sound>),
    /// What it is called in the service was typed; without an identity, of the first dish.
    Called(Option<String>, String),
    /// Its covers were typed.
    Covers(String, String),
    /// How many fillets of it lie in the pan at once was typed.
    AtOnce(String, String),
    /// How many minutes after the first plates its own comes was typed; without an identity that of the first dish.
    Later(Option<String>, String),
    /// It is not served after all.
    Out(String),
}

impl Fish {
    /// Everything that is served: the dish, and those that come with it.
    ///
    /// # Errors
    /// The sentence for a dish that can't be read or laid out.
    pub fn served(&self) -> Result<Dish, Refusal> {
        let dish = self.dish()?.clone();
        match self.run {
            Some(_) => Ok(dish),
            None => self.with_those_alongside(dish),
        }
    }

    /// A dish, laid out or not, with those that come with it, laid out.
    pub(super) fn with_those_alongside(&self, dish: Dish) -> Result<Dish, Refusal> {
        let serving = self.serving();
        if serving.alongside.is_empty() {
            return Ok(dish);
        }
        let others = (serving.alongside.iter())
            .map(|one| one.joining(serving.pans))
            .collect::<Result<_, Refusal>>()?;
        let first = Laid {
            key: String::new(),
            name: self.called(&dish),
            dish,
            later_secs: read_later(&serving.later)?,
        };
        Dish::joined(first, others)
    }

    /// What its own dish is called among others: as the cook says, or else by the fish.
    #[must_use]
    pub fn called(&self, dish: &Dish) -> String {
        match self.serving().called.trim() {
            "" if self.is_alone() => short_name(dish.brief()),
            "" => fish_word(&self.name()),
            called => short_name(called),
        }
    }

    /// What a tap on the dishes of the service does. It has not begun.
    pub(super) fn alongside(
        &self,
        serving: &mut Serving,
        tap: &AlongsideTap,
    ) -> Result<(), Refusal> {
        match tap {
            AlongsideTap::Add(id, from) => {
                let same = serving.alongside.iter().any(|one| one.id == *id);
                if same || serving.alongside.len() >= MOST_ALONGSIDE {
                    return Err(NoService::ManyDishes.into());
                }
                let (card, dish) = match from {
                    Some((card, dish)) => (Some(card.clone()), dish.clone().into_dish()),
                    None => (None, self.dish()?.clone()),
                };
                serving.alongside.push(Alongside {
                    id: id.clone(),
                    called: match &card {
                        Some(_) => String::new(),
                        None => self.called(&dish),
                    },
                    card,
                    covers: dish.covers.to_string(),
                    dish,
                    at_once: String::new(),
                    later: String::new(),
                });
            }
            AlongsideTap::Follow(id, dish) => {
                serving.beside(id)?.dish = dish.clone().into_dish();
            }
            AlongsideTap::Called(Some(id), text) => serving.beside(id)?.called = short(text)?,
            AlongsideTap::Called(None, text) => serving.called = short(text)?,
            AlongsideTap::Covers(id, text) => serving.beside(id)?.covers = short(text)?,
            AlongsideTap::AtOnce(id, text) => serving.beside(id)?.at_once = short(text)?,
            AlongsideTap::Later(Some(id), text) => serving.beside(id)?.later = short(text)?,
            AlongsideTap::Later(None, text) => serving.later = short(text)?,
            AlongsideTap::Out(id) => {
                serving.beside(id)?;
                serving.alongside.retain(|one| one.id != *id);
            }
        }
        Ok(())
    }
}

impl Serving {
    fn beside(&mut self, id: &str) -> Result<&mut Alongside, Refusal> {
        part::find_mut(&mut self.alongside, id).ok_or_else(|| NoService::NoSuchDish.into())
    }

    /// Takes a way out that changes a gap of a dish that comes with the first; nothing where it is the first one's.
    pub(super) fn ease_beside(&mut self, change: &Change) -> Option<()> {
        let Change::Gap {
            step,
            to,
            greatest,
            by,
        } = change
        else {
            return None;
        };
        let ((key, step), (same, to)) = (of_which(step), of_which(to));
        let one = part::find_mut(&mut self.alongside, key).filter(|_| key == same)?;
        one.dish = one.dish.eased(&Change::Gap {
            step: step.to_owned(),
            to: to.to_owned(),
            greatest: *greatest,
            by: *by,
        });
        one.card = None;
        Some(())
    }
}

impl Alongside {
    /// How many covers it is for.
    ///
    /// # Errors
    /// The sentence for covers that can't be read.
    pub fn covers(&self) -> Result<u32, Refusal> {
        read_portions(&self.covers)
    }

    /// How many panfuls it makes.
    ///
    /// # Errors
    /// The sentence for covers or a panful that can't be read.
    pub fn panfuls(&self) -> Result<u32, Refusal> {
        self.covers()?;
        read_panfuls(&self.at_once, &self.covers)
    }

    /// What it is called in the service.
    #[must_use]
    pub fn called(&self) -> String {
        let typed = self.called.trim();
        short_name(if typed.is_empty() {
            self.dish.brief()
        } else {
            typed
        })
    }

    fn joining(&self, pans: u32) -> Result<Laid, Refusal> {
        let mut dish = self.dish.clone();
        dish.covers = self.covers()?;
        Ok(Laid {
            key: self.id.clone(),
            name: self.called(),
            dish: dish.laid_out(&Laying {
                covers: dish.covers,
                panfuls: self.panfuls()?,
                pans,
                fish: None,
            })?,
            later_secs: read_later(&self.later)?,
        })
    }
}

/// The seconds that a plate comes after the first ones.
///
/// # Errors
/// The sentence for minutes that are no whole number, or too many.
pub fn read_later(text: &str) -> Result<u32, Refusal> {
    let minutes = match text.trim() {
        "" => 0,
        text => text.parse().map_err(|_| NoService::LaterNotWhole)?,
    };
    match minutes {
        0..=LATEST_MINUTES => Ok(minutes * 60),
        _ => Err(NoService::TooLate(LATEST_MINUTES).into()),
    }
}
