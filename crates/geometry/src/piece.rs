//! A piece of a chain: a straight or an arc.

use crate::frame::Frame;
use crate::{Arc, Bounds, Direction, Line, Point};

/// One piece of a path, walked from its start to its end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Piece {
    /// A straight.
    Line(Line),
    /// A circular bend.
    Arc(Arc),
}

impl Piece {
    /// Where it starts.
    #[must_use]
    pub fn start(&self) -> Point {
        match self {
            Self::Line(line) => line.start(),
            Self::Arc(arc) => arc.start(),
        }
    }

    /// Where it ends.
    #[must_use]
    pub fn end(&self) -> Point {
        match self {
            Self::Line(line) => line.end(),
            Self::Arc(arc) => arc.end(),
        }
    }

    /// Its length in metres, above zero.
    #[must_use]
    pub fn length(&self) -> f64 {
        match self {
            Self::Line(line) => line.length(),
            Self::Arc(arc) => arc.length(),
        }
    }

    /// The signed angle turned through, positive to the left; zero on a straight.
    #[must_use]
    pub fn sweep(&self) -> f64 {
        match self {
            Self::Line(_) => 0.0,
            Self::Arc(arc) => arc.sweep(),
        }
    }

    /// The angle turned through on each metre, positive to the left; zero on a straight.
    #[must_use]
    pub fn curvature(&self) -> f64 {
        match self {
            Self::Line(_) => 0.0,
            Self::Arc(arc) => arc.radius().recip().copysign(-arc.rise()),
        }
    }

    /// The arc, if it is one.
    #[must_use]
    pub fn arc(&self) -> Option<&Arc> {
        match self {
            Self::Line(_) => None,
            Self::Arc(arc) => Some(arc),
        }
    }

    /// The point `distance` metres along from the start; beyond the ends it runs on in the same
    /// line or circle.
    #[must_use]
    pub fn point_at(&self, distance: f64) -> Point {
        match self {
            Self::Line(line) => line.point_at(distance),
            Self::Arc(arc) => arc.point_at(distance),
        }
    }

    /// The direction walked at `distance` metres from the start.
    #[must_use]
    pub fn direction_at(&self, distance: f64) -> Direction {
        match self {
            Self::Line(line) => line.direction(),
            Self::Arc(arc) => arc.direction_at(distance),
        }
    }

    /// The direction in which one leaves its start.
    #[must_use]
    pub fn start_direction(&self) -> Direction {
        match self {
            Self::Line(line) => line.direction(),
            Self::Arc(arc) => arc.start_direction(),
        }
    }

    /// The direction in which one arrives at its end.
    #[must_use]
    pub fn end_direction(&self) -> Direction {
        match self {
            Self::Line(line) => line.direction(),
            Self::Arc(arc) => arc.end_direction(),
        }
    }

    /// How far along it a point lies, measured square to it; not held to its ends.
    #[must_use]
    pub fn along(&self, point: Point) -> f64 {
        match self {
            Self::Line(line) => line.along(point),
            Self::Arc(arc) => arc.along(point),
        }
    }

    /// The nearest point of it to `point`: how far along, from 0 to its length, and where.
    #[must_use]
    pub fn nearest(&self, point: Point) -> (f64, Point) {
        let frame = Frame::of(self);
        let (_, foot) = frame.nearest(point);
        let along = if foot == self.start() {
            0.0
        } else if foot == self.end() {
            self.length()
        } else {
            frame.walked(foot)
        };
        (along, foot)
    }

    /// The nearest point of it to `point`, without asking how far along: a third of the work.
    #[must_use]
    pub fn nearest_point(&self, point: Point) -> Point {
        Frame::of(self).nearest(point).1
    }

    /// A circle that holds the whole piece: the middle of its chord, and half the chord or, past a
    /// half circle, the rise.
    pub(crate) fn round(&self) -> (Point, f64) {
        let middle = self.start().middle(self.end());
        let reach = match self {
            Self::Line(line) => 0.5 * line.length(),
            Self::Arc(arc) => (0.5 * arc.chord()).max(arc.rise().abs()),
        };
        (middle, reach)
    }

    /// The piece walked the other way.
    #[must_use]
    pub fn reversed(&self) -> Self {
        match self {
            Self::Line(line) => Self::Line(line.reversed()),
            Self::Arc(arc) => Self::Arc(arc.reversed()),
        }
    }

    /// The piece moved `distance` to the left (right when negative): a line stays a line, an arc
    /// stays an arc about the same swing point. `None` when nothing is left of the arc.
    #[must_use]
    pub fn offset(&self, distance: f64) -> Option<Self> {
        match self {
            Self::Line(line) => Some(Self::Line(line.offset(distance))),
            Self::Arc(arc) => arc.offset(distance).map(Self::Arc),
        }
    }

    /// The part from `from` to `to` metres along, which may lie beyond the ends on the same line
    /// or circle; `None` when nothing is left, or an arc would go full circle.
    #[must_use]
    pub fn between(&self, from: f64, to: f64) -> Option<Self> {
        if from >= to {
            return None;
        }
        match self {
            Self::Line(line) => Line::new(line.point_at(from), line.point_at(to))
                .ok()
                .map(Self::Line),
            Self::Arc(arc) => arc.between(from, to).map(Self::Arc),
        }
    }

    /// The smallest upright box round it.
    #[must_use]
    pub fn bounds(&self) -> Bounds {
        match self {
            Self::Line(line) => line.bounds(),
            Self::Arc(arc) => arc.bounds(),
        }
    }
}
