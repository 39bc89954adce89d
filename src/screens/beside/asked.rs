//! What is asked of the filleting, each answer a tap. What counts without one is chosen already; what can't differ at this
//! bench is not asked.

use leptos::prelude::*;

use crate::base::filleted::{FilletAnswer, FilletQuestion};
use crate::fish::action::Action;
use crate::parts::choice::{fault, one_of};
use crate::parts::words;
use crate::prep::asked;
use crate::prep::filleting::Cut;
use crate::session::hand::Hand;

/// What is asked about the fish in hand at a cut, or at all of them.
pub fn rows(hand: Hand, cut: Option<&'static Cut>) -> AnyView {
    let questions = cut.map_or(FilletQuestion::ALL.as_slice(), |cut| asked::at_cut(cut.id));
    let fish = hand.fish;
    let refused = RwSignal::new(None);
    let rows = questions.iter().filter_map(|question| {
        let question = *question;
        let fitting = fish.with_untracked(|fish| fish.fitting(question));
        (fitting.len() > 1).then(|| {
            one_of(
                question.name(),
                words::plain_capital(question.name()),
                "three",
                fitting
                    .iter()
                    .map(|answer| (*answer, short(*answer).to_owned()))
                    .collect(),
                move || fish.with(|fish| fish.filleted_as(question)),
                move |answer| {
                    hand.weigh(Action::Filleted(answer), refused);
                },
            )
        })
    });
    view! {
        {rows.collect_view()}
        {fault("filleted-fault", move || refused.get())}
    }
    .into_any()
}

/// An answer beside its question.
fn short(answer: FilletAnswer) -> &'static str {
    match answer {
        FilletAnswer::SkinOn => "Left on",
        FilletAnswer::SkinOff => "Taken off",
        FilletAnswer::PinBonesPulled => "Pulled",
        FilletAnswer::PinBonesCut => "Cut out",
        FilletAnswer::PinBonesLeft => "Left in",
        FilletAnswer::FlexibleKnife => "Flexible",
        FilletAnswer::StiffKnife => "Stiff",
        FilletAnswer::FourFillets => "Four",
        FilletAnswer::TwoFillets => "Two",
    }
}
