//! The chill clock: time out of the fridge adds up and never runs backwards.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use scaleside::base::instant::Instant;
use scaleside::base::steady::Uncounted;
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
    let cold = chill.put_in(at(95)).unwrap();
    assert_eq!(
        (cold.out_ms_total, cold.chilled_ms(at(-600))),
        (65 * 60_000, Some(0))
    );
    let far = Chill {
        in_fridge_since: None,
        out_since: Some(Instant(i64::MIN)),
        out_ms_total: i64::MAX,
    };
    assert_eq!(far.verdict(Instant(i64::MAX)), ChillVerdict::Discard);
}

/// "If you cannot work out how long it has been out, throw it away" is what the rule leaves: Food Standards Australia New
/// Zealand, 2-hour / 4-hour rule, from memory.
#[test]
fn what_nobody_can_know_counts_as_too_long() {
    let out = Chill::out(at(0));
    for minutes in [-1, -60, -525_600] {
        assert_eq!(out.verdict(at(minutes)), ChillVerdict::Discard);
        let said = out.put_in(at(minutes)).unwrap_err().to_string();
        assert!(said.contains("nobody can say for how long"), "{said}");
    }
    for (doubt, until, doubted) in [
        (Uncounted::None, at(10), false),
        (Uncounted::Unknown, at(10), true),
        (Uncounted::AtMost(1), at(10), true),
        (Uncounted::Unknown, at(0), false),
    ] {
        assert_eq!(out.is_doubted(doubt, until), doubted, "{doubt:?}");
    }
    for (minutes, said) in [
        (
            30,
            "It may have been out for 40 min: until you say what it was, it may go back in.",
        ),
        (
            110,
            "It may have been out for 2 h: until you say what it was, it may not go back in: cook it now.",
        ),
        (
            230,
            "It may have been out for 4 h: until you say what it was, throw it away.",
        ),
    ] {
        assert_eq!(out.at_worst(at(minutes), Uncounted::AtMost(600_000)), said);
    }
    let never = out.at_worst(at(1), Uncounted::Unknown);
    assert!(never.contains("over 4 hours"), "{never}");
}
