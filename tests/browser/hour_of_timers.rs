//! Timers that run, end and ring for an hour of the page's own clock, which is made to run faster: they keep time to the
//! second, one that is held stands still, and what they take of the phone does not grow.

use std::time::Duration;

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme};
use crate::cook::SKIN;
use crate::hour::{face_of, seconds_of};

/// Lets the clock, the counter that nobody can set, and whatever waits for them run so many times as fast.
const FASTER: &str =
    "const [date, count] = [Date.now.bind(Date), performance.now.bind(performance)];
    const [day, start, times] = [date(), count(), TIMES];
    Date.now = () => Math.round(day + (date() - day) * times);
    performance.now = () => start + (count() - start) * times;
    for (const wait of ['setTimeout', 'setInterval']) {
        const real = window[wait].bind(window);
        window[wait] = (work, ms = 0, ...given) => real(work, ms / times, ...given);
    }";

impl Bench {
    /// The moment by the page's clock, in seconds.
    fn moment(&self) -> i64 {
        self.run("return Math.round(Date.now() / 1000)", &[])
            .as_i64()
            .unwrap()
    }

    /// What a step's card shows is left, in seconds, and the moment at which it was drawn: at this speed a tenth of a second
    /// between the two would be many.
    fn as_it_is_drawn(&self, step: &str) -> (i64, i64) {
        let drawn = "const shown = () => document.querySelector(arguments[0])?.innerText;
            const before = shown();
            return new Promise((done) => new MutationObserver((_, observer) => {
                const after = shown();
                if (!after || after === before) return;
                observer.disconnect();
                done([Math.round(Date.now() / 1000), after]);
            }).observe(document.body, { subtree: true, childList: true, characterData: true }));";
        let drawn = self.run(drawn, &[json!(face_of(step))]);
        let (moment, face): (i64, String) = serde_json::from_value(drawn).unwrap();
        (moment, seconds_of(&face))
    }

    /// What the page takes at the least of some looks: what has just been taken off a screen stands about for a moment,
    /// what is leaked stands there at every look.
    fn taken(&self) -> [f64; 3] {
        let looks = [(); 12].map(|()| {
            std::thread::sleep(Duration::from_millis(250));
            self.taken_now()
        });
        looks.into_iter().fold([f64::INFINITY; 3], |least, look| {
            std::array::from_fn(|nth| least[nth].min(look[nth]))
        })
    }

    /// Its heap in kilobytes, its nodes, its listeners.
    fn taken_now(&self) -> [f64; 3] {
        for _ in 0..2 {
            self.command("HeapProfiler.collectGarbage", json!({}));
        }
        let metrics = self.command("Performance.getMetrics", json!({}));
        ["JSHeapUsedSize", "Nodes", "JSEventListeners"].map(|name| {
            let all = metrics["metrics"].as_array().unwrap();
            let found = all.iter().find(|metric| metric["name"] == name).unwrap();
            found["value"].as_f64().unwrap()
        })
    }
}

/// So many minutes at so many times the speed, looked at each minute.
fn timers_for(minutes: i64, times: u32) {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.skin_side_down();
    bench.on_step(SKIN, "Hold");
    bench.step_says(SKIN, "held");
    let held = bench.left(SKIN);
    bench.command("Page.enable", json!({}));
    bench.command("Performance.enable", json!({}));
    bench.before_each_load(&FASTER.replace("TIMES", &times.to_string()));
    bench.reload();
    bench.started();
    bench.see(SKIN);
    // A tenth of the time it is held, and stands still.
    let still = bench.moment() + minutes * 6;
    while bench.moment() < still {
        std::thread::sleep(Duration::from_millis(100));
    }
    assert_eq!(bench.left(SKIN), held, "a held timer stands still");
    bench.on_step(SKIN, "Go on");
    bench.step_says(SKIN, "until");
    let (begun, left) = bench.as_it_is_drawn(SKIN);
    let ends = begun + left;
    let (mut looks, mut furthest, mut before) = (0, 0, None);
    while bench.moment() - begun < minutes * 60 {
        std::thread::sleep(Duration::from_millis(u64::from(60_000 / times)));
        let (to, left) = bench.as_it_is_drawn(SKIN);
        // What is shown is true, or was a beat before.
        let off = (ends - left - to).max(to - 1 - (ends - left)).max(0);
        furthest = furthest.max(off);
        looks += 1;
        // Once it has rung for a while all that comes once is here.
        if before.is_none() && ends - to < -120 {
            before = Some(bench.taken());
        }
    }
    bench.announced(SKIN);
    let (before, after) = (before.unwrap(), bench.taken());
    let shares: Vec<f64> = after
        .iter()
        .zip(before)
        .map(|(after, before)| after / before)
        .collect();
    println!(
        "{minutes} minutes of timers at {times} times the speed, {looks} looks: at most {furthest} s off; heap {:.0} kB ({:.2} times what it was), nodes {:.0} ({:.2}), listeners {:.0} ({:.2})",
        after[0] / 1000.0,
        shares[0],
        after[1],
        shares[1],
        after[2],
        shares[2]
    );
    assert!(looks >= minutes / 2, "{looks} looks");
    assert!(furthest <= 2, "{furthest} s off");
    assert!(
        shares.iter().all(|share| *share < 1.1),
        "{before:?} became {after:?}"
    );
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn ten_minutes_of_timers() {
    timers_for(10, 60);
}

/// The longer form, by hand: `cargo test --test browser -- --ignored hour_of_timers::`.
#[test]
#[ignore = "takes some minutes"]
fn an_hour_of_timers() {
    timers_for(60, 30);
}
