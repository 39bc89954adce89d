//! What a cook does time and again: fills in the slip, keys a weight, follows the steps.

use serde_json::json;

use crate::bench::Bench;

/// What a slip is filled in with.
pub struct Delivery {
    /// The fish by its key in the list; with a name of the cook's own for one that is not in it.
    pub fish: Result<&'static str, &'static str>,
    pub form: &'static str,
    pub price: &'static str,
    pub per: &'static str,
    pub scale: &'static str,
    pub portions: &'static str,
}

/// An invented snapper, for what does not depend on the figures.
pub const SNAPPER: Delivery = Delivery {
    fish: Ok("snapper"),
    form: "Whole",
    price: "18.90",
    per: "kg",
    scale: "2 g",
    portions: "4",
};

/// The step that a cook turns at.
pub const SKIN: &str = "Skin side down";

/// The mise en place, the steps and their done words: of the demo's dish, and of a fish of one's own.
pub const DEMO_STEPS: [(&str, &str); 11] = steps(
    ("Leeks into the same pan", "Sugar snaps in"),
    "Sugar snaps, the last minute",
);
pub const OWN_STEPS: [(&str, &str); 11] = steps(
    ("Firm vegetable into the same pan", "Soft one in"),
    "Soft vegetable, the last minute",
);

const fn steps(
    first: (&'static str, &'static str),
    last: &'static str,
) -> [(&'static str, &'static str); 11] {
    [
        ("Warm the plates", "Warming"),
        ("Heat the pan", "Shimmering"),
        (SKIN, "Turned, heat off"),
        ("Finish in the pan's own heat", "Time's up"),
        ("Check the thickest part", "Cooked, out of the pan"),
        first,
        (last, "Vegetables ready"),
        ("Dress the leaves", "Dressed"),
        ("Rest on paper, skin up", "Rested"),
        ("Plate", "Plated"),
        ("Wipe the rim, garnish", "Served"),
    ]
}

/// The questions of the plate check, by the names of their fields.
pub const PLATE_CHECKS: [&str; 6] = [
    "neat",
    "not_overfilled",
    "cooked",
    "crisp",
    "hot",
    "garnish",
];

impl Bench {
    /// Waits until the screen is at a stage of a fish, such as `yield`.
    #[track_caller]
    pub fn at_stage(&self, stage: &str) {
        self.until(
            format!("never came to {stage}"),
            "return location.hash.split('/').slice(3).join('/') === arguments[0]",
            &[json!(stage)],
        );
    }

    /// The address of the fish on the screen, such as `#/fish/k3f9`.
    #[track_caller]
    pub fn fish_place(&self) -> String {
        let place = self.run("return location.hash.split('/').slice(0, 3).join('/')", &[]);
        place.as_str().unwrap().to_owned()
    }

    /// Chooses from a list by the value of a line.
    #[track_caller]
    pub fn pick(&self, list: &str, value: &str) {
        self.run(
            "for (let fold = document.querySelector(arguments[0])?.closest('details'); fold; fold = fold.parentElement.closest('details'))
                fold.open = true",
            &[json!(list)],
        );
        self.tap_css(&format!("{list} option[value=\"{value}\"]"));
        self.until(
            format!("{list} is not at {value}"),
            "return document.querySelector(arguments[0]).value === arguments[1]",
            &[json!(list), json!(value)],
        );
    }

    /// Types a text into a field, over what is there.
    #[track_caller]
    pub fn fill(&self, field: &str, text: &str) {
        // Not tapped: two taps on one spot of the glass, the page scrolled between them, are a double tap.
        self.until(
            format!("there is no {field}"),
            "const field = document.querySelector(arguments[0]);
            for (let fold = field?.closest('details'); fold; fold = fold.parentElement.closest('details')) fold.open = true;
            field?.select(); return field === document.activeElement",
            &[json!(field)],
        );
        self.type_keys(text);
        self.has(field, text);
    }

    /// Opens all that is folded on the screen.
    pub fn unfold(&self) {
        self.run(
            "for (const fold of document.querySelectorAll('.page details')) fold.open = true",
            &[],
        );
    }

    /// Waits until something is seen, folded or not.
    #[track_caller]
    pub fn see_unfolded(&self, text: &str) {
        self.until(
            format!("never saw {text:?}, folded or not"),
            "for (const fold of document.querySelectorAll('.page details')) fold.open = true;
            return document.querySelector('.page').innerText.includes(arguments[0])",
            &[json!(text)],
        );
    }

    /// Waits until a field holds a text.
    #[track_caller]
    pub fn has(&self, field: &str, text: &str) {
        self.until(
            format!("{field} does not hold {text:?}"),
            "return document.querySelector(arguments[0])?.value === arguments[1]",
            &[json!(field), json!(text)],
        );
    }

    /// Starts a fish of the cook's own and fills in the slip.
    #[track_caller]
    pub fn start_fish(&self, delivery: &Delivery) {
        self.tap("Start a fish");
        self.at_stage("delivery");
        match delivery.fish {
            Ok(key) => self.pick("#species", key),
            Err(name) => {
                self.pick("#species", "another");
                self.fill("#species-name", name);
            }
        }
        self.tap(delivery.form);
        self.fill("#price", delivery.price);
        self.pick("select[aria-label=\"Priced by\"]", delivery.per);
        self.tap(delivery.scale);
        self.fill("#portions", delivery.portions);
    }

    /// Taps keys of the keypad: figures, a point, `l` for the word between pounds and ounces, `<` to take one back.
    #[track_caller]
    pub fn key(&self, keys: &str) {
        for key in keys.chars() {
            let name = match key {
                '.' => "decimal point".to_owned(),
                '<' => "take the last figure back".to_owned(),
                '+' => "add another weight".to_owned(),
                'l' => "lb, then ounces".to_owned(),
                figure => figure.to_string(),
            };
            self.tap_in(".keys", &name);
        }
    }

    /// Waits until the scale's readout shows exactly this.
    #[track_caller]
    pub fn reads(&self, shown: &str) {
        self.until(
            format!("the readout never showed {shown:?}"),
            "return document.querySelector('.readout').innerText.replace(/\\s+/g, ' ').trim() === arguments[0]",
            &[json!(shown)],
        );
    }

    /// Taps Next through the filleting, from one step to the one before the screen `to`.
    #[track_caller]
    pub fn cut(&self, steps: std::ops::RangeInclusive<usize>, to: &str) {
        for step in steps {
            self.at_stage(&format!("fillet/{step}"));
            self.see("To the scale");
            self.tap("Next");
        }
        self.at_stage(to);
    }

    /// Taps a button on the card of a step, once it stands still: the cards above it come and go with the taps before, over
    /// some frames, and what is tapped meanwhile is not hit.
    #[track_caller]
    pub fn on_step(&self, step: &str, button: &str) {
        let still = "let before, frames = 0;
            return new Promise((done) => {
                const look = () => {
                    const card = document.querySelector(`article[aria-label=\"${arguments[0]}\"]`);
                    const top = card && Math.round(card.getBoundingClientRect().top + scrollY);
                    frames = top !== null && top === before ? frames + 1 : 0;
                    before = top;
                    if (frames > 4) done(true); else requestAnimationFrame(look);
                };
                look();
            })";
        self.until(format!("“{step}” never stood still"), still, &[json!(step)]);
        self.tap_in(&format!("article[aria-label=\"{step}\"]"), button);
    }

    /// Whether the card of a step says this.
    #[track_caller]
    pub fn step_says(&self, step: &str, words: &str) {
        self.until(
            format!("“{step}” never said {words:?}"),
            "return document.querySelector(`article[aria-label=\"${arguments[0]}\"]`)?.innerText.includes(arguments[1]) ?? false",
            &[json!(step), json!(words)],
        );
    }

    /// Ticks every line of the mise en place.
    #[track_caller]
    pub fn prepare(&self) {
        for line in 1..=8 {
            self.tap_css(&format!("main .choices.one > label:nth-of-type({line})"));
        }
        self.see("Everything is in its place.");
    }

    /// Does the steps one after the other, each begun where it does not begin by itself and called done early.
    #[track_caller]
    pub fn serve(&self, steps: &[(&str, &str)]) {
        for (step, done) in steps {
            self.until(
                format!("“{step}” can't be begun"),
                "return Boolean(document.querySelector(`article[aria-label=\"${arguments[0]}\"] button`))",
                &[json!(step)],
            );
            let not_offered = "return [...document.querySelectorAll(`article[aria-label=\"${arguments[0]}\"] button`)]
                .every((button) => button.innerText !== arguments[1])";
            if self.run(not_offered, &[json!(step), json!(done)]) == json!(true) {
                self.on_step(step, "Begin");
            }
            self.on_step(step, done);
            self.until(
                format!("“{step}” was not done"),
                not_offered,
                &[json!(step), json!(done)],
            );
        }
        // What is plated is no quarrel.
        self.not_see("This does not fit");
    }

    /// Answers every question of the plate check with yes, and finishes.
    #[track_caller]
    pub fn pass(&self) {
        self.at_stage("pass");
        for check in PLATE_CHECKS {
            self.tap_css(&format!("label:has(input[name={check}])"));
        }
        self.tap_css(".dock button.next");
        self.at_stage("");
    }
}

/// A field of the kept part at a place, counted from nought.
pub fn kept_field(field: &str, at: usize) -> String {
    format!("details > div:nth-of-type({}) [id^={field}-]", at + 1)
}
