//! Other programs open a backup: Info-ZIP's `unzip`, and the zip reader and writer of Python's standard library.

use std::path::Path;
use std::process::Command;

use scaleside::keep::backup::read::read;

use crate::sample::{JPEG, Phone, backup, class, contents, fish, photo};

fn run(program: &str, arguments: &[&str], folder: &Path) -> String {
    let done = Command::new(program)
        .args(arguments)
        .current_dir(folder)
        .output()
        .unwrap_or_else(|why| panic!("{program} is not installed: run .ci/setup ({why})"));
    let said = String::from_utf8_lossy(&done.stdout).into_owned();
    assert!(
        done.status.success(),
        "{program}: {said}{}",
        String::from_utf8_lossy(&done.stderr)
    );
    said
}

fn phone() -> Phone {
    let phone = Phone::default();
    fish(&phone, "k3f9");
    fish(&phone, "k3fa");
    class(&phone, "m1");
    phone
}

#[test]
fn unzip_tests_and_unpacks_it() {
    let phone = phone();
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path();
    std::fs::write(path.join("b.zip"), backup(&phone, &[photo("k3f9")])).unwrap();
    let said = run("unzip", &["-t", "b.zip"], path);
    assert!(said.contains("No errors detected"), "{said}");
    run("unzip", &["-q", "b.zip"], path);
    assert_eq!(
        std::fs::read(path.join("photos/fish/k3f9/p1.jpg")).unwrap(),
        JPEG
    );
    for (key, body) in contents(&phone) {
        let text = std::fs::read_to_string(path.join(format!("records/{key}.json"))).unwrap();
        assert!(text.contains(&body), "{text}");
    }
    assert!(path.join("READ-ME.txt").exists());
}

/// Unpacks, checks every CRC and JSON, and packs again with compression: what mail programs and desktops do.
const PYTHON: &str = "
import json, sys, zipfile
with zipfile.ZipFile('b.zip') as had, zipfile.ZipFile('c.zip', 'w', zipfile.ZIP_DEFLATED) as new:
    assert had.testzip() is None
    label = json.loads(had.read('scaleside.json'))
    assert label['what'] == 'scaleside backup' and label['layout'] == 1, label
    records = [n for n in had.namelist() if n.startswith('records/')]
    assert len(records) == label['records'] == 3, records
    for name in records:
        assert json.loads(had.read(name))['format'] == 1
    for name in reversed(had.namelist()):
        new.writestr(name, had.read(name))
print(len(had.namelist()))
";

#[test]
fn python_reads_it_and_what_python_packs_again_is_read_here() {
    let phone = phone();
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path();
    let first = backup(&phone, &[photo("k3f9")]);
    std::fs::write(path.join("b.zip"), &first).unwrap();
    assert_eq!(run("python3", &["-c", PYTHON], path).trim(), "6");
    let second = std::fs::read(path.join("c.zip")).unwrap();
    assert!(second.len() < first.len(), "it was compressed");
    for bytes in [&first, &second] {
        let read = read(bytes).unwrap();
        assert_eq!((read.records.len(), read.unread.len()), (3, 0));
        let found = read.records.iter();
        let found = found.map(|(kind, held)| {
            (
                format!("{}/{}", kind.name, held.id),
                held.record.get().to_owned(),
            )
        });
        assert_eq!(
            found.collect::<std::collections::BTreeMap<_, _>>(),
            contents(&phone)
        );
        let [(name, jpeg)] = &read.photos[..] else {
            panic!("{} photos", read.photos.len())
        };
        assert_eq!((name, jpeg.as_ref()), (&photo("k3f9"), JPEG));
    }
}
