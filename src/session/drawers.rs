//! The drawers of all kinds: opened when they are asked for, looked over when there is time, told of other tabs.
//!
//! What is in a drawer is known from the start. Of what a kind is like, only a fish and the preferences are known to
//! the page as it comes first: whoever opens another drawer brings the rest.

use std::collections::BTreeMap;
use std::sync::Arc;

use leptos::prelude::*;
use serde_json::value::to_raw_value;
use wasm_bindgen_futures::spawn_local;

use super::drawer::Drawer;
use super::notice::Notices;
use super::register::Register;
use super::removal;
use crate::cards::pan::KeptPan;
use crate::cards::quote::Quote;
use crate::cards::recipe::Recipe;
use crate::class::class_list::Class;
use crate::device::leaving;
use crate::device::storage::LocalShelf;
use crate::device::turns::Turn;
use crate::device::{build, clock};
use crate::fish::credit::Credit;
use crate::fish::record::Fish;
use crate::fish::settings::Settings;
use crate::keep::bin::Bin;
use crate::keep::kind::Raw;
use crate::store::cooking;
use crate::store::entry::Entry;
use crate::store::keys;
use crate::store::outcome::{Fault, Held};
use crate::store::records::Store;
use crate::store::standing::{self, Newer, Standing};
use crate::store::start::Start;

/// The kinds whose drawers are opened when they are asked for.
const OTHERS: [&str; 5] = [
    Recipe::KIND,
    Class::KIND,
    Quote::KIND,
    KeptPan::KIND,
    Credit::KIND,
];

/// A drawer, whatever it holds.
trait AnyDrawer: Send + Sync {
    fn register(&self) -> Register;
    fn is_read(&self, id: &str) -> bool;
    fn look_over(&self, id: &str);
    fn changed_elsewhere(&self, key: &str);
    fn began_before(&self, id: &str, counter: u64) -> bool;
    fn unkept(&self) -> Vec<(&'static str, Held<Raw>)>;
}

impl<T: Entry> AnyDrawer for Drawer<T> {
    fn register(&self) -> Register {
        self.register
    }

    fn is_read(&self, id: &str) -> bool {
        self.read.try_with_value(|read| read.contains_key(id)) == Some(true)
    }

    fn look_over(&self, id: &str) {
        Drawer::look_over(*self, id);
    }

    fn changed_elsewhere(&self, key: &str) {
        Drawer::changed_elsewhere(*self, key);
    }

    fn began_before(&self, id: &str, counter: u64) -> bool {
        let began = |store: &Store<T>| store.texts().began_before(id, counter);
        self.store.try_with_value(began) == Some(true)
    }

    fn unkept(&self) -> Vec<(&'static str, Held<Raw>)> {
        let ids = self.register.notices.unkept(T::KIND).into_iter();
        let held = ids.filter_map(|id| {
            let mut held = self.in_memory(&id)?;
            let record = to_raw_value(&held.record).ok()?;
            // One write more than the shelf has.
            held.counter = held.counter.saturating_add(1);
            Some((T::KIND, held.with(record)))
        });
        held.collect()
    }
}

/// One drawer for each kind. Copied freely: it holds only handles.
#[derive(Clone, Copy)]
pub struct Drawers {
    /// The cook's fish.
    pub fish: Drawer<Fish>,
    /// The preferences of this phone.
    pub settings: Drawer<Settings>,
    /// What is in the other drawers, by kind: the identities of all, the latest first.
    others: StoredValue<BTreeMap<&'static str, RwSignal<Vec<String>>>>,
    /// Those of them that were opened.
    opened: StoredValue<Vec<Arc<dyn AnyDrawer>>>,
    /// They last as long as the page, whichever screen opens them.
    owner: StoredValue<Option<Owner>>,
    cooking: RwSignal<Vec<String>>,
    notices: Notices,
}

impl Drawers {
    /// Drawers with nothing in them.
    #[must_use]
    pub fn empty(notices: Notices, cooking: RwSignal<Vec<String>>) -> Self {
        Self {
            fish: Drawer::empty(notices, cooking, RwSignal::new(Vec::new())),
            settings: Drawer::empty(notices, cooking, RwSignal::new(Vec::new())),
            others: StoredValue::new(OTHERS.map(|kind| (kind, RwSignal::new(Vec::new()))).into()),
            opened: StoredValue::new(Vec::new()),
            owner: StoredValue::new(Owner::current()),
            cooking,
            notices,
        }
    }

    /// The drawer of a kind, opened.
    #[must_use]
    pub fn of<T: Entry>(self) -> Drawer<T> {
        let owner = self.owner.get_value().unwrap_or_default();
        owner.with(|| {
            use_context::<Drawer<T>>().unwrap_or_else(|| {
                let ids = self.others.with_value(|all| all.get(T::KIND).copied());
                let ids = ids.unwrap_or_default();
                let drawer = Drawer::<T>::empty(self.notices, self.cooking, ids);
                provide_context(drawer);
                self.opened
                    .update_value(|opened| opened.push(Arc::new(drawer)));
                drawer
            })
        })
    }

    /// Opens every drawer.
    fn each(self) -> Vec<Arc<dyn AnyDrawer>> {
        let _ = self.of::<Recipe>();
        let _ = self.of::<Class>();
        let _ = self.of::<Quote>();
        let _ = self.of::<KeptPan>();
        let _ = self.of::<Credit>();
        self.open()
    }

    /// The drawers that are open.
    fn open(self) -> Vec<Arc<dyn AnyDrawer>> {
        let mut open = self.opened.get_value();
        open.insert(0, Arc::new(self.fish));
        open.push(Arc::new(self.settings));
        open
    }

    /// Lists what is in the drawers that nobody has opened.
    fn list(self, found: &Start) {
        let opened = self.opened.get_value();
        self.others.with_value(|others| {
            let shut = |kind: &str| !opened.iter().any(|drawer| drawer.register().kind == kind);
            for (kind, ids) in others.iter().filter(|(kind, _)| shut(kind)) {
                let listed = found.latest_first(kind);
                if ids.with_untracked(|ids| *ids != listed) {
                    ids.set(listed);
                }
            }
        });
    }

    /// Finds what is kept on this phone, and reads the fish that cook: nothing else is read before it is asked for.
    pub fn find(self) {
        let found = match Start::find(&LocalShelf, build::number()) {
            Ok(found) => found,
            Err(fault) => return self.notices.fault(&fault.into()),
        };
        self.fish.register.ids.set(found.latest_first(Fish::KIND));
        self.settings
            .register
            .ids
            .set(found.latest_first(Settings::KIND));
        self.list(&found);
        if let Standing::ReadOnly { why } = found.standing {
            self.notices.fault(&Fault::ReadOnly(why));
        }
        for id in &found.cooking {
            if self.fish.with_untracked(id, Fish::is_cooking) != Some(true) {
                cooking::hint(&LocalShelf, build::number(), id, false);
            }
        }
    }

    /// Looks at every record, in turns: what is damaged is set aside and told of, and a
    /// fish that cooks rings, whatever the hint said. Then the bin loses what is too old.
    pub fn look_over(self) {
        spawn_local(async move {
            let mut turn = Turn::begin();
            for drawer in self.each() {
                for id in drawer.register().ids.get_untracked() {
                    drawer.look_over(&id);
                    turn.pause().await;
                }
            }
            let gone = Bin::new(build::number()).empty_old(&LocalShelf, clock::now());
            removal::sweep_photos(gone);
        });
    }

    /// Puts the record that the cook set aside, because its screen stops the app, into the bin.
    pub fn put_aside(self) {
        removal::put_aside(self.notices);
    }

    /// Has the browser ask whoever is about to leave the page while something is in memory alone.
    pub fn ask_before_leaving(self) {
        leaving::ask_if(move || self.notices.has_unkept());
    }

    /// The records in memory that the shelf has not taken, each with its kind.
    #[must_use]
    pub fn unkept(self) -> Vec<(&'static str, Held<Raw>)> {
        let open = self.open();
        open.iter().flat_map(|drawer| drawer.unkept()).collect()
    }

    /// Another tab has just written under `key`, or taken away what stood there; under all keys when it is absent.
    pub fn changed_elsewhere(self, key: Option<&str>) {
        let Some(key) = key else {
            return;
        };
        if key == keys::BUILD {
            if let Ok(Standing::ReadOnly { why }) = standing::standing(&LocalShelf, build::number())
            {
                self.notices.fault(&Fault::ReadOnly(why));
            }
            return;
        }
        for drawer in self.open() {
            drawer.changed_elsewhere(key);
        }
        if let Ok(found) = Start::find(&LocalShelf, build::number()) {
            self.list(&found);
        }
    }

    /// What was brought to the shelf from the second home: it is shown as what another tab wrote, but read only where
    /// a screen has read it, or where it cooks.
    pub fn brought(self, told: &[(String, Option<String>)]) {
        if told.is_empty() {
            return;
        }
        let open = self.open();
        let each = || {
            told.iter().flat_map(|(key, text)| {
                let of_kind = open.iter().filter_map(move |drawer| {
                    let id = keys::id_of(drawer.register().kind, key)?;
                    Some((drawer, id))
                });
                of_kind.map(move |(drawer, id)| (drawer, id, key, text.as_deref()))
            })
        };
        if let Ok(found) = Start::find(&LocalShelf, build::number()) {
            self.list(&found);
            for drawer in &open {
                let register = drawer.register();
                register.list_too(found.latest_first(register.kind));
            }
        }
        for (drawer, id, key, text) in each() {
            if text.is_none() || drawer.is_read(id) {
                drawer.changed_elsewhere(key);
            } else {
                drawer.look_over(id);
            }
        }
        if told.iter().any(|(key, _)| key == keys::BUILD) {
            self.changed_elsewhere(Some(keys::BUILD));
        }
    }

    /// Whether there is a record of any kind under `id`, as far as the drawers know.
    #[must_use]
    pub fn has(self, id: &str) -> bool {
        let listed = |ids: RwSignal<Vec<String>>| {
            ids.with_untracked(|ids| ids.iter().any(|known| known == id))
        };
        let shut = self
            .others
            .with_value(|others| others.values().copied().any(listed));
        shut || self
            .open()
            .iter()
            .any(|drawer| listed(drawer.register().ids))
    }

    /// Whether what was tapped on this page began with an older copy of a record than that with `counter`, and can all
    /// be made again.
    #[must_use]
    pub fn began_before(self, kind: &str, id: &str, counter: u64) -> bool {
        let open = self.open();
        let mut of_kind = open.iter().filter(|drawer| drawer.register().kind == kind);
        of_kind.any(|drawer| drawer.began_before(id, counter))
    }

    /// Tells how many copies under each name were set aside when the homes were joined, or why they could not be.
    pub fn tell(self, aside: &[(&String, usize)], fault: Option<Fault>) {
        if let Some(fault) = fault {
            return self.notices.fault(&fault);
        }
        for (name, count) in aside.iter().filter(|(_, count)| *count > 0) {
            let open = self.open();
            let mut registers = open.iter().map(|drawer| drawer.register());
            let of_kind = registers.find(|register| keys::id_of(register.kind, name).is_some());
            // Of a kind that no screen has asked for, the page knows no word.
            let noun = of_kind.map_or("entry", |register| register.noun);
            self.notices.set_aside(noun, *count);
        }
    }

    /// Goes on with this older build, after the cook chose so.
    pub fn take_over(self) {
        if let Ok(Standing::ReadOnly {
            why: Newer::Build(seen),
        }) = standing::standing(&LocalShelf, build::number())
            && standing::take_over(&LocalShelf, build::number(), seen).is_ok()
        {
            self.notices.shown.set(None);
        }
    }
}
