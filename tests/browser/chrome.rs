//! A browser with an empty profile, and the driver it is steered through. Each test has one to itself, and hands it
//! on to the next of the same size: to start one takes longer than most tests.

use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::sync::Mutex;

use serde_json::json;
use tempfile::TempDir;
use thirtyfour::error::WebDriverResult;
use thirtyfour::{ChromiumLikeCapabilities, DesiredCapabilities, LoggingPrefsLogLevel, WebDriver};
use tokio::runtime::{Builder, Runtime};

use crate::bench::{Bench, Scheme, Size};
use crate::site::Site;

const FLAGS: &[&str] = &[
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
];

/// Browsers that no test has at the moment.
static RESTING: Mutex<Vec<Chrome>> = Mutex::new(Vec::new());

pub struct Chrome {
    pub runtime: Runtime,
    session: Option<WebDriver>,
    size: Size,
    /// What it was started with beyond [`FLAGS`]: such a browser is given to no other test.
    flags: Vec<String>,
    // Both outlive the session.
    driver: Driver,
    profile: TempDir,
}

impl Chrome {
    /// A browser as a phone (or tablet) of the given size, with touch.
    pub fn of(size: Size) -> Self {
        let mut resting = RESTING.lock().unwrap();
        let same = resting.iter().position(|chrome| chrome.size == size);
        same.map(|k| resting.swap_remove(k)).unwrap_or_else(|| {
            drop(resting);
            Self::start(size, Vec::new())
        })
    }

    /// As [`Chrome::of`], with a private window.
    pub fn private(size: Size) -> Self {
        Self::start(size, vec!["--incognito".to_owned()])
    }

    /// As [`Chrome::of`], with a camera that sees what the video in `file` shows, again and again, and may be used.
    pub fn seeing(size: Size, file: &Path) -> Self {
        let flags = [
            "--use-fake-device-for-media-stream".to_owned(),
            "--use-fake-ui-for-media-stream".to_owned(),
            format!("--use-file-for-fake-video-capture={}", file.display()),
        ];
        Self::start(size, flags.to_vec())
    }

    fn start(size: Size, flags: Vec<String>) -> Self {
        let profile = tempfile::tempdir().unwrap();
        let mut chrome = Self {
            runtime: Builder::new_current_thread().enable_all().build().unwrap(),
            session: None,
            size,
            flags,
            driver: Driver::start(&profile),
            profile,
        };
        chrome.open();
        chrome
    }

    pub fn session(&self) -> &WebDriver {
        self.session.as_ref().unwrap()
    }

    fn open(&mut self) {
        let mut wishes = DesiredCapabilities::chrome();
        for flag in FLAGS {
            wishes.add_arg(flag).unwrap();
        }
        for flag in &self.flags {
            wishes.add_arg(flag).unwrap();
        }
        wishes.add_arg(&profile_flag(&self.profile)).unwrap();
        let screen = json!({ "width": self.size.0, "height": self.size.1, "pixelRatio": 2, "touch": true,
            "mobile": true });
        wishes
            .add_experimental_option("mobileEmulation", json!({ "deviceMetrics": screen }))
            .unwrap();
        wishes
            .set_browser_log_level(LoggingPrefsLogLevel::All)
            .unwrap();
        let opened = WebDriver::new(&self.driver.address, wishes);
        let session = self.runtime.block_on(opened);
        self.session = Some(session.expect("the browser does not start"));
    }

    /// Kills every process of the browser at once, and opens another on the same profile.
    pub fn kill(&mut self) {
        let killed = self
            .killing()
            .status()
            .expect("pkill is not installed: run .ci/setup");
        assert!(killed.success(), "no process of the browser was found");
        self.open_again();
    }

    /// What kills every process of the browser at once.
    pub fn killing(&self) -> Command {
        let mut killing = Command::new("pkill");
        killing.args(["-KILL", "-f", "--", &profile_flag(&self.profile)]);
        killing
    }

    /// Every process of this browser, below the one that has its profile.
    pub fn processes(&self) -> Vec<u32> {
        let listed = Command::new("ps")
            .args(["-eo", "pid=,ppid=,args="])
            .output()
            .unwrap();
        let text = String::from_utf8_lossy(&listed.stdout).into_owned();
        let all: Vec<(u32, u32, &str)> = text
            .lines()
            .filter_map(|line| {
                let mut words = line.split_whitespace();
                Some((
                    words.next()?.parse().ok()?,
                    words.next()?.parse().ok()?,
                    line,
                ))
            })
            .collect();
        let flag = profile_flag(&self.profile);
        let mut ours: Vec<u32> = (all.iter().filter(|(_, _, line)| line.contains(&flag)))
            .map(|(pid, ..)| *pid)
            .collect();
        let mut nth = 0;
        while let Some(parent) = ours.get(nth).copied() {
            let below = all
                .iter()
                .filter(|(_, of, _)| *of == parent)
                .map(|(pid, ..)| *pid);
            let below: Vec<u32> = below.filter(|pid| !ours.contains(pid)).collect();
            ours.extend(below);
            nth += 1;
        }
        ours
    }

    /// Opens another browser on the same profile, after this one was killed.
    pub fn open_again(&mut self) {
        self.quit();
        self.open();
    }

    /// Leaves the browser to another test: in a new tab, with nothing of the site at `origin` in it.
    pub fn hand_on(mut self, origin: &str) {
        let emptied = self.flags.is_empty() && self.runtime.block_on(self.empty(origin)).is_ok();
        if emptied {
            RESTING.lock().unwrap().push(self);
        } else {
            self.quit();
        }
    }

    async fn empty(&self, origin: &str) -> WebDriverResult<()> {
        let session = self.session();
        let used = session.windows().await?;
        // What a test has set, such as another clock, goes with its tab.
        let fresh = session.new_tab().await?;
        for tab in used {
            session.switch_to_window(tab).await?;
            session.close_window().await?;
        }
        session.switch_to_window(fresh).await?;
        let tools = session.cdp();
        let all = json!({ "origin": origin, "storageTypes": "all" });
        tools.send_raw("Storage.clearDataForOrigin", all).await?;
        tools
            .send_raw("Browser.resetPermissions", json!({}))
            .await?;
        session.browser_log().await?;
        Ok(())
    }

    /// Ends the browser, if it is there to be ended.
    pub fn quit(&mut self) {
        if let Some(session) = self.session.take() {
            let _ = self.runtime.block_on(session.quit());
        }
    }
}

impl Bench {
    /// The app in this browser.
    #[track_caller]
    pub fn open_in(chrome: Chrome, site: Site, size: Size, scheme: Scheme) -> Self {
        let bench = Self {
            site,
            chrome: Some(chrome),
            other: None,
            size,
            scheme,
            downloads: tempfile::tempdir().unwrap(),
        };
        bench.settle_in();
        bench
    }
}

fn profile_flag(profile: &TempDir) -> String {
    format!("--user-data-dir={}", profile.path().display())
}

/// `chromedriver`, on a port of its own choice, under a shell that waits for the end of these tests: a browser that
/// rests then is dropped by nobody.
struct Driver {
    shell: Child,
    address: String,
}

const WAITS: &str = "exec 3>&1 > /dev/null
    chromedriver --port=0 --log-level=SEVERE >&3 &
    exec 3>&-
    cat
    kill $!
    pkill -KILL -f -- \"--user-data-dir=$PROFILE\"
    rm -rf \"$PROFILE\"";

impl Driver {
    fn start(profile: &TempDir) -> Self {
        // A port that was free a moment ago may be taken by the time it is asked for.
        (0..5)
            .find_map(|_| Self::try_start(profile))
            .expect("chromedriver is not installed, or ended before it was ready: run .ci/setup")
    }

    fn try_start(profile: &TempDir) -> Option<Self> {
        let mut shell = Command::new("sh")
            .args(["-c", WAITS])
            .env("PROFILE", profile.path())
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let lines = BufReader::new(shell.stdout.take().unwrap()).lines();
        let mut driver = Self {
            shell,
            address: String::new(),
        };
        let ready = lines
            .map_while(Result::ok)
            .find(|line| line.contains("started successfully on port"))?;
        let port = ready.trim_end_matches('.').rsplit(' ').next().unwrap();
        driver.address = format!("http://127.0.0.1:{port}");
        Some(driver)
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        drop(self.shell.stdin.take());
        let _ = self.shell.wait();
    }
}
