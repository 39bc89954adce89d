//! Any text brought in as a table of tests: each line is taken or named, and what is taken is written alike.
#![no_main]

use libfuzzer_sys::fuzz_target;
use scaleside::base::instant::Instant;
use scaleside::compare::table::write;
use scaleside::compare::taken::{read, sort};
use scaleside::fish::settings::Settings;

const TODAY: Instant = Instant(1_773_065_112_250);

fuzz_target!(|text: &str| {
    let Ok(found) = read(text, &Settings::default(), TODAY) else {
        return;
    };
    let brought = sort(found, |_| None);
    let _ = write(&brought.new);
    for fish in &brought.new {
        let again = write([fish]).expect("what was read can be written");
        let again = read(&again, &Settings::default(), TODAY).expect("what was written can be read");
        assert!(again.refused.is_empty(), "{:?}", again.refused);
        assert_eq!(again.fish.len(), 1);
    }
});
