//! What a result code carries of a fish: its readings, put together for the journey.

use super::refusals::{NoSlip, NothingToSend};
use super::slip;
use super::weighing::Which;
use crate::base::kit::Kit;
use crate::base::refusal::Refusal;
use crate::code;
use crate::code::day::Day;
use crate::code::sheet::{Cooked, Nickname, Sheet, Student, Technique};
use crate::fish::record::Fish;
use crate::service::dish::Dish;
use crate::service::dish::step::OfFish;
use crate::service::run::Run;
use crate::trade::breakdown::Weights;

/// Numbers of the dishes in a code, 0 for one without. Only ever added to.
const DISHES: [(u8, &str); 2] = [(1, "bream"), (2, "fillet")];

/// The most fish weighed together that a code has room for.
const MOST_TOGETHER: u8 = 32;

/// The steps whose times travel, of the first panful.
const TIMED: [OfFish; 3] = [OfFish::SkinSide, OfFish::Finish, OfFish::Rest];

impl Fish {
    /// The readings of this fish for a result code. `nickname` may be empty, `test` counts the student's
    /// tests of this species from 1, `offset_minutes` is how far the bench's clock is ahead of UTC.
    ///
    /// # Errors
    /// The sentence for what has to be filled in or mended first.
    pub fn carried(&self, nickname: &str, test: u8, offset_minutes: i32) -> Result<Sheet, Refusal> {
        let (Some(delivered), Some(ready)) =
            (self.taken_mass(Which::Whole), self.taken_mass(Which::Ready))
        else {
            return Err(NothingToSend::Unweighed.into());
        };
        let form = self.slip.form.ok_or(NoSlip::NoForm)?;
        let key = self
            .slip
            .species
            .as_ref()
            .ok_or(NothingToSend::NoSpecies)?
            .key();
        let price = match self.slip.price.trim() {
            "" => None,
            _ => Some(self.slip.read_price()?),
        };
        let portions = match self.slip.portions.trim() {
            "" => None,
            text => u8::try_from(slip::read_portions(text)?).ok(),
        };
        let count = u8::try_from(self.slip.read_count()?).unwrap_or(u8::MAX);
        if count > MOST_TOGETHER {
            return Err(NothingToSend::ManyTogether.into());
        }
        let student = match nickname.trim() {
            "" => None,
            text => Some(Student {
                nickname: Nickname::parse(text)?,
                test,
            }),
        };
        Ok(Sheet {
            fish: key.map_or(
                code::fish::SpeciesCode::OTHER,
                code::fish::SpeciesCode::of_key,
            ),
            form,
            scale: self.slip.scale,
            weights: Weights {
                delivered,
                off_bone: self.taken_mass(Which::OffBone),
                ready,
            },
            price,
            portions,
            count,
            missing: self.slip.missing.clone(),
            technique: self.technique(),
            day: Day::at(self.begun, offset_minutes).ok_or(NothingToSend::Clock)?,
            student,
            cooked: (self.run.as_ref().zip(self.dish().ok()))
                .and_then(|(run, dish)| cooked(dish, run)),
        })
    }
}

impl Fish {
    /// What the cook said of the filleting; or, where nobody was asked, what follows from the kit.
    fn technique(&self) -> Technique {
        let told = self.filleted_told();
        if told.is_empty() {
            return Technique::Presumed {
                // Every dish here is cooked on its skin, and the filleting leaves it on.
                skin_on: true,
                pin_bones_cut: self.slip.missing.contains(&Kit::Pliers),
            };
        }
        Technique::Told(told)
    }
}

/// The times of the fillets in the pan and after it. Nothing when a step is open still, or a forgotten timer
/// makes a time that no code carries.
fn cooked(dish: &Dish, run: &Run) -> Option<Cooked> {
    let number = DISHES
        .iter()
        .find(|(_, known)| *known == dish.id)
        .map_or(0, |(number, _)| *number);
    let [skin_side, finish, rest] = TIMED.map(|part| {
        let step = dish.steps.iter().find(|step| step.of_fish == Some(part))?;
        let step = run.steps.get(&step.id)?;
        let ms = step.done?.ms_since(step.began).checked_sub(step.held_ms)?;
        u32::try_from(ms / 1000).ok()
    });
    Cooked::of(number, skin_side?, finish?, rest?).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::filleted::{FilletAnswer, FilletAnswers, FilletQuestion};
    use crate::base::instant::Instant;
    use crate::code::letters::Code;
    use crate::code::opening::open;
    use crate::fish::action::Action;
    use crate::fish::demo;
    use crate::fish::settings::Settings;
    use crate::fish::slip::Species;
    use crate::service::run::Tap;
    use crate::trade::mass::Mass;

    /// 2026-03-09, 23:30 UTC.
    const LATE: Instant = Instant(1_773_099_000_000);

    fn weighed() -> Fish {
        let fish = demo::bream("a".into(), LATE, &Settings::default());
        let take = |which| Action::Take { which, sure: true };
        [
            take(Which::Whole),
            take(Which::OffBone),
            Action::Raw(true),
            take(Which::Ready),
        ]
        .iter()
        .fold(fish, |fish, action| fish.apply(action, LATE).unwrap())
    }

    #[test]
    fn a_fish_goes_through_its_code_unchanged() {
        let mut fish = weighed();
        fish.slip.count = "4".into();
        let sheet = fish.carried(" tern ", 2, 60).unwrap();
        assert_eq!(sheet.count, 4);
        assert_eq!(sheet.day.to_string(), "2026-03-10");
        assert_eq!(sheet.weights.delivered, Mass::from_mg(648_000));
        assert_eq!(sheet.weights.off_bone, Some(Mass::from_mg(336_000)));
        assert_eq!(sheet.missing, fish.slip.missing);
        let pins = sheet.technique.told(FilletQuestion::PinBones);
        assert_eq!(pins, Some(FilletAnswer::PinBonesPulled));
        assert_eq!(sheet.cooked, None);
        let code = Code::of(&sheet).unwrap();
        assert!(code.letters() <= 40);
        assert_eq!(open(&code.to_string()).unwrap().sheet, sheet);
    }

    /// What the empty scale shows is off the weights that travel: a tutor's sums are the cook's.
    #[test]
    fn a_fish_travels_without_what_the_empty_scale_shows() {
        let fish = weighed()
            .apply(&Action::Zero(Mass::from_mg(4_000)), LATE)
            .unwrap();
        let sheet = fish.carried("", 1, 0).unwrap();
        let weights = fish.breakdown().unwrap().unwrap().weights();
        assert_eq!(sheet.weights, weights);
        // 648, 336 and 302 g on a scale of 2 g that shows 4 g empty.
        assert_eq!(weights.delivered.mg(), 644_000);
        assert_eq!(weights.off_bone.unwrap().mg(), 332_000);
        assert_eq!(weights.ready.mg(), 298_000);
        let told = fish.yield_sheet().unwrap().unwrap().0;
        assert_eq!(told.gave.value, "46.3 %");
        assert!(told.doubt.note.contains("; 4 g, shown empty, taken off"));
        // Another scale shows something else.
        let other = fish.apply(&Action::Scale(crate::trade::mass::Scale::ONE_GRAM), LATE);
        assert_eq!(other.unwrap().zero_shown(), None);
    }

    #[test]
    fn what_is_not_said_is_left_out() {
        let mut fish = weighed();
        fish.slip.price.clear();
        fish.slip.portions.clear();
        fish.slip.species = Some(Species::Other("Wreckfish".into()));
        fish.slip.missing.insert(Kit::Pliers);
        let sheet = fish.carried("", 1, 0).unwrap();
        assert_eq!(
            (sheet.price, sheet.portions, sheet.student),
            (None, None, None)
        );
        assert_eq!(sheet.fish, code::fish::SpeciesCode::OTHER);
        // Taken with pliers, and there are none: what was told can't be, and is not carried.
        assert_eq!(sheet.technique.told(FilletQuestion::PinBones), None);
        // Of an earlier build, which did not ask.
        fish.filleted = FilletAnswers::default();
        let presumed = Technique::Presumed {
            skin_on: true,
            pin_bones_cut: true,
        };
        assert_eq!(fish.carried("", 1, 0).unwrap().technique, presumed);
    }

    #[test]
    fn what_stands_in_the_way_is_named() {
        type Spoil = fn(&mut Fish);
        let cases: [(Spoil, &str, &str); 9] = [
            (|fish| fish.slip.count = "33".into(), "", "at most 32 fish"),
            (|fish| fish.slip.count = "0".into(), "", "at least one fish"),
            (|fish| fish.whole.taken = false, "", "Weigh the fish whole"),
            (|fish| fish.ready.taken = false, "", "ready to cook first"),
            (
                |fish| fish.slip.form = None,
                "",
                "how the fish was delivered",
            ),
            (|fish| fish.slip.species = None, "", "Choose the fish"),
            (|fish| fish.slip.portions = "two".into(), "", "whole number"),
            (|fish| fish.begun = Instant(0), "", "clock"),
            (|_| {}, "tern5", "one to four letters"),
        ];
        for (spoil, nickname, said) in cases {
            let mut fish = weighed();
            spoil(&mut fish);
            let refusal = fish.carried(nickname, 1, 0).unwrap_err().to_string();
            assert!(refusal.contains(said), "{refusal}");
        }
        let mut fish = weighed();
        fish.slip.price = "much".into();
        assert!(fish.carried("", 1, 0).is_err());
    }

    /// Taps at seconds from the start, held for 20 s on the skin side.
    #[test]
    fn the_times_in_the_pan_travel_without_the_time_held() {
        let mut fish = weighed();
        let start = Action::Start { insist: true };
        fish = fish.apply(&start, LATE).unwrap();
        let id = String::from;
        for (secs, tap) in [
            (0, Tap::Begin(id("warm_plates"))),
            (0, Tap::Done(id("warm_plates"))),
            (0, Tap::Begin(id("heat_pan"))),
            (60, Tap::Done(id("heat_pan"))),
            (60, Tap::Begin(id("skin_side"))),
            (100, Tap::Hold(id("skin_side"))),
            (120, Tap::Resume(id("skin_side"))),
            (300, Tap::Done(id("skin_side"))),
            (335, Tap::Done(id("flesh_side"))),
            (340, Tap::Done(id("check_core"))),
        ] {
            fish = fish
                .apply(&Action::Serve(tap), LATE.plus_secs(secs))
                .unwrap();
        }
        assert_eq!(fish.carried("", 1, 0).unwrap().cooked, None);
        let rested = Action::Serve(Tap::Done(id("rest")));
        let done = fish.apply(&rested, LATE.plus_secs(580)).unwrap();
        let cooked = done.carried("", 1, 0).unwrap().cooked.unwrap();
        assert_eq!((cooked.dish(), cooked.secs()), (1, [220, 35, 240]));
        let forgotten = fish.apply(&rested, LATE.plus_secs(5_000)).unwrap();
        assert_eq!(forgotten.carried("", 1, 0).unwrap().cooked, None);
    }
}
