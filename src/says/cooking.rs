//! Heat, cold, and the hours of a service.

use super::Says;
use crate::heat::advice::{BY_EYE_MM, CONDUCTANCE, START_K, THICKNESS_MM};
use crate::heat::dryness::DRY_C;
use crate::heat::safety::{self, Rule};
use crate::heat::skin::{THIN_MM, USUAL_MM};
use crate::prep::chill::{DISCARD_MS, USE_NOW_MS};

/// The rows, in the order of a service.
pub(super) fn rows() -> Vec<Says> {
    let hours = |ms: i64| ms / 3_600_000;
    let (now, away) = (hours(USE_NOW_MS), hours(DISCARD_MS));
    let rules: Vec<String> = Rule::ALL
        .iter()
        .map(|rule| format!("{}: {}", rule.name(), rule.source()))
        .collect();
    vec![
        Says {
            key: "heat",
            name: "When to turn and lift, how hot it gets",
            formula: "Heat going through the flesh with its skin, second by second. Of all turns, the one that dries the flesh least.".into(),
            inputs: "Thickness, pan, start; water, protein, fat and ash of this fish. A probe corrects it.".into(),
            source: "Choi and Okos 1986 (ASHRAE Handbook 2006, chapter 9) for the flesh; USDA Standard Reference for what it is made of. How well the pan touches the fish: our choice, within the 250 to 650 W/m²K published for hamburgers.".into(),
            covers: format!("The band takes the thickness {THICKNESS_MM} mm off ({BY_EYE_MM} by eye), the pan's touch {:.0} %, the start {START_K} °C: each alone, then added as squares (JCGM 100, 5.1.2). If nothing is further off than that, about nine fish in ten lie in the band; if it often is, two in three.", CONDUCTANCE * 100.0).into(),
        },
        Says {
            key: "dry",
            name: "How dry it gets, and when the skin is dry",
            formula: format!("The share of the thickness that passes {DRY_C} °C, and for how long. The skin is dry once its water has had the heat to boil away.").into(),
            inputs: format!("The same heat. Skin of {THIN_MM} or {USUAL_MM} mm, by the kind of fish.").into(),
            source: format!("{DRY_C} °C: our choice, in the range of actin (58 to 68 °C, Skipnes et al. 2008). Boiling: IAPWS-95. Thickness of the skin: our choice, no source; its water: from memory, not verified.").into(),
            covers: "No band: it sets one turn beside another. Crisp is for the eye.".into(),
        },
        Says {
            key: "rule",
            name: "The rule for the core",
            formula: "Every part of the fish as hot as the rule says, for as long as it says.".into(),
            inputs: "The rule you chose.".into(),
            source: format!("{}.", rules.join("; ")).into(),
            covers: "The low end of the band is held against it. The probe and your local code decide.".into(),
        },
        Says {
            key: "frozen",
            name: "Frozen against parasites",
            formula: safety::PARASITES.into(),
            inputs: "What the seller says of the fish.".into(),
            source: "FDA Food Code 3-402.11(A); Regulation (EC) 853/2004 as amended by (EU) 1276/2011, annex III, section VIII (from memory, not verified).".into(),
            covers: "Parasites alone: it says nothing of germs.".into(),
        },
        Says {
            key: "cold",
            name: "Time out of the fridge",
            formula: format!("All times out added up. Under {now} hours: use it or put it back. {now} to {away} hours: use it now. Over {away} hours: throw it away.").into(),
            inputs: "When you took it out and put it back.".into(),
            source: "Food Standards Australia New Zealand, 2-hour / 4-hour rule, written for food that is ready to eat; for raw fish a teaching use.".into(),
            covers: "Counted by this phone. Your local code decides.".into(),
        },
        Says {
            key: "step",
            name: "Times and weights of the steps",
            formula: "As the dish says. Those of the fish come from its thickness, where you took the estimate.".into(),
            inputs: "The dish, or your own card.".into(),
            source: "Your own card; for the dishes that come with the app: common practice, no source.".into(),
            covers: "No band: your eye and the probe decide.".into(),
        },
        Says {
            key: "plan",
            name: "When each step begins",
            formula: "Counted back from the plate, so that all is ready together. Of all orders, the one in which least waits.".into(),
            inputs: "The steps, the cooks, the rings and pans.".into(),
            source: "What is best: our choice. The search is checked against an independent solver.".into(),
            covers: "No band: each step is taken to last as long as it says.".into(),
        },
    ]
}
