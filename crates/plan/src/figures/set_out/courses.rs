//! Courses as plain data: each deed with its figures, in numbers and in words.

use serde::Serialize;

use super::{TapedFigures, Telling};
use crate::setout::{
    Course, Deed, Doing, Foreman, Note, PathLine, Reading, RightAngle, Scratch, Spots, Taped,
};

/// What sets out one bend, one straight or the pegs.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CourseFigures {
    /// By which method.
    pub method: &'static str,
    /// What is done, in order.
    pub deeds: Vec<DeedFigures>,
    /// What can be checked by walking the edges; null where an edge has no radius, and on straights.
    pub foreman: Option<ForemanFigures>,
}

/// What is done once.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct DeedFigures {
    /// The kind of thing that is done.
    pub does: &'static str,
    /// The spot it makes; null for a string, a line or a check.
    pub makes: Option<String>,
    /// Where that is in the plan.
    pub at: Option<[f64; 2]>,
    /// The spots it is done from.
    pub uses: Vec<String>,
    /// The distances pulled, in the order in which they are told.
    pub figures: Vec<TapedFigures>,
    /// To which side; null where there is none.
    pub side: Option<&'static str>,
    /// Which line of the path it draws.
    pub line: Option<&'static str>,
    /// How the right angle is made; null where there is none.
    pub right_angle: Option<RightAngleFigures>,
    /// Where the crossing is scratched.
    pub scratches: Vec<ScratchFigures>,
    /// The lengths that its remark tells.
    pub remark: Vec<f64>,
    /// What to do, in words.
    pub text: String,
    /// What must read how much afterwards.
    pub checks: Vec<ReadingFigures>,
}

/// A right angle off a string.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RightAngleFigures {
    /// `builder's square`, `3-4-5` or `equal pulls`.
    pub with: &'static str,
    /// The sides of its triangle: on the string, square to it, across; or how far each way on the
    /// string, and the pull from there.
    pub sides: Vec<f64>,
}

/// A scratch on the ground.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ScratchFigures {
    /// About which spot.
    pub about: String,
    /// From which spot its ends are found.
    pub seen_from: String,
    /// How far from there its near end is.
    pub least: f64,
    /// How far its far end.
    pub most: f64,
    /// How long it is.
    pub length: f64,
}

/// A check.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ReadingFigures {
    /// Where the tape's zero is.
    pub from: String,
    /// Where it is read.
    pub to: String,
    /// As drawn, and on the graduation.
    #[serde(flatten)]
    pub reading: TapedFigures,
    /// The least it may read.
    pub least: f64,
    /// The most it may read.
    pub most: f64,
    /// Under the first and over the second the work stops; null where checks were not judged together.
    pub stops: Option<[f64; 2]>,
}

/// What a foreman checks along the edges.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ForemanFigures {
    /// The outside edge less the inside one.
    pub edges_differ: TapedFigures,
    /// The area between them.
    pub area: f64,
}

impl Telling<'_> {
    pub(super) fn course(&self, course: &Course) -> CourseFigures {
        let deeds = course.deeds.iter();
        CourseFigures {
            method: course.method.name(),
            deeds: deeds.map(|deed| self.deed(deed, &course.spots)).collect(),
            foreman: course.foreman.as_ref().map(ForemanFigures::from),
        }
    }

    fn deed(&self, deed: &Deed, spots: &Spots) -> DeedFigures {
        let (does, side, more) = kind(&deed.does);
        let mut figures = deed.figures();
        figures.extend(more);
        let scratches = match &deed.does {
            Doing::Cross { scratches, .. } => scratches.iter().flatten().collect(),
            _ => Vec::new(),
        };
        DeedFigures {
            does,
            makes: deed.makes.map(|spot| spots.name(spot)),
            at: deed
                .makes
                .and_then(|spot| spots.at(spot))
                .map(|at| [at.x, at.y]),
            uses: deed
                .uses()
                .into_iter()
                .map(|spot| spots.name(spot))
                .collect(),
            figures: figures.into_iter().map(TapedFigures::from).collect(),
            side: side.map(|left| if left { "left" } else { "right" }),
            line: deed.line().map(PathLine::name),
            right_angle: self.right_angle(&deed.does, spots),
            remark: deed.note.as_ref().map(remark).unwrap_or_default(),
            scratches: scratches
                .into_iter()
                .map(|scratch| scratch_figures(scratch, spots))
                .collect(),
            text: deed.words(&self.manner, spots).text,
            checks: deed
                .checks
                .iter()
                .map(|reading| reading_figures(reading, spots))
                .collect(),
        }
    }

    fn right_angle(&self, does: &Doing, spots: &Spots) -> Option<RightAngleFigures> {
        let Doing::Square {
            from,
            to,
            along,
            off,
            ..
        } = does
        else {
            return None;
        };
        let length = spots.at(*from)?.distance(spots.at(*to)?);
        let angle = self.manner.right_angle(along.exact, length, off.exact);
        let (with, sides) = match angle {
            RightAngle::BuildersSquare => ("builder's square", Vec::new()),
            RightAngle::ThreeFourFive {
                along,
                square,
                across,
                ..
            } => ("3-4-5", vec![along, square, across]),
            RightAngle::EqualPulls { each_way, pull } => ("equal pulls", vec![each_way, pull]),
        };
        Some(RightAngleFigures { with, sides })
    }
}

/// The lengths in a remark: how long battens may be; a quarter of the rise before, and how much the
/// rise is short of it.
fn remark(note: &Note) -> Vec<f64> {
    match *note {
        Note::Battens { most } => vec![most],
        Note::QuarterRule { quarter, short } => vec![quarter.exact, short],
        _ => Vec::new(),
    }
}

/// The word for what is done, whether to the left, and the figures that nothing hangs on.
fn kind(does: &Doing) -> (&'static str, Option<bool>, Vec<Taped>) {
    match *does {
        Doing::Stretch { length, .. } => ("stretch", None, vec![length]),
        Doing::Along { .. } => ("along", None, Vec::new()),
        Doing::Square { left, .. } => ("square", Some(left), Vec::new()),
        Doing::Cross { left, .. } => ("cross", Some(left), Vec::new()),
        Doing::Strike { left, .. } => ("strike", Some(left), Vec::new()),
        Doing::Slide { arm, brace, .. } => ("slide", None, vec![arm, brace]),
        Doing::Read => ("read", None, Vec::new()),
    }
}

fn scratch_figures(scratch: &Scratch, spots: &Spots) -> ScratchFigures {
    ScratchFigures {
        about: spots.name(scratch.about),
        seen_from: spots.name(scratch.seen_from),
        least: scratch.least,
        most: scratch.most,
        length: scratch.length,
    }
}

fn reading_figures(reading: &Reading, spots: &Spots) -> ReadingFigures {
    ReadingFigures {
        from: spots.name(reading.from),
        to: spots.name(reading.to),
        reading: reading.taped.into(),
        least: reading.least,
        most: reading.most,
        stops: reading.stops,
    }
}

impl From<&Foreman> for ForemanFigures {
    fn from(foreman: &Foreman) -> Self {
        Self {
            edges_differ: foreman.edges_differ.into(),
            area: foreman.area,
        }
    }
}
