//! Anything typed or linked as a result code: it opens, or says why not; what opens can be written again.
#![no_main]

use libfuzzer_sys::fuzz_target;
use scaleside::class::result::ClassResult;
use scaleside::code::letters::Code;
use scaleside::code::link::open_link;
use scaleside::code::opening::open;
use scaleside::place::Place;

fuzz_target!(|text: &str| {
    let _ = open_link(text);
    let place = Place::parse(text);
    assert_eq!(Place::parse(&place.to_string()), place);
    match open(text) {
        Ok(opened) => {
            let again = Code::of(&opened.sheet).map(|code| open(&code.to_string()));
            if let Ok(again) = again {
                assert_eq!(again.map(|again| again.sheet), Ok(opened.sheet.clone()));
            }
            let _ = ClassResult::of(opened).student();
        }
        Err(why) => assert!(!why.to_string().is_empty()),
    }
});
