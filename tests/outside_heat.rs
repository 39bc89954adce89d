//! The heat module against published series, tables and reference libraries.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use scaleside::heat::advice::{Advice, advise};
use scaleside::heat::air::{Above, vapour};
use scaleside::heat::base::Base;
use scaleside::heat::bench::{Bench, Fillet, Setup, Target};
use scaleside::heat::course::{Course, Times};
use scaleside::heat::food::{self, Composition, Flesh};
use scaleside::heat::pan::{Heat, Material, Pan, Surface};
use scaleside::heat::safety::Rule;
use scaleside::heat::slab::Slab;
use serde::Deserialize;

/// Made by `tests/vectors/heat_reference.py`; the file carries the library versions.
#[derive(Deserialize)]
struct Reference {
    cases: Vec<Case>,
    mixtures: Vec<(String, f64, f64, f64, f64, f64)>,
    vapour: Vec<(f64, f64)>,
}

#[derive(Deserialize)]
struct Case {
    name: String,
    species: String,
    thickness: f64,
    mass_g: f64,
    start_c: f64,
    conductance: f64,
    turn: u32,
    lift: u32,
    skin: bool,
    pan_g: f64,
    pan_cp: f64,
    base_mm: f64,
    set_c: f64,
    power_w: f64,
    room_c: f64,
    seen: Vec<(u32, f64, f64, f64, f64)>,
}

fn reference() -> Reference {
    serde_json::from_str(include_str!("vectors/heat_reference.json")).unwrap()
}

fn near(what: &str, ours: f64, theirs: f64, within: f64) {
    assert!(
        (ours - theirs).abs() <= within,
        "{what}: ours {ours}, outside {theirs}"
    );
}

fn part(parts: [f64; 4]) -> Composition {
    let [water, protein, fat, ash] = parts;
    Composition {
        water,
        protein,
        fat,
        ash,
    }
}

/// CoolProp 8.0.0, INCOMP::FoodWater, FoodProtein, FoodFat, FoodAsh at 20 °C.
#[test]
fn components_are_those_of_coolprop() {
    for (name, parts, density, cp, k) in [
        ("water", [1.0, 0.0, 0.0, 0.0], 995.740, 4129.272, 0.60366),
        ("protein", [0.0, 1.0, 0.0, 0.0], 1319.532, 2031.853, 0.20164),
        ("fat", [0.0, 0.0, 1.0, 0.0], 917.239, 2011.746, 0.17512),
        ("ash", [0.0, 0.0, 0.0, 1.0], 2418.187, 1128.919, 0.35648),
    ] {
        let p = part(parts).properties(20.0);
        near(name, p.density, density, 6e-4);
        near(name, p.cp, cp, 6e-4);
        near(name, p.k_parallel, k, 6e-6);
        near(name, p.k_series, k, 6e-6);
    }
}

/// Mixtures of the same, and the smooth flesh that the slab uses, from 1 to 100 °C.
#[test]
fn mixtures_are_those_of_coolprop() {
    let rows = reference().mixtures;
    assert_eq!(rows.len(), 28);
    for (fish, t, density, cp, parallel, series) in rows {
        let c = food::fish(&fish).unwrap().composition;
        let p = c.properties(t);
        near(&fish, p.density, density, density * 1e-6);
        near(&fish, p.cp, cp, cp * 1e-6);
        near(&fish, p.k_parallel, parallel, parallel * 1e-6);
        near(&fish, p.k_series, series, series * 1e-6);
        let flesh = c.flesh(t);
        near(&fish, food::at(flesh.k, t), parallel, parallel * 5e-4);
        near(&fish, food::at(flesh.cp, t), cp, cp * 1e-6);
        near(&fish, flesh.density, density, density * 1e-6);
    }
}

/// IAPWS-95 by CoolProp: Antoine's curve is within one percent to boiling.
#[test]
fn vapour_pressure_is_that_of_the_steam_tables() {
    for (t, pa) in reference().vapour {
        near("vapour pressure", vapour(t).0, pa, pa * 0.01);
    }
}

/// USDA SR28 and IFCT analyses are used as fractions of one, whatever they add up to.
#[test]
fn every_species_has_a_composition() {
    let species = food::species().unwrap();
    assert!(species.len() >= 25);
    for (key, name) in species {
        let fish = food::fish(&key).unwrap();
        let c = fish.composition;
        near(&name, c.water + c.protein + c.fat + c.ash, 1.0, 1e-12);
        assert_eq!(fish.name, name);
    }
    let bream = food::fish("gilthead_bream").unwrap();
    assert_eq!(bream.stand_in.as_deref(), Some("scup, a sea bream"));
    assert_eq!(bream.source, "USDA SR28 15090");
    assert!(food::fish("moonfish").unwrap().stand_in.is_some());
}

const K: f64 = 0.5;
const DENSITY: f64 = 1050.0;
const CP: f64 = 3600.0;
const PLAIN: Flesh = Flesh {
    density: DENSITY,
    cp: [CP, 0.0, 0.0],
    k: [K, 0.0, 0.0],
};
const DIFFUSIVITY: f64 = K / (DENSITY * CP);
const INSULATED: Above = Above {
    convection: 0.0,
    radiation: 0.0,
    air_c: 0.0,
    vapour_pa: None,
};

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

fn bench(case: &Case) -> (Fillet, Bench) {
    let material = Material::ALL
        .into_iter()
        .find(|m| m.heat_capacity() == case.pan_cp)
        .unwrap();
    let fillet = Fillet {
        species: case.species.clone(),
        thickness_mm: case.thickness * 1000.0,
        thin_end_mm: None,
        start_c: case.start_c,
        skin: case.skin,
        mass_g: case.mass_g,
    };
    let bench = Bench {
        pan: Pan {
            material,
            mass_g: case.pan_g,
            base_mm: case.base_mm,
            conductance: Some(case.conductance),
        },
        surface: Surface::BareOiled,
        heat: Heat {
            set_c: case.set_c,
            power_w: case.power_w,
        },
        room_c: case.room_c,
    };
    (fillet, bench)
}

/// Whole courses, with the product's own grid and steps, against scipy's method of lines on 320
/// cells: variable properties, pan, burner, boiling face, wet top, turn and rest.
#[test]
fn whole_courses_follow_the_method_of_lines() {
    let mut worst = [0.0_f64; 4];
    for case in reference().cases {
        let (fillet, bench) = bench(&case);
        let setup = Setup::new(&fillet, &bench).unwrap();
        let times = Times {
            turn: case.turn,
            lift: case.lift,
        };
        let mut course = Course::start(&setup, f64::INFINITY);
        let mut rest = false;
        for (secs, skin, middle, flesh, base) in &case.seen {
            course.follow(times, *secs);
            rest |= *secs > case.lift;
            let (bottom, top) = (course.slab().at(0.0), course.slab().at(1.0));
            let down = *secs <= case.turn;
            let what = format!("{} at {secs} s", case.name);
            let ours = [
                course.middle(),
                if down { bottom } else { top },
                if down { top } else { bottom },
                course.slab().base_c(),
            ];
            for (i, (mine, theirs, within)) in [
                (ours[0], *middle, 0.7),
                (ours[1], *skin, 2.5),
                (ours[2], *flesh, 2.5),
                (ours[3], *base, 2.0),
            ]
            .into_iter()
            .enumerate()
            {
                worst[i] = worst[i].max((mine - theirs).abs());
                near(&what, mine, theirs, within);
            }
        }
        assert!(rest, "the reference goes into the rest");
    }
    println!(
        "worst off against scipy, K: middle {:.2}, skin {:.2}, flesh {:.2}, base {:.2}",
        worst[0], worst[1], worst[2], worst[3]
    );
}

/// Heat is neither made nor lost: flesh and pan hold what crossed their faces, to rounding.
#[test]
fn the_heat_balance_closes() {
    for case in reference().cases {
        let (fillet, bench) = bench(&case);
        let setup = Setup::new(&fillet, &bench).unwrap();
        let mut course = Course::start(&setup, f64::INFINITY);
        let (mut into_flesh, mut into_pan, mut moved) = (0.0, 0.0, 0.0);
        let start = course.slab().heat();
        let mut in_pan = true;
        for (end, stage) in [(case.turn, 0), (case.lift, 1), (case.lift + 240, 2)] {
            match stage {
                1 => course.turn(),
                2 => {
                    let pan = setup.pan.capacity() / setup.area
                        * (course.slab().base_c() - setup.heat.set_c);
                    near(&case.name, into_pan, pan, moved * 1e-10);
                    in_pan = false;
                    course.lift();
                }
                _ => {}
            }
            while course.secs() < end {
                let f = course.step(end);
                assert!(f.boiled >= 0.0);
                into_flesh += f.contact - f.boiled - f.dry - f.vapour;
                if in_pan {
                    into_pan += f.burner - f.lost - f.contact;
                }
                moved += f.contact.abs() + f.burner;
            }
        }
        near(
            &case.name,
            into_flesh,
            course.slab().heat() - start,
            moved * 1e-10,
        );
        assert!(moved > 1e6);
    }
}

fn bream(thickness_mm: f64, mass_g: f64) -> (Fillet, Bench) {
    (
        Fillet {
            species: "gilthead_bream".into(),
            thickness_mm,
            thin_end_mm: Some(thickness_mm / 2.0),
            start_c: 5.0,
            skin: true,
            mass_g,
        },
        Bench {
            pan: Pan {
                material: Material::Steel,
                mass_g: 1200.0,
                base_mm: 220.0,
                conductance: None,
            },
            surface: Surface::BareOiled,
            heat: Heat::MEDIUM,
            room_c: 24.0,
        },
    )
}

fn advised(thickness_mm: f64, mass_g: f64, core_c: f64, rule: Rule) -> Advice {
    let (fillet, bench) = bream(thickness_mm, mass_g);
    advise(&fillet, &bench, &Target { core_c, rule }).unwrap()
}

/// The kitchen rule (common practice, no source): nine tenths of pan time skin side down. Printed,
/// not forced; a medium core in a middling fillet comes out a little under it.
#[test]
fn the_share_skin_side_down_is_compared_with_the_kitchen_rule() {
    for core_c in [50.0, 55.0, 63.0] {
        for (mm, g) in [
            (8.0, 100.0),
            (12.0, 120.0),
            (15.0, 130.0),
            (19.0, 150.0),
            (25.0, 180.0),
        ] {
            let a = advised(mm, g, core_c, Rule::FdaIntact);
            println!(
                "{mm:4} mm to {core_c} °C: turn {:3} s ({} to {}), lift {:3} s ({} to {}), core {:.0} to {:.0} °C, {:2.0} % skin side down; kitchen rule 90 %",
                a.skin_secs.best,
                a.skin_secs.low,
                a.skin_secs.high,
                a.lift_at.best,
                a.lift_at.low,
                a.lift_at.high,
                a.core_peak_c.low,
                a.core_peak_c.high,
                100.0 * a.skin_share,
            );
            assert!(a.reached);
            assert!((0.3..0.97).contains(&a.skin_share));
        }
    }
}

/// FDA Food Code 3-401.11(A)(1): 63 °C for 15 s, intact fish. UK FSA: 70 °C for 2 min, as quoted
/// in secondary sources.
#[test]
fn safety_rules_are_those_published() {
    assert_eq!(Rule::FdaIntact.lines(), [(63.0, 15)]);
    assert_eq!(Rule::UkFsa.lines()[0], (70.0, 120));
    for (core_c, rule, met) in [
        (50.0, Rule::FdaIntact, None),
        (55.0, Rule::UkFsa, None),
        (63.0, Rule::FdaIntact, Some((63.0, 15))),
        (70.0, Rule::UkFsa, Some((70.0, 120))),
        (70.0, Rule::FdaIntact, Some((63.0, 15))),
        (70.0, Rule::Preference, None),
    ] {
        let a = advised(15.0, 130.0, core_c, rule);
        assert!(a.reached);
        assert_eq!(a.safety.met, met, "{core_c} °C, {rule:?}");
        assert_eq!(a.safety.sentence.contains("decides"), met.is_some());
        let sure = met.is_some_and(|(temp, _)| a.core_peak_c.low >= temp);
        assert_eq!(
            (a.safety.sure, a.safety.sentence.contains("as low as")),
            (sure, met.is_some() && !sure)
        );
    }
}
