//! What a host should send beside the files, asked of programs that know nothing of this app, and of the browser.

use std::process::Command;

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme};
use crate::site::Site;

/// What the evaluator of policies says and is meant so: the app is its own origin for scripts, and no one else's
/// files lie there.
const MEANT: &str = "'self' can be problematic if you host JSONP";

/// What a script prints in Node.
#[track_caller]
fn said(script: &str, given: &str) -> String {
    let path = format!(
        "{}/tests/browser/scripts/{script}",
        env!("CARGO_MANIFEST_DIR")
    );
    let read = Command::new("node").args([&path, given]).output().unwrap();
    let wrong = String::from_utf8_lossy(&read.stderr);
    assert!(read.status.success(), "{wrong}");
    String::from_utf8(read.stdout).unwrap()
}

/// By the npm package @mdn/mdn-http-observatory, of the host that `.ci/serve` starts.
#[test]
fn another_program_passes_every_header_of_the_host() {
    let site = Site::new();
    let said = said("headers.mjs", &site.address());
    let (passed, failed): (Vec<&str>, Vec<&str>) =
        said.lines().partition(|line| line.starts_with("pass: "));
    assert_eq!(failed, [""; 0]);
    assert_eq!(passed.len(), 8, "{said}");
    for result in [
        "csp-implemented-with-no-unsafe-default-src-none",
        "x-frame-options-implemented-via-csp",
        "x-content-type-options-nosniff",
        "referrer-policy-private",
        "corp-implemented-with-same-origin",
        "cross-origin-resource-sharing-not-implemented",
        "sri-not-implemented-but-all-scripts-loaded-from-secure-origin",
    ] {
        assert!(said.contains(result), "{result}:\n{said}");
    }
}

/// By the npm package csp_evaluator: the page's own policy, and the one its host sends.
#[test]
fn another_program_finds_nothing_wrong_with_the_content_security_policies() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    let both = "const own = document.querySelector('meta[http-equiv]').content;
        return fetch('').then((answer) => [own, answer.headers.get('content-security-policy')])";
    let both: [String; 2] = serde_json::from_value(bench.run(both, &[])).unwrap();
    assert_eq!(both[1], format!("{}; frame-ancestors 'none'", both[0]));
    for policy in both {
        let said = said("policy.js", &policy);
        let wrong: Vec<&str> = said.lines().filter(|line| !line.contains(MEANT)).collect();
        assert_eq!(wrong, [""; 0], "{policy}");
        assert!(said.contains(MEANT), "{said}");
    }
}

/// The features a kitchen app has no use for are off, those it uses are on, and no page that opened this one keeps a hold on it.
#[test]
fn the_browser_takes_the_headers_at_their_word() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    let allowed =
        "return arguments[0].map((feature) => document.featurePolicy.allowsFeature(feature))";
    let off = json!(["microphone", "geolocation", "payment", "usb"]);
    assert_eq!(bench.run(allowed, &[off]), json!(vec![false; 4]));
    let on = json!(["camera", "screen-wake-lock", "clipboard-write"]);
    assert_eq!(bench.run(allowed, &[on]), json!(vec![true; 3]));
    let tree = bench.command("Page.getFrameTree", json!({}));
    let frame = json!({ "frameId": tree["frameTree"]["frame"]["id"] });
    let status = &bench.command("Network.getSecurityIsolationStatus", frame)["status"];
    assert_eq!(status["coop"]["value"], json!("SameOrigin"), "{status}");
    assert_eq!(bench.console_errors(), [""; 0]);
}
