//! How bends follow each other: straights between them, unequal radii, kinks.

use geometry::{Chain, Piece};

use super::judge::{Judged, Measured};
use crate::finding::Part;

/// A joint that turns less than this runs on smoothly, and an arc that does is no bend to the eye: two
/// degrees, what the eye sees in a hard edge (common practice, no source).
pub(super) const SLIGHT: f64 = std::f64::consts::PI / 90.0;

/// The lengths of the straights between two bends, which turn alike or opposite ways.
pub(super) fn straights_between(path: &Judged<'_>, alike: bool) -> Vec<Measured> {
    let count = path.chain.pieces().len();
    let mut found = Vec::new();
    for first in (0..count).filter(|i| is_bend(path.chain, *i)) {
        let Some((second, length)) = next_bend(path.chain, first) else {
            continue;
        };
        let same = turn(path.chain, first) * turn(path.chain, second) > 0.0;
        // Bends that meet have no straight between them.
        if length > 0.0 && same == alike {
            found.push(path.on_piece((first + 1) % count, length));
        }
    }
    found
}

/// The larger radius over the smaller where two bends that turn alike run into each other.
pub(super) fn ratios(path: &Judged<'_>) -> Vec<Measured> {
    let chain = path.chain;
    let radius = |i: usize| chain.pieces()[i].curvature().abs().recip();
    let mut found = Vec::new();
    for first in (0..chain.pieces().len()).filter(|i| is_bend(chain, *i)) {
        let Some((second, length)) = next_bend(chain, first) else {
            continue;
        };
        if length <= 0.0 && turn(chain, first) * turn(chain, second) > 0.0 {
            let (a, b) = (radius(first), radius(second));
            let sharper = if a < b { first } else { second };
            found.push(path.on_piece(sharper, a.max(b) / a.min(b)));
        }
    }
    found
}

/// What corners turn through that are not rounded and turn less than `corner`.
pub(super) fn kinks(path: &Judged<'_>, corner: f64) -> Vec<Measured> {
    let chain = path.chain;
    (0..chain.pieces().len())
        .map(|i| (i, chain.corner(i).abs()))
        .filter(|(_, turn)| *turn < corner)
        .map(|(i, turn)| {
            let Measured { part, .. } = path.on_piece(i, turn);
            Measured {
                value: turn,
                // A leg begins at the waypoint of its own number.
                part: match part {
                    Part::Leg(leg) => Part::Waypoint(leg),
                    other => other,
                },
                at: chain.pieces()[i].start(),
            }
        })
        .collect()
}

fn turn(chain: &Chain, piece: usize) -> f64 {
    chain.pieces()[piece].sweep()
}

fn is_bend(chain: &Chain, piece: usize) -> bool {
    turn(chain, piece).abs() >= SLIGHT
}

/// The bend that follows smoothly on a bend, and the length of what runs straight between them.
fn next_bend(chain: &Chain, bend: usize) -> Option<(usize, f64)> {
    let count = chain.pieces().len();
    let mut length = 0.0;
    for step in 1..count {
        let next = bend + step;
        if next >= count && !chain.is_closed() {
            return None;
        }
        let next = next % count;
        if chain.corner(next).abs() >= SLIGHT {
            return None;
        }
        if is_bend(chain, next) {
            return Some((next, length));
        }
        length += Piece::length(&chain.pieces()[next]);
    }
    None
}
