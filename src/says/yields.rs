//! Yields, what they cost, and what follows from many of them.

use super::Says;
use crate::trade::plausible::{SLIP_BEYOND, SLIP_UNDER, USUAL_LEAST, USUAL_MOST};
use crate::trade::published::FEWEST_POINTS;
use crate::trade::trend::{CHANCE, FEWEST_TREND};
use crate::trade::{odd_price, outlook, species, yield_sheet};

/// The rows, in the order of the job.
pub(super) fn rows() -> Vec<Says> {
    let points = (FEWEST_POINTS * rust_decimal::Decimal::ONE_HUNDRED).normalize();
    vec![
        Says {
            key: "yield",
            name: "Yield",
            formula: yield_sheet::YIELD_IS.into(),
            inputs: "Your two weights, off the same scale, each less what you said the scale shows empty (JCGM 100:2008, 3.2.4).".into(),
            source: "Traster, Foundations of Cost Control, chapter 4; BCcampus, Basic Kitchen and Food Service Management, chapter 12.".into(),
            covers: format!("{} 19 times in 20 it lies within the smaller figure (propagation of distributions, JCGM 101:2008).", yield_sheet::DOUBT_IS).into(),
        },
        Says {
            key: "losses",
            name: "Where it went",
            formula: "The difference between two weights, and its share of the fish as delivered.".into(),
            inputs: "Your weights. Nothing that was lost is weighed.".into(),
            source: "Butcher's yield test, waste by deduction (form of a culinary school).".into(),
            covers: "The losses hold the drip, the scraps and the steps of the scale as well.".into(),
        },
        Says {
            key: "cost",
            name: "Cost per usable kilo, and cost factor",
            formula: yield_sheet::COST_IS.into(),
            inputs: "Your price, your weights, what you say kept parts are worth.".into(),
            source: "Butcher's yield test, line 10; Dittmer and Keefe, Principles of Food, Beverage and Labor Cost Controls, chapter 6, as quoted in lecture notes.".into(),
            covers: "Exact until it is shown: money is rounded last, to the coin.".into(),
        },
        Says {
            key: "portion",
            name: "Portions",
            formula: "The ready weight divided by the portions, or by the weight of one; the cost in the same way.".into(),
            inputs: "Your weights, your price, the portions you want.".into(),
            source: "Butcher's yield test, line 12.".into(),
            covers: "Rounded to the coin: all portions together may differ a little from what was paid.".into(),
        },
        Says {
            key: "published",
            name: "Published yields",
            formula: "The least and the greatest that the sources give for the same product. For a form that nobody published: divided by the share of the whole fish that this form keeps.".into(),
            inputs: "The sources of this fish, each listed with it.".into(),
            source: "Each figure names its own. That more than nine tenths of a headed fish can't be left: common practice, no source.".into(),
            covers: format!("How far the sources lie apart, not how far fish do: yours may lie outside for a good reason. A range narrower than {points} points says nothing for or against a fish (our choice).").into(),
        },
        Says {
            key: "odd",
            name: "A weight or a price that is asked about",
            formula: format!("A fish is asked about where its kind is hardly ever so light or so heavy: of a kind that is not listed, under {} g or over {} kg. A price, under {} or over {} euros a kilo.", species::LIGHTEST_G, species::HEAVIEST_G / 1000, odd_price::CHEAPEST, odd_price::DEAREST).into(),
            inputs: "The weight, the fish, its form, the price.".into(),
            source: "Common practice, no source. What a euro is worth in other money: from memory, not verified.".into(),
            covers: "It asks and never refuses: a true one may lie outside.".into(),
        },
        Says {
            key: "usual",
            name: "High, low, or a slip",
            formula: format!("Most whole fish give {USUAL_LEAST} to {USUAL_MOST} % as fillets with their skin. Under {SLIP_UNDER} %, or over {} %, a slip is likelier. For another form, and for a fish known to give more, these limits are moved.", USUAL_MOST + SLIP_BEYOND).into(),
            inputs: "Your yield, the fish and its form.".into(),
            source: format!("{USUAL_LEAST} and {USUAL_MOST}: the ends of what is published for most fish. {SLIP_UNDER} and {}: our choice. Forms: FAO/CWP Handbook of Fishery Statistics, as quoted in text copies.", USUAL_MOST + SLIP_BEYOND).into(),
            covers: "It asks and never refuses: a true fish may lie outside.".into(),
        },
        Says {
            key: "next",
            name: "The next fish",
            formula: format!("Fish of {} days or more: the mean of the days ± t · √((1 + 1/k) · S² + (1 − 1/h) · W²), for k days of h fish each; S² is the variance of their means, W² that inside a day, t of Student's distribution. Fish of fewer days: the mean ± t · s · √(1 + 1/n), s being their standard deviation. Where {FEWEST_TREND} days or more (or fish of one day) rise or fall in their order, by chance in less than {:.0} of 100 cases: the straight line through them in place of the mean, at the next, half a step short, ± half a step more.", outlook::FEWEST_DELIVERIES, CHANCE * 100.0).into(),
            inputs: format!("{} or more of your own fish of one kind and form, weighed one by one.", outlook::FEWEST).into(),
            source: "Hahn and Meeker, Statistical Intervals, and Satterthwaite 1946 for the freedom of t, Draper and Smith, Applied Regression Analysis, for the line (all from memory, not verified); Kendall's exact test for the trend. Half a step more, since learning slows down: our choice. The figures are checked against SciPy and statsmodels.".into(),
            covers: "One new fish, as often as you choose, while fish and hands stay as they were. Fish of one day are taken for one delivery: from fewer than three days it holds for more of the same delivery, and for another one it holds less often. A trend that few fish don't show yet makes it hold less often too.".into(),
        },
        Says {
            key: "pooled",
            name: "All together",
            formula: "All ready weights divided by all delivered weights.".into(),
            inputs: "Fish of one kind and form.".into(),
            source: "Arithmetic: totals over totals.".into(),
            covers: "No band: it says what was, not what comes.".into(),
        },
        Says {
            key: "market",
            name: "The cheapest to eat",
            formula: "Today's price divided by the yield.".into(),
            inputs: "Your prices; your own yields, or the published range where you have none.".into(),
            source: "Arithmetic: the cost of the edible portion is the price ÷ the yield.".into(),
            covers: "From a published range both ends are shown.".into(),
        },
    ]
}
