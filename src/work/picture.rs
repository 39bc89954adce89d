//! A link as a QR code for another phone's camera.

use std::fmt::Write;

use fast_qr::{ECL, QRBuilder};
use serde::{Deserialize, Serialize};

use super::{Ask, QuestionKind, WorkerLane};

/// Light modules around the code: ISO/IEC 18004 asks for four.
const QUIET: usize = 4;

/// A link to be drawn.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct LinkToDraw(pub String);

/// The picture of a link, as the units and the path of an SVG.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Drawn {
    /// How many modules it is wide and high, the quiet ones around it counted in.
    pub side: usize,
    /// The dark modules.
    pub dark: String,
}

impl Ask for LinkToDraw {
    /// Nothing for a text that is too long for one.
    type Answer = Option<Drawn>;
    const KIND: QuestionKind = QuestionKind {
        name: "picture",
        lane: WorkerLane::Screen,
        newest: true,
    };

    fn answer(self) -> Option<Drawn> {
        let code = QRBuilder::new(self.0).ecl(ECL::M).build().ok()?;
        let mut dark = String::new();
        for y in 0..code.size {
            let row = code[y].iter().take(code.size).enumerate();
            for (x, _) in row.filter(|(_, module)| module.value()) {
                // A text can always be written to.
                let _ = write!(dark, "M{} {}h1v1h-1z", x + QUIET, y + QUIET);
            }
        }
        Some(Drawn {
            side: code.size + 2 * QUIET,
            dark,
        })
    }
}
