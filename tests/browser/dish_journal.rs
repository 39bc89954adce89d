//! The journal of a dish: written without a signal, printed on one sheet, in the backup, in the bin with its photos,
//! and off the phone for good.

use std::path::Path;

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme};
use crate::journal::{PAPERS, PHOTO, sheets};

impl Bench {
    /// Opens the demo dish and its journal; returns the address of the dish.
    #[track_caller]
    fn dish_journal(&self) -> String {
        self.go("#/dishes");
        self.tap("Open the demo dish");
        self.see("Add a line");
        let place = self.run("return location.hash", &[]);
        let place = place.as_str().unwrap().to_owned();
        self.tap("Journal: photos and notes");
        self.at(&format!("{place}/journal"));
        self.see("What went well?");
        place
    }

    #[track_caller]
    fn writes_it(&self) {
        self.choose("#photo", Path::new(PHOTO));
        self.photos_shown(1);
        self.fill("#went-well", "Leeks held their bite.");
        self.fill("#change", "Sauce thinner, plates hotter.");
        self.fill("#taste", "Sharp enough; skin crisp.");
        self.tap_css("fieldset:nth-of-type(1) label:nth-of-type(1) input");
        self.tap_css("fieldset:nth-of-type(2) label:nth-of-type(2) input");
    }

    #[track_caller]
    fn reads_it(&self) {
        self.photos_shown(1);
        self.has("#went-well", "Leeks held their bite.");
        self.has("#change", "Sauce thinner, plates hotter.");
        self.has("#taste", "Sharp enough; skin crisp.");
        let chosen = "return [1, 2, 3].map((nth) => [...document.querySelectorAll(`fieldset:nth-of-type(${nth}) input`)]
            .findIndex((input) => input.checked))";
        assert_eq!(self.run(chosen, &[]), json!([0, 1, -1]));
    }
}

#[test]
fn a_dish_has_a_journal_without_a_signal_and_on_one_sheet() {
    for scheme in Scheme::BOTH {
        let mut bench = Bench::open(PHONE, scheme);
        bench.started();
        bench.kept();
        bench.site.stop();
        let place = bench.dish_journal();
        bench.see("The plate");
        bench.not_see("Out of the fridge");
        bench.writes_it();
        bench.is_sound();
        bench.reload();
        bench.reads_it();
        let id = place.rsplit('/').next().unwrap();
        let kept = bench.kept_photos();
        assert_eq!(kept.len(), 1);
        assert!(
            kept[0].0.starts_with(&format!("recipe/{id}/")),
            "{}",
            kept[0].0
        );

        for (paper, wide, high) in PAPERS {
            assert_eq!(sheets(&bench.on_paper(wide, high)), 1, "{paper}");
        }
        // On paper stands what was written and answered, not what it was written with.
        bench.command("Emulation.setEmulatedMedia", json!({ "media": "print" }));
        bench.see("Leeks held their bite.");
        bench.see("not yet");
        bench.see("Food cost of a cover");
        bench.not_see("Add a photo");
        bench.not_see("Print, or save as PDF");
        assert_eq!(bench.console_errors(), [""; 0]);
        bench.site.start();
    }
}

/// A part made ahead has no plate: its journal asks nothing of one.
#[test]
fn a_part_made_ahead_has_a_journal_too() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.dish_journal();
    bench.go("#/dishes");
    bench.tap("Green sauce");
    bench.tap("Journal: photos and notes");
    bench.see("Journal of Green sauce");
    bench.not_see("The plate");
    bench.fill("#change", "Less vinegar.");
    bench.reload();
    bench.has("#change", "Less vinegar.");
    bench.is_sound();
}

#[test]
fn the_journal_of_a_dish_goes_through_the_backup_and_the_bin() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    let place = bench.dish_journal();
    bench.writes_it();
    bench.go("#/kept");
    bench.tap("Make a backup");
    bench.see("and 1 photo");
    bench.tap("Save the file");
    let file = bench.saved(".zip");

    let other = Bench::open(PHONE, Scheme::Light);
    other.go("#/restore");
    other.see("Choose the file");
    other.choose("#backup", &file);
    other.see("1 photo not on this phone: added");
    other.tap("Put it in");
    other.see("Done:");
    other.go(&format!("{place}/journal"));
    other.reads_it();
    assert_eq!(other.kept_photos(), bench.kept_photos());
    assert_eq!(other.console_errors(), [""; 0]);

    let remove = || {
        bench.go(&place);
        bench.tap("Remove this card…");
        bench.tap("Remove it");
        bench.at("#/dishes");
        bench.see("The dish is in the bin");
    };
    remove();
    assert_eq!(bench.kept_photos().len(), 1);
    bench.tap("Put it back");
    bench.see("It is back in its place.");
    bench.go(&format!("{place}/journal"));
    bench.reads_it();

    remove();
    bench.go("#/kept");
    bench.tap("Make a backup");
    bench.see("and 0 photos");
    bench.go("#/bin");
    bench.see("dish, removed");
    bench.tap("Remove for good…");
    bench.see("Only a backup can bring it back.");
    bench.is_sound();
    bench.tap("Keep it");
    bench.tap("Remove for good…");
    bench.tap("Remove for good");
    bench.see("Removed for good:");
    bench.see("The bin is empty.");
    bench.has_no_photos();
    bench.reload();
    bench.see("The bin is empty.");
    assert_eq!(bench.console_errors(), [""; 0]);
}
