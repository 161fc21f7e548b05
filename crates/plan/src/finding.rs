//! Findings: things to put right or know, each with its place, its figure and its limit.

use std::fmt;

use geometry::Point;

/// One thing to put right or know.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// How much it matters.
    pub severity: Severity,
    /// What kind of thing it is.
    pub code: Code,
    /// Where it is.
    pub place: Place,
    /// One sentence with the figure and the remedy, in the plan's units, without a final stop.
    pub sentence: String,
    /// The figure: metres, or radians for angles.
    pub value: Option<f64>,
    /// The limit it is held against: metres or radians.
    pub limit: Option<f64>,
    /// Where the limit comes from.
    pub source: &'static str,
}

/// How much a finding matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// It cannot be built as drawn.
    Stop,
    /// It can, and probably should not.
    Care,
    /// Worth knowing.
    Note,
}

impl Severity {
    /// The word for it, in files and on the command line.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Stop => "stop",
            Self::Care => "care",
            Self::Note => "note",
        }
    }
}

impl fmt::Display for Severity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

/// The kinds of findings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Code {
    /// Two neighbouring waypoints lie on each other.
    WaypointsCoincide,
    /// A rounding is larger than fits.
    RoundingTooLarge,
    /// A rounding has no corner to round.
    NothingToRound,
    /// An onward bend would have to double back.
    OnwardDoublesBack,
    /// An onward bend has nothing to leave smoothly from.
    OnwardWithoutStart,
    /// The inside edge of a bend has no radius left.
    InnerEdge,
    /// An edge cannot be trimmed cleanly at a corner.
    EdgeUntrimmed,
    /// An edge crosses itself.
    EdgeCrosses,
    /// The centre line crosses itself.
    PathCrosses,
    /// The path does not leave or arrive as it must.
    DirectionMissed,
    /// A bend turns through half a circle or more.
    HalfCircle,
    /// A bend is so flat that it reads as a straight.
    ReadsAsStraight,
    /// A path has no leg that can be drawn.
    NothingToDraw,
    /// A landing is laid beyond the end of its path.
    PadBeyondEnd,
    /// A path no longer starts on the edge it is to start from.
    OffItsEdge,
    /// A path and an obstacle take up the same ground.
    RunsInto,
    /// A path comes nearer to an obstacle than that wants.
    TooNear,
    /// A path leaves the boundary, or comes too near to it.
    OverBoundary,
    /// A path is dug over a buried service, or may be.
    OverService,
    /// A path covers roots of a tree.
    OverRoots,
    /// Two paths of an option take up the same ground.
    PathsOverlap,
    /// The outline of an obstacle crosses itself.
    OutlineCrosses,
    /// An obstacle takes up no ground.
    NoGround,
    /// A stem is thicker than any tree's.
    StemTooThick,
    /// A path is narrower than a rule has it.
    ClearWidth,
    /// A path is narrower on a tight bend than a rule has it.
    WidthOnBend,
    /// An inside edge is tighter than a rule has it.
    InsideRadius,
    /// An inside edge is tighter than the edging can follow.
    EdgingRadius,
    /// The straight between two opposite bends is short.
    ShortStraight,
    /// The straight between two bends that turn alike is short.
    BrokenBack,
    /// Two bends that run into each other have very unequal radii.
    UnequalBends,
    /// A corner is too slight to be meant and too sharp to pass for smooth.
    Kink,
    /// A path meets the edge of another in a sharp point.
    SharpMeeting,
    /// It is far from one passing place to the next.
    PassingPlace,
    /// There is no space to turn in.
    TurningSpace,
}

impl Code {
    /// The name in files and on the command line; these names do not change.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::WaypointsCoincide => "waypoints-coincide",
            Self::RoundingTooLarge => "rounding-too-large",
            Self::NothingToRound => "nothing-to-round",
            Self::OnwardDoublesBack => "onward-doubles-back",
            Self::OnwardWithoutStart => "onward-without-start",
            Self::InnerEdge => "inner-edge",
            Self::EdgeUntrimmed => "edge-untrimmed",
            Self::EdgeCrosses => "edge-crosses",
            Self::PathCrosses => "path-crosses",
            Self::DirectionMissed => "direction-missed",
            Self::HalfCircle => "half-circle",
            Self::ReadsAsStraight => "reads-as-straight",
            Self::NothingToDraw => "nothing-to-draw",
            Self::PadBeyondEnd => "pad-beyond-end",
            Self::OffItsEdge => "off-its-edge",
            Self::RunsInto => "runs-into",
            Self::TooNear => "too-near",
            Self::OverBoundary => "over-boundary",
            Self::OverService => "over-service",
            Self::OverRoots => "over-roots",
            Self::PathsOverlap => "paths-overlap",
            Self::OutlineCrosses => "outline-crosses",
            Self::NoGround => "no-ground",
            Self::StemTooThick => "stem-too-thick",
            Self::ClearWidth => "clear-width",
            Self::WidthOnBend => "width-on-bend",
            Self::InsideRadius => "inside-radius",
            Self::EdgingRadius => "edging-radius",
            Self::ShortStraight => "short-straight",
            Self::BrokenBack => "broken-back",
            Self::UnequalBends => "unequal-bends",
            Self::Kink => "kink",
            Self::SharpMeeting => "sharp-meeting",
            Self::PassingPlace => "passing-place",
            Self::TurningSpace => "turning-space",
        }
    }
}

/// Where a finding stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Which option, counted from 0.
    pub scheme: usize,
    /// Which path of it, counted from 0.
    pub route: usize,
    /// Which part of the path.
    pub part: Part,
    /// The point on the plan to show.
    pub at: Point,
}

/// A part of a path.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// The path as a whole.
    Whole,
    /// A waypoint, counted from 0.
    Waypoint(usize),
    /// A leg, counted from 0.
    Leg(usize),
    /// An obstacle of the site, counted from 0: no path has a part in it.
    Obstacle(usize),
}

impl Place {
    /// Whether it is in an option, or of the site, which all options share.
    #[must_use]
    pub fn concerns(&self, scheme: usize) -> bool {
        self.scheme == scheme || matches!(self.part, Part::Obstacle(_))
    }
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Part::Obstacle(i) = self.part {
            return write!(f, "obstacle {}", i + 1);
        }
        let letter = crate::document::letter(self.scheme);
        write!(f, "option {letter}, path {}", self.route + 1)?;
        match self.part {
            Part::Whole | Part::Obstacle(_) => Ok(()),
            Part::Waypoint(i) => write!(f, ", waypoint {}", i + 1),
            Part::Leg(i) => write!(f, ", leg {}", i + 1),
        }
    }
}
