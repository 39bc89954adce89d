//! The fish, and where the knife is: a plain drawing with the part of this step marked.

use leptos::prelude::*;

use crate::prep::filleting::FishPart;

/// The drawing for a step of the filleting: of the fillet once that is `off_bone`, of the fish before.
#[must_use]
pub fn of_cut(part: FishPart, off_bone: bool) -> AnyView {
    if off_bone && part != FishPart::Frame {
        fillet(part)
    } else {
        whole(part)
    }
}

fn mark(part: FishPart, of: &[FishPart]) -> &'static str {
    if of.contains(&part) { "marked" } else { "" }
}

fn whole(part: FishPart) -> AnyView {
    view! {
        <svg class="picture cutpic" viewBox="0 0 320 130" aria-hidden="true">
            <rect class=format!("board {}", mark(part, &[FishPart::Board])) x="4" y="8" width="312" height="114" rx="10"/>
            <path class="fin" d="M238 65 L290 34 Q280 65 290 96 Z"/>
            <path class=format!("body {}", mark(part, &[FishPart::Skin])) d="M34 68 C60 26 150 18 242 62 L242 69 C150 112 60 108 34 68 Z"/>
            <path class=format!("fin {}", mark(part, &[FishPart::Spines])) d="M92 37 L104 20 L116 31 L128 18 L140 30 L154 20 L166 34 L182 30 L196 44 Z"/>
            <path class=format!("fin {}", mark(part, &[FishPart::Spines])) d="M112 101 L124 116 L140 101 Z M172 94 L186 108 L198 86 Z"/>
            <path class=format!("line {}", mark(part, &[FishPart::Frame])) d="M84 66 L240 66 M100 54 L100 78 M116 50 L116 82 M132 48 L132 84 M148 48 L148 84 M164 50 L164 82 M180 53 L180 79 M196 56 L196 76 M212 59 L212 73"/>
            <path class=format!("line cut {}", mark(part, &[FishPart::Head])) d="M88 32 Q72 66 92 102"/>
            <path class=format!("line cut {}", mark(part, &[FishPart::Back])) d="M88 36 C130 22 190 38 240 62"/>
            <path class=format!("line cut {}", mark(part, &[FishPart::Belly])) d="M66 92 C90 106 130 108 168 98"/>
            <path class=format!("line cut {}", mark(part, &[FishPart::Tail])) d="M230 54 L230 77"/>
            <circle class="eye" cx="56" cy="60" r="4.5"/>
            <path class="line" d="M70 48 Q80 66 70 84"/>
        </svg>
    }
    .into_any()
}

fn fillet(part: FishPart) -> AnyView {
    view! {
        <svg class="picture cutpic" viewBox="0 0 320 130" aria-hidden="true">
            <rect class="board" x="4" y="8" width="312" height="114" rx="10"/>
            <path class=format!("flesh {}", mark(part, &[FishPart::Skin])) d="M40 50 C90 24 200 34 290 62 C230 92 110 112 52 98 Q34 74 40 50 Z"/>
            <path class=format!("line cut {}", mark(part, &[FishPart::Edges])) d="M40 50 C90 24 200 34 290 62 C230 92 110 112 52 98 Q34 74 40 50 Z"/>
            <path class=format!("line cut {}", mark(part, &[FishPart::Ribs])) d="M56 92 Q66 70 118 72 M74 98 Q84 78 126 76 M94 101 Q104 84 134 80 M114 101 Q122 88 142 84"/>
            <path class=format!("line {}", mark(part, &[FishPart::Pins])) d="M54 68 l6 -8 M68 67 l6 -8 M82 66 l6 -8 M96 66 l6 -8 M110 65 l6 -8 M124 65 l6 -8 M138 64 l6 -8"/>
            <path class="line faint" d="M46 72 C110 60 200 60 286 62"/>
        </svg>
    }
    .into_any()
}
