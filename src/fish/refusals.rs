//! What is said where a tap on a fish can't be done, a line of it doesn't read, or a weight is asked about.

use std::fmt;

use super::weighing::Doubt;
use crate::base::refusal::Said;
use crate::service::dish::shipped::FIXED_TIMES_FIT_MM;

/// Why a line of the delivery slip doesn't read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoSlip {
    /// No fish is chosen.
    NoSpecies,
    /// It is another fish, without a name.
    Unnamed,
    /// It is another fish, and its name is too long.
    LongName,
    /// No form is chosen.
    NoForm,
    /// The number of fish is no whole number.
    CountNotWhole,
    /// No fish is on the scale.
    NoneTogether,
    /// More fish are on the scale than one test is made of.
    ManyTogether,
    /// No portions are wanted.
    NoPortions,
    /// The portions are no whole number.
    PortionsNotWhole,
    /// The portions are none.
    ZeroPortions,
    /// The portions are more than a fish gives.
    ManyPortions,
}

impl Said for NoSlip {}

impl fmt::Display for NoSlip {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NoSpecies => "Choose the fish, or pick 'another fish' and give its name.",
            Self::Unnamed => "Give the fish a name, so that you can find it again.",
            Self::LongName => "Keep the name of the fish under 60 letters.",
            Self::NoForm => "Choose how the fish was delivered: the yield depends on it.",
            Self::CountNotWhole => {
                "Say how many fish are weighed together, in a whole number such as 1."
            }
            Self::NoneTogether => "You need at least one fish on the scale.",
            Self::ManyTogether => {
                "Weigh at most 200 fish together: make several tests of a larger batch."
            }
            Self::NoPortions => "Say how many portions you want from this fish.",
            Self::PortionsNotWhole => "Portions are a whole number, such as 2.",
            Self::ZeroPortions => "You need at least one portion.",
            Self::ManyPortions => {
                "One fish will not give more than 200 portions: check the number."
            }
        })
    }
}

/// Why what the scale shows can't be taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoWeighing {
    /// The fillets have been cooked.
    Cooked,
    /// It isn't said whether the fillets are raw.
    RawOrNot,
    /// The fillets are heavier than the fish.
    OverWhole,
    /// The trimmed fillets are heavier than off the bone.
    OverOffBone,
    /// What came off the fillets is weighed, and the fillets are not.
    FilletsFirst,
    /// It is no more than the scale shows with nothing on it.
    EmptyScale,
}

impl Said for NoWeighing {}

impl fmt::Display for NoWeighing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Cooked => {
                "A cooked weight can't be used: the water lost in the pan would be counted as trim. Weigh the fillets raw."
            }
            Self::RawOrNot => "Say first whether the fillets are still raw.",
            Self::OverWhole => {
                "The fillets can't weigh more than the whole fish: check both readings and the zero of the scale."
            }
            Self::OverOffBone => {
                "Trimmed fillets can't weigh more than they did off the bone: weigh them again."
            }
            Self::FilletsFirst => "Weigh the fillets off the bone first, then head and bones.",
            Self::EmptyScale => "That is no more than your scale shows empty: weigh again.",
        })
    }
}

impl Said for Doubt {}

impl fmt::Display for Doubt {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::BetweenSteps(scale) => write!(
                f,
                "Your scale shows steps of {}, and this weight lies between two. Is it what the scale shows?",
                scale.name()
            ),
            Self::OneFish(odd) => odd.fmt(f),
            Self::OffBone(odd) => odd.fmt(f),
            Self::HalfYield => {
                f.write_str("That is what one fillet gives: were both of them on the scale?")
            }
            Self::EachOf(count, odd) => {
                write!(f, "With {count} fish on the scale, each weighs about {odd}")
            }
            Self::Yield(verdict) => {
                write!(f, "{} Is it what the scale shows?", verdict.sentence())
            }
        }
    }
}

/// Why a tap on a fish that is being weighed changes nothing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoFishTap {
    /// It has as many kept parts as one fish may.
    ManyKept,
    /// No kept part has this identity.
    KeptGone,
    /// No code carries a test of this number.
    TestNumber,
    /// It is for what cooks.
    WhereItCooks,
    /// Head and frame are to be added to fillets that are not weighed.
    NothingToAdd,
}

impl Said for NoFishTap {}

impl fmt::Display for NoFishTap {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::ManyKept => "Eight kept parts are enough for one fish: put some together.",
            Self::KeptGone => "This part was removed in another tab.",
            Self::TestNumber => "A code counts your tests of one fish from 1 to 32.",
            Self::NothingToAdd => "Weigh the fillets off the bone first, then head and bones.",
            Self::WhereItCooks => "This is done where the fish is cooked.",
        })
    }
}

/// Why the service of a fish does not go on, or not as wanted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoService {
    /// So many lines of the mise en place are open.
    LinesOpen(usize),
    /// The same, and nobody has said how long the fish lies in the pan.
    LinesOpenUntimed(usize),
    /// Nobody has said how long the fish lies in the pan.
    Untimed,
    /// It hasn't begun.
    NotBegun,
    /// It has begun.
    Begun,
    /// The fillets in the pan at once are no whole number.
    AtOnceNotWhole,
    /// No more dishes fit into the service.
    ManyDishes,
    /// The dish is not in the service any more.
    NoSuchDish,
    /// The minutes that a plate comes later are no whole number.
    LaterNotWhole,
    /// They are more than this.
    TooLate(u32),
}

impl Said for NoService {}

impl fmt::Display for NoService {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::LinesOpen(1) => "One thing is not ready yet: finish it, or start anyway.",
            Self::LinesOpen(lines) => {
                return write!(
                    f,
                    "{lines} things are not ready yet: finish them, or start anyway."
                );
            }
            Self::LinesOpenUntimed(lines) => {
                let things = match lines {
                    1 => "One thing is".to_owned(),
                    lines => format!("{lines} things are"),
                };
                return write!(
                    f,
                    "{things} not ready yet, and how thick the fillet is was not asked: start anyway, and it cooks by the dish's fixed times. They fit up to {FIXED_TIMES_FIT_MM} mm."
                );
            }
            Self::Untimed => {
                return write!(
                    f,
                    "How thick is the fillet? Its times come from that. Start anyway, and it cooks by the dish's fixed times: they fit up to {FIXED_TIMES_FIT_MM} mm."
                );
            }
            Self::NotBegun => "Start the service first.",
            Self::Begun => "The service has begun: start it again to change this.",
            Self::AtOnceNotWhole => "Fillets in the pan at once are a whole number, such as 2.",
            Self::ManyDishes => "One service takes six dishes at most: start another for the rest.",
            Self::NoSuchDish => "This dish has been taken out of the service.",
            Self::LaterNotWhole => "Minutes later are a whole number, such as 20.",
            Self::TooLate(minutes) => {
                return write!(
                    f,
                    "A plate that comes more than {minutes} minutes later is a service of its own."
                );
            }
        })
    }
}

/// What is asked for where a figure of the heat card is empty.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Asks {
    /// Thickness at the thickest.
    Thickness,
    /// Temperature at the start.
    Start,
    /// The wanted core.
    Core,
    /// The weight of the pan.
    PanMass,
    /// The base of the pan.
    PanBase,
    /// A reading of the probe.
    Probe,
}

/// Why a figure of the heat card doesn't read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoHeatFigure {
    /// It is empty.
    Empty(Asks),
    /// This is no figure.
    NoNumber(String),
}

impl Said for NoHeatFigure {}

impl fmt::Display for NoHeatFigure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Empty(Asks::Thickness) => "How thick is the fillet at its thickest, in mm?",
            Self::Empty(Asks::Start) => "How cold is the fish when it goes in, in °C?",
            Self::Empty(Asks::Core) => "Which core do you want, in °C?",
            Self::Empty(Asks::PanMass) => "What does the pan weigh, in grams?",
            Self::Empty(Asks::PanBase) => "How wide is the base of the pan, in mm?",
            Self::Empty(Asks::Probe) => "What does the probe show, in °C?",
            Self::NoNumber(text) => {
                return write!(f, "“{text}” is no figure: type it like 19 or 19.5.");
            }
        })
    }
}

/// Why a reading of the probe is not taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoProbe {
    /// No fish is in the pan or at rest.
    NotCooking,
    /// There are as many as are kept of one fish.
    ManyReadings,
}

impl Said for NoProbe {}

impl fmt::Display for NoProbe {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NotCooking => "The probe is read while the fish is in the pan or at rest.",
            Self::ManyReadings => "Twenty readings of one fish are enough: it is done by now.",
        })
    }
}

/// Why a fish is not put into a code.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NothingToSend {
    /// The first or the last weight is not taken.
    Unweighed,
    /// No fish is chosen.
    NoSpecies,
    /// More fish were weighed together than a code has room for.
    ManyTogether,
    /// It was begun on a day that no code has.
    Clock,
    /// Every number of these letters was given for this fish.
    NoNumber,
}

impl Said for NothingToSend {}

impl fmt::Display for NothingToSend {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Unweighed => {
                "Weigh the fish whole and the fillets ready to cook first: the code carries both."
            }
            Self::NoSpecies => "Choose the fish on the delivery slip first.",
            Self::ManyTogether => {
                "A code carries at most 32 fish weighed together: this batch is larger."
            }
            Self::Clock => "This phone's clock was outside 2020 to 2064 when the fish was begun.",
            Self::NoNumber => {
                "These letters have used all 32 numbers for this fish: choose the number that this result corrects, or agree on other letters."
            }
        })
    }
}
