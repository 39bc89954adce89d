//! A class for the wall of the room: dots without names on one axis, and a question that its figures ask.

use super::group::Measure;
use super::result::ClassResult;
use super::spread::Spread;

/// The narrowest picture, in its own units; its words are 16 high.
pub const LEAST_WIDTH: f64 = 200.0;
/// Round figures on the axis are some so many units apart: there is room for their words.
const APART: f64 = 120.0;
/// What is left free beside the axis, so that the words at its ends have room.
const BESIDE: f64 = 28.0;
/// The highest pile of dots.
const HIGHEST: f64 = 240.0;
/// The largest dot.
const LARGEST: f64 = 11.0;
/// Results from which their middle half says something.
pub const FEWEST_ASKED: usize = 4;

/// One result on the wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WallDot {
    /// Its figure.
    pub value: f64,
    /// Whether it has to be looked at again: then it is hollow, and nothing is asked about it.
    pub is_doubtful: bool,
}

/// The picture in its own units: the axis lies at `foot`.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct WallPicture {
    /// The middle of each dot, and whether it is hollow.
    pub dots: Vec<(f64, f64, bool)>,
    /// Half the width of a dot.
    pub radius: f64,
    /// Where the axis lies.
    pub foot: f64,
    /// Where the axis begins and ends.
    pub ends: (f64, f64),
    /// Where the median lies.
    pub median: f64,
    /// The round figures on the axis, each with its place.
    pub ticks: Vec<(f64, f64)>,
    /// How many lie past either end of the axis.
    pub beyond: [usize; 2],
}

/// Piles values up on an axis that reaches as far as the class does without its strays: three times the middle half on
/// either side. The picture is `wide` units wide.
#[must_use]
pub fn pile(all: &[WallDot], wide: f64) -> Option<WallPicture> {
    let values = |doubtful: bool| -> Vec<f64> {
        let some = all.iter().filter(|dot| doubtful || !dot.is_doubtful);
        some.map(|dot| dot.value).collect()
    };
    let spread = Spread::of(&values(false)).or_else(|| Spread::of(&values(true)))?;
    let reach = 3.0 * (spread.upper_quartile - spread.lower_quartile);
    let low = spread.least.max(spread.lower_quartile - reach);
    let high = spread.most.min(spread.upper_quartile + reach);
    let margin = ((high - low) * 0.04)
        .max(high.abs() * 0.005)
        .max(f64::EPSILON);
    let (low, high) = (low - margin, high + margin);
    let place = |value: f64| BESIDE + (wide - 2.0 * BESIDE) * (value - low) / (high - low);
    let on_axis = |dot: &&WallDot| (low..=high).contains(&dot.value);
    let mut inside: Vec<WallDot> = all.iter().filter(on_axis).copied().collect();
    inside.sort_by(|one, other| one.value.total_cmp(&other.value));
    let places: Vec<f64> = inside.iter().map(|dot| place(dot.value)).collect();
    let mut radius = LARGEST;
    let mut levels = levels(&places, radius);
    while height(&levels, radius) > HIGHEST && radius > 1.5 {
        radius *= 0.8;
        levels = self::levels(&places, radius);
    }
    let foot = height(&levels, radius).max(60.0) + radius;
    #[expect(
        clippy::cast_precision_loss,
        reason = "a pile has a few hundred levels"
    )]
    let height_of = |level: usize| foot - radius * (2.0 * level as f64 + 1.6);
    let placed = places.iter().zip(&levels).zip(&inside);
    let dots = placed.map(|((x, level), dot)| (*x, height_of(*level), dot.is_doubtful));
    Some(WallPicture {
        dots: dots.collect(),
        radius,
        foot,
        ends: (BESIDE, wide - BESIDE),
        median: place(spread.median),
        ticks: ticks(low, high, wide / APART)
            .into_iter()
            .map(|value| (place(value), value))
            .collect(),
        beyond: [
            all.iter().filter(|dot| dot.value < low).count(),
            all.iter().filter(|dot| dot.value > high).count(),
        ],
    })
}

/// The level of each dot, from the axis up: the lowest on which it touches no other. The places are in their order.
fn levels(places: &[f64], radius: f64) -> Vec<usize> {
    let mut last: Vec<f64> = Vec::new();
    places
        .iter()
        .map(|place| {
            let free = last.iter().position(|last| place - last >= 2.0 * radius);
            let level = free.unwrap_or(last.len());
            match last.get_mut(level) {
                Some(last) => *last = *place,
                None => last.push(*place),
            }
            level
        })
        .collect()
}

#[expect(
    clippy::cast_precision_loss,
    reason = "a pile has a few hundred levels"
)]
fn height(levels: &[usize], radius: f64) -> f64 {
    let most = levels.iter().max().map_or(0, |most| most + 1);
    most as f64 * 2.0 * radius
}

/// Some `count` round figures within an axis, or half as many more: 1, 2 or 5 times a power of ten apart.
fn ticks(low: f64, high: f64, count: f64) -> Vec<f64> {
    let rough = (high - low) / count;
    let power = 10_f64.powf(rough.log10().floor());
    let step = [1.0, 2.0, 5.0, 10.0].map(|times| times * power);
    let step = step.into_iter().find(|step| *step >= rough);
    let Some(step) = step.filter(|step| step.is_finite() && *step > 0.0) else {
        return Vec::new();
    };
    let first = (low / step).ceil();
    (0..8)
        .map(|nth| (first + f64::from(nth)) * step)
        .take_while(|value| *value <= high)
        .collect()
}

/// What a class may talk about, each from the figures it names; `written` writes a value of the measure. The results are
/// those without a doubt.
#[must_use]
pub fn questions(
    results: &[&ClassResult],
    measure: Measure,
    written: impl Fn(f64) -> String,
) -> Vec<String> {
    let spread = measure.spread(results.iter().copied());
    let Some(spread) = spread.filter(|spread| spread.count >= FEWEST_ASKED) else {
        return vec!["What would you do differently with the next fish?".to_owned()];
    };
    let between = format!(
        "Half of the class lies between {} and {}.",
        written(spread.lower_quartile),
        written(spread.upper_quartile)
    );
    let ends = format!(
        "The lowest is {}, the highest {}.",
        written(spread.least),
        written(spread.most)
    );
    let mut asked = match measure {
        Measure::Yield => vec![
            format!("{between} What did those above do that those below did not?"),
            format!("{ends} What does that difference cost on one plate?"),
        ],
        Measure::OffTheBone => vec![
            format!("{between} Where on the frame does flesh stay?"),
            format!("{ends} Which stroke of the knife makes the difference?"),
        ],
        Measure::KeptInTrimming => vec![
            format!("{between} What was cut off that could be eaten?"),
            format!("{ends} What has to come off, and what only looks better without?"),
        ],
        Measure::CostPerKilo(_) | Measure::CostPerPortion(_) | Measure::Price(_) => vec![
            format!("{between} Is it the price, the yield, or the size of the portion?"),
            format!("{ends} What would a guest be charged for each?"),
        ],
    };
    if measure == Measure::Yield
        && let Some(stage) = widest(results)
    {
        asked.insert(0, stage);
    }
    asked
}

/// At which stage the class lies further apart: asked first, where both were weighed and differ.
fn widest(results: &[&ClassResult]) -> Option<String> {
    let apart = |nth: usize| {
        let losses = results.iter().filter_map(|result| {
            let figures = result.figures.as_ref().ok()?;
            match figures.losses.as_slice() {
                losses @ [_, _] => {
                    rust_decimal::prelude::ToPrimitive::to_f64(&losses.get(nth)?.share)
                }
                _ => None,
            }
        });
        let spread = Spread::of(&losses.collect::<Vec<f64>>())?;
        let apart = (spread.upper_quartile - spread.lower_quartile) * 100.0;
        (spread.count >= FEWEST_ASKED).then_some(apart)
    };
    let (bone, trimming) = (apart(0)?, apart(1)?);
    let told = |apart: f64| format!("{apart:.1}");
    if told(bone) == told(trimming) {
        return None;
    }
    let asked = if bone > trimming {
        "What is done differently at the frame?"
    } else {
        "What is trimmed off that others leave on?"
    };
    Some(format!(
        "Up to the bone the middle half of the class lies {} points apart, in trimming {}. {asked}",
        told(bone),
        told(trimming)
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sure(values: &[f64]) -> Vec<WallDot> {
        let dot = |value: &f64| WallDot {
            value: *value,
            is_doubtful: false,
        };
        values.iter().map(dot).collect()
    }

    #[test]
    fn dots_never_touch_and_round_figures_lie_on_the_axis() {
        let values: Vec<f64> = (0..200)
            .map(|nth| 0.40 + f64::from(nth % 37) / 500.0)
            .collect();
        let picture = pile(&sure(&values), 480.0).unwrap();
        assert_eq!(picture.dots.len(), 200);
        assert!(picture.foot < HIGHEST + 20.0);
        for (nth, (x, y, _)) in picture.dots.iter().enumerate() {
            for (other, top, _) in &picture.dots[..nth] {
                let apart = (x - other).hypot(y - top);
                assert!(apart >= 2.0 * picture.radius - 1e-9, "{apart}");
            }
        }
        let ticks: Vec<String> = picture
            .ticks
            .iter()
            .map(|(_, v)| format!("{v:.2}"))
            .collect();
        assert_eq!(ticks, ["0.40", "0.42", "0.44", "0.46"]);
    }

    #[test]
    fn a_stray_is_counted_past_the_end_and_one_value_is_a_picture_too() {
        let values = [0.44, 0.45, 0.46, 0.47, 4.6];
        let picture = pile(&sure(&values), 480.0).unwrap();
        assert_eq!((picture.dots.len(), picture.beyond), (4, [0, 1]));
        assert_eq!(pile(&sure(&[0.45]), 480.0).unwrap().dots.len(), 1);
        assert_eq!(pile(&sure(&[0.0]), 480.0).unwrap().dots.len(), 1);
        assert_eq!(pile(&[], 480.0), None);
    }
}
