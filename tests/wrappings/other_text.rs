//! Text without a code in it: what else stands in chats and mails, much of it letters and figures.

use super::Draws;

/// What a cook is told and other people's words about their crates: prose of this repository.
const PROSE: [&str; 3] = [
    include_str!("../../README.md"),
    include_str!("../../DEVELOPERS.md"),
    include_str!("../../public/licences.txt"),
];

const LETTERS: &[u8; 32] = b"0123456789ABCDEFGHJKMNPQRSTVWXYZ";

fn letters(count: usize, draws: &mut Draws) -> String {
    (0..count)
        .map(|_| char::from(LETTERS[draws.below(32)]))
        .collect()
}

fn figures(count: usize, draws: &mut Draws) -> String {
    (0..count)
        .map(|_| char::from(b'0' + draws.below(10) as u8))
        .collect()
}

fn line(draws: &mut Draws) -> String {
    match draws.below(14) {
        0 => {
            let count = 24 + draws.below(26);
            letters(count, draws)
        }
        1 => {
            let groups: Vec<String> = (0..6 + draws.below(7)).map(|_| letters(4, draws)).collect();
            groups.join(draws.of(&["-", " ", ", ", ".", "\n"]))
        }
        2 => {
            let groups: Vec<String> = (1..11)
                .map(|nth| format!("{nth}. {}", letters(4, draws)))
                .collect();
            groups.join(draws.of(&["\n", " "]))
        }
        3 => format!("{:016x}{:016x}", draws.draw(), draws.draw()),
        4 => format!(
            "https://host.example/t/{}?id={}",
            letters(12, draws),
            letters(20, draws)
        ),
        5 => format!(
            "Message-ID: <{}.{}@host.example>",
            figures(14, draws),
            letters(10, draws)
        ),
        6 => format!(
            "[09.03.26, 1{}:{}] Tern: {} g, {} g",
            figures(1, draws),
            figures(2, draws),
            figures(3, draws),
            figures(4, draws)
        ),
        7 => (0..10)
            .map(|_| format!("{}\t", figures(4, draws)))
            .collect(),
        8 => (0..30).map(|_| format!("{} ", letters(1, draws))).collect(),
        9 => {
            let words = [
                "zero", "one", "Alfa", "Bravo", "Kilo", "Mike", "seven", "Tango", "Whiskey",
                "Papa", "nine", "Golf",
            ];
            (0..40).map(|_| format!("{} ", draws.of(&words))).collect()
        }
        _ => {
            let text = draws.of(&PROSE);
            let mut from = draws.below(text.len() - 400);
            while !text.is_char_boundary(from) {
                from += 1;
            }
            text[from..].chars().take(300).collect()
        }
    }
}

/// Some ten thousand letters of it.
pub fn some(draws: &mut Draws) -> String {
    let mut text = String::new();
    while text.len() < 15_000 {
        text += &line(draws);
        text.push('\n');
    }
    text
}
