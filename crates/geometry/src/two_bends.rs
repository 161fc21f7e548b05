//! Two bends that run smoothly into each other, from one place and direction to another.

use std::f64::consts::{PI, TAU};
use std::fmt;

use crate::{Arc, ArcError, Direction, Line, LineError, Piece, Point, SAME_DIRECTION, SAME_PLACE};

/// The way from one place and direction to another: two bends that meet smoothly, or the one bend
/// or straight that does it alone.
#[derive(Clone, Debug, PartialEq)]
pub struct TwoBends {
    pieces: Vec<Piece>,
}

impl TwoBends {
    /// The pieces in walking order: two, or one where a single bend or a straight does it. One of
    /// two may be a straight.
    #[must_use]
    pub fn pieces(&self) -> &[Piece] {
        &self.pieces
    }
}

/// Why there are no two bends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TwoBendsError {
    /// A coordinate, or the distance between the ends, is not a finite number.
    NotFinite,
    /// Both ends are the same point.
    SamePoint,
    /// At both ends the direction is straight away from the other end: each bend would be a full
    /// turn.
    StraightBehind,
}

impl fmt::Display for TwoBendsError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NotFinite => "a coordinate of the bends is not a finite number",
            Self::SamePoint => "both ends of the bends are the same point: move one of them",
            Self::StraightBehind => {
                "the way on lies straight behind at both ends: no two bends lead there, turn one of the directions"
            }
        })
    }
}

impl std::error::Error for TwoBendsError {}

/// Two bends that leave `start` in the direction `leaving`, meet smoothly and arrive at `end` in the
/// direction `arriving`, with curvatures as near equal as they can be.
///
/// Where one bend or a straight misses neither direction by more than half of [`SAME_DIRECTION`],
/// that one piece is the answer. Between parallel lines the answer is an S of two equal bends with
/// R = (x² + y²) / 4y for x along and y across.
///
/// Method: with a and b the turns from the chord to the two directions, each taken the shorter way
/// round, |k₁ − k₂| is least where the heading at the joint is −(a + b)/2 from the chord (derived;
/// it gives the published values in the tests). The joint then stands on the middle line of the
/// chord, at half the chord times tan((a − b)/4), so both bends have the same chord; their sweeps
/// are −(3a + b)/2 and (a + 3b)/2. A second least, with a or b the long way round, is not used: its
/// bends grow without bound as the two directions become parallel. A direction straight behind is
/// as short by the left as by the right: it goes round the way that turns less in all, and if
/// neither does, by the left.
///
/// # Errors
/// * [`TwoBendsError::NotFinite`] unless all coordinates and the distance are finite;
/// * [`TwoBendsError::SamePoint`] if the ends are nearer than [`SAME_PLACE`];
/// * [`TwoBendsError::StraightBehind`] if both directions point straight away from the chord.
///
/// ```
/// use geometry::{Direction, Point, two_bends};
/// // From one line to another 3 m to its left, 10 m on: R = (100 + 9) / 12.
/// let s = two_bends(Point::ORIGIN, Direction::EAST, Point::new(10.0, 3.0), Direction::EAST)?;
/// for piece in s.pieces() {
///     assert!((piece.arc().unwrap().radius() - 109.0 / 12.0).abs() < 1e-12);
/// }
/// # Ok::<(), geometry::TwoBendsError>(())
/// ```
pub fn two_bends(
    start: Point,
    leaving: Direction,
    end: Point,
    arriving: Direction,
) -> Result<TwoBends, TwoBendsError> {
    let apart = start.distance(end);
    if !apart.is_finite() {
        return Err(TwoBendsError::NotFinite);
    }
    if apart < SAME_PLACE {
        return Err(TwoBendsError::SamePoint);
    }
    let way = end - start;
    let chord = Direction::of(way).ok_or(TwoBendsError::NotFinite)?;
    let (a, b) = (chord.turn_to(leaving), chord.turn_to(arriving));
    let (a, b) = match (is_behind(a), is_behind(b)) {
        (true, true) => return Err(TwoBendsError::StraightBehind),
        (true, false) => (the_way_round(a, b), b),
        (false, true) => (a, the_way_round(b, a)),
        (false, false) => (a, b),
    };
    let pieces = if (a + b).abs() < SAME_DIRECTION {
        vec![piece(start, end, b - a)?]
    } else {
        let joint = start.middle(end) + way.left() * (0.5 * (0.25 * (a - b)).tan());
        vec![
            piece(start, joint, -0.5 * (3.0 * a + b))?,
            piece(joint, end, 0.5 * (a + 3.0 * b))?,
        ]
    };
    Ok(TwoBends { pieces })
}

fn is_behind(turn: f64) -> bool {
    PI - turn.abs() < SAME_DIRECTION
}

/// A turn of half a circle, by the side on which it balances the turn at the other end.
fn the_way_round(behind: f64, other: f64) -> f64 {
    let to_the_left = other < -SAME_DIRECTION;
    if (behind > 0.0) == to_the_left {
        behind
    } else {
        behind - TAU.copysign(behind)
    }
}

/// The bend of this sweep, or the straight if it has none.
fn piece(from: Point, to: Point, sweep: f64) -> Result<Piece, TwoBendsError> {
    let rise = -0.5 * from.distance(to) * (0.25 * sweep).tan();
    match Arc::from_rise(from, to, rise) {
        Ok(arc) => Ok(Piece::Arc(arc)),
        Err(ArcError::Straight) => {
            Line::new(from, to)
                .map(Piece::Line)
                .map_err(|error| match error {
                    LineError::NotFinite => TwoBendsError::NotFinite,
                    LineError::NoLength => TwoBendsError::SamePoint,
                })
        }
        Err(ArcError::NoChord) => Err(TwoBendsError::SamePoint),
        Err(_) => Err(TwoBendsError::NotFinite),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::angle::from_degrees;

    fn facing(degrees: f64) -> Direction {
        Direction::at_angle(from_degrees(degrees)).unwrap()
    }

    /// Curvature, positive to the left.
    fn curvature(piece: &Piece) -> f64 {
        piece.sweep() / piece.length()
    }

    fn close(found: f64, expected: f64, tolerance: f64) {
        assert!(
            (found - expected).abs() <= tolerance,
            "{found} is not {expected}"
        );
    }

    fn near(found: Point, expected: Point) {
        assert!(
            found.distance(expected) < 1e-12,
            "{found:?} is not {expected:?}"
        );
    }

    fn radii(bends: &TwoBends) -> Vec<f64> {
        bends
            .pieces()
            .iter()
            .map(|piece| 1.0 / curvature(piece).abs())
            .collect()
    }

    /// x, y and heading in degrees at both ends; curvature and length of each piece.
    #[test]
    fn published_pairs_of_bends() {
        // Source: github.com/vxl/vxl, contrib/brl/bbas/bvgl/algo/tests/test_biarc.cxx, cases 1, 2,
        // 4 and 5, 15 digits each. Read.
        let check = |from: [f64; 3], to: [f64; 3], expected: &[[f64; 2]]| {
            let (start, end) = (Point::new(from[0], from[1]), Point::new(to[0], to[1]));
            let bends = two_bends(start, facing(from[2]), end, facing(to[2])).unwrap();
            assert_eq!(bends.pieces().len(), expected.len(), "{bends:?}");
            for (piece, [k, length]) in bends.pieces().iter().zip(expected) {
                close(curvature(piece), *k, 1e-14);
                close(piece.length(), *length, 2e-14);
            }
        };
        check(
            [0.0, 0.0, 0.0],
            [5.0, 5.0, 90.0],
            &[[0.2, 7.85398163397448]],
        );
        check(
            [2.0, 1.0, 30.0],
            [8.0, 10.0, 120.0],
            &[
                [0.0227016253375765, 5.85824714851934],
                [0.224997196145613, 6.39032227745528],
            ],
        );
        check(
            [0.0, 0.0, 0.0],
            [0.0, 5.0, 0.0],
            &[[0.8, 3.92699081698724], [-0.8, 3.92699081698724]],
        );
        check([0.0, 0.0, 0.0], [5.0, 0.0, 0.0], &[[0.0, 5.0]]);
    }

    #[test]
    fn published_points_of_an_s() {
        // Source: the same file, case 4: joint, centres, and the points half along each bend. Read.
        let bends = two_bends(
            Point::ORIGIN,
            facing(0.0),
            Point::new(0.0, 5.0),
            facing(0.0),
        );
        let bends = bends.unwrap();
        let [first, second] = bends.pieces() else {
            panic!("{bends:?}")
        };
        near(first.end(), Point::new(0.0, 2.5));
        near(first.arc().unwrap().centre(), Point::new(0.0, 1.25));
        near(second.arc().unwrap().centre(), Point::new(0.0, 3.75));
        near(first.point_at(0.5 * first.length()), Point::new(1.25, 1.25));
        near(
            second.point_at(0.5 * second.length()),
            Point::new(-1.25, 3.75),
        );
    }

    #[test]
    fn an_s_between_parallel_lines() {
        let check = |along: f64, across: f64, radius: f64, tolerance: f64| {
            let end = Point::new(along, across);
            let bends = two_bends(Point::ORIGIN, Direction::EAST, end, Direction::EAST).unwrap();
            for found in radii(&bends) {
                close(found, radius, tolerance);
            }
            near(bends.pieces()[0].end(), Point::ORIGIN.middle(end));
            bends.pieces()[0].sweep()
        };
        // Source: math.stackexchange copy at vtgyjfy.blogspot.com: R = (a²/4 + b²/4) / b. Read.
        let turn = check(10.0, 3.0, 109.0 / 12.0, 1e-12);
        close(turn, from_degrees(33.398), from_degrees(0.0005));
        // Source: the same, with a straight S between: R = (b − S sin t) / (2 − 2 cos t)
        // = (a − S cos t) / (2 sin t); here S = 0.
        close(3.0 / (2.0 - 2.0 * turn.cos()), 109.0 / 12.0, 1e-12);
        close(10.0 / (2.0 * turn.sin()), 109.0 / 12.0, 1e-12);
        // Source: "Horizontal curve problems and solutions": tangents 30 m apart, R 200 m, each
        // arc turns about 22.3°. Read. So 152 m along, from x² = 4 R y − y².
        let turn = check(23_100_f64.sqrt(), 30.0, 200.0, 1e-10);
        close(turn, from_degrees(22.3), from_degrees(0.05));
        // Source: askfilo, lines 10 m apart, 40 m along; the answer 42.5 m from memory.
        check(40.0, 10.0, 42.5, 1e-12);
        // The question from the same page, 20 m apart and 80 m along; answer derived.
        check(80.0, 20.0, 85.0, 1e-12);
        // A millimetre aside over 10 km, 25 million kilometres of radius; and to the right.
        check(1e4, 1e-3, 2.5e10, 2.5e-2);
        check(10.0, -3.0, 109.0 / 12.0, 1e-12);
    }

    #[test]
    fn nearer_equal_than_a_published_pair() {
        // Source: askfilo, the S 10 m across and 40 m along with R 50 and 35 m (from memory): the
        // equal radii 42.5 m differ less in signed curvature.
        let end = Point::new(40.0, 10.0);
        let bends = two_bends(Point::ORIGIN, Direction::EAST, end, Direction::EAST).unwrap();
        assert!(radii(&bends).iter().map(|r| 1.0 / r).sum::<f64>() < 1.0 / 50.0 + 1.0 / 35.0);

        // Source: homeworksource.com/p/1004689: compound curve, R 600 turning 45° and R 400 turning
        // 20°; tangents 368.92 and 319.45 with rounded steps, here as computed. Read.
        let ahead = facing(65.0);
        let end = Point::new(368.933790, 0.0) + ahead.unit() * 319.462486;
        close(end.distance(Point::ORIGIN), 581.195687, 1e-6);
        let bends = two_bends(Point::ORIGIN, Direction::EAST, end, ahead).unwrap();
        let [first, second] = bends.pieces() else {
            panic!("{bends:?}")
        };
        close(first.sweep() + second.sweep(), from_degrees(65.0), 1e-14);
        let apart = (curvature(first) - curvature(second)).abs();
        assert!(apart < 1.0 / 400.0 - 1.0 / 600.0, "{apart}");
    }

    #[test]
    fn a_direction_straight_behind() {
        let (start, end) = (Point::ORIGIN, Point::new(4.0, 0.0));
        let sweeps = |leaving: f64, arriving: f64| {
            let bends = two_bends(start, facing(leaving), end, facing(arriving)).unwrap();
            bends.pieces().iter().map(Piece::sweep).collect::<Vec<_>>()
        };
        let check = |leaving: f64, arriving: f64, expected: [f64; 2]| {
            for (found, expected) in sweeps(leaving, arriving).into_iter().zip(expected) {
                close(found, from_degrees(expected), 1e-14);
            }
        };
        // Three quarters of a turn and one back: by the left, whichever way the half turn is told.
        check(180.0, 0.0, [270.0, -90.0]);
        check(-180.0, 0.0, [270.0, -90.0]);
        check(0.0, 180.0, [90.0, -270.0]);
        // Two thirds of a turn and then straight, not five sixths and half a turn back.
        check(180.0, 60.0, [240.0, 0.0]);
        check(-180.0, -60.0, [-240.0, 0.0]);
        check(60.0, 180.0, [0.0, -240.0]);
    }

    #[test]
    fn no_answer() {
        let end = Point::new(4.0, 0.0);
        let check = |end: Point, leaving: f64, arriving: f64, expected: TwoBendsError| {
            let found = two_bends(Point::ORIGIN, facing(leaving), end, facing(arriving));
            assert_eq!(found, Err(expected));
        };
        check(Point::new(1e-8, 0.0), 0.0, 90.0, TwoBendsError::SamePoint);
        check(
            Point::new(f64::NAN, 0.0),
            0.0,
            90.0,
            TwoBendsError::NotFinite,
        );
        check(
            Point::new(1.7e308, 1.7e308),
            0.0,
            90.0,
            TwoBendsError::NotFinite,
        );
        check(end, 180.0, 180.0, TwoBendsError::StraightBehind);
        check(end, -180.0, 180.0, TwoBendsError::StraightBehind);
        // A hundredth of a degree beside it there are two, very large ones.
        assert!(two_bends(Point::ORIGIN, facing(179.99), end, facing(180.0)).is_ok());
    }
}
