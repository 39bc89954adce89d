//! A plan's times and links in a cook's words.

use super::Edge;
use super::check::Checked;
use crate::base::stretch::stretch;

fn verb(edge: Edge) -> &'static str {
    match edge {
        Edge::Start => "start",
        Edge::End => "end",
    }
}

/// What one side of a link asks for, as the start of a sentence.
pub(super) fn demand(checked: &Checked, link: usize, greatest: bool) -> String {
    let (Some(l), Some(&(a, b))) = (checked.kitchen.links.get(link), checked.ends.get(link)) else {
        return String::new();
    };
    let (from, to) = (checked.name(a), checked.name(b));
    let (does, did) = (verb(l.to_edge), verb(l.from_edge));
    let bound = if greatest {
        l.greatest.unwrap_or(l.least)
    } else {
        l.least
    };
    let time = stretch(bound);
    let (how, side) = match (greatest, bound) {
        (true, 0) => return format!("“{to}” must {does} no later than “{from}” {did}s"),
        (false, 0) => return format!("“{to}” can't {does} before “{from}” {did}s"),
        (true, 1..) => ("at most", "after"),
        (false, 1..) => ("at least", "after"),
        (true, _) => ("at least", "before"),
        (false, _) => ("at most", "before"),
    };
    format!("“{to}” must {does} {how} {time} {side} “{from}” {did}s")
}
