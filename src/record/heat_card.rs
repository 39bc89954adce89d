//! The fillet as it goes into the pan, as typed, what it reads as for the estimate, and what the probe showed.

use serde::{Deserialize, Serialize};

use super::fish::Fish;
use super::weighing::Which;
use crate::heat::bench::{Bench, Fillet, Target};
use crate::heat::cook::SoFar;
use crate::heat::pan::{Heat, Material, Pan, Surface};
use crate::heat::probe::Reading;
use crate::heat::safety::Rule;
use crate::instant::Instant;
use crate::refusal::Refusal;
use crate::service::kit::Kit;
use crate::service::laid_out::panful;
use crate::service::step::OfFish;

/// The kitchen's air, °C (our choice).
pub const KITCHEN_C: f64 = 24.0;
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

    fn heat(self) -> Heat {
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
    /// Its contact, W/(m²·K), fitted from its own probe readings.
    pub contact: Option<f64>,
}

impl Default for PanCard {
    /// A common pan: the cook is told what was taken.
    fn default() -> Self {
        Self {
            kept: None,
            material: Material::Steel,
            mass: "1400".to_owned(),
            base: "240".to_owned(),
            contact: None,
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

/// What the estimate runs on.
pub type Entered = (Fillet, Bench, Target);

impl HeatCard {
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
                *self.field_mut(*field) = super::action::short(text)?;
                match field {
                    HeatField::Thickness => self.by_eye = false,
                    // Another pan than the one whose contact was fitted.
                    HeatField::PanMass | HeatField::PanBase => self.pan.contact = None,
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
                self.pan.contact = None;
            }
            HeatTap::Surface(surface) => self.surface = Some(*surface),
            HeatTap::Flame(flame) => self.flame = *flame,
            HeatTap::Pan(pan) => self.pan = pan.clone(),
            HeatTap::Probe(text) => {
                read(text, "What does the probe show, in °C?")?;
                if self.probed.len() >= MOST_READINGS {
                    return Err(Refusal::new(
                        "Twenty readings of one fish are enough: it is done by now.",
                    ));
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

/// A figure as a cook types it, with a point or a comma.
fn read(text: &str, asks: &str) -> Result<f64, Refusal> {
    let text = text.trim();
    if text.is_empty() {
        return Err(Refusal::new(asks));
    }
    text.replace(',', ".")
        .parse()
        .ok()
        .filter(|figure: &f64| figure.is_finite())
        .ok_or_else(|| Refusal::new(format!("“{text}” is no figure: type it like 19 or 19.5.")))
}

impl Fish {
    /// What a tap on the heat card does. The times that were taken from an estimate don't outlive its entries.
    pub(super) fn heat_tap(&mut self, tap: &HeatTap, now: Instant) -> Result<(), Refusal> {
        if matches!(tap, HeatTap::Probe(_)) && self.so_far(now).is_none() {
            return Err(Refusal::new(
                "The probe is read while the fish is in the pan or at rest.",
            ));
        }
        self.heat.apply(tap, now)?;
        if self.run.is_none() {
            self.serving.times = None;
        }
        Ok(())
    }

    /// What the skin lies on: as chosen, or as the missing kit has it.
    #[must_use]
    pub fn surface(&self) -> Surface {
        self.heat.surface.unwrap_or_else(|| {
            if self.slip.missing.contains(&Kit::NonStickPan) {
                Surface::BakingPaper
            } else {
                Surface::NonStick
            }
        })
    }

    /// The fish in the pan at one time, in grams: the ready fillets, or the portions of the dish, by the panfuls.
    fn panful_g(&self) -> Result<f64, Refusal> {
        let panfuls = f64::from(self.panfuls()?);
        let dish = self.dish()?;
        let ready = self.reading(Which::Ready).taken_mass();
        let grams = match ready {
            #[allow(clippy::cast_precision_loss)]
            Some(mass) => mass.mg() as f64 / 1000.0,
            None => f64::from(dish.covers) * f64::from(dish.portion_g),
        };
        Ok(grams / panfuls)
    }

    /// Reads the card for the estimate.
    ///
    /// # Errors
    /// The sentence for the first figure that can't be read.
    pub fn entered(&self) -> Result<Entered, Refusal> {
        let card = &self.heat;
        let thin_end_mm = match card.thin_end.trim() {
            "" => None,
            text => Some(read(text, "")?),
        };
        let key = self.slip.species.as_ref().and_then(|s| s.key());
        let fillet = Fillet {
            species: key.unwrap_or_default().to_owned(),
            thickness_mm: read(
                &card.thickness,
                "How thick is the fillet at its thickest, in mm?",
            )?,
            thin_end_mm,
            start_c: read(&card.start, "How cold is the fish when it goes in, in °C?")?,
            skin: true,
            mass_g: self.panful_g()?,
        };
        let bench = Bench {
            pan: Pan {
                material: card.pan.material,
                mass_g: read(&card.pan.mass, "What does the pan weigh, in grams?")?,
                base_mm: read(&card.pan.base, "How wide is the base of the pan, in mm?")?,
                conductance: card.pan.contact,
            },
            surface: self.surface(),
            heat: card.flame.heat(),
            room_c: KITCHEN_C,
        };
        let target = Target {
            core_c: read(&card.core, "Which core do you want, in °C?")?,
            rule: card.rule,
        };
        Ok((fillet, bench, target))
    }

    /// The panful in the pan or at rest, from 1; the last that went in.
    #[must_use]
    pub fn panful_in_hand(&self) -> u32 {
        self.latest_panful(Instant(i64::MAX))
            .map_or(1, |(number, _)| number)
    }

    fn latest_panful(&self, by: Instant) -> Option<(u32, Instant)> {
        let (run, dish) = (self.run.as_ref()?, self.dish().ok()?);
        let skin = dish
            .steps
            .iter()
            .filter(|step| step.of_fish == Some(OfFish::SkinSide));
        skin.filter_map(|step| Some((panful(&step.id).1, run.steps.get(&step.id)?.began)))
            .filter(|(_, began)| *began <= by)
            .max_by_key(|(_, began)| *began)
    }

    /// What had been done at a moment with the panful that was in the pan then, or at rest.
    #[must_use]
    pub fn so_far(&self, at: Instant) -> Option<SoFar> {
        let (number, began) = self.latest_panful(at)?;
        let (run, dish) = (self.run.as_ref()?, self.dish().ok()?);
        let step = |part: OfFish| {
            let step = dish
                .steps
                .iter()
                .find(|s| s.of_fish == Some(part) && panful(&s.id).1 == number)?;
            run.steps.get(&step.id)
        };
        let secs = |moment: Instant| u32::try_from(moment.ms_since(began) / 1000).ok();
        let by_then = |moment: Instant| (moment <= at).then(|| secs(moment)).flatten();
        Some(SoFar {
            now: secs(at)?,
            turned_at: step(OfFish::SkinSide)
                .and_then(|s| s.done)
                .and_then(by_then),
            lifted_at: step(OfFish::Rest).and_then(|s| by_then(s.began)),
        })
    }

    /// The last reading of the probe, with what had been done by then, while it is of the panful in hand.
    #[must_use]
    pub fn last_reading(&self) -> Option<Reading> {
        let probed = self.heat.probed.last()?;
        let began = self.latest_panful(Instant(i64::MAX))?.1;
        Some(Reading {
            so_far: self.so_far(probed.at).filter(|_| probed.at >= began)?,
            core_c: read(&probed.typed, "").ok()?,
        })
    }
}
