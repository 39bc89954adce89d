//! Time that only goes forward, on phones whose clocks are set at random: the truth is counted beside it, by a phone made
//! for this test that knows nothing of how the two clocks are joined.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use std::cell::Cell;

use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};
use scaleside::base::steady::{Jump, Steady, Uncounted};

/// A clock that goes back by less than this unseen put itself right, in milliseconds.
const BY_ITSELF: i64 = 5_000;

/// A clock that puts itself right is followed: by less than this a look, in milliseconds.
const SLACK: i64 = 250;

/// What happens to a phone.
#[derive(Clone, Debug)]
enum Happens {
    /// Time passes while the page is in sight.
    Passes(i64),
    /// The phone lies locked: its counter stands still for some of it.
    Locked { awake: i64, asleep: i64 },
    /// The clock is set while the page is in sight.
    Set(i64),
    /// The clock is set while the page is not in sight, and the phone awake.
    SetUnseen(i64),
    /// The page is closed for so long, and opened again; the clock is set ahead meanwhile, or back behind the closing.
    Closed { away: i64, set: i64 },
}

/// From seconds to years.
fn span() -> impl Strategy<Value = i64> {
    prop_oneof![
        1_000..60_000i64,
        60_000..86_400_000i64,
        86_400_000..315_000_000_000i64
    ]
}

fn jump() -> impl Strategy<Value = i64> {
    (span(), any::<bool>()).prop_map(|(ms, back)| if back { -ms } else { ms })
}

fn happens() -> impl Strategy<Value = Happens> {
    prop_oneof![
        (1..10_000i64).prop_map(Happens::Passes),
        (0..100_000i64, 0..20_000_000i64)
            .prop_map(|(awake, asleep)| Happens::Locked { awake, asleep }),
        jump().prop_map(Happens::Set),
        jump().prop_map(Happens::SetUnseen),
        (0..20_000_000i64, prop::option::of(jump())).prop_map(|(away, set)| {
            let set = match set {
                // Set back by less than it was closed for, nobody can tell it from a shorter time.
                Some(back @ ..0) => back.min(-BY_ITSELF) - away,
                Some(ahead) => ahead,
                None => 0,
            };
            Happens::Closed { away, set }
        }),
    ]
}

/// A phone, and the truth about it.
struct Phone {
    real: i64,
    clock: i64,
    counter: i64,
    steady: Steady,
    /// The time that was counted when the test began.
    from: i64,
    looks: i64,
}

impl Phone {
    fn new() -> Self {
        let clock = 1_790_000_000_000;
        let (steady, jump) = Steady::start(None, true, clock, 5);
        assert_eq!(jump, None);
        Self {
            real: 0,
            clock,
            counter: 5,
            from: steady.now().0,
            steady,
            looks: 0,
        }
    }

    fn counted(&self) -> i64 {
        self.steady.now().0 - self.from
    }

    fn passes(&mut self, awake: i64, asleep: i64) {
        self.real += awake + asleep;
        self.clock += awake + asleep;
        self.counter += awake;
    }

    fn look(&mut self, in_sight: bool) -> Option<Jump> {
        self.looks += 1;
        self.steady.look(self.clock, self.counter, in_sight)
    }

    fn happens(&mut self, what: &Happens) -> Option<Jump> {
        match *what {
            Happens::Passes(ms) => {
                self.passes(ms, 0);
                self.look(true)
            }
            Happens::Locked { awake, asleep } => {
                self.passes(awake, asleep);
                self.look(false)
            }
            Happens::Set(by) => {
                self.clock += by;
                self.look(true)
            }
            Happens::SetUnseen(by) => {
                self.clock += by;
                self.look(false)
            }
            Happens::Closed { away, set } => {
                let kept = self.steady.kept();
                self.real += away;
                self.clock += away + set;
                self.counter = 3;
                let (steady, jump) = Steady::start(Some(&kept), true, self.clock, self.counter);
                self.steady = steady;
                self.looks += 1;
                jump
            }
        }
    }
}

fn runner(cases: u32) -> TestRunner {
    TestRunner::new(Config {
        cases,
        failure_persistence: None,
        ..Config::default()
    })
}

#[test]
fn a_clock_that_is_set_in_sight_moves_no_time() {
    let jumps = Cell::new(0_u32);
    runner(2_000)
        .run(
            &prop::collection::vec((1..10_000i64, jump()), 1..40),
            |all| {
                let mut phone = Phone::new();
                for (passes, by) in all {
                    phone.happens(&Happens::Passes(passes));
                    let found = phone.happens(&Happens::Set(by));
                    jumps.set(jumps.get() + 1);
                    // What is found is what was done.
                    prop_assert_eq!(
                        found,
                        Some(if by > 0 {
                            Jump::Ahead(by)
                        } else {
                            Jump::Back(-by)
                        })
                    );
                    prop_assert_eq!(phone.counted(), phone.real);
                }
                Ok(())
            },
        )
        .unwrap();
    println!(
        "{} jumps of a second to ten years, both ways, in sight: none moved the time that is counted",
        jumps.get()
    );
}

#[test]
fn no_time_is_lost_without_a_word_and_none_runs_back() {
    let (happened, doubts) = (Cell::new(0_u32), Cell::new(0_u32));
    runner(5_000)
        .run(&prop::collection::vec(happens(), 1..12), |all| {
            let mut phone = Phone::new();
            let mut last = phone.counted();
            for what in &all {
                let found = phone.happens(what);
                happened.set(happened.get() + 1);
                let counted = phone.counted();
                prop_assert!(
                    counted >= last - SLACK,
                    "{what:?} ran back to {counted} from {last}"
                );
                last = counted;
                let (doubt, _) = phone.steady.doubt();
                doubts.set(doubts.get() + u32::from(doubt != Uncounted::None));
                let most = counted.saturating_add(doubt.most_ms());
                prop_assert!(
                    most >= phone.real - SLACK * phone.looks,
                    "{what:?}: {} passed, at most {most} is known",
                    phone.real
                );
                let is_told = match what {
                    Happens::Set(_) => found.is_some(),
                    Happens::SetUnseen(by) => *by > -BY_ITSELF || found == Some(Jump::BackUnseen),
                    Happens::Closed { set, .. } => *set >= 0 || found == Some(Jump::BackUnseen),
                    _ => true,
                };
                prop_assert!(is_told, "{what:?} was answered with {found:?}");
            }
            Ok(())
        })
        .unwrap();
    println!(
        "{} things happened to 5,000 phones, {} of them in doubt: nothing ran back, nothing was lost unsaid",
        happened.get(),
        doubts.get()
    );
}

#[test]
fn a_phone_that_only_sleeps_keeps_the_time_and_doubts_nothing() {
    runner(1_000)
        .run(
            &prop::collection::vec((0..100_000i64, 0..20_000_000i64), 1..60),
            |all| {
                let mut phone = Phone::new();
                for (awake, asleep) in all {
                    phone.happens(&Happens::Locked { awake, asleep });
                    prop_assert_eq!(phone.counted(), phone.real);
                    prop_assert_eq!(phone.steady.doubt().0, Uncounted::None);
                }
                Ok(())
            },
        )
        .unwrap();
}

#[test]
fn the_cook_says_what_it_was() {
    for (has_passed, counted) in [(true, 3_600_000), (false, 0)] {
        let mut phone = Phone::new();
        phone.happens(&Happens::Set(3_600_000));
        assert_eq!(phone.steady.doubt().0, Uncounted::AtMost(3_600_000));
        phone.steady.settle(has_passed);
        assert_eq!(
            (phone.counted(), phone.steady.doubt().0),
            (counted, Uncounted::None)
        );
    }
    let mut phone = Phone::new();
    phone.happens(&Happens::SetUnseen(-3_600_000));
    phone.steady.settle(false);
    assert_eq!(
        phone.steady.doubt().0,
        Uncounted::Unknown,
        "a tap makes nothing known"
    );
}

#[test]
fn a_clock_that_was_put_right_is_followed_again_once_nothing_cooks() {
    let mut phone = Phone::new();
    phone.happens(&Happens::Set(-86_400_000));
    let kept = phone.steady.kept();
    for (cooks, hours, ahead) in [
        (false, 11, 86_400_000),
        (true, 13, 86_400_000),
        (false, 13, 0),
    ] {
        let (later, _) = Steady::start(Some(&kept), cooks, phone.clock + hours * 3_600_000, 0);
        assert_eq!(later.ahead_ms(), ahead, "{cooks} {hours}");
    }
}

#[test]
fn what_is_kept_is_read_back_and_what_was_spoilt_is_not() {
    for kept in [
        "",
        "1",
        "1 2 3",
        "a b c d",
        "1 2 3 99999999999999999999",
        "\u{0}",
        "9223372036854775807 1 1 1 1",
    ] {
        let (steady, _) = Steady::start(Some(kept), true, 1_000, 0);
        assert!(steady.now().0 >= 1_000, "{kept:?}");
    }
    for extreme in [i64::MIN, i64::MAX] {
        let kept = format!("{extreme} {extreme} {extreme} {extreme}");
        let (mut steady, _) = Steady::start(Some(&kept), true, 1_000, 0);
        let _ = steady.look(2_000, 1_000, true);
        steady.settle(true);
        let _ = steady.kept();
    }
}
