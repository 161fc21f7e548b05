//! A straight piece between two points.

use std::fmt;

use crate::{Bounds, Direction, Point, Vector};

/// A straight piece from `start` to `end`, walked in that order; its ends are finite and apart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    start: Point,
    end: Point,
}

/// Why there is no straight.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LineError {
    /// A coordinate is not a finite number.
    NotFinite,
    /// Both ends are the same point.
    NoLength,
}

impl fmt::Display for LineError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NotFinite => "a coordinate of the straight is not a finite number",
            Self::NoLength => "both ends of the straight are the same point: move one of them",
        })
    }
}

impl std::error::Error for LineError {}

impl Line {
    /// The straight from `start` to `end`.
    ///
    /// # Errors
    /// * [`LineError::NotFinite`] unless all coordinates are finite;
    /// * [`LineError::NoLength`] if the ends are the same point.
    pub fn new(start: Point, end: Point) -> Result<Self, LineError> {
        if !(start.is_finite() && end.is_finite()) {
            return Err(LineError::NotFinite);
        }
        if start == end {
            return Err(LineError::NoLength);
        }
        Ok(Self { start, end })
    }

    /// Where it starts.
    #[must_use]
    pub fn start(&self) -> Point {
        self.start
    }

    /// Where it ends.
    #[must_use]
    pub fn end(&self) -> Point {
        self.end
    }

    /// Its length in metres, above zero.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.start.distance(self.end)
    }

    /// Which way one walks it.
    #[must_use]
    pub fn direction(&self) -> Direction {
        Direction::of(self.end - self.start).unwrap_or(Direction::EAST)
    }

    /// The point `distance` metres from the start; beyond the ends it runs on straight.
    #[must_use]
    pub fn point_at(&self, distance: f64) -> Point {
        let length = self.length();
        if 2.0 * distance > length {
            self.end + self.direction().unit() * (distance - length)
        } else {
            self.start + self.direction().unit() * distance
        }
    }

    /// How far along the piece a point lies, measured square to it: below zero before the start.
    #[must_use]
    pub fn along(&self, point: Point) -> f64 {
        self.direction().unit().dot(point - self.start)
    }

    /// The straight walked the other way.
    #[must_use]
    pub fn reversed(&self) -> Self {
        Self {
            start: self.end,
            end: self.start,
        }
    }

    /// The straight moved `distance` to the left (right when negative).
    #[must_use]
    pub fn offset(&self, distance: f64) -> Self {
        let way: Vector = self.direction().unit().left() * distance;
        Self {
            start: self.start + way,
            end: self.end + way,
        }
    }

    /// The smallest upright box round it.
    #[must_use]
    pub fn bounds(&self) -> Bounds {
        Bounds::of(self.start).with(Bounds::of(self.end))
    }
}
