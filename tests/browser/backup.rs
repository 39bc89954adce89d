//! A backup goes from one phone to another; a restore is looked at first, cut off, finished and taken back.

use std::path::PathBuf;
use std::process::Command;

use scaleside::base::instant::Instant;
use scaleside::fish::demo;
use scaleside::fish::settings::Settings;
use scaleside::keep::backup::write::BackupWriter;
use scaleside::store::outcome::Held;
use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme};
use crate::cook::SNAPPER;

const RESTORE: &str = "#/restore";

/// A backup of so many breams, made by this very code on another machine.
fn backup_of(count: usize, folder: &tempfile::TempDir) -> PathBuf {
    let mut writer = BackupWriter::begin(1, Instant(1_773_099_000_000), count, 0).unwrap();
    for nth in 0..count {
        let id = format!("restored{nth:04}");
        let fish = demo::bream(id.clone(), Instant(1_773_099_000_000), &Settings::default());
        let record = serde_json::value::to_raw_value(&fish).unwrap();
        let counter = 7;
        writer
            .record("fish", &Held::from_elsewhere(&id, record, counter))
            .unwrap();
    }
    let path = folder.path().join("made.zip");
    std::fs::write(&path, writer.finish().unwrap()).unwrap();
    path
}

impl Bench {
    #[track_caller]
    fn fish_kept(&self) -> usize {
        let ids = "return new Set(Object.keys(localStorage).filter((key) => /^scaleside.1.fish/.test(key))
            .map((key) => key.split('/')[3])).size";
        self.run(ids, &[]).as_u64().unwrap() as usize
    }

    #[track_caller]
    fn look_into(&self, file: &std::path::Path) {
        self.go(RESTORE);
        self.see("Choose the file");
        self.choose("#backup", file);
        self.see("What it would do");
    }
}

#[test]
fn everything_goes_to_another_phone_and_back_again() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.demo_weighed();
    bench.journal_with_photo();
    bench.fill("#taste", "<script>document.title = 'run'</script>");
    bench.go("#/");
    bench.start_fish(&SNAPPER);
    bench.go("#/kept");
    bench.see("There has been none yet.");
    assert_eq!(bench.axe(), [""; 0]);
    assert_eq!(bench.small_targets(), [""; 0]);
    bench.tap("Make a backup");
    // Two fish, and the settings, which remember what the last fish was paid in.
    bench.see("Ready: 3 entries and 1 photo");
    bench.tap("Save the file");
    bench.see("The last one was made");
    let file = bench.saved(".zip");
    let tested = Command::new("unzip").arg("-t").arg(&file).output().unwrap();
    let said = String::from_utf8_lossy(&tested.stdout).into_owned();
    assert!(said.contains("No errors detected"), "{said}");
    assert_eq!(bench.console_errors(), [""; 0]);

    let other = Bench::open(PHONE, Scheme::Dark);
    other.look_into(&file);
    other.see("3 entries not on this phone: added");
    other.see("1 photo not on this phone: added");
    assert_eq!(other.fish_kept(), 0, "looking put something in");
    assert_eq!(other.axe(), [""; 0]);
    other.tap("Put it in");
    other.see("Done: 3 entries put in.");
    other.shot("restored");
    other.go("#/");
    other.see("Snapper");
    other.tap("Gilthead bream");
    let place = other.fish_place();
    other.go(&format!("{place}/journal"));
    other.photos_shown(1);
    other.has("#taste", "<script>document.title = 'run'</script>");
    assert_eq!(other.kept_photos(), bench.kept_photos());

    // The same file again does nothing; with a fish changed here the newer one stays.
    other.look_into(&file);
    other.see("Everything in it is on this phone already.");
    other.go(&format!("{place}/journal"));
    other.fill("#change", "Written on the other phone.");
    other.look_into(&file);
    other.see("1 entry newer here");
    other.tap("Put it in");
    other.see("Done: 0 entries put in.");
    other.go(&format!("{place}/journal"));
    other.has("#change", "Written on the other phone.");
    assert_eq!(other.console_errors(), [""; 0]);
}

#[test]
fn a_restore_cut_off_by_a_reload_is_finished_by_doing_it_again_and_taken_back() {
    let folder = tempfile::tempdir().unwrap();
    let file = backup_of(40, &folder);
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.start_fish(&SNAPPER);
    bench.look_into(&file);
    bench.see("40 entries not on this phone: added");
    // The page is gone at the twelfth record, in the middle of writing it.
    let cut = "let left = 12;
        const put = Storage.prototype.setItem;
        Storage.prototype.setItem = function (key, text) {
            if (key.includes('/fish/') && left-- <= 0) { location.reload(); throw new Error('gone'); }
            put.call(this, key, text);
        };";
    bench.run(cut, &[]);
    bench.run("window.before = true", &[]);
    bench.tap("Put it in");
    bench.until(
        "the page was not gone",
        "return window.before === undefined",
        &[],
    );
    bench.started();
    let there = bench.fish_kept();
    assert!((2..=13).contains(&there), "{there} fish");
    bench.look_into(&file);
    bench.see("the same in both");
    bench.tap("Put it in");
    bench.see("Done:");
    assert_eq!(bench.fish_kept(), 41);
    // The page is left, and gone: the phone still knows what was done, both times together.
    bench.go("#/");
    bench.reload();
    bench.started();
    bench.go(RESTORE);
    bench.see("The last restore 40 entries from the backup of");
    assert_eq!(bench.axe(), [""; 0]);
    assert_eq!(bench.small_targets(), [""; 0]);
    bench.tap("Take it back");
    bench.see("Everything is as it was before.");
    assert_eq!(bench.fish_kept(), 1);
    bench.go("#/");
    bench.see("Snapper");
    bench.not_see("Gilthead bream");
    bench.go(RESTORE);
    bench.reload();
    bench.see("Choose the file");
    bench.not_see("The last restore");
    bench.go("#/bin");
    bench.see("Gilthead bream");
    assert_eq!(bench.console_errors(), [""; 0]);
}

/// What was changed here since is in the bin, not lost; a photo goes the way of its fish.
#[test]
fn a_restore_is_taken_back_after_a_reload_with_what_was_written_since() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.demo_weighed();
    let place = bench.fish_place();
    bench.journal_with_photo();
    bench.fill("#taste", "In the backup.");
    bench.go("#/kept");
    bench.tap("Make a backup");
    bench.tap("Save the file");
    bench.see("The last one was made");
    let file = bench.saved(".zip");

    let other = Bench::open(PHONE, Scheme::Light);
    other.look_into(&file);
    other.tap("Put it in");
    other.see("Done:");
    other.go(&format!("{place}/journal"));
    other.photos_shown(1);
    other.fill("#taste", "Written since.");
    other.reload();
    other.go(RESTORE);
    other.see("and 1 photo from the backup of");
    other.tap("Take it back");
    other.see("Everything is as it was before.");
    assert_eq!(other.fish_kept(), 0);
    other.go("#/bin");
    other.see("fish, removed");
    other.tap("Put it back");
    other.see("It is back in its place.");
    other.go(&format!("{place}/journal"));
    other.has("#taste", "Written since.");
    other.photos_shown(1);
    assert_eq!(other.console_errors(), [""; 0]);
}

#[test]
fn a_word_is_due_after_ten_entries_of_any_kind_but_the_demo() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    for _ in 0..5 {
        bench.go("#/dishes");
        bench.tap("Open the demo dish");
        bench.see("Add a line");
    }
    for _ in 0..8 {
        bench.go("#/dishes");
        bench.tap("Write a dish");
        bench.see("Add a line");
    }
    bench.go("#/classes");
    bench.fill("#class-name", "Tuesday");
    bench.tap("Start the class");
    bench.see("Add codes");
    bench.go("#/");
    bench.see("Your fish");
    bench.not_see("Make a backup");
    bench.start_fish(&SNAPPER);
    bench.go("#/");
    bench.see("Ten entries or more are on this phone alone.");
    assert_eq!(bench.axe(), [""; 0]);
    bench.tap("Make a backup");
    bench.tap("Make a backup");
    bench.tap("Save the file");
    bench.see("The last one was made");
    bench.go("#/");
    bench.see("Your fish");
    bench.not_see("Ten entries");
}

#[test]
fn a_restore_on_a_full_phone_says_so_and_loses_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let file = backup_of(20, &folder);
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.start_fish(&SNAPPER);
    bench.fill_storage(8_000);
    bench.look_into(&file);
    bench.tap("Put it in");
    bench.see("and then not all of the rest");
    let there = bench.fish_kept();
    assert!(there < 21, "{there}");
    bench.run("localStorage.removeItem('others')", &[]);
    bench.choose("#backup", &file);
    bench.see("What it would do");
    bench.tap("Put it in");
    bench.see("Done:");
    assert_eq!(bench.fish_kept(), 21);
}

#[test]
fn a_file_that_is_no_backup_is_refused_with_a_sentence() {
    let folder = tempfile::tempdir().unwrap();
    let whole = std::fs::read(backup_of(3, &folder)).unwrap();
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.go(RESTORE);
    for (name, bytes, said) in [
        (
            "empty.zip",
            &b""[..],
            "This file is not a backup of Scaleside",
        ),
        (
            "picture.zip",
            &b"\xff\xd8\xff\xe0"[..],
            "This file is not a backup of Scaleside",
        ),
        (
            "cut.zip",
            &whole[..whole.len() / 2],
            "This file is cut off or damaged",
        ),
    ] {
        let path = folder.path().join(name);
        std::fs::write(&path, bytes).unwrap();
        bench.choose("#backup", &path);
        bench.see(said);
        bench.see("Choose the file");
    }
    assert_eq!(bench.run("return localStorage.length", &[]), json!(0));
    assert_eq!(bench.console_errors(), [""; 0]);
}
