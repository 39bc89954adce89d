//! What is kept for use without a signal is harmed in every way that browsers and hosts know: it mends itself where there
//! is one, and what can't start says why and offers what works.

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme};
use crate::site::Site;

/// What the login page of a network answers to anything.
const PORTAL: &[u8] = b"<!doctype html><title>Log in</title><p>Accept the terms to go on.</p>";

/// A file of each sort, by what its name begins with.
const SORTS: [&str; 6] = [
    "index",
    "boot-",
    "scaleside-",
    "scaleside_bg-",
    "split_cook-",
    "icons/",
];

impl Site {
    fn of_sort(&self, sort: &str) -> String {
        let files = self.files();
        files
            .into_iter()
            .find(|path| path.starts_with(sort))
            .unwrap()
    }
}

impl Bench {
    /// Takes files of the cache away, behind the worker's back: those whose address holds `part`.
    fn lose(&self, part: &str) {
        let script = "return (async () => {
            const cache = await caches.open((await caches.keys())[0]);
            const lost = (await cache.keys()).filter(({ url }) => PART === 'index.html' ? url.endsWith('/') : url.includes(PART));
            for (const file of lost) await cache.delete(file);
            return lost.length;
        })()";
        let script = script.replace("PART", &json!(part).to_string());
        assert_ne!(self.run(&script, &[]), json!(0), "nothing is called {part}");
    }

    /// Waits until every file is kept again, and sees the app start without a signal.
    fn whole_again(&mut self) {
        let whole = format!(
            "return (async () => {{
                const names = await caches.keys();
                if (names.length !== 1) return false;
                return (await (await caches.open(names[0])).keys()).length === {};
            }})()",
            self.site.files().len()
        );
        self.until("what lacked was not fetched", &whole, &[]);
        assert_eq!(self.kept_builds(), [(self.build(), self.site.files())]);
        self.site.stop();
        self.reload();
        self.started();
        self.site.start();
    }
}

#[test]
fn what_is_gone_is_fetched_at_the_next_start_with_a_signal() {
    let mut bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.kept();
    bench.reload();
    bench.started();
    for sort in SORTS {
        let file = bench.site.of_sort(sort);
        bench.lose(&file);
        bench.reload();
        bench.started();
        bench.whole_again();
    }
    bench.run("return caches.keys().then((names) => Promise.all(names.map((name) => caches.delete(name)))).then(() => true)", &[]);
    bench.reload();
    bench.started();
    bench.whole_again();
    println!(
        "{} harms to the cache: all mended at the next start with a signal",
        SORTS.len() + 1
    );
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn what_is_gone_without_a_signal_is_said_and_mended_by_the_button_once_there_is_one() {
    let harms = [
        (
            "",
            "Scaleside needs a signal once",
            "Try again where there is a signal",
        ),
        ("boot-", "This takes long: a weak signal", "Try again"),
        ("scaleside-", "A file is missing.", "Reload"),
        ("scaleside_bg-", "A file is missing.", "Reload"),
    ];
    for (sort, said, way) in harms {
        let mut bench = Bench::open(PHONE, Scheme::Light);
        bench.start_fish(&crate::cook::SNAPPER);
        bench.kept();
        bench.reload();
        bench.started();
        bench.lose(sort);
        bench.site.stop();
        if sort.is_empty() {
            // The page's own address goes past the worker where the browser can (see `FIRST` in the worker): there the
            // browser says it in its own words.
            bench.go("?from=home");
        } else {
            bench.reload();
        }
        bench.see(said);
        bench.see("kept.");
        bench.shot(&format!(
            "lacks-{}",
            if sort.is_empty() { "all" } else { sort }
        ));
        bench.site.start();
        bench.tap(way);
        bench.started();
        bench.go("#/");
        bench.see("Snapper");
    }
    println!(
        "{} harms without a signal: each is said, and mended by the button once there is one",
        harms.len()
    );
}

#[test]
fn behind_the_login_page_of_a_network_the_first_start_says_why() {
    let mut first_starts = 0;
    for (sorts, said, way) in [
        (&SORTS[1..5], "This takes long: a weak signal", "Try again"),
        (&SORTS[2..5], "A file is missing.", "Reload"),
    ] {
        let site = Site::new();
        let files: Vec<(String, Vec<u8>)> = (sorts.iter().map(|sort| site.of_sort(sort)))
            .map(|path| (path.clone(), site.bytes(&path)))
            .collect();
        for (path, _) in &files {
            site.put(path, PORTAL);
        }
        let bench = Bench::open_at(site, PHONE, Scheme::Light);
        bench.see(said);
        assert_eq!(bench.small_targets(), [""; 0]);
        assert_eq!(bench.axe(), [""; 0]);
        bench.shot(&format!("portal-{}", way.replace(' ', "-")));
        for (path, bytes) in &files {
            bench.site.put(path, bytes);
        }
        bench.tap(way);
        bench.started();
        first_starts += 1;
    }
    println!(
        "{first_starts} first starts behind a login page: each said why, and was mended by its button"
    );
}

#[test]
fn an_old_page_takes_the_build_that_its_host_has_by_itself() {
    let mut old_pages = 0;
    for sort in ["scaleside-", "scaleside_bg-"] {
        let bench = Bench::open(PHONE, Scheme::Light);
        bench.start_fish(&crate::cook::SNAPPER);
        bench.kept();
        bench.reload();
        bench.started();
        let old = bench.build();
        let file = bench.site.of_sort(sort);
        bench.lose(&file);
        // The host has the next build alone, whose file is another one: a custom section does nothing, nor does a comment.
        bench.site.spoil(&file, |bytes| match sort {
            "scaleside-" => bytes.extend(b"// newer\n"),
            _ => bytes.extend([0, 2, 1, b'x']),
        });
        bench.site.next_build();
        bench.reload();
        bench.started();
        bench.until(
            "the old page stayed",
            "return document.querySelector('meta[name=scaleside-build]').content !== arguments[0]",
            &[json!(old)],
        );
        bench.go("#/");
        bench.see("Snapper");
        old_pages += 1;
    }
    println!("{old_pages} old pages on a host with a newer build: each took it by itself");
}

#[test]
fn a_newer_build_that_waits_says_when_it_starts() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.kept();
    bench.reload();
    bench.started();
    let old = bench.build();
    bench.site.next_build();
    bench.run(
        "return navigator.serviceWorker.ready.then((registration) => registration.update()).then(() => true)",
        &[],
    );
    bench.see("It starts when you choose, or once Scaleside was closed.");
    bench.reload();
    bench.started();
    assert_eq!(bench.build(), old, "a reload took the newer build");
    // The browser takes a moment to see that no page is left.
    let gone = bench.this_tab();
    let fresh = bench.wait(bench.browser().new_tab());
    bench.turn_to(&gone);
    bench.wait(bench.browser().close_window());
    bench.turn_to(&fresh);
    bench.run(
        "return new Promise((done) => setTimeout(done, 3000)).then(() => 0)",
        &[],
    );
    bench.go("");
    bench.started();
    assert_ne!(bench.build(), old, "what is said is true");
}
