//! The ground a vehicle goes over: the pieces of a chain, ready to measure from.

use crate::{Arc, Chain, Piece, Point, Vector};

/// A piece of the ground, a straight or an arc of a quarter turn at most, ready to measure from.
#[derive(Clone, Copy, Debug)]
pub(super) struct Ground {
    /// The stations of its ends.
    pub(super) from: f64,
    pub(super) to: f64,
    /// Which piece it is of, and the station at which that starts; `None` beyond the ends.
    pub(super) piece: Option<(usize, f64)>,
    start: Point,
    end: Point,
    leaves: Vector,
    arrives: Vector,
    /// The swing point, and the radius, negative where it turns right.
    round: Option<(Point, f64)>,
}

/// An arc whose radius is so many times its length is a straight here: over 100 m it stands 12
/// micrometres off, and its swing point would be too far off to measure from.
const FLAT: f64 = 1e6;

impl Ground {
    fn of(piece: &Piece, from: f64, on: (usize, f64)) -> Self {
        Self {
            piece: Some(on),
            from,
            to: from + piece.length(),
            start: piece.start(),
            end: piece.end(),
            leaves: piece.start_direction().unit(),
            arrives: piece.end_direction().unit(),
            round: piece
                .arc()
                .filter(|arc| arc.radius() < FLAT * arc.length())
                .map(|arc| (arc.centre(), arc.radius().copysign(arc.sweep()))),
        }
    }

    /// The point so far along, and the direction there.
    pub(super) fn at(&self, along: f64) -> (Point, Vector) {
        match self.round {
            None => (self.start + self.leaves * along, self.leaves),
            Some((centre, radius)) => {
                let (sine, cosine) = (along / radius).sin_cos();
                let way = self.leaves * cosine + self.leaves.left() * sine;
                (centre - way.left() * radius, way)
            }
        }
    }

    /// How far left of it a point lies, and the station abreast; `None` where no part of it is abreast.
    fn offset(&self, point: Point) -> Option<(f64, f64)> {
        let from_start = point - self.start;
        let (ahead, beyond) = (
            from_start.dot(self.leaves),
            (point - self.end).dot(self.arrives),
        );
        if ahead < 0.0 || beyond > 0.0 {
            return None;
        }
        Some(match self.round {
            None => (self.from + ahead, self.leaves.cross(from_start)),
            Some((centre, radius)) => {
                let off = (radius.abs() - point.distance(centre)) * radius.signum();
                // The station between the ends, by the share of what is ahead and beyond.
                let share = ahead / (ahead - beyond).max(f64::MIN_POSITIVE);
                (self.from + share * (self.to - self.from), off)
            }
        })
    }

    /// The place on a side of a vehicle that is nearest to the swing point.
    pub(super) fn foot(&self, [from, to]: [Point; 2]) -> Option<Point> {
        let (centre, _) = self.round?;
        let side = to - from;
        let share = (centre - from).dot(side) / side.dot(side);
        (0.0 < share && share < 1.0).then(|| from + side * share)
    }
}

/// The station abreast of a point, and how far left of the chain it lies: by the nearest part of the
/// ground that is abreast, or the nearest corner.
pub(super) fn offset(near: &[Ground], point: Point) -> (f64, f64) {
    let abreast = near.iter().filter_map(|ground| ground.offset(point));
    let nearest = abreast.min_by(|a, b| a.1.abs().total_cmp(&b.1.abs()));
    nearest.unwrap_or_else(|| {
        let corners = near.iter().flat_map(|ground| {
            [
                (ground.from, ground.start, ground.leaves),
                (ground.to, ground.end, ground.arrives),
            ]
        });
        corners
            .map(|(station, corner, way)| {
                let off = point - corner;
                (station, off.length().copysign(way.cross(off)))
            })
            .min_by(|a, b| a.1.abs().total_cmp(&b.1.abs()))
            .unwrap_or((0.0, 0.0))
    })
}

/// The pieces of a chain as ground, run on straight beyond open ends, and round again on a closed one.
pub(super) fn ground(chain: &Chain, [ahead, behind]: [f64; 2]) -> Vec<Ground> {
    let mut ground = Vec::with_capacity(chain.pieces().len() + 2);
    for (i, piece) in chain.pieces().iter().enumerate() {
        let from = chain.station_of(i);
        let parts = quarters(piece);
        let each = piece.length() / parts;
        let mut at = 0.0;
        while at < parts {
            let part = piece.between(at * each, (at + 1.0) * each);
            ground.extend(part.map(|part| Ground::of(&part, from + at * each, (i, from))));
            at += 1.0;
        }
    }
    if chain.is_closed() {
        round_again(&mut ground, chain.length(), [ahead, behind]);
        return ground;
    }
    let (start, end) = (
        chain.direction_at(0.0).unit(),
        chain.pieces()[chain.pieces().len() - 1]
            .end_direction()
            .unit(),
    );
    let (first, last) = (chain.start(), chain.end());
    let length = chain.length();
    let straight = |at: Point, way: Vector, [from, to]: [f64; 2]| Ground {
        piece: None,
        from,
        to,
        start: at,
        end: at + way * (to - from),
        leaves: way,
        arrives: way,
        round: None,
    };
    ground.insert(0, straight(first - start * behind, start, [-behind, 0.0]));
    ground.push(straight(last, end, [length, length + ahead]));
    ground
}

/// So many quarter turns, and at least one part.
fn quarters(piece: &Piece) -> f64 {
    piece.arc().map_or(1.0, |arc: &Arc| {
        (arc.sweep().abs() / std::f64::consts::FRAC_PI_2)
            .ceil()
            .max(1.0)
    })
}

/// Puts what comes before the start and after the end of a round before and after it.
fn round_again(ground: &mut Vec<Ground>, length: f64, [ahead, behind]: [f64; 2]) {
    let moved = |ground: &Ground, by: f64| Ground {
        from: ground.from + by,
        to: ground.to + by,
        ..*ground
    };
    let before = ground.iter().filter(|g| g.to > length - behind);
    let after = ground.iter().filter(|g| g.from < ahead);
    let before: Vec<Ground> = before.map(|g| moved(g, -length)).collect();
    let after: Vec<Ground> = after.map(|g| moved(g, length)).collect();
    ground.splice(0..0, before);
    ground.extend(after);
}
