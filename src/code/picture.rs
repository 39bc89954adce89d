//! QR codes in a picture, as a phone takes it of another's screen or of a printed card, or as a screenshot has them. By
//! the crate `rqrr`, which looks at one picture once: what it misses there is looked for again in the same picture made
//! smaller, larger, smoother and sharper. `tests/outside_qr.rs` tells how many are read.

use rqrr::PreparedImage;

/// The longest side of a picture that is looked through, in points: a larger one is drawn smaller first.
pub const LONGEST_SIDE: u32 = 1_600;
/// The most points of a picture that a browser is asked to open: four bytes each, for as long as it is drawn.
pub const MOST_POINTS: u64 = 64_000_000;
/// How much of a file is looked into for the size of its picture, in bytes.
pub const HEAD: u32 = 1 << 20;

/// The least side, in points: the smallest QR code has as many modules.
const LEAST_SIDE: usize = 21;
/// A picture up to this side is looked through larger as well: one module may be two of its points. A larger one is
/// looked through smaller, where its grain is gone.
const SMALL: usize = 900;

/// How many points the picture has that a file begins with; nothing for what is no picture of a kind that browsers show.
#[must_use]
pub fn points(head: &[u8]) -> Option<u64> {
    let size = imagesize::blob_size(head).ok()?;
    let (wide, high) = (u64::try_from(size.width), u64::try_from(size.height));
    Some(wide.ok()?.saturating_mul(high.ok()?))
}

/// In how many ways a picture is looked at.
const LOOKS: usize = 6;

/// A picture without its colours, row after row from the top; 0 is black.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GreyPicture {
    wide: usize,
    high: usize,
    light: Vec<u8>,
}

impl GreyPicture {
    /// Nothing where the values are not those of such a picture, or where it is too small or too large to look through.
    #[must_use]
    pub fn new(wide: usize, high: usize, light: Vec<u8>) -> Option<Self> {
        let longest = usize::try_from(LONGEST_SIDE).ok()?;
        let fits = |side| (LEAST_SIDE..=longest).contains(&side);
        let whole = fits(wide) && fits(high) && wide.checked_mul(high) == Some(light.len());
        whole.then_some(Self { wide, high, light })
    }

    /// From four bytes a point, as a canvas has them: red, green, blue and how solid it is, which is not looked at.
    #[must_use]
    pub fn of_colours(wide: usize, high: usize, colours: &[u8]) -> Option<Self> {
        let light = colours.chunks_exact(4).map(|point| match point {
            // As light as the eye finds them, ITU-R BT.601, in parts of 256.
            [red, green, blue, _] => {
                let [red, green, blue] = [*red, *green, *blue].map(u32::from);
                u8::try_from((77 * red + 150 * green + 29 * blue) >> 8).unwrap_or(u8::MAX)
            }
            _ => 0,
        });
        Self::new(wide, high, light.collect())
    }

    /// Its width, its height and its values.
    #[must_use]
    pub fn parts(&self) -> (usize, usize, &[u8]) {
        (self.wide, self.high, &self.light)
    }

    /// The texts of the QR codes in it, in no order; none where none is found.
    #[must_use]
    pub fn texts(&self) -> Vec<String> {
        let mut looks = (0..LOOKS).map(|nth| self.texts_at(nth));
        looks.find(|texts| !texts.is_empty()).unwrap_or_default()
    }

    /// The texts found at one of its looks; after the last comes the first again. A camera that is held over a code sees it
    /// many times, and each time it may be looked at in another way.
    #[must_use]
    pub fn texts_at(&self, nth: usize) -> Vec<String> {
        let small = self.wide.max(self.high) <= SMALL;
        let other = || if small { self.doubled() } else { self.halved() };
        let seen = match nth % LOOKS {
            0 => return self.seen(),
            1 => other(),
            2 => Some(self.smooth()),
            3 => Some(self.sharp()),
            4 => other().map(|other| other.sharp()),
            _ => other().and_then(|other| other.halved()),
        };
        seen.map(|seen| seen.seen()).unwrap_or_default()
    }

    /// What the crate finds.
    fn seen(&self) -> Vec<String> {
        let mut looked_at =
            PreparedImage::prepare_from_greyscale(self.wide, self.high, |x, y| self.at(x, y));
        let grids = looked_at.detect_grids();
        let mut texts: Vec<String> = grids
            .iter()
            .filter_map(|grid| Some(grid.decode().ok()?.1))
            .collect();
        texts.sort();
        texts.dedup();
        texts
    }

    fn at(&self, x: usize, y: usize) -> u8 {
        self.light
            .get(y * self.wide + x)
            .copied()
            .unwrap_or(u8::MAX)
    }

    fn drawn(wide: usize, high: usize, light: impl Fn(usize, usize) -> u8) -> Option<Self> {
        let rows = (0..high).flat_map(|y| (0..wide).map(move |x| (x, y)));
        Self::new(wide, high, rows.map(|(x, y)| light(x, y)).collect())
    }

    /// Four points become one.
    fn halved(&self) -> Option<Self> {
        Self::drawn(self.wide / 2, self.high / 2, |x, y| {
            self.mean([
                (2 * x, 2 * y),
                (2 * x + 1, 2 * y),
                (2 * x, 2 * y + 1),
                (2 * x + 1, 2 * y + 1),
            ])
        })
    }

    /// Between each two points stands one more.
    fn doubled(&self) -> Option<Self> {
        Self::drawn(2 * self.wide - 1, 2 * self.high - 1, |x, y| {
            let (left, right, up, down) = (x / 2, x.div_ceil(2), y / 2, y.div_ceil(2));
            self.mean([(left, up), (right, up), (left, down), (right, down)])
        })
    }

    fn mean(&self, points: [(usize, usize); 4]) -> u8 {
        let sum: u32 = points.iter().map(|(x, y)| u32::from(self.at(*x, *y))).sum();
        u8::try_from(sum / 4).unwrap_or(u8::MAX)
    }

    /// Each point is the mean of the nine around it: less grain.
    fn smooth(&self) -> Self {
        let light = (0..self.high)
            .flat_map(|y| (0..self.wide).map(move |x| (x, y)))
            .map(|(x, y)| {
                let (mut sum, mut count) = (0_u32, 0_u32);
                for row in y.saturating_sub(1)..(y + 2).min(self.high) {
                    for column in x.saturating_sub(1)..(x + 2).min(self.wide) {
                        sum += u32::from(self.at(column, row));
                        count += 1;
                    }
                }
                u8::try_from(sum / count.max(1)).unwrap_or(u8::MAX)
            });
        Self {
            light: light.collect(),
            ..*self
        }
    }

    /// What each point differs by from those around it counts three times: less blur.
    fn sharp(&self) -> Self {
        let around = self.smooth().smooth();
        let light = self.light.iter().zip(&around.light).map(|(own, mean)| {
            let (own, mean) = (i32::from(*own), i32::from(*mean));
            u8::try_from((own + 2 * (own - mean)).clamp(0, 255)).unwrap_or(u8::MAX)
        });
        Self {
            light: light.collect(),
            ..*self
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_picture_is_none() {
        for (wide, high, values) in [
            (0, 0, 0),
            (20, 400, 8_000),
            (30, 30, 899),
            (30, 30, 901),
            (1_601, 30, 48_030),
            (usize::MAX, 2, 0),
        ] {
            assert_eq!(
                GreyPicture::new(wide, high, vec![0; values]),
                None,
                "{wide} {high} {values}"
            );
        }
        for light in [0, 128, 255] {
            let flat = GreyPicture::new(300, 21, vec![light; 6_300]).unwrap();
            assert_eq!(flat.texts(), [""; 0]);
        }
        assert_eq!(GreyPicture::of_colours(21, 21, &[0; 21 * 21 * 4 - 1]), None);
        let white = GreyPicture::of_colours(21, 21, &[255; 21 * 21 * 4]).unwrap();
        assert!(white.light.iter().all(|light| *light == 255));
    }

    #[test]
    fn a_file_says_how_large_its_picture_is() {
        let png = |wide: u32, high: u32| {
            let mut head = b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR".to_vec();
            head.extend(wide.to_be_bytes());
            head.extend(high.to_be_bytes());
            head.extend([8, 0, 0, 0, 0, 0, 0, 0, 0]);
            head
        };
        assert_eq!(points(&png(10_000, 10_000)), Some(100_000_000));
        assert_eq!(
            points(&png(u32::MAX, u32::MAX)),
            Some(18_446_744_065_119_617_025)
        );
        for none in [
            b"".as_slice(),
            b"<svg onload=alert(1)>",
            b"\x89PNG",
            b"\xff\xd8\xff",
            &[0; 400],
        ] {
            assert_eq!(points(none), None, "{none:?}");
        }
    }
}
