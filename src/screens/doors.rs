//! The parts of the app that come when they are first asked for, each a module of its own beside the first one.
//!
//! What a screen of a part needs must be reached through its door alone, or it comes with the page: `.ci/size` prints
//! what lies where.
use std::pin::pin;
use std::task::{Context, Poll, Waker};

use leptos::prelude::*;
use leptos::wasm_split::{SplitLoaderError, wasm_split};
use wasm_bindgen_futures::spawn_local;

use super::door;
use crate::device::figures::{self, Tapped};
use crate::device::keys;
use crate::parts::estimated::Told;
use crate::parts::planned::ShownPlan;
use crate::parts::{backup, heard, missing};
use crate::place::{Place, Stage};
use crate::prep::filleting::Cut;
use crate::session::bench::Bench;
use crate::session::clock_watch;
use crate::session::hand::Hand;

/// A part of the app, named as its folder.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AppPart {
    /// The service, and the timers.
    Stove,
    /// The rest from the mise en place to the pass.
    Cook,
    /// The kitchen's own dishes.
    Dish,
    /// A cook's own fish side by side.
    Compare,
    /// The tutor's classes.
    Class,
    /// A result on its way to somebody, and one that came.
    Send,
    /// What is kept on this phone, and a fish as a whole.
    Keep,
    /// A yield, what is published beside it, and the parts kept of a fish.
    Beside,
    /// What looks after all that is kept, whatever screen is shown.
    Shelf,
    /// The second home of every record.
    Ledger,
    /// What stands behind the figures of a screen.
    Says,
}

/// What stands beside the cuts of a fish.
#[derive(Clone, Copy)]
pub enum BesideCut {
    /// The drawing of one, and the words of one that only flat fish need.
    Drawn(&'static Cut),
    /// What is asked at one, or at all of them.
    Asked(Option<&'static Cut>),
}

impl AppPart {
    const ALL: [Self; 11] = [
        Self::Stove,
        Self::Cook,
        Self::Dish,
        Self::Compare,
        Self::Class,
        Self::Send,
        Self::Keep,
        Self::Beside,
        Self::Shelf,
        Self::Ledger,
        Self::Says,
    ];

    /// The part that shows a place; nothing for what comes with the page.
    #[must_use]
    pub fn of(place: &Place) -> Option<Self> {
        match place {
            Place::Home => None,
            Place::Fish(_, stage) => match stage {
                Stage::Delivery
                | Stage::WeighWhole
                | Stage::Fillet(_)
                | Stage::WeighOffBone
                | Stage::WeighFrame
                | Stage::WeighReady
                | Stage::PutRight(_) => None,
                Stage::Yield => Some(Self::Beside),
                Stage::Service => Some(Self::Stove),
                Stage::Prepare
                | Stage::Heat
                | Stage::Plan
                | Stage::Steps
                | Stage::AllSteps
                | Stage::Pass => Some(Self::Cook),
                Stage::Code | Stage::Card => Some(Self::Send),
                Stage::Summary | Stage::Journal => Some(Self::Keep),
            },
            Place::Dishes | Place::DishIn | Place::Dish(..) => Some(Self::Dish),
            Place::Compare { .. } | Place::Cheapest { .. } => Some(Self::Compare),
            Place::Classes | Place::Class(..) => Some(Self::Class),
            Place::Code(_) => Some(Self::Send),
            Place::Settings
            | Place::Kept
            | Place::Bin
            | Place::Restore
            | Place::About
            | Place::Shortcut(_) => Some(Self::Keep),
        }
    }

    /// Each door keeps to itself whether its module is here, so one of two is not open because the other is.
    async fn load(self) -> Result<(), SplitLoaderError> {
        match self {
            Self::Stove => load_stove().await.and(load_timers().await),
            Self::Cook => {
                let screens = load_cook().await;
                screens.and(load_probe().await).and(load_to_come().await)
            }
            Self::Dish => load_dish().await,
            Self::Compare => load_compare().await,
            Self::Class => load_class().await,
            Self::Send => load_send().await,
            Self::Keep => load_keep().await,
            Self::Beside => load_beside().await.and(load_cut().await),
            Self::Shelf => load_look_over().await.and(load_reminder().await),
            Self::Ledger => load_ledger().await,
            Self::Says => load_says().await,
        }
    }

    async fn screen(self, place: Place) -> Result<AnyView, SplitLoaderError> {
        match self {
            Self::Stove => stove(place).await,
            Self::Cook => cook(place).await,
            Self::Dish => dish(place).await,
            Self::Compare => compare(place).await,
            Self::Class => class(place).await,
            Self::Send => send(place).await,
            Self::Beside => match Hand::of(Bench::here(), place.fish().unwrap_or_default()) {
                Some(hand) => beside(hand).await,
                None => Ok(missing::fish()),
            },
            Self::Keep | Self::Shelf | Self::Ledger | Self::Says => keep(place).await,
        }
    }
}

/// How far a part has come.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Door {
    /// Nobody has asked for it.
    Shut,
    /// It is on its way.
    Coming,
    /// It did not arrive, or not as this build made it.
    Refused,
    /// It is here.
    Open,
}

/// The doors of all parts. Copied freely: it holds only handles.
#[derive(Clone, Copy)]
pub struct Doors([RwSignal<Door>; AppPart::ALL.len()]);

impl Doors {
    /// The doors of this page.
    #[must_use]
    pub fn here() -> Self {
        use_context::<Self>().unwrap_or_else(Self::shut)
    }

    /// All of them shut.
    #[must_use]
    pub fn shut() -> Self {
        Self(AppPart::ALL.map(|_| RwSignal::new(Door::Shut)))
    }

    /// How far a part has come, as a signal.
    #[must_use]
    pub fn of(self, part: AppPart) -> RwSignal<Door> {
        let Self(
            [
                stove,
                cook,
                dish,
                compare,
                class,
                send,
                keep,
                beside,
                shelf,
                ledger,
                says,
            ],
        ) = self;
        match part {
            AppPart::Stove => stove,
            AppPart::Cook => cook,
            AppPart::Dish => dish,
            AppPart::Compare => compare,
            AppPart::Class => class,
            AppPart::Send => send,
            AppPart::Keep => keep,
            AppPart::Beside => beside,
            AppPart::Shelf => shelf,
            AppPart::Ledger => ledger,
            AppPart::Says => says,
        }
    }

    /// Fetches a part, unless it is here or on its way, and then says whether it came. What was refused is tried
    /// again.
    pub fn ask(self, part: AppPart, then: impl FnOnce(bool) + 'static) {
        self.fetch(part, Box::new(then));
    }

    /// One copy, whoever asks.
    fn fetch(self, part: AppPart, then: Box<dyn FnOnce(bool)>) {
        let door = self.of(part);
        if matches!(door.get_untracked(), Door::Coming | Door::Open) {
            return;
        }
        door.set(Door::Coming);
        spawn_local(async move {
            let came = part.load().await.is_ok();
            door.set(if came { Door::Open } else { Door::Refused });
            // What stood at the door makes way for the screen.
            leptos::task::tick().await;
            then(came);
        });
    }

    /// The screen of a part that is here.
    #[must_use]
    pub fn screen(self, part: AppPart, place: Place) -> Option<AnyView> {
        at_once(part.screen(place))
    }

    /// Looks at every record, once the part that looks after them is here.
    pub fn look_over(self, bench: Bench) {
        at_once(look_over(self, bench));
    }

    /// Joins the second home, once the part that does so is here.
    pub fn ledger(self, bench: Bench) {
        at_once(ledger(bench));
    }

    /// A gentle word above the list of fish where a backup is due, once the part that looks after them is here.
    #[must_use]
    pub fn reminder(self, bench: Bench) -> Option<AnyView> {
        at_once(reminder(bench))
    }

    /// What stands beside a cut, once the part that draws it is here.
    pub fn cut(self, hand: Hand, of: BesideCut) -> Option<AnyView> {
        at_once(cut(hand, of))
    }

    /// The probe of a service, once the part it comes with is here.
    pub fn probe(self, hand: Hand, told: RwSignal<Told>) -> Option<AnyView> {
        at_once(probe(hand, told))
    }

    /// What is to come of a service, once the part it comes with is here.
    pub fn to_come(self, hand: Hand, planned: ShownPlan) -> Option<AnyView> {
        at_once(to_come(hand, planned))
    }

    /// Shows what stands behind the figures that were tapped, once the part that says so is here.
    pub fn says(self, tapped: Tapped) {
        at_once(says(tapped));
    }

    /// The timers, once their part is here.
    #[must_use]
    pub fn timers(self, bench: Bench) -> Option<AnyView> {
        at_once(timers(bench))
    }
}

/// What a call into a part that is here answers: there is nothing left to wait for.
fn at_once<T>(answer: impl Future<Output = Result<T, SplitLoaderError>>) -> Option<T> {
    match pin!(answer).poll(&mut Context::from_waker(Waker::noop())) {
        Poll::Ready(answer) => answer.ok(),
        Poll::Pending => None,
    }
}

#[wasm_split(says, wasm_split_path = ::leptos::wasm_split, fallible, preload(load_says))]
fn says(tapped: Tapped) -> Result<(), SplitLoaderError> {
    super::says::show(tapped);
    Ok(())
}

#[wasm_split(cook, wasm_split_path = ::leptos::wasm_split, fallible, preload(load_cook))]
fn cook(place: Place) -> Result<AnyView, SplitLoaderError> {
    Ok(super::cook::screen(Bench::here(), &place))
}

#[wasm_split(stove, wasm_split_path = ::leptos::wasm_split, fallible, preload(load_stove))]
fn stove(place: Place) -> Result<AnyView, SplitLoaderError> {
    Ok(super::stove::screen(Bench::here(), &place, door::AROUND))
}

#[wasm_split(stove, wasm_split_path = ::leptos::wasm_split, fallible, preload(load_timers))]
fn timers(bench: Bench) -> Result<AnyView, SplitLoaderError> {
    Ok(super::stove::alarm::keep(bench))
}

#[wasm_split(cook, wasm_split_path = ::leptos::wasm_split, fallible, preload(load_probe))]
fn probe(hand: Hand, told: RwSignal<Told>) -> Result<AnyView, SplitLoaderError> {
    Ok(super::stove::probe::section(hand, told))
}

#[wasm_split(cook, wasm_split_path = ::leptos::wasm_split, fallible, preload(load_to_come))]
fn to_come(hand: Hand, planned: ShownPlan) -> Result<AnyView, SplitLoaderError> {
    Ok(super::cook::all_steps::to_come(hand, planned))
}

#[wasm_split(dish, wasm_split_path = ::leptos::wasm_split, fallible, preload(load_dish))]
fn dish(place: Place) -> Result<AnyView, SplitLoaderError> {
    Ok(super::dish::screen(Bench::here(), &place))
}

#[wasm_split(compare, wasm_split_path = ::leptos::wasm_split, fallible, preload(load_compare))]
fn compare(place: Place) -> Result<AnyView, SplitLoaderError> {
    Ok(super::compare::screen(Bench::here(), &place))
}

#[wasm_split(class, wasm_split_path = ::leptos::wasm_split, fallible, preload(load_class))]
fn class(place: Place) -> Result<AnyView, SplitLoaderError> {
    Ok(super::class::screen(&place))
}

#[wasm_split(send, wasm_split_path = ::leptos::wasm_split, fallible, preload(load_send))]
fn send(place: Place) -> Result<AnyView, SplitLoaderError> {
    Ok(super::send::screen(Bench::here(), &place))
}

#[wasm_split(keep, wasm_split_path = ::leptos::wasm_split, fallible, preload(load_keep))]
fn keep(place: Place) -> Result<AnyView, SplitLoaderError> {
    Ok(super::keep::screen(Bench::here(), &place))
}

#[wasm_split(beside, wasm_split_path = ::leptos::wasm_split, fallible, preload(load_beside))]
fn beside(hand: Hand) -> Result<AnyView, SplitLoaderError> {
    Ok(super::beside::costing::screen(hand))
}

#[wasm_split(beside, wasm_split_path = ::leptos::wasm_split, fallible, preload(load_cut))]
fn cut(hand: Hand, of: BesideCut) -> Result<AnyView, SplitLoaderError> {
    Ok(match of {
        BesideCut::Drawn(cut) => super::beside::cut::drawn(hand, cut),
        BesideCut::Asked(cut) => super::beside::asked::rows(hand, cut),
    })
}

#[wasm_split(shelf, wasm_split_path = ::leptos::wasm_split, fallible, preload(load_look_over))]
fn look_over(doors: Doors, bench: Bench) -> Result<(), SplitLoaderError> {
    keys::listen();
    figures::on_tapped(move |tapped| door::says(doors, bench, tapped));
    clock_watch::follow(bench);
    bench.drawers.look_over();
    bench.drawers.ask_before_leaving();
    heard::follow(bench);
    Ok(())
}

#[wasm_split(shelf, wasm_split_path = ::leptos::wasm_split, fallible, preload(load_reminder))]
fn reminder(bench: Bench) -> Result<AnyView, SplitLoaderError> {
    Ok(backup::reminder(bench))
}

#[wasm_split(ledger, wasm_split_path = ::leptos::wasm_split, fallible, preload(load_ledger))]
fn ledger(bench: Bench) -> Result<(), SplitLoaderError> {
    // Before the second home brings it back.
    bench.drawers.put_aside();
    crate::session::ledger::open(bench);
    Ok(())
}
