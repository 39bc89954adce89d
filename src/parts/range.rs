//! Where a yield lies against what is published, as a picture with its sentence and its sources.

use leptos::prelude::*;
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use crate::fish::record::Fish;
use crate::trade::breakdown::DeliveryForm;
use crate::trade::plausible::{self, YieldVerdict};
use crate::trade::published::{self, PublishedRange};
use crate::trade::rounding;

/// The left and right ends of the picture, in per cent of the fish as delivered.
const FROM: f64 = 20.0;
const TO: f64 = 80.0;

/// A yield, to be set beside what is published for its species (by its key) and form.
#[derive(Clone, Debug, PartialEq)]
pub struct YieldBeside {
    /// The key of the species, where there is one.
    pub key: Option<String>,
    /// The form the fish was delivered in.
    pub form: DeliveryForm,
    /// The yield, 0 to 1.
    pub ratio: Decimal,
}

impl YieldBeside {
    /// That of a fish; nothing before there is a yield, and nothing of one fillet, since every published yield counts two.
    pub fn of(fish: &Fish) -> Option<Self> {
        if fish.one_fillet {
            return None;
        }
        let key = fish.slip.species.as_ref().and_then(|species| species.key());
        Some(Self {
            key: key.map(str::to_owned),
            form: fish.slip.form?,
            ratio: fish.breakdown()?.ok()?.yield_ratio(),
        })
    }

    fn range(&self) -> Option<PublishedRange> {
        published::range_for(self.key.as_deref()?, self.form)
    }

    /// What is to be said of it.
    pub fn verdict(&self) -> YieldVerdict {
        plausible::beside(self.form, self.ratio, self.range().as_ref())
    }

    /// As a picture with its sentences and sources.
    pub fn told(&self) -> AnyView {
        let range = self.range();
        let verdict = self.verdict();
        view! {
            {match &range {
                Some(range) => with_range(range, self.ratio),
                None => view! {
                    <p>{format!("No figure is published here for this fish, {}. Most fish from whole give 34 to 62 %.", self.form.name().to_ascii_lowercase())}</p>
                }.into_any(),
            }}
            <p class=if verdict == YieldVerdict::Usual { "soft" } else { "care" }>{verdict.sentence()}</p>
            {range.map(|range| sources(&range))}
        }
        .into_any()
    }

    /// As a section of its own.
    pub fn section(&self) -> AnyView {
        view! {
            <section class="sheet">
                <h2>"Beside published yields"</h2>
                {self.told()}
            </section>
        }
        .into_any()
    }
}

fn with_range(range: &PublishedRange, ratio: Decimal) -> AnyView {
    let place = |share: Decimal| {
        let percent = share.to_f64().unwrap_or(0.0) * 100.0;
        10.0 + 300.0 * ((percent.clamp(FROM, TO) - FROM) / (TO - FROM))
    };
    let (low, high, at) = (place(range.low), place(range.high), place(ratio));
    let sentence = if ratio < range.low {
        "This fish gave less than is published."
    } else if ratio > range.high {
        "This fish gave more than is published."
    } else {
        "This fish lies within what is published."
    };
    view! {
        <svg class="picture rangepic" viewBox="0 0 320 58" aria-hidden="true">
            <line class="axis" x1="10" y1="30" x2="310" y2="30"/>
            <rect class="band" x=low y="20" width={(high - low).max(4.0)} height="20" rx="4"/>
            <path class="mine" d=format!("M{at} 18 l-8 -13 h16 Z M{at} 18 V44")/>
            <text x="10" y="56">"20 %"</text>
            <text x="160" y="56" text-anchor="middle">"50 %"</text>
            <text x="310" y="56" text-anchor="end">"80 %"</text>
        </svg>
        <p>
            <b>{format!("Published: {} to {}. ", rounding::percent(range.low, 1), rounding::percent(range.high, 1))}</b>
            {sentence}
            {range.derived.is_some().then_some(" The range is worked out from figures for whole fish.")}
        </p>
    }
    .into_any()
}

fn sources(range: &PublishedRange) -> AnyView {
    view! {
        <details>
            <summary>"Sources"</summary>
            {range.derived.clone().map(|derived| view! { <p class="small">{derived}</p> })}
            <ul class="plain-list small">
                {range
                    .rows
                    .iter()
                    .map(|row| view! {
                        <li>
                            {format!(
                                "{}, {}: {} to {} %. {}",
                                row.species,
                                row.product.name(),
                                row.low_percent.normalize(),
                                row.high_percent.normalize(),
                                row.source
                            )}
                            {(!row.note.is_empty()).then(|| format!(" ({})", row.note))}
                        </li>
                    })
                    .collect_view()}
            </ul>
        </details>
    }
    .into_any()
}
