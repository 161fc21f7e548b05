//! A piece seen from its own chord: what every exact distance is measured in.

use crate::{Bounds, Piece, Point, Vector};

/// A piece with what is needed to measure to it: metres along the chord from its middle, and metres
/// off it towards the apex.
///
/// A straight is the piece whose curvature is zero and whose cosine is one: one formula serves both,
/// and a nearly straight arc loses nothing, since its far-off centre is never written down.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Frame {
    pub(crate) start: Point,
    pub(crate) end: Point,
    pub(crate) middle: Point,
    /// Along the chord, length one.
    pub(crate) along: Vector,
    /// Square to the chord towards the apex (on a straight to the left), length one.
    pub(crate) up: Vector,
    /// Half the chord.
    pub(crate) half: f64,
    /// The rise, never negative.
    pub(crate) rise: f64,
    /// One over the radius.
    pub(crate) curvature: f64,
    /// Cosine of half the sweep: apothem over radius, negative past half a circle.
    pub(crate) cosine: f64,
    /// Sine of half the sweep: half the chord over the radius.
    pub(crate) sine: f64,
    /// Whether `up` is the left of the walking direction.
    pub(crate) up_is_left: bool,
}

impl Frame {
    pub(crate) fn of(piece: &Piece) -> Self {
        let (start, end) = (piece.start(), piece.end());
        let (chord, rise) = match piece {
            Piece::Line(line) => (line.length(), 0.0),
            Piece::Arc(arc) => (arc.chord(), arc.rise()),
        };
        let along = (end - start) / chord;
        let half = 0.5 * chord;
        let up_is_left = rise >= 0.0;
        let rise = rise.abs();
        // With q = h / (c/2), the tangent of a quarter of the sweep: sine 2q / (1 + q²), cosine
        // (1 − q²) / (1 + q²); a length is never so great or small that its square is not had.
        let scale = 1.0 / (half * half + rise * rise);
        let curvature = 2.0 * rise * scale;
        Self {
            start,
            end,
            middle: start.middle(end),
            along,
            up: if up_is_left {
                along.left()
            } else {
                -along.left()
            },
            half,
            rise,
            curvature,
            cosine: (half - rise) * (half + rise) * scale,
            sine: curvature * half,
            up_is_left,
        }
    }

    pub(crate) fn is_straight(&self) -> bool {
        self.curvature <= 0.0
    }

    /// A point in the frame: along, and up.
    pub(crate) fn local(&self, point: Point) -> (f64, f64) {
        let off = point - self.middle;
        (self.along.dot(off), self.up.dot(off))
    }

    fn place(&self, x: f64, up: f64) -> Point {
        self.middle + self.along * x + self.up * up
    }

    /// Whether the square from a point meets the piece between its ends: the cross product of the
    /// ways from the centre to the point and to the end, over the radius.
    fn squares_on(&self, x: f64, up: f64) -> bool {
        self.cosine * (self.half - x.abs()) + self.sine * up >= 0.0
    }

    pub(crate) fn squares(&self, point: Point) -> bool {
        let (x, up) = self.local(point);
        self.squares_on(x, up)
    }

    /// The way square off the line or circle at a point, outward; its length is the distance from
    /// the centre over the radius.
    fn outward(&self, x: f64, up: f64) -> (f64, f64) {
        (self.curvature * x, self.curvature * up + self.cosine)
    }

    /// Signed distance from the whole line or circle, positive on the side of `up` (outside), and
    /// the length of [`Self::outward`]: (|p − C|² − R²) / (|p − C| + R), with R² − d² = (c/2)² taken
    /// out so that no digits are lost.
    fn off(&self, x: f64, up: f64) -> (f64, f64) {
        let (wx, wy) = self.outward(x, up);
        let length = (wx * wx + wy * wy).sqrt();
        (self.power(x, up) / (length + 1.0), length)
    }

    /// |p − C|² − R², over the radius.
    fn power(&self, x: f64, up: f64) -> f64 {
        self.curvature * ((x - self.half) * (x + self.half) + up * up) + 2.0 * self.cosine * up
    }

    /// Whether a point lies inside the whole circle; left out on straights.
    pub(crate) fn circle_holds(&self, point: Point) -> bool {
        let (x, up) = self.local(point);
        !self.is_straight() && self.off(x, up).0 < 0.0
    }

    /// The nearest point of the piece, and its distance squared.
    pub(crate) fn nearest(&self, point: Point) -> (f64, Point) {
        let (x, up) = self.local(point);
        if !self.squares_on(x, up) {
            let end = if x < 0.0 { self.start } else { self.end };
            return ((end - point).square(), end);
        }
        let (wx, wy) = self.outward(x, up);
        let square = wx * wx + wy * wy;
        if square <= 0.0 {
            // At the centre every point of the arc is as near: the apex is one.
            let off = self.off(x, up).0;
            return (off * off, self.place(0.0, self.rise));
        }
        // How far off it lies, as in `off`, over the length of the way outward.
        let share = self.power(x, up) / (square + square.sqrt());
        let foot = self.place(x - share * wx, up - share * wy);
        (share * share * square, foot)
    }

    /// The point of the arc at which `normal` (length one) points straight out, if it is on it.
    pub(crate) fn facing(&self, normal: Vector) -> Option<Point> {
        let (x, up) = (self.along.dot(normal), self.up.dot(normal));
        if self.sine <= 0.0 || self.sine * up < self.cosine * x.abs() {
            return None;
        }
        let radius = self.half / self.sine;
        let height = if up > 0.0 {
            self.rise - radius * x * x / (1.0 + up)
        } else {
            radius * (up - self.cosine)
        };
        Some(self.place(radius * x, height))
    }

    /// How far along the piece a point of it lies, from 0 to its length.
    pub(crate) fn walked(&self, point: Point) -> f64 {
        let (x, up) = self.local(point);
        if self.is_straight() {
            return (x + self.half).clamp(0.0, 2.0 * self.half);
        }
        let (wx, wy) = self.outward(x, up);
        let half_sweep = self.sine.atan2(self.cosine);
        (wx.atan2(wy) + half_sweep).clamp(0.0, 2.0 * half_sweep) / self.curvature
    }

    /// Which way is square off the piece at a point of it, length one.
    pub(crate) fn normal_at(&self, point: Point) -> Vector {
        let (x, up) = self.local(point);
        let (wx, wy) = self.outward(x, up);
        let way = self.along * wx + self.up * wy;
        let length = way.length();
        if length > 0.0 { way / length } else { self.up }
    }

    /// How far the arc between two points of it bows from their chord; infinite past half a circle.
    pub(crate) fn bow(&self, one: Point, other: Point) -> f64 {
        let half = 0.5 * (other - one).square().sqrt();
        let square = 1.0 - (half * self.curvature) * (half * self.curvature);
        if self.cosine < 0.0 {
            // On an arc past half a circle the way between two points is short when both lie on
            // the same side of the middle, or on the half round the apex.
            let ((x, up), (z, high)) = (self.local(one), self.local(other));
            let upper = |up: f64| self.curvature * up + self.cosine >= 0.0;
            if x * z < 0.0 && !(upper(up) && upper(high)) {
                return f64::INFINITY;
            }
        }
        half * half * self.curvature / (1.0 + square.max(0.0).sqrt())
    }

    /// A circle about `middle` of this radius holds the whole piece.
    pub(crate) fn reach(&self) -> f64 {
        self.half.max(self.rise)
    }

    /// Whether the whole line or circle of this piece passes by the whole of another, seen at once.
    pub(crate) fn keeps_off(&self, other: &Self) -> bool {
        let (x, up) = self.local(other.middle);
        self.off(x, up).0.abs() > other.reach()
    }

    /// The smallest upright box round the piece: its ends, and where an arc faces a quarter.
    pub(crate) fn bounds(&self) -> Bounds {
        let east = Vector::new(1.0, 0.0);
        let north = east.left();
        let mut bounds = Bounds::of(self.start).with(Bounds::of(self.end));
        if !self.is_straight() {
            for point in [east, north, -east, -north]
                .into_iter()
                .filter_map(|way| self.facing(way))
            {
                bounds = bounds.with(Bounds::of(point));
            }
        }
        bounds
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Arc, Line};

    fn frame(rise: f64) -> Frame {
        let (start, end) = (Point::new(-3.0, 0.0), Point::new(3.0, 0.0));
        Frame::of(&match Arc::from_rise(start, end, rise) {
            Ok(arc) => Piece::Arc(arc),
            Err(_) => Piece::Line(Line::new(start, end).unwrap()),
        })
    }

    #[test]
    fn nearest_inside_outside_and_past_the_ends() {
        // c 6, h 9: R 5, centre 4 above the chord.
        let check = |rise: f64, at: (f64, f64), on: (f64, f64)| {
            let (square, foot) = frame(rise).nearest(Point::new(at.0, at.1));
            assert!(foot.distance(Point::new(on.0, on.1)) < 1e-12, "{foot:?}");
            let distance = Point::new(at.0, at.1).distance(foot);
            assert!((square.sqrt() - distance).abs() < 1e-12);
        };
        check(9.0, (0.0, 12.0), (0.0, 9.0));
        check(9.0, (0.0, 6.0), (0.0, 9.0));
        check(9.0, (7.0, 4.0), (5.0, 4.0));
        check(9.0, (0.5, 0.0), (3.0, 0.0));
        check(9.0, (-0.5, -2.0), (-3.0, 0.0));
        check(-9.0, (0.0, -6.0), (0.0, -9.0));
        check(9.0, (0.0, 4.0), (0.0, 9.0));
        check(0.0, (1.0, 2.0), (1.0, 0.0));
        check(0.0, (4.0, 2.0), (3.0, 0.0));
    }

    #[test]
    fn a_bow_is_a_sagitta() {
        let arc = frame(9.0);
        let low = Point::new(3.0, 0.0);
        assert!((arc.bow(low, Point::new(3.0, 8.0)) - 2.0).abs() < 1e-12);
        assert!(arc.bow(low, Point::new(-3.0, 0.0)).is_infinite());
    }
}
