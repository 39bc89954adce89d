//! Where a yield lies against what is published, as a picture with its sentence and its sources.

use leptos::prelude::*;
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use crate::device::width;
use crate::fish::record::Fish;
use crate::trade::breakdown::DeliveryForm;
use crate::trade::plausible::{self, YieldVerdict};
use crate::trade::published::{self, PublishedRange};

/// The least width of the picture, in its own units, and what is left free at each side.
const LEAST_WIDTH: f64 = 160.0;
const BESIDE: f64 = 10.0;
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
        plausible::beside(
            self.key.as_deref().unwrap_or_default(),
            self.form,
            self.ratio,
            self.range().as_ref(),
        )
    }

    /// As a picture with its sentences and sources.
    pub fn told(&self) -> AnyView {
        let range = self.range();
        let verdict = self.verdict();
        view! {
            {match &range {
                Some(range) => with_range(range, self.ratio),
                None => view! {
                    <p data-says="usual">{format!("No figure is published here for this fish, {}. Most fish from whole give 34 to 62 %.", self.form.name().to_ascii_lowercase())}</p>
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
    let wide = width::for_picture(LEAST_WIDTH);
    let end = wide - BESIDE;
    let place = |share: Decimal| {
        let percent = share.to_f64().unwrap_or(0.0) * 100.0;
        BESIDE + (end - BESIDE) * ((percent.clamp(FROM, TO) - FROM) / (TO - FROM))
    };
    let (low, high, at) = (place(range.low), place(range.high), place(ratio));
    view! {
        <svg class="picture rangepic" data-says="published" viewBox=format!("0 0 {wide:.0} 58") aria-hidden="true">
            <line class="axis" x1=BESIDE y1="30" x2=end y2="30"/>
            {range.is_wide().then(|| view! { <rect class="band" x=low y="20" width={high - low} height="20" rx="4"/> })}
            {range.points().into_iter().map(|share| view! { <circle class="point" cx=place(share) cy="30" r="4"/> }).collect_view()}
            <path class="mine" d=format!("M{at} 18 l-8 -13 h16 Z M{at} 18 V44")/>
            <text x=BESIDE y="56">"20 %"</text>
            <text x=wide / 2.0 y="56" text-anchor="middle">"50 %"</text>
            <text x=end y="56" text-anchor="end">"80 %"</text>
        </svg>
        <p data-says="published">
            <b>{range.told()}". "</b>
            {standing(range, ratio)}
            {range.derived.is_some().then_some(" Worked out from figures for whole fish.")}
        </p>
    }
    .into_any()
}

/// What the published figures say of this fish; nothing for or against it where they are too few, or of something else.
fn standing(range: &PublishedRange, ratio: Decimal) -> &'static str {
    if range.is_wide() && !range.judges() {
        "That is not quite what you weighed, so it says nothing for or against this fish."
    } else if !range.judges() {
        "So few figures say nothing for or against this fish."
    } else if ratio < range.low {
        "This fish gave less than is published."
    } else if ratio > range.high {
        "This fish gave more than is published."
    } else {
        "This fish lies within what is published."
    }
}

fn sources(range: &PublishedRange) -> AnyView {
    view! {
        <details>
            <summary>"Sources"</summary>
            {range.derived.iter().chain(&range.left_out).map(|sum| view! { <p class="small" data-says="published">{sum.clone()}</p> }).collect_view()}
            <ul class="plain-list small" data-says="published">
                {range
                    .rows
                    .iter()
                    .map(|row| view! { <li>{row.told()}</li> })
                    .collect_view()}
            </ul>
        </details>
    }
    .into_any()
}
