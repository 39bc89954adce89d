//! The words of every cut, in order. A caution stands at the cut where it matters.

use super::filleting::{Cut, CutDetour, FishPart};
use crate::base::kit::Kit;
use crate::trade::breakdown::DeliveryForm;

/// Every cut, in order.
pub const CUTS: &[Cut] = &[
    Cut {
        id: "board",
        title: "Steady board, cold fish",
        say: "Lay a damp cloth under the board. Set out a sharp knife, a dry cloth for your grip and a tray for the bones. Take the fish from the cold only now.",
        caution: Some(
            "Raw fish: wash hands, knife and board before and after, and keep other food away. Your kitchen's rules and your supervisor decide.",
        ),
        looks: "Push the board: it does not move.",
        part: FishPart::Board,
        forms: None,
        detours: &[],
    },
    Cut {
        id: "fins",
        title: "Spines and fins off first",
        say: "Hold the fish through a folded cloth. With strong scissors, cut the back fin away from tail to head. Then the belly fins, the side fins and the fin by the vent.",
        caution: Some(
            "Spines lean back towards the tail and go through gloves. Never slide a bare hand from tail to head.",
        ),
        looks: "No spine stands up along the back or the belly.",
        part: FishPart::Spines,
        forms: None,
        detours: &[],
    },
    Cut {
        id: "scale",
        title: "Scale it",
        say: "Grip the tail through the cloth. Scrape from tail to head with the back of the knife, short strokes, under a thin stream of cold water. Go over the belly and around the fins again.",
        caution: Some(
            "Scrape with the back of the blade and keep its edge turned away from the hand on the tail.",
        ),
        looks: "A fingertip drawn from tail to head meets only smooth skin.",
        part: FishPart::Skin,
        forms: Some(&[
            DeliveryForm::Whole,
            DeliveryForm::Gutted,
            DeliveryForm::HeadedGutted,
        ]),
        detours: &[],
    },
    Cut {
        id: "gut",
        title: "Open and gut",
        say: "Put the point in at the vent, edge facing out. Open the belly up to the head with the point only. Lift everything out in one go, then slit the dark line under the backbone.",
        caution: Some(
            "Keep the point shallow and your other hand behind it. A burst gut spoils flesh: wash fish, board, knife and hands.",
        ),
        looks: "The cavity is empty and nothing inside was cut through.",
        part: FishPart::Belly,
        forms: Some(&[DeliveryForm::Whole]),
        detours: &[],
    },
    Cut {
        id: "rinse",
        title: "Rinse and dry the cavity",
        say: "Rinse the cavity under a thin stream of cold water until it runs clear. Rub out the dark blood with a thumb. Do not soak. Pat dry, inside and out.",
        caution: None,
        looks: "Clean bone, no dark line, and paper comes away nearly dry.",
        part: FishPart::Belly,
        forms: Some(&[DeliveryForm::Whole]),
        detours: &[],
    },
    Cut {
        id: "wipe",
        title: "Wipe the cavity",
        say: "Wipe the cavity with paper. Scrape out any dark blood left under the backbone. Pat the fish dry, so that it stays still on the board.",
        caution: None,
        looks: "Clean bone, no dark line, and a fish that doesn't slide.",
        part: FishPart::Belly,
        forms: Some(&[
            DeliveryForm::Gutted,
            DeliveryForm::GuttedScaled,
            DeliveryForm::HeadedGutted,
        ]),
        detours: &[],
    },
    Cut {
        id: "behind_head",
        title: "Tight behind the head",
        say: "Lay the fish flat, its back towards you. Cut down just behind the gill plate and the side fin, slanting in under the head. Stop when the blade meets the backbone.",
        caution: Some(
            "Keep the hand on the head behind the blade, never in front of it. The head stays on: it is your handle.",
        ),
        looks: "The thick shoulder lies on the fillet's side of the cut, not on the head.",
        part: FishPart::Head,
        forms: Some(&[
            DeliveryForm::Whole,
            DeliveryForm::Gutted,
            DeliveryForm::GuttedScaled,
        ]),
        detours: &[],
    },
    Cut {
        id: "back",
        title: "Open along the back",
        say: "Turn the blade flat. Cut just above the line of the back fin, from the front to the tail. Go deeper with long, light strokes, and let the blade rest on the bones all the way.",
        caution: Some(
            "Blade flat along the bone, edge away from the hand. The hand that lifts the flesh stays above the blade.",
        ),
        looks: "The blade ticks along bone, and the bones shine through what is left.",
        part: FishPart::Back,
        forms: None,
        detours: &[CutDetour {
            without: Kit::FlexibleKnife,
            say: "Blade flat. Cut just above the line of the back fin, from the front to the tail. Use only the front third of a firm blade, in short strokes, and lift the flesh to see each one.",
            costs: "A little more flesh stays on the bones, and the cut face shows strokes.",
            caution: Some(
                "A firm blade that slips goes straight on: press less, and keep the hand out of its line.",
            ),
        }],
    },
    Cut {
        id: "off",
        title: "Over the backbone and off",
        say: "Pass over the ridge of the backbone. Cut through the thin ribs where they join it; they come off with the fillet. Follow the bone down to the belly, then out at the tail.",
        caution: Some(
            "Cut towards the tail, with nobody's hand there. Hold the fillet by its upper edge.",
        ),
        looks: "One whole fillet, and bones with no thick flesh on them.",
        part: FishPart::Tail,
        forms: None,
        detours: &[],
    },
    Cut {
        id: "second_side",
        title: "The second side",
        say: "Turn the fish over. Make the same cuts again, from the front end to the tail. It lies hollow now: fold a cloth under it and take lighter strokes.",
        caution: Some(
            "The fish rocks more on this side. Steady it first, then cut, edge away from the hand.",
        ),
        looks: "Two fillets of nearly the same size. Weigh them now if you follow each loss.",
        part: FishPart::Back,
        forms: None,
        detours: &[CutDetour {
            without: Kit::FlexibleKnife,
            say: "Turn the fish over and make the same cuts, from the front end to the tail. It lies hollow now: fold a cloth under it. Only the front third of the blade, and lift as you go.",
            costs: "As on the first side: a little flesh on the bones.",
            caution: None,
        }],
    },
    Cut {
        id: "ribs",
        title: "Rib bones",
        say: "Fillet skin down, ribs away from your holding hand. Slip the blade flat under the ends of the ribs, edge a little up against the bone. Draw it out towards the belly and lift the ribs off as one sheet.",
        caution: Some("Cut away from the hand. Fingertips stay flat on the thick side."),
        looks: "You can see through the sheet of ribs, and the belly is still on the fillet.",
        part: FishPart::Ribs,
        forms: None,
        detours: &[CutDetour {
            without: Kit::FlexibleKnife,
            say: "Fillet skin down. With a firm knife, nick the ribs free along the thick side first. Then tilt the edge up against the bone and take the sheet off in three or four short passes.",
            costs: "More flesh leaves with the bones, and the belly edge is thinner and may look ragged.",
            caution: Some(
                "Short passes only: a firm edge tilted up comes out sooner than you think.",
            ),
        }],
    },
    Cut {
        id: "pins",
        title: "Pin bones",
        say: "Stroke from the tail end to the thick end and feel for the row of points. Press the flesh down beside each bone. Pull it out with the pliers along its own lean, towards the thick end.",
        caution: Some("A bone left in can choke a guest. Feel the whole row twice."),
        looks: "A fingertip finds nothing, and the flesh is still closed.",
        part: FishPart::Pins,
        forms: None,
        detours: &[CutDetour {
            without: Kit::Pliers,
            say: "Cut along both sides of the row, the two cuts meeting below it in a narrow V. Stop at the skin, and stop where the row ends. Lift the strip out.",
            costs: "A strip of good flesh is lost, so the yield drops. The fillet shows a furrow and opens more easily when turned.",
            caution: Some(
                "The blade stops at the skin. Hold the fillet flat with the fingers well to the side.",
            ),
        }],
    },
    Cut {
        id: "edges",
        title: "Square the edges",
        say: "Trim the thin flap of the belly and the frayed ends, one clean stroke for each. Take no more than would burn in the pan. Keep the trimmings on the tray.",
        caution: Some("Draw the knife away from the hand, and keep its point on the board."),
        looks: "Straight edges, and no part so thin that it cooks first.",
        part: FishPart::Edges,
        forms: None,
        detours: &[],
    },
    Cut {
        id: "skin",
        title: "Wipe the skin dry",
        say: "Draw the back of the knife along the skin to press the water out. Wipe it with paper. Do it again until the paper stays dry.",
        caution: None,
        looks: "Dull, dry skin. Wet skin sticks, spits and stays soft.",
        part: FishPart::Skin,
        forms: None,
        detours: &[],
    },
    Cut {
        id: "frame",
        title: "Keep the bones for stock",
        say: "Cut out the gills if there is a head. Rinse off the blood. Put the bones, the head and the clean trimmings in a covered tray, name and date on it, and into the cold.",
        caution: Some(
            "Bones spoil as fast as fillets. How long you may keep them is for your local code and your supervisor.",
        ),
        looks: "The board is clear and wiped, and nothing raw lies in the warm.",
        part: FishPart::Frame,
        forms: None,
        detours: &[],
    },
];
