//! A dot for each result on a common axis, worked out as paths: what draws it only puts it on the screen.

use std::fmt::Write;

use super::spread::Spread;

/// The least width of the picture, in its own units.
pub const LEAST_WIDTH: f64 = 200.0;
/// Where the axis begins.
pub const FROM: f64 = 80.0;
/// What is left free beside its end.
const AFTER: f64 = 12.0;
/// One line.
const LINE: f64 = 18.0;
/// Room above the first line and below the last.
pub const HEAD: f64 = 6.0;
const FOOT: f64 = 22.0;

/// One line of the picture.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct DotLine {
    /// What stands before the axis; across the whole picture when there is no value and no band.
    pub label: String,
    /// Where its dot is; no dot without one.
    pub value: Option<f64>,
    /// The low and high end of the bar behind the dot.
    pub band: Option<(f64, f64)>,
    /// Whether a triangle stands in place of the dot.
    pub marked: bool,
}

/// The picture as paths and places, in its own units.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Picture {
    /// The bars.
    pub bands: String,
    /// The dots.
    pub dots: String,
    /// The triangles.
    pub marks: String,
    /// Arrows to what lies past the ends of the axis.
    pub beyond: String,
    /// The labels, each with the height of its foot, and whether it is the head of the lines below it.
    pub labels: Vec<(f64, String, bool)>,
    /// Where the axis lies.
    pub foot: f64,
    /// Where it ends.
    pub to: f64,
    /// How wide the picture is.
    pub width: f64,
    /// How high the picture is.
    pub height: f64,
    /// Where the median lies on the axis, where there is one for all.
    pub median: Option<f64>,
    /// The value at the beginning of the axis.
    pub least: f64,
    /// The value at its end.
    pub most: f64,
}

/// The values from one end of the picture to the other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Axis {
    least: f64,
    most: f64,
}

impl Axis {
    /// As wide as the results, but not as their strays: they stand at the edge.
    #[must_use]
    pub fn without_strays(spread: &Spread) -> Self {
        let reach = 3.0 * (spread.upper_quartile - spread.lower_quartile);
        let least = spread.least.max(spread.lower_quartile - reach);
        let most = spread.most.min(spread.upper_quartile + reach);
        Self::with_margin(least, most)
    }

    /// As wide as every dot and every bar; `None` where there is neither.
    #[must_use]
    pub fn over(lines: &[DotLine]) -> Option<Self> {
        let bars = lines.iter().filter_map(|line| line.band);
        let values = lines.iter().filter_map(|line| line.value);
        let mut all = values.chain(bars.flat_map(|(low, high)| [low, high]));
        let first = all.next()?;
        let (least, most) = all.fold((first, first), |(least, most), value| {
            (least.min(value), most.max(value))
        });
        Some(Self::with_margin(least, most))
    }

    fn with_margin(least: f64, most: f64) -> Self {
        let margin = ((most - least) * 0.06).max((least + most).abs() * 0.005);
        Self {
            least: least - margin,
            most: most + margin,
        }
    }

    /// Which way the picture lies from a value past its edge, as the width of an arrow; 0 within.
    fn inwards(self, value: f64) -> i8 {
        if value < self.least {
            5
        } else if value > self.most {
            -5
        } else {
            0
        }
    }

    fn share(self, value: f64) -> f64 {
        let share = (value - self.least) / (self.most - self.least).max(f64::MIN_POSITIVE);
        share.clamp(0.0, 1.0)
    }
}

/// Draws the lines on an axis, with the median of all where they share one, in a picture so many units wide.
#[must_use]
pub fn draw(lines: &[DotLine], axis: Axis, median: Option<f64>, width: f64) -> Picture {
    let mut picture = Picture {
        least: axis.least,
        most: axis.most,
        labels: Vec::with_capacity(lines.len()),
        to: width.max(LEAST_WIDTH) - AFTER,
        width: width.max(LEAST_WIDTH),
        ..Picture::default()
    };
    picture.median = median.map(|median| picture.at(axis, median));
    let mut y = HEAD + LINE / 2.0;
    for line in lines {
        let is_head = line.value.is_none() && line.band.is_none();
        picture.labels.push((y + 4.0, line.label.clone(), is_head));
        picture.place(line, axis, y);
        y += LINE;
    }
    picture.foot = y - LINE / 2.0;
    picture.height = picture.foot + FOOT;
    picture
}

impl Picture {
    fn at(&self, axis: Axis, value: f64) -> f64 {
        FROM + (self.to - FROM) * axis.share(value)
    }

    fn place(&mut self, line: &DotLine, axis: Axis, y: f64) {
        if let Some((low, high)) = line.band {
            let (low, high) = (self.at(axis, low), self.at(axis, high));
            // A text can always be written to.
            let _ = write!(
                self.bands,
                "M{low:.1} {:.1}H{high:.1}v10H{low:.1}z",
                y - 5.0
            );
        }
        let Some(value) = line.value else { return };
        let (x, inwards) = (self.at(axis, value), axis.inwards(value));
        let _ = if inwards != 0 {
            let (tip, top) = (x + f64::from(inwards), y - 5.0);
            write!(self.beyond, "M{tip:.1} {top:.1}l{} 5l{inwards} 5", -inwards)
        } else if line.marked {
            write!(self.marks, "M{x:.1} {:.1}l6.5 11h-13z", y - 6.5)
        } else {
            write!(
                self.dots,
                "M{:.1} {y:.1}a4.5 4.5 0 1 0 9 0a4.5 4.5 0 1 0 -9 0z",
                x - 4.5
            )
        };
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dots_stand_in_order_and_strays_at_the_edge() {
        let values = [0.40, 0.44, 0.45, 0.46, 0.50, 0.95];
        let lines: Vec<DotLine> = values
            .iter()
            .map(|value| DotLine {
                value: Some(*value),
                marked: *value == 0.50,
                ..DotLine::default()
            })
            .collect();
        let axis = Axis::without_strays(&Spread::of(&values).unwrap());
        let picture = draw(&lines, axis, Some(0.455), 360.0);
        let counts =
            [&picture.dots, &picture.marks, &picture.beyond].map(|d| d.matches('M').count());
        assert_eq!(counts, [4, 1, 1]);
        let xs: Vec<f64> = picture
            .dots
            .split('M')
            .skip(1)
            .map(|dot| dot.split(' ').next().unwrap().parse().unwrap())
            .collect();
        assert!(
            xs.is_sorted() && xs[0] >= FROM - 4.5 && xs[3] <= picture.to,
            "{xs:?}"
        );
        assert!(picture.least < 0.40 && picture.most < 0.95);
        let whole = draw(&lines, Axis::over(&lines).unwrap(), None, 360.0);
        assert!(whole.beyond.is_empty() && whole.most > 0.95);
        assert_eq!(Axis::over(&[DotLine::default()]), None);
    }

    #[test]
    fn one_result_is_drawn_in_the_middle() {
        let line = DotLine {
            value: Some(0.5),
            band: Some((0.4, 0.6)),
            ..DotLine::default()
        };
        let axis = Axis::without_strays(&Spread::of(&[0.5]).unwrap());
        let picture = draw(&[line], axis, Some(0.5), 0.0);
        assert!((picture.median.unwrap() - (FROM + LEAST_WIDTH - AFTER) / 2.0).abs() < 1e-6);
        assert!(picture.bands.starts_with(&format!("M{FROM:.1}")));
    }
}
