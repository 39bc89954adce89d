//! How long things take, natively: `.ci/speed` runs it. Nothing here fails for being slow.
//!
//! Divan prints the times of one run. What a change must not make worse stands below them, as ratios, which
//! are the same on a slow machine and on a fast one.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::string_slice,
    missing_docs
)]

mod codes;
mod growth;
mod heats;
#[path = "../memory_shelf/mod.rs"]
mod memory_shelf;
#[path = "../vectors/plan_instances.rs"]
mod plan_instances;
mod plans;
mod tests;

fn main() {
    divan::main();
    println!("\nratios of median times; linear growth is 1.0 an item");
    codes::ratios();
    plans::ratios();
    heats::ratios();
    tests::ratios();
}
