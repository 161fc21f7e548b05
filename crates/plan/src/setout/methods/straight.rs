//! Straights: a string from peg to peg, flags at running distances from one zero, edges squared off at both ends.

use geometry::{Direction, Point};

use super::builder::Builder;
use crate::document::Plan;
use crate::setout::offsets::MOST_TYPED;
use crate::setout::{
    Course, Method, Note, Part, PathLine, RouteSetOut, Spot, Spots, StraightSetOut,
};
use crate::units::{Ruler, Units};

/// A straight to be set out, and what stands before.
#[derive(Clone, Debug, PartialEq)]
pub struct StraightJob {
    /// The numbers of the pegs at its ends.
    pub pegs: (usize, usize),
    /// The width of the path in metres.
    pub width: f64,
    /// How far flags stand apart, in metres; `None` for what is usual.
    pub spacing: Option<f64>,
    /// What lengths are rounded to.
    pub ruler: Ruler,
    /// The pegs at its ends, where they stand.
    pub ends: [Point; 2],
    /// The names of the marks.
    pub ground: Spots,
}

impl StraightJob {
    /// A straight of a path as it is set out in a plan; `None` if its pegs are not of that path.
    #[must_use]
    pub fn new(straight: &StraightSetOut, out: &RouteSetOut, plan: &Plan) -> Option<Self> {
        let at = |number: usize| Some(out.pegs.get(number.checked_sub(1)?)?.at);
        let ends = [at(straight.pegs.0)?, at(straight.pegs.1)?];
        let marks = plan.site.marks.iter().map(|mark| mark.name.clone());
        let mut ground = Spots::new(marks.collect());
        ground.put(Spot::Peg(straight.pegs.0), ends[0]);
        ground.put(Spot::Peg(straight.pegs.1), ends[1]);
        Some(Self {
            pegs: straight.pegs,
            width: 2.0 * out.half_width.exact,
            spacing: None,
            ruler: plan.ruler(),
            ends,
            ground,
        })
    }

    fn spacing(&self, length: f64) -> f64 {
        // Common practice, no source: flags every 2 to 3 m on straights.
        let usual = match self.ruler.units {
            Units::Metric => 3.0,
            Units::FeetInches => 10.0 * 0.3048,
        };
        let typed = self.spacing.unwrap_or(usual);
        typed.max(length / f64::from(MOST_TYPED))
    }
}

/// The centre line first, then the corners of both edges, whose diagonals tell whether they are
/// square, then flags along the edges.
#[must_use]
pub fn course(job: &StraightJob) -> Course {
    let mut builder = Builder::new(&job.ground, job.ruler);
    let pegs = [Spot::Peg(job.pegs.0), Spot::Peg(job.pegs.1)];
    let [start, end] = job.ends;
    let length = start.distance(end);
    let way = Direction::of(end - start).unwrap_or(Direction::EAST);
    let spacing = job.spacing(length);
    let between: Vec<f64> = (1_u32..)
        .map(|nth| f64::from(nth) * spacing)
        .take_while(|along| *along < length - 0.25 * spacing)
        .collect();
    let flag = |line: PathLine, nth: usize| Spot::Flag {
        of: Part::Straight(job.pegs.0),
        line,
        nth,
    };
    let set_between = |builder: &mut Builder, line: PathLine, ends: [Spot; 2]| {
        builder.stretch(ends[0], ends[1]);
        if line != PathLine::Centre {
            builder.note(Note::AlongTheEdge);
        }
        let zero = builder.at(ends[0]);
        for (i, along) in between.iter().enumerate() {
            builder.along(ends, flag(line, i + 1), zero + way.unit() * *along);
        }
    };
    set_between(&mut builder, PathLine::Centre, pegs);
    let edges = [PathLine::Left, PathLine::Right];
    let corners = edges.map(|edge| [flag(edge, 0), flag(edge, between.len() + 1)]);
    let [[left, left_end], [right, right_end]] = corners;
    let off = way.left().unit() * (0.5 * job.width);
    builder
        .square(pegs, left, start + off)
        .square(pegs, right, start - off)
        .check(&[[left, right]])
        .square(pegs, left_end, end + off)
        .square(pegs, right_end, end - off)
        .check(&[[left, right_end], [right, left_end]]);
    for (edge, corners) in edges.into_iter().zip(corners) {
        set_between(&mut builder, edge, corners);
    }
    builder.finish(Method::Straight, PathLine::OF_A_STRAIGHT.to_vec())
}
