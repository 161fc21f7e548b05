//! Which width or radius near by saves cuts.

use super::{Bond, Course, Fit, Joints, Paving, PavingError, count};
use crate::document::{Plan, Route};
use crate::solve::SolvedRoute;
use crate::units::Graduation;

/// How much wider or narrower a path is tried: 50 mm, which is hardly seen. Common practice, no
/// source.
pub const WIDTH_REACH: f64 = 0.050;

/// What a path would save.
#[derive(Clone, Debug, PartialEq)]
pub struct Savings {
    /// As it is.
    pub now: Tally,
    /// The widths tried within [`WIDTH_REACH`], in whole graduations, nearest first; none for a path
    /// of more than [`MOST_TRIED`] units.
    pub tried: Vec<Tally>,
    /// Of these the one with the fewest cuts, then slivers; none if no width has fewer cuts than now.
    pub fewest: Option<Tally>,
    /// The nearest width that whole courses fill across a straight; none within [`WIDTH_REACH`].
    pub courses: Option<WholeCourses>,
    /// The bends whose courses must be cut to a taper, with the radius that would spare it.
    pub bends: Vec<BendHint>,
}

/// The cuts of one width.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tally {
    /// The width of the path.
    pub width: f64,
    /// Units cut.
    pub cut: usize,
    /// Slivers among them.
    pub slivers: usize,
    /// Units to order if offcuts serve again.
    pub ordered_reusing: usize,
}

impl Tally {
    fn of(width: f64, paving: &Paving) -> Self {
        Self {
            width,
            cut: paving.cut,
            slivers: paving.slivers,
            ordered_reusing: paving.ordered_reusing,
        }
    }
}

/// A width filled by whole courses.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WholeCourses {
    /// The width of the path.
    pub width: f64,
    /// How many courses lie across it, those along the edges included.
    pub courses: usize,
    /// The joint between the courses.
    pub joint: f64,
}

/// A bend that could do without tapers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BendHint {
    /// Which piece of the centre line, counted from 0.
    pub piece: usize,
    /// The radius of the centre line now.
    pub radius: f64,
    /// The least radius of the centre line at which every course of whole units follows.
    pub least_radius: f64,
}

/// Tries the widths near by in whole graduations, and says which saves cuts. Where a path starts on
/// another, its first peg stays.
///
/// # Errors
/// As [`count`] for the path as it is.
pub fn savings(
    plan: &Plan,
    route: &Route,
    course: &Course,
    graduation: Graduation,
) -> Result<Savings, PavingError> {
    let at = |width: f64| {
        let route = Route {
            width,
            ..route.clone()
        };
        let solved = plan.solve_alone(&route);
        count(&solved, course).map(|paving| (solved, paving))
    };
    let (solved, paving) = at(route.width)?;
    let now = Tally::of(route.width, &paving);
    let mut tried = Vec::new();
    if now.ordered_reusing <= MOST_TRIED {
        let widths = near(route.width, graduation);
        tried.extend(widths.filter_map(|width| Some(Tally::of(width, &at(width).ok()?.1))));
    }
    // Of equals the first and nearest is kept.
    let best = tried.iter().min_by_key(|tally| (tally.cut, tally.slivers));
    Ok(Savings {
        now,
        fewest: best.filter(|best| best.cut < now.cut).copied(),
        tried,
        courses: courses_near(route.width, course, graduation),
        bends: hints(&solved, &paving),
    })
}

/// No other width is tried for a path of more units than this, 400 m² of 200 by 100 mm: counting
/// it twenty times over would be felt.
pub const MOST_TRIED: usize = 20_000;

/// At most this many widths to each side are tried: finer graduations are taken several at once, so
/// that an answer stays quick.
const TRIED: f64 = 10.0;

/// Whole graduations within reach of a width, nearest first.
fn near(width: f64, graduation: Graduation) -> impl Iterator<Item = f64> {
    let step = step(graduation);
    let middle = (width / step).round();
    let mut all: Vec<f64> = (-11..=11)
        .map(|steps| graduation.round((middle + f64::from(steps)) * step))
        .filter(|near| *near > 0.0 && (near - width).abs() <= WIDTH_REACH + NANOMETRE)
        .collect();
    all.sort_by(|a, b| (a - width).abs().total_cmp(&(b - width).abs()));
    all.into_iter()
}

/// What rounding may leave of a width.
const NANOMETRE: f64 = 1e-9;

fn step(graduation: Graduation) -> f64 {
    let fine = graduation.metres();
    fine * (WIDTH_REACH / (TRIED * fine)).ceil().max(1.0)
}

/// The nearest graduated width that whole courses fill, the width itself first.
fn courses_near(width: f64, course: &Course, graduation: Graduation) -> Option<WholeCourses> {
    let fine = graduation.metres();
    let steps = (WIDTH_REACH / fine).floor();
    let middle = (width / fine).round();
    let mut nearest = whole_courses(width, course);
    let mut off = 0.0;
    while nearest.is_none() && off <= steps {
        let sides = [middle + off, middle - off];
        nearest = sides
            .into_iter()
            .find_map(|count| whole_courses(graduation.round(count * fine), course));
        off += 1.0;
    }
    nearest
}

/// The whole courses that fill a width with joints inside their limits, nearest to the usual joint;
/// none if a course would be cut lengthwise.
///
/// ```
/// use plan::count::paving::{Bond, Course, Grid, Joints, Unit, whole_courses};
/// let course = Course {
///     unit: Unit { length: 0.2, width: 0.1 },
///     joints: Joints::BLOCKS,
///     bond: Bond::Running,
///     edges: None,
///     grid: Grid::default(),
/// };
/// // 10 × 100 mm and 9 joints of 3 mm.
/// let ten = whole_courses(1.027, &course).ok_or("none fit")?;
/// assert_eq!(ten.courses, 10);
/// assert!((ten.joint - 0.003).abs() < 1e-12);
/// assert!(whole_courses(1.08, &course).is_none());
/// # Ok::<(), &str>(())
/// ```
#[must_use]
pub fn whole_courses(width: f64, course: &Course) -> Option<WholeCourses> {
    let Joints { least, usual, most } = course.joints;
    let (depth, edges) = match (course.bond, course.edges) {
        (Bond::Radial(lay), _) => (course.unit.laid(lay)[1], None),
        (_, edges) => (course.unit.width, edges),
    };
    // The courses along the edges and their joints, then what is between.
    let beside = edges.map_or(0.0, |lay| 2.0 * course.unit.laid(lay)[1]);
    let more = if edges.is_some() { 1.0 } else { -1.0 };
    let room = width - beside;
    let about = (room - more * usual) / (depth + usual);
    let counts = [about.round(), about.floor(), about.ceil()];
    counts.into_iter().find_map(|count| {
        let gaps = count + more;
        let joint = if gaps > 0.0 {
            (room - count * depth) / gaps
        } else {
            usual
        };
        let filled = count * depth + gaps * joint;
        let fits = count >= 1.0
            && (filled - room).abs() <= NANOMETRE
            && least - NANOMETRE <= joint
            && joint <= most + NANOMETRE;
        let ours = edges.map_or(0, |_| 2);
        fits.then(|| WholeCourses {
            width,
            courses: ours + super::courses::whole(count),
            joint: joint.clamp(least, most),
        })
    })
}

/// The bends with tapers: how far each must open until its tightest course follows whole.
fn hints(solved: &SolvedRoute, paving: &Paving) -> Vec<BendHint> {
    let Some(centre) = &solved.centre_line else {
        return Vec::new();
    };
    let pieces = centre.pieces().iter().enumerate();
    pieces
        .filter_map(|(i, piece)| {
            let radius = piece.arc()?.radius();
            let bends = paving.courses.iter().flat_map(|course| &course.bends);
            let tapered =
                bends.filter(|bend| bend.piece == i && matches!(bend.fit, Fit::Taper { .. }));
            let wanted = tapered.map(|bend| bend.least_radius - bend.inner_radius);
            let opened = wanted.max_by(f64::total_cmp)?;
            opened.is_finite().then_some(BendHint {
                piece: i,
                radius,
                least_radius: radius + opened,
            })
        })
        .collect()
}
