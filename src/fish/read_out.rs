//! What a cook hears while weighing: the weight as it is keyed, and what it comes to.

use crate::fish::record::Fish;
use crate::fish::weighing::{ScaleReading, Which};
use crate::place::{JobNumber, Stage};
use crate::trade::mass::{self, Mass, Unit};

impl Fish {
    /// What is said at a stage; nothing where nothing is keyed, or nothing is weighed there.
    #[must_use]
    pub fn read_out(&self, stage: Stage) -> Option<String> {
        let which = match stage {
            Stage::WeighWhole | Stage::PutRight(JobNumber::Whole) => Which::Whole,
            Stage::WeighOffBone | Stage::PutRight(JobNumber::OffBone) => Which::OffBone,
            Stage::WeighFrame => Which::Frame,
            Stage::WeighReady | Stage::PutRight(JobNumber::Ready) => Which::Ready,
            Stage::Yield => return self.result(),
            _ => return None,
        };
        let reading = self.reading(which);
        (!reading.typed.is_empty()).then(|| {
            let said = keyed(reading, self.unit_of(which));
            let is_sum = reading.typed.contains('+') || self.slip.zero != Mass::ZERO;
            match is_sum.then(|| self.mass(which)) {
                Some(Ok(mass)) => format!("{said}: {}", in_words(&mass::show(mass, reading.unit))),
                _ => said,
            }
        })
    }

    fn unit_of(&self, which: Which) -> Unit {
        match which {
            Which::Frame => self.off_bone.unit,
            which => self.reading(which).unit,
        }
    }

    /// What it gave, and what a portion costs.
    fn result(&self) -> Option<String> {
        let (sheet, _) = self.yield_sheet()?.ok()?;
        let portions = self.portions_told();
        let portion = portions
            .first()
            .map(|told| format!(" {}, {}, {}.", told.name, told.value, told.note));
        let said = format!("Yield {}.{}", sheet.gave.value, portion.unwrap_or_default());
        Some(in_words(&said))
    }
}

/// A reading as it is keyed.
fn keyed(reading: &ScaleReading, unit: Unit) -> String {
    let parts = reading
        .typed
        .split('+')
        .map(|part| with_unit(part.trim(), unit));
    parts.collect::<Vec<_>>().join(" plus ")
}

fn with_unit(typed: &str, unit: Unit) -> String {
    match (unit, typed.split_once("lb")) {
        (Unit::PoundOunce, Some((pounds, ounces))) => {
            let ounces = ounces.trim();
            let ounces = (!ounces.is_empty()).then(|| format!(" {ounces} ounces"));
            format!("{} pounds{}", pounds.trim(), ounces.unwrap_or_default())
        }
        (Unit::PoundOunce, None) => format!("{typed} ounces"),
        (unit, _) => format!("{typed} {}", unit.name()),
    }
}

/// A voice reads words better than symbols.
fn in_words(said: &str) -> String {
    let word = |word: &str| {
        let (bare, stop) = match word.strip_suffix(['.', ',']) {
            Some(bare) => (bare, word.get(bare.len()..).unwrap_or_default()),
            None => (word, ""),
        };
        let spoken = match bare {
            "g" => "grams",
            "kg" => "kilos",
            "oz" => "ounces",
            "lb" => "pounds",
            "%" => "percent",
            _ => bare,
        };
        format!("{spoken}{stop}")
    };
    // A space that keeps a figure and its unit on one line is a space like any other here.
    said.split_whitespace()
        .map(word)
        .collect::<Vec<_>>()
        .join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::instant::Instant;
    use crate::fish::action::Action;
    use crate::fish::demo;
    use crate::fish::settings::Settings;
    use crate::fish::weighing::Key;

    const NOW: Instant = Instant(1_790_000_000_000);

    #[test]
    fn a_weight_is_said_as_it_is_keyed_and_so_is_what_it_comes_to() {
        let fish = demo::bream("a".into(), NOW, &Settings::default());
        let act = |fish: &Fish, action| fish.apply(&action, NOW).unwrap();
        assert_eq!(
            fish.read_out(Stage::WeighWhole).as_deref(),
            Some("648 grams")
        );
        assert_eq!(fish.read_out(Stage::Delivery), None);
        assert_eq!(fish.read_out(Stage::Yield), None);
        let key = |fish: &Fish, key| act(fish, Action::Key(Which::Ready, key));
        let mut keyed = key(&fish, Key::Clear);
        assert_eq!(keyed.read_out(Stage::WeighReady), None);
        for pressed in [
            Key::Figure(1),
            Key::Figure(5),
            Key::Figure(0),
            Key::Plus,
            Key::Figure(1),
            Key::Figure(5),
            Key::Figure(2),
        ] {
            keyed = key(&keyed, pressed);
        }
        let said = keyed.read_out(Stage::WeighReady);
        assert_eq!(said.as_deref(), Some("150 grams plus 152 grams: 302 grams"));
        let take = |which| Action::Take { which, sure: true };
        let weighed = [take(Which::Whole), Action::Raw(true), take(Which::Ready)]
            .into_iter()
            .fold(keyed, |fish, action| act(&fish, action));
        let said = weighed.read_out(Stage::Yield).unwrap();
        assert!(
            said.starts_with("Yield 46.6 percent. 2 equal portions, 151 grams each, "),
            "{said}"
        );
        // Pounds and ounces, also while the second is not keyed yet.
        for (typed, said) in [
            ("3lb ", "3 pounds"),
            ("3lb 4.5", "3 pounds 4.5 ounces"),
            ("7", "7 ounces"),
        ] {
            assert_eq!(with_unit(typed, Unit::PoundOunce), said);
        }
    }
}
