//! Pavers counted where they would lie: whole, cut and to order, on the real outline of a path.
//!
//! Sizes are those of the face that is seen, in metres; joints come between faces. What lies on the
//! outline needs no joint.

mod courses;
mod field;
mod offcuts;
mod savings;

use std::fmt;

use geometry::Chain;
use serde::{Deserialize, Serialize};

use crate::limits::COORDINATE;
use crate::solve::SolvedRoute;

pub use courses::{CourseBend, Fit, LaidCourse, least_inner_radius};
pub use field::{Field, Grid};
pub use savings::{
    BendHint, MOST_TRIED, Savings, Tally, WIDTH_REACH, WholeCourses, savings, whole_courses,
};

/// Why few cuts matter beyond money; to be shown beside every count of cuts.
pub const DUST: &str = "Cutting pavers raises silica dust, which harms the lungs: fewer cuts are safer. Split where you can, cut wet or with extraction, wear a mask made for it, and follow your local rules";

/// A cut piece narrower than this is a sliver: it works loose and is awkward to hold for cutting.
/// 40 mm; for small units half of their width. Common practice, no source.
pub const SLIVER_WIDTH: f64 = 0.040;

/// A cut piece below this share of a unit is a sliver: a quarter. Common practice, no source.
pub const SLIVER_SHARE: f64 = 0.25;

/// The most units that are counted: 4 000 m² of 200 by 100 mm, far more than a garden path. Beyond
/// it the work of counting would be felt.
pub const MOST_UNITS: f64 = 200_000.0;

/// What a path is paved with and how it is laid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Course {
    /// One paver.
    pub unit: Unit,
    /// The joints between pavers.
    pub joints: Joints,
    /// How the field is laid.
    pub bond: Bond,
    /// A course along each edge, with the field between them; none if the field goes to the edges.
    /// A radial bond has none.
    pub edges: Option<Lay>,
    /// Where straight rows start and which way they run.
    pub grid: Grid,
}

/// The face of a paver in metres.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Unit {
    /// Its longer side.
    pub length: f64,
    /// Its shorter side.
    pub width: f64,
}

/// The joints between pavers, in metres.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Joints {
    /// The narrowest.
    pub least: f64,
    /// What rows are laid with.
    pub usual: f64,
    /// The widest.
    pub most: f64,
}

impl Joints {
    /// Blocks on sand: 2 to 5 mm, 3 mm usual.
    ///
    /// Source: BS 7533-3 as told by pavingexpert.com (an excerpt was read); the usual 3 mm is
    /// common practice, no source.
    pub const BLOCKS: Self = Self {
        least: 0.002,
        usual: 0.003,
        most: 0.005,
    };
}

/// How the field of a path is laid.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Bond {
    /// Straight rows, each moved half a unit against the one before.
    #[default]
    Running,
    /// Straight rows, joints in line.
    Stack,
    /// Courses along the path, on bends about the swing point.
    Radial(Lay),
}

/// Which side of a unit lies along its course.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Lay {
    /// The shorter side along, the longer across.
    Soldier,
    /// The longer side along, the shorter across.
    Stretcher,
}

impl Bond {
    pub(crate) fn is_running(&self) -> bool {
        *self == Self::Running
    }

    /// Its name in the trade.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Running => "running bond",
            Self::Stack => "stack bond",
            Self::Radial(Lay::Soldier) => "soldier courses along the path",
            Self::Radial(Lay::Stretcher) => "stretcher courses along the path",
        }
    }
}

impl Course {
    /// How it is laid, in words.
    #[must_use]
    pub fn words(&self) -> String {
        let bond = self.bond.word();
        match self.edges.filter(|_| !matches!(self.bond, Bond::Radial(_))) {
            None => bond.into(),
            Some(Lay::Soldier) => format!("{bond} between courses of soldiers along the edges"),
            Some(Lay::Stretcher) => format!("{bond} between courses of stretchers along the edges"),
        }
    }
}

impl Unit {
    /// The area of its face in square metres.
    #[must_use]
    pub fn area(self) -> f64 {
        self.length * self.width
    }

    /// Its sides along and across a course.
    #[must_use]
    pub fn laid(self, lay: Lay) -> [f64; 2] {
        match lay {
            Lay::Soldier => [self.width, self.length],
            Lay::Stretcher => [self.length, self.width],
        }
    }

    /// Whether a cut piece of this share and least width is a sliver.
    fn is_sliver(self, share: f64, least_width: f64) -> bool {
        let narrow = SLIVER_WIDTH.min(0.5 * self.width.min(self.length));
        share < SLIVER_SHARE || least_width < narrow
    }
}

/// The pavers of a path.
#[derive(Clone, Debug, PartialEq)]
pub struct Paving {
    /// Units laid as they come.
    pub whole: usize,
    /// Units that are cut, slivers among them.
    pub cut: usize,
    /// Cut units of which a sliver is laid.
    pub slivers: usize,
    /// Units to order if every cut takes a new one, without any spare for breakage.
    pub ordered: usize,
    /// The same if what is cut off in the field serves again: each unit can yield a second piece,
    /// the largest that fits the rectangle left after the saw, larger pieces being cut first.
    pub ordered_reusing: usize,
    /// The area of faces laid, in square metres; joints are the rest of the path.
    pub laid: f64,
    /// The area of faces cut off if every cut takes a new unit.
    pub waste: f64,
    /// The area cut off and not used again, if offcuts serve again.
    pub waste_reusing: f64,
    /// The part laid in straight rows; none where courses take all.
    pub field: Option<Field>,
    /// The courses along the path, from the right edge to the left.
    pub courses: Vec<LaidCourse>,
}

/// Why pavers cannot be counted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PavingError {
    /// A side of the unit is not above zero, or not finite: the figure.
    Unit(f64),
    /// The joints are not in order, or one is below zero or not finite.
    Joints(Joints),
    /// The origin of the rows lies beyond [`COORDINATE`], or is not finite.
    Grid,
    /// The path has no two edges.
    NoOutline,
    /// The courses along the edges leave no field: how wide the path is, and how wide both courses
    /// are with their joints.
    NoField {
        /// The width of the path.
        width: f64,
        /// What both courses take up.
        courses: f64,
    },
    /// Nothing is left of the inside of a bend beside the course along it: how deep the course is
    /// with its joint.
    TightBend(f64),
    /// More units than [`MOST_UNITS`]: about how many.
    TooMany(f64),
}

impl fmt::Display for PavingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unit(side) => write!(f, "a paver needs sides above zero, not {side} m"),
            Self::Joints(joints) => write!(
                f,
                "joints go from the narrowest by the usual to the widest, none below zero, not {} m, {} m, {} m",
                joints.least, joints.usual, joints.most
            ),
            Self::Grid => write!(
                f,
                "the rows need an origin within {COORDINATE} m of that of the plan"
            ),
            Self::NoOutline => f.write_str(
                "the path has no two edges yet, so that there is nothing to pave: put right its bends or its width first",
            ),
            Self::NoField { width, courses } => write!(
                f,
                "the courses along the edges take {courses} m of a path {width} m wide: leave them out, or lay a radial bond"
            ),
            Self::TightBend(course) => write!(
                f,
                "a bend is too tight for a course of {course} m along its inside: open it, or leave the courses out"
            ),
            Self::TooMany(units) => write!(
                f,
                "about {units:.0} pavers are more than the {MOST_UNITS:.0} that are counted: take a larger paver, or reckon by area"
            ),
        }
    }
}

impl std::error::Error for PavingError {}

/// Counts the pavers of a path with its landings and passing places.
///
/// Rows are straight and every unit of them is held against the exact outline; where whole rows fill
/// a straight with joints inside their limits, they are laid so. Courses follow the path; what
/// landings add beyond it is laid in straight rows, with a radial bond in running bond.
///
/// # Errors
/// See [`PavingError`].
pub fn count(route: &SolvedRoute, course: &Course) -> Result<Paving, PavingError> {
    count_beside(route, &[], course)
}

/// Counts the pavers of one path beside others that are laid already: straight rows take only ground
/// that these leave. Courses go on through the others.
///
/// # Errors
/// See [`PavingError`].
pub fn count_beside(
    route: &SolvedRoute,
    laid: &[&SolvedRoute],
    course: &Course,
) -> Result<Paving, PavingError> {
    check(course)?;
    let (Some(centre), Some(_), Some(_)) =
        (&route.centre_line, &route.left_edge, &route.right_edge)
    else {
        return Err(PavingError::NoOutline);
    };
    let about = about(route, course.unit);
    if about > MOST_UNITS {
        return Err(PavingError::TooMany(about));
    }
    let courses = laid_courses(centre, route.width, course)?;
    let field = field::lay(route, laid, centre, course)?;
    Ok(sum(course, field, courses))
}

/// About how many units a path with its landings takes.
pub(super) fn about(route: &SolvedRoute, unit: Unit) -> f64 {
    let pads = route.pads.iter().map(|pad| pad.enclosed_area().abs());
    (route.area.abs() + pads.sum::<f64>()) / unit.area()
}

fn check(course: &Course) -> Result<(), PavingError> {
    let Course { unit, joints, .. } = course;
    let good = |side: &f64| side.is_finite() && *side > 0.0;
    if let Some(side) = [unit.length, unit.width].iter().find(|side| !good(side)) {
        return Err(PavingError::Unit(*side));
    }
    let ordered =
        0.0 <= joints.least && joints.least <= joints.usual && joints.usual <= joints.most;
    if !ordered || !joints.most.is_finite() {
        return Err(PavingError::Joints(*joints));
    }
    if let Grid::At { origin, .. } = course.grid {
        let within = |number: f64| number.abs() <= COORDINATE;
        if !(within(origin.x) && within(origin.y)) {
            return Err(PavingError::Grid);
        }
    }
    Ok(())
}

/// The courses along the edges, or all of them in a radial bond.
fn laid_courses(
    centre: &Chain,
    width: f64,
    course: &Course,
) -> Result<Vec<LaidCourse>, PavingError> {
    let Course { unit, joints, .. } = *course;
    let half = 0.5 * width;
    let lay = |lay: Lay, faces: [f64; 2]| courses::lay(centre, faces, unit, lay, joints);
    match (course.bond, course.edges) {
        (Bond::Radial(way), _) => {
            let [_, across] = unit.laid(way);
            if width / across > MOST_UNITS {
                return Err(PavingError::TooMany(width / across));
            }
            let faces = courses::across(width, across, joints);
            let faces = faces
                .into_iter()
                .map(|[low, high]| [low - half, high - half]);
            Ok(faces.map(|faces| lay(way, faces)).collect())
        }
        (_, Some(way)) => {
            let [_, depth] = unit.laid(way);
            let courses = 2.0 * (depth + joints.usual);
            if courses >= width {
                return Err(PavingError::NoField { width, courses });
            }
            Ok(vec![
                lay(way, [-half, depth - half]),
                lay(way, [half - depth, half]),
            ])
        }
        (_, None) => Ok(Vec::new()),
    }
}

fn sum(course: &Course, field: Option<Field>, courses: Vec<LaidCourse>) -> Paving {
    let unit = course.unit;
    let mut paving = Paving {
        whole: courses.iter().map(|course| course.units - course.cut).sum(),
        cut: courses.iter().map(|course| course.cut).sum(),
        slivers: courses.iter().map(|course| course.slivers).sum(),
        ordered: 0,
        ordered_reusing: 0,
        laid: courses.iter().map(|course| course.laid).sum(),
        waste: 0.0,
        waste_reusing: 0.0,
        field: None,
        courses,
    };
    let mut reused = 0;
    if let Some(field) = field {
        paving.whole += field.whole;
        paving.cut += field.parts.len();
        let slivers = field.parts.iter().filter(|part| {
            let [along, across] = part.extent;
            unit.is_sliver(part.share, along.min(across))
        });
        paving.slivers += slivers.count();
        let shares: f64 = field.parts.iter().map(|part| part.share).sum();
        paving.laid += unit.area() * (field.whole as f64 + shares);
        reused = offcuts::reused(course, &field.parts);
        paving.field = Some(field);
    }
    paving.ordered = paving.whole + paving.cut;
    paving.ordered_reusing = paving.ordered - reused;
    paving.waste = (unit.area() * paving.ordered as f64 - paving.laid).max(0.0);
    paving.waste_reusing = (unit.area() * paving.ordered_reusing as f64 - paving.laid).max(0.0);
    paving
}
