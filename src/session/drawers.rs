//! The drawers of all kinds: opened when the page starts, looked over when it has time, told of other tabs.

use std::rc::Rc;
use std::time::Duration;

use leptos::prelude::*;
use serde_json::value::to_raw_value;

use super::drawer::Drawer;
use super::notice::Notices;
use super::removal;
use crate::cards::pan::KeptPan;
use crate::cards::quote::Quote;
use crate::cards::recipe::Recipe;
use crate::class::class_list::Class;
use crate::device::storage::LocalShelf;
use crate::device::{build, clock, turns};
use crate::fish::record::Fish;
use crate::fish::settings::Settings;
use crate::keep::bin::Bin;
use crate::keep::kind::Raw;
use crate::store::cooking;
use crate::store::entry::Entry;
use crate::store::keys;
use crate::store::outcome::{Fault, Held};
use crate::store::standing::{self, Newer, Standing};
use crate::store::start::Start;

/// Time for the first screen to be painted before the shelf is looked over.
const PAINTED: Duration = Duration::from_millis(400);

/// A drawer, whatever it holds.
trait AnyDrawer: Send + Sync {
    fn open(&self, found: &Start);
    fn ids(&self) -> Vec<String>;
    fn look_over(&self, id: &str);
    fn changed_elsewhere(&self, key: &str, text: Option<&str>);
    fn unkept(&self) -> Vec<(&'static str, Held<Raw>)>;
}

impl<T: Entry> AnyDrawer for Drawer<T> {
    fn open(&self, found: &Start) {
        self.ids.set(found.latest_first(T::KIND));
    }

    fn ids(&self) -> Vec<String> {
        self.ids.get_untracked()
    }

    fn look_over(&self, id: &str) {
        Drawer::look_over(*self, id);
    }

    fn changed_elsewhere(&self, key: &str, text: Option<&str>) {
        Drawer::changed_elsewhere(*self, key, text);
    }

    fn unkept(&self) -> Vec<(&'static str, Held<Raw>)> {
        let ids = self.notices.unkept(T::KIND).into_iter();
        let held = ids.filter_map(|id| {
            let held = self.in_memory(&id)?;
            let record = to_raw_value(&held.record).ok()?;
            // One write more than the shelf has.
            let counter = held.counter.saturating_add(1);
            Some((
                T::KIND,
                Held {
                    id,
                    record,
                    counter,
                },
            ))
        });
        held.collect()
    }
}

/// One drawer for each kind. Copied freely: they hold only handles.
#[derive(Clone, Copy)]
pub struct Drawers {
    /// The cook's fish.
    pub fish: Drawer<Fish>,
    /// The preferences of this phone.
    pub settings: Drawer<Settings>,
    /// The tutor's classes.
    pub classes: Drawer<Class>,
    /// Dishes, and the parts made ahead for them.
    pub recipes: Drawer<Recipe>,
    /// Today's prices.
    pub quotes: Drawer<Quote>,
    /// The pans of this kitchen.
    pub pans: Drawer<KeptPan>,
    notices: Notices,
}

impl Drawers {
    /// Drawers with nothing in them.
    #[must_use]
    pub fn empty(notices: Notices, cooking: RwSignal<Vec<String>>) -> Self {
        Self {
            fish: Drawer::empty(notices, cooking),
            settings: Drawer::empty(notices, cooking),
            classes: Drawer::empty(notices, cooking),
            recipes: Drawer::empty(notices, cooking),
            quotes: Drawer::empty(notices, cooking),
            pans: Drawer::empty(notices, cooking),
            notices,
        }
    }

    fn each(self) -> [Box<dyn AnyDrawer>; 6] {
        [
            Box::new(self.fish),
            Box::new(self.recipes),
            Box::new(self.classes),
            Box::new(self.quotes),
            Box::new(self.pans),
            Box::new(self.settings),
        ]
    }

    /// Finds what is kept on this phone, and reads the fish that cook: nothing else is read before it is asked for.
    pub fn open(self) {
        let found = match Start::find(&LocalShelf, build::number()) {
            Ok(found) => found,
            Err(fault) => return self.notices.fault(&fault.into()),
        };
        for drawer in self.each() {
            drawer.open(&found);
        }
        if let Standing::ReadOnly { why } = found.standing {
            self.notices.fault(&Fault::ReadOnly(why));
        }
        for id in &found.cooking {
            if self.fish.with_untracked(id, Fish::is_cooking) != Some(true) {
                cooking::hint(&LocalShelf, build::number(), id, false);
            }
        }
    }

    /// Looks at every record once the first screen is there, in turns: what is damaged is set aside and told of, and a
    /// fish that cooks rings, whatever the hint said. Then the bin loses what is too old.
    pub fn look_over(self) {
        let look = move || {
            let mut left = Vec::new();
            for drawer in self.each() {
                let drawer: Rc<dyn AnyDrawer> = Rc::from(drawer);
                let ids = drawer.ids().into_iter();
                left.extend(ids.map(|id| (Rc::clone(&drawer), id)));
            }
            let mut left = left.into_iter();
            let mut next = move || {
                left.next().is_some_and(|(drawer, id)| {
                    drawer.look_over(&id);
                    true
                })
            };
            turns::each(move || {
                let more = turns::within(&mut next);
                if !more {
                    let gone = Bin::new(build::number()).empty_old(&LocalShelf, clock::now());
                    removal::sweep_photos(gone);
                }
                more
            });
        };
        set_timeout(look, PAINTED);
    }

    /// The records in memory that the shelf has not taken, each with its kind.
    #[must_use]
    pub fn unkept(self) -> Vec<(&'static str, Held<Raw>)> {
        let each = self.each();
        each.iter().flat_map(|drawer| drawer.unkept()).collect()
    }

    /// What another tab has just stored under `key`, and its text; all keys when it is absent.
    pub fn changed_elsewhere(self, key: Option<&str>, text: Option<&str>) {
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
        for drawer in self.each() {
            drawer.changed_elsewhere(key, text);
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
