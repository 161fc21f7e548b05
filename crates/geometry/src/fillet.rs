//! A tangent arc that rounds the corner between two pieces.

use std::f64::consts::PI;

use crate::meet::Carrier;
use crate::{Arc, Piece, SAME_DIRECTION, SAME_PLACE, angle};

/// What becomes of a corner that is to be rounded.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fillet {
    /// The two pieces already run on smoothly: there is nothing to round.
    Smooth,
    /// Rounded as wanted.
    Round(Rounded),
    /// The wanted radius does not fit: the largest one that does.
    Tight(Rounded),
    /// No radius fits: the second piece comes straight back, or there is no room at all.
    None,
}

/// A rounding in its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rounded {
    /// The arc, tangent to the first piece where it starts and to the second where it ends.
    pub arc: Arc,
    /// How much of the end of the first piece it takes away, in metres.
    pub before: f64,
    /// How much of the start of the second piece it takes away, in metres.
    pub after: f64,
}

/// Rounds the corner between `first` and `second` (which starts where `first` ends) by `radius`,
/// taking at most `room` metres from the end of the first and the start of the second.
///
/// Of several answers between arcs the one that takes least away is used. Where the wanted radius
/// does not fit, the largest that does is given.
///
/// Method: the centre is as far from both pieces as the radius, on the inside of the corner, so
/// it lies where their offsets meet; the tangent points are its feet on the pieces.
///
/// ```
/// use geometry::{Fillet, Line, Piece, Point, fillet};
/// let corner = Point::new(10.0, 0.0);
/// let first = Piece::Line(Line::new(Point::ORIGIN, corner)?);
/// let second = Piece::Line(Line::new(corner, Point::new(10.0, 10.0))?);
/// let Fillet::Round(round) = fillet(&first, &second, 3.0, [10.0, 10.0]) else { panic!() };
/// assert!((round.arc.length() - 1.5 * std::f64::consts::PI).abs() < 1e-12);
/// assert!((round.before - 3.0).abs() < 1e-12);
/// let Fillet::Tight(largest) = fillet(&first, &second, 12.0, [10.0, 10.0]) else { panic!() };
/// assert!((largest.arc.radius() - 10.0).abs() < 1e-8);
/// # Ok::<(), geometry::LineError>(())
/// ```
#[must_use]
pub fn fillet(first: &Piece, second: &Piece, radius: f64, room: [f64; 2]) -> Fillet {
    let turn = first.end_direction().turn_to(second.start_direction());
    if turn.abs() < SAME_DIRECTION {
        return Fillet::Smooth;
    }
    let no_room = room.iter().any(|room| *room <= SAME_PLACE);
    if PI - turn.abs() < SAME_DIRECTION || !radius.is_finite() || radius <= 0.0 || no_room {
        return Fillet::None;
    }
    let corner = Corner {
        first,
        second,
        left: turn > 0.0,
        room,
    };
    if let Some(rounded) = corner.rounded(radius) {
        return Fillet::Round(rounded);
    }
    corner.largest(radius).map_or(Fillet::None, Fillet::Tight)
}

struct Corner<'a> {
    first: &'a Piece,
    second: &'a Piece,
    left: bool,
    room: [f64; 2],
}

impl Corner<'_> {
    fn rounded(&self, radius: f64) -> Option<Rounded> {
        let side = if self.left { radius } else { -radius };
        // A rounding inside the corner is never larger than an arc it touches from within: the
        // offset of that arc is then gone, and with it the answer.
        let (one, other) = (self.first.offset(side)?, self.second.offset(side)?);
        Carrier::of(&one)
            .meet(&Carrier::of(&other))
            .into_iter()
            .flatten()
            .filter_map(|centre| {
                let start = self.first.along(centre);
                let end = self.second.along(centre);
                let before = self.first.length() - start;
                let fits = |taken: f64, room: f64| -SLACK <= taken && taken <= room + SLACK;
                (fits(before, self.room[0]) && fits(end, self.room[1]))
                    .then(|| self.tangent_arc(start, end, radius))?
            })
            .min_by(|a, b| (a.before + a.after).total_cmp(&(b.before + b.after)))
    }

    /// The arc from one tangent point to the other, if it leaves and arrives smoothly.
    fn tangent_arc(&self, start: f64, end: f64, radius: f64) -> Option<Rounded> {
        let (from, to) = (
            self.first.direction_at(start),
            self.second.direction_at(end),
        );
        let turn = from.turn_to(to);
        let sweep = angle::positive(if self.left { turn } else { -turn });
        let (p, q) = (self.first.point_at(start), self.second.point_at(end));
        let rise = 0.5 * p.distance(q) * (0.25 * sweep).tan();
        let arc = Arc::from_rise(p, q, if self.left { -rise } else { rise }).ok()?;
        let smooth = from.turn_to(arc.direction_at(0.0)).abs() < SMOOTH
            && (arc.radius() - radius).abs() < SMOOTH * radius;
        smooth.then_some(Rounded {
            arc,
            before: self.first.length() - start,
            after: end,
        })
    }

    /// The largest radius below `wanted` that fits: stepped down until one fits, then closed in
    /// on from both sides to the last digit.
    fn largest(&self, wanted: f64) -> Option<Rounded> {
        const SHRINK: f64 = 0.835; // steps of a sixth
        let mut too_large = wanted;
        let mut best = None;
        while best.is_none() && too_large > SAME_PLACE {
            let smaller = too_large * SHRINK;
            best = self.rounded(smaller).map(|rounded| (smaller, rounded));
            if best.is_none() {
                too_large = smaller;
            }
        }
        let (mut fits, mut rounded) = best?;
        while too_large - fits > f64::EPSILON * too_large {
            let middle = 0.5 * (fits + too_large);
            if middle <= fits || too_large <= middle {
                break;
            }
            if let Some(better) = self.rounded(middle) {
                (fits, rounded) = (middle, better);
            } else {
                too_large = middle;
            }
        }
        Some(rounded)
    }
}

/// What just fits, fits: a nanometre over is rounding of the computation.
const SLACK: f64 = 1e-9;

/// Directions and radii of a rounding agree to this (radians, or share of the radius); what the
/// crossing of two offsets loses on flat arcs stays well below it.
const SMOOTH: f64 = 1e-6;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Direction, Line, Point};

    fn legs(turn_degrees: f64, length: f64) -> (Piece, Piece) {
        let corner = Point::new(length, 0.0);
        let way = Direction::EAST.turned(angle::from_degrees(turn_degrees));
        (
            Piece::Line(Line::new(Point::ORIGIN, corner).unwrap()),
            Piece::Line(Line::new(corner, corner + way.unit() * length).unwrap()),
        )
    }

    fn summary(fillet: &Fillet) -> String {
        let figures = |r: &Rounded| {
            format!(
                "radius {:.3}, length {:.3}, takes {:.3} and {:.3}",
                r.arc.radius(),
                r.arc.length(),
                r.before,
                r.after
            )
        };
        match fillet {
            Fillet::Smooth => "smooth".into(),
            Fillet::Round(r) => format!("round: {}", figures(r)),
            Fillet::Tight(r) => format!("tight: {}", figures(r)),
            Fillet::None => "none".into(),
        }
    }

    #[track_caller]
    fn check(turn_degrees: f64, radius: f64, length: f64, expected: &str) {
        let (first, second) = legs(turn_degrees, length);
        assert_eq!(
            summary(&fillet(&first, &second, radius, [length, length])),
            expected
        );
    }

    #[test]
    fn corners_of_straights() {
        check(
            90.0,
            3.0,
            10.0,
            "round: radius 3.000, length 4.712, takes 3.000 and 3.000",
        );
        check(
            -90.0,
            3.0,
            10.0,
            "round: radius 3.000, length 4.712, takes 3.000 and 3.000",
        );
        check(
            90.0,
            12.0,
            10.0,
            "tight: radius 10.000, length 15.708, takes 10.000 and 10.000",
        );
        check(
            60.0,
            30.0,
            30.0,
            "round: radius 30.000, length 31.416, takes 17.321 and 17.321",
        );
        check(0.0, 3.0, 10.0, "smooth");
        check(180.0, 3.0, 10.0, "none");
        check(
            179.0,
            3.0,
            10.0,
            "tight: radius 0.087, length 0.273, takes 10.000 and 10.000",
        );
    }

    #[test]
    fn a_straight_into_an_arc() {
        // A straight running east meets a circle of radius 5 about (0, 0) at (3, 4), where it
        // turns right onto it; a 1 m rounding lies inside the corner.
        let corner = Point::new(3.0, 4.0);
        let line = Piece::Line(Line::new(Point::new(-10.0, 4.0), corner).unwrap());
        let bend = Arc::about(Point::ORIGIN, corner, Point::new(5.0, 0.0), false).unwrap();
        let Fillet::Round(round) = fillet(&line, &Piece::Arc(bend), 1.0, [9.0, 9.0]) else {
            panic!()
        };
        let centre = round.arc.centre();
        assert!((centre.y - 3.0).abs() < 1e-12);
        assert!((centre.distance(Point::ORIGIN) - 4.0).abs() < 1e-12);
        assert!((round.arc.start().y - 4.0).abs() < 1e-12);
        assert!((round.arc.end().distance(Point::ORIGIN) - 5.0).abs() < 1e-12);
        let arrives = round.arc.direction_at(round.arc.length());
        assert!(arrives.turn_to(bend.direction_at(round.after)).abs() < 1e-12);
    }

    #[test]
    fn two_arcs_that_meet_in_a_corner() {
        let corner = Point::new(0.0, 3.0);
        // Circles of radius 5 about (−4, 0) and (4, 0) meet at (0, 3).
        let first = Arc::about(Point::new(-4.0, 0.0), Point::new(-4.0, 5.0), corner, false);
        let second = Arc::about(Point::new(4.0, 0.0), corner, Point::new(4.0, 5.0), false);
        let (first, second) = (Piece::Arc(first.unwrap()), Piece::Arc(second.unwrap()));
        let Fillet::Round(round) = fillet(&first, &second, 0.5, [4.0, 4.0]) else {
            panic!()
        };
        // The corner turns left, the rounding lies above it, outside both circles.
        let centre = round.arc.centre();
        assert!(centre.x.abs() < 1e-12);
        assert!((centre.y - (5.5f64 * 5.5 - 16.0).sqrt()).abs() < 1e-12);
        assert!(round.arc.turns_left());
        assert!((round.before - round.after).abs() < 1e-12);
    }

    #[test]
    fn a_rounding_is_never_larger_than_an_arc_it_lies_in() {
        // An arc of radius 1 turning left runs into a straight with a corner to the left.
        let arc = Arc::about(
            Point::new(0.0, 1.0),
            Point::ORIGIN,
            Point::new(1.0, 1.0),
            true,
        );
        let arc = Piece::Arc(arc.unwrap());
        let line = Line::new(Point::new(1.0, 1.0), Point::new(-9.0, 4.0)).unwrap();
        let wanted = fillet(&arc, &Piece::Line(line), 1.2, [1.5, 8.0]);
        let Fillet::Tight(largest) = wanted else {
            panic!("{wanted:?}")
        };
        assert!(largest.arc.radius() < 1.0);
        assert!(
            (largest.before - 1.5).abs() < 1e-6,
            "it takes all the room there is"
        );
    }
}
