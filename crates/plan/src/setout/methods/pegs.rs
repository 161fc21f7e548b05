//! Pegs: the marks read first, then each peg where two tapes cross, or square off the base line.

use geometry::Point;

use super::builder::Builder;
use crate::setout::{Course, Method, Note, PathLine, Reading, Spot, Spots};
use crate::units::Ruler;

/// The pegs of a path, and what stands before.
#[derive(Clone, Debug, PartialEq)]
pub struct PegJob {
    /// What lengths are rounded to.
    pub ruler: Ruler,
    /// The marks, and such pegs as are driven by eye.
    pub ground: Spots,
    /// The two ends of the base line.
    pub base: [Spot; 2],
    /// What is read between marks before anything is set from them.
    pub read_first: Vec<[Spot; 2]>,
    /// The pegs in the order in which they are driven, where each belongs, and from what.
    pub pegs: Vec<(Spot, Point, PegFrom)>,
}

/// What a peg is set from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PegFrom {
    /// Two tapes, and a third that checks it, with the room in metres that has.
    Ties {
        /// The spots the two are pulled from.
        pair: [Spot; 2],
        /// The third.
        check: Option<(Spot, f64)>,
    },
    /// Square off the base line.
    BaseLine,
}

/// The course: no peg is set from one that comes later.
#[must_use]
pub fn course(job: &PegJob) -> Course {
    let mut builder = Builder::new(&job.ground, job.ruler);
    if !job.read_first.is_empty() {
        builder.read().check(&job.read_first).note(Note::MarksFirst);
    }
    let mut strung = false;
    for &(spot, at, from) in &job.pegs {
        match from {
            PegFrom::Ties { pair, check } => {
                builder.cross(pair, spot, at);
                if let Some((third, room)) = check {
                    let exact = builder.at(third).distance(at);
                    builder.reading(Reading::within(third, spot, exact, room, &job.ruler));
                }
            }
            PegFrom::BaseLine => {
                if !strung {
                    builder.stretch(job.base[0], job.base[1]);
                    if job
                        .read_first
                        .iter()
                        .any(|read| is_between(*read, job.base))
                    {
                        builder.unchecked();
                    }
                    builder.note(Note::TakeDown);
                    strung = true;
                }
                builder.square(job.base, spot, at);
                builder.check(&job.base.map(|end| [end, spot]));
            }
        }
    }
    builder.finish(Method::Pegs, vec![PathLine::Centre])
}

fn is_between([one, other]: [Spot; 2], ends: [Spot; 2]) -> bool {
    [one, other] == ends || [other, one] == ends
}
