//! Dishes: what a cover costs, sells for, and takes to buy.

use super::Says;
use crate::trade::plate::trims::{SECOND_SOURCE, SOURCE};

/// The rows, in the order of a card.
pub(super) fn rows() -> Vec<Says> {
    vec![
        Says {
            key: "plate",
            name: "What a cover costs",
            formula: "For each line: its quantity ÷ its trim yield × its price. All lines together, divided by the covers.".into(),
            inputs: "Your card: quantities, prices, yields.".into(),
            source: "Dittmer and Keefe, chapter 6, as quoted in lecture notes.".into(),
            covers: "Exact until it is shown. Where a yield is a range, both ends are shown.".into(),
        },
        Says {
            key: "menu",
            name: "What to sell it for",
            formula: "The cost of a cover divided by the food cost share you want; then tax.".into(),
            inputs: "The cost of a cover, and the shares you typed.".into(),
            source: "Ontario Pork, Costing for Foodservice: food cost share = cost ÷ price without tax.".into(),
            covers: "Exact until it is shown: rounded last, to the coin.".into(),
        },
        Says {
            key: "trim",
            name: "Trim yields",
            formula: "100 % less what is thrown away.".into(),
            inputs: "The name of the ingredient.".into(),
            source: format!("{SOURCE}; {SECOND_SOURCE}.").into(),
            covers: "A range where the two disagree. One that you weighed is better: type it.".into(),
        },
        Says {
            key: "buy",
            name: "How much to buy",
            formula: "What is needed ready to cook, divided by the yield.".into(),
            inputs: "Your need, and the yield of your own fish, a typed one, or the published range.".into(),
            source: "Dittmer and Keefe, chapter 6, as quoted in study notes: portions × portion size ÷ yield.".into(),
            covers: "Rounded up, never down. Fish differ: where three or more of your own tell how far the next may lie off, their low end is ordered by (see: the next fish); else a yield is what one gave, and the next may give less. By a published range the middle is ordered, and the order says how much more the least published would take; it is the least that was printed, not the least a fish can give.".into(),
        },
        Says {
            key: "order",
            name: "Scaled quantities",
            formula: "Each quantity × the covers wanted ÷ the covers of the card.".into(),
            inputs: "Your card and the covers.".into(),
            source: "Arithmetic. The steps of kitchen rounding: common practice, no source.".into(),
            covers: "The exact quantity stands beside a rounded one.".into(),
        },
    ]
}
