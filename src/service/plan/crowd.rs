//! Where the soonest moments would put more on a pool than it holds.

use super::backward::{Backward, Piece, Pool};
use super::network::Network;
use super::question::{Order, Question};

fn compete(a: Piece, b: Piece) -> bool {
    a.moment != b.moment && !(a.fixed && b.fixed)
}

/// For all pairs of pieces that are too much for their pool together: which comes first?
pub(super) fn rivals(problem: &Backward) -> Vec<Question> {
    let mut found = Vec::new();
    for pool in &problem.pools {
        for (k, &a) in pool.pieces.iter().enumerate() {
            for &b in pool.pieces.iter().skip(k + 1) {
                if compete(a, b) && a.places > pool.places - b.places {
                    found.push(Question {
                        yes: Order::of(a, b),
                        no: Order::of(b, a),
                    });
                }
            }
        }
    }
    found
}

/// For each moment at which a pool of two places or more is overfull at the soonest moments: the orders of a
/// smallest set of pieces that are together too much. At least one of the orders must hold.
pub(super) fn crowds(problem: &Backward, network: &Network) -> Vec<Vec<Order>> {
    (problem.pools.iter().filter(|p| p.places > 1))
        .flat_map(|pool| {
            (pool.pieces.iter())
                .filter_map(|p| crowd(pool, network.soonest(p.moment) + p.offset, network))
        })
        .collect()
}

fn crowd(pool: &Pool, at: i32, network: &Network) -> Option<Vec<Order>> {
    let mut there: Vec<Piece> = (pool.pieces.iter())
        .filter(|p| {
            let begin = network.soonest(p.moment) + p.offset;
            begin <= at && at < begin + p.secs
        })
        .copied()
        .collect();
    let sum = |pieces: &[Piece]| pieces.iter().map(|p| i64::from(p.places)).sum::<i64>();
    if sum(&there) <= i64::from(pool.places) {
        return None;
    }
    // What has started was put there by the cook: only a crowd with something yet to start can be mended.
    there.sort_by_key(|p| (p.fixed, -p.places));
    if there.first().is_none_or(|p| p.fixed) {
        return None;
    }
    let mut set: Vec<Piece> = Vec::new();
    for piece in there {
        set.push(piece);
        if sum(&set) > i64::from(pool.places) {
            break;
        }
    }
    // Any but the first may be spare.
    let mut k = 1;
    while k < set.len() {
        let mut fewer = set.clone();
        fewer.remove(k);
        if sum(&fewer) > i64::from(pool.places) {
            set = fewer;
        } else {
            k += 1;
        }
    }
    let mut orders = Vec::new();
    for &a in &set {
        orders.extend((set.iter().filter(|&&b| compete(a, b))).map(|&b| Order::of(a, b)));
    }
    Some(orders)
}
