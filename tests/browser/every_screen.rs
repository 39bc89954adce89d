//! A phone with something of everything on it, the address of every screen, and every size of screen and text.

use serde_json::json;

use crate::bench::{Bench, Size};
use crate::class::{THIRTY, class_with};
use crate::cook::SNAPPER;

/// The screens of a fish, after its own address.
const OF_A_FISH: [&str; 24] = [
    "",
    "/delivery",
    "/weigh-whole",
    "/fillet/1",
    "/fillet/9",
    "/weigh-off-bone",
    "/weigh-frame",
    "/weigh-ready",
    "/yield",
    "/prepare",
    "/heat",
    "/plan",
    "/steps",
    "/service",
    "/all-steps",
    "/pass",
    "/code",
    "/card",
    "/journal",
    "/put-right/slip",
    "/put-right/whole",
    "/put-right/off-bone",
    "/put-right/ready",
    "/no-such-stage",
];

/// The screens of a dish, after its own address.
const OF_A_DISH: [&str; 7] = [
    "",
    "/plate",
    "/scale",
    "/order",
    "/steps",
    "/allergens",
    "/journal",
];

/// The screens of a class, after its own address.
const OF_A_CLASS: [&str; 6] = [
    "",
    "/students",
    "/student/SWAN",
    "/criteria",
    "/wall",
    "/sheet",
];

/// The screens beside the fish.
const BESIDE: [&str; 17] = [
    "#/",
    "#/settings",
    "#/about",
    "#/kept",
    "#/bin",
    "#/restore",
    "#/classes",
    "#/dishes",
    "#/dish-in",
    "#/compare",
    "#/compare/demo",
    "#/cheapest",
    "#/cheapest/demo",
    "#/cooking",
    "#/c/3K7M9QRS",
    "#/dish/gone",
    "#/fish/gone/yield",
];

impl Bench {
    /// Makes a fish that cooks, one that was just bought, one in the bin, a class and a dish; answers with the address of
    /// every screen.
    #[track_caller]
    pub fn one_of_everything(&self) -> Vec<String> {
        let mut screens = Vec::new();
        self.started();
        self.go("#/");
        self.skin_side_down();
        let cooks = self.fish_place();
        screens.extend(OF_A_FISH.map(|stage| format!("{cooks}{stage}")));

        self.go("#/");
        self.start_fish(&SNAPPER);
        let bought = self.fish_place();
        screens.extend(
            [
                "",
                "/delivery",
                "/weigh-whole",
                "/yield",
                "/prepare",
                "/service",
                "/code",
            ]
            .map(|stage| format!("{bought}{stage}")),
        );
        self.go("#/");
        self.start_fish(&SNAPPER);
        self.go(&self.fish_place());
        self.tap("Remove this fish…");
        self.tap("Remove it");
        self.see("is in the bin");

        self.go("#/");
        class_with(self, THIRTY);
        self.see("25 results");
        let class = self.place();
        screens.extend(OF_A_CLASS.map(|side| format!("{class}{side}")));
        self.tap("COOT 1");
        self.go("#/dishes");
        self.tap("Write a dish");
        self.fill("#dish-name", "Test plate");
        self.fill("#dish-covers", "4");
        let dish = self.place();
        self.tap("Add a line");
        self.fill("#line-name", "Leeks");
        screens.push(self.place());
        self.tap("Use 44 %");
        self.fill("#line-quantity", "400");
        self.fill("#line-price", "3.30");
        self.pick("#line-per", "kg");
        self.tap("Done");
        screens.extend(OF_A_DISH.map(|side| format!("{dish}{side}")));
        screens.extend(BESIDE.map(str::to_owned));
        screens
    }

    /// Makes the screen another size: of a phone, as a layout sees it.
    #[track_caller]
    pub fn resize(&self, Size(width, height): Size) {
        let metrics =
            json!({ "width": width, "height": height, "deviceScaleFactor": 1, "mobile": true });
        self.command("Emulation.setDeviceMetricsOverride", metrics);
    }

    /// Waits until the frame of a new size has been painted.
    #[track_caller]
    pub fn painted(&self) {
        let frame =
            "return new Promise((done) => requestAnimationFrame(() => setTimeout(done, 0, null)))";
        self.run(frame, &[]);
    }

    /// Sets the text to so many percent of its own size.
    #[track_caller]
    pub fn text_at(&self, percent: u32) {
        self.run(
            "document.documentElement.style.fontSize = arguments[0] === 100 ? '' : `${arguments[0] * 1.0625}%`",
            &[json!(percent)],
        );
    }

    /// The address of the screen, from `#` on.
    #[track_caller]
    fn place(&self) -> String {
        let place = self.run("return location.hash", &[]);
        place.as_str().unwrap().to_owned()
    }
}
