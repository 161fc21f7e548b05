//! Where a chain crosses itself.

use std::f64::consts::FRAC_PI_2;

use crate::tree::{Run, Tree};
use crate::{Bounds, Chain, Piece, Point, SAME_PLACE, meetings};

/// One place where a chain meets itself again.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Crossing {
    /// Where it is.
    pub point: Point,
    /// The station of the first passage.
    pub first: f64,
    /// The station of the second passage, greater than the first.
    pub second: f64,
}

/// All self-crossings, by first station; of a hopeless tangle [`MOST`] of them. Runs of pieces whose
/// boxes lie apart are not looked at piece by piece: a chain that runs on costs little more than its
/// length.
pub(crate) fn self_crossings(chain: &Chain) -> Vec<Crossing> {
    let boxes: Vec<Bounds> = chain
        .pieces()
        .iter()
        .map(|piece| piece.bounds().grown(SAME_PLACE))
        .collect();
    let tree = Tree::over(&boxes);
    let mut found = Vec::new();
    if let Some(all) = tree.root() {
        within(&tree, &all, &mut |before, after| {
            between(chain, before, after, &mut found);
            found.len() < MOST
        });
    }
    found.sort_by(|a, b| {
        a.first
            .total_cmp(&b.first)
            .then(a.second.total_cmp(&b.second))
    });
    // A crossing right at a joint is met by the pieces on both sides of it.
    found.dedup_by(|next, kept| {
        next.first - kept.first < JOINT && (next.second - kept.second).abs() < JOINT
    });
    found
}

/// More crossings than this are no help to anyone, and 10 000 legs can have 50 million.
const MOST: usize = 1000;

/// Tells of every two boxes of a run that meet, as long as it is answered that more are wanted;
/// whether they still are.
fn within(tree: &Tree, run: &Run, tell: &mut impl FnMut(usize, usize) -> bool) -> bool {
    if run.is_leaf() {
        return true;
    }
    let (first, second) = run.halves();
    within(tree, &first, tell) && within(tree, &second, tell) && across(tree, &first, &second, tell)
}

/// Tells of every box of one run that meets one of a later run.
fn across(
    tree: &Tree,
    first: &Run,
    second: &Run,
    tell: &mut impl FnMut(usize, usize) -> bool,
) -> bool {
    if !tree.bounds(first).meets(*tree.bounds(second)) {
        true
    } else if first.is_leaf() && second.is_leaf() {
        tell(first.things.start, second.things.start)
    } else if first.things.len() >= second.things.len() {
        let (one, other) = first.halves();
        across(tree, &one, second, tell) && across(tree, &other, second, tell)
    } else {
        let (one, other) = second.halves();
        across(tree, first, &one, tell) && across(tree, first, &other, tell)
    }
}

fn between(chain: &Chain, before: usize, after: usize, found: &mut Vec<Crossing>) {
    let pieces = chain.pieces();
    if after == before + 1 && turns_too_little(&pieces[before], &pieces[after]) {
        return;
    }
    let station = |piece: usize, point: Point| {
        let along = pieces[piece].along(point);
        chain.station_of(piece) + along.clamp(0.0, pieces[piece].length())
    };
    let joined = after == before + 1;
    for point in meetings(&pieces[before], &pieces[after], SAME_PLACE) {
        if joined && point.distance(pieces[after].start()) < 0.5 * JOINT {
            continue;
        }
        let (first, second) = (station(before, point), station(after, point));
        let apart = second - first;
        let round = chain.length() - apart;
        // Where two neighbours join they meet without crossing.
        if apart > JOINT && !(chain.is_closed() && round < JOINT) {
            found.push(Crossing {
                point,
                first,
                second,
            });
        }
    }
    // A neighbour that comes straight back along its own piece has no single meeting point.
    if after == before + 1 && doubles_back(&pieces[before], &pieces[after]) {
        found.push(Crossing {
            point: pieces[after].start(),
            first: chain.station_of(after),
            second: chain.station_of(after),
        });
    }
}

/// Meetings within this way along the chain belong to the joint itself (a smooth joint of two
/// arcs meets over a length that grows with the square root of the rounding).
const JOINT: f64 = 1e-4;

/// Whether two neighbours turn through less than half a circle in all. A line that meets itself
/// again has gone round a loop, and a loop turns through a whole circle, of which the place where it
/// meets itself takes half at most.
fn turns_too_little(before: &Piece, after: &Piece) -> bool {
    const ENOUGH: f64 = std::f64::consts::PI - crate::SAME_DIRECTION;
    let (from, to) = (before.end_direction(), after.start_direction());
    // Seen at once most times: an angle is less than its tangent, and up to a quarter turn than π/2 of its sine.
    let at_most = |piece: &Piece| {
        piece
            .arc()
            .map_or(0.0, |arc| 8.0 * arc.rise().abs() / arc.chord())
    };
    let corner = FRAC_PI_2 * from.unit().cross(to.unit()).abs();
    if from.unit().dot(to.unit()) > 0.0 && at_most(before) + corner + at_most(after) < ENOUGH {
        return true;
    }
    before.sweep().abs() + from.turn_to(to).abs() + after.sweep().abs() < ENOUGH
}

fn doubles_back(before: &Piece, after: &Piece) -> bool {
    let turn = before.end_direction().turn_to(after.start_direction());
    let flat = |piece: &Piece| piece.arc().is_none();
    flat(before) && flat(after) && std::f64::consts::PI - turn.abs() < crate::SAME_DIRECTION
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Arc, Line};

    fn chain(points: &[(f64, f64)], closed: bool) -> Chain {
        let pieces = points
            .windows(2)
            .map(|p| {
                let [(a, b), (c, d)] = [p[0], p[1]];
                Piece::Line(Line::new(Point::new(a, b), Point::new(c, d)).unwrap())
            })
            .collect();
        Chain::new(pieces, closed).unwrap()
    }

    #[test]
    fn a_loop_crosses_once() {
        let found =
            chain(&[(0., 0.), (4., 0.), (4., 3.), (2., 3.), (2., -1.)], false).self_crossings();
        assert_eq!(found.len(), 1);
        assert!(found[0].point.distance(Point::new(2.0, 0.0)) < 1e-12);
        assert!((found[0].first - 2.0).abs() < 1e-12);
        assert!((found[0].second - 12.0).abs() < 1e-12);
    }

    #[test]
    fn every_two_boxes_that_meet_are_told_of_once() {
        let boxes: Vec<Bounds> = (0..37)
            .map(|i| {
                let at = f64::from(i * 29 % 37);
                Bounds::of(Point::new(at, f64::from(i * 11 % 37))).grown(4.5)
            })
            .collect();
        let mut told = Vec::new();
        let tree = Tree::over(&boxes);
        assert!(within(&tree, &tree.root().unwrap(), &mut |a, b| {
            told.push((a, b));
            true
        }));
        told.sort_unstable();
        let pairs = (0..37).flat_map(|a| (a + 1..37).map(move |b| (a, b)));
        let all: Vec<_> = pairs.filter(|(a, b)| boxes[*a].meets(boxes[*b])).collect();
        assert!(all.len() > 20);
        assert_eq!(told, all);
    }

    #[test]
    fn a_crossing_at_a_joint_is_one() {
        let points = [
            (0., 0.),
            (4., 0.),
            (8., 0.),
            (8., 6.),
            (4., 6.),
            (4., 0.),
            (4., -6.),
        ];
        assert_eq!(chain(&points, false).self_crossings().len(), 1);
    }

    #[test]
    fn a_square_walked_round_does_not_cross() {
        let square = [(0., 0.), (4., 0.), (4., 4.), (0., 4.), (0., 0.)];
        assert!(chain(&square, true).self_crossings().is_empty());
    }

    #[test]
    fn there_and_back_is_found() {
        assert_eq!(
            chain(&[(0., 0.), (4., 0.), (1., 0.)], false)
                .self_crossings()
                .len(),
            1
        );
    }

    #[test]
    fn a_smooth_joint_is_no_crossing() {
        let corner = Point::new(4.0, 0.0);
        let line = Line::new(Point::ORIGIN, corner).unwrap();
        let arc = Arc::leaving(corner, line.direction(), Point::new(7.0, 3.0)).unwrap();
        let smooth = Chain::new(vec![Piece::Line(line), Piece::Arc(arc)], false).unwrap();
        assert!(smooth.self_crossings().is_empty());
    }
}
