//! The base line: what every peg is measured from, so that no errors add up along a chain.

use geometry::{Direction, Point};

use super::Taped;
use crate::document::Plan;
use crate::solve::Peg;
use crate::units::Ruler;

/// A line between two things one can tape from.
#[derive(Clone, Debug, PartialEq)]
pub struct BaseLine {
    /// What it starts from.
    pub from_name: String,
    /// What it runs to.
    pub to_name: String,
    /// Where it starts.
    pub from: Point,
    /// Where it runs to.
    pub to: Point,
    /// How long it is; on the ground it must read the same.
    pub length: Taped,
}

/// A point as it is found from the base line, and checked from both its ends.
#[derive(Clone, Debug, PartialEq)]
pub struct Placing {
    /// What it is called.
    pub name: String,
    /// Where it is in the plan.
    pub at: Point,
    /// How far along the base line, from its start; negative behind it.
    pub along: Taped,
    /// How far square off it: positive on the left of the line as one looks along it.
    pub off: Taped,
    /// How far from the start of the base line: a tie to check by.
    pub from_start: Taped,
    /// How far from its end: the other tie.
    pub from_end: Taped,
}

impl BaseLine {
    /// The two marks farthest apart among those the tape reaches between; without two such marks,
    /// the first peg and the one farthest from it. `None` when there are no two points.
    ///
    /// The longest line is the best one: square offsets swing least with an error in its
    /// direction. A line longer than the tape could not be checked in one pull.
    #[must_use]
    pub fn choose(plan: &Plan, pegs: &[Peg]) -> Option<Self> {
        let marks = &plan.site.marks;
        let mut best: Option<(f64, usize, usize)> = None;
        for (i, first) in marks.iter().enumerate() {
            for (j, second) in marks.iter().enumerate().skip(i + 1) {
                let length = first.at.distance(second.at);
                let in_reach = length <= plan.tape.length;
                if in_reach && best.is_none_or(|(longest, ..)| length > longest) {
                    best = Some((length, i, j));
                }
            }
        }
        let (from, to) = match best {
            Some((length, i, j)) if length > crate::limits::SHORTEST => (
                (marks[i].name.clone(), marks[i].at),
                (marks[j].name.clone(), marks[j].at),
            ),
            _ => {
                let first = pegs.first()?;
                let last = pegs.iter().max_by(|a, b| {
                    let off = |peg: &Peg| peg.at.distance(first.at);
                    off(a).total_cmp(&off(b))
                })?;
                let name = |peg: &Peg| format!("peg {}", peg.number);
                ((name(first), first.at), (name(last), last.at))
            }
        };
        Direction::of(to.1 - from.1)?;
        Some(Self {
            length: Taped::new(from.1.distance(to.1), &plan.ruler()),
            from_name: from.0,
            to_name: to.0,
            from: from.1,
            to: to.1,
        })
    }

    /// How a point is found from this line.
    #[must_use]
    pub fn place(&self, name: String, at: Point, ruler: &Ruler) -> Placing {
        let way = Direction::of(self.to - self.from).unwrap_or(Direction::EAST);
        let from_start = at - self.from;
        Placing {
            name,
            at,
            along: Taped::new(way.unit().dot(from_start), ruler),
            off: Taped::new(way.unit().cross(from_start), ruler),
            from_start: Taped::new(from_start.length(), ruler),
            from_end: Taped::new(at.distance(self.to), ruler),
        }
    }
}
