//! What a cook does and sees, in plain words: open, tap, type, see.
//!
//! Every call waits for what it needs, twenty seconds at most, and fails with what the page showed instead.

use std::fmt::Display;
use std::path::PathBuf;
use std::time::{Duration, Instant};

use serde_json::{Value, json};
use tempfile::TempDir;
use thirtyfour::common::print::{PrintPage, PrintParameters};
use thirtyfour::error::WebDriverResult;
use thirtyfour::{TypingData, WebDriver};
use tokio::runtime::Runtime;

use crate::chrome::Chrome;
use crate::engine::OtherBrowser;
use crate::site::Site;

const PATIENCE: Duration = Duration::from_secs(60);
const PAUSE: Duration = Duration::from_millis(50);

/// Tries until it succeeds or patience has run out; then the last outcome stands. By the clock, not by a count of
/// tries: on a page that hangs a single try takes half a minute.
#[expect(
    clippy::disallowed_methods,
    reason = "the real browser takes real time"
)]
pub fn patiently<T, E>(mut attempt: impl FnMut() -> Result<T, E>) -> Result<T, E> {
    let begun = Instant::now();
    loop {
        match attempt() {
            Err(_) if begun.elapsed() < PATIENCE => std::thread::sleep(PAUSE),
            outcome => return outcome,
        }
    }
}

/// Width and height of the screen in CSS pixels.
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct Size(pub u32, pub u32);

/// The phone that everything must fit.
pub const PHONE: Size = Size(360, 740);

#[derive(Clone, Copy)]
pub enum Scheme {
    Light,
    Dark,
}

impl Scheme {
    pub const BOTH: [Self; 2] = [Self::Light, Self::Dark];

    fn name(self) -> &'static str {
        match self {
            Self::Light => "light",
            Self::Dark => "dark",
        }
    }
}

pub struct Bench {
    pub site: Site,
    // Nothing while this is dropped, and where the browser is another.
    pub chrome: Option<Chrome>,
    pub other: Option<OtherBrowser>,
    pub size: Size,
    pub scheme: Scheme,
    pub downloads: TempDir,
}

impl Bench {
    /// The app in a new browser, opened from a host of its own.
    #[track_caller]
    pub fn open(size: Size, scheme: Scheme) -> Self {
        Self::open_at(Site::new(), size, scheme)
    }

    #[track_caller]
    pub fn open_at(site: Site, size: Size, scheme: Scheme) -> Self {
        Self::open_in(Chrome::of(size), site, size, scheme)
    }

    pub fn settle_in(&self) {
        self.show_scheme();
        let folder = json!({ "behavior": "allow", "downloadPath": self.downloads.path() });
        self.command("Browser.setDownloadBehavior", folder);
        self.go("");
    }

    pub fn browser(&self) -> &WebDriver {
        match &self.other {
            Some(other) => other.session(),
            None => self.chrome.as_ref().unwrap().session(),
        }
    }

    pub fn runtime(&self) -> &Runtime {
        match &self.other {
            Some(other) => &other.runtime,
            None => &self.chrome.as_ref().unwrap().runtime,
        }
    }

    #[track_caller]
    pub fn wait<T>(&self, steps: impl Future<Output = WebDriverResult<T>>) -> T {
        self.runtime().block_on(steps).unwrap()
    }

    /// One Chrome DevTools Protocol command.
    #[track_caller]
    pub fn command(&self, name: &str, parameters: Value) -> Value {
        self.wait(self.browser().cdp().send_raw(name, parameters))
    }

    /// Goes on in another colour scheme.
    #[track_caller]
    pub fn show_in(&mut self, scheme: Scheme) {
        self.scheme = scheme;
        self.show_scheme();
    }

    pub fn show_scheme(&self) {
        let features = json!([{ "name": "prefers-color-scheme", "value": self.scheme.name() }]);
        self.command(
            "Emulation.setEmulatedMedia",
            json!({ "features": features }),
        );
    }

    /// Goes to an address below the app's own, such as `#/settings`.
    #[track_caller]
    pub fn go(&self, place: &str) {
        self.wait(
            self.browser()
                .goto(format!("{}{place}", self.site.address())),
        );
    }

    #[track_caller]
    pub fn reload(&self) {
        if self.other.is_none() {
            return self.wait(self.browser().refresh());
        }
        // As a thumb does: Gecko's driver goes past the service worker.
        self.run("window.isLeft = true; location.reload()", &[]);
        let gone = "return window.isLeft === undefined && document.readyState === 'complete'";
        self.until("the page was not reloaded", gone, &[]);
    }

    /// Presses the phone's own Back.
    #[track_caller]
    pub fn back(&self) {
        self.wait(self.browser().back());
    }

    /// Runs a function body in the page; `arguments` holds what is given, and a promise is waited for.
    #[track_caller]
    pub fn run(&self, script: &str, given: &[Value]) -> Value {
        let ret = self.wait(self.browser().execute(script, given.to_vec()));
        ret.json().clone()
    }

    /// Waits until a function body returns something true.
    #[track_caller]
    pub fn until(&self, what: impl Display, script: &str, given: &[Value]) {
        // A page on its way out has no answer: that is a no.
        let outcome = patiently(|| match self.try_run(script, given) {
            Ok(Value::Bool(true)) => Ok(()),
            _ => Err(()),
        });
        if outcome.is_err() {
            self.fail(what);
        }
    }

    /// As [`Bench::run`], of a browser that may be gone.
    pub fn try_run(&self, script: &str, given: &[Value]) -> WebDriverResult<Value> {
        self.runtime().block_on(async {
            Ok(self
                .browser()
                .execute(script, given.to_vec())
                .await?
                .json()
                .clone())
        })
    }

    #[track_caller]
    pub fn fail(&self, what: impl Display) -> ! {
        let shown = self
            .try_run("return document.body.innerText", &[])
            .unwrap_or_default();
        let shot = self.shot(&format!(
            "failed-{}",
            std::thread::current()
                .name()
                .unwrap_or("test")
                .replace("::", "-")
        ));
        panic!(
            "{what}\nthe page at {} shows: {shown}\npicture: {}",
            self.address(),
            shot.display()
        );
    }

    #[track_caller]
    pub fn address(&self) -> String {
        self.wait(self.browser().current_url()).to_string()
    }

    /// Waits until the app itself is on the screen, and the screen is no longer on its way.
    #[track_caller]
    pub fn started(&self) {
        self.until(
            "the app did not start",
            "const heading = document.querySelector('.page main h1')?.innerText;
            return !document.getElementById('shell') && document.getElementById('aborted').hidden
                && Boolean(heading) && heading !== 'One moment'",
            &[],
        );
    }

    /// Waits until `text` can be read on the screen; line breaks and runs of spaces count as one space.
    #[track_caller]
    pub fn see(&self, text: &str) {
        let shown = format!("{SEEN} return seen;");
        self.until(format!("never saw {text:?}"), &shown, &[json!(text)]);
    }

    /// Waits until `text` can't be read on the screen.
    #[track_caller]
    pub fn not_see(&self, text: &str) {
        let gone = format!("{SEEN} return !seen;");
        self.until(format!("still saw {text:?}"), &gone, &[json!(text)]);
    }

    /// Waits until the part of the address after the app's own is `place`, such as `#/fish/3`.
    #[track_caller]
    pub fn at(&self, place: &str) {
        self.until(
            format!("never came to {place}"),
            "return location.hash === arguments[0]",
            &[json!(place)],
        );
    }

    /// Taps what can be tapped and is called `name`: by that name exactly, else by a name that holds it.
    #[track_caller]
    pub fn tap(&self, name: &str) {
        self.tap_in("html", name);
    }

    /// As [`Bench::tap`], inside the part of the screen that a selector finds.
    #[track_caller]
    pub fn tap_in(&self, part: &str, name: &str) {
        self.tap_found(
            &[json!(name), json!(part)],
            include_str!("scripts/named.js"),
        );
    }

    #[track_caller]
    pub fn tap_css(&self, selector: &str) {
        self.tap_found(
            &[json!(selector)],
            "return document.querySelector(arguments[0] + ':not(:disabled)')",
        );
    }

    #[track_caller]
    fn tap_found(&self, wanted: &[Value], finder: &str) {
        // As a thumb would: out from under the dock first.
        let finder = format!(
            "const found = (function () {{ {finder} }})(...arguments);
            found?.scrollIntoView({{ block: 'center' }});
            return found;"
        );
        let outcome: WebDriverResult<()> = patiently(|| {
            self.runtime().block_on(async {
                let found = self.browser().execute(&finder, wanted.to_vec()).await?;
                found.element()?.click().await
            })
        });
        if let Err(why) = outcome {
            self.fail(format!("could not tap {wanted:?}: {why}"));
        }
    }

    /// Types into whatever has the focus.
    #[track_caller]
    pub fn type_keys(&self, keys: impl Into<TypingData>) {
        self.wait(async {
            let focused = self.browser().active_element().await?;
            focused.send_keys(keys).await
        });
    }

    /// This screen as it is printed on a sheet of so many centimetres.
    #[track_caller]
    pub fn on_paper(&self, width: f64, height: f64) -> Vec<u8> {
        let sheet = PrintParameters {
            page: PrintPage { width, height },
            ..PrintParameters::default()
        };
        self.wait(self.browser().print_page(sheet))
    }

    /// Saves a picture as `target/shots/<name>-<width>x<height>-<scheme>.png`.
    #[track_caller]
    pub fn shot(&self, name: &str) -> PathBuf {
        let folder = PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/target/shots"));
        std::fs::create_dir_all(&folder).unwrap();
        let path = folder.join(format!(
            "{name}-{}x{}-{}.png",
            self.size.0,
            self.size.1,
            self.scheme.name()
        ));
        self.wait(self.browser().screenshot(&path));
        path
    }

    /// What axe-core finds wrong on this screen, one line a rule.
    #[track_caller]
    pub fn axe(&self) -> Vec<String> {
        let engine = npm("axe-core/axe.min.js");
        self.run(&format!("if (!window.axe) {{ {engine} }}"), &[]);
        lines(&self.run(include_str!("scripts/violations.js"), &[]))
    }

    /// What can be tapped and is smaller than 48 by 48 CSS pixels.
    #[track_caller]
    pub fn small_targets(&self) -> Vec<String> {
        lines(&self.run(include_str!("scripts/small.js"), &[]))
    }

    /// What the console was told since the last call that was an error, a refused load included.
    #[track_caller]
    pub fn console_errors(&self) -> Vec<String> {
        let entries = self.wait(self.browser().browser_log());
        entries
            .into_iter()
            .filter(|entry| entry.level == "SEVERE")
            .map(|entry| entry.message)
            .collect()
    }

    /// What keeps the browser from installing the app to the home screen.
    #[track_caller]
    pub fn install_errors(&self) -> Value {
        self.command("Page.getInstallabilityErrors", json!({}))["installabilityErrors"].clone()
    }
}

impl Drop for Bench {
    fn drop(&mut self) {
        let Some(mut chrome) = self.chrome.take() else {
            return;
        };
        // The browser may be what failed.
        if std::thread::panicking() {
            chrome.quit();
        } else {
            chrome.hand_on(self.site.origin());
        }
    }
}

/// A file of the packages from npm that look at what was built.
pub fn npm(path: &str) -> String {
    let npm = std::env::var("SCALESIDE_NPM")
        .expect("SCALESIDE_NPM is not set: run `source .ci/env` first");
    std::fs::read_to_string(format!("{npm}/{path}"))
        .unwrap_or_else(|why| panic!("{path} is not installed ({why}): run .ci/setup"))
}

/// Finds out whether `arguments[0]` can be read on the screen.
const SEEN: &str = "const plain = (text) => text.replace(/\\s+/g, ' ').trim();
    const seen = plain(document.body.innerText).includes(plain(arguments[0]));";

fn lines(list: &Value) -> Vec<String> {
    list.as_array()
        .unwrap()
        .iter()
        .map(|line| line.as_str().unwrap().to_owned())
        .collect()
}
