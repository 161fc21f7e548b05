//! The ways to set out a bend, each tried on the ground: what hinders it, what it takes, which one is best.

use geometry::Bend;

use super::Ground;
use super::hindered::{Hindered, hindrances, reasons};
use super::pegs::TiedSpot;
use crate::document::{Plan, Spacing};
use crate::setout::methods::{BendJob, NotHere, ties};
use crate::setout::{BendSetOut, Course, Crew, Deed, Doing, Method};
use crate::solve::Origin;

/// One bend, and all ways to set it out.
#[derive(Clone, Debug, PartialEq)]
pub struct BendWork {
    /// Its figures.
    pub bend: BendSetOut,
    /// What it was made from.
    pub of: Origin,
    /// Every way, in the order of [`Method::OF_A_BEND`].
    pub ways: Vec<Way>,
    /// Which of them is taken: the person's choice, or the best that can be done here.
    pub chosen: usize,
    /// Whether the person chose it.
    pub by_choice: bool,
    /// The best of those that do not lean on what the chosen one leans on.
    pub fallback: Option<usize>,
    /// The swing point tied to marks and end pegs, where a tape reaches it from the bend.
    pub swing_point: Option<TiedSpot>,
}

/// A way to set out a bend.
#[derive(Clone, Debug, PartialEq)]
pub struct Way {
    /// How.
    pub method: Method,
    /// Its deeds, or why the method cannot set out this bend at all.
    pub course: Result<Course, NotHere>,
    /// What hinders its deeds on this ground, in their order.
    pub hindrances: Vec<Hindered>,
    /// Whether it can be done here.
    pub verdict: WayVerdict,
    /// How far the worst of its lines may come to lie off the drawn one, in metres; `None` where
    /// that was not worked out.
    pub error: Option<f64>,
    /// What it takes; `None` without a course.
    pub effort: Option<Effort>,
}

/// Whether a way can be gone here; reasons are sentences without a stop.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WayVerdict {
    /// Nothing is in the way.
    Workable,
    /// It can be done with care.
    Awkward(Vec<String>),
    /// It cannot be done.
    NotHere(Vec<String>),
}

/// What a way takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Effort {
    /// How often a tape's zero, a string, a square or a batten comes to another place.
    pub setups: usize,
    /// How many distances are pulled, checks among them.
    pub pulls: usize,
    /// The longest of them, in metres.
    pub longest_pull: f64,
    /// How many people.
    pub people: usize,
}

impl BendWork {
    /// The way that is taken.
    #[must_use]
    pub fn way(&self) -> &Way {
        &self.ways[self.chosen]
    }

    /// The way that is taken where that one fails.
    #[must_use]
    pub fn second_way(&self) -> Option<&Way> {
        self.ways.get(self.fallback?)
    }
}

impl Way {
    /// Whether it can be done here, with care or without.
    #[must_use]
    pub fn is_possible(&self) -> bool {
        !matches!(self.verdict, WayVerdict::NotHere(_))
    }
}

impl WayVerdict {
    /// Why it is not workable; nothing where it is.
    #[must_use]
    pub fn reasons(&self) -> &[String] {
        match self {
            Self::Workable => &[],
            Self::Awkward(reasons) | Self::NotHere(reasons) => reasons,
        }
    }

    /// The word for it.
    #[must_use]
    pub fn word(&self) -> &'static str {
        match self {
            Self::Workable => "workable",
            Self::Awkward(_) => "awkward",
            Self::NotHere(_) => "not here",
        }
    }
}

/// What a way leans on, and a fallback must not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum LeansOn {
    SwingPoint,
    Chord,
    CrossingTapes,
    Tangents,
    ChordsOnward,
}

fn leans_on(method: Method) -> LeansOn {
    match method {
        Method::Swing | Method::SwingSquaredOff => LeansOn::SwingPoint,
        Method::ChordOffsets
        | Method::Halving
        | Method::Battens
        | Method::Straight
        | Method::Pegs => LeansOn::Chord,
        Method::Ties => LeansOn::CrossingTapes,
        Method::TangentOffsets => LeansOn::Tangents,
        Method::Deflections | Method::SuccessiveChords => LeansOn::ChordsOnward,
    }
}

/// Tries every way on a bend; `picked` is the method the person chose for it.
pub(super) fn bend_work(
    ground: &Ground<'_>,
    bend: BendSetOut,
    of: Origin,
    picked: Option<Method>,
    error: &impl Fn(&Course) -> Option<f64>,
) -> BendWork {
    let swing_point =
        (bend.radius.exact <= ground.plan.tape.length).then(|| ground.swing_point(&bend));
    let job = BendJob {
        swing_mark: swing_point.as_ref().and_then(|tied| ground.mark_of(tied)),
        ..job(&bend, ground.plan)
    };
    let ways: Vec<Way> = Method::OF_A_BEND
        .into_iter()
        .map(|method| way(ground, &job, method, error))
        .collect();
    let tolerance = ground.plan.set_out.surface.tolerance();
    let picked = picked.and_then(|method| {
        ways.iter()
            .position(|way| way.method == method && way.course.is_ok())
    });
    let chosen = picked
        .or_else(|| best(&ways, tolerance, Way::is_possible))
        .or_else(|| best(&ways, tolerance, |way| way.course.is_ok()))
        .unwrap_or_default();
    let taken = leans_on(ways[chosen].method);
    let fallback = best(&ways, tolerance, |way| {
        way.is_possible() && leans_on(way.method) != taken
    });
    BendWork {
        bend,
        of,
        ways,
        chosen,
        by_choice: picked.is_some(),
        fallback,
        swing_point,
    }
}

/// A bend as a job, its flags as far apart as the plan says.
pub(super) fn job(bend: &BendSetOut, plan: &Plan) -> BendJob {
    let spacing = match plan.set_out.spacing {
        Spacing::Usual => None,
        Spacing::Every(spacing) => Some(spacing),
        Spacing::Bow(bow) => Some(spacing_for_bow(&bend.bend, bow)),
    };
    BendJob {
        spacing,
        ..BendJob::new(bend, plan)
    }
}

/// How far apart along a bend flags stand for it to bow so far from the line between them.
fn spacing_for_bow(bend: &Bend, bow: f64) -> f64 {
    match bend.chord_for_bow(bow) {
        Some(chord) => 2.0 * bend.radius() * (0.5 * chord / bend.radius()).min(1.0).asin(),
        None => bend.arc_length(),
    }
}

fn way(
    ground: &Ground<'_>,
    job: &BendJob,
    method: Method,
    error: &impl Fn(&Course) -> Option<f64>,
) -> Way {
    let tried = |mut course: Result<Course, NotHere>| {
        if let Ok(course) = &mut course {
            ground.note_faces(course);
        }
        let hindrances = match &course {
            Ok(course) => hindrances(ground, course, Some(&job.arc)),
            Err(_) => Vec::new(),
        };
        Way {
            method,
            verdict: verdict(ground, &course, &hindrances),
            error: course.as_ref().ok().and_then(error),
            effort: course.as_ref().ok().map(|course| effort(ground, course)),
            course,
            hindrances,
        }
    };
    let usual = tried(job.course(method));
    if method != Method::Ties || usual.is_possible() {
        return usual;
    }
    // Where tapes from the pegs do not serve, those from marks may.
    let from = ground.marks_near(job.arc.apex());
    let from_marks = tried(ties::course(job, &from));
    if from_marks.is_possible() {
        from_marks
    } else {
        usual
    }
}

fn verdict(
    ground: &Ground<'_>,
    course: &Result<Course, NotHere>,
    hindrances: &[Hindered],
) -> WayVerdict {
    if let Err(why) = course {
        return WayVerdict::NotHere(vec![why.to_string()]);
    }
    let said = |stops| reasons(hindrances, stops, &ground.plan.site, &ground.plan.ruler());
    let stops = said(true);
    if !stops.is_empty() {
        return WayVerdict::NotHere(stops);
    }
    match said(false) {
        care if care.is_empty() => WayVerdict::Workable,
        care => WayVerdict::Awkward(care),
    }
}

/// The best of some ways: within the tolerance of what is built as far as that is known, then what
/// needs no care, then what takes the least, then the one offered first.
fn best(ways: &[Way], tolerance: f64, among: impl Fn(&Way) -> bool) -> Option<usize> {
    let rank = |way: &Way| {
        let out = way.error.is_some_and(|error| error > tolerance);
        let stopped = way.hindrances.iter().filter(|found| found.stops()).count();
        let care = way.verdict != WayVerdict::Workable;
        let (work, pull) = way.effort.map_or((usize::MAX, f64::INFINITY), |effort| {
            (effort.setups + effort.pulls, effort.longest_pull)
        });
        ((stopped, out, care, work), pull)
    };
    let candidates = ways.iter().enumerate().filter(|(_, way)| among(way));
    candidates
        .min_by(|(_, a), (_, b)| {
            let (a, b) = (rank(a), rank(b));
            a.0.cmp(&b.0).then(a.1.total_cmp(&b.1))
        })
        .map(|(i, _)| i)
}

/// What a course takes, counted from its deeds.
///
/// A right angle and a crossing are a setup more each, battens cut, laid and braced four; common
/// practice, no source.
pub(super) fn effort(ground: &Ground<'_>, course: &Course) -> Effort {
    let mut effort = Effort {
        setups: 0,
        pulls: 0,
        longest_pull: 0.0,
        people: people(ground.plan.set_out.crew),
    };
    let mut zero = None;
    for deed in &course.deeds {
        let (at, more) = match deed.does {
            Doing::Stretch { from, .. } => (Some(from), 1),
            Doing::Along { from, .. } => (Some(from), 0),
            Doing::Square { from, .. } => (Some(from), 1),
            Doing::Cross { one, .. } => (Some(one.0), 1),
            Doing::Strike { about, .. } => (Some(about), 0),
            Doing::Slide { from, .. } => (Some(from), 3),
            Doing::Read => (None, 0),
        };
        effort.setups += more + usize::from(at.is_some() && at != zero);
        effort.pulls += deed.figures().len() + deed.checks.len();
        effort.longest_pull = longest_pull(deed).max(effort.longest_pull);
        zero = at.or(zero);
    }
    effort
}

/// How many people a crew is.
pub(super) fn people(crew: Crew) -> usize {
    match crew {
        Crew::Two => 2,
        Crew::Alone => 1,
    }
}

/// The longest distance a deed pulls or checks, as the tape reads it, in metres.
pub(super) fn longest_pull(deed: &Deed) -> f64 {
    let string = match deed.does {
        Doing::Stretch { length, .. } => Some(length),
        _ => None,
    };
    let checks = deed.checks.iter().map(|check| check.taped);
    let all = deed.figures().into_iter().chain(string).chain(checks);
    all.map(|taped| taped.tape.abs()).fold(0.0, f64::max)
}
