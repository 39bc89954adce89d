//! A backup put in: what it says it will do, what it does, cut off anywhere, and taken back.

use scaleside::base::refusal::Refusal;
use scaleside::keep::backup::last::LastRestore;
use scaleside::keep::backup::merge::{Effect, Undo, look, put_in, take_back, undos};
use scaleside::keep::backup::read::read;
use scaleside::keep::bin::Bin;

use crate::sample::{BUILD, NOW, Phone, backup, class, contents, fish, noted, photo};

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

/// Puts a file in as the screen does. Returns what would take it back, told before.
fn put_all_in(phone: &Phone, file: &[u8]) -> Result<LastRestore, Refusal> {
    let backup = read(file).unwrap();
    let lines = look(phone, BUILD, &backup)?;
    let last = LastRestore {
        made: backup.label.made,
        at: NOW,
        undos: undos(phone, BUILD, &lines)?,
        photos: backup
            .photos
            .iter()
            .map(|(name, _)| name.to_string())
            .collect(),
    };
    let last = last.keep(phone, BUILD).map_err(|(_, fault)| fault)?;
    for line in &lines {
        put_in(phone, BUILD, line, NOW)?;
    }
    Ok(last)
}

/// Takes the last restore back as the screen does after a reload: by what the phone remembers alone.
fn take_all_back(phone: &Phone) -> Result<(), Refusal> {
    let last = LastRestore::read(phone, BUILD, NOW).unwrap();
    for undo in last.undos.iter().rev() {
        take_back(phone, BUILD, undo, NOW)?;
    }
    Ok(last.forget(phone, BUILD)?)
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
    let last = put_all_in(&phone, &file).unwrap();
    assert_eq!(last.undos.len(), 2);
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
    put_all_in(&phone, &file).unwrap();
    take_all_back(&phone).unwrap();
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
    // The way back, then a copy for the bin and one in its place, or the latter alone.
    assert_eq!(cut, 5, "places to cut");
}

#[test]
fn a_restore_cut_off_at_any_write_is_taken_back_and_that_too_may_be_cut_off() {
    let (whole, file) = phone_and_file();
    let before = contents(&whole);
    let (mut cut, mut cut_again) = (0, 0);
    for writes in 1.. {
        let (phone, _) = phone_and_file();
        phone.writes_left.set(Some(writes));
        let outcome = put_all_in(&phone, &file);
        phone.writes_left.set(None);
        if LastRestore::read(&phone, BUILD, NOW).is_none() {
            assert_eq!(
                contents(&phone),
                before,
                "nothing is done before it is written down"
            );
            continue;
        }
        let there = phone.texts.borrow().clone();
        for fewer in 0.. {
            phone.texts.replace(there.clone());
            phone.writes_left.set(Some(fewer));
            let back = take_all_back(&phone);
            phone.writes_left.set(None);
            if back.is_ok() {
                break;
            }
            cut_again += 1;
            // Where the last write was the cut one, all is back and there is nothing left to do.
            if LastRestore::read(&phone, BUILD, NOW).is_some() {
                take_all_back(&phone).unwrap();
            }
            assert_eq!(
                contents(&phone),
                before,
                "after {writes} writes, {fewer} back"
            );
        }
        assert_eq!(contents(&phone), before, "after {writes} writes");
        if outcome.is_ok() {
            break;
        }
        cut += 1;
    }
    assert!(
        cut > 2 && cut_again > 10,
        "{cut} and {cut_again} places to cut"
    );
}

/// The first is cut off; the second of the same file finishes it; both are taken back as one. Another file is not.
#[test]
fn what_finishes_a_restore_is_taken_back_with_it() {
    let (whole, file) = phone_and_file();
    let before = contents(&whole);
    for writes in 4..12 {
        let (phone, _) = phone_and_file();
        phone.writes_left.set(Some(writes));
        let _ = put_all_in(&phone, &file);
        phone.writes_left.set(None);
        put_all_in(&phone, &file).unwrap();
        put_all_in(&phone, &file).unwrap();
        take_all_back(&phone).unwrap();
        assert_eq!(contents(&phone), before, "after {writes} writes");
        assert_eq!(LastRestore::read(&phone, BUILD, NOW), None);
    }
    let (phone, _) = phone_and_file();
    put_all_in(&phone, &file).unwrap();
    let between = contents(&phone);
    let of_another = LastRestore {
        made: NOW.plus_secs(60),
        at: NOW,
        undos: Vec::new(),
        photos: Vec::new(),
    };
    of_another.keep(&phone, BUILD).unwrap();
    assert_eq!(contents(&phone), between);
    assert_eq!(
        LastRestore::read(&phone, BUILD, NOW).unwrap().undos.len(),
        2
    );
}

#[test]
fn after_thirty_days_the_bin_may_be_empty_and_no_way_back_is_offered() {
    let (phone, file) = phone_and_file();
    put_all_in(&phone, &file).unwrap();
    for (days, offered) in [(0, true), (29, true), (30, false), (-400, true)] {
        let now = NOW.plus_ms(days * 24 * 3_600_000);
        assert_eq!(
            LastRestore::read(&phone, BUILD, now).is_some(),
            offered,
            "{days} days"
        );
    }
    // A copy that was taken out of the bin by hand is missed, and nothing else is touched by that.
    let mut bin = Bin::new(BUILD);
    let copies = bin.list(&phone, NOW).records;
    let theirs = copies
        .iter()
        .find(|held| held.record.id == "theirs")
        .unwrap();
    bin.take_out(&phone, &theirs.id, NOW).unwrap();
    let now = contents(&phone);
    let said = take_all_back(&phone).unwrap_err().to_string();
    assert!(said.contains("no longer in the bin"), "{said}");
    assert_eq!(contents(&phone)["fish/theirs"], now["fish/theirs"]);
}

/// Photos of a record that goes into the bin stay with it; those of one that stays are taken off.
#[test]
fn photos_go_the_way_of_their_records() {
    let last = LastRestore {
        made: NOW,
        at: NOW,
        undos: ["added", "changed"]
            .map(|id| Undo {
                kind: "fish".into(),
                id: id.into(),
                copy: (id == "changed").then(|| "copy".into()),
            })
            .to_vec(),
        photos: ["added", "changed", "same"]
            .map(|id| photo(id).to_string())
            .to_vec(),
    };
    assert_eq!(last.loose_photos(), [photo("changed"), photo("same")]);
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
        scaleside::store::records::Store::<scaleside::fish::record::Fish>::new("fish", BUILD)
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
