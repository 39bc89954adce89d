//! Every kind of tap on every kind of record, made from a seed and from what the tab that taps has on its screen; and
//! what may differ afterwards.

use scaleside::base::filleted::FilletAnswer;
use scaleside::base::kit::Kit;
use scaleside::base::part::Part;
use scaleside::cards::ingredient::{Ingredient, Origin};
use scaleside::cards::pan::{Contact, KeptPan, PanTap};
use scaleside::cards::quote::{Quote, QuoteAction};
use scaleside::cards::recipe::{Recipe, RecipeAction, Serves};
use scaleside::class::class_list::{Class, ClassAction};
use scaleside::class::lesson::{Criterion, LessonAction, TutorSays};
use scaleside::class::settled::{Ruling, Settled};
use scaleside::fish::action::Action;
use scaleside::fish::alongside::AlongsideTap;
use scaleside::fish::bought::SpeciesForm;
use scaleside::fish::credit::{Credit, CreditTap, Shown};
use scaleside::fish::demo;
use scaleside::fish::heat_card::{HeatCard, HeatField, HeatTap, PanCard};
use scaleside::fish::pan_reading::PanReading;
use scaleside::fish::record::{Fish, KeptField};
use scaleside::fish::serving::PlanTap;
use scaleside::fish::settings::{Preference, Settings};
use scaleside::fish::slip::Species;
use scaleside::fish::weighing::{Key, Which};
use scaleside::heat::pan::Surface;
use scaleside::journal::JournalTap;
use scaleside::service::dish::shipped;
use scaleside::service::run::Tap;
use scaleside::store::entry::Entry;
use scaleside::trade::breakdown::DeliveryForm;
use scaleside::trade::mass::{Scale, Unit};
use scaleside::trade::money::{Currency, PriceUnit};
use scaleside::trade::plate::units::QuantityUnit;

use crate::bench::NOW;

/// What a tap names is all that it changes.
pub trait Named: Entry {
    /// Panics where something else is different in `after`.
    fn differs_only_where(&self, _after: &Self, _tap: &Self::Action) {}
}

/// The parts of two lists are the same, and in the same order, but for the one that was named.
fn same_but<P: Part + PartialEq + std::fmt::Debug>(before: &[P], after: &[P], named: Option<&str>) {
    let others = |parts: &[P]| -> Vec<usize> {
        let others = parts.iter().enumerate();
        let others = others.filter(|(_, part)| Some(part.id()) != named);
        others.map(|(nth, _)| nth).collect()
    };
    let (left, right) = (others(before), others(after));
    assert_eq!(left.len(), right.len(), "{before:?} {after:?} {named:?}");
    for (left, right) in left.into_iter().zip(right) {
        assert_eq!(before[left], after[right], "{named:?}");
    }
}

impl Named for Recipe {
    fn differs_only_where(&self, after: &Self, tap: &RecipeAction) {
        let named = match tap {
            RecipeAction::AddLine(id) | RecipeAction::DropLine(id) => Some(id),
            RecipeAction::Line { id, was, is } => {
                let line = |card: &Self| -> Ingredient {
                    card.lines
                        .iter()
                        .find(|line| line.id == *id)
                        .unwrap()
                        .clone()
                };
                let (mut before, after) = (line(self), line(after));
                // Only what differs between the two is typed anew.
                if was.name != is.name {
                    before.name.clone_from(&is.name);
                }
                if was.quantity != is.quantity {
                    before.quantity.clone_from(&is.quantity);
                }
                if was.unit != is.unit {
                    before.unit = is.unit;
                }
                if was.origin != is.origin {
                    before.origin.clone_from(&is.origin);
                }
                assert_eq!(before, after);
                Some(id)
            }
            _ => None,
        };
        same_but(&self.lines, &after.lines, named.map(String::as_str));
        if named.is_some() {
            let without = |card: &Self| Self {
                lines: Vec::new(),
                ..card.clone()
            };
            assert_eq!(without(self), without(after));
        }
    }
}

impl Named for Fish {
    fn differs_only_where(&self, after: &Self, tap: &Action) {
        let named = match tap {
            Action::Keep(id) | Action::KeptPart(id, ..) | Action::Unkeep(id) => Some(id),
            _ => None,
        };
        if let Action::Filleted(answer) = tap {
            let mut before = self.clone();
            before.filleted.tell(*answer);
            assert_eq!(&before, after);
        }
        same_but(&self.kept, &after.kept, named.map(String::as_str));
        let dish = match tap {
            Action::Plan(PlanTap::Alongside(
                AlongsideTap::Add(id, _)
                | AlongsideTap::Covers(id, _)
                | AlongsideTap::Later(Some(id), _)
                | AlongsideTap::Out(id),
            )) => Some(id),
            _ => None,
        };
        let dishes = |fish: &Self| fish.serving().alongside.clone();
        same_but(&dishes(self), &dishes(after), dish.map(String::as_str));
        if named.is_some() {
            let without = |fish: &Self| {
                let mut fish = fish.clone();
                fish.kept.clear();
                fish
            };
            assert_eq!(without(self), without(after));
        }
    }
}

/// A tap on the dishes that are served with a fish.
fn on_the_dishes(fish: &Fish, number: usize, seed: u32, text: String) -> AlongsideTap {
    let with_it: Vec<String> = (fish.serving().alongside.iter())
        .map(|one| one.id.clone())
        .collect();
    match (seed % 8, pick(&with_it, seed / 8)) {
        (5, Some(id)) => AlongsideTap::Covers(id, text),
        (6, Some(id)) => AlongsideTap::Later(Some(id), text),
        (7, Some(id)) => AlongsideTap::Out(id),
        _ => AlongsideTap::Add(format!("dish{number}"), None),
    }
}

impl Named for Class {}
impl Named for Quote {}
impl Named for KeptPan {}
impl Named for Credit {}
impl Named for Settings {}

/// Answers to each of the questions of the filleting.
const FILLETED: [FilletAnswer; 6] = [
    FilletAnswer::SkinOn,
    FilletAnswer::SkinOff,
    FilletAnswer::PinBonesCut,
    FilletAnswer::PinBonesLeft,
    FilletAnswer::StiffKnife,
    FilletAnswer::TwoFillets,
];

fn pick<T: Clone>(from: &[T], seed: u32) -> Option<T> {
    from.get(seed as usize % from.len().max(1)).cloned()
}

/// A dish with lines that have no identity yet, as the first builds stored them.
pub fn card(names: &[&str]) -> Recipe {
    let mut card = Recipe::new(Serves::Covers, NOW, &Settings::default());
    card.lines = names
        .iter()
        .map(|&name| Ingredient {
            name: name.into(),
            ..Ingredient::default()
        })
        .collect();
    card
}

pub fn of_card(card: &Recipe, number: usize, seed: u32) -> RecipeAction {
    let text = number.to_string();
    let line = pick(&card.lines, seed / 16);
    match (seed % 16, line) {
        (0 | 1, _) => RecipeAction::AddLine(format!("new{number}")),
        (2..=4, Some(line)) => RecipeAction::DropLine(line.id),
        (5..=10, Some(line)) => {
            let mut is = line.clone();
            match seed % 4 {
                0 => is.name = text,
                1 => is.quantity = text,
                2 => is.unit = pick(&QuantityUnit::ALL, seed / 64).unwrap(),
                _ => is.origin = Origin::OwnFish(text),
            }
            let id = line.id.clone();
            RecipeAction::Line {
                id,
                was: Box::new(line),
                is: Box::new(is),
            }
        }
        (11, _) => RecipeAction::Name(text),
        (12, _) => RecipeAction::Covers(text),
        (13, _) => {
            let mut is = shipped::by_id("fillet").unwrap().clone();
            is.name = text;
            let was = card.steps.clone();
            RecipeAction::Steps {
                was,
                is: Box::new(is),
            }
        }
        (14, _) => RecipeAction::Journal(JournalTap::Plate(text, seed.is_multiple_of(2))),
        _ => RecipeAction::Method(text),
    }
}

pub fn fish() -> Fish {
    demo::bream("bream".into(), NOW, &Settings::default())
}

pub fn of_fish(fish: &Fish, number: usize, seed: u32) -> Action {
    let text = number.to_string();
    let kept = pick(&fish.kept, seed / 32).map(|kept| kept.id);
    let which = pick(&[Which::Whole, Which::OffBone, Which::Ready], seed / 32).unwrap();
    let steps: Vec<String> = fish
        .dish()
        .unwrap()
        .steps
        .iter()
        .map(|step| step.id.clone())
        .collect();
    let step = pick(&steps, seed / 64).unwrap();
    match (seed % 32, kept) {
        (0..=3, _) => Action::Keep(format!("new{number}")),
        (30, _) => Action::Filleted(pick(&FILLETED, seed / 32).unwrap()),
        (4..=8, Some(id)) => {
            let fields = [KeptField::Name, KeptField::Weight, KeptField::Price];
            Action::KeptPart(id, pick(&fields, seed / 128).unwrap(), text)
        }
        (9..=11, Some(id)) => Action::Unkeep(id),
        (12, _) => Action::Species(Species::Other(text)),
        (13, _) => Action::Form(pick(&DeliveryForm::ALL, seed / 32).unwrap()),
        (14, _) => Action::Price(text),
        (15, _) => Action::Key(which, Key::Figure((seed / 32 % 10) as u8)),
        (16, _) => Action::Unit(which, Unit::Kilo),
        (17, _) => Action::Take { which, sure: true },
        (18, _) => Action::Raw((seed / 32).is_multiple_of(2)),
        (19, _) => Action::Tick(step, (seed / 32).is_multiple_of(2)),
        (20, _) => Action::Fridge((seed / 32).is_multiple_of(2)),
        (21, _) => Action::Missing(Kit::Pliers, (seed / 32).is_multiple_of(2)),
        (22, _) => Action::Start { insist: true },
        (23, _) => Action::Serve(Tap::Begin(step)),
        (24, _) => Action::Serve(Tap::Done(step)),
        (25, _) => Action::StartAgain,
        (26, _) if (seed / 32).is_multiple_of(4) => Action::Plan(PlanTap::Pans(1 + seed / 128 % 2)),
        (26, _) => Action::Plan(PlanTap::Alongside(on_the_dishes(
            fish,
            number,
            seed / 32,
            text,
        ))),
        (27, _) => Action::Heat(HeatTap::Typed(HeatField::Core, text)),
        (28, _) => Action::Heat(HeatTap::Probe(text)),
        (29, _) => Action::Journal(JournalTap::Note(text)),
        _ => Action::Portion(text),
    }
}

pub fn class() -> Class {
    Class::new("Tuesday", NOW).unwrap()
}

fn of_lesson(class: &Class, code: String, number: usize, seed: u32) -> LessonAction {
    let text = number.to_string();
    let criterion = pick(&class.lesson.criteria, seed / 8);
    match (seed % 8, criterion) {
        (0, _) => LessonAction::Expect(vec![["TERN", "GULL", "KITE"][number % 3].to_owned()]),
        (1, _) => LessonAction::Unexpect("GULL".to_owned()),
        (2, _) => LessonAction::Answer(vec![code]),
        (3, _) => LessonAction::Unanswer(vec![code]),
        (4, Some(criterion)) if class.lesson.criteria.len() > 3 => {
            LessonAction::Unmark(criterion.id)
        }
        (4, _) => LessonAction::Mark(Criterion {
            id: format!("new{number}"),
            name: text,
            most: 10,
            gone: false,
        }),
        (5, Some(criterion)) => {
            let points = (seed / 64 % 11).to_string();
            LessonAction::Judge(code, TutorSays::Points(criterion.id, points))
        }
        (6, _) => LessonAction::Judge(code, TutorSays::Words(text)),
        _ => LessonAction::Judge(code, TutorSays::Whole(text)),
    }
}

pub fn of_class(class: &Class, number: usize, seed: u32) -> ClassAction {
    let code = pick(&class.codes, seed / 8);
    match (seed % 8, code) {
        (0, _) => ClassAction::Name(number.to_string()),
        (1..=2, Some(code)) => ClassAction::Drop(code),
        (3, Some(code)) => {
            let answers = [
                Ruling::AnotherFish,
                Ruling::AnotherStudent,
                Ruling::Corrects("0".into()),
            ];
            let is = pick(&answers, seed / 64).unwrap();
            ClassAction::Settle(Settled { code, is })
        }
        (4, Some(code)) => ClassAction::Unsettle(code),
        (5, Some(code)) => ClassAction::Lesson(of_lesson(class, code, number, seed / 64)),
        (6, _) if !class.taken_out.is_empty() => {
            ClassAction::PutBack(pick(&class.taken_out, seed / 64).unwrap().code)
        }
        _ => ClassAction::Add(vec![number.to_string(), (seed / 8 % 4).to_string()]),
    }
}

pub fn quote() -> Quote {
    let bought = SpeciesForm {
        species: Species::Other("Wreckfish".into()),
        form: DeliveryForm::Whole,
    };
    Quote::new(bought, false, PriceUnit::Kilo, Currency::Eur, NOW)
}

pub fn of_quote(_: &Quote, number: usize, seed: u32) -> QuoteAction {
    match seed % 4 {
        0 => QuoteAction::Per(pick(&PriceUnit::ALL, seed / 4).unwrap()),
        1 => QuoteAction::Currency(pick(&Currency::ALL, seed / 4).unwrap()),
        2 => QuoteAction::Price("9".repeat(50)),
        _ => QuoteAction::Price(number.to_string()),
    }
}

pub fn credit() -> Credit {
    Credit::first(&fish(), "TERN", &[], &Default::default())
}

pub fn of_credit(credit: &Credit, _: usize, seed: u32) -> CreditTap {
    let nickname = pick(&["", "TERN", "GULL", "TERN5"], seed / 2).unwrap();
    CreditTap {
        now: Shown {
            nickname: nickname.into(),
            number: Some((seed / 8 % 35) as u8),
            ..credit.now.clone()
        },
        before: seed.is_multiple_of(2).then(|| credit.now.clone()),
    }
}

pub fn pan() -> KeptPan {
    KeptPan::named("black 24", &PanCard::default(), NOW).unwrap()
}

pub fn of_pan(_: &KeptPan, number: usize, seed: u32) -> PanTap {
    let surface = pick(&Surface::ALL, seed / 2).unwrap();
    let number_u32 = u32::try_from(number).unwrap();
    if seed.is_multiple_of(2) {
        return PanTap::Fitted(Contact {
            surface,
            conductance_w_per_m2_k: 100 + number_u32,
            factor_percent: 150 + number_u32,
            readings: number,
        });
    }
    PanTap::Cooked(Box::new(PanReading {
        species: "gilthead_bream".into(),
        panful_mg: 300_000,
        card: HeatCard {
            thickness: "19".into(),
            surface: Some(surface),
            ..HeatCard::default()
        },
        // Every reading is another one.
        read_secs: number_u32,
        turned_secs: None,
        lifted_secs: None,
        shown: "31.5".into(),
    }))
}

pub fn of_settings(_: &Settings, number: usize, seed: u32) -> Preference {
    match seed % 6 {
        0 => Preference::Sound((seed / 8).is_multiple_of(2)),
        1 => Preference::Buzz((seed / 8).is_multiple_of(2)),
        2 => Preference::Unit(Unit::Kilo),
        3 => Preference::Scale(Scale::TWO_GRAMS),
        4 => Preference::BackedUp,
        _ => Preference::Portion(number.to_string()),
    }
}
