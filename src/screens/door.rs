//! What is shown at the door of a part that is not here yet: that it is on its way, or that it did not arrive.

use std::time::Duration;

use leptos::prelude::*;

use super::doors::{AppPart, BesideCut, Door, Doors};
use crate::device::figures::Tapped;
use crate::device::{focus, turns};
use crate::parts::page::{Page, back_to};
use crate::place::{Place, Stage};
use crate::prep::filleting::Cut;
use crate::screens::stove::service::Around;
use crate::session::bench::Bench;
use crate::session::hand::Hand;
use crate::session::notice::Notice;

/// How long a part may be on its way before anything is said: from this phone it comes sooner than that.
const PATIENCE: Duration = Duration::from_millis(400);

/// How long what looks after the kept records waits for the first screen at most.
const LATEST: Duration = Duration::from_secs(3);

/// The screen of a part, or what stands at its door.
pub fn screen(doors: Doors, part: AppPart, place: &Place) -> AnyView {
    match doors.of(part).get() {
        // A screen is built once: what is typed into it, or read of it later, must not build it again.
        Door::Open => {
            untrack(|| doors.screen(part, place.clone())).unwrap_or_else(|| refused(doors, place))
        }
        Door::Refused => refused(doors, place),
        Door::Shut | Door::Coming => coming(place),
    }
}

/// Asks for the part that shows `place`. Whoever came to it from another screen stands at its heading once it is here.
pub fn ask(doors: Doors, bench: Bench, place: &Place, moved: bool) {
    let Some(part) = AppPart::of(place) else {
        return;
    };
    let place = place.clone();
    doors.ask(part, move |came| {
        if came && moved && bench.place.get_untracked() == place {
            focus::to_heading();
        }
    });
}

/// The timers, once something cooks or is about to: they ring whatever screen is shown.
pub fn timers(doors: Doors, bench: Bench) -> AnyView {
    let door = doors.of(AppPart::Stove);
    let around = doors.of(AppPart::Cook);
    Effect::new(move |_| {
        let cooks = !bench.cooking.with(Vec::is_empty);
        // The clock of the screens around the service moves with its timers.
        if !cooks && around.get() != Door::Open {
            return;
        }
        doors.ask(AppPart::Stove, move |came| {
            if cooks && !came {
                let said = "A timer runs, but the part of Scaleside that rings did not arrive. Open the service and try again there.";
                bench.notice.set(Some(Notice::Told(said.to_owned())));
            }
        });
    });
    view! { {move || (door.get() == Door::Open).then(|| doors.timers(bench))} }.into_any()
}

/// Looks after all that is kept, once the first screen is painted.
pub fn look_over(doors: Doors, bench: Bench) {
    let ask = move || {
        doors.ask(AppPart::Shelf, move |came| {
            // Without it the next start looks.
            if came {
                doors.look_over(bench);
            }
        });
    };
    once_shown(doors, bench, move || set_timeout(ask, PATIENCE));
}

/// Brings the second home of every record, as soon as the first screen is painted: until it is here, a killed browser may
/// lose what was tapped.
pub fn ledger(doors: Doors, bench: Bench) {
    once_shown(doors, bench, move || {
        turns::after_paint(move || {
            doors.ask(AppPart::Ledger, move |came| {
                // Without it everything is kept in the first.
                if came {
                    doors.ledger(bench);
                }
            });
        });
    });
}

/// Does something once, when the first screen stands there, so that nothing is fetched beside what that waits for; or
/// after a while all the same: what never arrives holds up nothing that is kept.
fn once_shown(doors: Doors, bench: Bench, then: impl Fn() + 'static) {
    let door = (bench.place).with_untracked(|place| AppPart::of(place).map(|part| doors.of(part)));
    let late = RwSignal::new(false);
    set_timeout(move || late.set(true), LATEST);
    Effect::new(move |done: Option<bool>| {
        let stands = door.is_none_or(|door| matches!(door.get(), Door::Open | Door::Refused));
        if done == Some(true) {
            return true;
        }
        let now = late.get() || stands;
        if now {
            then();
        }
        now
    });
}

/// Shows what stands behind a figure that was tapped, once the part that says so is here.
pub fn says(doors: Doors, bench: Bench, tapped: Tapped) {
    if doors.of(AppPart::Says).get_untracked() == Door::Open {
        return doors.says(tapped);
    }
    doors.ask(AppPart::Says, move |came| {
        if came {
            doors.says(tapped);
        } else {
            let said = "What stands behind the figures did not arrive. Where there is a signal, tap again.";
            bench.notice.set(Some(Notice::Told(said.to_owned())));
        }
    });
}

/// A gentle word above the list of fish, when a backup is due.
pub fn reminder(bench: Bench) -> AnyView {
    let doors = Doors::here();
    let door = doors.of(AppPart::Shelf);
    view! { {move || (door.get() == Door::Open).then(|| doors.reminder(bench))} }.into_any()
}

/// Asks for the part that shows the yield while the fish is being weighed, so that it is there when it is wanted.
pub fn soon(doors: Doors) {
    // What does not come now is asked for again where it is shown.
    set_timeout(move || doors.ask(AppPart::Beside, |_| ()), PATIENCE);
}

/// The drawing of a cut, and its words where those don't come with the page.
pub fn beside_cut(hand: Hand, cut: &'static Cut) -> AnyView {
    let doors = Doors::here();
    let door = doors.of(AppPart::Beside);
    let shown = move || {
        match door.get() {
        Door::Open => untrack(|| doors.cut(hand, BesideCut::Drawn(cut))),
        Door::Refused if cut.words.is_none() => Some(
            view! { <p class="fault" role="alert">"The words of this step did not arrive. Where there is a signal, go back and come here again."</p> }
                .into_any(),
        ),
        _ => None,
    }
    };
    // The room of the drawing is kept, or all below it would jump.
    view! { <div class="cutbox">{shown}</div> }.into_any()
}

/// What is asked of the filleting at a cut, or at all of them. Where the part that asks does not arrive, what follows from the kit counts.
pub fn asked(hand: Hand, cut: Option<&'static Cut>) -> AnyView {
    let doors = Doors::here();
    let door = doors.of(AppPart::Beside);
    let shown = move || {
        (door.get() == Door::Open).then(|| untrack(|| doors.cut(hand, BesideCut::Asked(cut))))
    };
    view! { {shown} }.into_any()
}

/// What of the service comes with the screens around it.
pub const AROUND: Around = Around {
    probe: |hand, told| from_cook(move |doors| doors.probe(hand, told)),
    to_come: |hand, planned| from_cook(move |doors| doors.to_come(hand, planned)),
};

fn from_cook(shown: impl Fn(Doors) -> Option<AnyView> + Send + 'static) -> AnyView {
    let doors = Doors::here();
    doors.ask(AppPart::Cook, |_| ());
    let door = doors.of(AppPart::Cook);
    let shown = move || {
        match door.get() {
        Door::Open => untrack(|| shown(doors)),
        Door::Refused => Some(
            view! { <p class="fault" role="alert">"This did not arrive. Where there is a signal, come here again."</p> }
                .into_any(),
        ),
        Door::Shut | Door::Coming => None,
    }
    };
    view! { {shown} }.into_any()
}

fn coming(place: &Place) -> AnyView {
    let late = RwSignal::new(false);
    let back = back(place);
    set_timeout(
        move || {
            late.try_set(true);
        },
        PATIENCE,
    );
    view! {
        {move || late.get().then(|| {
            let back = back.clone();
            view! {
                <Page title="One moment" above="Scaleside" dock=move || back_to(&back)>
                    <p role="status">"This part of Scaleside is on its way."</p>
                </Page>
            }
        })}
    }
    .into_any()
}

fn refused(doors: Doors, place: &Place) -> AnyView {
    let (bench, back, place) = (Bench::here(), back(place), place.clone());
    let again = move |_| ask(doors, bench, &place, true);
    view! {
        <Page
            title="Not here yet"
            above="Scaleside"
            dock=move || {
                let again = again.clone();
                view! {
                    {back_to(&back)}
                    <button class="btn main tall next" on:click=again>"Try again"</button>
                }
            }
        >
            <p class="fault" role="alert">"This part of Scaleside did not arrive whole. Everything you entered is kept, and the other screens go on working."</p>
            <p class="soft">"Where there is a signal, try again. Once all of Scaleside is on this phone it needs none."</p>
        </Page>
    }
    .into_any()
}

/// A screen that came with the page, near the one that did not.
fn back(place: &Place) -> Place {
    match place {
        Place::Fish(id, _) => Place::Fish(id.clone(), Stage::Delivery),
        _ => Place::Home,
    }
}
