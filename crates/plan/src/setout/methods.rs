//! The methods of setting out: each makes of a bend, or a straight, the deeds that set it out.

pub mod battens;
mod builder;
pub mod chord_offsets;
pub mod deflections;
mod edges;
pub mod halving;
mod not_here;
pub mod pegs;
pub mod straight;
pub mod successive_chords;
pub mod swing;
pub mod tangent_offsets;
pub mod ties;

use geometry::{Arc, Bend, Point};

use super::offsets::{BOW, MOST_TYPED};
use super::{BendSetOut, Course, Deviations, Method, Part, PathLine, Spot, Spots};
use crate::document::Plan;
use crate::units::Ruler;

pub use not_here::NotHere;
pub use pegs::{PegFrom, PegJob};
pub use straight::StraightJob;

/// A bend to be set out, and what stands before.
#[derive(Clone, Debug, PartialEq)]
pub struct BendJob {
    /// Its number among the bends of the path, from 1.
    pub number: usize,
    /// The numbers of the pegs at its ends.
    pub pegs: (usize, usize),
    /// The centre line in its place.
    pub arc: Arc,
    /// The width of the path in metres.
    pub width: f64,
    /// How far flags stand apart along the centre line at most, in metres; `None` lets the bow
    /// between them decide.
    pub spacing: Option<f64>,
    /// What lengths are rounded to.
    pub ruler: Ruler,
    /// What scratches are made long enough for.
    pub deviations: Deviations,
    /// The marks, and the pegs at its ends.
    pub ground: Spots,
    /// A mark from which the swing point is checked, where a tape reaches it.
    pub swing_mark: Option<Spot>,
}

/// Fewest and most spaces between flags along a bend; even, so that the apex is among the flags.
const FEWEST: u32 = 4;
const MOST: u32 = 24;

impl BendJob {
    /// A bend of a path as it is set out in a plan.
    #[must_use]
    pub fn new(bend: &BendSetOut, plan: &Plan) -> Self {
        let marks = &plan.site.marks;
        let mut ground = Spots::new(marks.iter().map(|mark| mark.name.clone()).collect());
        for (i, mark) in marks.iter().enumerate() {
            ground.put(Spot::Mark(i), mark.at);
        }
        ground.put(Spot::Peg(bend.pegs.0), bend.arc.start());
        ground.put(Spot::Peg(bend.pegs.1), bend.arc.end());
        Self {
            number: bend.number,
            pegs: bend.pegs,
            arc: bend.arc,
            width: bend.width,
            spacing: None,
            ruler: plan.ruler(),
            deviations: Deviations::default(),
            ground,
            swing_mark: None,
        }
    }

    /// The course of a method; ties are pulled from the end pegs and the apex.
    ///
    /// # Errors
    /// As [`NotHere`] says, where the method cannot set out this bend.
    pub fn course(&self, method: Method) -> Result<Course, NotHere> {
        match method {
            Method::Swing => swing::course(self),
            Method::SwingSquaredOff => swing::squared_off(self),
            Method::ChordOffsets => Ok(chord_offsets::course(self)),
            Method::Ties => {
                let [first, last] = self.ends();
                ties::course(self, &[first, last, Spot::Apex(self.number)])
            }
            Method::Halving => Ok(halving::course(self)),
            Method::TangentOffsets => tangent_offsets::course(self),
            Method::Deflections => deflections::course(self),
            Method::SuccessiveChords => Ok(successive_chords::course(self)),
            Method::Battens => battens::course(self),
            Method::Straight | Method::Pegs => Err(NotHere::Bend),
        }
    }

    /// Its size.
    #[must_use]
    pub fn bend(&self) -> Bend {
        self.arc.bend()
    }

    /// The spots at its ends.
    #[must_use]
    pub fn ends(&self) -> [Spot; 2] {
        [Spot::Peg(self.pegs.0), Spot::Peg(self.pegs.1)]
    }

    /// One of its three lines; `None` for an inside edge without a radius.
    #[must_use]
    pub fn line(&self, line: PathLine) -> Option<Arc> {
        let outside = line.outside(self.width);
        self.arc.offset(if self.arc.turns_left() {
            -outside
        } else {
            outside
        })
    }

    /// The lines it has.
    #[must_use]
    pub fn lines(&self) -> Vec<PathLine> {
        let has = |line: &PathLine| self.line(*line).is_some();
        PathLine::OF_A_BEND.into_iter().filter(has).collect()
    }

    /// How many equal spaces flags stand at: an even number.
    #[must_use]
    pub fn spaces(&self) -> u32 {
        let bend = self.bend();
        let by_bow = || {
            let chord = bend.chord_for_bow(BOW).unwrap_or(bend.chord());
            2.0 * bend.radius() * (0.5 * chord / bend.radius()).min(1.0).asin()
        };
        let (spacing, most) = match self.spacing {
            Some(typed) => (typed, MOST_TYPED),
            None => (by_bow(), MOST),
        };
        let enough = |half: &u32| f64::from(2 * half) * spacing >= bend.arc_length();
        2 * (FEWEST / 2..most / 2).find(enough).unwrap_or(most / 2)
    }

    /// The spot `nth` of `spaces` along a line, and where it is: an end peg, the apex, or a flag.
    /// Spots of the same number on the three lines stand square to the path side by side.
    fn station(&self, line: PathLine, nth: u32, spaces: u32) -> Option<(Spot, Point)> {
        let arc = self.line(line)?;
        let [first, last] = self.ends();
        let spot = match line {
            PathLine::Centre if nth == 0 => first,
            PathLine::Centre if nth == spaces => last,
            PathLine::Centre if 2 * nth == spaces => Spot::Apex(self.number),
            _ => self.flag(line, nth as usize),
        };
        let at = match nth {
            0 => arc.start(),
            _ if nth == spaces => arc.end(),
            _ => arc.point_at(arc.length() * f64::from(nth) / f64::from(spaces)),
        };
        Some((spot, at))
    }

    fn flag(&self, line: PathLine, nth: usize) -> Spot {
        Spot::Flag {
            of: Part::Bend(self.number),
            line,
            nth,
        }
    }

    fn aim(&self, nth: usize) -> Spot {
        Spot::Aim {
            bend: self.number,
            nth,
        }
    }
}
