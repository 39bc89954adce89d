//! Anything found on the shelf: a record or a reason; what is read can be worked out and sealed again.
#![no_main]

use libfuzzer_sys::fuzz_target;
use scaleside::base::instant::Instant;
use scaleside::keep::backup::last::LastRestore;
use scaleside::class::class_list::Class;
use scaleside::store::envelope::{open, seal};
use scaleside::fish::record::Fish;
use scaleside::cards::recipe::Recipe;
use scaleside::fish::settings::Settings;
use scaleside::fish::weighing::Which;
use scaleside::service::timetable::face::faces;

/// Everything a screen derives from a fish.
fn work_out(fish: &Fish) {
    let _ = (fish.name(), fish.next_stage(), fish.is_cooking());
    for which in [Which::Whole, Which::OffBone, Which::Ready, Which::Frame] {
        let _ = fish.judge(which);
    }
    let _ = fish.breakdown();
    if let (Ok(dish), Some(run)) = (fish.dish(), &fish.run) {
        let now = Instant(1_800_000_000_000);
        let _ = faces(dish, &fish.slip.missing, run, &None, now);
    }
}

fuzz_target!(|text: &str| {
    if let Ok(opened) = open(text) {
        let _ = opened.record::<Class>();
        let _ = opened.record::<Settings>();
        let _ = opened.record::<LastRestore>();
        if let Ok(dish) = opened.record::<Recipe>() {
            let _ = (dish.title(), dish.plate_check());
        }
        if let Ok(fish) = opened.record::<Fish>() {
            work_out(&fish);
        }
    }
    // The seal stops nearly all of what chance makes, so the record is tried without it as well.
    if let Ok(fish) = serde_json::from_str::<Fish>(text) {
        work_out(&fish);
        if let Ok(sealed) = seal(&fish, 1, 1) {
            let read = open(&sealed).map(|opened| opened.record::<Fish>());
            assert_eq!(read, Ok(Ok(fish)));
        }
    }
});
