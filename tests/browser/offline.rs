//! Without a signal: the host is stopped, not only said to be.

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme};
use crate::own_fish::whole_job;
use crate::site::Site;

impl Bench {
    /// Waits until every file of the build is kept for use without a signal.
    #[track_caller]
    pub fn kept(&self) {
        self.until(
            "the service worker never took the build",
            "return navigator.serviceWorker.ready.then(async () => {
                // What the page still asks the host for by itself is through as well.
                const asked = () => performance.getEntriesByType('resource').length;
                for (let before = -1; before !== asked();) {
                    before = asked();
                    await new Promise((done) => setTimeout(done, 800));
                }
                return true;
            })",
            &[],
        );
    }

    /// Takes the service worker and all that it keeps away.
    fn forget_offline(&self) {
        let gone = "return (async () => {
            for (const worker of await navigator.serviceWorker.getRegistrations()) await worker.unregister();
            for (const name of await caches.keys()) await caches.delete(name);
            return true;
        })()";
        self.run(gone, &[]);
    }

    /// The builds that are kept, each with its files.
    #[track_caller]
    pub fn kept_builds(&self) -> Vec<(String, Vec<String>)> {
        let kept = self.run(include_str!("scripts/kept.js"), &[]);
        serde_json::from_value(kept).unwrap()
    }

    /// The build that the page in front is of.
    #[track_caller]
    pub fn build(&self) -> String {
        let build = self.run(
            "return document.querySelector('meta[name=scaleside-build]').content",
            &[],
        );
        build.as_str().unwrap().to_owned()
    }
}

#[test]
fn exactly_the_files_of_this_build_are_kept() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.kept();
    assert_eq!(bench.kept_builds(), [(bench.build(), bench.site.files())]);
}

#[test]
fn the_app_starts_again_without_a_signal() {
    for below in ["", "kitchen/phone/"] {
        let mut bench = Bench::open_at(Site::below(below), PHONE, Scheme::Light);
        bench.started();
        bench.kept();
        bench.site.stop();
        bench.reload();
        bench.started();
        bench.new_tab();
        bench.started();
        bench.go("?from=home#/");
        bench.started();
        bench.at("#/");
        assert_eq!(bench.console_errors(), [""; 0]);
        bench.site.start();
        bench.reload();
        bench.started();
    }
}

#[test]
fn a_start_does_not_wait_for_the_worker_to_wake() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.kept();
    bench.reload();
    bench.started();
    // By the standard, 0 where the worker was not asked.
    let asked = "return [
        navigator.serviceWorker.controller !== null,
        performance.getEntriesByType('navigation')[0].workerStart,
    ]";
    assert_eq!(bench.run(asked, &[]), json!([true, 0]));
}

#[test]
fn another_copy_on_the_same_host_is_left_alone() {
    let bench = Bench::open_at(Site::below("kitchen/"), PHONE, Scheme::Light);
    bench.kept();
    let other = format!(
        "scaleside {}",
        bench.site.address().replace("kitchen", "pantry")
    );
    bench.run(
        "return caches.open(arguments[0]).then(() => true)",
        &[json!(other)],
    );
    bench.reload();
    bench.started();
    assert_eq!(
        bench.run("return caches.has(arguments[0])", &[json!(other)]),
        json!(true)
    );
}

/// A whole fish from the slip to the list, its host gone before it is begun, and the page loaded anew on the way.
pub fn job_without_a_signal(bench: &mut Bench) {
    bench.started();
    bench.kept();
    bench.see("Ready without a signal");
    bench.site.stop();
    whole_job(bench, |bench| {
        bench.reload();
        bench.started();
        bench.at_stage("fillet/6");
    });
    bench.reload();
    bench.started();
    bench.see("finished 44.0 %");
}

#[test]
fn a_whole_fish_is_worked_without_a_signal() {
    let mut bench = Bench::open(PHONE, Scheme::Light);
    job_without_a_signal(&mut bench);
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn without_its_service_worker_the_app_starts_and_takes_it_on_again() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.start_fish(&crate::cook::SNAPPER);
    bench.kept();
    bench.forget_offline();
    bench.go("#/");
    bench.reload();
    bench.started();
    bench.see("Snapper");
    bench.kept();
    let all = "return caches.keys().then((names) => names.length === 1)";
    bench.until("the build was not kept again", all, &[]);
    assert_eq!(bench.kept_builds(), [(bench.build(), bench.site.files())]);
    assert_eq!(bench.console_errors(), [""; 0]);
}

/// What is said of it is true: not before every file is here, not while one is missing, and again once it is back.
#[test]
fn ready_without_a_signal_is_said_when_all_is_here_and_not_before() {
    const SAID: &str = "Ready without a signal";
    let mut bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.kept();
    bench.see(SAID);
    assert_eq!(bench.kept_builds(), [(bench.build(), bench.site.files())]);
    // One file is gone, another one is not what it was: without a signal nobody is told that all is well.
    for harm in [
        "await cache.delete((await cache.keys()).find((file) => file.url.includes('split_dish')))",
        "await cache.put((await cache.keys()).find((file) => file.url.includes('split_cook')), new Response('cut off'))",
    ] {
        bench.site.stop();
        let script = format!(
            "return (async () => {{ const cache = await caches.open((await caches.keys())[0]); {harm}; return true; }})()"
        );
        bench.run(&script, &[]);
        bench.go("#/about");
        bench.see("Cautions");
        bench.go("#/");
        bench.see("Your fish");
        bench.run(
            "return new Promise((done) => setTimeout(done, 1500)).then(() => 0)",
            &[],
        );
        bench.not_see(SAID);
        // With one it comes back, and is said again.
        bench.site.start();
        bench.see(SAID);
        assert_eq!(bench.kept_builds(), [(bench.build(), bench.site.files())]);
    }
}
