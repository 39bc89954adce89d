//! QR codes in pictures, held to pictures of codes by segno (a QR encoder after ISO/IEC 18004) that Pillow and numpy have
//! turned, blurred, darkened and bent, and beside them to what jsQR (npm, 1.4.0) reads of the same pictures.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

mod qr_photos;

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::Command;

use qr_photos::{Taken, taken};
use scaleside::code::picture::GreyPicture;

const JSQR: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/vectors/qr_photos.js");

/// So many of the pictures with a code have to be read.
const MUST_BE_READ: usize = 80;

#[test]
fn pictures_are_read_and_none_is_read_wrong() {
    let (mut read, mut with_code) = (0, 0);
    let mut kinds: BTreeMap<String, (usize, usize)> = BTreeMap::new();
    for picture in taken() {
        let (wide, high, light) = picture.grey();
        let Taken { name, kind, says } = picture;
        let texts = GreyPicture::new(wide, high, light).unwrap().texts();
        if says.is_empty() {
            assert_eq!(texts, [""; 0], "{name} has no code in it");
            continue;
        }
        with_code += 1;
        let (ours, of) = kinds.entry(kind).or_default();
        *of += 1;
        if !texts.is_empty() {
            assert_eq!(texts, [says], "{name} is read wrong");
            *ours += 1;
            read += 1;
        }
    }
    for (kind, (ours, of)) in &kinds {
        println!("{kind:<15} {ours} of {of}");
    }
    println!("read: {read} of {with_code}; at least {MUST_BE_READ} must be");
    assert!(with_code >= 60 && read >= MUST_BE_READ);
    if let Some(other) = jsqr() {
        println!("jsQR reads {other} of the same {with_code}");
        assert!(read >= other, "another reader reads more of them");
    }
}

/// How many of them jsQR reads; nothing where the packages of the tests are not there.
fn jsqr() -> Option<usize> {
    let npm = std::env::var("SCALESIDE_NPM").ok()?;
    if !Path::new(&npm).join("jsqr").exists() {
        return None;
    }
    let folder = tempfile::tempdir().unwrap();
    let mut list = Vec::new();
    for picture in taken() {
        let (wide, high, light) = picture.grey();
        let Taken { name, says, .. } = picture;
        fs::write(folder.path().join(&name), light).unwrap();
        list.push(serde_json::json!([name, wide, high, says]));
    }
    let pictures = folder.path().join("list.json");
    fs::write(&pictures, serde_json::to_string(&list).unwrap()).unwrap();
    let told = Command::new("node")
        .arg(JSQR)
        .arg(folder.path())
        .output()
        .unwrap();
    assert!(
        told.status.success(),
        "{}",
        String::from_utf8_lossy(&told.stderr)
    );
    Some(
        String::from_utf8(told.stdout)
            .unwrap()
            .trim()
            .parse()
            .unwrap(),
    )
}
