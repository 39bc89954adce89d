//! What takes long is worked out beside the page; and on the page, with the same answers, where that can't be.

use serde_json::{Value, json};

use crate::bench::{Bench, PHONE, Scheme};
use crate::class::{THIRTY, class_with};
use crate::site::Site;

const WORKERS: &str = include_str!("scripts/workers.js");

impl Bench {
    /// The app, from a start on at which this befalls its workers.
    #[track_caller]
    fn with_workers(site: Site, fail: &str) -> Self {
        let bench = Self::open_at(site, PHONE, Scheme::Light);
        bench.command("Page.enable", json!({}));
        bench.before_each_load(&format!("window.workersFail = {};\n{WORKERS}", json!(fail)));
        bench.reload();
        bench.started();
        bench
    }

    /// The workers the page has started: what each was asked, and how many answers it gave.
    fn workers(&self) -> Vec<(Vec<String>, u64)> {
        let notes = self.run("return window.workers", &[]);
        let note = |note: &Value| {
            let asked = note["asked"].as_array().unwrap().iter();
            let asked = asked.map(|name| name.as_str().unwrap().to_owned());
            (asked.collect(), note["answered"].as_u64().unwrap())
        };
        notes.as_array().unwrap().iter().map(note).collect()
    }

    /// Every answer that a worker can give to a screen, as it is shown: a quarrel, a plan, an estimate, a picture.
    #[track_caller]
    fn all_answers(&self) -> Vec<String> {
        self.demo_weighed();
        let fish = self.fish_place();
        self.go(&format!("{fish}/plan"));
        self.see("Nothing waits for the plate.");
        self.fill("#at-once", "1");
        self.see("This does not fit");
        let quarrel = self.part("main .doubt");
        self.tap("Use a second pan.");
        self.see_unfolded("Skin side down, batch 2");
        // The hours move with the clock.
        let plan = self.run(
            "return [...document.querySelectorAll('.planlist span')].map((step) => step.innerText).join('\\n')",
            &[],
        );
        self.go(&format!("{fish}/heat"));
        self.fill("#thickness", "19");
        self.see("Its middle gets to");
        let estimate = self.part(".figures");
        self.go(&format!("{fish}/code"));
        self.until(
            "the picture of the link is missing",
            "return document.querySelector('svg.qr .dark') !== null",
            &[],
        );
        let picture = self.run(
            "return document.querySelector('svg.qr .dark').getAttribute('d').length > 1000",
            &[],
        );
        assert_eq!(picture, json!(true));
        let plan = plan.as_str().unwrap().to_owned();
        vec![quarrel, plan, estimate]
    }

    #[track_caller]
    fn part(&self, selector: &str) -> String {
        let text = self.run(
            "return document.querySelector(arguments[0]).innerText",
            &[json!(selector)],
        );
        text.as_str().unwrap().to_owned()
    }
}

#[test]
fn plans_estimates_and_pictures_come_from_one_worker() {
    let bench = Bench::with_workers(Site::new(), "");
    // Told, not judged: how long the page itself was busy is the benchmark's to print.
    bench.run(
        "window.long = []; new PerformanceObserver((list) =>
            list.getEntries().forEach((task) => window.long.push(Math.round(task.duration)))).observe({ type: 'longtask' })",
        &[],
    );
    bench.all_answers();
    let workers = bench.workers();
    assert_eq!(workers.len(), 1, "{workers:?}");
    let (asked, answered) = &workers[0];
    for kind in ["plan", "estimate", "picture"] {
        assert!(asked.iter().any(|name| name == kind), "{asked:?}");
    }
    assert_eq!(*answered, asked.len() as u64);
    println!(
        "tasks over 50 ms on the page, in ms: {}",
        bench.run("return window.long", &[])
    );
    assert_eq!(bench.console_errors(), [""; 0]);
}

/// Without workers, with workers that die once, that always die, and whose files are missing.
#[test]
fn where_there_is_no_worker_the_answers_are_the_same() {
    let wanted = Bench::with_workers(Site::new(), "").all_answers();
    for fail in ["never", "killed once", "killed"] {
        let bench = Bench::with_workers(Site::new(), fail);
        assert_eq!(bench.all_answers(), wanted, "{fail}");
        println!("{fail}: {:?}", bench.workers());
        assert_eq!(bench.console_errors(), [""; 0], "{fail}");
    }
    for missing in ["start_worker-", "scaleside-worker_bg-"] {
        let site = Site::new();
        let files = site.files().into_iter();
        let missing: Vec<String> = files.filter(|path| path.starts_with(missing)).collect();
        assert_eq!(missing.len(), 1);
        site.remove(&missing[0]);
        let bench = Bench::with_workers(site, "");
        assert_eq!(bench.all_answers(), wanted, "{missing:?}");
    }
}

#[test]
fn a_worker_that_is_refused_costs_no_answer() {
    let by_policy = Site::new();
    by_policy.edit("index.html", |page| {
        page.replace("worker-src 'self'", "worker-src 'none'")
    });
    for (site, fail) in [(by_policy, ""), (Site::new(), "refused")] {
        let bench = Bench::with_workers(site, fail);
        bench.demo_weighed();
        let fish = bench.fish_place();
        bench.go(&format!("{fish}/plan"));
        bench.see("Nothing waits for the plate.");
    }
}

/// A worker that goes on with what nobody waits for is ended, and the last tap is the one that is answered.
#[test]
fn the_last_of_many_taps_is_answered() {
    let bench = Bench::with_workers(Site::new(), "");
    bench.demo_weighed();
    let fish = bench.fish_place();
    bench.go(&format!("{fish}/plan"));
    bench.see("Nothing waits for the plate.");
    bench.run("window.workersFail = 'deaf'", &[]);
    bench.unfold();
    bench.fill("#at-once", "1");
    bench.see("working it out again");
    bench.run("window.workersFail = ''", &[]);
    let taps = "const field = document.querySelector('#at-once');
        const type = (text) => { field.value = text; field.dispatchEvent(new Event('input', { bubbles: true })); };
        const pans = [...document.querySelectorAll('input[name=pans]')];
        for (const text of ['1', '2', '', '1']) type(text);
        for (const pan of [...pans, pans[1]]) pan.click();";
    bench.run(taps, &[]);
    bench.see_unfolded("Skin side down, batch 2");
    bench.not_see("This does not fit");
    bench.not_see("orking it out");
    let ended = bench.run("return window.workers.map((worker) => worker.ended)", &[]);
    assert_eq!(ended, json!([true, false]));
}

/// While a newer answer is worked out the old one stays, says so, and moves nothing under a thumb.
#[test]
fn an_old_answer_says_that_it_is_old() {
    let mut bench = Bench::with_workers(Site::new(), "deaf");
    bench.demo_weighed();
    let fish = bench.fish_place();
    bench.go(&format!("{fish}/plan"));
    bench.see("Working it out…");
    let mut faults = bench.faults("plan-first-waits");
    bench.go(&format!("{fish}/heat"));
    bench.fill("#thickness", "19");
    bench.see("Working it out…");

    let hear = |bench: &Bench| bench.run("window.workersFail = ''", &[]);
    let deafen = |bench: &Bench| bench.run("window.workersFail = 'deaf'", &[]);
    hear(&bench);
    bench.go(&format!("{fish}/plan"));
    bench.see("Nothing waits for the plate.");
    bench.not_see("Working it out…");
    deafen(&bench);
    bench.unfold();
    let place = "return document.querySelector('#at-once').getBoundingClientRect().top + scrollY";
    let before = bench.run(place, &[]);
    bench.fill("#at-once", "1");
    bench.see("From before your last change: working it out again…");
    bench.see("Nothing waits for the plate.");
    assert_eq!(bench.run(place, &[]), before);
    faults.extend(bench.faults("plan-waits"));
    hear(&bench);
    bench.fill("#at-once", "2");
    bench.not_see("From before your last change");

    bench.go(&format!("{fish}/heat"));
    bench.see("Its middle gets to");
    bench.see("Cook it by this");
    deafen(&bench);
    bench.fill("#thickness", "22");
    bench.see("From before your last change…");
    bench.see("Its middle gets to");
    bench.not_see("Cook it by this");
    bench.tap_css(".page h1");
    faults.extend(bench.faults("heat-waits"));
    hear(&bench);
    bench.fill("#thickness", "21");
    bench.see("Cook it by this");

    bench.go(&format!("{fish}/prepare"));
    bench.tap("Start the service");
    bench.tap("Start anyway");
    bench.at_stage("service");
    bench.all_steps();
    bench.see("Plate about");
    bench.until(
        "the plan never came",
        "return document.querySelector('.lanes svg') !== null",
        &[],
    );
    deafen(&bench);
    bench.clock_ahead(40);
    bench.see("old: working it out again…");
    faults.extend(bench.faults("service-waits"));
    assert_eq!(faults, [""; 0]);
    assert_eq!(bench.console_errors(), [""; 0]);
}

/// What is read from a long text keeps no plan waiting: it has a worker of its own, which ends with it.
#[test]
fn a_paste_is_read_by_a_worker_of_its_own() {
    let bench = Bench::with_workers(Site::new(), "");
    class_with(&bench, THIRTY);
    bench.see("29 codes added.");
    let workers = bench.run(
        "return window.workers.map((worker) => [worker.asked, worker.ended])",
        &[],
    );
    assert_eq!(workers, json!([[["paste"], true]]));
    for fail in ["never", "killed"] {
        let bench = Bench::with_workers(Site::new(), fail);
        class_with(&bench, THIRTY);
        bench.see("29 codes added.");
        bench.see("1 code was here already: line 30.");
    }
}

#[test]
fn the_worker_starts_without_a_signal() {
    let mut bench = Bench::with_workers(Site::below("kitchen/phone/"), "");
    bench.kept();
    bench.site.stop();
    bench.reload();
    bench.started();
    bench.all_answers();
    let workers = bench.workers();
    assert!(workers.len() == 1 && workers[0].1 > 0, "{workers:?}");
    assert_eq!(bench.console_errors(), [""; 0]);
}
