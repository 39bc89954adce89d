//! One advice with its band, beside the one course of the fillet that it is made of.
//!
//! `vectors/heat_speed.py` times scipy on the same course.

use divan::{Bencher, black_box};
use scaleside::heat::advice::{Advice, advise};
use scaleside::heat::course::{Course, Times};
use scaleside::heat::pan::{Heat, Material, Pan, Surface};
use scaleside::heat::safety::Rule;
use scaleside::heat::stove::{Fillet, Setup, Stove, Target};

use crate::growth;

fn bream() -> (Fillet, Stove, Target) {
    let fillet = Fillet {
        species: "scup".into(),
        thickness_mm: 19.0,
        thin_end_mm: None,
        start_c: 5.0,
        skin: true,
        mass_g: 150.0,
    };
    let pan = Pan {
        material: Material::Steel,
        mass_g: 1200.0,
        base_mm: 220.0,
        conductance: None,
    };
    let stove = Stove {
        pan,
        surface: Surface::BareOiled,
        heat: Heat::MEDIUM,
        room_c: 24.0,
    };
    let target = Target {
        core_c: 63.0,
        rule: Rule::FdaIntact,
    };
    (fillet, stove, target)
}

fn advice() -> Advice {
    let (fillet, stove, target) = bream();
    advise(&fillet, black_box(&stove), &target).unwrap()
}

fn course(setup: &Setup) -> f64 {
    let mut course = Course::start(setup, f64::INFINITY);
    let times = Times {
        turn: 290,
        lift: 350,
    };
    course.follow(times, 350 + 240);
    course.middle()
}

#[divan::bench]
fn one_advice_with_its_band() -> Advice {
    advice()
}

#[divan::bench]
fn one_course(bencher: Bencher<'_, '_>) {
    let (fillet, stove, _) = bream();
    let setup = Setup::new(&fillet, &stove).unwrap();
    bencher.bench(|| course(black_box(&setup)));
}

pub fn ratios() {
    let (fillet, stove, _) = bream();
    let setup = Setup::new(&fillet, &stove).unwrap();
    let one = growth::median(|| {
        black_box(course(&setup));
    });
    let whole = growth::median(|| {
        black_box(advice());
    });
    growth::beside("an advice with its band, beside a course", one, whole);
}
