//! The document: everything a plan file holds, and nothing that follows from it.

mod outline;
mod set_out;
mod site;

use std::sync::Arc;

use geometry::{Direction, Figure, Point};
use serde::{Deserialize, Serialize};

use crate::count::{BuildUp, CountSettings};
use crate::edging::Edging;
use crate::feel::Walk;
use crate::price::PriceList;
use crate::rules::{self, RuleSet};
use crate::solve::Origin;
use crate::stored;
use crate::units::{Graduation, Ruler, Units};

pub use set_out::{MethodChoice, SetOutSettings, Spacing, Surface, TapeClass};
pub use site::{Corner, Extent, Mark, Obstacle, ObstacleKind, RootRule, Site, Swing};

/// The version of the plan file written, and the newest one read.
pub const VERSION: u32 = 1;

/// One plan: the site and the options proposed for it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Plan {
    /// Version of the file, see [`VERSION`].
    pub version: u32,
    /// What the plan is called.
    #[serde(default)]
    pub title: String,
    /// For whom it is.
    #[serde(default)]
    pub client: String,
    /// Where it is.
    #[serde(default)]
    pub place: String,
    /// Anything else worth keeping.
    #[serde(default)]
    pub notes: String,
    /// The units people read and type.
    pub units: Units,
    /// The smallest tape division used.
    pub graduation: Graduation,
    /// The tape at hand.
    #[serde(default)]
    pub tape: Tape,
    /// Where north is: radians counter-clockwise from the top of the plan.
    #[serde(default)]
    pub north: f64,
    /// What is there. It is shared between a plan and what becomes of it, so that an edit of a
    /// path copies no obstacle and what was computed of the ground can be kept.
    #[serde(default)]
    pub site: Arc<Site>,
    /// The options, lettered A, B, C in this order.
    #[serde(default)]
    pub schemes: Vec<Scheme>,
    /// The rules its paths are judged by.
    #[serde(
        default = "rules::usual_rules",
        skip_serializing_if = "rules_are_usual"
    )]
    pub rules: Vec<RuleSet>,
    /// Who walks its paths, and what is wheeled along them.
    #[serde(default, skip_serializing_if = "Walk::is_usual")]
    pub walk: Walk,
    /// How its paths are set out.
    #[serde(default, skip_serializing_if = "SetOutSettings::is_usual")]
    pub set_out: SetOutSettings,
    /// What things and hands cost: a copy of the list the person keeps, shared as the site is.
    #[serde(default, skip_serializing_if = "prices_are_empty")]
    pub prices: Arc<PriceList>,
    /// What the counting of quantities goes by.
    #[serde(default, skip_serializing_if = "CountSettings::is_usual")]
    pub count: CountSettings,
}

fn prices_are_empty(prices: &Arc<PriceList>) -> bool {
    prices.is_empty()
}

#[expect(clippy::ptr_arg, reason = "serde passes the field as it is")]
fn rules_are_usual(rules: &Vec<RuleSet>) -> bool {
    rules::are_usual(rules)
}

/// The tape at hand.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tape {
    /// Its length in metres.
    pub length: f64,
}

impl Default for Tape {
    /// The common 30 m (100 ft) tape.
    fn default() -> Self {
        Self { length: 30.0 }
    }
}

/// One proposal for the site; the screen calls it an option.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Scheme {
    /// What it is called.
    pub name: String,
    /// Anything worth keeping about it.
    #[serde(default)]
    pub notes: String,
    /// Its paths.
    #[serde(default)]
    pub routes: Vec<Route>,
    /// What its paths are edged with, if that is settled.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub edging: Option<Edging>,
    /// What its paths are built of, if that is settled; kept whole, so that a plan needs no other file,
    /// and shared between a plan and what becomes of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub build_up: Option<Arc<BuildUp>>,
    /// Whether it is settled: then its paths cannot be changed.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub locked: bool,
}

impl Scheme {
    /// What one edge of its paths is made of: what its build-up says, or else what is chosen for both.
    #[must_use]
    pub fn edging_at(&self, side: Side) -> Option<Edging> {
        let course = self.build_up.as_ref().and_then(|up| up.course(side));
        course.map(|course| course.edging).or(self.edging)
    }
}

/// One path along its centre line.
///
/// An open path has one leg fewer than waypoints; a closed one has as many, the last leg leading
/// back to the first waypoint.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Route {
    /// What it is called.
    pub name: String,
    /// Its width in metres.
    pub width: f64,
    /// Where the legs meet.
    pub waypoints: Vec<Waypoint>,
    /// The legs, in walking order.
    pub legs: Vec<Shape>,
    /// Whether the last leg leads back to the first waypoint.
    #[serde(default)]
    pub closed: bool,
    /// Which way the path must leave its start, if that is fixed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub start_direction: Option<Heading>,
    /// Which way the path must arrive at its end, if that is fixed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub end_direction: Option<Heading>,
    /// The edge of another path that this one starts from, if any: its first waypoint stays there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub start_on: Option<Junction>,
    /// Landings and passing places laid on the path.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub pads: Vec<Pad>,
    /// The methods the person chose for bends of it; for the others the best one is taken.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub methods: Vec<MethodChoice>,
}

/// A place on the edge of another path of the same option.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Junction {
    /// Which path, counted from 1; it stands before the one that starts from it.
    pub route: usize,
    /// Which edge of it.
    pub side: Side,
    /// How far along that edge from its start, in metres.
    pub station: f64,
}

/// Left or right, as one walks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Side {
    /// On the left.
    Left,
    /// On the right.
    Right,
}

impl Side {
    /// The other side.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
        }
    }

    /// The word for it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
        }
    }
}

/// A landing or passing place laid on a path.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pad {
    /// What it is called.
    pub name: String,
    /// The station of its middle on the centre line, in metres.
    pub station: f64,
    /// Its shape.
    pub shape: PadShape,
}

/// The shape of a pad.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum PadShape {
    /// A rectangle, its sides along and square to the path at its middle.
    Rectangle {
        /// Its length along the path in metres.
        along: f64,
        /// Its width across the path in metres.
        across: f64,
    },
    /// A circle.
    Circle {
        /// Its diameter in metres.
        diameter: f64,
    },
}

impl Route {
    /// The two waypoints of a leg, counted from 0; `None` past the last leg.
    #[must_use]
    pub fn ends_of(&self, leg: usize) -> Option<(usize, usize)> {
        (leg < self.legs.len()).then(|| (leg, (leg + 1) % self.waypoints.len().max(1)))
    }

    /// Whether something of a path is a bend: a bent leg, the second of two, or a rounding of a
    /// corner between two legs.
    #[must_use]
    pub fn is_bend(&self, origin: Origin) -> bool {
        match origin {
            Origin::Leg(leg) => self
                .legs
                .get(leg)
                .is_some_and(|shape| *shape != Shape::Straight),
            Origin::SecondBend(leg) => self.legs.get(leg) == Some(&Shape::TwoBends),
            Origin::Rounding(waypoint) => {
                let rounding = self.waypoints.get(waypoint).and_then(|peg| peg.rounding);
                rounding.is_some() && matches!(self.legs_at(waypoint), (Some(_), Some(_)))
            }
        }
    }

    /// The leg before a waypoint, and the one after it.
    #[must_use]
    pub fn legs_at(&self, waypoint: usize) -> (Option<usize>, Option<usize>) {
        let before = match waypoint.checked_sub(1) {
            Some(leg) => Some(leg),
            None if self.closed => self.legs.len().checked_sub(1),
            None => None,
        };
        let inside = |leg: &usize| *leg < self.legs.len();
        (before.filter(inside), Some(waypoint).filter(inside))
    }
}

/// A place where legs meet.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Waypoint {
    /// Where it is.
    #[serde(with = "stored::point")]
    pub at: Point,
    /// The radius in metres that rounds the corner here, if any.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rounding: Option<f64>,
}

/// The shape of a leg.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Shape {
    /// A straight.
    Straight,
    /// A circular bend.
    Bend {
        /// The rise in metres: positive when the apex lies left of the chord as one walks, so
        /// that the path turns right.
        rise: f64,
        /// The figures that were typed and hold, the one typed longest ago first: two at most.
        #[serde(
            default,
            skip_serializing_if = "Vec::is_empty",
            with = "stored::figures"
        )]
        holds: Vec<Figure>,
    },
    /// A bend that leaves smoothly, tangent to the leg before it (or to the start direction).
    Onward,
    /// Two bends, smoothly joined, that leave tangent to the leg before (or the start direction)
    /// and arrive tangent to the leg after (or the end direction), their curvatures as near equal
    /// as they can be. Between parallel directions it is the S of two equal bends.
    TwoBends,
}

impl Shape {
    /// A bend of this signed rise with nothing typed.
    #[must_use]
    pub fn bend(rise: f64) -> Self {
        Self::Bend {
            rise,
            holds: Vec::new(),
        }
    }
}

/// Which way a path must leave or arrive.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Heading {
    /// At an angle: radians counter-clockwise from east.
    Angle(f64),
    /// Along a line, the way it is named.
    Along(Reference),
    /// Along a line, the other way.
    Against(Reference),
    /// Square to a line, turned to its left.
    Square(Reference),
    /// Square to a line, turned to its right.
    SquareRight(Reference),
}

/// A line on the site that a direction refers to.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Reference {
    /// From one mark to another.
    Marks(String, String),
    /// A side of a wall, building or bed, from one corner to the next, counted from 1.
    Wall {
        /// The obstacle's name.
        name: String,
        /// Which side, counted from 1.
        side: usize,
    },
}

impl Heading {
    /// The direction itself; `None` if what it refers to is not on the site.
    #[must_use]
    pub fn direction(&self, site: &Site) -> Option<Direction> {
        match self {
            Self::Angle(angle) => Direction::at_angle(*angle),
            Self::Along(reference) => reference.direction(site),
            Self::Against(reference) => reference.direction(site).map(Direction::reversed),
            Self::Square(reference) => reference.direction(site).map(Direction::left),
            Self::SquareRight(reference) => {
                reference.direction(site).map(|line| line.left().reversed())
            }
        }
    }
}

impl Heading {
    /// The opposite direction.
    #[must_use]
    pub fn reversed(&self) -> Self {
        match self {
            Self::Angle(angle) => {
                Self::Angle(geometry::angle::signed(angle + std::f64::consts::PI))
            }
            Self::Along(reference) => Self::Against(reference.clone()),
            Self::Against(reference) => Self::Along(reference.clone()),
            Self::Square(reference) => Self::SquareRight(reference.clone()),
            Self::SquareRight(reference) => Self::Square(reference.clone()),
        }
    }
}

impl Reference {
    /// The direction of the line; `None` if it is not on the site.
    #[must_use]
    pub fn direction(&self, site: &Site) -> Option<Direction> {
        let (from, to) = match self {
            Self::Marks(from, to) => {
                let find = |name: &String| site.marks.iter().find(|m| m.name == *name);
                (find(from)?.at, find(to)?.at)
            }
            Self::Wall { name, side } => {
                let obstacle = site.obstacles.iter().find(|o| o.name == *name)?;
                obstacle.extent.side(side.checked_sub(1)?)?
            }
        };
        Direction::of(to - from)
    }
}

impl Plan {
    /// An empty plan in the given units.
    #[must_use]
    pub fn empty(units: Units) -> Self {
        Self {
            version: VERSION,
            title: String::new(),
            client: String::new(),
            place: String::new(),
            notes: String::new(),
            units,
            graduation: Graduation::default_for(units),
            tape: Tape::default(),
            north: 0.0,
            site: Arc::default(),
            schemes: vec![Scheme::default()],
            rules: rules::usual_rules(),
            walk: Walk::default(),
            set_out: SetOutSettings::default(),
            prices: Arc::default(),
            count: CountSettings::default(),
        }
    }

    /// The site, to be changed: a copy of its own if another plan shares it.
    pub fn site_mut(&mut self) -> &mut Site {
        Arc::make_mut(&mut self.site)
    }

    /// How this plan's lengths are read and written.
    #[must_use]
    pub fn ruler(&self) -> Ruler {
        Ruler {
            units: self.units,
            graduation: self.graduation,
        }
    }
}

/// The width a new path begins with, in metres: 1.2 m or 4 ft, for two abreast. Source: This Old
/// House, G. Hayward (48 in for a primary walk).
#[must_use]
pub fn usual_width(units: Units) -> f64 {
    match units {
        Units::Metric => 1.2,
        Units::FeetInches => 4.0 * 0.3048,
    }
}

/// The letter of an option: A to Z, then AA, AB and so on.
#[must_use]
pub fn letter(scheme: usize) -> String {
    let mut rest = scheme;
    let mut letters = Vec::new();
    loop {
        letters.push(char::from(b'A' + u8::try_from(rest % 26).unwrap_or(0)));
        match (rest / 26).checked_sub(1) {
            Some(next) => rest = next,
            None => break,
        }
    }
    letters.iter().rev().collect()
}
