//! What to do about a plate that is not right yet. Common practice, no source.

use super::PlateCheck;

impl PlateCheck {
    /// What to do where this is answered with "Not yet"; nothing for a question of a cook's own.
    #[must_use]
    pub fn remedy(&self) -> Option<&'static str> {
        Some(match self.id.as_str() {
            "neat" => "Wipe the rim with a clean, damp cloth, and put every part in its place.",
            "not_overfilled" => "Take something off, or use a larger plate.",
            "cooked" => {
                "Back into the pan on a low heat for half a minute, then look again. Your local code and your supervisor say which temperature counts."
            }
            "crisp" => {
                "Skin side down in the hot pan again for half a minute. Lower it away from you: oil spits."
            }
            "hot" => {
                "Vegetables back into the pan, the plate onto the warm shelf. Hold it with a dry cloth."
            }
            "garnish" => "Put on a fresh one, dressed just now.",
            _ => return None,
        })
    }
}

#[cfg(test)]
mod tests {
    use crate::service::dish::shipped;

    #[test]
    fn every_question_of_ours_leads_somewhere() {
        for dish in shipped::dishes().unwrap() {
            for check in &dish.plate_check {
                assert!(check.remedy().is_some(), "{}: {}", dish.id, check.id);
            }
        }
    }
}
