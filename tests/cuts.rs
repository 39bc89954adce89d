//! The cuts fit a phone screen, and each fish and each bench gets its own.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use std::collections::BTreeSet;

use scaleside::base::kit::Kit;
use scaleside::prep::cuts::CUTS;
use scaleside::prep::filleting::{Cut, CutWords, Shape, cuts_for};
use scaleside::prep::flat;
use scaleside::trade::breakdown::DeliveryForm;
use scaleside::trade::species::species_list;

/// What fits one phone screen at large type.
const MOST_CHARS: usize = 240;

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
    let wanted = "brill dab flounder greenland_halibut halibut lemon_sole megrim plaice sole turbot flatfish";
    assert_eq!(flat, wanted.split(' ').collect::<Vec<_>>());
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
        assert!(with.iter().all(of_kit));
    }
    // Without pliers the V is the step, by its own name.
    let pins = CUTS.iter().find(|cut| cut.id == "pins").unwrap();
    assert_eq!(pins.title_without(&BTreeSet::new()), "Pin bones");
    let without = pins.title_without(&BTreeSet::from([Kit::Pliers]));
    assert_eq!(without, "Pin bones out in a V");
}
