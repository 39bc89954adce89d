//! What a fish is offered for today, as typed: one small record for each species and form.

use serde::{Deserialize, Serialize};

use super::refusals::NoQuote;
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::fish::bought::SpeciesForm;
use crate::fish::slip::Species;
use crate::store::entry::Entry;
use crate::trade::breakdown::DeliveryForm;
use crate::trade::money::{self, Currency, MassPrice, PriceUnit};

/// The longest price as typed, in letters.
const LONGEST: usize = 40;

/// One line of the market list.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Quote {
    /// When it was put on the list.
    pub begun: Instant,
    /// When its price was typed last.
    pub typed: Instant,
    /// Whether it belongs to the demonstration.
    pub demo: bool,
    /// Which fish.
    pub species: Species,
    /// In which form.
    pub form: DeliveryForm,
    /// The price as typed; empty: what was paid last.
    pub price: String,
    /// What the price is for.
    pub per: PriceUnit,
    /// What it is in.
    pub currency: Currency,
}

impl Quote {
    /// A line without a price yet.
    #[must_use]
    pub fn new(
        bought: SpeciesForm,
        demo: bool,
        per: PriceUnit,
        currency: Currency,
        now: Instant,
    ) -> Self {
        Self {
            begun: now,
            typed: now,
            demo,
            species: bought.species,
            form: bought.form,
            price: String::new(),
            per,
            currency,
        }
    }

    /// Which fish, in which form.
    #[must_use]
    pub fn bought(&self) -> SpeciesForm {
        SpeciesForm {
            species: self.species.clone(),
            form: self.form,
        }
    }

    /// The price as it reads.
    ///
    /// # Errors
    /// The sentence for a price that can't be read.
    pub fn read_price(&self) -> Result<MassPrice, Refusal> {
        MassPrice::new(money::parse_amount(&self.price)?, self.currency, self.per)
    }
}

/// What is done to a quote.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum QuoteAction {
    /// The price was typed.
    Price(String),
    /// What the price is for was chosen.
    Per(PriceUnit),
    /// The currency was chosen.
    Currency(Currency),
}

impl Entry for Quote {
    type Action = QuoteAction;
    const KIND: &'static str = "quote";
    const NOUN: &'static str = "price";

    fn begun(&self) -> Instant {
        self.begun
    }

    fn is_demo(&self) -> bool {
        self.demo
    }

    fn apply(&self, action: &QuoteAction, now: Instant) -> Result<Self, Refusal> {
        let mut next = self.clone();
        next.typed = now;
        match action {
            QuoteAction::Price(text) if text.chars().count() > LONGEST => {
                return Err(NoQuote::TooLong.into());
            }
            QuoteAction::Price(text) => next.price.clone_from(text),
            QuoteAction::Per(per) => next.per = *per,
            QuoteAction::Currency(currency) => next.currency = *currency,
        }
        Ok(next)
    }
}
