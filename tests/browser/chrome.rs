//! One browser with an empty profile, and the driver it is steered through.

use std::io::{BufRead, BufReader};
use std::process::{Child, Command, Stdio};

use serde_json::json;
use tempfile::TempDir;
use thirtyfour::{ChromiumLikeCapabilities, DesiredCapabilities, LoggingPrefsLogLevel, WebDriver};
use tokio::runtime::Runtime;

use crate::bench::Size;

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

/// `chromedriver`, on a port of its own choice.
pub struct Driver {
    process: Child,
    address: String,
}

impl Driver {
    pub fn start() -> Self {
        // A port that was free a moment ago may be taken by the time it is asked for.
        (0..5)
            .find_map(|_| Self::try_start())
            .expect("chromedriver ended before it was ready")
    }

    fn try_start() -> Option<Self> {
        let mut process = Command::new("chromedriver")
            .args(["--port=0", "--log-level=SEVERE"])
            .stdout(Stdio::piped())
            .spawn()
            .expect("chromedriver is not installed: run .ci/setup");
        let lines = BufReader::new(process.stdout.take().unwrap()).lines();
        let ready = lines
            .map_while(Result::ok)
            .find(|line| line.contains("started successfully on port"));
        let Some(ready) = ready else {
            process.wait().unwrap();
            return None;
        };
        let port = ready.trim_end_matches('.').rsplit(' ').next().unwrap();
        Some(Self {
            process,
            address: format!("http://127.0.0.1:{port}"),
        })
    }

    /// Opens a browser as a phone (or tablet) of the given size, with touch.
    pub fn open(&self, runtime: &Runtime, profile: &TempDir, size: Size) -> WebDriver {
        let mut wishes = DesiredCapabilities::chrome();
        for flag in FLAGS {
            wishes.add_arg(flag).unwrap();
        }
        wishes
            .add_arg(&format!("--user-data-dir={}", profile.path().display()))
            .unwrap();
        let screen = json!({ "width": size.0, "height": size.1, "pixelRatio": 2, "touch": true, "mobile": true });
        wishes
            .add_experimental_option("mobileEmulation", json!({ "deviceMetrics": screen }))
            .unwrap();
        wishes
            .set_browser_log_level(LoggingPrefsLogLevel::All)
            .unwrap();
        runtime
            .block_on(WebDriver::new(&self.address, wishes))
            .expect("the browser does not start")
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        self.process.kill().unwrap();
        self.process.wait().unwrap();
    }
}
