//! One student over time: every fish, in the order of the days, and whether yield and losses go one way.

use super::board::{Board, LotKey};
use super::group::Measure;
use crate::trade::trend::OwnTrend;

/// The fish of one student, of one species and form.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OwnSeries {
    /// What it is of.
    pub key: LotKey,
    /// The fish and its form, in words.
    pub label: String,
    /// The places of the rows, the earliest day first, and of one day as they came.
    pub rows: Vec<usize>,
}

/// The fish of a student, parted by species and form, those with most fish first.
#[must_use]
pub fn series(board: &Board, nickname: &str) -> Vec<OwnSeries> {
    let is_own = |nth: &usize| {
        let row = board.rows().get(*nth);
        row.is_some_and(|row| row.whose()[0] == nickname)
    };
    let mut all: Vec<OwnSeries> = board
        .lots()
        .iter()
        .map(|lot| {
            let mut rows: Vec<usize> = lot.rows.iter().copied().filter(is_own).collect();
            rows.sort_by_key(|nth| board.rows().get(*nth).map(|row| row.result.sheet.day));
            OwnSeries {
                key: lot.key,
                label: lot.label.clone(),
                rows,
            }
        })
        .filter(|series| !series.rows.is_empty())
        .collect();
    all.sort_by_key(|series| std::cmp::Reverse(series.rows.len()));
    all
}

impl OwnSeries {
    /// How a figure moves over these fish; nothing where fewer than two have it.
    #[must_use]
    pub fn trend(&self, board: &Board, measure: Measure) -> Option<OwnTrend> {
        let values = board.results(&self.rows);
        OwnTrend::of(
            &values
                .filter_map(|result| measure.of(result))
                .collect::<Vec<f64>>(),
        )
    }
}
