//! Line drawings of our own at the stove, in the manner of the cuts: a thickness that fingers tell, and the plate as it goes.

use leptos::prelude::*;

/// How large a millimetre is drawn.
const PER_MM: f64 = 1.4;
/// Where the board is.
const FLOOR: f64 = 43.0;

/// A fillet of so many millimetres on the board, beside what a cook has at hand to tell it by.
pub fn thickness(mm: u32) -> AnyView {
    let high = f64::from(mm) * PER_MM;
    let top = FLOOR - high;
    let oval = |class: &'static str, middle: f64, across: f64, high: f64| {
        view! { <ellipse class=class cx="17" cy=middle.to_string() rx=across.to_string() ry=high.to_string()/> }.into_any()
    };
    // Fingers lie on the board as the fillet does; of pencils it takes one and a half.
    let told = match mm {
        ..15 => vec![
            oval("blade", FLOOR - high / 3.0, high / 3.0, high / 3.0),
            view! { <path class="blade" d=format!("M{} {}a{r} {r} 0 0 1 {} 0Z", 17.0 - high / 3.0, top + high / 3.0, high * 2.0 / 3.0, r = high / 3.0)/> }.into_any(),
        ],
        15..24 => vec![oval("hand", FLOOR - high / 2.0, high * 0.45, high / 2.0)],
        _ => vec![
            oval("hand", FLOOR - high / 4.0, high * 0.36, high / 4.0),
            oval("hand", top + high / 4.0, high * 0.36, high / 4.0),
        ],
    };
    view! {
        <svg class="cutpic told" viewBox="0 0 96 46" aria-hidden="true">
            <path class="flesh" d=format!("M40 {FLOOR}V{}Q40 {top} 46 {top}C62 {top} 80 {} 94 {FLOOR}Z", top + 5.0, FLOOR - 4.0)/>
            <path class="line" d=format!("M2 {FLOOR}H95")/>
            <path class="line faint" d=format!("M6 {top}H60")/>
            {told}
        </svg>
    }
    .into_any()
}

/// The plate as it goes: the vegetables below, the fish on them skin up, the sauce beside and not over it, the leaves last,
/// the rim free, and wiped.
pub fn plate() -> AnyView {
    let rounds = [
        (112, 78),
        (128, 84),
        (146, 87),
        (166, 87),
        (186, 84),
        (120, 70),
        (200, 78),
    ];
    view! {
        <svg class="picture cutpic" viewBox="0 0 320 130" aria-hidden="true">
            <ellipse class="board" cx="160" cy="66" rx="132" ry="60"/>
            <ellipse class="fin" cx="160" cy="66" rx="96" ry="42"/>
            <path class="area" d="M86 60Q98 38 128 32 104 48 98 66 92 72 86 60Z"/>
            {rounds.map(|(x, y)| view! { <ellipse class="flesh" cx=x.to_string() cy=y.to_string() rx="10" ry="6"/> }).collect_view()}
            <path class="body" d="M104 62C124 40 176 36 216 56 210 74 140 86 110 76Q104 70 104 62Z"/>
            <path class="line" d="M122 60C146 50 178 50 202 58M120 68C146 62 178 62 204 64"/>
            <path class="leaf" d="M196 46q10-14 22-8-4 12-22 8ZM202 50q16-4 22 8-14 4-22-8ZM194 44q-2-14 10-18 4 12-10 18Z"/>
            <path class="way" d="M264 40Q284 66 262 94m2-12-2 12 11-5"/>
            <g transform="translate(270 34) rotate(-30)"><path class="cloth" d="M-16-10q8-4 16 0t16 0v20q-8 4-16 0t-16 0Z"/></g>
        </svg>
    }
    .into_any()
}
