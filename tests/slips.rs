//! Slips of the scale, of a key and of the slip, asked about before the knife: each a question, none a refusal, and
//! nothing typed is lost.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use scaleside::base::instant::Instant;
use scaleside::base::kit::Kit;
use scaleside::compare::test::Test;
use scaleside::fish::action::Action;
use scaleside::fish::record::Fish;
use scaleside::fish::settings::{Preference, Settings};
use scaleside::fish::slip::Species;
use scaleside::fish::weighing::{Doubt, Judgement, Key, Remedy, Which};
use scaleside::store::entry::Entry;
use scaleside::trade::breakdown::DeliveryForm;
use scaleside::trade::mass::{Mass, Scale, Unit};

const NOW: Instant = Instant(1_800_000_000_000);

fn after(fish: &Fish, actions: &[Action]) -> Fish {
    actions.iter().fold(fish.clone(), |fish, action| {
        fish.apply(action, NOW).expect("the tap is taken")
    })
}

fn keyed(fish: &Fish, which: Which, text: &str) -> Fish {
    let keys = text.chars().map(|letter| match letter {
        '+' => Key::Plus,
        '.' => Key::Point,
        figure => Key::Figure(u8::try_from(figure.to_digit(10).unwrap()).unwrap()),
    });
    keys.fold(
        after(fish, &[Action::Key(which, Key::Clear)]),
        |fish, key| after(&fish, &[Action::Key(which, key)]),
    )
}

fn taken(fish: &Fish, which: Which, text: &str) -> Fish {
    after(
        &keyed(fish, which, text),
        &[Action::Take { which, sure: false }],
    )
}

fn bream(scale: Scale) -> Fish {
    after(
        &Fish::new("a1".into(), NOW, &Settings::default()),
        &[
            Action::Species(Species::Listed("gilthead_bream".into())),
            Action::Form(DeliveryForm::Whole),
            Action::Price("15.40".into()),
            Action::Scale(scale),
            Action::Raw(true),
        ],
    )
}

/// A 742 g bream on a 5 g scale with a figure lost or doubled: its size is asked about, whatever the scale's step.
#[test]
fn the_step_of_the_scale_never_hides_a_question_about_size() {
    let fish = bream(Scale::FIVE_GRAMS);
    for (text, sizes, steps) in [
        ("74", true, true),
        ("7421", true, true),
        ("75", true, false),
        ("742", false, true),
        ("740", false, false),
    ] {
        let doubts = keyed(&fish, Which::Whole, text).doubts(Which::Whole);
        let size = doubts
            .iter()
            .position(|doubt| matches!(doubt, Doubt::OneFish(_)));
        let step = doubts
            .iter()
            .position(|doubt| matches!(doubt, Doubt::BetweenSteps(_)));
        assert_eq!((size.is_some(), step.is_some()), (sizes, steps), "{text}");
        assert!(
            size <= step || step.is_none(),
            "{text}: its size comes first"
        );
        let asked = keyed(&fish, Which::Whole, text).apply(
            &Action::Take {
                which: Which::Whole,
                sure: false,
            },
            NOW,
        );
        assert_eq!(asked.is_err(), sizes || steps, "{text}");
    }
}

#[test]
fn two_fish_typed_as_one_are_asked_about_and_said_in_one_tap() {
    let fish = keyed(&bream(Scale::ONE_GRAM), Which::Whole, "5200");
    let doubt = fish.doubts(Which::Whole).remove(0);
    assert_eq!(doubt.remedy(), Some(Remedy::TwoFish), "{doubt}");
    let two = after(&fish, &[Action::Count("2".into())]);
    assert!(matches!(two.judge(Which::Whole), Judgement::Fine(_)));
    assert_eq!(two.whole.typed, "5200");
}

/// The first weight was keyed as 460 for 640. 400 g of fillets off it leave 60 g for all the rest, and head, guts and
/// frame on the scale put it right.
#[test]
fn head_and_frame_rescue_a_wrong_first_weight() {
    let fish = keyed(
        &taken(&bream(Scale::ONE_GRAM), Which::Whole, "460"),
        Which::OffBone,
        "400",
    );
    let doubt = fish.doubts(Which::OffBone).remove(0);
    assert_eq!(doubt.remedy(), Some(Remedy::HeadAndFrame));
    assert!(
        doubt
            .to_string()
            .contains("leaves 60 g for head, guts, bones"),
        "{doubt}"
    );
    let frame = keyed(&fish, Which::Frame, "240");
    assert_eq!(
        frame.whole.typed, "460",
        "nothing typed is lost before it is taken"
    );
    let mended = after(
        &frame,
        &[Action::Take {
            which: Which::Frame,
            sure: false,
        }],
    );
    assert_eq!(mended.taken_mass(Which::Whole).unwrap().mg(), 640_000);
    assert!(matches!(mended.judge(Which::OffBone), Judgement::Fine(_)));
    let none = bream(Scale::ONE_GRAM);
    let refused = keyed(&none, Which::Frame, "240").apply(
        &Action::Take {
            which: Which::Frame,
            sure: true,
        },
        NOW,
    );
    assert!(
        refused
            .unwrap_err()
            .to_string()
            .contains("fillets off the bone first")
    );
    // What is stored of it is read back, and a record of before has none of it.
    let text = serde_json::to_string(&mended).unwrap();
    assert_eq!(serde_json::from_str::<Fish>(&text).unwrap(), mended);
    assert!(!serde_json::to_string(&none).unwrap().contains("frame"));
}

#[test]
fn fillet_is_added_to_fillet_to_the_milligram() {
    let fish = taken(&bream(Scale::TENTH_GRAM), Which::Whole, "648");
    let fish = taken(&fish, Which::OffBone, "168.3+167.9");
    assert_eq!(fish.taken_mass(Which::OffBone).unwrap().mg(), 336_200);
    let fish = taken(&fish, Which::Ready, "151.5+150.5");
    assert_eq!(fish.taken_mass(Which::Ready).unwrap().mg(), 302_000);
    assert_eq!(fish.ready.typed, "151.5+150.5");
    // Each part is what the scale showed, so that only a part can lie between two steps.
    let coarse = after(&fish, &[Action::Scale(Scale::FIVE_GRAMS)]);
    let fine = keyed(&coarse, Which::Ready, "150+150");
    assert_eq!(fine.doubts(Which::Ready), []);
    let odd = keyed(&coarse, Which::Ready, "152+148");
    assert_eq!(
        odd.doubts(Which::Ready),
        [Doubt::BetweenSteps(Scale::FIVE_GRAMS)]
    );
}

/// 151 g of 648 g is 23 %, under the 25 % below which a slip is likelier than a fish; two such fillets give 46.6 %.
#[test]
fn one_fillet_is_said_and_stands_beside_no_yield_of_two() {
    let fish = taken(&bream(Scale::ONE_GRAM), Which::Whole, "648");
    let fish = keyed(&fish, Which::Ready, "151");
    let doubt = fish.doubts(Which::Ready).remove(0);
    assert_eq!(doubt.remedy(), Some(Remedy::OneFillet));
    let fish = after(&fish, &[Action::OneFillet(true)]);
    let fish = after(
        &fish,
        &[Action::Take {
            which: Which::Ready,
            sure: false,
        }],
    );
    let (sheet, why) = fish.yield_sheet().unwrap().unwrap();
    assert_eq!(why, None);
    assert_eq!(sheet.gave.name, "Yield of one fillet from whole");
    assert!(sheet.gave.note.contains("counts both fillets"));
    assert!(
        Test::of(&fish, 0).is_none(),
        "it is not among the cook's own yields"
    );
    let both = after(&fish, &[Action::OneFillet(false)]);
    assert!(Test::of(&both, 0).is_some());
    // Half of one fillet is odd still.
    let half = keyed(&fish, Which::Ready, "70");
    assert!(matches!(half.doubts(Which::Ready)[0], Doubt::Yield(_)));
}

#[test]
fn the_pad_starts_in_the_unit_of_the_scale() {
    let fish = bream(Scale::QUARTER_OUNCE);
    assert_eq!(fish.whole.unit, Unit::Ounce);
    let metric = after(&fish, &[Action::Scale(Scale::TWO_GRAMS)]);
    assert_eq!(metric.whole.unit, Unit::Gram);
    let begun = keyed(&fish, Which::Whole, "23");
    let begun = after(&begun, &[Action::Scale(Scale::TWO_GRAMS)]);
    assert_eq!(
        begun.whole.unit,
        Unit::Ounce,
        "what is keyed keeps its unit"
    );
    let settings = Settings {
        scale: Scale::TENTH_OUNCE,
        unit: Unit::Gram,
        ..Settings::default()
    };
    assert_eq!(
        Fish::new("a2".into(), NOW, &settings).whole.unit,
        Unit::Ounce
    );
}

/// What the bench lacks is said once, and asked anew of no fish; a phone that kept nothing of it lacks nothing.
#[test]
fn what_is_missing_is_remembered_for_the_next_fish() {
    let settings = Settings::default();
    assert!(
        Fish::new("a1".into(), NOW, &settings)
            .slip
            .missing
            .is_empty()
    );
    let without = [
        (Kit::Pliers, true),
        (Kit::Probe, true),
        (Kit::Pliers, false),
    ];
    let said = without.iter().fold(settings, |settings, (kit, missing)| {
        let said = Preference::Missing(*kit, *missing);
        Entry::apply(&settings, &said, NOW).unwrap()
    });
    let next = Fish::new("a2".into(), NOW, &said);
    assert_eq!(next.slip.missing, [Kit::Probe].into());
    let older: Settings = serde_json::from_str("{}").unwrap();
    assert!(older.missing.is_empty());
}

/// A fish that the list does not hold is cut as it lies: the cook says so where the fish is chosen.
#[test]
fn another_flat_fish_is_cut_the_flat_way() {
    let brill = after(
        &Fish::new("a1".into(), NOW, &Settings::default()),
        &[
            Action::Another { flat: true },
            Action::Species(Species::Other("Brill".into())),
            Action::Form(DeliveryForm::Gutted),
        ],
    );
    let cuts = |fish: &Fish| fish.cut_list().iter().map(|cut| cut.id).collect::<Vec<_>>();
    assert!(cuts(&brill).contains(&"flat_middle") && !cuts(&brill).contains(&"back"));
    // Another round one keeps its name, and one of the list lies as the list says.
    let round = after(&brill, &[Action::Another { flat: false }]);
    assert_eq!(round.slip.species, Some(Species::Other("Brill".into())));
    assert!(cuts(&round).contains(&"back"));
    let listed = |key: &str| after(&brill, &[Action::Species(Species::Listed(key.into()))]);
    assert!(cuts(&listed("gilthead_bream")).contains(&"back"));
    assert!(cuts(&listed("flatfish")).contains(&"flat_middle"));
    // A fish of an earlier build has said nothing of it.
    let mut kept = serde_json::to_value(&brill).unwrap();
    kept["slip"].as_object_mut().unwrap().remove("flat");
    let read: Fish = serde_json::from_value(kept).unwrap();
    assert!(cuts(&read).contains(&"back"));
}

/// A fish of 650 g on a scale that shows 2 g with nothing on it, in two tabs' worth of taps: kept with the fish and with
/// the preferences, off each weight that is added up, and gone with the scale.
#[test]
fn what_the_empty_scale_shows_is_kept_and_taken_off() {
    let fish = after(
        &bream(Scale::ONE_GRAM),
        &[Action::Zero(Mass::from_mg(2_000))],
    );
    let fish = taken(&fish, Which::Whole, "652");
    assert_eq!(fish.taken_mass(Which::Whole).unwrap().mg(), 650_000);
    let fish = taken(&fish, Which::OffBone, "170+170");
    assert_eq!(fish.taken_mass(Which::OffBone).unwrap().mg(), 336_000);
    let fish = taken(&fish, Which::Ready, "304");
    let share = fish.breakdown().unwrap().unwrap().yield_ratio();
    assert_eq!(
        share,
        rust_decimal::Decimal::new(302, 0) / rust_decimal::Decimal::new(650, 0)
    );
    assert_eq!(
        fish.read_out(scaleside::place::Stage::WeighReady)
            .as_deref(),
        Some("304 grams: 302 grams")
    );

    // The next fish begins with it, and a change is for the fish to come.
    let settings = Settings::default()
        .apply(&Preference::Zero(Mass::from_mg(2_000)), NOW)
        .unwrap();
    assert_eq!(Fish::new("a2".into(), NOW, &settings).slip.zero.mg(), 2_000);
    let other = settings.apply(&Preference::Scale(Scale::TWO_GRAMS), NOW);
    assert_eq!(other.unwrap().zero, Mass::ZERO);

    // No more than the empty scale shows is no weight.
    let light = keyed(&fish, Which::Ready, "2");
    let Judgement::Wrong(refusal) = light.judge(Which::Ready) else {
        panic!("2 g were taken");
    };
    assert!(refusal.to_string().contains("your scale shows empty"));

    // A fish of an earlier build says nothing of it, and its sums stay.
    let mut old = serde_json::to_value(&fish).unwrap();
    assert_eq!(old["slip"]["zero"], 2_000);
    old["slip"].as_object_mut().unwrap().remove("zero");
    let old: Fish = serde_json::from_value(old).unwrap();
    assert_eq!(old.taken_mass(Which::Whole).unwrap().mg(), 652_000);
    assert!(!serde_json::to_string(&old).unwrap().contains("zero"));
}
