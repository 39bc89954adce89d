//! The chill clock: time out of the fridge adds up and never runs backwards.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use scaleside::base::instant::Instant;
use scaleside::prep::chill::{Chill, ChillVerdict};

fn at(minutes: i64) -> Instant {
    Instant(1_790_000_000_000).plus_secs(minutes * 60)
}

#[test]
fn time_out_adds_up_over_every_stay() {
    let chill = Chill::out(at(0)).put_in(at(30)).unwrap();
    assert_eq!(
        (chill.out_ms(at(300)), chill.chilled_ms(at(300))),
        (30 * 60_000, Some(270 * 60_000))
    );
    let chill = chill.take_out(at(300)).unwrap();
    assert_eq!(
        (chill.out_ms(at(310)), chill.chilled_ms(at(310))),
        (40 * 60_000, None)
    );
    let kept: Chill = serde_json::from_str(&serde_json::to_string(&chill).unwrap()).unwrap();
    assert_eq!(kept, chill);
    assert_eq!(
        chill.sentence(at(310)),
        "Out of the fridge for 40 min in all. Under 2 hours it may go back in."
    );
}

#[test]
fn it_goes_back_only_in_time() {
    let out = Chill::out(at(0));
    assert!(out.put_in(at(119)).is_ok());
    let late = out.put_in(at(120)).unwrap_err().to_string();
    assert_eq!(
        late,
        "Out of the fridge for 2 h in all. From 2 hours on, cook it now: it may not go back in. Your local code decides."
    );
    let spoilt = out.put_in(at(240)).unwrap_err().to_string();
    assert!(spoilt.contains("throw it away"), "{spoilt}");
    let cold = Chill::in_fridge(at(0));
    assert_eq!(
        cold.put_in(at(1)).unwrap_err().to_string(),
        "The fish is in the fridge already."
    );
    assert_eq!(
        out.take_out(at(1)).unwrap_err().to_string(),
        "The fish is out already."
    );
}

#[test]
fn a_clock_set_back_takes_nothing_off() {
    let chill = Chill::out(at(0))
        .put_in(at(60))
        .unwrap()
        .take_out(at(90))
        .unwrap();
    assert_eq!(chill.out_ms(at(-500)), 60 * 60_000);
    let back = chill.put_in(at(-500)).unwrap();
    assert_eq!(
        (back.out_ms_total, back.chilled_ms(at(-600))),
        (60 * 60_000, Some(0))
    );
    let far = Chill {
        in_fridge_since: None,
        out_since: Some(Instant(i64::MIN)),
        out_ms_total: i64::MAX,
    };
    assert_eq!(far.verdict(Instant(i64::MAX)), ChillVerdict::Discard);
}
