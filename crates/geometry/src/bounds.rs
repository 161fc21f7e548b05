//! Bounding boxes.

use crate::Point;

/// The smallest upright box round something, in metres. Never empty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// The south-west corner.
    pub low: Point,
    /// The north-east corner.
    pub high: Point,
}

impl Bounds {
    /// The box of one point.
    #[must_use]
    pub fn of(point: Point) -> Self {
        Self {
            low: point,
            high: point,
        }
    }

    /// The box of all points; `None` when there are none.
    pub fn around(points: impl IntoIterator<Item = Point>) -> Option<Self> {
        points.into_iter().map(Self::of).reduce(Self::with)
    }

    /// The box round both.
    #[must_use]
    pub fn with(self, other: Self) -> Self {
        Self {
            low: Point::new(self.low.x.min(other.low.x), self.low.y.min(other.low.y)),
            high: Point::new(self.high.x.max(other.high.x), self.high.y.max(other.high.y)),
        }
    }

    /// The box grown by `margin` metres on each side.
    #[must_use]
    pub fn grown(self, margin: f64) -> Self {
        Self {
            low: Point::new(self.low.x - margin, self.low.y - margin),
            high: Point::new(self.high.x + margin, self.high.y + margin),
        }
    }

    /// Width, west to east, in metres.
    #[must_use]
    pub fn width(self) -> f64 {
        self.high.x - self.low.x
    }

    /// Height, south to north, in metres.
    #[must_use]
    pub fn height(self) -> f64 {
        self.high.y - self.low.y
    }

    /// The middle.
    #[must_use]
    pub fn middle(self) -> Point {
        self.low.middle(self.high)
    }

    /// Whether the two boxes share a point, borders included.
    #[must_use]
    pub fn meets(self, other: Self) -> bool {
        self.low.x <= other.high.x
            && other.low.x <= self.high.x
            && self.low.y <= other.high.y
            && other.low.y <= self.high.y
    }

    /// Whether the box holds a point, borders included.
    #[must_use]
    pub fn holds(self, point: Point) -> bool {
        self.meets(Self::of(point))
    }

    /// The square of the distance to a point; zero inside.
    pub(crate) fn square_to(&self, point: Point) -> f64 {
        let x = (self.low.x - point.x).max(point.x - self.high.x).max(0.0);
        let y = (self.low.y - point.y).max(point.y - self.high.y).max(0.0);
        x * x + y * y
    }

    /// The square of the distance to another box; zero where they meet.
    pub(crate) fn square_between(&self, other: &Self) -> f64 {
        let x = (self.low.x - other.high.x).max(other.low.x - self.high.x);
        let y = (self.low.y - other.high.y).max(other.low.y - self.high.y);
        let (x, y) = (x.max(0.0), y.max(0.0));
        x * x + y * y
    }
}
