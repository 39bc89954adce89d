//! Prints so many result codes, one a line, for the class of the browser's benchmark: `cargo run --example codes 2000`.
#![allow(clippy::unwrap_used)]

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    use scaleside::code::day::Day;
    use scaleside::code::letters::Code;
    use scaleside::code::opening::open;
    use scaleside::code::sheet::{Nickname, Sheet, Student};

    let count: u16 = std::env::args().nth(1).unwrap().parse().unwrap();
    let first = include_str!("../vectors/class_thirty.txt").lines().next();
    let sheet = open(first.unwrap().split_once(": ").unwrap().1)
        .unwrap()
        .sheet;
    // All invented: one student after the other.
    for nth in 0..count {
        let nickname = Nickname::numbered(u32::from(nth)).unwrap();
        let sheet = Sheet {
            day: Day::new(2_000 + nth % 300).unwrap(),
            student: Some(Student { nickname, test: 1 }),
            ..sheet.clone()
        };
        println!("{nickname}: {}", Code::of(&sheet).unwrap());
    }
}

#[cfg(target_arch = "wasm32")]
fn main() {}
