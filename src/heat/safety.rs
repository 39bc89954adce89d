//! What the published codes ask of a core, and the sentences that stand beside every estimate.

use serde::{Deserialize, Serialize};

/// A published rule for the core of a whole piece of fish. The cook's own local code decides.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Rule {
    /// FDA Food Code 3-401.11(A)(1), intact fish: 63 °C for 15 s in all parts.
    FdaIntact,
    /// UK Food Standards Agency: 70 °C for 2 min, or its table's equals (as quoted in secondary
    /// sources).
    UkFsa,
    /// Whole pieces of fish "can be cooked to preference" (Victoria, Australia: Do Food Safely).
    Preference,
}

impl Rule {
    /// Every rule.
    pub const ALL: [Self; 3] = [Self::FdaIntact, Self::UkFsa, Self::Preference];

    /// Temperatures, °C, and how long to hold each, s; any one line satisfies the rule.
    #[must_use]
    pub fn lines(self) -> &'static [(f64, u32)] {
        match self {
            Self::FdaIntact => &[(63.0, 15)],
            Self::UkFsa => &[
                (70.0, 120),
                (60.0, 45 * 60),
                (65.0, 10 * 60),
                (75.0, 30),
                (80.0, 6),
            ],
            Self::Preference => &[],
        }
    }

    /// What the screen calls it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::FdaIntact => "63 °C for 15 seconds",
            Self::UkFsa => "70 °C for 2 minutes",
            Self::Preference => "to preference",
        }
    }

    /// Where it is published.
    #[must_use]
    pub fn source(self) -> &'static str {
        match self {
            Self::FdaIntact => "FDA Food Code 3-401.11(A)(1), intact fish",
            Self::UkFsa => {
                "UK Food Standards Agency, cooking your food, as quoted in secondary sources"
            }
            Self::Preference => "Victoria, Australia: Do Food Safely, whole pieces of fish",
        }
    }

    /// The line a core of `core_c` is meant to satisfy: the hottest within its reach.
    #[must_use]
    pub fn aimed_at(self, core_c: f64) -> Option<(f64, u32)> {
        let (first, _) = self.lines().first()?;
        self.lines()
            .iter()
            .copied()
            .filter(|(temp, _)| temp >= first && core_c >= *temp)
            .max_by(|a, b| a.0.total_cmp(&b.0))
    }
}

/// How an estimate stands against a rule.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SafetyVerdict {
    /// The rule looked at.
    pub rule: Rule,
    /// The line that is met in every part of the thickness: °C and s.
    pub met: Option<(f64, u32)>,
    /// The low end of the band reaches that line's temperature too.
    pub sure: bool,
    /// One or two sentences for the screen.
    pub sentence: String,
}

impl SafetyVerdict {
    /// Looks at `rule`, where `held` gives the seconds that the coldest part spends at or above a
    /// temperature without a break, `peak_c` is the highest it reaches, and `low_c` that peak at the
    /// low end of its band.
    #[must_use]
    pub fn of(rule: Rule, peak_c: f64, low_c: f64, held: impl Fn(f64) -> u32) -> Self {
        let met = rule
            .lines()
            .iter()
            .copied()
            .find(|(temp, secs)| held(*temp) >= *secs);
        let sure = met.is_some_and(|(temp, _)| low_c >= temp);
        let sentence = match (met, rule.lines().first()) {
            (Some((temp, secs)), _) if sure => format!(
                "By estimate every part holds {temp:.0} °C for {secs} seconds: {}. The probe decides.",
                rule.source()
            ),
            (Some((temp, secs)), _) => format!(
                "By estimate every part holds {temp:.0} °C for {secs} seconds: {}. It may peak as low as {low_c:.0} °C: the probe decides.",
                rule.source()
            ),
            (None, Some(_)) => format!(
                "By estimate the core peaks at {peak_c:.0} °C and does not meet {}. {ADVISORY}",
                rule.name()
            ),
            (None, None) => format!(
                "The core peaks at about {peak_c:.0} °C, to preference: no temperature is promised. {ADVISORY}"
            ),
        };
        Self {
            rule,
            met,
            sure,
            sentence,
        }
    }
}

/// The z-value behind the UK table, K: with 70 °C for 120 s it gives every line of it, rounded up.
const Z_K: f64 = 7.5;

/// What a course of temperatures does, as the seconds at 70 °C that would do the same: ∫ 10^((T − 70)/7.5) dt by trapezes,
/// of moments in s and temperatures in °C. A comparison: a rule asks for a temperature held without a break.
#[must_use]
pub fn seconds_at_70(course: impl Iterator<Item = (u32, f64)>) -> f64 {
    let rate = |celsius: f64| 10.0_f64.powf((celsius - 70.0) / Z_K);
    let mut before: Option<(u32, f64)> = None;
    let mut sum = 0.0;
    for (secs, celsius) in course {
        let now = rate(celsius);
        if let Some((at, then)) = before {
            sum += f64::from(secs.saturating_sub(at)) * f64::midpoint(then, now);
        }
        before = Some((secs, now));
    }
    sum
}

/// Beside every figure of this module.
pub const ESTIMATE: &str = "An estimate. A probe at the thickest part and your local food-safety code decide; ask your supervising professional.";
/// Where the probe goes, as the correction reads it.
pub const PROBE: &str =
    "Slide the probe in from the side, its tip midway through the thickest part.";
/// Food Code 3-401.11(D): lightly cooked fish needs a consumer advisory and is not for highly
/// susceptible people.
pub const ADVISORY: &str =
    "Lightly cooked fish needs a notice to the guest, and is not for everyone.";
/// The Food Code's highly susceptible population (wording ours, list from memory, not verified).
pub const NOT_FOR: &str = "Not for small children, older people, anyone pregnant, or anyone with a weakened immune system: cook theirs to the safety temperature. Raw or lightly cooked fish may carry parasites.";
/// What freezing kills the parasites: FDA Food Code 3-402.11(A), and Regulation (EC) 853/2004 as amended by (EU) 1276/2011
/// (annex III, section VIII; from memory, not verified).
pub const PARASITES: &str = "Frozen through before, they are dead: −20 °C for 7 days or −35 °C for 15 hours (FDA Food Code 3-402.11); −20 °C for 24 hours or −35 °C for 15 hours (EU 853/2004 as amended by 1276/2011). Either may let farmed fish off. Your local code decides.";
/// At the pan.
pub const HOT_OIL: &str = "Dry the skin well: water in hot oil spits. Lay the fillet away from you. Keep baking paper inside the rim, away from flame.";
