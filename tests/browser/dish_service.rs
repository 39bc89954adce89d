//! From a dish to its service and away, with nothing weighed; its allergens; a table written by hand.

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme, Size};

/// The smallest phone.
const SMALL: Size = Size(320, 568);

impl Bench {
    /// A dish without fish: bought lines, each finished.
    #[track_caller]
    pub fn write_mussels(&self) {
        self.go("#/dishes");
        self.tap("Write a dish");
        self.fill(
            "#dish-name",
            "Mussels in cider cream with toasted sourdough bread",
        );
        self.fill("#dish-covers", "4");
        for (name, quantity, price) in [
            ("Mussels", "2000", "6.50"),
            ("Cream", "200", "5.20"),
            ("Bread", "300", "4.00"),
        ] {
            self.tap("Add a line");
            self.fill("#line-name", name);
            self.fill("#line-quantity", quantity);
            self.fill("#line-price", price);
            self.pick("#line-per", "kg");
            self.tap("Done");
        }
        self.see("Bread");
    }

    /// Whether the page is no wider than the screen.
    #[track_caller]
    pub fn fits_its_width(&self) {
        let wide = self.run(
            "return [document.documentElement.scrollWidth, document.documentElement.clientWidth]",
            &[],
        );
        assert!(
            wide[0].as_f64() <= wide[1].as_f64(),
            "{}: {wide}",
            self.address()
        );
    }
}

#[test]
fn a_dish_without_fish_is_planned_cooked_and_put_away() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.write_mussels();
    bench.is_sound();
    bench.shot("dish-card");
    bench.tap("Plan this dish");
    bench.see("Steps of the service");
    bench.see("Cook the main part");
    bench.shot("dish-steps");
    bench.tap("Plan this dish");
    bench.see("Plan of the service");
    bench.see("Nothing waits for the plate");
    bench.fits_its_width();
    bench.shot("dish-plan");
    bench.is_sound();
    bench.tap("Prepare it");
    bench.see("Mise en place");
    bench.see("Mussels");
    bench.not_see("Fillets into the fridge");
    bench.not_see("How the fillet cooks");
    bench.shot("dish-prepare");
    bench.is_sound();
    bench.tap("Start the service");
    bench.see("not ready");
    bench.tap("Start anyway");
    bench.see("Plate about");
    bench.shot("dish-service");
    bench.is_sound();
    // It is found again in the list, and is one service, however often its dish is planned.
    bench.go("#/");
    bench.see("service · next: service");
    bench.shot("dish-home");
    bench.reload();
    bench.tap("Mussels in cider cream with toasted sourdough bread");
    bench.see("Plate about");
    bench.tap("Numbers and stages");
    bench.see("Plan of the service");
    bench.not_see("Weigh as delivered");
    bench.shot("dish-summary");
    bench.is_sound();
    bench.tap("Remove this service…");
    bench.tap("Remove it");
    bench.see("is in the bin");
    bench.go("#/bin");
    bench.see("Mussels in cider cream");
}

#[test]
fn allergens_are_proposed_confirmed_and_gathered() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.write_mussels();
    bench.see("3 not confirmed");
    bench.tap("Allergens");
    bench.see("By their names, not confirmed");
    for name in ["Molluscs: Mussels", "Milk: Cream", "Gluten: wheat: Bread"] {
        bench.see(name);
    }
    bench.shot("dish-allergens");
    bench.is_sound();
    bench.tap("Confirm for Cream: Milk, no other");
    bench.see("Contains");
    bench.tap("United States: 9");
    bench.not_see("Molluscs: Mussels");
    bench.tap("European Union: 14");
    bench.see("Molluscs: Mussels");
    // Where the shorter list was gone by, nothing is taken for looked at; Cream was confirmed by the longer.
    bench.tap("Confirm for Bread: Gluten: wheat, no other");
    bench.tap("Confirm for Mussels: Molluscs, no other");
    bench.not_see("Not confirmed yet");
    bench.shot("dish-allergens-confirmed");
    bench.is_sound();
    bench.reload();
    bench.see("Molluscs: Mussels");
    bench.not_see("Not confirmed yet");
}

#[test]
fn every_screen_of_it_fits_the_smallest_phone() {
    for (size, scheme) in [(SMALL, Scheme::Dark), (Size(1280, 800), Scheme::Light)] {
        let bench = Bench::open(size, scheme);
        bench.started();
        bench.go("#/dishes");
        bench.tap("Open the demo dish");
        bench.see("Demo: invented figures");
        bench.shot("demo-card");
        bench.tap("Allergens");
        bench.see("Not confirmed yet");
        bench.fits_its_width();
        bench.shot("demo-allergens");
        bench.back();
        bench.tap("Plan this dish");
        bench.see("Steps of the service");
        bench.tap("Plan this dish");
        bench.see("Nothing waits for the plate");
        bench.fits_its_width();
        bench.shot("demo-plan");
        bench.tap("Cooks and pans");
        bench.fill("#covers", "8");
        bench.see("how many lie flat in your pan");
        bench.fits_its_width();
        bench.shot("demo-pan-room");
        bench.fill("#at-once", "2");
        bench.see("This does not fit");
        bench.run("scrollTo(0, 0)", &[json!(null)]);
        bench.fits_its_width();
        bench.shot("demo-quarrel");
    }
}

/// “Whole fish” with its published range is finished without a name of its own.
#[test]
fn a_published_fish_needs_no_other_name() {
    let bench = Bench::open(SMALL, Scheme::Light);
    bench.started();
    bench.go("#/dishes");
    bench.tap("Write a dish");
    bench.tap("Add a line");
    bench.tap("Whole fish");
    bench.pick("#line-yield", "published");
    // None is taken for it before the cook says which.
    bench.see("Choose which fish it is.");
    bench.pick("#line-species", "gilthead_bream");
    bench.not_see("Choose which fish it is.");
    bench.fill("#line-quantity", "600");
    bench.fill("#line-price", "18.90");
    bench.pick("#line-per", "kg");
    bench.fits_its_width();
    bench.shot("line-published");
    bench.tap("Done");
    bench.see("Gilthead bream");
    bench.see("€");
}
