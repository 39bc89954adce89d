//! How far from the median a result has to lie before its class says anything about it.

/// Results of one species and form below which a class says nothing about one of them.
pub const FEWEST: usize = 5;

/// Results, and the robust deviations from their median past which one in four hundred honest classes has one: by
/// simulation, whatever the spread (`tests/vectors/flag_limits.py`). Four measures are held against it, so that of a
/// hundred honest classes at most one is troubled, large or small. That asks much of a class of five, where three results
/// lie close together by chance: what is plain there is plain by its size (see `slips.rs`), not by its distance.
const LIMITS: [(usize, f64); 17] = [
    (5, 37.61),
    (6, 16.59),
    (7, 17.86),
    (8, 11.80),
    (9, 12.19),
    (10, 9.54),
    (12, 8.35),
    (14, 7.52),
    (16, 7.05),
    (20, 6.39),
    (24, 5.99),
    (32, 5.51),
    (48, 5.13),
    (96, 4.78),
    (300, 4.64),
    (1000, 4.80),
    (5000, 5.00),
];

/// The limit for so many results: of those between two sizes that were tried, the wider one.
#[must_use]
pub fn limit(results: usize) -> f64 {
    let after = LIMITS.partition_point(|(size, _)| *size < results);
    let sizes = LIMITS.get(after.saturating_sub(1)..).unwrap_or_default();
    let exact = LIMITS.get(after).filter(|(size, _)| *size == results);
    let around = exact.map_or_else(|| sizes.iter().take(2).collect(), |one| vec![one]);
    let limits = around.into_iter().map(|(_, limit)| *limit);
    limits.fold(0.0, f64::max)
}
