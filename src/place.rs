//! Which screen is shown, as the text after `#`: so that any static host serves the app and Back works.

use std::fmt;

use crate::base::id::is_id;
use crate::code::link;
pub use number::JobNumber;
pub use shortcut::Shortcut;
pub use side::{ClassSide, DishSide};

mod number;
mod shortcut;
mod side;

/// A screen. Anything that can't be read as one is [`Place::Home`]: a mistyped address loses nothing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Place {
    /// The list of fish, and where a new one begins.
    Home,
    /// One fish, at one stage of the job.
    Fish(String, Stage),
    /// A result code that came as a link, its letters as they came.
    Code(String),
    /// The tutor's classes.
    Classes,
    /// One class, one side of it.
    Class(String, ClassSide),
    /// The cook's own dishes and the parts made ahead for them.
    Dishes,
    /// A dish that comes from another kitchen.
    DishIn,
    /// One dish or part, one side of it.
    Dish(String, DishSide),
    /// The cook's own tests side by side, or those of the demonstration.
    Compare {
        /// Whether those of the demonstration.
        demo: bool,
    },
    /// What each fish costs to eat at today's prices.
    Cheapest {
        /// Whether with the tests of the demonstration.
        demo: bool,
    },
    /// Units, sound and what is kept on this phone.
    Settings,
    /// What is kept on this phone: room, backup, and what was set aside.
    Kept,
    /// What was removed or replaced.
    Bin,
    /// A backup, looked at and put in.
    Restore,
    /// What the app promises, its cautions and its sources.
    About,
    /// From the home screen straight to a new fish, or to what cooks.
    Shortcut(Shortcut),
}

/// How far along the job a screen belongs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stage {
    /// The whole job of this fish on one page.
    Summary,
    /// What was bought: species, form, price, scale, portions, kit.
    Delivery,
    /// The fish on the scale as delivered.
    WeighWhole,
    /// One step of the filleting, counted from nought.
    Fillet(usize),
    /// The fillets off the bone on the scale.
    WeighOffBone,
    /// Head and frame on the scale, where the fish as delivered was weighed wrong.
    WeighFrame,
    /// The fillets ready to cook on the scale.
    WeighReady,
    /// Yield and cost.
    Yield,
    /// The chill clock and the mise en place.
    Prepare,
    /// How the fillet cooks: measured, estimated.
    Heat,
    /// When each step happens, worked out.
    Plan,
    /// The steps of the dish, to be changed.
    Steps,
    /// The dish against the clock, for a glance from the stove.
    Service,
    /// The same as every step one by one, with all that can be done to each.
    AllSteps,
    /// The plate checked before it leaves.
    Pass,
    /// The result as a code to send.
    Code,
    /// The result as a card to print.
    Card,
    /// Photos, and what the cook says of the fish.
    Journal,
    /// One of the numbers, to be put right.
    PutRight(JobNumber),
}

impl Stage {
    /// The stages in the order of the job, the first filleting step standing for all of them.
    pub const JOB: [Self; 9] = [
        Self::Delivery,
        Self::WeighWhole,
        Self::Fillet(0),
        Self::WeighOffBone,
        Self::WeighReady,
        Self::Yield,
        Self::Prepare,
        Self::Service,
        Self::Pass,
    ];

    /// The stage's name on a screen.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Summary => "Numbers and stages",
            Self::Delivery => "Delivery",
            Self::WeighWhole => "Weigh as delivered",
            Self::Fillet(_) => "Fillet",
            Self::WeighOffBone => "Weigh off the bone",
            Self::WeighFrame => "Weigh head and bones",
            Self::WeighReady => "Weigh ready to cook",
            Self::Yield => "Yield and cost",
            Self::Prepare => "Chill and prepare",
            Self::Heat => "How the fillet cooks",
            Self::Plan => "Plan of the service",
            Self::Steps => "Steps of the dish",
            Self::Service => "Service",
            Self::AllSteps => "All steps",
            Self::Pass => "At the pass",
            Self::Code => "Result code",
            Self::Card => "Yield card",
            Self::Journal => "Journal",
            Self::PutRight(number) => number.stage().name(),
        }
    }

    fn parse(word: &str, rest: Option<&str>) -> Option<Self> {
        Some(match word {
            "delivery" => Self::Delivery,
            "weigh-whole" => Self::WeighWhole,
            "fillet" => Self::Fillet(rest?.parse::<usize>().ok()?.checked_sub(1)?),
            "weigh-off-bone" => Self::WeighOffBone,
            "weigh-frame" => Self::WeighFrame,
            "weigh-ready" => Self::WeighReady,
            "yield" => Self::Yield,
            "prepare" => Self::Prepare,
            "heat" => Self::Heat,
            "plan" => Self::Plan,
            "steps" => Self::Steps,
            "service" => Self::Service,
            "all-steps" => Self::AllSteps,
            "pass" => Self::Pass,
            "code" => Self::Code,
            "card" => Self::Card,
            "journal" => Self::Journal,
            "put-right" => Self::PutRight(
                JobNumber::ALL
                    .into_iter()
                    .find(|number| Some(number.word()) == rest)?,
            ),
            _ => return None,
        })
    }
}

impl fmt::Display for Stage {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Summary => Ok(()),
            Self::Delivery => f.write_str("/delivery"),
            Self::WeighWhole => f.write_str("/weigh-whole"),
            Self::Fillet(step) => write!(f, "/fillet/{}", step.saturating_add(1)),
            Self::WeighOffBone => f.write_str("/weigh-off-bone"),
            Self::WeighFrame => f.write_str("/weigh-frame"),
            Self::WeighReady => f.write_str("/weigh-ready"),
            Self::Yield => f.write_str("/yield"),
            Self::Prepare => f.write_str("/prepare"),
            Self::Heat => f.write_str("/heat"),
            Self::Plan => f.write_str("/plan"),
            Self::Steps => f.write_str("/steps"),
            Self::Service => f.write_str("/service"),
            Self::AllSteps => f.write_str("/all-steps"),
            Self::Pass => f.write_str("/pass"),
            Self::Code => f.write_str("/code"),
            Self::Card => f.write_str("/card"),
            Self::Journal => f.write_str("/journal"),
            Self::PutRight(number) => write!(f, "/put-right/{}", number.word()),
        }
    }
}

impl Place {
    /// Reads the part of an address from `#` on. Never fails: what is not a screen is home.
    #[must_use]
    pub fn parse(hash: &str) -> Self {
        Self::read(hash).unwrap_or(Self::Home)
    }

    /// The identity of the fish that a screen is about.
    #[must_use]
    pub fn fish(&self) -> Option<&str> {
        match self {
            Self::Fish(id, _) => Some(id),
            _ => None,
        }
    }

    fn read(hash: &str) -> Option<Self> {
        if let Some(letters) = link::parse(hash) {
            return Some(Self::Code(letters.to_owned()));
        }
        let mut parts = hash.strip_prefix("#/")?.split('/');
        match parts.next()? {
            "settings" => Some(Self::Settings),
            "about" => Some(Self::About),
            "kept" => Some(Self::Kept),
            "bin" => Some(Self::Bin),
            "restore" => Some(Self::Restore),
            "classes" => Some(Self::Classes),
            "dishes" => Some(Self::Dishes),
            "dish-in" => Some(Self::DishIn),
            "dish" => {
                let id = parts.next().filter(|id| is_id(id))?.to_owned();
                let side = match parts.next() {
                    None => DishSide::Card,
                    Some(word) => DishSide::parse(word, parts.next())?,
                };
                Some(Self::Dish(id, side))
            }
            "compare" => Some(Self::Compare {
                demo: parts.next() == Some("demo"),
            }),
            "cheapest" => Some(Self::Cheapest {
                demo: parts.next() == Some("demo"),
            }),
            "class" => {
                let id = parts.next().filter(|id| is_id(id))?.to_owned();
                let side = match parts.next() {
                    None => ClassSide::Board,
                    Some(word) => ClassSide::parse(word, parts.next())?,
                };
                Some(Self::Class(id, side))
            }
            "fish" => {
                let id = parts.next().filter(|id| is_id(id))?.to_owned();
                let stage = match parts.next() {
                    None => Stage::Summary,
                    Some(word) => Stage::parse(word, parts.next())?,
                };
                Some(Self::Fish(id, stage))
            }
            word => Shortcut::parse(word).map(Self::Shortcut),
        }
    }
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Home => f.write_str("#/"),
            Self::Fish(id, stage) => write!(f, "#/fish/{id}{stage}"),
            Self::Settings => f.write_str("#/settings"),
            Self::About => f.write_str("#/about"),
            Self::Shortcut(shortcut) => shortcut.fmt(f),
            Self::Kept => f.write_str("#/kept"),
            Self::Bin => f.write_str("#/bin"),
            Self::Restore => f.write_str("#/restore"),
            Self::Code(letters) => write!(f, "#/c/{letters}"),
            Self::Classes => f.write_str("#/classes"),
            Self::Class(id, side) => write!(f, "#/class/{id}{side}"),
            Self::Dishes => f.write_str("#/dishes"),
            Self::DishIn => f.write_str("#/dish-in"),
            Self::Dish(id, side) => write!(f, "#/dish/{id}{side}"),
            Self::Compare { demo } => write!(f, "#/compare{}", of_demo(*demo)),
            Self::Cheapest { demo } => write!(f, "#/cheapest{}", of_demo(*demo)),
        }
    }
}

fn of_demo(demo: bool) -> &'static str {
    if demo { "/demo" } else { "" }
}

#[cfg(test)]
mod tests {
    use super::{ClassSide, JobNumber, Place, Shortcut, Stage};

    #[test]
    fn every_screen_is_found_again_by_its_address() {
        let stages = Stage::JOB.into_iter().chain([
            Stage::Summary,
            Stage::Fillet(11),
            Stage::Code,
            Stage::Card,
            Stage::Journal,
            Stage::Heat,
            Stage::Plan,
            Stage::Steps,
            Stage::AllSteps,
            Stage::WeighFrame,
        ]);
        let stages = stages.chain(JobNumber::ALL.map(Stage::PutRight));
        let fish = stages.map(|stage| Place::Fish("k3f9".into(), stage));
        let others = [
            Place::Home,
            Place::Settings,
            Place::About,
            Place::Shortcut(Shortcut::Begin),
            Place::Shortcut(Shortcut::Cooking),
            Place::Kept,
            Place::Bin,
            Place::Restore,
            Place::Classes,
            Place::Class("k3f9".into(), ClassSide::Board),
            Place::Class("k3f9".into(), ClassSide::Students),
            Place::Class("k3f9".into(), ClassSide::Student("TERN B".into())),
            Place::Class("k3f9".into(), ClassSide::Criteria),
            Place::Class("k3f9".into(), ClassSide::Wall),
            Place::Class("k3f9".into(), ClassSide::Sheet),
            Place::Dishes,
            Place::DishIn,
            Place::Compare { demo: false },
            Place::Compare { demo: true },
            Place::Cheapest { demo: false },
            Place::Cheapest { demo: true },
            Place::Code("3M7N9Q".into()),
            Place::Code(String::new()),
        ];
        for place in fish.chain(others) {
            assert_eq!(Place::parse(&place.to_string()), place);
        }
    }

    #[test]
    fn what_is_no_screen_is_home() {
        for hash in [
            "",
            "#",
            "#/",
            "#/nowhere",
            "#/fish",
            "#/fish/",
            "#/fish/UPPER/yield",
            "#/fish/../x",
            "#/fish/a/fillet",
            "#/fish/a/fillet/0",
            "#/fish/a/fillet/99999999999999999999999",
            "#/fish/a/whatever",
            "#/fish/a/put-right",
            "#/fish/a/put-right/price",
            "#/class",
            "#/class/UPPER",
            "#/dish",
            "#/dish/a/line",
            "#/dish/a/line/UPPER",
            "#/dish/a/nowhere",
            "#/c",
        ] {
            assert_eq!(Place::parse(hash), Place::Home, "{hash}");
        }
    }
}
