//! What is on the ground: marks, and the things a path must mind.

use std::fmt;

use geometry::Point;
use serde::{Deserialize, Serialize};

use super::Side;
use crate::stored;

/// What is on the ground.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Site {
    /// Fixed things one can tape from again.
    #[serde(default)]
    pub marks: Vec<Mark>,
    /// Things the path must mind.
    #[serde(default)]
    pub obstacles: Vec<Obstacle>,
    /// How far the roots of a tree are taken to reach.
    #[serde(default, skip_serializing_if = "RootRule::is_usual")]
    pub roots: RootRule,
}

/// A fixed thing one can tape from again: a gate post, a building corner.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Mark {
    /// What it is called; no two marks share a name.
    pub name: String,
    /// Where it is.
    #[serde(with = "stored::point")]
    pub at: Point,
}

/// A thing the path must mind.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Obstacle {
    /// What it is called.
    pub name: String,
    /// What kind of thing it is.
    pub kind: ObstacleKind,
    /// The ground it takes up.
    pub extent: Extent,
    /// The distance in metres that the edges of a path should keep from it; without one, the
    /// [usual one of its kind](ObstacleKind::usual_clearance).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub clearance: Option<f64>,
    /// How thick a wall drawn as a line is, in metres, half of it on each side; without one it
    /// takes up no ground beside its line.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub thickness: Option<f64>,
    /// How far a buried service may lie from where it is drawn, in metres; without one it lies
    /// where it is drawn.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub unsure: Option<f64>,
    /// How far the roots of this tree reach from the middle of its stem, in metres, where that is
    /// known better than by the [rule of the site](RootRule).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub root_zone: Option<f64>,
    /// How a gate opens, if it does.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub swing: Option<Swing>,
    /// Whether it holds still: no hand moves it on the plan.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub still: bool,
}

impl Obstacle {
    /// A thing of this kind with nothing said of it but where it is.
    #[must_use]
    pub fn new(name: impl Into<String>, kind: ObstacleKind, extent: Extent) -> Self {
        Self {
            name: name.into(),
            kind,
            extent,
            clearance: None,
            thickness: None,
            unsure: None,
            root_zone: None,
            swing: None,
            still: false,
        }
    }

    /// The distance in metres that the edges of a path should keep from it.
    #[must_use]
    pub fn wanted_clearance(&self) -> f64 {
        self.clearance
            .unwrap_or_else(|| self.kind.usual_clearance())
    }

    /// What to call it in a sentence: its name in quotes, or its kind.
    #[must_use]
    pub fn called(&self) -> String {
        match self.name.trim() {
            "" => format!("the {}", self.kind.word()),
            name => format!("“{name}”"),
        }
    }

    /// The stem radius of a tree drawn round, in metres.
    #[must_use]
    pub fn stem_radius(&self) -> Option<f64> {
        match (self.kind, &self.extent) {
            (ObstacleKind::Tree, Extent::Round { radius, .. }) => Some(*radius),
            _ => None,
        }
    }

    /// How far the roots of a tree are taken to reach from the middle of its stem, in metres.
    #[must_use]
    pub fn root_radius(&self, rule: RootRule) -> Option<f64> {
        let stem = self.stem_radius()?;
        Some(self.root_zone.unwrap_or_else(|| rule.radius(2.0 * stem)))
    }
}

/// The kinds of obstacle.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum ObstacleKind {
    /// A free-standing wall or fence.
    Wall,
    /// A building.
    Building,
    /// A bed or hedge.
    Bed,
    /// Open water, a cistern.
    Pond,
    /// A tree, drawn with its stem.
    Tree,
    /// A buried pipe or cable.
    Service,
    /// The boundary: paths and strings stay inside an area, or off a line.
    Boundary,
    /// A gate, drawn as a line from its hinge post to its latch post.
    Gate,
}

impl ObstacleKind {
    /// All kinds, in the order in which they are offered.
    pub const ALL: [Self; 8] = [
        Self::Wall,
        Self::Building,
        Self::Bed,
        Self::Pond,
        Self::Tree,
        Self::Service,
        Self::Boundary,
        Self::Gate,
    ];

    /// The word for it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Wall => "wall",
            Self::Building => "building",
            Self::Bed => "bed",
            Self::Pond => "pond",
            Self::Tree => "tree",
            Self::Service => "service",
            Self::Boundary => "boundary",
            Self::Gate => "gate",
        }
    }

    /// The distance in metres that the edges of a path usually keep from things of this kind.
    ///
    /// Walls and buildings 0.3 m. Source: green-wiki.org, garden paths (hedge or wall); University
    /// of Illinois Extension, S. Mason (12 to 18 in beside a building are not walked on). A tree's
    /// stem and water 0.3 m: common practice, no source. Beds and boundaries are often the very
    /// edge of a path, a service is crossed, and a gate is walked through: nothing.
    #[must_use]
    pub fn usual_clearance(self) -> f64 {
        match self {
            Self::Wall | Self::Building | Self::Pond | Self::Tree => 0.3,
            Self::Bed | Self::Service | Self::Boundary | Self::Gate => 0.0,
        }
    }
}

/// The ground an obstacle takes up.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Extent {
    /// A circle.
    Round {
        /// Its centre.
        #[serde(with = "stored::point")]
        centre: Point,
        /// Its radius in metres.
        radius: f64,
    },
    /// A line from corner to corner.
    Line(#[serde(with = "stored::points")] Vec<Point>),
    /// An area with straight sides; the last corner joins the first.
    Area(#[serde(with = "stored::points")] Vec<Point>),
    /// An area with straight and bent sides; the last corner joins the first.
    Curved(Vec<Corner>),
}

/// A corner of a curved area, and the side from it to the next.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Corner {
    /// Where it is.
    #[serde(with = "stored::point")]
    pub at: Point,
    /// The rise in metres of the side that leads on from here, signed as that of a bend: positive
    /// when its apex lies left of the chord. Zero is a straight side.
    #[serde(default, skip_serializing_if = "is_zero")]
    pub rise: f64,
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "serde hands over a reference"
)]
fn is_zero(value: &f64) -> bool {
    *value == 0.0
}

impl Extent {
    /// The corners that can be taken hold of: none of a circle.
    #[must_use]
    pub fn corners(&self) -> Vec<Point> {
        match self {
            Self::Round { .. } => Vec::new(),
            Self::Line(points) | Self::Area(points) => points.clone(),
            Self::Curved(corners) => corners.iter().map(|corner| corner.at).collect(),
        }
    }

    /// How many corners it has; a circle counts as one.
    #[must_use]
    pub fn count(&self) -> usize {
        match self {
            Self::Round { .. } => 1,
            Self::Line(points) | Self::Area(points) => points.len(),
            Self::Curved(corners) => corners.len(),
        }
    }

    /// Whether it encloses ground.
    #[must_use]
    pub fn is_closed(&self) -> bool {
        !matches!(self, Self::Line(_))
    }

    /// The two corners of a straight side, counted from 0.
    #[must_use]
    pub fn side(&self, side: usize) -> Option<(Point, Point)> {
        let (points, last) = match self {
            Self::Round { .. } => return None,
            Self::Line(points) => (points, side + 1),
            Self::Area(points) => (points, (side + 1) % points.len().max(1)),
            Self::Curved(corners) => {
                let from = corners.get(side)?;
                let to = corners.get((side + 1) % corners.len())?;
                return (from.rise.abs() < crate::limits::SHORTEST).then_some((from.at, to.at));
            }
        };
        Some((*points.get(side)?, *points.get(last)?))
    }

    /// Every point needed to see it whole.
    #[must_use]
    pub fn outline(&self) -> Vec<Point> {
        match self {
            Self::Round { centre, radius } => vec![
                Point::new(centre.x - radius, centre.y - radius),
                Point::new(centre.x + radius, centre.y + radius),
            ],
            Self::Line(points) | Self::Area(points) => points.clone(),
            Self::Curved(_) => {
                let bounds = self.sides().map(|side| side.bounds());
                let whole = bounds.reduce(geometry::Bounds::with);
                whole.map_or_else(|| self.corners(), |box_| vec![box_.low, box_.high])
            }
        }
    }

    /// Its sides as lines and arcs, in order; sides of no length are left out.
    pub fn sides(&self) -> impl Iterator<Item = geometry::Piece> + '_ {
        let corner = |i: usize| -> Option<Corner> {
            match self {
                Self::Round { centre, radius } => {
                    // Two half circles, walked left about the middle.
                    let x = if i.is_multiple_of(2) {
                        *radius
                    } else {
                        -radius
                    };
                    let at = Point::new(centre.x + x, centre.y);
                    Some(Corner { at, rise: -radius })
                }
                Self::Line(points) | Self::Area(points) => {
                    let at = *points.get(i % points.len().max(1))?;
                    Some(Corner { at, rise: 0.0 })
                }
                Self::Curved(corners) => corners.get(i % corners.len().max(1)).copied(),
            }
        };
        let count = match self {
            Self::Round { .. } => 2,
            Self::Line(points) => points.len().saturating_sub(1),
            Self::Area(_) | Self::Curved(_) => self.count(),
        };
        (0..count).filter_map(move |i| {
            let (from, to) = (corner(i)?, corner(i + 1)?);
            match geometry::Arc::from_rise(from.at, to.at, from.rise) {
                Ok(arc) => Some(geometry::Piece::Arc(arc)),
                Err(_) => geometry::Line::new(from.at, to.at)
                    .ok()
                    .map(geometry::Piece::Line),
            }
        })
    }
}

/// How a gate opens: it turns about its hinge post.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Swing {
    /// To which side of the line from hinge post to latch post.
    pub to: Side,
    /// How far, in radians, up to a full half turn and more.
    pub angle: f64,
}

/// How far the roots of a tree are taken to reach, from the diameter of its stem at chest height.
///
/// None of them binds where local rules say otherwise: ask an arborist or the tree officer.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum RootRule {
    /// Twelve times the diameter, at most 15 m. Source: BS 5837:2012 (British Standard), as quoted
    /// by a planning officer at tree-care.info; the cap of 707 m² from memory.
    #[default]
    TwelveDiameters,
    /// Twelve times the diameter, at least 2 m and at most 15 m. Source: AS 4970-2009 (Australian
    /// Standard), as quoted in slides at vdocument.in and at arboristsite.com; 15 m from memory.
    TwelveDiametersFromTwoMetres,
    /// 1 ft for each inch of diameter. Source: Vancouver (Washington) Municipal Code 20.170.100.
    FootAnInch,
    /// 1.25 ft for each inch of diameter. Source: North Carolina State Extension.
    FootAndAQuarterAnInch,
    /// 1.5 ft for each inch of diameter. Source: City of Edina (Minnesota), tree protection FAQ.
    FootAndAHalfAnInch,
}

/// The largest root zone of the two standards, in metres.
const LARGEST_ROOT_ZONE: f64 = 15.0;
/// The smallest root zone of AS 4970, in metres.
const SMALLEST_ROOT_ZONE: f64 = 2.0;

impl RootRule {
    /// All rules, in the order in which they are offered.
    pub const ALL: [Self; 5] = [
        Self::TwelveDiameters,
        Self::TwelveDiametersFromTwoMetres,
        Self::FootAnInch,
        Self::FootAndAQuarterAnInch,
        Self::FootAndAHalfAnInch,
    ];

    /// How far the roots of a tree of this stem diameter reach, both in metres.
    ///
    /// ```
    /// use plan::document::RootRule;
    /// assert!((RootRule::TwelveDiameters.radius(0.45) - 5.4).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn radius(self, diameter: f64) -> f64 {
        match self {
            Self::TwelveDiameters => (12.0 * diameter).min(LARGEST_ROOT_ZONE),
            Self::TwelveDiametersFromTwoMetres => {
                (12.0 * diameter).clamp(SMALLEST_ROOT_ZONE, LARGEST_ROOT_ZONE)
            }
            // A foot for each inch is twelve times as far.
            Self::FootAnInch => 12.0 * diameter,
            Self::FootAndAQuarterAnInch => 15.0 * diameter,
            Self::FootAndAHalfAnInch => 18.0 * diameter,
        }
    }

    /// Where it comes from.
    #[must_use]
    pub fn source(self) -> &'static str {
        match self {
            Self::TwelveDiameters => "BS 5837:2012: 12 times the stem's diameter",
            Self::TwelveDiametersFromTwoMetres => "AS 4970-2009: 12 times the stem's diameter",
            Self::FootAnInch => "Vancouver (Washington) Municipal Code 20.170.100: 1 ft an inch",
            Self::FootAndAQuarterAnInch => "North Carolina State Extension: 1.25 ft an inch",
            Self::FootAndAHalfAnInch => "City of Edina (Minnesota): 1.5 ft an inch",
        }
    }

    #[expect(
        clippy::trivially_copy_pass_by_ref,
        reason = "serde hands over a reference"
    )]
    fn is_usual(&self) -> bool {
        *self == Self::default()
    }
}

impl fmt::Display for RootRule {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.source())
    }
}
