//! The phone's clock is set, from seconds to years, both ways: no timer moves, nor the time out of the fridge; and what
//! can't be known is said, the worse assumed.

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme};
use crate::cook::SKIN;

const HOUR: i64 = 3_600;
const YEAR: i64 = 365 * 86_400;

/// More than a test takes, in seconds: what a jump would move is more.
const PATIENCE: i64 = 40;

impl Bench {
    /// Takes the demo to a timer that runs, and is watched.
    #[track_caller]
    fn skin_side_watched(&self) {
        self.skin_side_down();
        self.watched();
    }

    /// Waits until the clock is watched: it is kept for the next page then.
    #[track_caller]
    fn watched(&self) {
        self.until(
            "nobody watches the clock",
            "return localStorage.getItem('scaleside clock') !== null",
            &[],
        );
    }

    #[track_caller]
    fn has_not_moved(&self, before: i64, what: &str) {
        let left = self.left(SKIN);
        assert!(
            (before - PATIENCE..=before).contains(&left),
            "{what}: {left} s left of {before}"
        );
    }

    /// The seconds out of the fridge, as the screen shows them.
    #[track_caller]
    fn out(&self) -> i64 {
        let face = self.run(
            "return document.querySelector('.clockline [role=timer]').innerText",
            &[],
        );
        let face = face.as_str().unwrap().split(':').map(str::to_owned);
        face.fold(0, |sum, part| sum * 60 + part.parse::<i64>().unwrap())
    }
}

#[test]
fn a_clock_that_is_set_moves_no_timer_that_is_in_sight() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.skin_side_watched();
    let jumps = [5, -5, 600, -600, 7 * HOUR, -7 * HOUR, 3 * YEAR, -3 * YEAR];
    for by in jumps {
        let before = bench.left(SKIN);
        bench.clock_set(by);
        bench.see(if by > 0 {
            "clock went ahead by"
        } else {
            "clock was set back by"
        });
        bench.has_not_moved(before, &format!("set by {by} s"));
        bench.clock_set(0);
        bench.see(if by > 0 {
            "clock was set back by"
        } else {
            "clock went ahead by"
        });
        bench.has_not_moved(before, &format!("set by {by} s and put right"));
        bench.tap("All right");
    }
    println!(
        "{} jumps of 5 s to 3 years, there and back: no timer moved",
        jumps.len()
    );
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn a_reload_after_the_clock_was_set_moves_no_timer() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.skin_side_watched();
    for by in [-600, -7 * HOUR, -YEAR, 0] {
        // Who watches the clock comes half a second after the page: what is set before that counts as set while it was closed.
        bench.run(
            "return new Promise((done) => setTimeout(done, 3000)).then(() => 0)",
            &[],
        );
        let (before, until) = (bench.left(SKIN), bench.until_minute(SKIN));
        bench.clock_set(by);
        bench.until(
            "the jump was not kept",
            "return Math.abs(Date.now() + Number(localStorage.getItem('scaleside clock').split(' ')[0]) - localStorage.getItem('scaleside clock').split(' ')[1]) < 6000",
            &[],
        );
        bench.reload();
        bench.started();
        bench.has_not_moved(before, &format!("set by {by} s and reloaded"));
        // The hour is told by the clock as it is set now.
        let now = bench.run(
            "const now = new Date(Date.now()); return now.getHours() * 60 + now.getMinutes()",
            &[],
        );
        let away = (bench.until_minute(SKIN) - now.as_i64().unwrap()).rem_euclid(24 * 60);
        assert!(
            away <= 5,
            "by the clock it rings in {away} min; it said {until}"
        );
    }
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn a_clock_set_back_while_the_app_is_closed_is_told_and_the_worse_is_assumed() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.demo_weighed();
    bench.tap("Chill and prepare");
    bench.at_stage("prepare");
    bench.watched();
    bench.clock_ahead(600);
    bench.see("Out of the fridge");
    bench.until(
        "the ten minutes are not counted",
        "return document.querySelector('.clockline [role=timer]').innerText >= '10:00'",
        &[],
    );
    let before = bench.out();
    let place = bench.fish_place() + "/prepare";
    // The page is gone when the clock is set: it comes back from an hour before.
    bench.until(
        "it was not kept",
        "return Math.abs(Date.now() - localStorage.getItem('scaleside clock').split(' ')[1]) < 6000",
        &[],
    );
    bench.command("Page.navigate", json!({ "url": "about:blank" }));
    bench.clock_ahead(600 - HOUR);
    bench.go("");
    bench.started();
    bench.go(&place);
    bench.see("nobody can say for how long");
    let after = bench.out();
    assert!(after >= before, "{after} s are shown of {before}");
    bench.shot("clock-set-back");
    bench.tap("Fillets into the fridge");
    bench.until(
        "it was not refused",
        "return document.querySelector('.page main').innerText.split('Count it as over 4 hours').length === 3",
        &[],
    );
    bench.not_see("In the fridge since");
}

#[test]
fn a_clock_that_went_ahead_is_asked_about_and_nothing_goes_back_in_before() {
    for (answer, most) in [("Its clock was set", 60), ("It slept", i64::MAX)] {
        let bench = Bench::open(PHONE, Scheme::Light);
        bench.demo_weighed();
        bench.tap("Chill and prepare");
        bench.at_stage("prepare");
        bench.watched();
        bench.clock_set(3 * HOUR);
        bench.see("Did the phone sleep for that long, or was its clock set?");
        assert!(bench.out() < 60, "the time out of the fridge moved");
        bench.shot("clock-went-ahead");
        bench.tap("Fillets into the fridge");
        bench.see("it may not go back in: cook it now");
        bench.tap(answer);
        bench.not_see("Did the phone sleep");
        let over = "return document.querySelector('.clockline [role=timer]').innerText.split(':').length === 3";
        if most > HOUR {
            bench.until("the three hours are not counted", over, &[]);
        }
        assert!(bench.out() <= most, "{answer}: {} s", bench.out());
        assert_eq!(bench.small_targets(), [""; 0]);
        assert_eq!(bench.axe(), [""; 0]);
        if most < HOUR {
            bench.tap("Fillets into the fridge");
            bench.see("In the fridge since");
        } else {
            bench.see("it may not go back in");
        }
    }
}
