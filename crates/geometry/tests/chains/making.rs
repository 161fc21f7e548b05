//! Chains to try things on.

use geometry::{Arc, Chain, Direction, Line, Piece, Point, Vector};
use proptest::prelude::*;

/// The piece from one point to another with this signed rise, straight where there is none.
pub(crate) fn piece(from: Point, to: Point, rise: f64) -> Option<Piece> {
    let arc = Arc::from_rise(from, to, rise).map(Piece::Arc);
    arc.or_else(|_| Line::new(from, to).map(Piece::Line)).ok()
}

pub(crate) fn chain(pieces: Vec<Piece>, closed: bool) -> Chain {
    match Chain::new(pieces, closed) {
        Ok(chain) => chain,
        Err(why) => panic!("{why}"),
    }
}

/// Many points of a piece in walking order, both ends among them.
pub(crate) fn samples(piece: &Piece, count: u32) -> Vec<Point> {
    let length = piece.length();
    let inner = (1..count).map(|i| piece.point_at(length * f64::from(i) / f64::from(count)));
    std::iter::once(piece.start())
        .chain(inner)
        .chain([piece.end()])
        .collect()
}

/// A chain turned, moved and enlarged.
pub(crate) fn moved(chain: &Chain, turn: f64, by: Vector, scale: f64) -> Chain {
    let place = |p: Point| place(p, turn, by, scale);
    let pieces = chain.pieces().iter().map(|piece| {
        let rise = piece.arc().map_or(0.0, |arc| arc.rise() * scale);
        self::piece(place(piece.start()), place(piece.end()), rise)
    });
    self::chain(pieces.flatten().collect(), chain.is_closed())
}

pub(crate) fn place(p: Point, turn: f64, by: Vector, scale: f64) -> Point {
    let (sine, cosine) = turn.sin_cos();
    Point::new(cosine * p.x - sine * p.y, sine * p.x + cosine * p.y)
        .towards(Point::ORIGIN, 1.0 - scale)
        + by
}

/// Straights and bends through any points, corners and all.
pub(crate) fn cornered(count: std::ops::Range<usize>) -> impl Strategy<Value = Chain> {
    let step = (
        (-10.0..10.0_f64, -10.0..10.0_f64),
        prop_oneof![Just(0.0), -1.5..1.5_f64],
    );
    (prop::collection::vec(step, count), any::<bool>()).prop_filter_map(
        "no chain",
        |(steps, closed)| {
            let closed = closed && steps.len() > 3;
            let corners: Vec<Point> = steps.iter().map(|((x, y), _)| Point::new(*x, *y)).collect();
            let ends = corners
                .iter()
                .skip(1)
                .chain(corners.iter().take(usize::from(closed)));
            let pieces: Option<Vec<Piece>> = corners
                .iter()
                .zip(ends)
                .zip(&steps)
                .map(|((from, to), (_, bow))| {
                    // the bow is the rise as a share of the chord: up to three quarters of a circle
                    let chord = from.distance(*to);
                    (chord > 0.5)
                        .then(|| piece(*from, *to, bow * chord))
                        .flatten()
                })
                .collect();
            Chain::new(pieces?, closed).ok()
        },
    )
}

/// Straights and bends that run on smoothly, radii 3 m and more.
pub(crate) fn smooth() -> impl Strategy<Value = Chain> {
    let step = (1.0..8.0_f64, 3.0..20.0_f64, -2.5..2.5_f64, any::<bool>());
    (prop::collection::vec(step, 1..7), -3.2..3.2_f64).prop_filter_map(
        "no chain",
        |(steps, angle)| {
            let mut at = Point::new(3.0, -2.0);
            let mut way = Direction::EAST.turned(angle);
            let mut pieces = Vec::new();
            for (length, radius, sweep, straight) in steps {
                let (chord, turn) = if straight {
                    (length, 0.0)
                } else {
                    (2.0 * radius * (0.5 * sweep.abs()).sin(), sweep)
                };
                let end = at + way.turned(0.5 * turn).unit() * chord;
                pieces.push(piece(at, end, -0.5 * chord * (0.25 * turn).tan())?);
                at = end;
                way = way.turned(turn);
            }
            Chain::new(pieces, false).ok()
        },
    )
}
