//! A slab against the exact series of a plane wall and the error function.

use scaleside::heat::air::Above;
use scaleside::heat::base::Base;
use scaleside::heat::slab::Slab;

use crate::*;

/// Plane wall heated at one face, insulated at the other (half of a wall heated at both): the exact
/// series of Incropera, *Fundamentals of Heat and Mass Transfer*, 5.5, its roots found here.
/// `place` is 0 at the insulated face and 1 at the heated one.
fn series(biot: f64, fourier: f64, place: f64) -> f64 {
    (0..300)
        .map(|n| {
            let start = f64::from(n) * std::f64::consts::PI;
            let (mut low, mut high) = (start, start + std::f64::consts::FRAC_PI_2);
            for _ in 0..100 {
                let z = f64::midpoint(low, high);
                if z * z.tan() > biot {
                    high = z;
                } else {
                    low = z;
                }
            }
            let z = f64::midpoint(low, high);
            let c = 4.0 * z.sin() / (2.0 * z + (2.0 * z).sin());
            c * (-z * z * fourier).exp() * (z * place).cos()
        })
        .sum()
}

/// Computed from the same equation in arbitrary precision elsewhere; agrees with Incropera's
/// table 5.1 (as remembered). Biot, then insulated and heated face at Fourier 0.05, 0.1, 0.2, 0.5, 1.
const WALL: [(f64, [(f64, f64); 5]); 6] = [
    (
        0.5,
        [
            (0.99987, 0.88537),
            (0.99632, 0.84390),
            (0.97260, 0.79015),
            (0.86411, 0.68688),
            (0.69838, 0.55459),
        ],
    ),
    (
        1.0,
        [
            (0.99975, 0.79038),
            (0.99311, 0.72358),
            (0.95064, 0.64339),
            (0.77253, 0.50452),
            (0.53386, 0.34818),
        ],
    ),
    (
        5.0,
        [
            (0.99905, 0.39736),
            (0.97731, 0.30879),
            (0.86488, 0.23153),
            (0.52311, 0.13303),
            (0.22072, 0.05609),
        ],
    ),
    (
        10.0,
        [
            (0.99853, 0.23233),
            (0.96842, 0.17057),
            (0.82925, 0.12248),
            (0.45464, 0.06433),
            (0.16382, 0.02317),
        ],
    ),
    (
        20.0,
        [
            (0.99799, 0.12321),
            (0.96093, 0.08813),
            (0.80428, 0.06215),
            (0.41466, 0.03094),
            (0.13541, 0.01010),
        ],
    ),
    (
        100.0,
        [
            (0.99718, 0.02521),
            (0.95209, 0.01783),
            (0.77936, 0.01246),
            (0.37985, 0.00591),
            (0.11334, 0.00176),
        ],
    ),
];
const FOURIER: [f64; 5] = [0.05, 0.1, 0.2, 0.5, 1.0];

/// A wall of 20 mm from 5 °C on a base at 100 °C, as shares of the way still to go.
fn wall(biot: f64, intervals: usize, dt: f64, both: bool) -> Vec<(f64, f64)> {
    let length = 0.02;
    let h = biot * K / length;
    let thickness = if both { 2.0 * length } else { length };
    let above = if both {
        Above {
            convection: h,
            air_c: 100.0,
            ..INSULATED
        }
    } else {
        INSULATED
    };
    let mut slab = Slab::with_intervals(PLAIN, thickness, 5.0, 100.0, intervals);
    let mut time = 0.0;
    FOURIER
        .iter()
        .map(|fo| {
            let end = fo * length * length / DIFFUSIVITY;
            let steps = ((end - time) / dt).ceil();
            for _ in 0..steps as usize {
                slab.step((end - time) / steps, h, &Base::Held(100.0), &above);
            }
            time = end;
            let left = |t: f64| (t - 100.0) / (5.0 - 100.0);
            let far = if both { slab.at(0.5) } else { slab.at(1.0) };
            (left(far), left(slab.at(0.0)))
        })
        .collect()
}

#[test]
fn a_plane_wall_follows_the_exact_series() {
    let mut worst = [0.0_f64; 3];
    for (biot, rows) in WALL {
        // One face on a fine grid, both faces on a fine grid, one face on the grid of the product.
        let ours = [
            (wall(biot, 100, 0.5, false), 1e-3),
            (wall(biot, 200, 0.5, true), 1e-3),
            (wall(biot, 20, 2.0, false), 2e-3),
        ];
        for (i, fo) in FOURIER.iter().enumerate() {
            near("series, far", series(biot, *fo, 0.0), rows[i].0, 6e-6);
            near("series, near", series(biot, *fo, 1.0), rows[i].1, 6e-6);
            for ((run, within), most) in ours.iter().zip(&mut worst) {
                let what = format!("Bi {biot} Fo {fo}");
                near(&what, run[i].0, rows[i].0, *within);
                near(&what, run[i].1, rows[i].1, *within);
                *most = most
                    .max((run[i].0 - rows[i].0).abs())
                    .max((run[i].1 - rows[i].1).abs());
            }
        }
    }
    println!(
        "worst share off: one face {:.1e}, both {:.1e}, product's grid {:.1e}",
        worst[0], worst[1], worst[2]
    );
}

/// Seconds until the far point of 20 mm passes 60 °C at Biot 20: 1491.3 s from one face and 372.8 s
/// from both (four to one, as the square of the length requires).
#[test]
fn a_plane_wall_takes_the_time_the_series_says() {
    for (both, half, expected) in [(false, 0.02, 1491.3), (true, 0.01, 372.8)] {
        let fourier = expected * DIFFUSIVITY / (half * half);
        near("series", series(20.0, fourier, 0.0), 40.0 / 95.0, 1e-4);
        let h = 20.0 * K / half;
        let above = Above {
            convection: if both { h } else { 0.0 },
            air_c: 100.0,
            ..INSULATED
        };
        let mut slab = Slab::with_intervals(PLAIN, 0.02, 5.0, 100.0, 100);
        let mut time = 0.0;
        while slab.at(if both { 0.5 } else { 1.0 }) < 60.0 {
            slab.step(0.25, h, &Base::Held(100.0), &above);
            time += 0.25;
        }
        near("time to 60 °C", time, expected, expected * 1e-3 + 0.25);
    }
}

/// Semi-infinite solid, face held at 100 °C: 24.9008 °C at 5 mm after 60 s, from erfc.
#[test]
fn a_deep_slab_follows_erfc() {
    let mut slab = Slab::with_intervals(PLAIN, 0.1, 5.0, 100.0, 1000);
    for _ in 0..1200 {
        slab.step(0.05, 1e9, &Base::Held(100.0), &INSULATED);
    }
    near("5 mm deep", slab.at(0.05), 24.9008, 0.03);
}
