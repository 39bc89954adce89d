//! A cut drawn for this fish, this kit and this step, and the words of those that only flat fish need.

use leptos::prelude::*;

use super::drawing::{self, Drawing};
use crate::fish::record::Fish;
use crate::parts::cut_words;
use crate::prep::filleting::Cut;
use crate::prep::flat;
use crate::session::hand::Hand;

/// What stands beside a cut.
pub fn drawn(hand: Hand, cut: &'static Cut) -> AnyView {
    let (shape, missing) = hand
        .fish
        .with_untracked(|fish| (Fish::shape(fish), fish.slip.missing.clone()));
    let words = cut.words.is_none().then(|| flat::words(cut.id)).flatten();
    view! {
        {Drawing::of(cut.id, shape, &missing).map(drawing::view)}
        {words.map(|words| cut_words::told(words, &missing))}
    }
    .into_any()
}
