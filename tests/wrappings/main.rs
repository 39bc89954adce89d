//! The one reader of codes against the ways in which codes arrive: a thousand codes in each wrapping, and text without any.
//!
//! How messages look when they are copied or exported is common practice, no source; quoting and wrapping of mails is RFC
//! 3676 and RFC 2045. The other text is what stands in such messages beside codes, much of it of the same letters.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::string_slice,
    missing_docs
)]

mod other_text;
mod wraps;

use std::collections::{BTreeSet, HashMap};

use scaleside::base::filleted::FilletAnswer;
use scaleside::base::kit::Kit;
use scaleside::code::day::Day;
use scaleside::code::find::{Findings, find};
use scaleside::code::letters::Code;
use scaleside::code::opening::open;
use scaleside::code::sheet::{Nickname, Sheet, Student, Technique};
use scaleside::trade::mass::Mass;

/// A random number generator with a published definition (SplitMix64), so that a failure can be repeated.
pub struct Draws(pub u64);

impl Draws {
    pub fn draw(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ z >> 30).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ z >> 27).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ z >> 31
    }

    pub fn below(&mut self, most: usize) -> usize {
        (self.draw() % most as u64) as usize
    }

    pub fn of<'a, T: ?Sized>(&mut self, all: &[&'a T]) -> &'a T {
        all[self.below(all.len())]
    }
}

/// So many results of an invented class, all different, and alike as those of a class are.
pub fn codes(count: usize, draws: &mut Draws) -> Vec<Code> {
    let table = include_str!("../vectors/class_thirty.txt");
    let sheets: Vec<Sheet> = table
        .lines()
        .filter_map(|line| Some(open(line.split_once(": ")?.1).ok()?.sheet))
        .collect();
    let mut known = BTreeSet::new();
    let mut codes = Vec::new();
    while codes.len() < count {
        let mut sheet = sheets[draws.below(sheets.len())].clone();
        let whole = 250 + draws.below(3_000) as i64;
        sheet.weights.delivered = Mass::from_mg(whole * 1_000);
        sheet.weights.ready = Mass::from_mg(whole * (350 + draws.below(150) as i64));
        sheet.weights.ready = Mass::from_mg(sheet.weights.ready.mg() / 1_000 * 1_000);
        sheet.weights.off_bone =
            (draws.below(3) > 0).then(|| Mass::from_mg(sheet.weights.ready.mg() + 24_000));
        sheet.day = Day::new(2_300 + draws.below(60) as u16).unwrap();
        sheet.count = [1, 1, 1, 4][draws.below(4)];
        if draws.below(4) == 0 {
            sheet.price = None;
        }
        if draws.below(2) == 0 {
            sheet.cooked = None;
        }
        if draws.below(2) == 0 {
            sheet.missing.insert(Kit::Pliers);
        }
        if draws.below(2) == 0 {
            let told = [
                [FilletAnswer::SkinOn, FilletAnswer::SkinOff][draws.below(2)],
                [FilletAnswer::FlexibleKnife, FilletAnswer::StiffKnife][draws.below(2)],
                [FilletAnswer::PinBonesPulled, FilletAnswer::PinBonesCut][draws.below(2)],
            ];
            sheet.technique = Technique::Told(told.into_iter().collect());
        }
        sheet.student = Nickname::numbered(702 + draws.below(400_000) as u32)
            .filter(|_| draws.below(10) > 0)
            .map(|nickname| Student { nickname, test: 1 });
        let code = Code::of(&sheet).unwrap();
        if known.insert(code.clone()) {
            codes.push(code);
        }
    }
    codes
}

/// How many of the codes are found, how many found are none of them, and how many are put right on the way.
fn read(codes: &[Code], text: &str) -> (usize, usize, usize, Findings) {
    let findings = find(text);
    let mut wanted: HashMap<&Code, bool> = codes.iter().map(|code| (code, false)).collect();
    let (mut other, mut mended) = (0, 0);
    for found in &findings.found {
        match wanted.get_mut(&found.opened.code) {
            Some(seen) => *seen = true,
            None => other += 1,
        }
        mended += usize::from(found.opened.mending().is_some());
    }
    (
        wanted.values().filter(|seen| **seen).count(),
        other,
        mended,
        findings,
    )
}

/// A hundred codes a text, as a class has them; the wrappings see their neighbours.
#[test]
fn a_thousand_codes_of_each_wrapping_are_all_found() {
    println!(
        "{:>44} {:>7} {:>6} {:>7}",
        "wrapping", "recall", "false", "mended"
    );
    for (name, wrap) in wraps::ALL {
        let mut draws = Draws(14);
        let codes = codes(1_000, &mut draws);
        let (mut recall, mut other, mut mended) = (0, 0, 0);
        for class in codes.chunks(100) {
            let text = wrap(class, &mut draws);
            let (found, none, put_right, findings) = read(class, &text);
            if found < class.len() && recall % 100 == 0 {
                println!("{name}: {:.400}\n{:?}", text, findings.refused.first());
            }
            recall += found;
            other += none;
            mended += put_right;
        }
        println!("{name:>44} {recall:>7} {other:>6} {mended:>7}");
        assert_eq!((recall, other), (1_000, 0), "{name}");
        assert_eq!(mended, 0, "{name}: whole codes need no mending");
    }
}

/// With one letter missing, too many or wrong, or two neighbours changed over: found. What is past mending is listed.
#[test]
fn a_thousand_codes_with_each_slip_are_found_or_listed() {
    println!(
        "{:>44} {:>7} {:>6} {:>7}",
        "slip", "recall", "false", "listed"
    );
    for (name, slip, found_all) in wraps::SLIPS {
        for (how, wrap) in wraps::ALL
            .iter()
            .filter(|(how, _)| wraps::FOR_SLIPS.contains(how))
        {
            let mut draws = Draws(15);
            let codes = codes(1_000, &mut draws);
            let (mut recall, mut other, mut listed) = (0, 0, 0);
            for class in codes.chunks(100) {
                let (spoilt, text) = wraps::spoil(class, slip, wrap, &mut draws);
                let (found, none, _, findings) = read(class, &text);
                recall += found;
                other += none;
                listed += findings.refused.len().min(spoilt);
            }
            println!("{name:>26}, {how:>16} {recall:>7} {other:>6} {listed:>7}");
            assert_eq!(other, 0, "{name}, {how}");
            if found_all {
                assert_eq!(recall, 1_000, "{name}, {how}");
            } else {
                // Where its end is missing, what stands next may mend it; and where half of it are small letters without
                // a digit, it may pass for words.
                assert!(
                    recall + listed >= 995,
                    "{name}, {how}: they are asked for again"
                );
                assert!(recall < 5, "{name}, {how}");
            }
        }
    }
}

fn nothing_opens_in(letters: usize, seed: u64) {
    let mut draws = Draws(seed);
    let (mut read, mut opened, mut listed) = (0, 0, 0);
    while read < letters {
        let text = other_text::some(&mut draws);
        read += text.chars().filter(char::is_ascii_alphanumeric).count();
        let findings = find(&text);
        opened += findings.found.len();
        if listed == 0 && !findings.refused.is_empty() {
            println!("{:?}", findings.refused.first());
        }
        listed += findings.refused.len();
    }
    println!(
        "{read} letters of other text: {opened} opened, {listed} listed as looking like a code"
    );
    assert_eq!(opened, 0);
}

#[test]
fn nothing_opens_in_other_text() {
    nothing_opens_in(300_000, 16);
}

/// Ten million letters: half a minute in a release build.
#[test]
#[ignore = "long"]
fn nothing_opens_in_ten_million_letters_of_other_text() {
    nothing_opens_in(10_000_000, 17);
}

/// What stands in a mail and is nobody's business: none of it is kept.
#[test]
fn what_is_private_in_a_mail_is_not_kept() {
    let code = codes(1, &mut Draws(18)).remove(0);
    let text = format!(
        "Message-ID: <CAEf8K3Qx9ABCDtuv7WZ2yR5hJ6mN4pT1sV0@mail.example>\nX-Id: <20260309-1203-11AB-CD34.7K3M9Q2Y@host.example>\n\
         From: Tern <tern.2026@school.example>\nSubject: my fish\n\n{code}\n\nBank: GB29 NWBK 6016 1331 9268 19\n\
         DE89370400440532013000, FR14 2004 1010 0505 0001 3M02 606\nMT84 MALT 0110 0001 2345 MTLC AST0 01S\nCall +44 7700 900123\n\
         550e8400-e29b-41d4-a716-446655440000\nhttps://host.example/track?id=3K7M9QRS2Y4WWFEP6BV7BSFS\n"
    );
    let findings = find(&text);
    assert_eq!(findings.found.len(), 1);
    assert_eq!(findings.refused, []);
    // Also where the text ends with it.
    let last = "X-Id: <20260309-1203-11AB-CD34.7K3M9Q2Y@host.example>";
    assert_eq!(find(last).refused, []);
}
