//! Several tabs on the same app, opened, turned to and ended; a browser that is killed.

use thirtyfour::WindowHandle;

use crate::bench::Bench;

impl Bench {
    /// Opens a second tab on the same app and goes on there.
    #[track_caller]
    pub fn new_tab(&self) -> WindowHandle {
        let tab = self.wait(self.browser().new_tab());
        self.turn_to(&tab);
        self.show_scheme();
        self.go("");
        tab
    }

    /// Ends this tab as a phone does that is short of memory, and opens the app in another.
    #[track_caller]
    pub fn killed_tab(&self) {
        let gone = self.this_tab();
        let fresh = self.wait(self.browser().new_tab());
        self.turn_to(&gone);
        self.wait(self.browser().close_window());
        self.turn_to(&fresh);
        self.show_scheme();
        self.go("");
    }

    #[track_caller]
    pub fn this_tab(&self) -> WindowHandle {
        self.wait(self.browser().window())
    }

    #[track_caller]
    pub fn turn_to(&self, tab: &WindowHandle) {
        self.wait(self.browser().switch_to_window(tab.clone()));
    }

    /// Kills the whole browser, every process of it at once, and opens the app in another on the same profile.
    #[track_caller]
    pub fn killed_browser(&mut self) {
        self.chrome.as_mut().unwrap().kill();
        self.settle_in();
    }
}
