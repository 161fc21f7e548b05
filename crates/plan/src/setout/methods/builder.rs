//! How a method writes its course: it says which spot is where and what it is set from, and the figures follow.

use geometry::{Direction, Point};

use super::BendJob;
use crate::setout::deed::Scratch;
use crate::setout::{
    Course, Deed, Doing, Foreman, Method, Note, PathLine, Reading, Spot, Spots, Taped,
};
use crate::units::Ruler;

/// A course being written.
pub(super) struct Builder {
    ruler: Ruler,
    given: Vec<Spot>,
    spots: Spots,
    deeds: Vec<Deed>,
}

impl Builder {
    pub(super) fn new(ground: &Spots, ruler: Ruler) -> Self {
        Self {
            ruler,
            given: ground.iter().map(|set| set.spot).collect(),
            spots: ground.clone(),
            deeds: Vec::new(),
        }
    }

    /// For a bend, whose chord is laid and checked before anything else.
    pub(super) fn on_the_chord(job: &BendJob) -> Self {
        let mut builder = Self::new(&job.ground, job.ruler);
        let [first, last] = job.ends();
        builder.stretch(first, last).note(Note::Chord);
        builder
    }

    /// Where a spot is. Methods ask only for spots they have put, which the tests of order hold
    /// them to.
    pub(super) fn at(&self, spot: Spot) -> Point {
        self.spots.at(spot).unwrap_or_default()
    }

    pub(super) fn stands(&self, spot: Spot) -> bool {
        self.spots.at(spot).is_some()
    }

    /// A string, checked for its length.
    pub(super) fn stretch(&mut self, from: Spot, to: Spot) -> &mut Self {
        let length = self.taped(self.at(from).distance(self.at(to)));
        self.deed(Deed::doing(Doing::Stretch { from, to, length }))
            .check(&[[from, to]])
    }

    /// A spot on the line from one to another.
    pub(super) fn along(&mut self, [from, to]: [Spot; 2], spot: Spot, at: Point) -> &mut Self {
        let at_along = self.taped(self.off_the_line(from, to, at).0);
        let does = Doing::Along {
            from,
            to,
            at: at_along,
        };
        self.make(spot, at, does)
    }

    /// A spot square off the line from one to another.
    pub(super) fn square(&mut self, [from, to]: [Spot; 2], spot: Spot, at: Point) -> &mut Self {
        let (along, off) = self.off_the_line(from, to, at);
        let does = Doing::Square {
            from,
            to,
            along: self.taped(along),
            off: self.taped(off.abs()),
            left: off >= 0.0,
        };
        self.make(spot, at, does)
    }

    /// A spot where tapes from two others cross.
    pub(super) fn cross(&mut self, spots: [Spot; 2], spot: Spot, at: Point) -> &mut Self {
        self.scratched(spots, spot, at, None)
    }

    /// The same, scratched on the ground.
    pub(super) fn scratched(
        &mut self,
        [one, other]: [Spot; 2],
        spot: Spot,
        at: Point,
        scratches: Option<[Scratch; 2]>,
    ) -> &mut Self {
        let (_, off) = self.off_the_line(one, other, at);
        let tie = |from: Spot| (from, self.taped(self.at(from).distance(at)));
        let does = Doing::Cross {
            one: tie(one),
            other: tie(other),
            left: off >= 0.0,
            scratches,
        };
        self.make(spot, at, does)
    }

    /// A deed that makes no spot.
    pub(super) fn does(&mut self, does: Doing) -> &mut Self {
        self.deed(Deed::doing(does))
    }

    /// A deed that only reads.
    pub(super) fn read(&mut self) -> &mut Self {
        self.does(Doing::Read)
    }

    /// One more check after the last deed.
    pub(super) fn reading(&mut self, reading: Reading) -> &mut Self {
        if let Some(deed) = self.deeds.last_mut() {
            deed.checks.push(reading);
        }
        self
    }

    /// After the last deed these must read what the plan has.
    pub(super) fn check(&mut self, between: &[[Spot; 2]]) -> &mut Self {
        let readings: Vec<Reading> = between
            .iter()
            .map(|&[from, to]| {
                let exact = self.at(from).distance(self.at(to));
                Reading::new(from, to, exact, &self.ruler)
            })
            .collect();
        if let Some(deed) = self.deeds.last_mut() {
            deed.checks.extend(readings);
        }
        self
    }

    /// The last deed is not checked.
    pub(super) fn unchecked(&mut self) -> &mut Self {
        if let Some(deed) = self.deeds.last_mut() {
            deed.checks.clear();
        }
        self
    }

    /// A remark beside the last deed.
    pub(super) fn note(&mut self, note: Note) -> &mut Self {
        if let Some(deed) = self.deeds.last_mut() {
            deed.note = Some(note);
        }
        self
    }

    pub(super) fn taped(&self, exact: f64) -> Taped {
        Taped::new(exact, &self.ruler)
    }

    pub(super) fn finish(self, method: Method, lines: Vec<PathLine>) -> Course {
        Course {
            method,
            lines,
            given: self.given,
            deeds: self.deeds,
            spots: self.spots,
            foreman: None,
        }
    }

    /// The course of a bend: a last check across it, and what a foreman checks over all of it.
    pub(super) fn bend(mut self, method: Method, job: &BendJob) -> Course {
        let lines = job.lines();
        if let [Some(inside), Some(outside)] =
            [PathLine::Inside, PathLine::Outside].map(|line| self.nearest_the_apex(job, line))
        {
            // Where the last deed sets one of the two, it is read there and then.
            if self
                .deeds
                .last()
                .is_none_or(|deed| deed.makes != Some(outside))
            {
                self.read();
            }
            self.check(&[[inside, outside]]);
        }
        let foreman = lines.contains(&PathLine::Inside).then(|| Foreman {
            edges_differ: self.taped(job.width * job.arc.sweep().abs()),
            area: job.width * job.arc.length(),
        });
        Course {
            foreman,
            ..self.finish(method, lines)
        }
    }

    /// The flag on an edge that stands nearest beside the apex.
    fn nearest_the_apex(&self, job: &BendJob, edge: PathLine) -> Option<Spot> {
        let apex = job.line(edge)?.apex();
        self.spots
            .iter()
            .filter(|set| matches!(set.spot, Spot::Flag { line, .. } if line == edge))
            .min_by(|a, b| a.at.distance(apex).total_cmp(&b.at.distance(apex)))
            .map(|set| set.spot)
    }

    /// How far along the line between two spots a place is, and how far off, positive to the left.
    fn off_the_line(&self, from: Spot, to: Spot, at: Point) -> (f64, f64) {
        let start = self.at(from);
        let way = Direction::of(self.at(to) - start).unwrap_or(Direction::EAST);
        let from_start = at - start;
        (way.unit().dot(from_start), way.unit().cross(from_start))
    }

    fn make(&mut self, spot: Spot, at: Point, does: Doing) -> &mut Self {
        self.spots.put(spot, at);
        self.deed(Deed::making(spot, does))
    }

    fn deed(&mut self, deed: Deed) -> &mut Self {
        self.deeds.push(deed);
        self
    }
}
