//! One file a screen: reads a record, shows it, sends what was tapped. What lies here and in `fish` comes with the
//! page; every other folder is a part that comes when it is first asked for, through its door.

mod beside;
mod class;
mod compare;
mod cook;
mod dish;
mod door;
mod doors;
mod fish;
mod home;
mod keep;
mod says;
mod send;
mod stove;

use leptos::prelude::*;

use self::doors::{AppPart, Doors};
use crate::device::{address, focus, paste, tabs, update};
use crate::fish::weighing::Which;
use crate::parts::fresh::fresh;
use crate::parts::{missing, notice};
use crate::place::{JobNumber, Place, Stage};
use crate::session::bench::Bench;
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
    let doors = Doors::shut();
    provide_context(doors);
    door::ledger(doors, bench);
    door::look_over(doors, bench);
    // Without the listener a change of another tab is still merged in at the next tap.
    if let Ok(listener) = tabs::on_other_tab(move |key| {
        drawers.changed_elsewhere(key.as_deref());
    }) {
        std::mem::forget(listener);
    }
    address::on_change(move |place| bench.place.set(place));
    focus::let_go_of_touched();
    bench.update_ready.set(update::is_ready());
    update::on_ready(move || bench.update_ready.set(true));
    paste::on_too_long(move || {
        let said =
            "That is more text than a field takes, and nothing was pasted. Paste less at a time.";
        bench.notice.set(Some(Notice::Told(said.to_owned())));
    });
    Effect::new(move |before: Option<Place>| {
        let place = bench.place.get();
        let moved = before.is_some_and(|before| before != place);
        if moved {
            focus::to_heading();
            notice::pass_by(bench, &place);
        }
        door::ask(doors, bench, &place, moved);
        if matches!(
            place,
            Place::Fish(
                _,
                Stage::WeighWhole
                    | Stage::Fillet(_)
                    | Stage::WeighReady
                    | Stage::PutRight(JobNumber::Ready)
            )
        ) {
            door::soon(doors);
        }
        place
    });
    view! {
        {fresh(move || {
            let place = bench.place.get();
            match AppPart::of(&place) {
                Some(part) => door::screen(doors, part, &place),
                None => untrack(|| screen(bench, &place)),
            }
        })}
        {door::timers(doors, bench)}
    }
}

fn screen(bench: Bench, place: &Place) -> AnyView {
    match place {
        Place::Fish(id, stage) => match Hand::of(bench, id) {
            None => missing::fish(),
            Some(hand) => match stage {
                Stage::Delivery | Stage::PutRight(JobNumber::Slip) => {
                    fish::delivery::screen(hand, *stage)
                }
                Stage::WeighWhole | Stage::PutRight(JobNumber::Whole) => {
                    fish::weigh::screen(hand, Which::Whole, *stage, door::asked)
                }
                Stage::Fillet(step) => {
                    fish::fillet::screen(hand, *step, door::beside_cut, door::asked)
                }
                Stage::WeighOffBone | Stage::PutRight(JobNumber::OffBone) => {
                    fish::weigh::screen(hand, Which::OffBone, *stage, door::asked)
                }
                Stage::WeighFrame => fish::weigh::screen(hand, Which::Frame, *stage, door::asked),
                Stage::WeighReady | Stage::PutRight(JobNumber::Ready) => {
                    fish::weigh::screen(hand, Which::Ready, *stage, door::asked)
                }
                _ => missing::fish(),
            },
        },
        _ => home::screen(bench),
    }
}
