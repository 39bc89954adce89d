//! What a fish says of itself once it is weighed.

use super::record::Fish;
use crate::base::refusal::Refusal;
use crate::trade::yield_sheet::{Figure, Portioning, YieldSheet};

impl Fish {
    /// Its yield test told line by line, and why the costs are missing if they can't be worked out. Nothing before it
    /// is weighed whole and ready to cook.
    ///
    /// # Errors
    /// Why the weights can't belong to one fish.
    pub fn yield_sheet(&self) -> Option<Result<(YieldSheet, Option<Refusal>), Refusal>> {
        let breakdown = match self.breakdown()? {
            Ok(breakdown) => breakdown,
            Err(refusal) => return Some(Err(refusal)),
        };
        let test = self.yield_test()?;
        let sheet = YieldSheet::of(
            &breakdown,
            self.slip.form,
            self.slip.scale,
            self.ready.unit,
            test.as_ref().ok(),
        );
        let mut sheet = if self.one_fillet {
            sheet.of_one_fillet()
        } else {
            sheet
        };
        if let Some(shown) = self.zero_shown() {
            let taken_off = format!("; {shown}, shown empty, taken off each weight");
            sheet.doubt.note.push_str(&taken_off);
        }
        Some(Ok((sheet, test.err())))
    }

    /// How many portions the fillets make, and what one costs: of the weight that was typed, or as many as are wanted.
    #[must_use]
    pub fn portions_told(&self) -> Vec<Figure> {
        let Some(Ok(test)) = self.yield_test() else {
            return Vec::new();
        };
        let portioning = match self.portion_mass() {
            Ok(Some(portion)) => Some(Portioning::Weighing(portion)),
            Ok(None) => self
                .slip
                .read()
                .ok()
                .map(|order| Portioning::Equal(order.portions)),
            Err(_) => None,
        };
        portioning.map_or_else(Vec::new, |portioning| {
            portioning.figures(&test, self.ready.unit)
        })
    }
}
