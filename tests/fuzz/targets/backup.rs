//! Any bytes chosen as a backup: a reason, or records that can be looked at, put in and taken back.
#![no_main]

use libfuzzer_sys::fuzz_target;
use scaleside::base::instant::Instant;
use scaleside::keep::backup::{merge, read};

#[path = "../../memory_shelf/mod.rs"]
mod memory_shelf;

use memory_shelf::Memory;

fuzz_target!(|bytes: &[u8]| {
    let Ok(backup) = read::read(bytes) else {
        return;
    };
    let (phone, now) = (Memory::default(), Instant(1_800_000_000_000));
    let lines = merge::look(&phone, 1, &backup).expect("this shelf always reads");
    let undos = merge::undos(&phone, 1, &lines).expect("this shelf always reads");
    for line in &lines {
        let _ = merge::put_in(&phone, 1, line, now);
    }
    // What a record cannot be sealed for was not put in, and is taken back by doing nothing.
    for undo in undos.iter().rev() {
        assert_eq!(merge::take_back(&phone, 1, undo, now), Ok(()));
    }
    let again = merge::look(&phone, 1, &backup).expect("this shelf always reads");
    assert!(again.iter().all(|line| line.effect == merge::Effect::Added));
});
