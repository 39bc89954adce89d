//! Browsers of other engines than Chromium's, steered by the commands of the WebDriver standard alone. Each test has one
//! to itself, with an empty profile.

use std::fs;
use std::io::{BufRead, BufReader};
use std::net::{TcpListener, TcpStream};
use std::os::unix::process::CommandExt;
use std::path::Path;
use std::process::{Child, ChildStdout, Command, Stdio};

use serde_json::{Value, json};
use tempfile::TempDir;
use thirtyfour::{Capabilities, WebDriver};
use tokio::runtime::{Builder, Runtime};

use crate::bench::{Bench, Scheme, Size, patiently};
use crate::site::Site;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Engine {
    /// Debian's `firefox-esr`, by `geckodriver` from crates.io.
    Gecko,
    /// The small browser of WebKitGTK, by Debian's `webkit2gtk-driver`, on a screen of `xvfb`.
    WebKit,
}

impl Engine {
    /// What starts a browser on the profile in `home`; also with a window as narrow as a phone, which what stands above
    /// the page would keep it from.
    fn wishes(self, home: &Path, private: bool) -> Value {
        match self {
            Self::Gecko => {
                let look = home.join("profile/chrome");
                fs::create_dir_all(&look).unwrap();
                fs::write(
                    look.join("userChrome.css"),
                    ":root { min-width: 0 !important; }\n",
                )
                .unwrap();
                let mut args = vec![
                    json!("-headless"),
                    json!("-profile"),
                    json!(home.join("profile")),
                ];
                args.extend(private.then(|| json!("-private")));
                json!({ "browserName": "firefox", "moz:firefoxOptions": {
                    "args": args,
                    "prefs": { "toolkit.legacyUserProfileCustomizations.stylesheets": true,
                        "browser.privatebrowsing.autostart": private } } })
            }
            Self::WebKit => {
                let look = home.join("gtk-3.0");
                fs::create_dir_all(&look).unwrap();
                let small =
                    "* { padding: 0; margin: 0; border: 0; min-width: 0; min-height: 0; }\n";
                fs::write(look.join("gtk.css"), small).unwrap();
                let mut args = vec!["--automation"];
                args.extend(private.then_some("--private"));
                json!({ "browserName": "MiniBrowser", "webkitgtk:browserOptions": {
                    "binary": mini_browser(), "args": args } })
            }
        }
    }
}

/// Where Debian puts it hangs on the processor.
fn mini_browser() -> String {
    let folders = fs::read_dir("/usr/lib").unwrap().filter_map(Result::ok);
    let mut paths = folders.map(|folder| folder.path().join("webkit2gtk-4.1/MiniBrowser"));
    let found = paths.find(|path| path.exists());
    let found = found.expect("webkit2gtk-driver is not installed: run .ci/setup");
    found.to_str().unwrap().to_owned()
}

/// A program under a shell that waits for the end of these tests, and then ends it with all that it has started.
struct Minded {
    shell: Child,
}

const MINDS: &str = "\"$@\" < /dev/null 2> /dev/null & exec > /dev/null; cat; kill -- -$$";

impl Minded {
    fn start(program: &[&str], set: &[(&str, &str)]) -> Self {
        let mut shell = Command::new("sh");
        shell
            .args(["-c", MINDS, "sh"])
            .args(program)
            .envs(set.iter().copied());
        shell
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .process_group(0);
        Self {
            shell: shell.spawn().unwrap(),
        }
    }

    fn says(&mut self) -> BufReader<ChildStdout> {
        BufReader::new(self.shell.stdout.take().unwrap())
    }
}

impl Drop for Minded {
    fn drop(&mut self) {
        drop(self.shell.stdin.take());
        let _ = self.shell.wait();
    }
}

pub struct OtherBrowser {
    pub runtime: Runtime,
    session: Option<WebDriver>,
    // All of these outlive the session.
    _driver: Minded,
    _screen: Option<Minded>,
    _home: TempDir,
}

impl OtherBrowser {
    pub fn start(engine: Engine, size: Size, private: bool) -> Self {
        let home = tempfile::tempdir().unwrap();
        let wishes = engine.wishes(home.path(), private);
        // A port that was free a moment ago may be taken by the time it is asked for: then the driver does not answer.
        let free = TcpListener::bind("127.0.0.1:0").unwrap();
        let port = free.local_addr().unwrap().port();
        drop(free);
        let (mut screen, mut number) = (None, String::new());
        let driver = match engine {
            Engine::Gecko => "geckodriver",
            Engine::WebKit => {
                let sized = ["Xvfb", "-displayfd", "1", "-screen", "0", "1400x1100x24"];
                let screen = screen.insert(Minded::start(&sized, &[]));
                screen.says().read_line(&mut number).unwrap();
                assert!(!number.is_empty(), "xvfb is not installed: run .ci/setup");
                "WebKitWebDriver"
            }
        };
        let place = home.path().to_str().unwrap();
        let display = format!(":{}", number.trim());
        let set = [
            ("HOME", place),
            ("XDG_CONFIG_HOME", place),
            ("DISPLAY", &display),
        ];
        let driver = Minded::start(&[driver, &format!("--port={port}")], &set);
        patiently(|| TcpStream::connect(("127.0.0.1", port)))
            .unwrap_or_else(|why| panic!("{engine:?} has no driver ({why}): run .ci/setup"));
        let mut browser = Self {
            runtime: Builder::new_current_thread().enable_all().build().unwrap(),
            session: None,
            _driver: driver,
            _screen: screen,
            _home: home,
        };
        let wishes = Capabilities::from(wishes.as_object().unwrap().clone());
        let opened = WebDriver::new(format!("http://127.0.0.1:{port}"), wishes);
        let opened = browser.runtime.block_on(opened);
        browser.session =
            Some(opened.unwrap_or_else(|why| panic!("{engine:?} does not start: {why}")));
        browser.sized(size);
        browser
    }

    pub fn session(&self) -> &WebDriver {
        self.session.as_ref().unwrap()
    }

    /// Gives the page this size; the browser's own bar comes on top.
    pub fn sized(&self, Size(width, height): Size) {
        let session = self.session();
        let set = self.runtime.block_on(async {
            let bar = session
                .execute("return outerHeight - innerHeight", [])
                .await?;
            let bar: u32 = bar.convert()?;
            session.set_window_rect(0, 0, width, height + bar).await
        });
        set.unwrap();
    }
}

impl Drop for OtherBrowser {
    fn drop(&mut self) {
        if let Some(session) = self.session.take() {
            let _ = self.runtime.block_on(session.quit());
        }
    }
}

impl Bench {
    /// The app in a browser of another engine, which is steered by the commands of the standard alone.
    #[track_caller]
    pub fn open_by(engine: Engine, size: Size) -> Self {
        Self::open_window(engine, size, false)
    }

    /// As [`Bench::open_by`], in a private window or an ordinary one.
    #[track_caller]
    pub fn open_window(engine: Engine, size: Size, private: bool) -> Self {
        let bench = Self {
            site: Site::new(),
            chrome: None,
            other: Some(OtherBrowser::start(engine, size, private)),
            size,
            scheme: Scheme::Light,
            downloads: tempfile::tempdir().unwrap(),
        };
        bench.go("");
        bench
    }

    /// The browser of another engine.
    #[track_caller]
    pub fn other(&self) -> &OtherBrowser {
        self.other.as_ref().unwrap()
    }
}
