//! The exact least distance between two pieces.

use crate::frame::Frame;
use crate::meet::Carrier;
use crate::{Piece, Point};

/// How far two things are apart, and where.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// In metres; below zero only where one of the two is ground and the other lies in it.
    pub distance: f64,
    /// The point on the first.
    pub from: Point,
    /// The point on the second (of a [`crate::Patch`], on its border).
    pub to: Point,
}

impl Piece {
    /// The least distance to another piece: zero where they meet. Of several nearest places, one.
    ///
    /// A least distance is at an end of one of the two, where they meet, or along a common normal;
    /// each of these has a closed form.
    ///
    /// ```
    /// use geometry::{Arc, Line, Piece, Point};
    /// let bend = Piece::Arc(Arc::from_rise(Point::new(-3.0, 0.0), Point::new(3.0, 0.0), 1.0)?);
    /// let wall = Piece::Line(Line::new(Point::new(-9.0, 2.5), Point::new(9.0, 2.5))?);
    /// let gap = bend.gap(&wall);
    /// assert!((gap.distance - 1.5).abs() < 1e-12);
    /// assert!(gap.from.distance(Point::new(0.0, 1.0)) < 1e-12);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn gap(&self, other: &Self) -> Gap {
        between(&Frame::of(self), &Frame::of(other)).gap()
    }
}

/// Two points and their distance squared, which is all that comparing takes.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Span {
    pub(crate) square: f64,
    pub(crate) from: Point,
    pub(crate) to: Point,
}

impl Span {
    pub(crate) fn gap(self) -> Gap {
        Gap {
            distance: self.square.sqrt(),
            from: self.from,
            to: self.to,
        }
    }

    fn reversed(self) -> Self {
        Self {
            from: self.to,
            to: self.from,
            ..self
        }
    }

    fn or(self, other: Self) -> Self {
        if other.square < self.square {
            other
        } else {
            self
        }
    }
}

/// The span from a point of one piece to the nearest point of another.
fn from(point: Point, to: &Frame) -> Span {
    let (square, foot) = to.nearest(point);
    Span {
        square,
        from: point,
        to: foot,
    }
}

/// The least span between two pieces. Every span looked at joins a point of the one to a point of
/// the other, so one too many never does harm.
pub(crate) fn between(a: &Frame, b: &Frame) -> Span {
    let reach = a.reach() + b.reach();
    if (b.middle - a.middle).square() <= reach * reach
        && let Some(point) = meeting(a, b)
    {
        return Span {
            square: 0.0,
            from: point,
            to: point,
        };
    }
    let ends = from(a.start, b).or(from(a.end, b));
    let ends = ends.or(from(b.start, a).or(from(b.end, a)).reversed());
    if a.is_straight() && b.is_straight() {
        ends
    } else if a.curvature >= b.curvature {
        ends.or_along_normal(a, b)
    } else {
        ends.reversed().or_along_normal(b, a).reversed()
    }
}

impl Span {
    /// The lesser of this and the spans along the common normals. They are begun from the sharper
    /// piece, where a direction fixes a place best.
    fn or_along_normal(self, sharper: &Frame, flatter: &Frame) -> Self {
        let share = flatter.curvature / sharper.curvature;
        // From the centre of the flatter to that of the sharper, over the radius of the flatter.
        let way = (sharper.middle - flatter.middle) * flatter.curvature
            + flatter.up * flatter.cosine
            - sharper.up * (sharper.cosine * share);
        let length = way.square().sqrt();
        if length <= 0.0 {
            return self; // about one centre: as far apart at an end as anywhere
        }
        let normal = way / length;
        [normal, -normal]
            .into_iter()
            .filter_map(|normal| sharper.facing(normal))
            .fold(self, |best, point| best.or(from(point, flatter)))
    }
}

/// A point that both pieces pass through between their ends.
fn meeting(a: &Frame, b: &Frame) -> Option<Point> {
    if a.is_straight() && b.is_straight() {
        let side = |of: &Frame, point: Point| of.up.dot(point - of.middle);
        let (before, after) = (side(b, a.start), side(b, a.end));
        let parted = before * after < 0.0 && side(a, b.start) * side(a, b.end) < 0.0;
        return parted.then(|| a.start.towards(a.end, before / (before - after)));
    }
    if a.keeps_off(b) || b.keeps_off(a) {
        return None;
    }
    Carrier::of_frame(a)
        .meet(&Carrier::of_frame(b))
        .into_iter()
        .flatten()
        .find(|point| a.squares(*point) && b.squares(*point))
}
