//! Any bytes chosen as a backup: a reason, or records that can be looked at, put in and taken back.
#![no_main]

use libfuzzer_sys::fuzz_target;
use scaleside::instant::Instant;
use scaleside::record::backup::{merge, read};

#[path = "../../memory_shelf/mod.rs"]
mod memory_shelf;

use memory_shelf::Memory;

fuzz_target!(|bytes: &[u8]| {
    let Ok(backup) = read::read(bytes) else {
        return;
    };
    let (phone, now) = (Memory::default(), Instant(1_800_000_000_000));
    let lines = merge::look(&phone, 1, &backup).expect("this shelf always reads");
    for line in &lines {
        if let Ok(Some(undo)) = merge::put_in(&phone, 1, line, now) {
            let _ = merge::take_back(&phone, 1, &undo, now);
        }
    }
    assert!(merge::look(&phone, 1, &backup).is_ok());
});
