//! One fish up to its yield: what the first visit needs.

use leptos::prelude::AnyView;

use crate::prep::filleting::Cut;
use crate::session::hand::Hand;

/// What asks how the fillets were made, at a cut or all of it: it comes later.
pub type AsksFilleting = fn(Hand, Option<&'static Cut>) -> AnyView;

pub mod delivery;
pub mod fillet;
pub mod weigh;
