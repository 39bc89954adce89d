//! Pictures of codes read into a class: several at once, with no signal, by the app's own reader or the browser's; and the
//! printed card as such a picture.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use scaleside::code::opening::open;
use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme, Size};
use crate::chrome::Chrome;
use crate::class::{class_with, texts};
use crate::qr_photos::{Taken, taken};
use crate::site::Site;

const QR: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/browser/scripts/qr.js");

/// The pictures of this kind.
fn of_kind(kind: &str) -> Vec<Taken> {
    let mut all = taken();
    all.retain(|picture| picture.kind == kind);
    all
}

/// Whose result a picture shows.
fn whose(picture: &Taken) -> String {
    let code = picture.says.rsplit("#/c/").next().unwrap();
    let whose = open(code).unwrap().sheet.student.unwrap();
    format!("{} {}", whose.nickname, whose.test)
}

/// Two pictures of two students, each with whose it is.
fn two() -> [(Taken, String); 2] {
    let mut seen = BTreeSet::new();
    let all = of_kind("from the side").into_iter();
    let mut all = all
        .map(|picture| (whose(&picture), picture))
        .filter(|(whose, _)| seen.insert(whose.clone()))
        .map(|(whose, picture)| (picture, whose));
    [all.next().unwrap(), all.next().unwrap()]
}

/// One without a code.
fn without() -> Taken {
    of_kind("no code").remove(0)
}

/// A class that holds nothing yet, its ways to add codes open.
fn empty_class(bench: &Bench) {
    class_with(bench, "nothing in it");
    bench.see("1 line holds no code.");
    bench.tap_css("#adding summary");
    bench.see("Read pictures of QR codes");
}

fn choose(bench: &Bench, pictures: &[&Path]) {
    let names: Vec<&str> = pictures.iter().map(|one| one.to_str().unwrap()).collect();
    bench.choose("#pictures", Path::new(&names.join("\n")));
}

#[test]
fn three_pictures_at_once_are_read_without_a_signal() {
    for (size, scheme) in [(PHONE, Scheme::Light), (Size(320, 568), Scheme::Dark)] {
        let mut bench = Bench::open(size, scheme);
        let own = bench.run("return 'BarcodeDetector' in window", &[]);
        assert_eq!(own, json!(false), "this browser has a reader of its own");
        bench.started();
        bench.kept();
        bench.site.stop();
        empty_class(&bench);
        bench.is_sound();
        let field = "const field = document.querySelector('#pictures');
            const { height } = field.parentElement.getBoundingClientRect();
            return field.multiple && !field.hasAttribute('capture') && height >= 44";
        assert_eq!(bench.run(field, &[]), json!(true));
        let [(first, one), (second, other)] = two();
        let none = without();
        choose(&bench, &[&first.path(), &none.path(), &second.path()]);
        bench.see(&format!("Picture 1: {one}, added."));
        bench.see("Picture 2: no code in it.");
        bench.see(&format!("Picture 3: {other}, added."));
        bench.see("2 codes added from 3 pictures.");
        let rows: BTreeSet<String> = texts(&bench, ".board .opener b").into_iter().collect();
        assert_eq!(rows, BTreeSet::from([one.clone(), other]));
        bench.run(
            "document.querySelector('#pictures').parentElement.scrollIntoView()",
            &[],
        );
        bench.shot("pictures");
        bench.is_sound();
        // One after the other: what was told stays.
        choose(&bench, &[&first.path()]);
        bench.see(&format!("Picture 4: {one}, here already."));
        bench.see("Picture 2: no code in it.");
        bench.see("2 codes added from 4 pictures.");
        bench.site.start();
    }
}

/// Every picture is outside data: what can't be read says so by its number, and keeps none of the others from being read.
#[test]
fn what_is_no_picture_is_told_by_its_number() {
    let bench = Bench::open(PHONE, Scheme::Light);
    empty_class(&bench);
    let folder = tempfile::tempdir().unwrap();
    let put = |name: &str, bytes: &[u8]| {
        let path = folder.path().join(name);
        fs::write(&path, bytes).unwrap();
        path
    };
    let [(good, whose), _] = two();
    let whole = fs::read(good.path()).unwrap();
    let mut large = b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\x27\x10\0\0\x27\x10".to_vec();
    large.extend([1, 0, 0, 0, 0, 0, 0, 0, 0]);
    let long = fs::File::create(folder.path().join("long.jpg")).unwrap();
    long.set_len(61_000_000).unwrap();
    let made = [
        put("empty.png", b""),
        put("words.jpg", b"<svg onload=alert(1)>"),
        put("cut.jpg", &whole[..whole.len() / 8]),
        put("large.png", &large),
        folder.path().join("long.jpg"),
        good.path(),
    ];
    let made: Vec<&Path> = made.iter().map(PathBuf::as_path).collect();
    choose(&bench, &made);
    bench.see("Picture 1: this file is empty.");
    bench.see("Picture 2: this browser can't open this file as a picture.");
    bench.see("Picture 4: this picture has 100 million points, which is too many.");
    bench.see("Picture 5: this file is too large.");
    bench.see(&format!("Picture 6: {whose}, added."));
    bench.see("1 code added from 6 pictures.");
    // Of a file that was cut off the browser shows what there is, or nothing.
    let cut = texts(&bench, "#adding .plain-list p")[2].clone();
    assert!(
        cut.contains("no code in it") || cut.contains("can't open"),
        "{cut}"
    );
    bench.is_sound();
}

/// Where a worker can't be had the page reads them; and where the browser has a reader, that one is asked first. The browser
/// here has none, so one stands in for it.
#[test]
fn pictures_are_read_with_no_worker_and_by_the_browsers_own_reader() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.run("window.Worker = undefined", &[]);
    empty_class(&bench);
    let [(first, one), (second, _)] = two();
    choose(&bench, &[&first.path()]);
    bench.see(&format!("Picture 1: {one}, added."));
    let reader = "window.BarcodeDetector = class {
            constructor(wanted) { this.formats = wanted.formats.join(); }
            async detect(canvas) {
                const said = this.formats === 'qr_code' && canvas.width > 100 && 'a bill for lunch';
                return said ? [{ rawValue: said }] : [];
            }
        }";
    bench.run(reader, &[]);
    choose(&bench, &[&second.path()]);
    bench.see("Picture 2: its QR code is no result.");
    bench.see("1 code added from 2 pictures.");
    bench.is_sound();
}

/// A video without a sound, of 640 by 480 points, that shows each picture in its middle for a second: YUV4MPEG2, of which a
/// frame is its light, then two planes of colour a quarter as large, here without any.
fn video(pictures: &[&Taken]) -> Vec<u8> {
    const SIDES: (usize, usize) = (640, 480);
    const A_SECOND: usize = 10;
    let mut video = format!(
        "YUV4MPEG2 W{} H{} F{A_SECOND}:1 Ip A1:1 C420jpeg\n",
        SIDES.0, SIDES.1
    )
    .into_bytes();
    for picture in pictures {
        let (wide, high, values) = picture.grey();
        let mut light = vec![200_u8; SIDES.0 * SIDES.1];
        let from = (SIDES.0 - wide) / 2 + (SIDES.1 - high) / 2 * SIDES.0;
        for (row, values) in values.chunks(wide).enumerate() {
            light[from + row * SIDES.0..][..wide].copy_from_slice(values);
        }
        for _ in 0..A_SECOND {
            video.extend_from_slice(b"FRAME\n");
            video.extend_from_slice(&light);
            video.resize(video.len() + light.len() / 2, 128);
        }
    }
    video
}

/// Held over one phone after another, with no signal: each code is added once, however long it is in the picture, and
/// the camera is off again when it is closed.
#[test]
fn the_camera_reads_one_code_after_another() {
    let [(first, one), (second, other)] = two();
    let none = without();
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("seen.y4m");
    fs::write(&file, video(&[&first, &none, &second])).unwrap();
    for (size, scheme) in [(PHONE, Scheme::Light), (Size(320, 568), Scheme::Dark)] {
        let mut bench = Bench::open_in(Chrome::seeing(size, &file), Site::new(), size, scheme);
        bench.started();
        bench.kept();
        bench.site.stop();
        empty_class(&bench);
        bench.tap("Hold the camera over codes");
        bench.see(&format!("{one}, added."));
        bench.see(&format!("{other}, added."));
        bench.see("2 codes added.");
        bench.shot("camera");
        bench.is_sound();
        let within = "const seen = (of) => document.querySelector(of).getBoundingClientRect();
            const [video, done, told] = ['.live video', '.live > .btn', '.live .told'].map(seen);
            return video.height >= 120 && video.top >= 0 && video.bottom <= told.top && told.bottom <= done.top
                && done.bottom <= innerHeight && innerWidth === document.documentElement.clientWidth";
        assert_eq!(bench.run(within, &[]), json!(true));
        // Both have been in its picture once more.
        bench.run("return new Promise((done) => setTimeout(done, 4000))", &[]);
        bench.see("2 codes added.");
        assert_eq!(texts(&bench, ".live .told p").len(), 3);
        bench.run(
            "window.tracks = document.querySelector('.live video').srcObject.getTracks()",
            &[],
        );
        bench.tap("Done");
        let off = "return window.tracks.every((track) => track.readyState === 'ended')";
        bench.until("the camera is still on", off, &[]);
        let rows: BTreeSet<String> = texts(&bench, ".board .opener b").into_iter().collect();
        assert_eq!(rows, BTreeSet::from([one.clone(), other.clone()]));
        // What is known already is said so, once.
        bench.tap("Hold the camera over codes");
        bench.see(&format!("{one}, here already."));
        bench.tap("Done");
        assert_eq!(bench.console_errors(), [""; 0]);
        bench.site.start();
    }
}

/// Where there is no camera, or none that may be used, a sentence says what else to do.
#[test]
fn without_a_camera_it_says_what_else_to_do() {
    let bench = Bench::open(PHONE, Scheme::Dark);
    empty_class(&bench);
    for (refusal, said) in [
        (
            "NotAllowedError",
            "This browser may not use the camera here.",
        ),
        ("NotFoundError", "No camera is found."),
        ("NotReadableError", "The camera can't be used now"),
    ] {
        let refused = "navigator.mediaDevices.getUserMedia = async () => { throw new DOMException('', arguments[0]) }";
        bench.run(refused, &[json!(refusal)]);
        bench.tap("Hold the camera over codes");
        bench.see(said);
        bench.is_sound();
        bench.tap("Done");
        bench.not_see(said);
    }
}

/// What another program reads in the picture of a printed card is the link of its result, whose letters stand beside it.
#[test]
fn a_printed_card_carries_the_code() {
    for scheme in Scheme::BOTH {
        let bench = Bench::open(PHONE, scheme);
        bench.started();
        bench.demo_weighed();
        bench.go(&format!("{}/card", bench.fish_place()));
        bench.see("Result code");
        bench.until(
            "its picture was never drawn",
            "return document.querySelector('svg.qr') !== null",
            &[],
        );
        bench.is_sound();
        bench.command("Emulation.setEmulatedMedia", json!({ "media": "print" }));
        let centre = "document.querySelector('.carried').scrollIntoView({ block: 'center' })";
        bench.run(centre, &[]);
        let picture = bench.shot("card");
        let letters = texts(&bench, ".carried .num").concat();
        let opened = open(&letters).unwrap();
        assert!(opened.mended.is_empty());
        let read = Command::new("node").arg(QR).arg(picture).output().unwrap();
        assert!(
            read.status.success(),
            "{}",
            String::from_utf8_lossy(&read.stderr)
        );
        let link = format!("{}{}", bench.site.address(), opened.code.link());
        assert_eq!(String::from_utf8(read.stdout).unwrap(), link);
    }
}
