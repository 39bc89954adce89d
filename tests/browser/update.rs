//! A newer build: taken whole or not at all, and only when the cook says so.

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme};

const LOOK: &str = "return navigator.serviceWorker.ready.then((registration) => registration.update()).then(() => true)";
const MARK: &str = "window.untouched = true";
const UNTOUCHED: &str = "return window.untouched === true";

/// A page under the worker's care.
#[track_caller]
fn kept_bench() -> Bench {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.kept();
    bench.reload();
    bench.started();
    bench.run(MARK, &[]);
    bench
}

impl Bench {
    #[track_caller]
    fn offered(&self) {
        self.until(
            "no newer build was offered",
            "return window.__scalesideUpdate === 'ready'",
            &[],
        );
    }

    /// Waits until no build is kept but one.
    #[track_caller]
    fn swept(&self) {
        let one = "return caches.keys().then((names) => names.length === 1)";
        self.until("the older build was never swept away", one, &[]);
    }

    #[track_caller]
    fn take(&self) {
        self.run(
            "dispatchEvent(new CustomEvent('scaleside-update-take'))",
            &[],
        );
    }
}

#[test]
fn a_newer_build_waits_for_the_cook() {
    let bench = kept_bench();
    let old = bench.build();
    bench.site.next_build();
    bench.run(LOOK, &[]);
    bench.offered();
    assert_eq!(
        bench.run(UNTOUCHED, &[]),
        json!(true),
        "the page was reloaded"
    );

    bench.reload();
    bench.started();
    bench.offered();
    assert_eq!(bench.build(), old, "a reload took the newer build");

    bench.take();
    let newer = "return (document.querySelector('meta[name=scaleside-build]')?.content ?? arguments[0]) !== arguments[0]";
    bench.until("the newer build was not taken", newer, &[json!(old)]);
    bench.started();
    bench.swept();
    assert_eq!(bench.kept_builds(), [(bench.build(), bench.site.files())]);
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn another_tab_goes_on_with_its_own_build() {
    let bench = kept_bench();
    let (old, first) = (bench.build(), bench.this_tab());
    let second = bench.new_tab();
    bench.started();
    bench.run(MARK, &[]);
    bench.site.next_build();
    bench.run(LOOK, &[]);
    bench.turn_to(&first);
    bench.offered();
    bench.take();
    bench.until(
        "the first tab was not reloaded",
        "return window.untouched === undefined",
        &[],
    );
    bench.started();
    let new = bench.build();
    assert_ne!(new, old);

    bench.turn_to(&second);
    assert_eq!(
        bench.run(UNTOUCHED, &[]),
        json!(true),
        "the second tab was reloaded"
    );
    assert_eq!(bench.build(), old);
    let builds: Vec<String> = bench
        .kept_builds()
        .into_iter()
        .map(|(build, _)| build)
        .collect();
    assert_eq!(builds.len(), 2, "the older build is still in use");
    bench.offered();
    bench.take();
    bench.until(
        "the second tab was not reloaded",
        "return window.untouched === undefined",
        &[],
    );
    bench.started();
    assert_eq!(bench.build(), new);
    bench.swept();
}

#[test]
fn two_builds_are_never_mixed() {
    let bench = kept_bench();
    let before = bench.kept_builds();
    bench.site.next_build();
    bench.site.edit("icons/scaleside.svg", |drawing| {
        drawing + "<!-- of yet another build -->\n"
    });
    let fate = "const registration = await navigator.serviceWorker.ready;
        const settled = new Promise((done) => registration.addEventListener('updatefound', () => {
            const worker = registration.installing;
            worker.addEventListener('statechange', () => done(worker.state));
        }));
        await registration.update();
        return settled;";
    assert_eq!(
        bench.run(&format!("return (async () => {{ {fate} }})()"), &[]),
        json!("redundant")
    );
    assert_eq!(bench.kept_builds(), before);
    assert_eq!(
        bench.run("return window.__scalesideUpdate ?? null", &[]),
        json!(null)
    );
    bench.reload();
    bench.started();
    assert_eq!(bench.build(), before[0].0);
}
