//! One file a screen: reads a record, shows it, sends what was tapped.

mod about;
mod alarm;
mod bin;
mod board;
mod card;
mod cheapest;
mod classes;
mod compare;
mod costing;
mod delivery;
mod dish_card;
mod dish_fish;
mod dish_in;
mod dish_line;
mod dish_order;
mod dish_plate;
mod dish_price;
mod dish_scale;
mod dishes;
mod fillet;
mod heat;
mod home;
mod journal;
mod kept;
mod pass;
mod plan;
mod prepare;
mod probe;
mod received;
mod restore;
mod result_code;
mod service;
mod settings;
mod steps;
mod summary;
mod weigh;

use leptos::prelude::*;

use crate::device::{address, focus, paste, tabs, update};
use crate::parts::bench::Bench;
use crate::parts::desk::Desk;
use crate::parts::kept::Kept;
use crate::parts::notice;
use crate::place::{Place, Side, Stage};
use crate::record::class_list::Class;
use crate::record::entry::Entry;
use crate::record::pan::KeptPan;
use crate::record::quote::Quote;
use crate::record::recipe::Recipe;
use crate::record::weighing::Which;

/// Puts the app into the page.
pub fn mount() {
    console_error_panic_hook::set_once();
    mount_to_body(App);
}

#[component]
fn App() -> impl IntoView {
    let bench = Bench::empty();
    provide_context(bench);
    bench.load();
    let classes = load_kept::<Class>(bench);
    let recipes = load_kept::<Recipe>(bench);
    let quotes = load_kept::<Quote>(bench);
    let pans = load_kept::<KeptPan>(bench);
    // Without the listener a change of another tab is still merged in at the next tap.
    if let Ok(listener) = tabs::on_other_tab(move |key, text| {
        let (key, text) = (key.as_deref(), text.as_deref());
        bench.changed_elsewhere(key, text);
        classes.changed_elsewhere(key, text);
        recipes.changed_elsewhere(key, text);
        quotes.changed_elsewhere(key, text);
        pans.changed_elsewhere(key, text);
    }) {
        std::mem::forget(listener);
    }
    address::on_change(move |place| bench.place.set(place));
    bench.update_ready.set(update::is_ready());
    update::on_ready(move || bench.update_ready.set(true));
    alarm::keep(bench);
    paste::on_too_long(move || {
        let said =
            "That is more text than a field takes, and nothing was pasted. Paste less at a time.";
        bench
            .notice
            .set(Some(notice::Notice::Told(said.to_owned())));
    });
    Effect::new(move |before: Option<Place>| {
        let place = bench.place.get();
        if before.is_some_and(|before| before != place) {
            focus::to_heading();
            notice::pass_by(bench, &place);
        }
        place
    });
    view! {
        {move || screen(bench, &bench.place.get())}
        <alarm::Announcer/>
    }
}

/// The records of one kind, read, and provided to every screen.
fn load_kept<T: Entry>(bench: Bench) -> Kept<T> {
    let kept = Kept::<T>::none(bench);
    kept.load();
    provide_context(kept);
    kept
}

fn screen(bench: Bench, place: &Place) -> AnyView {
    let (classes, recipes) = (Kept::<Class>::here(), Kept::<Recipe>::here());
    match place {
        Place::Home => home::screen(bench),
        Place::Settings => settings::screen(bench),
        Place::About => about::screen(),
        Place::Kept => kept::screen(bench),
        Place::Bin => bin::screen(),
        Place::Restore => restore::screen(),
        Place::Code(letters) => received::screen(classes, letters),
        Place::Classes => classes::screen(classes),
        Place::Compare { demo } => compare::screen(bench, *demo),
        Place::Cheapest { demo } => cheapest::screen(bench, Kept::here(), *demo),
        Place::Class(id) => board::screen(classes, id),
        Place::Dishes => dishes::screen(bench, recipes),
        Place::DishIn => dish_in::screen(bench, recipes),
        Place::Dish(id, _) if recipes.with_untracked(id, |_| ()).is_none() => dishes::not_found(),
        // A screen is built once; what is typed into it must not build it again.
        Place::Dish(id, side) => untrack(|| {
            let desk = Desk::of(bench, recipes, id);
            match side {
                Side::Card => dish_card::screen(desk),
                Side::Line(at) => dish_line::screen(desk, *at),
                Side::Plate => dish_plate::screen(desk),
                Side::Scale => dish_scale::screen(desk),
                Side::Order => dish_order::screen(desk),
                Side::Steps => steps::of_card(desk),
                Side::Journal => journal::of_dish(desk),
            }
        }),
        Place::Fish(id, stage) => match bench.fish(id) {
            None => home::not_found(),
            Some(fish) => {
                let hand = Hand {
                    bench,
                    fish,
                    id: StoredValue::new(id.clone()),
                };
                match stage {
                    Stage::Summary => summary::screen(hand),
                    Stage::Delivery => delivery::screen(hand),
                    Stage::WeighWhole => weigh::screen(hand, Which::Whole),
                    Stage::Fillet(step) => fillet::screen(hand, *step),
                    Stage::WeighOffBone => weigh::screen(hand, Which::OffBone),
                    Stage::WeighReady => weigh::screen(hand, Which::Ready),
                    Stage::Yield => costing::screen(hand),
                    Stage::Prepare => prepare::screen(hand),
                    Stage::Heat => heat::screen(hand),
                    Stage::Plan => plan::screen(hand),
                    Stage::Steps => steps::screen(hand),
                    Stage::Service => service::screen(hand),
                    Stage::Pass => pass::screen(hand),
                    Stage::Card => card::screen(hand),
                    Stage::Code => result_code::screen(hand),
                    Stage::Journal => journal::of_fish(hand),
                }
            }
        },
    }
}

/// The fish a screen is about, and the way to send what was tapped.
#[derive(Clone, Copy)]
struct Hand {
    bench: Bench,
    fish: RwSignal<crate::record::fish::Fish>,
    id: StoredValue<String>,
}

impl Hand {
    /// Sends a tap; what can't be done is said in `refused`.
    fn send(
        self,
        action: crate::record::action::Action,
        refused: RwSignal<Option<String>>,
    ) -> bool {
        match self.bench.act(&self.id.get_value(), action) {
            Ok(()) => {
                refused.set(None);
                true
            }
            Err(refusal) => {
                refused.set(Some(refusal.to_string()));
                false
            }
        }
    }

    /// The address of a stage of this fish.
    fn at(self, stage: Stage) -> Place {
        Place::Fish(self.id.get_value(), stage)
    }

    /// Goes to a stage of this fish.
    fn go(self, stage: Stage) {
        self.bench.go(&self.id.get_value(), stage);
    }

    /// Whether this fish is the demonstration.
    fn demo(self) -> Signal<bool> {
        let fish = self.fish;
        Signal::derive(move || fish.with(|fish| fish.demo))
    }

    /// The name of this fish.
    fn name(self) -> Signal<String> {
        let fish = self.fish;
        Signal::derive(move || fish.with(crate::record::fish::Fish::name))
    }
}
