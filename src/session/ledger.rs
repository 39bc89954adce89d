//! The second home of every record, while the page is open: what it knows is brought to the shelf once, in idle time
//! after the first screen; after that each tap is told to it at once. The page waits for none of it, and goes on as
//! before where this browser has no such home or it never answers.

use std::cell::{Cell, RefCell};
use std::collections::BTreeSet;

use leptos::prelude::{GetUntracked, Notify};
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::spawn_local;

use super::bench::Bench;
use super::settled;
use crate::device::storage::LocalShelf;
use crate::device::{build, clock, ledger, room, written};
use crate::fish::record::Fish;
use crate::fish::weighing::Which;
use crate::place::Place;
use crate::store::homes::{Joined, Joining, SecondTexts};
use crate::store::keys;
use crate::store::outcome::Fault;
use crate::store::shelf::Shelf;

/// How many records are joined in one go.
const AT_ONCE: usize = 100;

thread_local! {
    /// What was joined both ways in this visit; all, once that is through.
    static MET: RefCell<(BTreeSet<String>, bool)> = const { RefCell::new((BTreeSet::new(), false)) };
    static AWAKE: Cell<bool> = const { Cell::new(false) };
}

/// Joins the two homes, and tells the second of each tap from now on, and of those made before it was asked.
pub fn open(bench: Bench) {
    spawn_local(async move {
        // Whether a newer build was here comes first of all.
        let first = [keys::BUILD, keys::SETTLED].map(str::to_owned).into();
        let build = join(bench, first).await;
        settled::settle(bench).await;
        written::on_each(move || wake(bench));
        tell(bench).await;
        // Where this fails, the next start tries again.
        if build.is_ok() && meet_all(bench).await.is_ok() {
            MET.with_borrow_mut(|(met, all)| {
                met.clear();
                *all = true;
            });
        }
    });
}

/// Called in the middle of a write: what is to be told is gathered once the tap is through.
fn wake(bench: Bench) {
    if !AWAKE.replace(true) {
        spawn_local(async move {
            AWAKE.set(false);
            tell(bench).await;
        });
    }
}

/// Tells the second home what was written. What it does not take is told with the next tap.
async fn tell(bench: Bench) {
    let names: BTreeSet<String> = written::take()
        .iter()
        .map(|key| keys::name_of(key))
        .collect();
    if join(bench, names.clone()).await.is_ok() {
        ask_to_keep(bench, &names).await;
    } else {
        written::put_back(names);
    }
}

/// Looks at everything that either home holds, and joins what is not the same in both.
async fn meet_all(bench: Bench) -> Result<(), JsValue> {
    let shelf = LocalShelf.keys().unwrap_or_default().into_iter();
    let mut alone: BTreeSet<String> = shelf.filter(|key| keys::is_ours(key)).collect();
    let mut after = String::new();
    loop {
        let page = ledger::page(&after).await?;
        let Some(last) = page.keys.last() else {
            break;
        };
        after.clone_from(last);
        for key in &page.keys {
            alone.remove(key);
        }
        join(
            bench,
            page.other.iter().map(|key| keys::name_of(key)).collect(),
        )
        .await?;
    }
    join(bench, alone.iter().map(|key| keys::name_of(key)).collect()).await
}

async fn join(bench: Bench, mut names: BTreeSet<String>) -> Result<(), JsValue> {
    while !names.is_empty() {
        let rest = names.iter().nth(AT_ONCE).cloned();
        let rest = rest.map_or_else(BTreeSet::new, |from| names.split_off(&from));
        let under = names.iter().flat_map(|name| keys::under(name)).collect();
        ledger::change(&under, |second| {
            let (told, fault) = meet(bench, &second, &names, meets);
            // That a newer build has been here is told where it was found.
            let fault = fault.filter(|fault| !matches!(fault, Fault::ReadOnly(_)));
            bench.drawers.tell(&[], fault);
            told
        })
        .await?;
        names = rest;
    }
    Ok(())
}

/// Joins the shelf with what another home has under these names, shows what that brought, and says what the other home
/// is to be told, and why where something could not be joined.
pub(super) fn meet(
    bench: Bench,
    other: &SecondTexts,
    names: &BTreeSet<String>,
    both_ways: impl Fn(&str) -> bool,
) -> (Vec<(String, Option<String>)>, Option<Fault>) {
    let (mut all, mut fault, mut aside) = (Joined::default(), None, Vec::new());
    for name in names {
        let began_before =
            |kind: &str, id: &str, counter| bench.drawers.began_before(kind, id, counter);
        let joining = Joining {
            build: build::number(),
            now: clock::now(),
            both_ways: both_ways(name),
            began_before: &began_before,
        };
        match joining.join(&LocalShelf, other, name) {
            Ok(joined) => {
                all.tell.extend(joined.tell);
                all.brought.extend(joined.brought);
                aside.push((name, joined.aside));
            }
            Err(why) => fault = Some(why),
        }
    }
    bring(bench, &all.brought);
    bench.drawers.tell(&aside, None);
    (all.tell, fault)
}

/// Shows what was brought to the shelf; also on a screen that was asked for what was not here yet.
fn bring(bench: Bench, told: &[(String, Option<String>)]) {
    let place = bench.place.get_untracked();
    let asked = match &place {
        Place::Fish(id, _) | Place::Dish(id, _) | Place::Class(id, _) => Some(id),
        _ => None,
    };
    let was_missing = asked.filter(|id| !bench.drawers.has(id));
    bench.drawers.brought(told);
    // These read the shelf for themselves, once.
    let reads_once = matches!(place, Place::Bin | Place::Kept) && !told.is_empty();
    if reads_once || was_missing.is_some_and(|id| bench.drawers.has(id)) {
        bench.place.notify();
    }
}

/// Whether a record is met for the first time in this visit.
fn meets(name: &str) -> bool {
    MET.with_borrow_mut(|(met, all)| !*all && met.insert(name.to_owned()))
}

/// Asks the browser once to keep all this, when there is a first weight of the cook's own to be kept.
async fn ask_to_keep(bench: Bench, names: &BTreeSet<String>) {
    let is_own = |fish: &Fish| !fish.demo && fish.taken_mass(Which::Whole).is_some();
    let weighed = names.iter().any(|name| {
        let id = keys::id_of(bench.fish.register.kind, name);
        id.is_some_and(|id| bench.fish.with_untracked(id, is_own) == Some(true))
    });
    if weighed && LocalShelf.get(keys::ASKED) == Ok(None) {
        // Where it can't be noted it would be asked again and again, and some browsers ask the cook.
        if LocalShelf
            .put(keys::ASKED, &clock::now().0.to_string())
            .is_ok()
        {
            // Whatever the answer: what is kept is kept as before.
            let _ = room::promise().await;
        }
    }
}
