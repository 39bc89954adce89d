//! The hour it is, and the hour of the plate.

use leptos::prelude::*;

use crate::base::instant::Instant;
use crate::device::clock;
use crate::parts::planned::ShownPlan;
use crate::service::timetable::face;
use crate::service::timetable::late::how_late;
use crate::session::hand::Hand;

/// When the next plates go out by the plan, or the last ones went out.
pub fn plate_at(hand: Hand, planned: ShownPlan) -> Option<Instant> {
    next_plates(hand, planned).map(|(at, _)| at)
}

/// The same, and how many seconds after the first plates they are wanted.
fn next_plates(hand: Hand, planned: ShownPlan) -> Option<(Instant, u32)> {
    hand.fish.with(|fish| {
        let (run, dish) = (fish.run.as_ref()?, fish.dish().ok()?);
        planned.with(|planned| face::plate_at(dish, run, planned))
    })
}

/// Both as one line, and beneath it how late that is.
pub fn line(hand: Hand, planned: ShownPlan) -> AnyView {
    let late = Memo::new(move |_| {
        let (plate, later) = next_plates(hand, planned)?;
        let asked = hand.fish.with(|fish| fish.serving().plate_at)?;
        let asked = asked.plus_secs(i64::from(later));
        let late = how_late(asked, plate)?;
        Some(format!(
            "Asked {}: {} late.",
            clock::time_of_day(asked),
            late
        ))
    });
    let plate = Memo::new(move |_| {
        plate_at(hand, planned).map_or_else(|| "…".to_owned(), clock::time_of_day)
    });
    let clock_now = Memo::new(move |_| clock::time_of_day(hand.bench.now.get()));
    view! {
        <p class="clockline num" data-says="plan">
            <span>"Now "<b>{move || clock_now.get()}</b></span>
            <span>"Plate about "<b>{move || plate.get()}</b></span>
        </p>
        {move || late.get().map(|late| view! { <p class="care small late">{late}</p> })}
    }
    .into_any()
}
