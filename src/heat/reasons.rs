//! Why the turn and the lift are where they are, in a cook's words: each sentence follows from the figures of its advice.

use super::advice::Advice;
use super::cook::OtherTurn;
use super::skin::{THIN_MM, USUAL_MM};
use crate::base::stretch::stretch;

/// So much hotter than aimed at is said, K.
const HOTTER_K: f64 = 2.0;

impl Advice {
    /// How the share of the skin side stands against the kitchen rule.
    #[must_use]
    pub fn share_said(&self) -> String {
        format!(
            "Skin side down for {:.0} % of the pan time. The kitchen rule says nine tenths: common practice, no source.",
            self.skin_share * 100.0
        )
    }

    /// Why it is turned and lifted then.
    #[must_use]
    pub fn reasons(&self) -> Vec<String> {
        let turn = self.skin_secs.best;
        let mut reasons = Vec::new();
        let is_for_the_skin = self.skin_dry_at.is_some_and(|dry| turn <= dry);
        reasons.push(if is_for_the_skin {
            let hotter = if self.core_peak_c.best >= self.aimed_c + HOTTER_K {
                " By then the middle is on its way to more than you want: a hotter pan dries the skin sooner."
            } else {
                ""
            };
            format!(
                "Turned when the skin has dried: sooner, it stays soft.{hotter} {}",
                self.dried()
            )
        } else {
            format!(
                "Of all moments to turn it, this one dries the least. {}",
                self.dried()
            )
        });
        if let Some(plain) = self.dryness_unaimed {
            reasons.push(format!(
                "Aimed at {:.0} °C, so that your rule is met even at the low end, {:.0} °C. At {:.0} °C by the best estimate alone, {} of the thickness would get dry.",
                self.aimed_c,
                self.core_peak_c.low,
                self.wanted_c,
                percent(plain.share)
            ));
        }
        if self.has_skin {
            reasons.push(self.skin_said());
        }
        reasons.push(format!(
            "All its heat counted together, the coldest part gets what {} at 70 °C would give (z = 7.5 °C, the curve behind the UK table). Your rule asks for its temperature held without a break.",
            match self.seconds_at_70 {
                secs if secs < 1.0 => "less than a second".to_owned(),
                secs => stretch(secs as i64),
            }
        ));
        let (share, mm) = self.pale_edge;
        reasons.push(format!(
            "At the turn the edge that you see is pale {}, where the side is about {mm:.0} mm thick.",
            match share {
                share if share >= 0.95 => "all the way up".to_owned(),
                share => format!("{:.0} mm up", share * mm),
            }
        ));
        reasons
    }

    fn skin_said(&self) -> String {
        match self.skin_dry_at {
            Some(dry) => format!(
                "The skin has dried after about {}: so long its water takes to boil away. Skin of {THIN_MM} or {USUAL_MM} mm by the kind of fish: our choice, no source. Crisp is for the eye.",
                stretch(i64::from(dry))
            ),
            None => {
                "The skin does not dry in this pan in the time: to get crisp it needs a hotter one."
                    .to_owned()
            }
        }
    }

    fn dried(&self) -> String {
        format!(
            "{} of the thickness passes 65 °C, where flesh gets dry (Skipnes et al. 2008).",
            percent(self.dryness.share)
        )
    }
}

impl OtherTurn {
    /// What this turn would do.
    #[must_use]
    pub fn said(&self) -> String {
        let skin = if self.skin_dried >= 1.0 {
            "the skin has dried".to_owned()
        } else {
            format!(
                "the skin is {} dry, and stays soft",
                percent(self.skin_dried)
            )
        };
        format!(
            "Turned after {}, lifted after {}: {} of the thickness gets dry, {skin}.",
            stretch(i64::from(self.turn)),
            stretch(i64::from(self.lift)),
            percent(self.dryness.share)
        )
    }
}

fn percent(share: f64) -> String {
    format!("{:.0} %", share * 100.0)
}
