//! Where the lines or circles of two pieces meet.

use crate::frame::Frame;
use crate::{Piece, Point, Vector};

/// All meeting points of two pieces, ends included, none where they run along each other.
///
/// `slack` metres beyond an end still count as on the piece.
#[must_use]
pub fn meetings(first: &Piece, second: &Piece, slack: f64) -> Vec<Point> {
    // Of the points on a circle those on the arc lie on the apex side of its chord: no angle is taken.
    let on = |piece: &Piece, point: Point| match piece {
        Piece::Line(line) => {
            let along = line.along(point);
            -slack <= along && along <= line.length() + slack
        }
        Piece::Arc(arc) => {
            arc.in_frame(point).1 >= 0.0
                || point.distance(arc.start()) <= slack
                || point.distance(arc.end()) <= slack
        }
    };
    Carrier::of(first)
        .meet(&Carrier::of(second))
        .into_iter()
        .flatten()
        .filter(|point| on(first, *point) && on(second, *point))
        .collect()
}

/// The whole line or circle that a piece lies on, as the zero set of
/// `F(p) = k/2 |p − o|² + g · (p − o) + f`, which is the signed distance near the curve.
///
/// Lines have `k = 0`, and a flat arc has a small `k`: one formula serves both, and no far-off
/// centre is ever needed. For a circle of centre C and radius R, F = (|p − C|² − R²) / 2R.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Carrier {
    origin: Point,
    curvature: f64,
    gradient: Vector,
    value: f64,
}

/// Curves that miss each other by less touch: a nanometre.
const TOUCH: f64 = 1e-9;

impl Carrier {
    pub(crate) fn of(piece: &Piece) -> Self {
        Self::of_frame(&Frame::of(piece))
    }

    /// With o in the middle of the chord, g points to the apex and is as long as the cosine of half
    /// the sweep, and f takes out half the chord.
    pub(crate) fn of_frame(frame: &Frame) -> Self {
        Self {
            origin: frame.middle,
            curvature: frame.curvature,
            gradient: frame.up * frame.cosine,
            value: -0.5 * frame.half * frame.sine,
        }
    }

    fn at(&self, point: Point) -> (f64, Vector) {
        let p = point - self.origin;
        (
            0.5 * self.curvature * p.dot(p) + self.gradient.dot(p) + self.value,
            p * self.curvature + self.gradient,
        )
    }

    fn seen_from(&self, origin: Point) -> Self {
        let (value, gradient) = self.at(origin);
        Self {
            origin,
            curvature: self.curvature,
            gradient,
            value,
        }
    }

    /// The points on both: none, one where they touch, or two.
    pub(crate) fn meet(&self, other: &Self) -> [Option<Point>; 2] {
        let origin = self.origin.middle(other.origin);
        let (a, b) = (self.seen_from(origin), other.seen_from(origin));
        let (sharper, flatter) = if a.curvature >= b.curvature {
            (a, b)
        } else {
            (b, a)
        };
        // With the curvatures weighed out, the difference of the two is a straight through the
        // meeting points (the radical axis of two circles).
        let share = if sharper.curvature > 0.0 {
            flatter.curvature / sharper.curvature
        } else {
            0.0
        };
        let across = flatter.gradient - sharper.gradient * share;
        let value = flatter.value - sharper.value * share;
        let steepness = across.length();
        if steepness < f64::EPSILON {
            return [None; 2]; // parallel lines, or circles about one centre
        }
        let normal = across / steepness;
        let foot = origin - normal * (value / steepness);
        let along = normal.left();
        let roots = if sharper.curvature > 0.0 {
            let (height, slope) = sharper.at(foot);
            roots(0.5 * sharper.curvature, slope.dot(along), height)
        } else {
            let (height, slope) = sharper.at(foot);
            let rate = slope.dot(along);
            [(rate.abs() >= f64::EPSILON).then(|| -height / rate), None]
        };
        roots.map(|root| {
            let point = self.polished(other, foot + along * root?);
            point.is_finite().then_some(point)
        })
    }

    /// Two Newton steps on both at once take out what the elimination lost.
    fn polished(&self, other: &Self, start: Point) -> Point {
        let mut point = start;
        for _ in 0..2 {
            let ((f, df), (g, dg)) = (self.at(point), other.at(point));
            let determinant = df.cross(dg);
            if determinant.abs() < 1e-3 {
                break; // they nearly touch: a step would throw the point along them
            }
            point += Vector::new(
                (g * df.y - f * dg.y) / determinant,
                (f * dg.x - g * df.x) / determinant,
            );
        }
        point
    }
}

/// The real roots of `a x² + b x + c`, `a > 0`, without cancellation; touching counts as one root.
fn roots(a: f64, b: f64, c: f64) -> [Option<f64>; 2] {
    let square = b * b - 4.0 * a * c;
    // How far the vertex misses zero is −square / 4a, in metres.
    if square < -4.0 * a * TOUCH {
        return [None; 2];
    }
    if square <= 0.0 {
        return [Some(-b / (2.0 * a)), None];
    }
    let larger = -0.5 * (b + square.sqrt().copysign(b));
    if larger.abs() < f64::MIN_POSITIVE {
        return [Some(0.0), None];
    }
    [Some(larger / a), Some(c / larger)]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Arc, Line};

    fn line(x0: f64, y0: f64, x1: f64, y1: f64) -> Piece {
        Piece::Line(Line::new(Point::new(x0, y0), Point::new(x1, y1)).unwrap())
    }

    fn arc(start: (f64, f64), on: (f64, f64), end: (f64, f64)) -> Piece {
        let point = |(x, y)| Point::new(x, y);
        Piece::Arc(Arc::through(point(start), point(on), point(end)).unwrap())
    }

    #[track_caller]
    fn check(first: &Piece, second: &Piece, expected: &[(f64, f64)]) {
        for (one, other) in [(first, second), (second, first)] {
            let mut found = meetings(one, other, 1e-9);
            found.sort_by(|a, b| a.x.total_cmp(&b.x));
            assert_eq!(found.len(), expected.len(), "{found:?}");
            for (point, (x, y)) in found.iter().zip(expected) {
                assert!(point.distance(Point::new(*x, *y)) < 1e-7, "{point:?}");
            }
        }
    }

    #[test]
    fn lines_and_circles() {
        let cross = line(0.0, -1.0, 0.0, 5.0);
        check(&cross, &line(-1.0, 2.0, 4.0, 2.0), &[(0.0, 2.0)]);
        check(&cross, &line(1.0, -1.0, 1.0, 5.0), &[]);
        let half = arc((-1.0, 0.0), (0.0, 1.0), (1.0, 0.0));
        check(&cross, &half, &[(0.0, 1.0)]);
        check(
            &line(-2.0, 0.6, 2.0, 0.6),
            &half,
            &[(-0.8, 0.6), (0.8, 0.6)],
        );
        check(&line(-2.0, 1.0, 2.0, 1.0), &half, &[(0.0, 1.0)]);
        check(&line(-2.0, 1.1, 2.0, 1.1), &half, &[]);
        check(
            &half,
            &arc((0.0, 0.0), (1.0, 1.0), (2.0, 0.0)),
            &[(0.5, 0.75f64.sqrt())],
        );
    }

    #[test]
    fn two_flat_arcs() {
        let up = Piece::Arc(
            Arc::from_rise(Point::new(0.0, 0.0), Point::new(1000.0, 0.0), 1e-4).unwrap(),
        );
        let level = line(-10.0, 0.75e-4, 1010.0, 0.75e-4);
        let found = meetings(&up, &level, 0.0);
        assert_eq!(found.len(), 2);
        let mut xs: Vec<f64> = found.iter().map(|p| p.x).collect();
        xs.sort_by(f64::total_cmp);
        assert!(
            (xs[0] - 250.0).abs() < 1e-4 && (xs[1] - 750.0).abs() < 1e-4,
            "{xs:?}"
        );
    }
}
