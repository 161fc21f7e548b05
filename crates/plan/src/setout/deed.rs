//! A deed: one thing done on the ground, as data, from which its words, its drawing and its errors all follow.

mod carry_out;
mod course;
mod manner;
mod note;
mod right_angle;
mod scratch;
mod spot;
mod words;

use super::Taped;
use super::checks::{allowed, allowed_within};
use crate::units::Ruler;

pub use carry_out::{CannotDo, Made, carry_out};
pub use course::{Course, Foreman, Method};
pub use manner::{Allowances, Crew, Fastening, Manner};
pub use note::Note;
pub use right_angle::RightAngle;
pub use scratch::{Deviations, Scratch};
pub(super) use spot::BESIDE_THE_APEX;
pub use spot::{Part, PathLine, SetSpot, Spot, Spots};

/// One thing to do, which makes at most one new spot, and what must read how much after it.
#[derive(Clone, Debug, PartialEq)]
pub struct Deed {
    /// The spot it makes; `None` for a string, a line or a check alone.
    pub makes: Option<Spot>,
    /// What is done.
    pub does: Doing,
    /// What must read how much once it is done.
    pub checks: Vec<Reading>,
    /// What its method has to say beside spots and figures.
    pub note: Option<Note>,
}

/// The few things hands do, of which every method is made.
#[derive(Clone, Debug, PartialEq)]
pub enum Doing {
    /// A string from one spot to another.
    Stretch {
        /// Where the string starts; its zero.
        from: Spot,
        /// Where it is tied off.
        to: Spot,
        /// How long it is.
        length: Taped,
    },
    /// A spot on the line of a string.
    Along {
        /// The zero of the running distance.
        from: Spot,
        /// What the string runs to.
        to: Spot,
        /// The running distance: negative behind the zero, more than the string's length beyond its end.
        at: Taped,
    },
    /// A spot square off a string.
    Square {
        /// The zero of the running distance.
        from: Spot,
        /// What the string runs to.
        to: Spot,
        /// The running distance of the foot, as in [`Doing::Along`].
        along: Taped,
        /// How far square off the string, never negative.
        off: Taped,
        /// Whether to the left as one looks along the string from its zero.
        left: bool,
    },
    /// A spot where two tapes cross.
    Cross {
        /// The first spot, and the distance from it.
        one: (Spot, Taped),
        /// The second spot, and the distance from it.
        other: (Spot, Taped),
        /// Whether on the left as one looks from the first spot to the second.
        left: bool,
        /// The scratch about each, where the crossing is scratched and not held.
        scratches: Option<[Scratch; 2]>,
    },
    /// An arc struck with a tape hooked on a nail.
    Strike {
        /// The nail.
        about: Spot,
        /// The length of the tape.
        radius: Taped,
        /// Where the line begins: on the way from the nail to this spot.
        from: Spot,
        /// Where it ends: on the way from the nail to this spot.
        to: Spot,
        /// Whether one walks to the left about the nail.
        left: bool,
        /// Which line of the path it draws.
        line: PathLine,
    },
    /// An arc drawn by the corner of two battens sliding against two nails.
    ///
    /// Angles on one arc over one chord are equal (Euclid, *Elements*, III.21), so the corner runs on it.
    Slide {
        /// The nail at one end.
        from: Spot,
        /// The spot the corner is fixed at.
        over: Spot,
        /// The nail at the other end.
        to: Spot,
        /// How far from the corner the brace meets each batten.
        arm: Taped,
        /// How long the brace is between the two.
        brace: Taped,
        /// Which line of the path it draws.
        line: PathLine,
    },
    /// Nothing but its checks.
    Read,
}

/// A check: how much must be read from one spot to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// Where the tape's zero is.
    pub from: Spot,
    /// Where it is read.
    pub to: Spot,
    /// As drawn, and as the tape reads it.
    pub taped: Taped,
    /// The least it may read, on the graduation.
    pub least: f64,
    /// The most it may read, on the graduation.
    pub most: f64,
    /// Under the first and over the second something is wrong and the work stops; between these and
    /// the range one looks again. `None` where checks were not judged together.
    pub stops: Option<[f64; 2]>,
}

impl Reading {
    /// A check with the room that garden taping has.
    #[must_use]
    pub fn new(from: Spot, to: Spot, exact: f64, ruler: &Ruler) -> Self {
        Self::between(from, to, exact, allowed(exact, ruler), ruler)
    }

    /// A check with so much room to either side, in metres.
    #[must_use]
    pub fn within(from: Spot, to: Spot, exact: f64, room: f64, ruler: &Ruler) -> Self {
        Self::between(from, to, exact, allowed_within(exact, room, ruler), ruler)
    }

    fn between(from: Spot, to: Spot, exact: f64, [least, most]: [f64; 2], ruler: &Ruler) -> Self {
        Self {
            from,
            to,
            taped: Taped::new(exact, ruler),
            least,
            most,
            stops: None,
        }
    }

    /// What is read with the spots where they stand, in metres; `None` if one does not stand.
    #[must_use]
    pub fn read(&self, spots: &Spots) -> Option<f64> {
        Some(spots.at(self.from)?.distance(spots.at(self.to)?))
    }
}

impl Deed {
    /// A deed that makes a spot.
    #[must_use]
    pub fn making(spot: Spot, does: Doing) -> Self {
        Self {
            makes: Some(spot),
            does,
            checks: Vec::new(),
            note: None,
        }
    }

    /// A deed that makes no spot.
    #[must_use]
    pub fn doing(does: Doing) -> Self {
        Self {
            makes: None,
            does,
            checks: Vec::new(),
            note: None,
        }
    }

    /// With what must read how much afterwards.
    #[must_use]
    pub fn checked(mut self, checks: impl IntoIterator<Item = Reading>) -> Self {
        self.checks.extend(checks);
        self
    }

    /// With a remark of its method.
    #[must_use]
    pub fn noted(mut self, note: Note) -> Self {
        self.note = Some(note);
        self
    }

    /// The spots it is done from, in the order in which they are named.
    #[must_use]
    pub fn uses(&self) -> Vec<Spot> {
        match self.does {
            Doing::Stretch { from, to, .. }
            | Doing::Along { from, to, .. }
            | Doing::Square { from, to, .. } => vec![from, to],
            Doing::Cross { one, other, .. } => vec![one.0, other.0],
            Doing::Strike {
                about, from, to, ..
            } => vec![about, from, to],
            Doing::Slide { from, over, to, .. } => vec![from, over, to],
            Doing::Read => Vec::new(),
        }
    }

    /// The distances pulled to do it, in the order in which [`carry_out`] takes what was read.
    ///
    /// A string's length and a brace are not among them: a spot or line does not hang on them.
    #[must_use]
    pub fn figures(&self) -> Vec<Taped> {
        match self.does {
            Doing::Stretch { .. } | Doing::Slide { .. } | Doing::Read => Vec::new(),
            Doing::Along { at, .. } => vec![at],
            Doing::Square { along, off, .. } => vec![along, off],
            Doing::Cross { one, other, .. } => vec![one.1, other.1],
            Doing::Strike { radius, .. } => vec![radius],
        }
    }

    /// The line of the path it draws.
    #[must_use]
    pub fn line(&self) -> Option<PathLine> {
        match self.does {
            Doing::Strike { line, .. } | Doing::Slide { line, .. } => Some(line),
            _ => None,
        }
    }
}
