//! A whole course of pan, turn and rest against the method of lines, and the balance of its heat.

use scaleside::heat::course::{Course, Times};
use scaleside::heat::pan::{Heat, Material, Pan, Surface};
use scaleside::heat::stove::{Fillet, Setup, Stove};

use crate::*;

pub fn stove(case: &Case) -> (Fillet, Stove) {
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
    let stove = Stove {
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
    (fillet, stove)
}

/// Whole courses, with the product's own grid and steps, against scipy's method of lines on 320
/// cells: variable properties, pan, burner, boiling face, wet top, turn and rest.
#[test]
fn whole_courses_follow_the_method_of_lines() {
    let mut worst = [0.0_f64; 4];
    for case in reference().cases {
        let (fillet, stove) = stove(&case);
        let setup = Setup::new(&fillet, &stove).unwrap();
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
        let (fillet, stove) = stove(&case);
        let setup = Setup::new(&fillet, &stove).unwrap();
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
