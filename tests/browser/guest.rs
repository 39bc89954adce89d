//! The app as a guest on a phone: what it tells the browser of itself, what the home screen offers, what the phone's own
//! sheets bring, and an address that names nothing.

use std::path::Path;

use serde_json::{Value, json};

use crate::bench::{Bench, PHONE, Scheme, Size};
use crate::class::texts;
use crate::site::Site;

const SHOTS: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/public/shots");

/// Width and height of a PNG, by its header (RFC 2083, 11.2.1).
fn sides(png: &[u8]) -> (u32, u32) {
    assert!(png.starts_with(b"\x89PNG\r\n\x1a\n"));
    let side = |at: usize| u32::from_be_bytes(png[at..at + 4].try_into().unwrap());
    (side(16), side(20))
}

#[test]
fn the_manifest_is_that_of_one_copy_and_its_pictures_are_as_it_says() {
    let bench = Bench::open_at(Site::below("kitchen/"), PHONE, Scheme::Light);
    bench.started();
    let read = bench.command("Page.getAppManifest", json!({}));
    assert_eq!(read["errors"], json!([]), "{read}");
    assert_eq!(bench.install_errors(), json!([]));
    let manifest: Value = serde_json::from_str(read["data"].as_str().unwrap()).unwrap();
    assert_eq!(manifest.get("id"), None);
    // Without an id of its own an app is known by where it starts: W3C, Web Application Manifest, "id member".
    let id = bench.command("Page.getAppId", json!({}));
    assert_eq!(id["appId"], json!(bench.site.address()), "{id}");
    let mut looked = 0;
    for kind in ["icons", "screenshots"] {
        for picture in manifest[kind].as_array().unwrap() {
            let bytes = bench.site.bytes(picture["src"].as_str().unwrap());
            if picture["type"] == "image/png" {
                let (width, height) = sides(&bytes);
                assert_eq!(
                    picture["sizes"],
                    json!(format!("{width}x{height}")),
                    "{picture}"
                );
                looked += 1;
            }
        }
    }
    assert_eq!(looked, 7);
    // An install sheet asks for the pictures where there is a signal; nothing keeps them on the phone.
    bench.kept();
    let kept = bench.kept_builds();
    assert!(
        !kept[0].1.iter().any(|path| path.starts_with("shots/")),
        "{kept:?}"
    );
}

/// Makes the pictures of the manifest again: `cargo test --test browser -- --ignored pictures_of_the_manifest`.
#[test]
#[ignore = "writes into public/shots"]
fn pictures_of_the_manifest() {
    let keep = |bench: &Bench, name: &str| {
        std::fs::create_dir_all(SHOTS).unwrap();
        std::fs::copy(
            bench.shot(name),
            Path::new(SHOTS).join(format!("{name}.png")),
        )
        .unwrap();
    };
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.demo_weighed();
    bench.run("document.activeElement.blur(); scrollTo(0, 0)", &[]);
    keep(&bench, "yield");
    bench.start_anyway();
    let beside = bench.fish_place() + "/service";
    bench.all_steps();
    bench.on_step("Warm the plates", "Warming");
    bench.on_step("Heat the pan", "Shimmering");
    bench.on_step("Skin side down", "Begin");
    bench.clock_ahead(60);
    bench.go(&beside);
    bench.see("3:2");
    keep(&bench, "service");
    let wide = Bench::open(Size(1280, 800), Scheme::Light);
    wide.started();
    wide.demo_weighed();
    wide.command(
        "Emulation.setDeviceMetricsOverride",
        json!({ "width": 1280, "height": 800, "deviceScaleFactor": 1, "mobile": false }),
    );
    wide.run("document.activeElement.blur(); scrollTo(0, 0)", &[]);
    keep(&wide, "yield-wide");
}

#[test]
fn the_home_screen_leads_to_a_new_fish_and_to_the_running_service() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.go("#/cooking");
    bench.see("No service runs on this phone.");
    bench.is_sound();
    bench.go("#/begin");
    bench.at_stage("delivery");
    let begun = bench.fish_place();
    bench.reload();
    bench.at_stage("delivery");
    assert_eq!(bench.fish_place(), begun, "another fish was begun");
    bench.go("#/");
    bench.demo_weighed();
    let demo = bench.fish_place();
    bench.start_anyway();
    bench.all_steps();
    bench.on_step("Warm the plates", "Warming");
    bench.on_step("Heat the pan", "Shimmering");
    bench.on_step("Skin side down", "Begin");
    bench.go("#/cooking");
    bench.at(&format!("{demo}/service"));
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn a_code_that_a_share_sheet_brings_is_opened() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.demo_weighed();
    let fish = bench.fish_place();
    bench.go(&format!("{fish}/code"));
    bench.fill("#nickname", "tern");
    bench.see("Read it out");
    let code = texts(&bench, ".groups b").join("-");
    let letters = code.replace('-', "");
    for shared in [
        format!("?shared_text=Here+is+mine%3A+{code}"),
        format!("?shared_link={}%23%2Fc%2F{letters}", bench.site.address()),
    ] {
        bench.go(&shared);
        bench.see("Add to a class");
        assert_eq!(
            bench.address(),
            format!("{}#/c/{letters}", bench.site.address())
        );
    }
    bench.go("?shared_text=lunch+at+%25one%3F");
    bench.see("Nothing in it is a result code.");
    bench.see("lunch at %one?");
    bench.is_sound();
    bench.go(&format!("?shared_text={code}%0A{}", "3K7M9QRS"));
    bench.started();
    assert_eq!(bench.console_errors(), [""; 0]);
}

/// A file that the phone opens with the app comes through a queue, which a browser without a home screen lacks: one
/// stands in for it, as in W3C's "Launch Handler API".
#[test]
fn a_file_that_is_opened_with_the_app_is_looked_at() {
    let queue = "Object.defineProperty(window, 'launchQueue', { value: { setConsumer(take) {
        const text = sessionStorage.getItem('opened');
        take({ files: text ? [{ getFile: async () => new File([text], 'opened') }] : [] });
    } } })";
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.command("Page.enable", json!({}));
    bench.before_each_load(queue);
    for (place, text, said) in [
        (
            "#/restore",
            "no zip",
            "This file is not a backup of Scaleside",
        ),
        ("#/compare", "a,b\n1,2\n", "has no column"),
    ] {
        bench.run(
            "sessionStorage.setItem('opened', arguments[0])",
            &[json!(text)],
        );
        bench.go("404.html");
        bench.go(place);
        bench.started();
        bench.see(said);
    }
    bench.run("sessionStorage.clear()", &[]);
    bench.go("404.html");
    bench.go("#/restore");
    bench.see("Choose the file");
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn the_browsers_own_question_is_asked_when_the_cook_wants_it() {
    let bench = Bench::open(PHONE, Scheme::Light);
    // The browser's own is not waited for: one stands in for it, as MDN describes it under "BeforeInstallPromptEvent".
    bench.command("Page.enable", json!({}));
    bench.before_each_load(
        "addEventListener('beforeinstallprompt', (event) => event.isTrusted && event.stopImmediatePropagation())",
    );
    bench.reload();
    bench.started();
    bench.go("#/kept");
    bench.see("On the home screen");
    bench.see("browser’s menu");
    let question = "const question = new Event('beforeinstallprompt', { cancelable: true });
        question.prompt = async () => { window.asked = true; return { outcome: 'accepted' }; };
        dispatchEvent(question);
        return question.defaultPrevented";
    assert_eq!(bench.run(question, &[]), json!(true));
    bench.go("#/settings");
    bench.see("When a timer ends");
    bench.go("#/kept");
    bench.tap("Add to the home screen");
    bench.see("Scaleside is on the home screen of this phone.");
    assert_eq!(bench.run("return window.asked", &[]), json!(true));
    bench.is_sound();

    // A word above the list while the app is new, and none later.
    bench.go("#/");
    bench.not_see("Add Scaleside to the home screen");
    bench.go("#/begin");
    bench.at_stage("delivery");
    bench.go("#/");
    bench.see("Add Scaleside to the home screen");
    bench.is_sound();
    for _ in 0..3 {
        bench.go("#/begin");
        bench.at_stage("delivery");
    }
    bench.go("#/");
    bench.not_see("Add Scaleside to the home screen");
}

#[test]
fn version_privacy_and_licences_are_told_without_a_signal() {
    let mut bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.kept();
    bench.site.stop();
    bench.go("#/about");
    bench.see("stays in this browser, on this phone");
    bench.see(&format!(
        "Scaleside {}, build {} of ",
        env!("CARGO_PKG_VERSION"),
        bench.build()
    ));
    bench.tap("Licences of what is built in");
    bench.see("MIT License, for");
    bench.see("leptos 0.8");
    bench.is_sound();
}

#[test]
fn a_wrong_address_inside_the_folder_says_so() {
    const SAID: &str = "Nothing is at this address";
    let mut bench = Bench::open_at(Site::below("kitchen/phone/"), PHONE, Scheme::Light);
    bench.started();
    let wrong = ["nowhere", "nowhere/", "a/b", "sw.jss"];
    // Of a host that has no worker yet, and then of the worker, with a signal and without.
    bench.kept();
    for stopped in [false, true] {
        if stopped {
            bench.site.stop();
        }
        for address in wrong {
            bench.go(address);
            bench.see(SAID);
            assert_eq!(bench.axe(), [""; 0]);
            bench.tap("Open Scaleside");
            bench.started();
            assert_eq!(bench.address(), bench.site.address());
        }
    }
    bench.go("licences.txt");
    bench.see("Scaleside is built of what these people gave away.");
}
