//! One file a screen: reads a record, shows it, sends what was tapped.

mod about;
mod alarm;
mod class;
mod compare;
mod cook;
mod dish;
mod fish;
mod home;
mod journal;
mod keep;
mod send;
mod settings;

use leptos::prelude::*;

use crate::device::{address, focus, paste, tabs, update};
use crate::fish::weighing::Which;
use crate::parts::notice;
use crate::place::{Place, Side, Stage};
use crate::session::bench::Bench;
use crate::session::desk::Desk;
use crate::session::hand::Hand;
use crate::session::notice::Notice;

/// Puts the app into the page.
pub fn mount() {
    console_error_panic_hook::set_once();
    mount_to_body(App);
}

#[component]
fn App() -> impl IntoView {
    let bench = Bench::open();
    let drawers = bench.drawers;
    provide_context(bench);
    provide_context(drawers.classes);
    provide_context(drawers.recipes);
    provide_context(drawers.quotes);
    provide_context(drawers.pans);
    drawers.look_over();
    // Without the listener a change of another tab is still merged in at the next tap.
    if let Ok(listener) = tabs::on_other_tab(move |key, text| {
        drawers.changed_elsewhere(key.as_deref(), text.as_deref());
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
        bench.notice.set(Some(Notice::Told(said.to_owned())));
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

fn screen(bench: Bench, place: &Place) -> AnyView {
    let (classes, recipes) = (bench.drawers.classes, bench.drawers.recipes);
    match place {
        Place::Home => home::screen(bench),
        Place::Settings => settings::screen(bench),
        Place::About => about::screen(),
        Place::Kept => keep::phone::screen(bench),
        Place::Bin => keep::bin::screen(),
        Place::Restore => keep::restore::screen(),
        Place::Code(letters) => send::received::screen(classes, letters),
        Place::Classes => class::list::screen(classes),
        Place::Compare { demo } => compare::tests::screen(bench, *demo),
        Place::Cheapest { demo } => compare::cheapest::screen(bench, bench.drawers.quotes, *demo),
        Place::Class(id) => class::board::screen(classes, id),
        Place::Dishes => dish::list::screen(bench, recipes),
        Place::DishIn => dish::taken_in::screen(bench, recipes),
        Place::Dish(id, _) if recipes.with_untracked(id, |_| ()).is_none() => {
            dish::list::not_found()
        }
        // A screen is built once; what is typed into it must not build it again.
        Place::Dish(id, side) => untrack(|| {
            let desk = Desk::of(bench, recipes, id);
            match side {
                Side::Card => dish::card::screen(desk),
                Side::Line(at) => dish::line::screen(desk, at),
                Side::Plate => dish::plate::screen(desk),
                Side::Scale => dish::scale::screen(desk),
                Side::Order => dish::order::screen(desk),
                Side::Steps => cook::steps::of_card(desk),
                Side::Journal => journal::of_dish(desk),
            }
        }),
        Place::Fish(id, stage) => match Hand::of(bench, id) {
            None => home::not_found(),
            Some(hand) => match stage {
                Stage::Summary => fish::summary::screen(hand),
                Stage::Delivery => fish::delivery::screen(hand),
                Stage::WeighWhole => fish::weigh::screen(hand, Which::Whole),
                Stage::Fillet(step) => fish::fillet::screen(hand, *step),
                Stage::WeighOffBone => fish::weigh::screen(hand, Which::OffBone),
                Stage::WeighReady => fish::weigh::screen(hand, Which::Ready),
                Stage::Yield => fish::costing::screen(hand),
                Stage::Prepare => cook::prepare::screen(hand),
                Stage::Heat => cook::heat::screen(hand),
                Stage::Plan => cook::plan::screen(hand),
                Stage::Steps => cook::steps::screen(hand),
                Stage::Service => cook::service::screen(hand),
                Stage::Pass => cook::pass::screen(hand),
                Stage::Card => send::card::screen(hand),
                Stage::Code => send::result_code::screen(hand),
                Stage::Journal => journal::of_fish(hand),
            },
        },
    }
}
