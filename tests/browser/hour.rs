//! The clock as the page reads it, moved on or set; the real one is never waited for.

use serde_json::json;

use crate::bench::Bench;

/// The page's own clock, which a driver's scripts may not share.
fn date_reads(seconds: i64) -> String {
    format!(
        "window.Date.real ??= window.Date.now; window.Date.now = () => window.Date.real() + {};",
        seconds * 1000
    )
}

/// Where a step's card shows what is left.
pub fn face_of(step: &str) -> String {
    card_part(step, ".left")
}

fn card_part(step: &str, part: &str) -> String {
    format!("article[aria-label=\"{step}\"] {part}")
}

/// The seconds that a timer's face shows; past its end, the seconds since, below zero.
pub fn seconds_of(face: &str) -> i64 {
    let (sign, face) = match face.strip_prefix('+') {
        Some(over) => (-1, over),
        None => (1, face),
    };
    sign * face
        .split(':')
        .fold(0, |sum, part| sum * 60 + part.parse::<i64>().unwrap())
}

impl Bench {
    /// Lets time pass: so many seconds more than really have, here and, in Chromium, after every reload of this tab. The
    /// counter of the page that nobody can set counts them too.
    #[track_caller]
    pub fn clock_ahead(&self, seconds: i64) {
        self.clock_reads(&format!(
            "{date} window.performance.real ??= window.performance.now.bind(window.performance);
            window.performance.now = () => window.performance.real() + {ms};",
            date = date_reads(seconds),
            ms = seconds * 1000
        ));
    }

    /// Sets the phone's clock to so many seconds from the real one, here and, in Chromium, after every reload of this
    /// tab: no time passes by it.
    #[track_caller]
    pub fn clock_set(&self, seconds: i64) {
        self.clock_reads(&date_reads(seconds));
    }

    #[track_caller]
    fn clock_reads(&self, script: &str) {
        if self.chrome.is_some() {
            self.command("Page.enable", json!({}));
            self.before_each_load(script);
        }
        self.run(script, &[]);
    }

    /// Runs a script in this tab before the page's own, from the next load on.
    #[track_caller]
    pub fn before_each_load(&self, script: &str) {
        self.command(
            "Page.addScriptToEvaluateOnNewDocument",
            json!({ "source": script }),
        );
    }

    /// Takes this tab to another time zone, by its name in the IANA database.
    #[track_caller]
    pub fn time_zone(&self, name: &str) {
        self.command(
            "Emulation.setTimezoneOverride",
            json!({ "timezoneId": name }),
        );
    }

    /// The seconds on the face of a step's timer; past its end, the seconds since, below zero.
    #[track_caller]
    pub fn left(&self, step: &str) -> i64 {
        seconds_of(&self.on_card(step, ".left"))
    }

    /// The minute of the day that a step's card says its timer runs until.
    #[track_caller]
    pub fn until_minute(&self, step: &str) -> i64 {
        let until = self.on_card(step, ".face .num");
        let (hour, minute) = until
            .strip_prefix("until ")
            .unwrap()
            .split_once(':')
            .unwrap();
        hour.parse::<i64>().unwrap() * 60 + minute.parse::<i64>().unwrap()
    }

    /// What a part of a step's card reads.
    #[track_caller]
    fn on_card(&self, step: &str, part: &str) -> String {
        let selector = card_part(step, part);
        self.until(
            format!("nothing at {selector}"),
            "return Boolean(document.querySelector(arguments[0])?.innerText)",
            &[json!(selector)],
        );
        let text = self.run(
            "return document.querySelector(arguments[0]).innerText",
            &[json!(selector)],
        );
        text.as_str().unwrap().to_owned()
    }
}
