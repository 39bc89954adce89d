//! The job of one fish, tap by tap, without a screen: what is taken, what is questioned, what is refused.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use scaleside::base::instant::Instant;
use scaleside::base::kit::Kit;
use scaleside::fish::action::Action;
use scaleside::fish::demo;
use scaleside::fish::record::{Fish, KeptField};
use scaleside::fish::serving::PlanTap;
use scaleside::fish::settings::Settings;
use scaleside::fish::slip::{SlipLine, Species};
use scaleside::fish::weighing::{Judgement, Key, Which};
use scaleside::journal::JournalTap;
use scaleside::place::Stage;
use scaleside::service::run::Tap;
use scaleside::trade::breakdown::DeliveryForm;
use scaleside::trade::mass::Unit;

const NOW: Instant = Instant(1_800_000_000_000);

fn new_fish() -> Fish {
    Fish::new("a1".into(), NOW, &Settings::default())
}

fn after(fish: &Fish, actions: &[Action]) -> Fish {
    actions.iter().fold(fish.clone(), |fish, action| {
        fish.apply(action, NOW).expect("the tap is taken")
    })
}

fn keys(which: Which, text: &str) -> Vec<Action> {
    text.chars()
        .map(|letter| {
            let key = letter.to_digit(10).map_or(Key::Point, |figure| {
                Key::Figure(u8::try_from(figure).unwrap())
            });
            Action::Key(which, key)
        })
        .collect()
}

fn weighed(fish: &Fish, which: Which, text: &str) -> Fish {
    let fish = after(fish, &[Action::Key(which, Key::Clear)]);
    let fish = after(&fish, &keys(which, text));
    after(&fish, &[Action::Take { which, sure: false }])
}

fn bought(species: &str, form: DeliveryForm, price: &str) -> Fish {
    after(
        &new_fish(),
        &[
            Action::Species(Species::Listed(species.into())),
            Action::Form(form),
            Action::Price(price.into()),
        ],
    )
}

/// Whole sockeye salmon: 7.75 kg as purchased, 2.75 kg trim, 5.00 kg edible portion; the text prints
/// 64.51 % (it cuts off; exactly 64.5161). BC text, as reproduced in NSCC Pressbooks "4.2 Yield Testing".
#[test]
fn the_sockeye_of_the_textbook_comes_out_through_the_keypad() {
    let fish = bought("atlantic_salmon", DeliveryForm::Whole, "10");
    let fish = after(&fish, &[Action::Unit(Which::Whole, Unit::Kilo)]);
    let fish = weighed(&fish, Which::Whole, "7.75");
    let fish = after(&fish, &[Action::Raw(true)]);
    let fish = weighed(&fish, Which::Ready, "5.00");
    let test = fish.yield_test().expect("weighed").expect("fits");
    assert_eq!(test.yield_ratio().round_dp(6).to_string(), "0.645161");
    assert_eq!(
        test.cost_as_purchased().amount.normalize().to_string(),
        "77.5"
    );
    assert_eq!(test.cost_per_kilo().amount.normalize().to_string(), "15.5");
}

#[test]
fn a_slip_says_what_each_line_lacks() {
    let lines = |fish: &Fish| -> Vec<SlipLine> {
        fish.slip
            .read()
            .err()
            .unwrap_or_default()
            .into_iter()
            .map(|(line, _)| line)
            .collect()
    };
    assert_eq!(
        lines(&new_fish()),
        [SlipLine::Species, SlipLine::Form, SlipLine::Price]
    );
    let fish = bought("cod", DeliveryForm::Whole, "12,50");
    assert_eq!(lines(&fish), []);
    for (action, line) in [
        (Action::Price("0".into()), SlipLine::Price),
        (Action::Price("-3".into()), SlipLine::Price),
        (Action::Price("dear".into()), SlipLine::Price),
        (Action::Portions("0".into()), SlipLine::Portions),
        (
            Action::Species(Species::Other("  ".into())),
            SlipLine::Species,
        ),
    ] {
        let fish = after(&fish, std::slice::from_ref(&action));
        assert_eq!(lines(&fish), [line], "{action:?}");
    }
    let typed = after(&fish, &[Action::Price("dear".into())]);
    assert_eq!(
        typed.slip.price, "dear",
        "what was typed stays to be mended"
    );
}

#[test]
fn weights_that_cannot_be_are_refused_with_a_sentence() {
    let fish = bought("cod", DeliveryForm::Whole, "12");
    let fish = weighed(&fish, Which::Whole, "1500");
    let says = |fish: &Fish, which, text: &str| {
        let fish = after(fish, &keys(which, text));
        let refusal = fish
            .apply(&Action::Take { which, sure: true }, NOW)
            .unwrap_err();
        assert!(!fish.reading(which).taken);
        refusal.to_string()
    };
    assert!(says(&fish, Which::OffBone, "1501").contains("more than the whole fish"));
    assert!(says(&fish, Which::Ready, "600").contains("raw"));
    let raw = after(&fish, &[Action::Raw(true)]);
    assert!(says(&raw, Which::Ready, "1501").contains("more than the whole fish"));
    let off_bone = weighed(&raw, Which::OffBone, "700");
    assert!(says(&off_bone, Which::Ready, "701").contains("off the bone"));
    let cooked = after(&fish, &[Action::Raw(false)]);
    assert!(says(&cooked, Which::Ready, "600").contains("counted as trim"));
    assert!(says(&fish, Which::OffBone, "").contains("weight"));
}

#[test]
fn calling_a_taken_weight_cooked_takes_it_back() {
    let fish = bought("cod", DeliveryForm::Whole, "12");
    let fish = after(&weighed(&fish, Which::Whole, "1500"), &[Action::Raw(true)]);
    let fish = weighed(&fish, Which::Ready, "600");
    assert!(fish.yield_test().is_some());
    let fish = after(&fish, &[Action::Raw(false)]);
    assert!(fish.yield_test().is_none());
    assert_eq!(
        fish.ready.typed, "600",
        "the figures stay to be weighed again"
    );
}

#[test]
fn odd_weights_are_questioned_and_taken_when_sure() {
    let fish = bought("cod", DeliveryForm::Whole, "12");
    for text in ["12", "60000"] {
        let odd = after(&fish, &keys(Which::Whole, text));
        assert!(
            matches!(odd.judge(Which::Whole), Judgement::Doubt(_)),
            "{text}"
        );
        assert!(
            odd.apply(
                &Action::Take {
                    which: Which::Whole,
                    sure: false
                },
                NOW
            )
            .is_err()
        );
        let sure = after(
            &odd,
            &[Action::Take {
                which: Which::Whole,
                sure: true,
            }],
        );
        assert!(sure.whole.taken);
    }
    let between = after(&fish, &keys(Which::Whole, "1500.5"));
    let Judgement::Doubt(question) = between.judge(Which::Whole) else {
        panic!("half a gram on a one-gram scale is questioned");
    };
    let question = question.to_string();
    assert!(question.contains("lies between two"), "{question}");
    let whole = after(&weighed(&fish, Which::Whole, "1500"), &[Action::Raw(true)]);
    for text in ["300", "1200"] {
        let odd = after(&whole, &keys(Which::Ready, text));
        assert!(
            matches!(odd.judge(Which::Ready), Judgement::Doubt(_)),
            "{text}"
        );
    }
}

#[test]
fn the_mise_en_place_holds_the_service_back_unless_the_cook_insists() {
    let fish = demo::bream("a1".into(), NOW, &Settings::default());
    let refusal = fish
        .apply(&Action::Start { insist: false }, NOW)
        .unwrap_err();
    assert!(refusal.to_string().contains("not ready yet"), "{refusal}");
    let insisted = after(&fish, &[Action::Start { insist: true }]);
    assert!(insisted.insisted && insisted.run.is_some());
    let lines: Vec<Action> = fish
        .dish()
        .unwrap()
        .mise
        .iter()
        .map(|line| Action::Tick(line.id.clone(), true))
        .collect();
    let ready = after(
        &after(&fish, &lines),
        &[
            Action::Plan(PlanTap::Times(None)),
            Action::Start { insist: false },
        ],
    );
    assert!(!ready.insisted && ready.run.is_some());
    let again = after(&ready, &[Action::Start { insist: false }]);
    assert_eq!(again, ready, "a service under way is not started twice");
}

#[test]
fn the_demo_goes_from_the_slip_to_the_plate() {
    let mut fish = demo::bream("a1".into(), NOW, &Settings::default());
    assert!(fish.demo && fish.slip.read().is_ok());
    let mut stage = Stage::Delivery;
    let mut seen = vec![stage];
    while stage != Stage::Prepare {
        let tap = match stage {
            Stage::WeighWhole => Some(Action::Take {
                which: Which::Whole,
                sure: false,
            }),
            Stage::WeighOffBone => Some(Action::Take {
                which: Which::OffBone,
                sure: false,
            }),
            Stage::WeighReady => {
                fish = after(&fish, &[Action::Raw(true)]);
                Some(Action::Take {
                    which: Which::Ready,
                    sure: false,
                })
            }
            Stage::Fillet(step) => Some(Action::Cut(step + 1)),
            _ => None,
        };
        fish = after(&fish, tap.as_slice());
        let next = fish.stage_after(stage);
        assert_eq!(
            fish.stage_before(next),
            stage,
            "Back leads back from {next:?}"
        );
        stage = next;
        assert!(!seen.contains(&stage), "{stage:?} comes once");
        seen.push(stage);
    }
    assert_eq!(fish.next_stage(), Stage::Prepare);
    assert_eq!(fish.cut, fish.cuts());
    let test = fish.yield_test().unwrap().unwrap();
    // 302 / 648 and 15.40 x 0.648: arithmetic on the demo's own invented figures.
    assert_eq!(test.yield_ratio().round_dp(4).to_string(), "0.4660");
    assert_eq!(
        test.cost_as_purchased().amount.normalize().to_string(),
        "9.9792"
    );

    fish = after(&fish, &[Action::Start { insist: true }]);
    let dish = fish.dish().unwrap().clone();
    let mut now = NOW;
    for step in &dish.steps {
        now = now.plus_secs(300);
        let run = fish.run.clone().unwrap();
        if !run.steps.contains_key(&step.id) {
            fish = fish
                .apply(&Action::Serve(Tap::Begin(step.id.clone())), now)
                .unwrap();
        }
        fish = fish
            .apply(&Action::Serve(Tap::Done(step.id.clone())), now)
            .unwrap();
    }
    assert!(fish.is_served());
    assert_eq!(fish.next_stage(), Stage::Pass);
    fish = fish.apply(&Action::Finish(true), now).unwrap();
    assert_eq!(fish.next_stage(), Stage::Summary);
}

#[test]
fn every_stage_of_every_form_and_bench_leads_on_and_back() {
    for form in DeliveryForm::ALL {
        for missing in [vec![], Kit::ALL.to_vec()] {
            let mut fish = bought("cod", form, "12");
            for kit in missing {
                fish = after(&fish, &[Action::Missing(kit, true)]);
            }
            let mut stage = Stage::Delivery;
            for _ in 0..40 {
                let next = fish.stage_after(stage);
                if next == Stage::Summary {
                    break;
                }
                assert_eq!(fish.stage_before(next), stage, "{form:?}");
                stage = next;
            }
            assert_eq!(stage, Stage::Pass, "{form:?}");
        }
    }
}

#[test]
fn kept_parts_come_off_the_cost_and_no_more_than_eight_are_kept() {
    let fish = bought("cod", DeliveryForm::Whole, "18.90");
    let fish = after(&weighed(&fish, Which::Whole, "2350"), &[Action::Raw(true)]);
    let fish = weighed(&fish, Which::Ready, "1034");
    // By-products of 2.50 in all on 44.415 paid leave 41.915: 40.5368 a usable kilo (worked by hand).
    let keep = |id: &str| Action::Keep(id.into());
    let kept = |id: &str, texts: [&str; 3]| {
        [KeptField::Name, KeptField::Weight, KeptField::Price]
            .into_iter()
            .zip(texts)
            .map(|(field, text)| Action::KeptPart(id.into(), field, text.into()))
            .collect::<Vec<_>>()
    };
    let fish = after(&fish, &[keep("a"), keep("b"), keep("a")]);
    let fish = after(&fish, &kept("a", ["bones and head", "890", "2.00"]));
    let fish = after(&fish, &kept("b", ["trim", "80", "9.00"]));
    let test = fish.yield_test().unwrap().unwrap();
    assert_eq!(test.net_cost().amount.round_dp(3).to_string(), "41.915");
    assert_eq!(
        test.cost_per_kilo().amount.round_dp(4).to_string(),
        "40.5368"
    );
    let full = (0..6).fold(fish.clone(), |fish, nth| {
        after(&fish, &[keep(&format!("c{nth}"))])
    });
    assert!(full.apply(&keep("d"), NOW).is_err());
    let fewer = after(&full, &[Action::Unkeep("a".into())]);
    assert_eq!((fewer.kept.len(), &*fewer.kept[0].name), (7, "trim"));
    for gone in [Action::Unkeep("a".into()), kept("a", ["x"; 3]).remove(0)] {
        let refusal = fewer.apply(&gone, NOW).unwrap_err().to_string();
        assert_eq!(refusal, "This part was removed in another tab.");
    }
}

#[test]
fn a_fish_survives_its_own_storage() {
    let fish = after(
        &demo::bream("a1".into(), NOW, &Settings::default()),
        &[
            Action::Start { insist: true },
            Action::Journal(JournalTap::Note("less salt".into())),
        ],
    );
    let text = serde_json::to_string(&fish).unwrap();
    assert_eq!(serde_json::from_str::<Fish>(&text).unwrap(), fish);
}

/// Who knows the cuts goes by them to the next weighing, and never past it.
#[test]
fn the_cuts_are_gone_by_up_to_the_next_weighing() {
    let fish = demo::bream("a".into(), NOW, &Settings::default());
    for (step, last, scale) in [
        (0, 6, Stage::WeighOffBone),
        (6, 6, Stage::WeighOffBone),
        (7, 11, Stage::WeighReady),
        (11, 11, Stage::WeighReady),
        (99, 99, Stage::WeighReady),
    ] {
        assert_eq!(fish.scale_after(step), (last, scale), "from {step}");
    }
}
