//! The shipped dishes and the filleting hold together, fit a phone screen, and unsound data is refused.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use std::collections::BTreeSet;

use scaleside::base::instant::Instant;
use scaleside::base::kit::Kit;
use scaleside::prep::cuts::CUTS;
use scaleside::prep::filleting::{Cut, CutWords, Shape, cuts_for};
use scaleside::prep::flat;
use scaleside::service::dish::Dish;
use scaleside::service::dish::shipped;
use scaleside::service::dish::step::Edge;
use scaleside::service::menu;
use scaleside::service::run::Run;
use scaleside::service::timetable::Timetable;
use scaleside::service::timetable::of_dish::Service;
use scaleside::trade::breakdown::DeliveryForm;
use scaleside::trade::species::species_list;

/// What fits one phone screen at large type.
const MOST_CHARS: usize = 240;

fn every_bench() -> Vec<BTreeSet<Kit>> {
    (0..1_u32 << Kit::ALL.len())
        .map(|bits| {
            Kit::ALL
                .into_iter()
                .enumerate()
                .filter(|(i, _)| bits >> i & 1 == 1)
                .map(|(_, k)| k)
                .collect()
        })
        .collect()
}

fn fits(id: &str, text: &str) {
    assert!(!text.trim().is_empty(), "{id}: empty text");
    assert!(
        text.chars().count() <= MOST_CHARS,
        "{id}: {} characters: {text}",
        text.chars().count()
    );
    assert!(text.ends_with(['.', '?']), "{id}: no end: {text}");
}

fn sentences(text: &str) -> usize {
    text.matches(['.', '?']).count()
}

fn words_of(cut: &Cut) -> &'static CutWords {
    cut.words.or_else(|| flat::words(cut.id)).unwrap()
}

#[test]
fn every_cut_fits_a_screen_and_the_picture_has_something_to_show() {
    let mut ids = BTreeSet::new();
    for cut in CUTS {
        let id = cut.id;
        assert!(ids.insert(id), "{id}: two cuts");
        assert_ne!(cut.forms.map(<[_]>::len), Some(0), "{id}: for no form");
        // The words stand in one place: here, or with those that only flat fish need.
        assert_eq!(cut.words.is_none(), flat::words(id).is_some(), "{id}");
        assert!(
            cut.words.is_some() || cut.shape == Some(Shape::Flat),
            "{id}"
        );
        let words = words_of(cut);
        let kits: BTreeSet<Kit> = words.detours.iter().map(|d| d.without).collect();
        assert_eq!(
            kits.len(),
            words.detours.len(),
            "{id}: two detours of a kit"
        );
        fits(id, words.say);
        fits(id, words.looks);
        assert!(
            (2..=4).contains(&sentences(words.say)),
            "{id}: {}",
            words.say
        );
        words.caution.iter().for_each(|text| fits(id, text));
        words.or.iter().for_each(|text| fits(id, text));
        for detour in words.detours {
            fits(id, detour.say);
            fits(id, detour.costs);
            detour.caution.iter().for_each(|text| fits(id, text));
        }
    }
}

#[test]
fn a_fish_gets_the_cuts_its_shape_and_form_need() {
    const ROUND: &str = "board fins scale gut rinse wipe behind_head back off second_side ribs pins edges skin frame";
    const FLAT: &str = "board flat_fins scale flat_gut rinse wipe flat_head flat_middle flat_dark flat_white flat_edges skin frame";
    let cases = [
        (Shape::Round, DeliveryForm::Whole, "wipe"),
        (Shape::Round, DeliveryForm::Gutted, "gut rinse"),
        (Shape::Round, DeliveryForm::GuttedScaled, "scale gut rinse"),
        (
            Shape::Round,
            DeliveryForm::HeadedGutted,
            "gut rinse behind_head",
        ),
        (Shape::Flat, DeliveryForm::Whole, "wipe"),
        (Shape::Flat, DeliveryForm::Gutted, "flat_gut rinse"),
        (
            Shape::Flat,
            DeliveryForm::GuttedScaled,
            "scale flat_gut rinse",
        ),
        (
            Shape::Flat,
            DeliveryForm::HeadedGutted,
            "flat_gut rinse flat_head",
        ),
    ];
    for (shape, form, left_out) in cases {
        let all = if shape == Shape::Flat { FLAT } else { ROUND };
        let want: Vec<_> = all
            .split(' ')
            .filter(|id| !left_out.split(' ').any(|l| l == *id))
            .collect();
        let got: Vec<_> = cuts_for(shape, form).iter().map(|c| c.id).collect();
        assert_eq!(got, want, "{shape:?} {form:?}");
    }
    // The fillets of either are weighed before anything is trimmed off them.
    for shape in [Shape::Round, Shape::Flat] {
        let cuts = cuts_for(shape, DeliveryForm::Whole);
        let first = cuts.iter().position(|c| c.part.is_of_the_fillet()).unwrap();
        assert!(
            ["ribs", "flat_edges"].contains(&cuts[first].id),
            "{shape:?}"
        );
    }
    // Pleuronectiformes are flat, and nothing else in the list is.
    let flat: Vec<_> = species_list()
        .iter()
        .filter(|s| Shape::of(Some(s.key)) == Shape::Flat)
        .map(|s| s.key)
        .collect();
    assert_eq!(flat, ["flatfish", "megrim"]);
    assert_eq!(Shape::of(None), Shape::Round);
}

#[test]
fn a_missing_tool_replaces_the_step_and_no_other() {
    let cases = [
        (Kit::Pliers, vec!["pins"]),
        (Kit::FlexibleKnife, vec!["back", "second_side", "ribs"]),
        (Kit::Probe, vec![]),
    ];
    for (kit, at) in cases {
        let cuts = cuts_for(Shape::Round, DeliveryForm::Whole);
        let missing = BTreeSet::from([kit]);
        let with: Vec<_> = cuts
            .iter()
            .filter(|c| !words_of(c).without(&missing).is_empty())
            .collect();
        let ids: Vec<_> = with.iter().map(|c| c.id).collect();
        assert_eq!(ids, at, "{kit:?}");
        let of_kit = |c: &&&Cut| {
            words_of(c)
                .without(&missing)
                .iter()
                .all(|d| d.without == kit)
        };
        assert!(with.iter().all(|c| of_kit(&c)));
    }
    // Without pliers the V is the step, by its own name.
    let pins = CUTS.iter().find(|cut| cut.id == "pins").unwrap();
    assert_eq!(pins.title_without(&BTreeSet::new()), "Pin bones");
    let without = pins.title_without(&BTreeSet::from([Kit::Pliers]));
    assert_eq!(without, "Pin bones out in a V");
}

#[test]
fn the_dishes_fit_a_screen() {
    for dish in shipped::dishes().unwrap() {
        for line in &dish.mise {
            fits(&line.id, &line.say);
            line.caution.iter().for_each(|text| fits(&line.id, text));
            line.detours.iter().for_each(|d| fits(&line.id, &d.say));
        }
        for step in &dish.steps {
            fits(&step.id, &step.say);
            step.caution.iter().for_each(|text| fits(&step.id, text));
            step.detours.iter().for_each(|d| fits(&step.id, &d.say));
            assert!(step.title.chars().count() <= 36, "{}", step.title);
            assert!(step.done_word.chars().count() <= 24, "{}", step.done_word);
        }
        dish.plate_check
            .iter()
            .for_each(|check| fits(&check.id, &check.ask));
        let asked: Vec<_> = dish.plate_check.iter().map(|c| c.id.as_str()).collect();
        assert_eq!(
            asked,
            [
                "neat",
                "not_overfilled",
                "cooked",
                "crisp",
                "hot",
                "garnish"
            ]
        );
        dish.cautions.iter().for_each(|text| fits(&dish.id, text));
    }
}

#[test]
fn on_every_bench_the_dishes_keep_their_gaps_when_all_goes_to_time() {
    for dish in shipped::dishes().unwrap() {
        for missing in every_bench() {
            let run = Run::start(dish, Instant(0));
            let service = Service {
                dish,
                missing: &missing,
                cooks: 1,
            };
            let planned = Timetable::of(&service, Some(&run), None, Instant(0));
            let plan = planned
                .unwrap_or_else(|stuck| panic!("{} without {missing:?}: {stuck:?}", dish.id));
            for step in &dish.steps {
                let start = plan.slot(&step.id).unwrap().start;
                for link in &step.links {
                    let from = plan.slot(&link.to).unwrap();
                    let edge = match link.edge {
                        Edge::Start => from.start,
                        Edge::End => from.end,
                    };
                    let gap = start - edge;
                    let most = link.most.map_or(i64::MAX, i64::from);
                    assert!(
                        (i64::from(link.least)..=most).contains(&gap),
                        "{} after {} in {}: {gap} s",
                        step.id,
                        link.to,
                        dish.id
                    );
                }
            }
        }
    }
}

#[test]
fn a_bench_without_a_non_stick_pan_is_told_about_the_paper_before_the_oil_is_hot() {
    let missing = BTreeSet::from([Kit::NonStickPan]);
    for dish in shipped::dishes().unwrap() {
        let heat = dish.step("heat_pan").unwrap();
        let detours: Vec<_> = heat.detours_for(&missing).collect();
        assert!(
            detours[0]
                .caution
                .as_ref()
                .unwrap()
                .contains("never past the rim")
        );
        assert_eq!(
            heat.counts_ms(&missing) - heat.counts_ms(&BTreeSet::new()),
            30_000
        );
        assert_eq!(heat.lasts_ms(&missing), None);
    }
}

#[test]
fn a_dish_is_found_by_its_id() {
    assert_eq!(shipped::by_id("bream").unwrap().covers, 2);
    assert_eq!(shipped::by_id("fillet").unwrap().id, "fillet");
    let refusal = shipped::by_id("stew").unwrap_err().to_string();
    assert_eq!(refusal, "This dish is not in this version of Scaleside.");
}

fn small(steps: &str) -> String {
    format!(
        r#"{{"id":"d","name":"Small dish","covers":1,"portion_g":150,"mise":[],"plate_check":[],
            "allergens":[],"cautions":[],"steps":[{steps}]}}"#
    )
}

fn step(id: &str, more: &str) -> String {
    format!(
        r#"{{"id":"{id}","title":"Step {id}","say":"Do it.","station":"plate","hands":false,"begins":"tap","done_word":"Done"{more}}}"#
    )
}

#[test]
fn unsound_dishes_are_refused_in_a_sentence() {
    let linked = |id: &str, links: &str| step(id, &format!(r#","links":[{links}]"#));
    let cases = [
        ("nonsense".to_owned(), "A dish can't be read"),
        (small(""), "“Small dish” has no step at the plate."),
        (
            small(&step("a", "")).replace(r#""covers":1"#, r#""covers":0"#),
            "needs covers and a portion above zero",
        ),
        (
            small(&[step("a", ""), step("a", "")].join(",")),
            "There are two steps called “a”.",
        ),
        (
            small(&step("a", "")).replace(
                r#""plate_check":[]"#,
                r#""plate_check":[{"id":"hot","ask":"Hot?"},{"id":"hot","ask":"Is it?"}]"#,
            ),
            "There are two questions about the plates called “hot”.",
        ),
        (
            small(&linked("a", r#"{"to":"a","edge":"end"}"#)),
            "“Step a” waits for itself.",
        ),
        (
            small(&linked("a", r#"{"to":"b","edge":"end"}"#)),
            "“Step a” waits for “b”, which is not a step of this dish.",
        ),
        (
            small(
                &[
                    linked("a", r#"{"to":"b","edge":"end"}"#),
                    linked("b", r#"{"to":"a","edge":"start"}"#),
                ]
                .join(","),
            ),
            "These steps wait for each other: “Step a”, “Step b”.",
        ),
        (
            small(
                &[
                    step("a", ""),
                    linked("b", r#"{"to":"a","edge":"end","least":9,"most":8}"#),
                ]
                .join(","),
            ),
            "“Step b” has a least gap longer than its greatest gap.",
        ),
        (
            small(
                &[
                    step("a", ""),
                    linked("b", r#"{"to":"a","edge":"end","least":9}"#).replace("tap", "at_once"),
                ]
                .join(","),
            ),
            "“Step b” begins at once, so it can't have a least gap.",
        ),
        (
            small(&step("a", r#","lasts":0"#)),
            "The timer of “Step a” is at zero.",
        ),
        (
            small(&step(
                "a",
                r#","detours":[{"without":"probe","say":"X."},{"without":"probe","say":"Y."}]"#,
            )),
            "“a” has two detours where there is no probe thermometer.",
        ),
        (
            small(&step("a", r#","colour":"red""#)),
            "unknown field `colour`",
        ),
    ];
    for (json, want) in cases {
        let refusal = Dish::parse(&json).unwrap_err().to_string();
        assert!(refusal.contains(want), "wanted “{want}”, got “{refusal}”");
    }
}

/// Its fields are sound, and no clock can serve it: the menu says what quarrels.
#[test]
fn a_dish_whose_gaps_quarrel_is_refused_by_the_menu() {
    let linked = |id: &str, links: &str| step(id, &format!(r#","links":[{links}]"#));
    let before = |json: String| json.replace(r#""station":"plate","#, "");
    let between =
        linked("b", r#"{"to":"a","edge":"end"}"#).replace(r#""hands""#, r#""lasts":60,"hands""#);
    let near = r#"{"to":"b","edge":"end"},{"to":"a","edge":"end","most":30}"#;
    let steps = [before(step("a", "")), before(between), linked("c", near)];
    let dish = Dish::parse(&small(&steps.join(","))).unwrap();
    let refusal = menu::sound(dish.clone()).unwrap_err().to_string();
    for word in ["“Step a”", "“Step c”", "30 s"] {
        assert!(refusal.contains(word), "{refusal}");
    }
    let mut eased = dish;
    eased
        .steps
        .iter_mut()
        .flat_map(|step| &mut step.links)
        .for_each(|link| link.most = None);
    assert_eq!(
        menu::sound(eased.clone()).map(scaleside::service::dish::Sound::into_dish),
        Ok(eased)
    );
}

#[test]
fn steps_are_put_in_an_order_their_links_allow_and_otherwise_stay_as_written() {
    let b = step("b", r#","links":[{"to":"d","edge":"end"}]"#);
    let dish = Dish::parse(&small(
        &[step("a", ""), b, step("c", ""), step("d", "")].join(","),
    ))
    .unwrap();
    let ids: Vec<_> = dish.steps.iter().map(|s| s.id.as_str()).collect();
    assert_eq!(ids, ["a", "c", "d", "b"]);
}
