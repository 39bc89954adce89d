//! The drawings of the cuts, our own: what lies on the board, the line, the tool and the way it goes, the hand that stays
//! clear. On a field of 320 by 130; the head of the fish lies on the left, and the second side is mirrored.

use std::collections::BTreeSet;

use leptos::prelude::*;

use crate::base::kit::Kit;
use crate::prep::filleting::Shape;

/// What lies on the board.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Lies {
    Round,
    Flat,
    /// The white side of a flat fish: no eyes there.
    White,
    Fillet,
    /// One of the four of a flat fish.
    Quarter,
    Frame,
}

/// What is held. Its point, or what it works with, lies at the origin.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Tool {
    Knife,
    Scissors,
    Pliers,
    /// It wipes and cuts nothing.
    Cloth,
    None,
}

/// A place and a turn in degrees.
type At = (i16, i16, i16);

/// The drawing of one cut.
#[derive(Clone, Copy)]
pub struct Drawing {
    lies: Lies,
    /// The second side: all of it the other way round.
    mirrored: bool,
    /// Where it is cut; empty where nothing is.
    line: &'static str,
    /// What is worked on without being cut.
    area: &'static str,
    tool: Tool,
    at: At,
    /// The way the tool goes.
    way: &'static str,
    /// The hand that holds, clear of the edge.
    hand: Option<At>,
    /// How far the tool is seen to go, where that helps.
    moves: Option<(i16, i16)>,
}

const STILL: Drawing = Drawing {
    lies: Lies::Round,
    mirrored: false,
    line: "",
    area: "",
    tool: Tool::None,
    at: (0, 0, 0),
    way: "",
    hand: None,
    moves: None,
};

const BACK: Drawing = Drawing {
    line: "M88 36C130 22 190 38 240 62",
    tool: Tool::Knife,
    at: (112, 30, 4),
    way: "M112 14C150 8 200 22 240 46m-9-11 9 11-13 3",
    hand: Some((130, 70, 0)),
    moves: Some((70, 12)),
    ..STILL
};

/// One half of a side of a flat fish, from the middle line out; only a flat fish is cut so.
const FLAT_HALF: Drawing = Drawing {
    lies: Lies::Flat,
    line: "M90 65H244",
    area: "M92 63H240C190 22 120 16 92 34Z",
    tool: Tool::Knife,
    at: (150, 58, 28),
    way: "M140 58V20m-7 10 7-10 7 10M170 60V26m-7 10 7-10 7 10",
    hand: Some((92, 92, -30)),
    moves: Some((0, -26)),
    ..STILL
};

impl Drawing {
    /// The drawing of the cut with this id.
    pub fn of(id: &str, shape: Shape, missing: &BTreeSet<Kit>) -> Option<Self> {
        let whole = match shape {
            Shape::Round => STILL,
            Shape::Flat => Self {
                lies: Lies::Flat,
                ..STILL
            },
        };
        let fillet = Self {
            lies: Lies::Fillet,
            ..STILL
        };
        Some(match id {
            "board" => Self {
                area: "M8 116H312V129H8Z",
                hand: Some((270, 88, 180)),
                ..whole
            },
            "fins" => Self {
                line: "M196 40 92 33",
                tool: Tool::Scissors,
                at: (190, 34, -6),
                way: "M176 10H104m10-6-10 6 10 6",
                hand: Some((286, 88, 190)),
                ..whole
            },
            "flat_fins" => Self {
                line: "M240 56C180 10 80 18 42 58",
                tool: Tool::Scissors,
                at: (214, 34, 24),
                way: "M178 8 104 12m11-7-11 7 11 5",
                hand: Some((26, 50, 0)),
                ..whole
            },
            "scale" => Self {
                tool: Tool::Knife,
                at: (170, 68, -36),
                way: "M216 74H120m11-7-11 7 11 7",
                hand: Some((292, 50, 180)),
                moves: Some((-50, 0)),
                ..whole
            },
            "gut" => Self {
                line: "M168 98C130 108 90 106 66 92",
                tool: Tool::Knife,
                at: (160, 99, -24),
                way: "M150 120H80m10-6-10 6 10 6",
                hand: Some((210, 34, 170)),
                ..whole
            },
            "flat_gut" => Self {
                line: "M84 88Q92 98 104 101",
                tool: Tool::Knife,
                at: (92, 97, -16),
                way: "",
                hand: Some((150, 30, 150)),
                ..whole
            },
            "rinse" => Self {
                area: "M66 92C90 106 130 108 168 98 130 86 90 84 66 92Z",
                way: "M100 10v26m-6-9 6 9 6-9M124 10v26m-6-9 6 9 6-9M148 10v26m-6-9 6 9 6-9",
                hand: Some((196, 82, 180)),
                ..whole
            },
            "wipe" => Self {
                area: "M66 92C90 106 130 108 168 98 130 86 90 84 66 92Z",
                tool: Tool::Cloth,
                at: (120, 96, 0),
                way: "M78 118q10-8 20 0t20 0 20 0 20 0m-8-7 8 7-10 3",
                ..whole
            },
            "behind_head" => Self {
                line: "M88 32Q72 66 92 102",
                tool: Tool::Knife,
                at: (88, 102, -74),
                way: "M108 34V96m-6-10 6 10 6-10",
                hand: Some((26, 50, 0)),
                ..whole
            },
            "flat_head" => Self {
                line: "M96 30Q72 66 96 100",
                tool: Tool::Knife,
                at: (92, 100, -70),
                way: "M118 34V96m-6-10 6 10 6-10",
                hand: Some((26, 50, 0)),
                ..whole
            },
            "back" => BACK,
            "second_side" => Self {
                mirrored: true,
                ..BACK
            },
            "off" => Self {
                line: "M96 66H240",
                tool: Tool::Knife,
                at: (150, 66, -16),
                way: "M150 96H236m-11-7 11 7-11 7",
                hand: Some((96, 34, 20)),
                moves: Some((60, 0)),
                ..STILL
            },
            "flat_middle" => Self {
                line: "M90 65H244",
                tool: Tool::Knife,
                at: (120, 64, -24),
                way: "M110 88H230m-11-7 11 7-11 7",
                hand: Some((26, 50, 0)),
                ..whole
            },
            "flat_dark" => FLAT_HALF,
            "flat_white" => Self {
                lies: Lies::White,
                mirrored: true,
                ..FLAT_HALF
            },
            "ribs" => Self {
                area: "M54 94Q66 68 128 70 146 80 112 104 74 106 54 94Z",
                line: "M128 70Q84 66 54 92",
                tool: Tool::Knife,
                at: (92, 84, -24),
                way: "M120 96 84 116m14 0-14 0 5-12",
                hand: Some((240, 48, 180)),
                ..fillet
            },
            "pins" if missing.contains(&Kit::Pliers) => Self {
                line: "M50 62 160 56M50 76 160 60",
                tool: Tool::Knife,
                at: (84, 61, -18),
                way: "M70 42 140 38m-12-5 12 5-11 7",
                hand: Some((270, 46, 180)),
                ..fillet
            },
            "pins" => Self {
                tool: Tool::Pliers,
                at: (114, 58, -40),
                way: "M104 54 72 30m5 12-5-12 13 2",
                hand: Some((196, 58, 180)),
                ..fillet
            },
            "edges" => Self {
                line: "M56 104C120 118 220 94 292 66",
                tool: Tool::Knife,
                at: (120, 110, -20),
                way: "M150 120 230 106m-12-4 12 4-9 8",
                hand: Some((120, 44, 20)),
                ..fillet
            },
            "flat_edges" => Self {
                lies: Lies::Quarter,
                line: "M38 44C120 14 220 24 288 58",
                tool: Tool::Knife,
                at: (124, 26, 5),
                way: "M120 12H190m-11-6 11 6-11 6",
                hand: Some((110, 70, 0)),
                ..STILL
            },
            "skin" if shape == Shape::Flat => Self {
                lies: Lies::Quarter,
                area: "M60 62C120 44 210 44 262 60 200 84 120 86 60 62Z",
                tool: Tool::Cloth,
                at: (150, 62, 0),
                way: "M84 104q12-9 24 0t24 0 24 0 24 0m-8-8 8 8-11 3",
                ..STILL
            },
            "skin" => Self {
                area: "M60 62C120 40 210 46 262 64 200 88 110 98 64 88Z",
                tool: Tool::Cloth,
                at: (150, 66, 0),
                way: "M84 112q12-9 24 0t24 0 24 0 24 0m-8-8 8 8-11 3",
                ..fillet
            },
            "frame" => Self {
                lies: Lies::Frame,
                ..STILL
            },
            _ => return None,
        })
    }
}

fn lies(what: Lies) -> AnyView {
    let path = |class: &'static str, d: &'static str| view! { <path class=class d=d/> };
    let bones = "M84 66H240M100 54V78M116 50V82M132 48V84M148 48V84M164 50V82M180 53V79M196 56V76M212 59V73";
    match what {
        Lies::Round => view! {
            {path("fin", "M238 65 290 34Q280 65 290 96Z")}
            {path("fin", "M92 37 104 20 116 31 128 18 140 30 154 20 166 34 182 30 196 44ZM112 101 124 116 140 101ZM172 94 186 108 198 86Z")}
            {path("body", "M34 68C60 26 150 18 242 62V69C150 112 60 108 34 68Z")}
            {path("line", "M70 48Q80 66 70 84")}
            <circle class="eye" cx="56" cy="60" r="4.5"/>
        }
        .into_any(),
        Lies::Flat | Lies::White => view! {
            {path("fin", "M242 58 292 40Q286 65 292 90L242 72Z")}
            {path("fin faint", "M52 46C80 4 196 2 252 54V76C196 128 80 126 52 84Z")}
            {path("body", "M34 65C60 18 186 10 246 58V72C186 120 60 112 34 65Z")}
            {path("line", "M78 46Q90 66 78 86M96 65H242")}
            {(what == Lies::Flat).then(|| view! { <circle class="eye" cx="54" cy="54" r="4"/><circle class="eye" cx="66" cy="64" r="4"/> })}
        }
        .into_any(),
        Lies::Fillet => view! {
            {path("flesh", "M40 50C90 24 200 34 290 62 230 92 110 112 52 98Q34 74 40 50Z")}
            {path("line", "M54 68l6-8M68 67l6-8M82 66l6-8M96 66l6-8M110 65l6-8M124 65l6-8M138 64l6-8")}
            {path("line faint", "M46 74C110 62 200 62 286 62")}
        }
        .into_any(),
        Lies::Quarter => path("flesh", "M38 60C60 24 200 20 290 62 210 92 90 94 38 60Z").into_any(),
        Lies::Frame => view! {
            {path("fin", "M238 65 290 34Q280 65 290 96Z")}
            {path("body", "M34 68C48 44 66 34 88 32Q72 66 92 102C66 98 46 88 34 68Z")}
            {path("line marked", bones)}
            <circle class="eye" cx="56" cy="60" r="4.5"/>
        }
        .into_any(),
    }
}

fn tool(tool: Tool) -> Option<AnyView> {
    let paths: &[(&str, &str)] = match tool {
        Tool::Knife => &[
            ("blade", "M0 0Q26-9 56-10V2Q26 5 0 0Z"),
            ("grip", "M56-10h34q7 0 7 7t-7 7H56Z"),
        ],
        Tool::Scissors => &[
            ("blade", "M0-6 46 8M0 8 46-6"),
            (
                "grip",
                "M46-6q18-10 22 0t-22 14q0 0 0-6M46 8q18 10 22 0T46-6",
            ),
        ],
        Tool::Pliers => &[
            ("blade", "M0 0 22-5M0 0 22 5"),
            ("grip", "M22-5 70-13M22 5 70 13M22-5V5"),
        ],
        Tool::Cloth => &[("cloth", "M-26-14q13-6 26 0t26 0v28q-13 6-26 0t-26 0Z")],
        Tool::None => return None,
    };
    let paths = paths
        .iter()
        .map(|(class, d)| view! { <path class=*class d=*d/> });
    Some(paths.collect_view().into_any())
}

fn placed((x, y, turn): At) -> String {
    format!("translate({x} {y}) rotate({turn})")
}

/// The drawing itself.
pub fn view(of: Drawing) -> AnyView {
    let side = if of.mirrored {
        "translate(320 0) scale(-1 1)"
    } else {
        ""
    };
    let hand = of.hand.map(|at| {
        view! { <path class="hand" transform=placed(at) d="M-24-6q0-8 8-8h8l14 6h22a4 4 0 0 1 0 9H12h22a4 4 0 0 1 0 9H12h18a4 4 0 0 1 0 9H10h10a4 4 0 0 1 0 9H-8q-16 0-16-14Z"/> }
    });
    let held = view! { <g transform=placed(of.at)>{tool(of.tool)}</g> };
    let held = match of.moves {
        Some((x, y)) => view! {
            <g class="stroke" style=("--x", format!("{x}px")) style=("--y", format!("{y}px"))>{held}</g>
        }
        .into_any(),
        None => held.into_any(),
    };
    view! {
        <svg class="picture cutpic" viewBox="0 0 320 130" aria-hidden="true">
            <rect class="board" x="4" y="8" width="312" height="114" rx="10"/>
            <g transform=side>
                {lies(of.lies)}
                <path class="area" d=of.area/>
                <path class="cut" d=of.line/>
                {hand}
                {held}
                <path class="way" d=of.way/>
            </g>
        </svg>
    }
    .into_any()
}
