//! The fillet as it goes into the pan, as typed, and what the probe showed.

use std::sync::LazyLock;

use serde::{Deserialize, Deserializer, Serialize};

use super::refusals::{Asks, NoHeatFigure, NoProbe};
use super::serving::unread;
use crate::base::folded::{self, Folded};
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::fish::record::Fish;
use crate::heat::NoSetup;
use crate::heat::pan::{Heat, Material, Surface};
use crate::heat::safety::Rule;

/// The most probe readings kept of one fish.
const MOST_READINGS: usize = 20;

/// The heat under the pan, as a cook says it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Flame {
    /// Low.
    Low,
    /// Medium.
    #[default]
    Medium,
    /// Medium-high.
    MediumHigh,
    /// High.
    High,
}

impl Flame {
    /// Every setting.
    pub const ALL: [Self; 4] = [Self::Low, Self::Medium, Self::MediumHigh, Self::High];

    /// The name a cook knows it by.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Low => "low",
            Self::Medium => "medium",
            Self::MediumHigh => "medium-high",
            Self::High => "high",
        }
    }

    pub(super) fn heat(self) -> Heat {
        match self {
            Self::Low => Heat::LOW,
            Self::Medium => Heat::MEDIUM,
            Self::MediumHigh => Heat::MEDIUM_HIGH,
            Self::High => Heat::HIGH,
        }
    }
}

/// A pan, as typed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct PanCard {
    /// The pan among those kept on this phone.
    pub kept: Option<String>,
    /// What it is made of.
    pub material: Material,
    /// Its weight in grams, as typed.
    pub mass: String,
    /// Its flat base across in millimetres, as typed.
    pub base: String,
    /// Its contact, W/(m²·K) in whole figures, as it had been fitted to its own probe readings when it was chosen:
    /// finer than any fit, and the estimate stays the same until it is chosen again.
    #[serde(rename = "contact", deserialize_with = "some_whole")]
    pub contact_w_per_m2_k: Option<u32>,
}

/// A figure in whole numbers; the first builds kept decimals of it.
///
/// # Errors
/// For what is no number.
pub fn whole<'de, D: Deserializer<'de>>(from: D) -> Result<u32, D::Error> {
    Ok(rounded(f64::deserialize(from)?))
}

fn some_whole<'de, D: Deserializer<'de>>(from: D) -> Result<Option<u32>, D::Error> {
    Ok(Option::deserialize(from)?.map(rounded))
}

/// A figure to the nearest whole one, from nought.
#[must_use]
pub fn rounded(figure: f64) -> u32 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "what lies outside becomes the least or the greatest"
    )]
    let whole = figure.round() as u32;
    whole
}

impl Default for PanCard {
    /// A common pan: the cook is told what was taken.
    fn default() -> Self {
        Self {
            kept: None,
            material: Material::Steel,
            mass: "1400".to_owned(),
            base: "240".to_owned(),
            contact_w_per_m2_k: None,
        }
    }
}

/// The fillet and how it is to be cooked, as typed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct HeatCard {
    /// Thickness at the thickest in millimetres, as typed; empty: not measured.
    pub thickness: String,
    /// Whether the thickness was judged by eye.
    pub by_eye: bool,
    /// Thickness at the thin end in millimetres, as typed; empty: not measured.
    pub thin_end: String,
    /// Its temperature when it goes in, °C, as typed.
    pub start: String,
    /// The wanted core, °C, as typed.
    pub core: String,
    /// The rule the core is set beside.
    pub rule: Rule,
    /// The pan.
    pub pan: PanCard,
    /// What the skin lies on; nothing: as the missing kit has it.
    pub surface: Option<Surface>,
    /// The heat.
    pub flame: Flame,
    /// What the probe showed, in the order it was read.
    pub probed: Vec<Probed>,
}

/// What a new fish begins with.
static NEW: LazyLock<HeatCard> = LazyLock::new(HeatCard::default);

impl Default for HeatCard {
    fn default() -> Self {
        Self {
            thickness: String::new(),
            by_eye: false,
            thin_end: String::new(),
            start: "5".to_owned(),
            core: "63".to_owned(),
            rule: Rule::FdaIntact,
            pan: PanCard::default(),
            surface: None,
            flame: Flame::default(),
            probed: Vec::new(),
        }
    }
}

/// One reading of the probe.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Probed {
    /// When.
    pub at: Instant,
    /// What it showed, °C, as typed.
    pub typed: String,
}

/// A field of the card that a refusal can stand beside.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HeatField {
    /// Thickness at the thickest.
    Thickness,
    /// Thickness at the thin end.
    ThinEnd,
    /// Temperature at the start.
    Start,
    /// The wanted core.
    Core,
    /// The weight of the pan.
    PanMass,
    /// The base of the pan.
    PanBase,
}

impl HeatField {
    /// Whether this is what is refused: what it holds is no figure, or can't be right. An empty thickness is only asked for.
    #[must_use]
    pub fn is_refused(self, card: &HeatCard, refusal: &Refusal) -> bool {
        let (asks, wrong) = match self {
            Self::Thickness => (None, NoSetup::Thickness),
            Self::ThinEnd => (None, NoSetup::ThinEnd),
            Self::Start => (Some(Asks::Start), NoSetup::Start),
            Self::Core => (Some(Asks::Core), NoSetup::Core),
            Self::PanMass => (Some(Asks::PanMass), NoSetup::PanMass),
            Self::PanBase => (Some(Asks::PanBase), NoSetup::PanBase),
        };
        let text = card.field(self).trim().to_owned();
        Refusal::from(wrong) == *refusal
            || Refusal::from(NoHeatFigure::NoNumber(text)) == *refusal
            || asks.is_some_and(|asks| Refusal::from(NoHeatFigure::Empty(asks)) == *refusal)
    }
}

/// A tap on the card, as a plain value.
#[derive(Clone, Debug, PartialEq)]
pub enum HeatTap {
    /// A field was typed.
    Typed(HeatField, String),
    /// The thickness was judged by eye, in millimetres.
    ByEye(u32),
    /// The rule was chosen.
    Rule(Rule),
    /// What the pan is made of was chosen.
    Material(Material),
    /// What the skin lies on was chosen.
    Surface(Surface),
    /// The heat was chosen.
    Flame(Flame),
    /// A pan kept on this phone was chosen, or one that is kept from now on.
    Pan(PanCard),
    /// The probe was read.
    Probe(String),
}

impl HeatCard {
    /// Whether a thickness was entered.
    #[must_use]
    pub fn is_measured(&self) -> bool {
        !self.thickness.trim().is_empty()
    }

    fn field_mut(&mut self, field: HeatField) -> &mut String {
        match field {
            HeatField::Thickness => &mut self.thickness,
            HeatField::ThinEnd => &mut self.thin_end,
            HeatField::Start => &mut self.start,
            HeatField::Core => &mut self.core,
            HeatField::PanMass => &mut self.pan.mass,
            HeatField::PanBase => &mut self.pan.base,
        }
    }

    /// What a field holds.
    #[must_use]
    pub fn field(&self, field: HeatField) -> &str {
        match field {
            HeatField::Thickness => &self.thickness,
            HeatField::ThinEnd => &self.thin_end,
            HeatField::Start => &self.start,
            HeatField::Core => &self.core,
            HeatField::PanMass => &self.pan.mass,
            HeatField::PanBase => &self.pan.base,
        }
    }

    fn apply(&mut self, tap: &HeatTap, now: Instant) -> Result<(), Refusal> {
        match tap {
            HeatTap::Typed(field, text) => {
                *self.field_mut(*field) = crate::base::text::short(text)?;
                match field {
                    HeatField::Thickness => self.by_eye = false,
                    // Another pan than the one whose contact was fitted.
                    HeatField::PanMass | HeatField::PanBase => self.pan.contact_w_per_m2_k = None,
                    _ => {}
                }
            }
            HeatTap::ByEye(mm) => {
                self.thickness = mm.to_string();
                self.by_eye = true;
            }
            HeatTap::Rule(rule) => self.rule = *rule,
            HeatTap::Material(material) => {
                self.pan.material = *material;
                self.pan.contact_w_per_m2_k = None;
            }
            HeatTap::Surface(surface) => self.surface = Some(*surface),
            HeatTap::Flame(flame) => self.flame = *flame,
            HeatTap::Pan(pan) => self.pan = pan.clone(),
            HeatTap::Probe(text) => {
                read(text, Asks::Probe)?;
                if self.probed.len() >= MOST_READINGS {
                    return Err(NoProbe::ManyReadings.into());
                }
                self.probed.push(Probed {
                    at: now,
                    typed: text.trim().to_owned(),
                });
            }
        }
        Ok(())
    }
}

/// A figure that is asked for, as a cook types it.
pub(super) fn read(text: &str, asks: Asks) -> Result<f64, NoHeatFigure> {
    match text.trim() {
        "" => Err(NoHeatFigure::Empty(asks)),
        text => figure(text),
    }
}

/// A figure as a cook types it, with a point or a comma.
pub(super) fn figure(text: &str) -> Result<f64, NoHeatFigure> {
    let text = text.trim();
    text.replace(',', ".")
        .parse()
        .ok()
        .filter(|figure: &f64| figure.is_finite())
        .ok_or_else(|| NoHeatFigure::NoNumber(text.to_owned()))
}

impl Fish {
    /// What a tap on the heat card does. The times that were taken from an estimate don't outlive its entries.
    pub(super) fn heat_tap(&mut self, tap: &HeatTap, now: Instant) -> Result<(), Refusal> {
        if matches!(tap, HeatTap::Probe(_)) && self.so_far(now).is_none() {
            return Err(NoProbe::NotCooking.into());
        }
        self.change_heat(|card| card.apply(tap, now))?;
        match &self.run {
            Some(_) => Ok(()),
            None => self.drop_times(),
        }
    }

    /// The fillet as it goes into the pan. What can't be read shows as in a new fish, and refuses every change.
    #[must_use]
    pub fn heat(&self) -> &HeatCard {
        let said = self.heat.as_ref().and_then(|said| said.open().ok());
        said.unwrap_or(&NEW)
    }

    /// Forgets what the probe showed.
    pub(super) fn forget_probed(&mut self) -> Result<(), Refusal> {
        if self.heat().probed.is_empty() {
            return Ok(());
        }
        self.change_heat(|card| {
            card.probed.clear();
            Ok(())
        })
    }

    fn change_heat(
        &mut self,
        change: impl FnOnce(&mut HeatCard) -> Result<(), Refusal>,
    ) -> Result<(), Refusal> {
        let mut card = folded::to_change(self.heat.as_ref()).map_err(unread)?;
        change(&mut card)?;
        self.heat = Some(Folded::of(card).map_err(unread)?);
        Ok(())
    }
}
