//! The service against sources outside this project: a graph library for what fits, published
//! rules for what the texts say about temperature, time and allergens.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::string_slice,
    clippy::panic,
    missing_docs
)]

use std::collections::BTreeSet;

use petgraph::algo::bellman_ford;
use petgraph::graph::{DiGraph, NodeIndex};
use proptest::prelude::*;
use scaleside::base::instant::Instant;
use scaleside::prep::chill::{Chill, ChillVerdict};
use scaleside::prep::cuts::CUTS;
use scaleside::prep::flat;
use scaleside::service::dish::Dish;
use scaleside::service::dish::shipped;
use scaleside::service::dish::step::{Edge, Link, Station, Step};
use scaleside::service::menu;

// --- What fits, against the longest paths of crate `petgraph` (Bellman-Ford on negated gaps) ---

/// The earliest start of every step in seconds, one cook doing them in the order they are written, or `None` when the
/// gaps can't all be kept in that order.
fn longest_paths(dish: &Dish) -> Option<Vec<i64>> {
    let steps = &dish.steps;
    let length = |s: &Step| f64::from(s.lasts.unwrap_or(s.takes));
    let mut graph = DiGraph::<(), f64>::new();
    let nodes: Vec<NodeIndex> = steps.iter().map(|_| graph.add_node(())).collect();
    let begin = graph.add_node(());
    // An edge a -> b of weight -g says: b starts no sooner than g after a starts.
    for (i, step) in steps.iter().enumerate() {
        graph.add_edge(begin, nodes[i], 0.0);
        for link in &step.links {
            let t = steps.iter().position(|s| s.id == link.to).unwrap();
            let base = if link.edge == Edge::End {
                length(&steps[t])
            } else {
                0.0
            };
            graph.add_edge(nodes[t], nodes[i], -(base + f64::from(link.least)));
            if let Some(most) = link.most {
                graph.add_edge(nodes[i], nodes[t], base + f64::from(most));
            }
        }
        for (j, earlier) in steps.iter().enumerate().take(i) {
            let pan = step.station == Some(Station::Pan) && earlier.station == Some(Station::Pan);
            if pan || (step.hands && earlier.hands) {
                graph.add_edge(nodes[j], nodes[i], -length(earlier));
            }
        }
    }
    // What does not follow the plating ends before it.
    let waves = dish.waves();
    let plating = waves.first().unwrap().plating;
    let at = steps.iter().position(|s| s.id == plating.id).unwrap();
    for (i, step) in steps.iter().enumerate() {
        if i != at && !follows(dish, step, &plating.id) {
            graph.add_edge(nodes[i], nodes[at], -length(step));
        }
    }
    let paths = bellman_ford(&graph, begin).ok()?;
    Some(
        nodes
            .iter()
            .map(|n| -paths.distances[n.index()] as i64)
            .collect(),
    )
}

/// Whether a step waits for another, through whatever steps between.
fn follows(dish: &Dish, step: &Step, other: &str) -> bool {
    let waits =
        |link: &Link| link.to == other || follows(dish, dish.step(&link.to).unwrap(), other);
    step.links.iter().any(waits)
}

prop_compose! {
    fn tapped_step(number: usize)(
        links in prop::collection::vec((any::<prop::sample::Index>(), any::<bool>(), 0..90_u32, prop::option::of(0..120_u32)), 0..3),
        station in prop::option::of(prop::sample::select(vec![Station::Pan, Station::Plate])),
        lasts in prop::option::of(1..200_u32),
        takes in 0..60_u32,
        hands: bool,
    ) -> String {
        let links = if number == 0 { vec![] } else { links };
        let links: Vec<Link> = links
            .into_iter()
            .map(|(to, end, least, width)| Link {
                to: to.index(number).to_string(),
                edge: if end { Edge::End } else { Edge::Start },
                least,
                most: width.map(|w| least + w),
            })
            .collect();
        serde_json::json!({
            "id": number.to_string(), "title": format!("Step {number}"), "say": "Do it.", "hands": hands,
            "station": if number == 0 { Some(Station::Plate) } else { station },
            "lasts": lasts, "takes": takes, "begins": "tap", "links": links, "done_word": "Done"
        })
        .to_string()
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1000))]

    /// Whatever can be kept in the order that is written is found to fit, and plated no later than that order allows
    /// unless something waits less for it. Without greatest gaps everything fits.
    #[test]
    fn what_has_longest_paths_fits(steps in (2..12_usize).prop_flat_map(|n| (0..n).map(tapped_step).collect::<Vec<_>>())) {
        let json = format!(
            r#"{{"id":"any","name":"Any","covers":1,"portion_g":150,"mise":[],"plate_check":[],"allergens":[],"cautions":[],"steps":[{}]}}"#,
            steps.join(",")
        );
        let dish = Dish::parse(&json).unwrap();
        let in_order = longest_paths(&dish);
        let planned = menu::sound(dish.clone());
        match (&in_order, &planned) {
            (Some(_), Err(refusal)) => prop_assert!(false, "{refusal}"),
            (_, Ok(sound)) => prop_assert_eq!(&**sound, &dish),
            (None, Err(refusal)) => prop_assert!(refusal.to_string().ends_with('.'), "{}", refusal),
        }
        let mut loose = dish;
        loose.steps.iter_mut().flat_map(|step| &mut step.links).for_each(|link| link.most = None);
        prop_assert!(menu::sound(loose).is_ok());
    }
}

// --- Texts that state a temperature or a time ---

/// Every text a cook reads, with where it stands.
fn texts() -> Vec<(String, String)> {
    let mut all = vec![];
    for cut in CUTS {
        let words = cut.words.or_else(|| flat::words(cut.id)).unwrap();
        let mut say = vec![words.say, words.looks];
        say.extend(words.caution);
        say.extend(words.or);
        for d in words.detours {
            say.extend([d.say, d.costs]);
            say.extend(d.caution);
        }
        all.extend(
            say.into_iter()
                .map(|text| (cut.id.to_owned(), text.to_owned())),
        );
    }
    for dish in shipped::dishes().unwrap() {
        let mut say: Vec<(String, String)> = dish
            .cautions
            .iter()
            .map(|text| (dish.id.clone(), text.clone()))
            .collect();
        for line in &dish.mise {
            say.push((line.id.clone(), line.say.clone()));
            say.extend(line.caution.clone().map(|text| (line.id.clone(), text)));
            say.extend(
                line.detours
                    .iter()
                    .map(|d| (line.id.clone(), d.say.clone())),
            );
        }
        for step in &dish.steps {
            say.push((step.id.clone(), step.say.clone()));
            say.extend(
                [&step.caution, &step.note]
                    .into_iter()
                    .flatten()
                    .map(|text| (step.id.clone(), text.clone())),
            );
            say.extend(
                step.detours
                    .iter()
                    .map(|d| (step.id.clone(), d.say.clone())),
            );
        }
        all.extend(say);
    }
    all
}

/// The whole numbers that stand right before `unit`.
fn figures(text: &str, unit: &str) -> Vec<i32> {
    text.match_indices(unit)
        .map(|(end, _)| {
            text[..end]
                .trim_end()
                .rsplit(|c: char| !c.is_ascii_digit())
                .next()
                .unwrap()
                .parse()
                .unwrap()
        })
        .collect()
}

/// 63 °C for 15 s: FDA Food Code 3-401.11(A)(1), intact fish, as enacted in WAC 246-215-03400.
/// 5 °C and 60 °C: Food Standards Australia New Zealand, "2-hour / 4-hour rule".
/// 41 °F: FDA Food Code 1999, 3-202.11 (receiving).
#[test]
fn every_temperature_in_the_texts_is_a_published_one_in_both_scales() {
    let published = [(5, 41), (60, 140), (63, 145)];
    let mut seen = BTreeSet::new();
    for (id, text) in texts() {
        let (celsius, fahrenheit) = (figures(&text, "°C"), figures(&text, "°F"));
        assert_eq!(
            celsius.len(),
            fahrenheit.len(),
            "{id}: one scale only: {text}"
        );
        for (c, f) in celsius.into_iter().zip(fahrenheit) {
            assert!(published.contains(&(c, f)), "{id}: {c} °C ({f} °F): {text}");
            // The Food Code prints whole degrees: 63 °C is 145.4 °F.
            assert!(
                (f64::from(c) * 9.0 / 5.0 + 32.0 - f64::from(f)).abs() < 0.5,
                "{id}: {c} °C is not {f} °F"
            );
            if c == 63 {
                assert!(
                    text.contains("FDA Food Code") && text.contains("15 seconds"),
                    "{id}: no source: {text}"
                );
            }
            seen.insert(c);
        }
    }
    assert_eq!(seen, BTreeSet::from([5, 60, 63]));
}

/// A rule is never the last word: the text beside it defers to the local code.
#[test]
fn each_step_that_states_a_rule_defers_to_the_local_code() {
    let all = texts();
    for (id, text) in all.iter().filter(|(_, text)| text.contains("°C")) {
        let defers = all
            .iter()
            .any(|(other, beside)| other == id && beside.to_lowercase().contains("local code"));
        assert!(defers, "{id}: {text}");
    }
}

/// Food Standards Australia New Zealand, "2-hour / 4-hour rule": total time between 5 °C and 60 °C,
/// under 2 h use or refrigerate, 2 to 4 h use, 4 h or more throw away (older wording, the safe side).
#[test]
fn the_chill_clock_follows_the_two_and_four_hour_rule() {
    let hour = 3_600_000;
    let cases = [
        (0, ChillVerdict::UseOrReturn),
        (2 * hour - 1, ChillVerdict::UseOrReturn),
        (2 * hour, ChillVerdict::UseNow),
        (4 * hour - 1, ChillVerdict::UseNow),
        (4 * hour, ChillVerdict::Discard),
        (40 * hour, ChillVerdict::Discard),
    ];
    for (out_ms, want) in cases {
        // In one stay, and added up from two: the rule counts the total.
        let once = Chill::out(Instant(0));
        assert_eq!(once.verdict(Instant(out_ms)), want, "{out_ms} ms");
        let twice = Chill {
            in_fridge_since: None,
            out_since: Some(Instant(0)),
            out_ms_total: out_ms / 2,
        };
        assert_eq!(
            twice.verdict(Instant(out_ms - out_ms / 2)),
            want,
            "{out_ms} ms in two stays"
        );
    }
}

/// Families with much histidine, Reg. (EC) 2073/2005 as listed by seafish.org: Scombridae, Clupeidae,
/// Engraulidae, Coryphaenidae, Pomatomidae, Scomberesocidae; Carangidae by Food Standards Australia New Zealand. Which fish belongs to which: common knowledge
/// of the trade, from memory, not verified. Heat doesn't remove it: report on FDA CPG 540.525, 2024.
#[test]
fn the_histamine_caution_names_fish_of_the_listed_families_only() {
    let listed = [
        "mackerel",
        "horse mackerel",
        "tuna",
        "bonito",
        "herring",
        "sardine",
        "anchovy",
        "mahi-mahi",
    ];
    for dish in shipped::dishes().unwrap() {
        let caution = dish
            .cautions
            .iter()
            .find(|c| c.contains("histamine"))
            .unwrap()
            .to_lowercase();
        assert!(caution.contains("cooking does not remove it"));
        let named = caution
            .split(" can carry")
            .next()
            .unwrap()
            .replace(" and ", ", ");
        for fish in named.split(", ") {
            assert!(listed.contains(&fish), "{}: {fish}", dish.id);
        }
    }
}

/// Regulation (EU) No 1169/2011, Annex II, as listed by farrp.unl.edu.
#[test]
fn every_allergen_named_is_on_the_annex_ii_list() {
    let annex = [
        "gluten",
        "crustaceans",
        "egg",
        "fish",
        "peanuts",
        "soybeans",
        "milk",
        "nuts",
        "celery",
        "mustard",
        "sesame",
        "sulphites",
        "lupin",
        "molluscs",
    ];
    let cases = [
        ("bream", vec!["fish", "sulphites"]),
        (
            "fillet",
            vec!["egg", "fish", "milk", "celery", "mustard", "sulphites"],
        ),
    ];
    for (id, want) in cases {
        let words = shipped::by_id(id)
            .unwrap()
            .allergens
            .join(" ")
            .to_lowercase();
        let words: BTreeSet<_> = words.split(|c: char| !c.is_alphabetic()).collect();
        let named: Vec<_> = annex
            .into_iter()
            .filter(|entry| words.contains(entry))
            .collect();
        assert_eq!(named, want, "{id}");
    }
}

/// Nine tenths of the pan time skin side down; the rest as long as the vegetables: common practice, no source.
#[test]
fn the_pan_time_is_split_as_cooks_do() {
    for dish in shipped::dishes().unwrap() {
        let lasts = |id: &str| dish.step(id).unwrap().lasts.unwrap();
        let (skin, flesh) = (lasts("skin_side"), lasts("flesh_side"));
        assert_eq!(
            (skin * 10, skin + flesh),
            ((skin + flesh) * 9, 300),
            "{}",
            dish.id
        );
        let vegetables: u32 = dish
            .steps
            .iter()
            .filter(|s| {
                s.station == Some(Station::Pan) && s.id != "skin_side" && s.id != "flesh_side"
            })
            .filter_map(|s| s.lasts)
            .sum();
        assert_eq!(lasts("rest"), vegetables, "{}", dish.id);
        for id in ["skin_side", "flesh_side", "rest"] {
            assert!(
                dish.step(id)
                    .unwrap()
                    .note
                    .as_ref()
                    .unwrap()
                    .contains("common practice, no source.")
            );
        }
    }
}
