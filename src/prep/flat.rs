//! The words of the cuts that flat fish alone need: four fillets from the middle line, or two over the frame. Common
//! practice, no source.
//!
//! Beside FAO: its processing notes are the Torry Advisory Notes, republished with SIFAR; from memory, they call the four
//! "quarter-cut" and the two "cross-cut" fillets, and No. 17, "Measures, stowage rates and yields of fishery products",
//! gives their yields. Neither could be read here, so no figure rests on them. What could be read are the factors of FAO
//! Fisheries Circular 847 in the CWP *Handbook of Fishery Statistics*: they stand in `trade/published.csv`, and
//! `tests/outside_published.rs` holds a flat fish to them.

use super::filleting::CutWords;

const FINS: CutWords = CutWords {
    say: "Lay the fish dark side up. With strong scissors cut the fringe of fins away all round, from the tail to the head. Leave a finger's width at the flesh.",
    caution: Some(
        "Turbot has bony knobs, and fin ends are sharp: hold the fish by the head through a cloth.",
    ),
    looks: "No fin stands out past the flesh, and no flesh is cut away.",
    or: None,
    detours: &[],
};

const GUT: CutWords = CutWords {
    say: "The gut is small and lies just behind the head. Cut a short slit along the edge behind the gills, point shallow. Draw everything out with two fingers, the roe too.",
    caution: Some(
        "Keep the point shallow: a burst gut spoils flesh. Wash fish, board, knife and hands after it.",
    ),
    looks: "The pocket is empty, and the fillets over it are whole.",
    or: None,
    detours: &[],
};

const HEAD: CutWords = CutWords {
    say: "Dark side up. Cut round the head just behind the gills, in a curve down to the bone. Stop there: the head stays on and is your handle.",
    caution: Some("Your hand lies on the head, behind the blade and never in front of it."),
    looks: "The cut meets the bone, and the thick shoulder lies on the fillet's side.",
    or: None,
    detours: &[],
};

const MIDDLE: CutWords = CutWords {
    say: "Feel for the backbone under the line that runs down the middle. Cut along that line from the head to the tail, straight down to the bone.",
    caution: Some(
        "Fingers flat and to the side: the blade runs the whole length towards the tail.",
    ),
    looks: "One straight cut, with the backbone white at the bottom of it.",
    or: Some(
        "Small fish: two fillets, each over both sets of bones. Begin at one edge, blade flat, pass over the backbone and go on to the other edge.",
    ),
    detours: &[],
};

const DARK: CutWords = CutWords {
    say: "Blade flat on the bones. From the middle cut, stroke outwards to the edge with long, light strokes, and fold the fillet back as it comes free. Turn the fish and take the second one.",
    caution: Some(
        "Blade flat, edge away from you. The hand that folds the fillet back stays above the blade.",
    ),
    looks: "Two long fillets, and the bones shine through what is left.",
    or: None,
    detours: &[],
};

const WHITE: CutWords = CutWords {
    say: "Turn the fish over. Round the head, down the middle line, then outwards to each edge, as on the dark side. These two fillets are thinner: strokes lighter still.",
    caution: Some("The bones bend now and the fish slips: lay it on a dry cloth before you cut."),
    looks: "Four fillets, two thick and two thin. The bones are whole and nearly bare.",
    or: None,
    detours: &[],
};

const EDGES: CutWords = CutWords {
    say: "Lay each fillet skin down. Trim the frilled outer edge, where the fin bones sat, in one clean stroke. Feel along both edges, and cut out what pricks. Thin and thick ones cook apart.",
    caution: Some("A bone left in can choke a guest. Draw the knife away from the hand."),
    looks: "Straight edges, and a fingertip finds no bone.",
    or: None,
    detours: &[],
};

/// What is said of a cut that flat fish alone need, by its id.
#[must_use]
pub fn words(id: &str) -> Option<&'static CutWords> {
    Some(match id {
        "flat_fins" => &FINS,
        "flat_gut" => &GUT,
        "flat_head" => &HEAD,
        "flat_middle" => &MIDDLE,
        "flat_dark" => &DARK,
        "flat_white" => &WHITE,
        "flat_edges" => &EDGES,
        _ => return None,
    })
}
