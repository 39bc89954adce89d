//! Checks of the file beside this folder, in a file of their own for their length.

use super::*;
use crate::class::roll::Roll;
use crate::code::find::find;
use crate::code::letters::Code;
use crate::code::sheet::{Nickname, Sheet, Student, sample};
use crate::trade::breakdown::Weights;
use crate::trade::mass::Mass;
use crate::trade::money::{Currency, MassPrice, PriceUnit};
use rust_decimal::Decimal;

fn bream(delivered_g: i64, off_bone_g: Option<i64>, ready_g: i64, cents: i64) -> Sheet {
    let grams = |g: i64| Mass::from_mg(g * 1_000);
    Sheet {
        weights: Weights {
            delivered: grams(delivered_g),
            off_bone: off_bone_g.map(grams),
            ready: grams(ready_g),
        },
        price: MassPrice::new(Decimal::new(cents, 2), Currency::Eur, PriceUnit::Kilo).ok(),
        ..sample::full()
    }
}

/// The flags of `odd` in a class of `others` like fish of 44 to 48 %.
fn flagged(odd: Sheet, others: u8) -> Vec<Flag> {
    let rest = (0..others).map(|nth| {
        let grams = 280 + 20 * i64::from(nth % 5) / 4;
        bream(640, Some(grams + 30), grams, 1_500 + i64::from(nth))
    });
    let text: String = (0..)
        .zip(std::iter::once(odd).chain(rest))
        .map(|(nth, mut sheet)| {
            let nickname = Nickname::numbered(nth).unwrap();
            sheet.student = Some(Student { nickname, test: 1 });
            format!("{}\n", Code::of(&sheet).unwrap())
        })
        .collect();
    let roll = Roll::of(find(&text).found);
    assert_eq!(roll.rows().len(), usize::from(others) + 1);
    let mut flags = flags(roll.rows()).into_iter();
    let odd = flags.next().unwrap();
    assert!(flags.all(|flags| flags.is_empty()), "none of the others");
    odd
}

#[test]
fn a_slip_is_named_with_its_reason() {
    for (sheet, others, said) in [
        (bream(640, Some(320), 288, 1_500), 9, vec![]),
        (
            bream(288, Some(320), 640, 1_500),
            0,
            vec!["changed over: the other way round they make a yield of 45.0 %"],
        ),
        (
            bream(640, Some(230), 320, 1_500),
            0,
            vec!["a yield of 35.9 %"],
        ),
        (
            bream(320, Some(640), 288, 1_500),
            0,
            vec!["a yield of 45.0 %"],
        ),
        (
            bream(64, None, 288, 1_500),
            0,
            vec!["weigh more than the fish"],
        ),
        (bream(0, None, 288, 1_500), 0, vec!["its weight is zero"]),
        // Cooked: off the bone as the others, ready a fifth lighter.
        (
            bream(640, Some(318), 230, 1_500),
            9,
            vec!["weighed after cooking: they kept 80 %"],
        ),
        (
            bream(640, None, 230, 1_500),
            23,
            vec!["weighed after cooking: they kept 79 %"],
        ),
        // Not the loss of a pan, and cut badly from the bone on.
        (
            bream(640, Some(230), 207, 1_500),
            23,
            vec!["far below the rest of the class"],
        ),
        (
            bream(640, Some(160), 144, 1_500),
            9,
            vec!["50 % of the class's: were both fillets on the scale?"],
        ),
        (
            bream(640, Some(500), 470, 1_500),
            9,
            vec!["So high that a slip is likely", "far above"],
        ),
        (
            bream(640, Some(500), 470, 1_500),
            0,
            vec!["So high that a slip is likely"],
        ),
        (
            bream(640, Some(320), 288, 15_000),
            9,
            vec!["about ten times what"],
        ),
        (
            bream(640, Some(320), 288, 149),
            9,
            vec!["about a tenth of what"],
        ),
        (
            bream(640, Some(320), 288, 131_000),
            9,
            vec!["about a hundred times what"],
        ),
        (
            bream(640, Some(320), 288, 15),
            9,
            vec!["about a hundredth of what"],
        ),
        (bream(640, Some(320), 288, 3_000), 9, vec![]),
        (
            bream(640, Some(320), 288, 3_310),
            9,
            vec!["The price is 2.2 times what the class paid"],
        ),
        // Wet fillets: not called changed over alone.
        (
            bream(640, Some(288), 296, 1_500),
            9,
            vec!["weigh 2.8 % more ready to cook than off the bone: they were wet, or"],
        ),
        (
            bream(23, Some(11), 10, 1_500),
            9,
            vec![
                "were ounces written down as grams?",
                "A portion weighs, and costs, 1/29 of",
            ],
        ),
        (
            bream(1_411, Some(706), 635, 1_500),
            9,
            vec!["were pounds and kilos changed over?"],
        ),
        (bream(640, Some(320), 288, 15_000), 3, vec![]),
    ] {
        let shown = format!("{sheet:?}");
        let sentences: Vec<String> = flagged(sheet, others).iter().map(Flag::sentence).collect();
        assert_eq!(sentences.len(), said.len(), "{shown} {sentences:?}");
        for (sentence, said) in sentences.iter().zip(said) {
            assert!(sentence.contains(said), "{shown} {sentence}");
        }
    }
}
