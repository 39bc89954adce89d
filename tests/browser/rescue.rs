//! The way out when something is broken: the file holds all that is on the screen, of every kind; a photo that can't be
//! read is named, a silent database waited for once; who leaves with unkept work is asked; and photos are let go.

use std::fs;
use std::process::Command;

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme};
use crate::storage_faults::REFUSALS;

/// Whether the browser would ask before this page is left.
const ASKS: &str = "const event = new Event('beforeunload', { cancelable: true });
    dispatchEvent(event);
    return event.defaultPrevented";

impl Bench {
    /// One record of each kind, all typed in this visit.
    #[track_caller]
    fn one_of_each_kind(&self) {
        self.demo_weighed();
        let fish = self.fish_place();
        self.go(&format!("{fish}/heat"));
        self.fill("#thickness", "14");
        // What comes late moves what is below it.
        self.see("An estimate: the probe decides.");
        self.fill("#pan-name", "Black 24");
        self.tap("Keep");
        self.see("A pan of this kitchen");
        self.go("#/classes");
        self.fill("#class-name", "Tuesday");
        self.tap("Start the class");
        self.see("Add codes");
        self.go("#/dishes");
        self.tap("Write a dish");
        self.fill("#dish-name", "Test plate");
        self.go("#/settings");
        self.tap("Sound");
        self.go("#/cheapest");
        self.tap("Add a fish to the list");
        self.pick("#add-fish", "cod");
        self.tap("Add to the list");
        self.fill("#quote-0", "9.80");
    }

    /// The paths in the backup that is made now.
    #[track_caller]
    fn backed_up(&self) -> String {
        self.go("#/kept");
        self.tap("Make a backup");
        self.see("Ready:");
        self.tap("Save the file");
        self.see("Saved with your downloads.");
        let listed = Command::new("unzip")
            .arg("-l")
            .arg(self.saved(".zip"))
            .output()
            .unwrap();
        String::from_utf8(listed.stdout).unwrap()
    }

    fn memory_by_process(&self) -> Vec<(String, u64)> {
        let ours = self.chrome.as_ref().unwrap().processes();
        ours.iter()
            .map(|pid| {
                let text =
                    fs::read_to_string(format!("/proc/{pid}/smaps_rollup")).unwrap_or_default();
                let line = text.lines().find(|line| line.starts_with("Private_Dirty:"));
                let kb = line
                    .and_then(|line| line.split_whitespace().nth(1)?.parse::<u64>().ok())
                    .unwrap_or(0);
                let args = fs::read_to_string(format!("/proc/{pid}/cmdline"))
                    .unwrap_or_default()
                    .replace('\0', " ");
                let kind = args
                    .split("--type=")
                    .nth(1)
                    .and_then(|rest| rest.split(' ').next())
                    .unwrap_or("browser")
                    .to_owned();
                (kind, kb / 1000)
            })
            .collect()
    }

    /// The memory that all processes of this browser hold for themselves, in kilobytes.
    fn memory(&self) -> u64 {
        let ours = self.chrome.as_ref().unwrap().processes();
        let private = |pid: &u32| {
            let text = fs::read_to_string(format!("/proc/{pid}/smaps_rollup")).unwrap_or_default();
            let of = |name: &str| {
                let line = text.lines().find(|line| line.starts_with(name));
                line.and_then(|line| line.split_whitespace().nth(1)?.parse::<u64>().ok())
                    .unwrap_or(0)
            };
            of("Private_Clean:") + of("Private_Dirty:")
        };
        ours.iter().map(private).sum()
    }
}

#[test]
fn the_file_holds_every_kind_kept_or_not() {
    let mut held = 0;
    for (how, script) in REFUSALS.iter().chain(&[("all is kept", "")]) {
        println!("{how}");
        let bench = Bench::open(PHONE, Scheme::Light);
        bench.command("Page.enable", json!({}));
        bench.before_each_load(script);
        bench.reload();
        bench.started();
        assert_eq!(
            bench.run(ASKS, &[]),
            json!(false),
            "asked with nothing at stake"
        );
        bench.one_of_each_kind();
        let asks = json!(!script.is_empty());
        assert_eq!(bench.run(ASKS, &[]), asks, "asked before leaving");
        let listed = bench.backed_up();
        for kind in ["fish", "pan", "class", "recipe", "settings", "quote"] {
            assert!(
                listed.contains(&format!("records/{kind}/")),
                "no {kind} in\n{listed}"
            );
            held += 1;
        }
        assert_eq!(bench.console_errors(), [""; 0]);
    }
    println!("{held} records of six kinds, kept or not: all were in the file");
}

#[test]
fn a_photo_that_cannot_be_read_is_named_and_hides_no_other() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.demo_weighed();
    let place = bench.fish_place();
    bench.journal_with_photo();
    let id = place.rsplit('/').next().unwrap().to_owned();
    // What stands there is no photo any more, and comes before the one that is.
    bench.with_photos("photos.put('gone', `fish/${given}/0000`)", json!(id));
    bench.go("#/");
    bench.go(&format!("{place}/journal"));
    bench.photos_shown(1);
    bench.see("can't be read");
    bench.go("#/kept");
    bench.tap("Make a backup");
    bench.see("and 1 photo,");
    bench.see("Not in it, because this browser can't read them: 1 photo of Gilthead bream.");
    assert_eq!(bench.console_errors(), [""; 0]);
}

/// A change that never ends keeps every reader waiting: with six photos, that is seven readers.
#[test]
fn a_silent_database_is_waited_for_once_and_said() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.demo_weighed();
    let place = bench.fish_place();
    bench.journal_with_photo();
    bench.go(&place);
    bench.holds_photos_for_ever();
    bench.go("#/kept");
    bench.tap("Make a backup");
    bench.see("Putting it together");
    // One deadline of twenty seconds, and no more: the driver's own patience is shorter than two.
    bench.run(
        "return new Promise((done) => setTimeout(done, 20000)).then(() => 0)",
        &[],
    );
    bench.see("Ready:");
    bench.see("Not in it: the photos");
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn sixty_looks_at_six_photos_take_no_more_memory_than_one() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.demo_weighed();
    let place = bench.fish_place();
    bench.journal_with_photo();
    let id = place.rsplit('/').next().unwrap().to_owned();
    bench.go("#/about");
    // Each as large as a camera's own: made small they would hide in the noise.
    let padded = "const all = photos.getAll(); all.onsuccess = () => {
        const photo = all.result[0];
        const large = new Uint8Array(4000000);
        large.set(photo);
        photos.clear();
        for (let nth = 0; nth < 6; nth++) photos.put(large, `fish/${given}/000${nth}`);
    }";
    bench.with_photos(padded, json!(id));
    let look = || {
        bench.go(&format!("{place}/journal"));
        bench.photos_shown(6);
        bench.go("#/about");
        bench.see("Cautions");
    };
    let measured = || {
        bench.command("HeapProfiler.collectGarbage", json!({}));
        bench.run(
            "return new Promise((done) => setTimeout(done, 1500)).then(() => 0)",
            &[],
        );
        bench.command("HeapProfiler.collectGarbage", json!({}));
        // What a browser holds back for later it gives up when the phone runs short.
        bench.command(
            "Memory.simulatePressureNotification",
            json!({ "level": "critical" }),
        );
        bench.run(
            "return new Promise((done) => setTimeout(done, 1000)).then(() => 0)",
            &[],
        );
        bench.memory()
    };
    // The first looks bring what comes once: the part of the app, its pictures' decoders, the browser's own pools.
    for _ in 0..10 {
        look();
    }
    let once = measured();
    for round in 0..3 {
        for _ in 0..20 {
            look();
        }
        println!(
            "after {} more: {:?}",
            20 * (round + 1),
            bench.memory_by_process()
        );
    }
    let often = measured();
    #[allow(clippy::cast_precision_loss)]
    let share = often as f64 / once as f64;
    println!(
        "memory of the browser: {} MB after the first looks at six photos of 4 MB, {} MB after 60 more ({share:.2} times)",
        once / 1000,
        often / 1000
    );
    assert!(share < 1.1, "{once} kB became {often} kB");
}
