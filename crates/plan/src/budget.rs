//! The error budget: how far every spot, line and check of a course may be out, from how well one tapes.
//!
//! First order: every displacement is a sum over independent sources of error, kept source by
//! source, so that one tape or one string used twice is one error. What is known (rounding to the
//! graduation, slope, sag) is a shift and stands apart from what errs.

mod blunder;
mod change;
mod check_error;
mod deed_sway;
mod line_error;
mod moves;
mod normal;
mod spot_error;
mod tape_class;
mod taping;
mod tolerance;

use std::collections::BTreeMap;

use geometry::{Direction, Point, Vector};

use crate::setout::{Course, Deed, Doing, Made, RightAngle, Spot, Taped, carry_out};
use moves::{Moves, Sway};

pub use crate::document::TapeClass;
pub use blunder::{Blunder, blunder};
pub use change::{Change, Remedy, changes, cheapest};
pub use check_error::{Call, CheckError, FINE, NO_STOP, Thresholds};
pub use line_error::{How, LineError, Station};
pub use normal::within;
pub use spot_error::{ELLIPSE, Ellipse, SIDES, SpotError};
pub use taping::{Hung, Swung, Taping, TapingError};
pub use tolerance::Verdict;

/// How far everything of a course may be out.
#[derive(Clone, Debug, PartialEq)]
pub struct Budget {
    /// Every spot that stands after it, those that stood before included.
    pub spots: BTreeMap<Spot, SpotError>,
    /// Its lines, in the order of [`Course::lines`].
    pub lines: Vec<LineError>,
    /// Its checks, deed by deed.
    pub checks: Vec<CheckError>,
    sways: BTreeMap<Spot, Sway>,
    sources: usize,
    figures: Vec<Figure>,
}

/// A distance that was pulled, and what its own error is kept as.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Figure {
    deed: usize,
    nth: usize,
    source: usize,
    /// Its standard deviation in metres, by which displacements are in proportion to it.
    deviation: f64,
}

/// Sources that every budget has: the tape, the second tape, what arcs are swung with.
const TAPE: usize = 0;
const SECOND_TAPE: usize = 1;
const SWUNG: usize = 2;

impl Budget {
    /// The budget of a course from spots that stand as well as the taping says.
    #[must_use]
    pub fn of(course: &Course, taping: &Taping) -> Self {
        Self::from_standing(course, taping, BTreeMap::new(), SWUNG + 1)
    }

    /// The budget of a course that goes on from the spots of this one, with the same tapes; spots
    /// both have err together.
    #[must_use]
    pub fn then(&self, course: &Course, taping: &Taping) -> Self {
        Self::from_standing(course, taping, self.sways.clone(), self.sources)
    }

    fn from_standing(
        course: &Course,
        taping: &Taping,
        standing: BTreeMap<Spot, Sway>,
        sources: usize,
    ) -> Self {
        let mut ledger = Ledger {
            course,
            taping,
            sways: standing,
            sources,
            figures: Vec::new(),
            struck: Vec::new(),
            checks: Vec::new(),
        };
        for &spot in &course.given {
            ledger.stands(spot);
        }
        for (nth, deed) in course.deeds.iter().enumerate() {
            ledger.does(nth, deed);
        }
        ledger.closed()
    }

    /// The spot of a line that may be out the most, and by how much: 95 of 100 such spots lie
    /// within [`Station::within`].
    #[must_use]
    pub fn worst(&self) -> Option<(&LineError, &Station)> {
        let all = self
            .lines
            .iter()
            .filter_map(|line| Some((line, line.worst()?)));
        all.max_by(|(_, one), (_, other)| one.within().total_cmp(&other.within()))
    }

    /// The standard deviation in each direction that its spots have on the whole, in metres.
    #[must_use]
    #[expect(clippy::cast_precision_loss, reason = "a count of spots")]
    pub fn spread(&self) -> f64 {
        let places = self.spots.values().map(SpotError::place);
        let squares: f64 = places.map(|place| 0.5 * place * place).sum();
        (squares / self.spots.len().max(1) as f64).sqrt()
    }

    /// How far the lines may be out at worst, in metres; nothing where there are none.
    #[must_use]
    pub fn line_within(&self) -> f64 {
        self.worst().map_or(0.0, |(_, station)| station.within())
    }
}

/// A budget being drawn up, deed by deed.
struct Ledger<'a> {
    course: &'a Course,
    taping: &'a Taping,
    sways: BTreeMap<Spot, Sway>,
    sources: usize,
    figures: Vec<Figure>,
    struck: Vec<LineError>,
    checks: Vec<CheckError>,
}

impl Ledger<'_> {
    fn source(&mut self) -> usize {
        self.sources += 1;
        self.sources - 1
    }

    /// A spot that stood before: it errs in each direction by itself.
    fn stands(&mut self, spot: Spot) {
        let deviation = match spot {
            Spot::Mark(_) => self.taping.marks,
            _ => self.taping.pegs,
        };
        if !self.sways.contains_key(&spot) {
            let mut errs = || Moves::default().with(self.source(), deviation);
            let sway = Sway {
                east: errs(),
                north: errs(),
            };
            self.sways.insert(spot, sway);
        }
    }

    fn does(&mut self, nth: usize, deed: &Deed) {
        let figures: Vec<Moves> = deed
            .figures()
            .iter()
            .enumerate()
            .map(|(figure, taped)| self.pull(&deed.does, (nth, figure), taped))
            .collect();
        if let Some(spot) = deed.makes {
            let turn = self.right_angle(&deed.does);
            let spots = |spot| Some((self.course.spots.at(spot)?, self.sways.get(&spot)?));
            let made = self.course.spots.at(spot);
            if let Some(sway) = deed_sway::made(&deed.does, spots, made, &figures, &turn) {
                self.sways.insert(spot, sway);
            }
        }
        if let Some(line) = self.line(deed, &figures) {
            self.struck.push(line);
        }
        for (nth_check, check) in deed.checks.iter().enumerate() {
            if let Some(moves) = self.misclosure(check.from, check.to) {
                let exact = check.taped.exact;
                let read = self.taping.random(exact);
                self.checks
                    .push(CheckError::new((nth, nth_check), exact, read, moves));
            }
        }
    }

    /// The displacement that a figure brings: its tape's own error, the stretch of what is swung,
    /// and what errs at this pull alone.
    fn pull(&mut self, does: &Doing, (deed, nth): (usize, usize), taped: &Taped) -> Moves {
        let (swung, second) = match does {
            Doing::Strike { .. } => (true, false),
            Doing::Cross { scratches, .. } => {
                (scratches.is_some(), scratches.is_none() && nth == 1)
            }
            _ => (false, false),
        };
        let length = taped.exact;
        let figure = Figure {
            deed,
            nth,
            source: self.source(),
            deviation: self.taping.random(length),
        };
        self.figures.push(figure);
        let own = self.taping.class.deviation(length).copysign(length);
        let stretch = if swung {
            self.taping.swung.stretch()
        } else {
            0.0
        };
        Moves::shifted(self.taping.shift(taped))
            .with(if second { SECOND_TAPE } else { TAPE }, own)
            .with(SWUNG, stretch * length)
            .with(figure.source, figure.deviation)
    }

    /// How far the right angle of a deed is out, in radians.
    fn right_angle(&mut self, does: &Doing) -> Moves {
        let &Doing::Square {
            from,
            to,
            along,
            off,
            ..
        } = does
        else {
            return Moves::default();
        };
        let spots = &self.course.spots;
        let length = match (spots.at(from), spots.at(to)) {
            (Some(from), Some(to)) => from.distance(to),
            _ => 0.0,
        };
        let taping = self.taping;
        let angle = RightAngle::choose(
            along.exact,
            length,
            off.exact,
            taping.length,
            taping.ruler.units,
        );
        Moves::default().with(self.source(), taping.right_angle(&angle))
    }

    /// The line a deed strikes, and how far off it may lie.
    fn line(&self, deed: &Deed, figures: &[Moves]) -> Option<LineError> {
        let line = deed.line()?;
        let drawn: Vec<f64> = deed.figures().iter().map(|taped| taped.exact).collect();
        let Ok(Made::Line(arc)) = carry_out(deed, &self.course.spots, &drawn) else {
            return None;
        };
        let sways = |spot| Some((self.course.spots.at(spot)?, self.sways.get(&spot)?));
        match (&deed.does, figures) {
            (&Doing::Strike { about, .. }, [radius]) => {
                let (_, nail) = sways(about)?;
                Some(LineError::swung(line, &arc, nail, radius))
            }
            (&Doing::Slide { from, over, to, .. }, _) => Some(LineError::slid(
                line,
                &arc,
                [sways(from)?, sways(over)?, sways(to)?],
            )),
            _ => None,
        }
    }

    /// What a check reads more than the plan has. The reading errs as its tape does: a tape that is
    /// long at the pull reads short at the check, which is why no check shows it.
    fn misclosure(&self, from: Spot, to: Spot) -> Option<Moves> {
        let at = |spot| self.course.spots.at(spot);
        let (start, end): (Point, Point) = (at(from)?, at(to)?);
        let way: Vector = Direction::of(end - start)?.unit();
        let length = start.distance(end);
        let [near, far] =
            [self.sways.get(&from)?, self.sways.get(&to)?].map(|sway| sway.along(way));
        let read = Moves::shifted(-self.taping.short(length))
            .with(TAPE, self.taping.class.deviation(length));
        Some(Moves::sum(&[(1.0, &far), (-1.0, &near), (-1.0, &read)]))
    }

    fn closed(self) -> Budget {
        let lines = line_error::all(self.course, &self.sways, self.struck);
        let spot = |(&spot, sway): (&Spot, &Sway)| (spot, SpotError::new(sway));
        Budget {
            spots: self.sways.iter().map(spot).collect(),
            lines,
            checks: self.checks,
            sways: self.sways,
            sources: self.sources,
            figures: self.figures,
        }
    }
}
