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
use scaleside::service::dish::Dish;
use scaleside::service::dish::shipped;
use scaleside::service::dish::step::Edge;
use scaleside::service::menu;
use scaleside::service::run::Run;
use scaleside::service::timetable::Timetable;
use scaleside::service::timetable::of_dish::Service;

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
