//! A chain in which each link touches only its neighbours: the equations of a slab, solved in one
//! sweep down and one sweep up (the algorithm of L. H. Thomas).

/// One equation: `lower·x(i−1) + diagonal·x(i) + upper·x(i+1) = right`.
#[derive(Clone, Copy, Debug, Default)]
pub struct BandRow {
    /// Weight of the unknown before; ignored in the first row.
    pub lower: f64,
    /// Weight of the row's own unknown.
    pub diagonal: f64,
    /// Weight of the unknown after; ignored in the last row.
    pub upper: f64,
    /// Right side on the way in, the solution on the way out.
    pub right: f64,
}

/// Solves in place, leaving the solution in `right`.
///
/// Meant for rows whose diagonal outweighs its neighbours, as those of heat conduction do, where
/// no pivoting is needed.
pub fn solve(rows: &mut [BandRow]) {
    let (mut upper, mut right) = (0.0, 0.0);
    for row in rows.iter_mut() {
        let scale = 1.0 / (row.diagonal - row.lower * upper);
        row.upper *= scale;
        row.right = (row.right - row.lower * right) * scale;
        (upper, right) = (row.upper, row.right);
    }
    let mut after = 0.0;
    for row in rows.iter_mut().rev() {
        row.right -= row.upper * after;
        after = row.right;
    }
}
