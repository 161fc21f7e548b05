//! How far the work can be trusted, as plain data.

use serde::Serialize;

use crate::setout::{BendTrust, CourseTrust, SpotTrust, Trust, Voice};

/// How far the work of a path can be trusted.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TrustFigures {
    /// The pegs.
    pub pegs: CourseTrustFigures,
    /// The bends, in walking order.
    pub bends: Vec<BendTrustFigures>,
}

/// What one course leaves out of place.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CourseTrustFigures {
    /// The spots it makes.
    pub spots: Vec<SpotTrustFigures>,
    /// Blunders that none of its checks shows.
    pub unseen: Vec<String>,
    /// By how much each of these figures is misread, and how far that puts a line out.
    pub misread: Vec<[f64; 2]>,
}

/// How far a spot may be out.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SpotTrustFigures {
    /// What it is called.
    pub name: String,
    /// The standard deviations eastwards and northwards.
    pub deviation: [f64; 2],
    /// What is known to put it out, eastwards and northwards: rounding, slope, sag.
    pub shift: [f64; 2],
    /// The ellipse about the shifted spot that holds 95 of 100.
    pub ellipse: EllipseFigures,
}

/// An ellipse.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct EllipseFigures {
    /// The longer half axis.
    pub long: f64,
    /// The shorter.
    pub short: f64,
    /// Which way the longer lies, counter-clockwise from east.
    pub direction: f64,
}

/// How true a bend comes out.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BendTrustFigures {
    /// Its number.
    pub number: usize,
    /// How far its lines may be out at worst.
    pub within: f64,
    /// How far they may be for what is built.
    pub tolerance: f64,
    /// Whether they are true enough.
    pub suits: bool,
    /// The same in a sentence.
    pub words: String,
    /// Its lines.
    pub lines: Vec<LineTrustFigures>,
    /// Its spots and blunders.
    #[serde(flatten)]
    pub course: CourseTrustFigures,
    /// The cheapest change that would help most; null where none is worth it.
    pub change: Option<ChangeFigures>,
}

/// How true a line comes out.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LineTrustFigures {
    /// Which line.
    pub line: &'static str,
    /// How far it may be out at worst.
    pub within: f64,
}

/// A change that would help.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ChangeFigures {
    /// What to do, in words.
    pub words: String,
    /// How far what it changes may be out now.
    pub before: f64,
    /// And then.
    pub after: f64,
}

impl TrustFigures {
    pub(super) fn of(trust: &Trust, voice: &Voice) -> Self {
        let bend = |bend: &BendTrust| BendTrustFigures {
            number: bend.number,
            within: bend.verdict.within,
            tolerance: bend.verdict.surface.tolerance(),
            suits: bend.verdict.suits(),
            words: bend.verdict.words(voice),
            lines: bend
                .lines
                .iter()
                .map(|&(line, within)| LineTrustFigures {
                    line: line.name(),
                    within,
                })
                .collect(),
            course: (&bend.course).into(),
            change: bend.change.as_ref().map(|(change, words)| ChangeFigures {
                words: words.clone(),
                before: change.before,
                after: change.after,
            }),
        };
        Self {
            pegs: (&trust.pegs).into(),
            bends: trust.bends.iter().map(bend).collect(),
        }
    }
}

impl From<&CourseTrust> for CourseTrustFigures {
    fn from(course: &CourseTrust) -> Self {
        Self {
            spots: course.spots.iter().map(SpotTrustFigures::from).collect(),
            unseen: course.unseen.clone(),
            misread: course.misread.clone(),
        }
    }
}

impl From<&SpotTrust> for SpotTrustFigures {
    fn from(spot: &SpotTrust) -> Self {
        let (error, ellipse) = (&spot.error, spot.error.ellipse());
        Self {
            name: spot.name.clone(),
            deviation: [error.east.sqrt(), error.north.sqrt()],
            shift: [error.shift.x, error.shift.y],
            ellipse: EllipseFigures {
                long: ellipse.long,
                short: ellipse.short,
                direction: ellipse.direction.angle(),
            },
        }
    }
}
