//! A running timer is an instant: what happens to the page in between changes nothing.

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme};
use crate::cook::SKIN;

/// Seconds on that step's timer.
const LASTS: i64 = 270;

impl Bench {
    /// Takes the demo to all its steps, with the fish in the pan.
    #[track_caller]
    pub fn skin_side_down(&self) {
        self.demo_weighed();
        self.start_anyway();
        self.all_steps();
        self.on_step("Warm the plates", "Warming");
        self.on_step("Heat the pan", "Shimmering");
        self.on_step(SKIN, "Begin");
        self.step_says(SKIN, "until");
    }

    /// Takes the demo to a timer that has been running for a minute.
    #[track_caller]
    fn demo_cooking(&self) {
        self.skin_side_down();
        self.clock_ahead(60);
        self.runs_on(LASTS - 60);
    }

    /// Waits until the timer has no more than so many seconds left, and is running.
    #[track_caller]
    fn runs_on(&self, most: i64) {
        self.step_says(SKIN, "until");
        let left = format!(
            "const [minutes, seconds] = document.querySelector('article[aria-label=\"{SKIN}\"] .left').innerText.split(':');
            return Number(minutes) * 60 + Number(seconds) <= arguments[0];"
        );
        self.until(format!("more than {most} s left"), &left, &[json!(most)]);
        assert!(self.left(SKIN) > 0);
    }
}

#[test]
fn a_reload_a_killed_tab_and_a_lost_signal_lose_nothing() {
    let mut bench = Bench::open(PHONE, Scheme::Light);
    bench.kept();
    bench.demo_cooking();
    let place = bench.fish_place() + "/all-steps";
    let (left, until) = (bench.left(SKIN), bench.until_minute(SKIN));

    bench.reload();
    bench.started();
    bench.runs_on(left);
    assert_eq!(bench.until_minute(SKIN), until);

    // The new tab reads the real clock again: it is one that was set back by a minute while the app was closed.
    bench.site.stop();
    bench.killed_tab();
    bench.started();
    bench.see("next: service");
    bench.go(&place);
    bench.runs_on(left);
    // By that clock it ends a minute sooner.
    let shown = bench.until_minute(SKIN);
    assert!((until - 1..=until).contains(&shown), "{shown} {until}");

    bench.on_step(SKIN, "Hold");
    bench.step_says(SKIN, "held");
    let held = bench.left(SKIN);
    bench.clock_ahead(3_600);
    bench.reload();
    bench.step_says(SKIN, "held");
    assert_eq!(bench.left(SKIN), held, "a held timer stands still");
}

#[test]
fn another_time_zone_shows_the_same_time_left() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.time_zone("UTC");
    bench.demo_cooking();
    let (left, until) = (bench.left(SKIN), bench.until_minute(SKIN));
    // Nepal keeps UTC+5:45 all year round, by the IANA time zone database.
    for reload in [false, true] {
        bench.time_zone("Asia/Kathmandu");
        if reload {
            bench.reload();
            bench.started();
        }
        bench.runs_on(left);
    }
    let later = bench.until_minute(SKIN) - until;
    assert_eq!(later.rem_euclid(24 * 60), 5 * 60 + 45);
}

#[test]
fn a_timer_that_ended_while_the_page_was_gone_is_over_at_once() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.demo_cooking();
    let place = bench.fish_place() + "/all-steps";
    bench.go("#/settings");
    bench.clock_ahead(60 + LASTS);
    bench.reload();
    bench.started();
    // Whatever the screen.
    bench.announced(SKIN);
    bench.go(&place);
    bench.step_says(SKIN, "time is up");
    assert!(bench.left(SKIN) <= 0);
    bench.announced(SKIN);
    bench.on_step(SKIN, "Turned, heat off");
    bench.until(
        "the end is still announced",
        "return document.querySelector('[aria-live=assertive]').innerText === ''",
        &[],
    );
}

#[test]
fn a_clock_that_was_set_back_lengthens_no_timer() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.demo_cooking();
    bench.clock_ahead(-7_200);
    bench.reload();
    bench.started();
    bench.on_step(SKIN, "+30 s");
    bench.runs_on(LASTS + 30);
    // It goes on from there, and does not wait until the clock has caught up.
    bench.clock_ahead(-7_200 + 100);
    bench.runs_on(LASTS + 30 - 100);
}

/// Central European clocks went from 3:00 back to 2:00 at 2026-10-25T01:00Z, by the IANA time zone database.
#[test]
fn a_daylight_saving_change_moves_no_timer() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.time_zone("Europe/Berlin");
    let real = bench.run("return Math.floor(Date.now() / 1000)", &[]);
    let before = 1_792_889_970 - real.as_i64().unwrap();
    bench.clock_ahead(before);
    bench.reload();
    bench.demo_weighed();
    bench.start_anyway();
    bench.all_steps();
    bench.on_step("Warm the plates", "Warming");
    bench.on_step("Heat the pan", "Shimmering");
    bench.on_step(SKIN, "Begin");
    let (left, until) = (bench.left(SKIN), bench.until_minute(SKIN));
    // It ends after the change, so it is called by the winter's clock from the first.
    assert_eq!(until / 60, 2, "{until}");
    bench.clock_ahead(before + 120);
    bench.runs_on(left - 120);
    bench.reload();
    bench.runs_on(left - 120);
    assert!(bench.left(SKIN) > left - 240, "an hour was counted twice");
    assert_eq!(bench.until_minute(SKIN), until);
}

#[test]
fn the_time_left_is_said_politely() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.demo_cooking();
    let said = "return document.querySelector('[aria-live=polite][role=timer]').innerText.includes(arguments[0])";
    for (gone, words) in [
        (60, "about 3 minutes left"),
        (LASTS - 50, "one minute left"),
    ] {
        bench.clock_ahead(gone);
        let words = format!("{SKIN}: {words}.");
        bench.until(format!("never said {words:?}"), said, &[json!(words)]);
    }
}

#[test]
fn the_bar_fills_as_the_time_goes() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.demo_cooking();
    let filled = "return document.querySelector('.timer progress').position >= arguments[0]";
    for (gone, share) in [(60, 0.2), (LASTS / 2, 0.5), (LASTS, 1.0)] {
        bench.clock_ahead(gone);
        bench.until(
            format!("the bar is not at {share} after {gone} s"),
            filled,
            &[json!(share)],
        );
    }
}
