//! What all screens share: the screen that is shown, the present moment, the cook's fish and preferences.

use std::collections::BTreeMap;

use leptos::prelude::*;

use super::drawer::{Drawer, identity};
use super::drawers::Drawers;
use super::notice::{Notice, Notices};
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::device::wake::Wake;
use crate::device::{address, clock};
use crate::fish::record::Fish;
use crate::fish::settings::{MINE, Preference, Settings};
use crate::place::{Place, Stage};

/// What all screens share. Copied freely: it holds only handles.
#[derive(Clone, Copy)]
pub struct Bench {
    /// The screen that is shown.
    pub place: RwSignal<Place>,
    /// The present moment, moved on while a clock is shown or a timer runs.
    pub now: RwSignal<Instant>,
    /// The fish whose timers may still ring.
    pub cooking: RwSignal<Vec<String>>,
    /// What is kept on this phone.
    pub drawers: Drawers,
    /// The cook's fish.
    pub fish: Drawer<Fish>,
    /// The preferences of this phone.
    pub settings: RwSignal<Settings>,
    /// What the cook has to know.
    pub notice: RwSignal<Option<Notice>>,
    /// Whether a newer build waits.
    pub update_ready: RwSignal<bool>,
    /// Whether a timer's end can be heard: not before the page has been touched.
    pub armed: RwSignal<bool>,
    /// Whether the screen is kept awake.
    pub wake: RwSignal<Wake>,
    /// When the last plan of each fish begins its steps, fish and steps by their identities: what the alarm goes by.
    pub hours: StoredValue<BTreeMap<String, BTreeMap<String, Instant>>>,
}

impl Bench {
    /// The bench of a page that starts: what is kept on this phone is found, and read when it is asked for.
    #[must_use]
    pub fn open() -> Self {
        let notices = Notices::none();
        let cooking = RwSignal::new(Vec::new());
        let drawers = Drawers::empty(notices, cooking);
        drawers.find();
        let settings = drawers.settings.signal_or(MINE, Settings::default());
        Self {
            place: RwSignal::new(address::place()),
            now: RwSignal::new(clock::now()),
            cooking,
            drawers,
            fish: drawers.fish,
            settings: settings.into(),
            notice: notices.shown,
            update_ready: RwSignal::new(false),
            armed: RwSignal::new(false),
            wake: RwSignal::new(Wake::Dropped),
            hours: StoredValue::new(BTreeMap::new()),
        }
    }

    /// The bench of this page, which `screens::mount` provides before any screen is built.
    #[must_use]
    pub fn here() -> Self {
        use_context::<Self>().unwrap_or_else(Self::open)
    }

    /// Changes the preferences.
    pub fn prefer(self, preference: Preference) {
        // A text too long stays in its field, and is not kept.
        let _ = self.drawers.settings.act(MINE, preference);
    }

    /// A new fish. Returns where its job begins.
    ///
    /// # Errors
    /// The sentence for a fish that can't be begun.
    pub fn begin(
        self,
        make: impl FnOnce(String, Instant, &Settings) -> Fish,
    ) -> Result<Place, Refusal> {
        let now = clock::dated();
        let id = identity(now);
        let fish = self
            .settings
            .with_untracked(|settings| make(id.clone(), now, settings));
        let stage = fish.next_stage();
        self.fish.put_in(&id, fish)?;
        Ok(Place::Fish(id, stage))
    }

    /// Goes to a stage of a fish.
    pub fn go(self, id: &str, stage: Stage) {
        address::go(&Place::Fish(id.to_owned(), stage));
    }
}
