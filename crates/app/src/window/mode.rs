//! What a click on the plan means: choose, lay pegs, measure, or draw what stands there.

use geometry::Point;
use plan::document::{Shape, Side};
use plan::edit::End;

use super::site::Sketch;

/// What a click on the plan means.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Mode {
    /// Choose a part, drag a handle, move the paper.
    #[default]
    Choose,
    /// Lay a path, peg by peg.
    Lay(Lay),
    /// Measure between two places.
    Measure(Measure),
    /// Draw a thing on the site.
    Sketch(Sketch),
}

/// A path being laid.
#[derive(Clone, Debug, PartialEq)]
pub struct Lay {
    /// The first peg of a new path, before there is a leg.
    pub first: Option<Start>,
    /// Whether a path that is there is led on, and from which of its ends.
    pub leads_on: Option<End>,
    /// What the next leg becomes.
    pub next: Next,
}

/// Where a new path starts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Start {
    /// Where its first peg stands.
    pub at: Point,
    /// The path and edge it starts from, if any.
    pub edge: Option<(usize, Side)>,
}

/// What the next leg becomes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Next {
    /// A straight.
    #[default]
    Straight,
    /// A bend, to be shaped by its apex.
    Bend,
    /// A bend that leaves smoothly from the leg before.
    Onward,
}

/// A distance being measured.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Measure {
    /// From where.
    pub from: Option<Point>,
    /// To where, once it is set.
    pub to: Option<Point>,
}

impl Lay {
    /// A new path.
    #[must_use]
    pub fn new_path() -> Self {
        Self {
            first: None,
            leads_on: None,
            next: Next::default(),
        }
    }

    /// A path led on from one of its ends.
    #[must_use]
    pub fn leading_on(end: End) -> Self {
        Self {
            leads_on: Some(end),
            ..Self::new_path()
        }
    }
}

impl Next {
    /// All kinds, in the order they are offered.
    pub const ALL: [Self; 3] = [Self::Straight, Self::Bend, Self::Onward];

    /// Its word.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Straight => "straight",
            Self::Bend => "bend",
            Self::Onward => "onward bend",
        }
    }

    /// The shape of a leg of this kind over a chord of so many metres. A free bend begins with a
    /// rise of an eighth, a clear curve.
    #[must_use]
    pub fn shape(self, chord: f64) -> Shape {
        match self {
            Self::Straight => Shape::Straight,
            Self::Bend => Shape::bend(chord / 8.0),
            Self::Onward => Shape::Onward,
        }
    }
}
