//! Files that are no backup, are damaged, or mean harm: a sentence each, never a panic, and nothing is written.

use std::io::Write;

use miniz_oxide::deflate::compress_to_vec;
use proptest::prelude::*;
use rawzip::{CompressionMethod, DataDescriptorOutput, ZipArchiveWriter};
use scaleside::keep::backup::read::read;

use crate::sample::{JPEG, Phone, backup, fish, photo};

const LABEL: &str =
    r#"{"what":"scaleside backup","layout":1,"build":7,"made":0,"records":1,"photos":0}"#;

/// A zip of entries, each stored, or compressed when its name ends in `~`, which is left out.
fn zip(entries: &[(&str, &[u8])]) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut zip = ZipArchiveWriter::new(&mut bytes);
    for (name, content) in entries {
        let (name, method) = match name.strip_suffix('~') {
            Some(name) => (name, CompressionMethod::DEFLATE),
            None => (*name, CompressionMethod::STORE),
        };
        let path = rawzip::path::EntryPath::verbatim(name.as_bytes().to_vec());
        let (mut entry, _) = zip
            .new_file(path)
            .compression_method(method)
            .start()
            .unwrap();
        if method == CompressionMethod::DEFLATE {
            entry.write_all(&compress_to_vec(content, 9)).unwrap();
        } else {
            entry.write_all(content).unwrap();
        }
        let sum = crc32fast::hash(content);
        entry
            .finish(DataDescriptorOutput::new(sum, content.len() as u64))
            .unwrap();
    }
    zip.finish().unwrap();
    bytes
}

fn with(entries: &[(&str, &[u8])]) -> Vec<u8> {
    zip(&[&[("scaleside.json", LABEL.as_bytes())], entries].concat())
}

#[test]
fn each_harmful_file_is_refused_with_its_sentence() {
    let swelling = vec![b' '; 64 << 20];
    let label =
        |from: &str, to: &str| zip(&[("scaleside.json", LABEL.replace(from, to).as_bytes())]);
    let cases: [(&str, Vec<u8>, &str); 13] = [
        ("nothing", Vec::new(), "not a backup"),
        ("a picture", JPEG.to_vec(), "not a backup"),
        ("another zip", zip(&[("a.txt", b"hello")]), "not a backup"),
        (
            "another label",
            label("scaleside backup", "other"),
            "not a backup",
        ),
        (
            "a newer layout",
            label("\"layout\":1", "\"layout\":2"),
            "newer version",
        ),
        (
            "a label without layout",
            label("\"layout\":1,", ""),
            "not a backup",
        ),
        (
            "a path upwards",
            with(&[("../../etc/passwd", b"x")]),
            "leads outside",
        ),
        (
            "a path from the top",
            with(&[("/records/fish/a.json", b"x")]),
            "leads outside",
        ),
        (
            "a path of another system",
            with(&[("records\\..\\x", b"x")]),
            "leads outside",
        ),
        ("a drive", with(&[("C:x", b"x")]), "leads outside"),
        (
            "a record that swells",
            with(&[("records/fish/a.json~", &swelling)]),
            "unpacks to more",
        ),
        (
            "a photo that swells",
            with(&[("photos/fish/a/b.jpg~", &swelling)]),
            "unpacks to more",
        ),
        (
            "twice the same",
            with(&[("records/fish/a.json", b"1"), ("records/fish/a.json", b"2")]),
            "twice",
        ),
    ];
    for (name, bytes, said) in cases {
        let refusal = read(&bytes)
            .err()
            .unwrap_or_else(|| panic!("{name} was taken"));
        assert!(refusal.to_string().contains(said), "{name}: {refusal}");
    }
}

#[test]
fn a_label_that_swells_is_refused() {
    let label = vec![b' '; 64 << 20];
    let refusal = read(&zip(&[("scaleside.json~", &label)])).err().unwrap();
    assert!(refusal.to_string().contains("unpacks to more"), "{refusal}");
}

#[test]
fn what_is_damaged_or_strange_in_it_is_named_and_the_rest_is_read() {
    let phone = Phone::default();
    fish(&phone, "whole");
    let text = phone.texts.borrow()["scaleside/1/fish/whole/a"].clone();
    let body = serde_json::to_string("<script>alert(1)</script>").unwrap();
    let newer = scaleside::store::envelope::seal(&body, 1, 7)
        .unwrap()
        .replace("\"format\":1", "\"format\":2");
    let strange = scaleside::store::envelope::seal(&body, 1, 7).unwrap();
    let bytes = with(&[
        ("records/fish/whole.json", text.as_bytes()),
        ("records/fish/cut.json", &text.as_bytes()[..40]),
        (
            "records/fish/flipped.json",
            text.replace("gilthead", "gilthaed").as_bytes(),
        ),
        ("records/fish/newer.json", newer.as_bytes()),
        ("records/fish/strange.json", strange.as_bytes()),
        ("records/soup/a.json", text.as_bytes()),
        ("records/fish/letters.json", b"\xff\xfe"),
        ("photos/fish/whole/p1.jpg", b"<svg onload=alert(1)>"),
        ("photos/fish/whole/p2.jpg", JPEG),
        ("__MACOSX/._x", b"what a desktop adds"),
        ("records/fish/UPPER.json", text.as_bytes()),
    ]);
    let read = read(&bytes).unwrap();
    assert_eq!(read.records.len(), 1);
    assert_eq!(read.photos.len(), 1);
    let unread: Vec<&str> = read.unread.iter().map(|(path, _)| path.as_str()).collect();
    let names = [
        "fish/cut",
        "fish/flipped",
        "fish/newer",
        "fish/strange",
        "soup/a",
        "fish/letters",
    ];
    let mut expected: Vec<String> = names
        .iter()
        .map(|name| format!("records/{name}.json"))
        .collect();
    expected.push("photos/fish/whole/p1.jpg".into());
    assert_eq!(unread, expected);
}

#[test]
fn every_beginning_and_every_flipped_byte_is_refused_or_read_without_its_damage() {
    let phone = Phone::default();
    fish(&phone, "k3f9");
    let bytes = backup(&phone, &[photo("k3f9")]);
    for end in 0..bytes.len() {
        assert!(
            read(&bytes[..end]).is_err(),
            "cut at {end} of {}",
            bytes.len()
        );
    }
    let good = phone.texts.borrow()["scaleside/1/fish/k3f9/a"].clone();
    for at in 0..bytes.len() {
        let mut bytes = bytes.clone();
        bytes[at] ^= 0x20;
        if let Ok(read) = read(&bytes) {
            for (_, held) in &read.records {
                assert!(
                    good.contains(held.record.get()),
                    "a damaged record was read, byte {at}"
                );
            }
            assert!(
                read.photos.iter().all(|(_, jpeg)| jpeg.as_ref() == JPEG),
                "byte {at}"
            );
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    #[test]
    fn no_bytes_make_it_panic(
        mut bytes in prop::collection::vec(any::<u8>(), 0..400),
        name in "[a-z./]{0,30}~?",
        flips in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 0..6),
    ) {
        let _ = read(&bytes);
        bytes.truncate(200);
        let mut file = with(&[(&name, &bytes)]);
        for (at, flip) in flips {
            let at = at.index(file.len());
            file[at] ^= flip;
        }
        let _ = read(&file);
    }
}
