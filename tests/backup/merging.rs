//! A backup put in: what it says it will do, what it does, cut off anywhere, and taken back.

use scaleside::record::backup::merge::{Effect, Undo, look, put_in, take_back};
use scaleside::record::backup::read::read;
use scaleside::record::bin::Bin;
use scaleside::refusal::Refusal;

use crate::sample::{BUILD, NOW, Phone, backup, class, contents, fish, noted};

/// A phone that was backed up and went on, and the file: a fish that is the same in both, one that the phone
/// has changed since, one that it has lost, and one that is newer in the file.
fn phone_and_file() -> (Phone, Vec<u8>) {
    let old = Phone::default();
    fish(&old, "same");
    let ours = fish(&old, "ours");
    class(&old, "lost");
    let theirs = fish(&old, "theirs");
    let phone = Phone::default();
    phone.texts.replace(old.texts.borrow().clone());
    phone
        .texts
        .borrow_mut()
        .retain(|key, _| !key.contains("/lost/"));
    noted(&phone, ours, "written after the backup");
    let theirs = noted(&old, theirs, "once");
    noted(&old, theirs, "twice");
    (phone, backup(&old, &[]))
}

fn put_all_in(phone: &Phone, file: &[u8]) -> Result<Vec<Undo>, Refusal> {
    let lines = look(phone, BUILD, &read(file).unwrap())?;
    let done = lines.iter().map(|line| put_in(phone, BUILD, line, NOW));
    Ok(done
        .collect::<Result<Vec<_>, _>>()?
        .into_iter()
        .flatten()
        .collect())
}

fn effects(phone: &Phone, file: &[u8]) -> Vec<(String, Effect)> {
    let lines = look(phone, BUILD, &read(file).unwrap()).unwrap();
    lines
        .into_iter()
        .map(|line| (line.id, line.effect))
        .collect()
}

fn binned(phone: &Phone) -> Vec<(String, bool)> {
    let copies = Bin::new(BUILD).list(phone, NOW).records;
    let mut all: Vec<_> = copies
        .into_iter()
        .map(|held| {
            (
                held.record.id,
                held.record.body.get().contains("written after"),
            )
        })
        .collect();
    all.sort();
    all
}

#[test]
fn it_says_first_what_it_does_and_does_that() {
    let (phone, file) = phone_and_file();
    let before = phone.texts.borrow().clone();
    assert_eq!(
        effects(&phone, &file),
        [
            ("ours".into(), Effect::Kept),
            ("same".into(), Effect::Same),
            ("theirs".into(), Effect::Changed),
            ("lost".into(), Effect::Added),
        ]
    );
    assert_eq!(*phone.texts.borrow(), before, "looking changed something");
    let undos = put_all_in(&phone, &file).unwrap();
    assert_eq!(undos.len(), 2);
    let now = contents(&phone);
    assert!(now["fish/ours"].contains("written after the backup"));
    assert!(now["fish/theirs"].contains("twice"));
    assert!(now.contains_key("class/lost"));
    assert_eq!(
        binned(&phone),
        [("ours".into(), false), ("theirs".into(), false)]
    );
    let (ours, rest): (Vec<_>, Vec<_>) = effects(&phone, &file)
        .into_iter()
        .partition(|(id, _)| id == "ours");
    assert_eq!(ours[0].1, Effect::Kept);
    assert!(
        rest.iter().all(|(_, effect)| *effect == Effect::Same),
        "{rest:?}"
    );
}

#[test]
fn a_restore_is_taken_back() {
    let (phone, file) = phone_and_file();
    let before = contents(&phone);
    for undo in put_all_in(&phone, &file).unwrap().iter().rev() {
        take_back(&phone, BUILD, undo, NOW).unwrap();
    }
    assert_eq!(contents(&phone), before);
    let ids: Vec<String> = binned(&phone).into_iter().map(|(id, _)| id).collect();
    assert_eq!(
        ids,
        ["lost", "ours", "theirs"],
        "and what was in the file is in the bin"
    );
}

#[test]
fn a_restore_cut_off_at_any_write_loses_nothing_and_is_finished_by_doing_it_again() {
    let (whole, file) = phone_and_file();
    let before = contents(&whole);
    put_all_in(&whole, &file).unwrap();
    let after = contents(&whole);
    let mut cut = 0;
    for writes in 0.. {
        let (phone, _) = phone_and_file();
        phone.writes_left.set(Some(writes));
        let outcome = put_all_in(&phone, &file);
        phone.writes_left.set(None);
        let there = contents(&phone);
        for (key, body) in &before {
            let whole = there[key] == *body || there[key] == after[key];
            assert!(whole, "{key} after {writes} writes");
        }
        put_all_in(&phone, &file).unwrap();
        assert_eq!(contents(&phone), after, "after {writes} writes");
        if outcome.is_ok() {
            break;
        }
        cut += 1;
    }
    assert_eq!(cut, 4, "places to cut");
}

#[test]
fn a_copy_that_was_restored_is_no_older_than_it_was() {
    let (_, file) = phone_and_file();
    let phone = Phone::default();
    put_all_in(&phone, &file).unwrap();
    let same = effects(&phone, &file);
    assert!(
        same.iter().all(|(_, effect)| *effect == Effect::Same),
        "{same:?}"
    );
    let loaded =
        scaleside::record::store::Store::<scaleside::record::fish::Fish>::new("fish", BUILD)
            .load_all(&phone, NOW);
    let ours = loaded
        .records
        .into_iter()
        .find(|held| held.id == "ours")
        .unwrap();
    noted(&phone, ours, "changed on the new phone");
    let effects = effects(&phone, &file);
    assert_eq!(effects[0], ("ours".into(), Effect::Kept), "{effects:?}");
}
