//! Why a result stands where it does: what came off at each stage beside the class, and the two likeliest causes with
//! what would tell the one from the other. The causes are common practice, no source.

use rust_decimal::prelude::ToPrimitive;

use super::filleted;
use super::flags::{Flag, Slipped};
use super::limits::FEWEST;
use super::result::{ClassResult, Figures};
use super::spread::Spread;
use crate::base::filleted::{FilletAnswer, FilletQuestion};
use crate::base::kit::Kit;
use crate::trade::plausible::YieldVerdict;

/// Points of the delivered weight from which a stage is worth a cause: less is what two good hands differ by.
const WORTH_A_CAUSE: f64 = 3.0;

/// One thing that may lie behind a result, and how to find out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LikelyCause {
    /// What may have happened.
    pub what: &'static str,
    /// What would tell.
    pub tells: &'static str,
}

/// What came off beside the class, in points of the delivered weight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StageLosses {
    /// Up to the bone; nothing where it was not weighed here or by the class.
    pub to_the_bone: Option<f64>,
    /// In trimming; nothing where it was not weighed.
    pub trimming: Option<f64>,
    /// In all.
    pub all: f64,
    /// What was told of the filleting that is unlike what most of the class told.
    pub unlike: [Option<FilletAnswer>; 4],
}

/// Points lost up to the bone, and in trimming.
fn stages(figures: &Figures) -> [Option<f64>; 2] {
    let points = |share: rust_decimal::Decimal| Some(share.to_f64()? * 100.0);
    match figures.losses.as_slice() {
        [bone, trimming] => [points(bone.share), points(trimming.share)],
        _ => [None, None],
    }
}

impl StageLosses {
    /// A result beside the median of its class, the results of the same species and form; nothing for a class too small to
    /// say.
    #[must_use]
    pub fn of<'a>(
        result: &ClassResult,
        class: impl IntoIterator<Item = &'a ClassResult>,
    ) -> Option<Self> {
        let figures = result.figures.as_ref().ok()?;
        let all_of_it: Vec<&ClassResult> = class.into_iter().collect();
        let class: Vec<&Figures> = all_of_it
            .iter()
            .filter_map(|one| one.figures.as_ref().ok())
            .collect();
        let beside = |own: Option<f64>, value: &dyn Fn(&Figures) -> Option<f64>| {
            let values: Vec<f64> = class.iter().filter_map(|one| value(one)).collect();
            let spread = Spread::of(&values).filter(|spread| spread.count >= FEWEST)?;
            Some(own? - spread.median)
        };
        let all = |one: &Figures| Some((1.0 - one.yield_ratio.to_f64()?) * 100.0);
        let [bone, trimming] = stages(figures);
        Some(Self {
            to_the_bone: beside(bone, &|one| stages(one)[0]),
            trimming: beside(trimming, &|one| stages(one)[1]),
            all: beside(all(figures), &all)?,
            unlike: FilletQuestion::ALL.map(|question| {
                let usual = filleted::usual(question, all_of_it.iter().copied(), FEWEST)?;
                result.filleted(question).filter(|told| *told != usual)
            }),
        })
    }

    /// Whether a stage stands out so far that a student should hear of it.
    #[must_use]
    pub fn is_worth_a_word(&self) -> bool {
        let stages = [self.to_the_bone, self.trimming, Some(self.all)];
        let mut stages = stages.into_iter().flatten();
        stages.any(|points| points.abs() >= WORTH_A_CAUSE)
    }

    /// In words, with the kit that was missing and what was filleted unlike the class: `4.1 points more came off up to the bone than in the class, 0.5 points less
    /// in trimming; no fish pliers or tweezers.`
    #[must_use]
    pub fn told(&self, result: &ClassResult) -> String {
        let side = |points: f64| if points < 0.0 { "less" } else { "more" };
        let plain = |points: f64| format!("{:.1}", points.abs());
        let mut said = match (self.to_the_bone, self.trimming) {
            (Some(bone), Some(trimming)) => format!(
                "{} points {} came off up to the bone than in the class, {} points {} in trimming",
                plain(bone),
                side(bone),
                plain(trimming),
                side(trimming)
            ),
            _ => format!(
                "{} points {} came off in all than in the class; where can't be told, for the fillets were not weighed off the bone",
                plain(self.all),
                side(self.all)
            ),
        };
        let lacked: Vec<&str> = [Kit::Pliers, Kit::FlexibleKnife]
            .into_iter()
            .filter(|kit| result.sheet.missing.contains(kit))
            .map(Kit::name)
            .collect();
        if !lacked.is_empty() {
            said.push_str(&format!("; no {}", lacked.join(", no ")));
        }
        let unlike: Vec<&str> = (self.unlike.iter().flatten())
            .map(|answer| answer.name())
            .collect();
        if !unlike.is_empty() {
            said.push_str(&format!(
                "; {}, unlike most of the class",
                unlike.join(", ")
            ));
        }
        said.push('.');
        said
    }
}

const fn cause(what: &'static str, tells: &'static str) -> LikelyCause {
    LikelyCause { what, tells }
}

const FRAME: LikelyCause = cause(
    "Flesh stayed on the frame, or at the collar.",
    "Look at the frame against the light: flesh shows between the bones. Scrape it off and weigh it.",
);
const WET_WHOLE: LikelyCause = cause(
    "The fish was weighed with ice or water on it, or in another form than the one chosen.",
    "Ask what lay on the scale: a gutted fish has no guts to lose, and ice melts off.",
);
const TRIMMED: LikelyCause = cause(
    "It was trimmed far: belly, edges, or pin bones cut out in a strip.",
    "Look at the trimmings: a strip of thick flesh among them is yield.",
);
const COOKED: LikelyCause = cause(
    "The fillets were weighed after the pan.",
    "Ask when they were weighed: raw flesh is glassy, cooked flesh white, and a pan takes about a fifth.",
);
const WET_FILLETS: LikelyCause = cause(
    "The fillets were rinsed and weighed wet.",
    "Dry them and weigh again: water comes off, a reading that was changed over stays.",
);
const CHANGED_OVER: LikelyCause = cause(
    "Two weights were written down the other way round.",
    "Ask for the slip of the bench: which weight was taken first stands there.",
);
const UNTRIMMED: LikelyCause = cause(
    "The fillets were weighed before rib bones, edges and belly came off.",
    "Look at the fillets: rib bones still in them can be felt.",
);
const AFTER_GUTTING: LikelyCause = cause(
    "The fish was weighed after gutting, and called whole.",
    "Ask what was in the bin when it was weighed first.",
);
const ONE_FILLET: LikelyCause = cause(
    "One fillet was weighed, not both.",
    "Weigh both now: they weigh about the same.",
);

/// The two likeliest causes of what was flagged first, or else of the stage that stands out most.
#[must_use]
pub fn causes(flags: &[Flag], beside: Option<StageLosses>) -> Option<[LikelyCause; 2]> {
    match flags.first() {
        Some(Flag::Gained { .. }) => Some([WET_FILLETS, CHANGED_OVER]),
        Some(Flag::Swapped { .. }) => Some([
            CHANGED_OVER,
            cause(
                "A figure of one weight was misread or mistyped.",
                "Weigh the one that can still be weighed: it shows which reading was wrong.",
            ),
        ]),
        Some(Flag::OneFillet { .. }) => Some([ONE_FILLET, FRAME]),
        Some(Flag::CookedLikely { .. }) => Some([COOKED, TRIMMED]),
        Some(Flag::SizeOff { .. }) => Some([
            cause(
                "The scale was set to another unit, or a figure slipped.",
                "Ask what the display showed beside the figure.",
            ),
            cause(
                "It was another fish than the class's, or several together.",
                "Ask which box it came from, and how many lay on the scale.",
            ),
        ]),
        Some(Flag::PriceOff(Slipped::PoundForKilo | Slipped::KiloForPound)) => Some([
            cause(
                "The price is for a pound where a kilo was chosen, or the other way round.",
                "Look at the label: the unit stands beside the price.",
            ),
            cause(
                "It was bought elsewhere, or on another day.",
                "Ask for the receipt.",
            ),
        ]),
        Some(Flag::PriceOff(_)) => Some([
            cause(
                "The decimal mark slipped.",
                "Look at the label or the receipt.",
            ),
            cause(
                "It is the price of the whole fish, or of a box, not of a kilo.",
                "Times the weight it would be what was paid.",
            ),
        ]),
        Some(Flag::PortionsOff { .. }) => Some([
            cause(
                "The number of portions was mistyped.",
                "Ask how many plates it was for.",
            ),
            cause(
                "Portions of several fish, or of several dishes, were counted.",
                "Ask what else went on the plates.",
            ),
        ]),
        Some(Flag::FormOff(_)) => Some([
            cause(
                "The form was chosen wrong.",
                "Ask what was still in and on the fish when it was weighed first.",
            ),
            cause(
                "It really came in another form.",
                "Then its yield may not be set beside the others: it stays by itself.",
            ),
        ]),
        Some(Flag::Implausible(YieldVerdict::FarTooHigh)) => by_stage(beside, true),
        Some(Flag::Outlier { distance }) => by_stage(beside, *distance > 0.0),
        Some(Flag::Implausible(_)) => by_stage(beside, false),
        Some(Flag::Impossible(_) | Flag::FinerThanScale { .. }) => None,
        None => {
            let beside = beside?;
            (beside.all.abs() >= WORTH_A_CAUSE)
                .then(|| by_stage(Some(beside), beside.all < 0.0))
                .flatten()
        }
    }
}

/// Causes of a high or low yield, by the stage that stands out in that direction.
fn by_stage(beside: Option<StageLosses>, high: bool) -> Option<[LikelyCause; 2]> {
    let sign = if high { -1.0 } else { 1.0 };
    let stage = beside.and_then(|beside| beside.to_the_bone.zip(beside.trimming));
    let in_trimming = stage.map(|(bone, trimming)| trimming * sign > bone * sign);
    Some(match (high, in_trimming) {
        (false, Some(false)) => [FRAME, WET_WHOLE],
        (false, Some(true)) => [TRIMMED, COOKED],
        (false, None) => [FRAME, TRIMMED],
        (true, Some(false)) => [AFTER_GUTTING, WET_FILLETS],
        (true, Some(true)) => [UNTRIMMED, WET_FILLETS],
        (true, None) => [UNTRIMMED, AFTER_GUTTING],
    })
}
