//! One fish taken apart: how it was delivered.

use serde::{Deserialize, Serialize};

/// The form the fish was delivered in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum DeliveryForm {
    /// As it came out of the water.
    Whole,
    /// Gutted, scales on.
    Gutted,
    /// Gutted and scaled.
    GuttedScaled,
    /// Headed and gutted.
    HeadedGutted,
}
