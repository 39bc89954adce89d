//! The journal: photos made small and freed of what the camera wrote into them, notes, and a page that prints.

use std::path::{Path, PathBuf};
use std::process::Command;

use serde_json::{Value, json};

use crate::bench::{Bench, PHONE, Scheme};

pub const PHOTO: &str = concat!(
    env!("CARGO_MANIFEST_DIR"),
    "/tests/vectors/photo_with_place.jpg"
);

impl Bench {
    /// Goes to the journal of the fish on the screen and adds the photo with a place in it.
    #[track_caller]
    pub fn journal_with_photo(&self) {
        let place = self.fish_place();
        self.go(&format!("{place}/journal"));
        self.see("What went well?");
        self.choose("#photo", Path::new(PHOTO));
        self.photos_shown(1);
    }

    #[track_caller]
    pub fn photos_shown(&self, count: usize) {
        self.until(
            format!("never saw {count} photos"),
            "const shown = [...document.querySelectorAll('.photos img')];
             return shown.length === arguments[0] && shown.every((image) => image.naturalWidth > 0)",
            &[json!(count)],
        );
    }
}

/// Sheets of paper, in centimetres.
pub const PAPERS: [(&str, f64, f64); 2] = [("a4", 21.0, 29.7), ("letter", 21.59, 27.94)];

/// How many sheets a PDF has.
pub fn sheets(pdf: &[u8]) -> usize {
    assert!(pdf.starts_with(b"%PDF"));
    let count = |name: &[u8]| pdf.windows(name.len()).filter(|part| *part == name).count();
    count(b"/Type /Page") - count(b"/Type /Pages")
}

pub fn stdin(text: &str) -> std::process::Stdio {
    use std::io::{Seek, Write};
    let mut file = tempfile::tempfile().unwrap();
    file.write_all(text.as_bytes()).unwrap();
    file.rewind().unwrap();
    file.into()
}

/// What another program finds in a picture: the npm package exifr.
#[track_caller]
fn exif(path: &Path) -> Value {
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/browser/scripts/exif.js");
    let read = Command::new("node")
        .args([Path::new(script), path])
        .output()
        .unwrap();
    assert!(
        read.status.success(),
        "{}",
        String::from_utf8_lossy(&read.stderr)
    );
    serde_json::from_slice(&read.stdout).unwrap()
}

#[test]
fn a_photo_is_made_small_and_tells_nothing_of_place_and_device() {
    let before = exif(Path::new(PHOTO));
    assert_eq!(before["Make"], json!("Invented"), "{before}");
    assert!(before["latitude"].as_f64().unwrap() > 12.5, "{before}");

    let bench = Bench::open(PHONE, Scheme::Light);
    bench.start_fish(&crate::cook::SNAPPER);
    let id = bench.fish_place().rsplit('/').next().unwrap().to_owned();
    bench.journal_with_photo();
    let kept = bench.kept_photos();
    assert_eq!(kept.len(), 1);
    assert!(
        kept[0].0.starts_with(&format!("fish/{id}/")),
        "{}",
        kept[0].0
    );
    let folder = tempfile::tempdir().unwrap();
    let path: PathBuf = folder.path().join("kept.jpg");
    std::fs::write(&path, &kept[0].1).unwrap();
    let after = exif(&path);
    assert_eq!(after["read"], json!({}), "{after}");
    // Upright as it was held, which was told only by the EXIF block, and no longer than 1600 pixels.
    assert_eq!(after["size"], json!([1200, 1600]), "{after}");
    let corner = "const image = document.querySelector('.photos img');
        const pen = Object.assign(document.createElement('canvas'), { width: 1200, height: 1600 }).getContext('2d');
        pen.drawImage(image, 0, 0);
        return [...pen.getImageData(1150, 50, 1, 1).data].slice(0, 3).map((part) => Math.round(part / 16))";
    assert_eq!(
        bench.run(corner, &[]),
        json!([1, 5, 5]),
        "the dark corner lies top right"
    );
    let large = "return Object.values(localStorage).filter((text) => text.length > 20000).length";
    assert_eq!(bench.run(large, &[]), json!(0), "a photo in local storage");

    bench.reload();
    bench.photos_shown(1);
    assert_eq!(bench.axe(), [""; 0]);
    assert_eq!(bench.small_targets(), [""; 0]);
    bench.tap("Take this photo out…");
    bench.tap("Take it out");
    bench.photos_shown(0);
    assert_eq!(bench.kept_photos(), []);
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn what_is_written_stays_and_the_page_prints() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.demo_weighed();
    let place = bench.fish_place();
    bench.go(&format!("{place}/pass"));
    bench.tap("Yes");
    bench.journal_with_photo();
    for (field, text) in [
        ("#went-well", "Skin crisp to the edge."),
        ("#change", "Dry it longer."),
        ("#taste", "Sweet; a little sharp."),
    ] {
        bench.fill(field, text);
    }
    bench.reload();
    bench.has("#went-well", "Skin crisp to the edge.");
    bench.has("#change", "Dry it longer.");
    bench.has("#taste", "Sweet; a little sharp.");
    bench.photos_shown(1);
    bench.see("Out of the fridge");
    for photos in 1..=4 {
        if photos > 1 {
            bench.choose("#photo", Path::new(PHOTO));
        }
        bench.photos_shown(photos);
        for (paper, wide, high) in PAPERS {
            assert_eq!(
                sheets(&bench.on_paper(wide, high)),
                1,
                "{photos} on {paper}"
            );
        }
    }
    // On paper stands what was written, not the fields it was written in.
    bench.command("Emulation.setEmulatedMedia", json!({ "media": "print" }));
    bench.see("Skin crisp to the edge.");
    bench.not_see("Add a photo");
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn a_picture_that_is_none_and_a_full_phone_are_told_of() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.start_fish(&crate::cook::SNAPPER);
    let place = bench.fish_place();
    bench.go(&format!("{place}/journal"));
    let folder = tempfile::tempdir().unwrap();
    let none = folder.path().join("none.jpg");
    std::fs::write(&none, "<svg onload=alert(1)>").unwrap();
    bench.choose("#photo", &none);
    bench.see("This browser can't open that picture");
    bench.command(
        "Storage.overrideQuotaForOrigin",
        json!({ "origin": bench.site.origin(), "quotaSize": 1000 }),
    );
    // For half a minute Chromium trusts what room it last found, which was when the fish was kept.
    std::thread::sleep(std::time::Duration::from_secs(31));
    bench.choose("#photo", Path::new(PHOTO));
    bench.see("This phone has no room left for the photo");
    assert_eq!(bench.kept_photos(), []);
    bench.fill("#went-well", "Kept all the same.");
    bench.command(
        "Storage.overrideQuotaForOrigin",
        json!({ "origin": bench.site.origin() }),
    );
    bench.choose("#photo", Path::new(PHOTO));
    bench.photos_shown(1);
    bench.reload();
    bench.photos_shown(1);
    bench.has("#went-well", "Kept all the same.");
}

#[test]
fn photos_stay_with_a_fish_in_the_bin_and_go_with_it() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.start_fish(&crate::cook::SNAPPER);
    let place = bench.fish_place();
    bench.journal_with_photo();
    let remove = || {
        bench.go(&place);
        bench.tap("Remove this fish…");
        bench.tap("Remove it");
        bench.at("#/");
        bench.not_see("Snapper");
        bench.see("The fish is in the bin");
    };
    remove();
    bench.tap("Put it back");
    bench.see("It is back in its place.");
    bench.tap("Snapper");
    bench.go(&format!("{place}/journal"));
    bench.photos_shown(1);

    remove();
    bench.go("#/settings");
    bench.tap("What is kept, backup and bin");
    bench.tap("Bin: put back what was removed");
    bench.not_see("The fish is in the bin");
    bench.see("Snapper");
    bench.see("fish, removed");
    assert_eq!(bench.axe(), [""; 0]);
    assert_eq!(bench.kept_photos().len(), 1);
    bench.tap("Empty the bin…");
    bench.tap("Empty it");
    bench.see("The bin is empty.");
    bench.has_no_photos();
    bench.reload();
    bench.see("The bin is empty.");
    assert_eq!(bench.console_errors(), [""; 0]);
}
