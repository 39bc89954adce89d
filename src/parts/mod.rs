//! Pieces of screen used by several screens.
