//! A plan's times and links in a cook's words.

use super::check::Checked;
use super::kitchen::Edge;

/// A stretch of time as it is said: `45 s`, `1 min 30 s`, `2 h 5 min`.
#[must_use]
pub fn stretch(secs: i64) -> String {
    let all = secs.unsigned_abs();
    let parts = [(all / 3600, "h"), (all / 60 % 60, "min"), (all % 60, "s")];
    let said: Vec<String> = (parts.iter().filter(|p| p.0 > 0))
        .map(|(n, unit)| format!("{n} {unit}"))
        .collect();
    if said.is_empty() {
        "0 s".to_owned()
    } else {
        said.join(" ")
    }
}

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

#[cfg(test)]
mod tests {
    use super::stretch;

    #[test]
    fn stretches_are_said_as_a_cook_says_them() {
        for (secs, said) in [
            (0, "0 s"),
            (45, "45 s"),
            (60, "1 min"),
            (90, "1 min 30 s"),
            (7500, "2 h 5 min"),
            (-30, "30 s"),
        ] {
            assert_eq!(stretch(secs), said);
        }
    }
}
