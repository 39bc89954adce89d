//! How codes arrive: each wrapping makes one text of a class's codes.

use scaleside::code::letters::Code;

use super::Draws;

type Wrap = fn(&[Code], &mut Draws) -> String;

const NAMES: [&str; 6] = ["Tern", "Gull", "Kite", "Wren Sand", "Ibis", "Rook"];
const CHATTER: [&str; 8] = [
    "Good morning all, here is mine",
    "have you got this one? It took me 25 min",
    "lost the 2nd fillet, sorry",
    "see you at 12:30 in room 4B",
    "ok",
    "1 bream, 648 g, 2 portions at 15.40",
    "that was number 7 of 12",
    "Mike and Charlie are at the golf hotel",
];

fn groups(code: &Code) -> Vec<String> {
    code.to_string().split('-').map(str::to_owned).collect()
}

fn run(code: &Code) -> String {
    code.to_string().replace('-', "")
}

/// Each code by `one`, with a line of chatter before it.
fn each(codes: &[Code], draws: &mut Draws, one: impl Fn(&Code, &mut Draws) -> String) -> String {
    codes
        .iter()
        .map(|code| format!("{}\n{}\n", draws.of(&CHATTER), one(code, draws)))
        .collect()
}

fn between(codes: &[Code], draws: &mut Draws, mark: &str) -> String {
    each(codes, draws, |code, _| groups(code).join(mark))
}

fn numbered(
    codes: &[Code],
    draws: &mut Draws,
    write: impl Fn(usize, &str) -> String,
    end: &str,
) -> String {
    each(codes, draws, |code, _| {
        let numbered: Vec<String> = (1..)
            .zip(groups(code))
            .map(|(nth, group)| write(nth, &group))
            .collect();
        numbered.join(end)
    })
}

fn stamp(draws: &mut Draws) -> (usize, usize) {
    (8 + draws.below(10), draws.below(60))
}

/// A code in two or three messages, each with the head that `head` writes.
fn messages(
    codes: &[Code],
    draws: &mut Draws,
    head: impl Fn(&str, (usize, usize)) -> String,
) -> String {
    let mut text = String::new();
    for code in codes {
        let groups = groups(code);
        let (a, b) = groups.split_at(1 + draws.below(groups.len() - 1));
        let name = draws.of(&NAMES);
        let at = stamp(draws);
        text += &format!("{}{}\n", head(name, at), a.join("-"));
        if draws.below(3) == 0 {
            // Somebody else writes between the two.
            let other = NAMES.iter().find(|other| **other != name).unwrap();
            text += &format!("{}{}\n", head(other, at), draws.of(&CHATTER));
        }
        text += &format!("{}{}\n", head(name, at), b.join("-"));
        text += &format!(
            "{}{}\n",
            head(draws.of(&NAMES), stamp(draws)),
            draws.of(&CHATTER)
        );
    }
    text
}

fn link(code: &Code) -> String {
    format!("https://host.example/kitchen/{}", code.link())
}

/// Broken after so many characters, each line with `before`.
fn broken(text: &str, width: usize, before: &str, end: &str) -> String {
    let letters: Vec<char> = text.chars().collect();
    let lines: Vec<String> = letters
        .chunks(width)
        .map(|line| format!("{before}{}", line.iter().collect::<String>()))
        .collect();
    lines.join(&format!("{end}\n"))
}

fn mixed_up(text: &str, draws: &mut Draws) -> String {
    let swap = |letter: char, draws: &mut Draws| match letter {
        '0' => draws.of(&["0", "O", "o"]).to_owned(),
        '1' => draws.of(&["1", "I", "l", "i", "L"]).to_owned(),
        other => other.to_string(),
    };
    text.chars().map(|letter| swap(letter, draws)).collect()
}

pub const ALL: [(&str, Wrap); 40] = [
    ("as the app writes it", |c, d| between(c, d, "-")),
    ("run together", |c, d| between(c, d, "")),
    ("small letters, spaces", |c, d| {
        between(c, d, " ").replace("  ", " ").to_lowercase()
    }),
    ("several spaces", |c, d| between(c, d, "   ")),
    ("commas", |c, d| between(c, d, ", ")),
    ("commas without a space", |c, d| between(c, d, ",")),
    ("dots", |c, d| between(c, d, ".")),
    ("slashes", |c, d| between(c, d, " / ")),
    ("dashes", |c, d| between(c, d, " \u{2013} ")),
    ("long dashes", |c, d| between(c, d, "\u{2014}")),
    ("underscores", |c, d| between(c, d, "_")),
    ("tabs", |c, d| between(c, d, "\t")),
    ("bars", |c, d| between(c, d, " | ")),
    ("colons and semicolons", |c, d| {
        each(c, d, |code, d| groups(code).join(d.of(&[":", ";", " : "])))
    }),
    ("numbered, a line each", |c, d| {
        numbered(c, d, |nth, group| format!("{nth}. {group}"), "\n")
    }),
    ("numbered in a row", |c, d| {
        numbered(c, d, |nth, group| format!("{nth}. {group}"), " ")
    }),
    ("numbered in brackets", |c, d| {
        numbered(c, d, |nth, group| format!("({nth}) {group}"), ", ")
    }),
    ("numbered without a mark", |c, d| {
        numbered(c, d, |nth, group| format!("{nth} {group}"), "\n")
    }),
    ("Group 1: 2Y4W", |c, d| {
        numbered(c, d, |nth, group| format!("Group {nth}: {group}"), "\n")
    }),
    ("1/10 2Y4W", |c, d| {
        numbered(c, d, |nth, group| format!("{nth}/12 {group}"), "; ")
    }),
    ("bullets", |c, d| {
        numbered(c, d, |_, group| format!("\u{2022} {group}"), "\n")
    }),
    ("hyphens as bullets", |c, d| {
        numbered(c, d, |_, group| format!("- {group}"), "\n")
    }),
    ("a screen copied: letters and words", |c, d| {
        each(c, d, |code, _| {
            let rows: Vec<String> = groups(code)
                .iter()
                .zip(code.spoken())
                .map(|(group, words)| format!("{group}\n{words}"))
                .collect();
            rows.join("\n")
        })
    }),
    ("a screen copied, numbered", |c, d| {
        each(c, d, |code, _| {
            let rows = (1..).zip(groups(code)).zip(code.spoken());
            let rows: Vec<String> = rows
                .map(|((nth, group), words)| format!("{nth}. {group} {words}"))
                .collect();
            rows.join("\n")
        })
    }),
    ("spelling words", |c, d| {
        each(c, d, |code, _| code.spoken().join(", "))
    }),
    ("spelling words, small, a line each", |c, d| {
        each(c, d, |code, _| code.spoken().join("\n").to_lowercase())
    }),
    ("spelling words with their group", |c, d| {
        each(c, d, |code, _| {
            let said: Vec<String> = (1..)
                .zip(code.spoken())
                .map(|(nth, words)| format!("group {nth}: {words}"))
                .collect();
            said.join(". ")
        })
    }),
    ("letter by letter", |c, d| {
        each(c, d, |code, _| {
            run(code).chars().map(|l| format!("{l} ")).collect()
        })
    }),
    ("quoted mail, wrapped", |c, d| {
        each(c, d, |code, d| {
            broken(&code.to_string(), 20 + 5 * d.below(4), "> ", "")
        })
    }),
    ("mail quoted twice, wrapped between groups", |c, d| {
        each(c, d, |code, d| {
            let lines: Vec<String> = groups(code)
                .chunks(2 + d.below(4))
                .map(|line| format!(">> {}", line.join(" ")))
                .collect();
            lines.join("\n")
        })
    }),
    ("link", |c, d| {
        each(c, d, |code, _| format!("<{}>.", link(code)))
    }),
    ("link broken over a line", |c, d| {
        each(c, d, |code, d| {
            broken(&link(code), 45 + d.below(20), "", "")
        })
    }),
    ("link broken and quoted", |c, d| {
        each(c, d, |code, d| {
            broken(&link(code), 45 + d.below(20), "> ", "")
        })
    }),
    ("link broken by RFC 2045", |c, d| {
        each(c, d, |code, d| {
            broken(&link(code), 45 + d.below(20), "", "=")
        })
    }),
    ("code and link of one message", |c, d| {
        each(c, d, |code, _| format!("{code}\n{}", link(code)))
    }),
    ("over two messages, stamp and name", |c, d| {
        messages(c, d, |name, (h, m)| {
            format!("09/03/2026, {h}:{m:02} - {name}: ")
        })
    }),
    ("over two messages, stamp in brackets", |c, d| {
        messages(c, d, |name, (h, m)| {
            format!("[09.03.26, {h}:{m:02}:11] {name}: ")
        })
    }),
    ("over two messages, name above", |c, d| {
        messages(c, d, |name, (h, m)| {
            format!("{name}, [09.03.26 {h}:{m:02}]\n")
        })
    }),
    ("O for 0, I and L for 1", |c, d| {
        each(c, d, |code, d| mixed_up(&code.to_string(), d))
    }),
    ("a table with names", |c, d| {
        let rows = c
            .iter()
            .map(|code| format!("\"{}\";\"{code}\";{}\n", d.of(&NAMES), 300 + d.below(900)));
        rows.collect()
    }),
];

/// The wrappings that slips are tried in.
pub const FOR_SLIPS: [&str; 4] = [
    "as the app writes it",
    "run together",
    "small letters, spaces",
    "numbered, a line each",
];

/// What goes wrong with the letters of a code.
pub type Slip = fn(&mut Vec<char>, &mut Draws);

fn other_than(letter: char, draws: &mut Draws) -> char {
    let letters: Vec<char> = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
        .chars()
        .filter(|other| *other != letter)
        .collect();
    letters[draws.below(letters.len())]
}

fn wrong(letters: &mut [char], count: usize, draws: &mut Draws) {
    let mut places = Vec::new();
    while places.len() < count {
        let place = draws.below(letters.len());
        if !places.contains(&place) {
            letters[place] = other_than(letters[place], draws);
            places.push(place);
        }
    }
}

pub const SLIPS: [(&str, Slip, bool); 8] = [
    (
        "one letter missing",
        |l, d| {
            l.remove(d.below(l.len()));
        },
        true,
    ),
    (
        "one letter too many",
        |l, d| l.insert(d.below(l.len()), other_than('-', d)),
        true,
    ),
    ("one letter wrong", |l, d| wrong(l, 1, d), true),
    ("two letters wrong", |l, d| wrong(l, 2, d), true),
    (
        "neighbours changed over",
        |l, d| {
            let at = d.below(l.len() - 1);
            l.swap(at, at + 1);
        },
        true,
    ),
    ("three letters wrong", |l, d| wrong(l, 3, d), false),
    (
        "two letters missing",
        |l, d| {
            for _ in 0..2 {
                l.remove(d.below(l.len()));
            }
        },
        false,
    ),
    (
        "a group missing",
        |l, d| {
            let at = 4 * d.below(l.len() / 4);
            l.drain(at..at + 4);
        },
        false,
    ),
];

/// The class with the slip in every code, wrapped: how many there are, and the text.
pub fn spoil(class: &[Code], slip: Slip, wrap: &Wrap, draws: &mut Draws) -> (usize, String) {
    // The wrapping takes codes that hold: so they are wrapped whole, and then each is replaced group by group.
    let mut text = String::new();
    for code in class {
        let mut letters: Vec<char> = run(code).chars().collect();
        slip(&mut letters, draws);
        let whole = wrap(std::slice::from_ref(code), draws);
        text += &replaced(&whole, code, &letters);
    }
    (class.len(), text)
}

/// The text of a code with other letters in the place of its own, in fours.
fn replaced(whole: &str, code: &Code, letters: &[char]) -> String {
    let mut spoilt = letters
        .chunks(4)
        .map(|group| group.iter().collect::<String>());
    let small =
        whole.contains(&groups(code)[0].to_lowercase()) && !whole.contains(&groups(code)[0]);
    let mut text = whole.to_owned();
    let mut from = 0;
    for group in groups(code) {
        let group = if small { group.to_lowercase() } else { group };
        let at = from + text[from..].find(&group).unwrap();
        let new = spoilt.next().unwrap_or_default();
        let new = if small { new.to_lowercase() } else { new };
        text.replace_range(at..at + group.len(), &new);
        from = at + new.len();
    }
    let rest: String = spoilt.collect();
    text.insert_str(from, &rest);
    text
}
