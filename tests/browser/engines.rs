//! The same in every engine: the main job without a signal, timers, a photo and a backup, a code, a newer build, and no
//! screen wider than the phone. Chromium is what all other tests run in; here are the other two.

use serde_json::{Value, json};

use crate::bench::{Bench, PHONE, Size};
use crate::cook::{SKIN, SNAPPER};
use crate::engine::Engine;
use crate::offline::job_without_a_signal;

/// Sizes at which no screen may be wider than the phone.
const WIDTHS: [Size; 3] = [Size(320, 568), Size(360, 740), Size(1280, 740)];

impl Bench {
    /// What a tap on `button` would save, in base 64: a browser without a hand on its downloads keeps them to itself.
    #[track_caller]
    fn caught(&self, button: &str) -> String {
        self.run(
            "const make = URL.createObjectURL;
            URL.createObjectURL = (blob) => { window.caught = blob; return make.call(URL, blob); }",
            &[],
        );
        self.tap(button);
        self.until(
            "nothing was saved",
            "return window.caught instanceof Blob",
            &[],
        );
        let bytes = "return new Promise((done) => {
            const reader = new FileReader();
            reader.onload = () => done(reader.result.split(',')[1]);
            reader.readAsDataURL(window.caught);
        })";
        self.run(bytes, &[]).as_str().unwrap().to_owned()
    }

    /// Chooses a file that is given as its bytes, in base 64.
    #[track_caller]
    fn choose_bytes(&self, field: &str, name: &str, bytes: &str) {
        let script = "const [field, name, text] = arguments;
            const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
            const given = new DataTransfer();
            given.items.add(new File([bytes], name));
            const found = document.querySelector(field);
            found.files = given.files;
            found.dispatchEvent(new Event('change', { bubbles: true }));";
        self.run(script, &[json!(field), json!(name), json!(bytes)]);
    }

    /// Everything that this site keeps is gone, as on another phone.
    #[track_caller]
    fn forget_everything(&self) {
        self.go("404.html");
        let forget = "return (async () => {
            localStorage.clear();
            // Emptied, since a page that was left may still hold them.
            for (const { name } of await indexedDB.databases())
                await new Promise((done) => {
                    indexedDB.open(name).onsuccess = ({ target: { result: base } }) => {
                        const stores = [...base.objectStoreNames];
                        if (!stores.length) return done(base.close());
                        const emptying = base.transaction(stores, 'readwrite');
                        for (const store of stores) emptying.objectStore(store).clear();
                        emptying.oncomplete = () => done(base.close());
                    };
                });
            return true;
        })()";
        self.run(forget, &[]);
        self.go("");
        self.started();
    }
}

#[test]
fn the_job_without_a_signal_in_gecko() {
    job_without_a_signal(&mut Bench::open_by(Engine::Gecko, PHONE));
}

#[test]
fn the_job_without_a_signal_in_webkit() {
    job_without_a_signal(&mut Bench::open_by(Engine::WebKit, PHONE));
}

fn timers(engine: Engine) {
    let bench = Bench::open_by(engine, PHONE);
    bench.started();
    bench.skin_side_down();
    let until = bench.until_minute(SKIN);
    bench.reload();
    bench.started();
    bench.step_says(SKIN, "until");
    assert_eq!(bench.until_minute(SKIN), until);
    bench.on_step(SKIN, "Hold");
    bench.step_says(SKIN, "held");
    let held = bench.left(SKIN);
    assert!((1..=270).contains(&held), "{held}");
    bench.clock_ahead(100);
    bench.on_step(SKIN, "Go on");
    bench.step_says(SKIN, "until");
    assert!(bench.left(SKIN) <= held);
    bench.clock_ahead(100 + 400);
    bench.step_says(SKIN, "time is up");
    bench.announced(SKIN);
}

#[test]
fn timers_in_gecko() {
    timers(Engine::Gecko);
}

#[test]
fn timers_in_webkit() {
    timers(Engine::WebKit);
}

fn photo_backup_and_code(engine: Engine) {
    let bench = Bench::open_by(engine, PHONE);
    bench.started();
    bench.demo_weighed();
    bench.journal_with_photo();
    let photos = bench.kept_photos();
    assert_eq!(photos.len(), 1);
    bench.go("#/");
    bench.start_fish(&SNAPPER);
    bench.go("#/kept");
    bench.tap("Make a backup");
    bench.see("Ready: 3 entries and 1 photo");
    let file = bench.caught("Save the file");

    bench.forget_everything();
    bench.see("Try the demo first");
    bench.go("#/restore");
    bench.see("Choose the file");
    bench.choose_bytes("#backup", "scaleside.zip", &file);
    bench.see("3 entries not on this phone: added");
    bench.tap("Put it in");
    bench.see("Done: 3 entries put in.");
    assert_eq!(bench.kept_photos(), photos);
    bench.go("#/");
    bench.see("Snapper");
    bench.tap("Gilthead bream");
    let place = bench.fish_place();
    bench.go(&format!("{place}/journal"));
    bench.photos_shown(1);

    bench.go(&format!("{place}/code"));
    bench.fill("#nickname", "tern");
    bench.see("Read it out");
    let link = bench.run("return document.querySelector('a.link').hash", &[]);
    bench.go(link.as_str().unwrap());
    bench.see("Add to a class");
    bench.see("46.6 %");
    bench.tap("Add to a new class");
    bench.see("Class of");
    bench.see("TERN 1");
}

#[test]
fn photo_backup_and_code_in_gecko() {
    photo_backup_and_code(Engine::Gecko);
}

#[test]
fn photo_backup_and_code_in_webkit() {
    photo_backup_and_code(Engine::WebKit);
}

fn a_newer_build(engine: Engine) {
    let bench = Bench::open_by(engine, PHONE);
    bench.kept();
    bench.reload();
    bench.started();
    let old = bench.build();
    bench.site.next_build();
    bench.run(
        "return navigator.serviceWorker.ready.then((registration) => registration.update()).then(() => true)",
        &[],
    );
    bench.until(
        "no newer build was offered",
        "return window.__scalesideUpdate === 'ready'",
        &[],
    );
    assert_eq!(bench.build(), old);
    bench.tap("Start the new version");
    bench.until(
        "the newer build was not taken",
        "return (document.querySelector('meta[name=scaleside-build]')?.content ?? arguments[0]) !== arguments[0]",
        &[json!(old)],
    );
    bench.started();
    assert_eq!(bench.kept_builds(), [(bench.build(), bench.site.files())]);
}

#[test]
fn a_newer_build_in_gecko() {
    a_newer_build(Engine::Gecko);
}

#[test]
fn a_newer_build_in_webkit() {
    a_newer_build(Engine::WebKit);
}

/// Every screen at these sizes, with the text at so many percent: what is wider than the phone, one line each.
fn across(engine: Engine, sizes: &[Size], texts: &[u32]) -> Vec<String> {
    let bench = Bench::open_by(engine, PHONE);
    let screens = bench.one_of_everything();
    let mut faults = Vec::new();
    let mut looked = 0;
    for size in sizes {
        bench.other().sized(*size);
        for screen in &screens {
            bench.go(screen);
            bench.started();
            bench.unfold();
            for percent in texts {
                bench.text_at(*percent);
                looked += 1;
                if let Value::String(wide) = bench.run(include_str!("scripts/across.js"), &[]) {
                    faults.push(format!("{screen} at {} %: {wide}", percent));
                }
            }
        }
    }
    println!("{engine:?}: {looked} looks at {} screens", screens.len());
    faults
}

#[test]
fn no_screen_is_wider_than_the_phone_in_gecko() {
    assert_eq!(across(Engine::Gecko, &WIDTHS[..2], &[100]), [""; 0]);
}

#[test]
fn no_screen_is_wider_than_the_phone_in_webkit() {
    assert_eq!(across(Engine::WebKit, &WIDTHS[..2], &[100]), [""; 0]);
}

/// The longer form, by hand: `cargo test --test browser -- --ignored engines::`.
#[test]
#[ignore = "some minutes: every width, and larger text"]
fn no_screen_is_wider_than_the_phone_whatever_the_text() {
    for engine in [Engine::Gecko, Engine::WebKit] {
        assert_eq!(
            across(engine, &WIDTHS, &[100, 130, 200]),
            [""; 0],
            "{engine:?}"
        );
    }
}
