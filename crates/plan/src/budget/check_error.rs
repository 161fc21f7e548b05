//! What checks read when the work is good: fine, look again, or stop.

use super::moves::Moves;
use super::normal::{both_within, within};
use super::{Budget, Course};
use crate::units::Ruler;

/// What a check of a course is expected to read.
#[derive(Clone, Debug, PartialEq)]
pub struct CheckError {
    /// The deed after which it is read, by its place in the course.
    pub deed: usize,
    /// Which of that deed's checks.
    pub nth: usize,
    /// What it reads on average, in metres: as drawn, with what rounding, slope and sag do.
    pub expected: f64,
    /// The standard deviation of its misclosure.
    pub deviation: f64,
    moves: Moves,
}

/// How a reading stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Call {
    /// As good work reads.
    Fine,
    /// Good work seldom reads so: read it again.
    LookAgain,
    /// Good work does not read so: find what is wrong before anything else is done.
    Stop,
}

/// How many of its own standard deviations each check may be out, the same for all checks of a job.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Thresholds {
    /// All checks of [`FINE`] of good jobs stay within this.
    pub fine: f64,
    /// All checks of [`NO_STOP`] of good jobs stay within this.
    pub stop: f64,
}

/// The share of good jobs in which every check is fine.
pub const FINE: f64 = 0.95;

/// The share of good jobs in which no check says stop.
pub const NO_STOP: f64 = 0.999;

/// What is known of a misclosure before it is judged.
pub(super) struct Misclosure {
    pub(super) deed: usize,
    pub(super) nth: usize,
    pub(super) exact: f64,
    /// The standard deviation of reading this check, in metres; no other check shares it.
    pub(super) read: f64,
    pub(super) moves: Moves,
}

pub(super) fn judged(readings: Vec<Misclosure>) -> (Vec<CheckError>, Thresholds) {
    let check = |reading: Misclosure| CheckError {
        deed: reading.deed,
        nth: reading.nth,
        expected: reading.exact + reading.moves.shift,
        deviation: reading.moves.deviation().hypot(reading.read),
        moves: reading.moves,
    };
    let checks: Vec<CheckError> = readings.into_iter().map(check).collect();
    let thresholds = Thresholds::over(&checks.iter().collect::<Vec<_>>());
    (checks, thresholds)
}

impl CheckError {
    /// The least and the most it may read within so many deviations, in metres.
    #[must_use]
    pub fn range(&self, factor: f64) -> [f64; 2] {
        let room = factor * self.deviation;
        [(self.expected - room).max(0.0), self.expected + room]
    }

    /// How a reading in metres stands.
    #[must_use]
    pub fn call(&self, reading: f64, thresholds: &Thresholds) -> Call {
        let out = (reading - self.expected).abs();
        if out <= thresholds.fine * self.deviation {
            Call::Fine
        } else if out <= thresholds.stop * self.deviation {
            Call::LookAgain
        } else {
            Call::Stop
        }
    }

    /// How far it reads from what is expected when a source errs by one standard deviation.
    pub(super) fn by(&self, source: usize) -> f64 {
        self.moves.by(source)
    }

    fn correlation(&self, other: &Self) -> f64 {
        self.moves.covariance(&other.moves) / (self.deviation * other.deviation)
    }
}

impl Thresholds {
    /// Over all checks of one job, be they of one course or of several that follow each other
    /// ([`Budget::then`]).
    ///
    /// The joint share is taken along the tree of the highest correlations, each check given the one
    /// it hangs on most: the product of the pairs' shares over those of the single ones. That is
    /// exact where checks hang together in such a tree, and never says more than 95 for two checks
    /// that are one; with no correlation it is Šidák's `0.95^(1/n)` for each (*Journal of the
    /// American Statistical Association* 62, 1967), which holds at least 95 whatever they are.
    #[must_use]
    pub fn over(checks: &[&CheckError]) -> Self {
        let correlations = tree(checks);
        let for_share = |share: f64| {
            let holds = |k: f64| {
                let alone = within(k);
                let pairs = correlations.iter().map(|own| both_within(k, *own) / alone);
                alone * pairs.product::<f64>()
            };
            // Between one check by itself and more than any course has, halved to a thousandth.
            let [mut least, mut most] = [1.0, 8.0];
            while most - least > 1e-3 {
                let middle = 0.5 * (least + most);
                if holds(middle) < share {
                    least = middle;
                } else {
                    most = middle;
                }
            }
            most
        };
        Self {
            fine: for_share(FINE),
            stop: for_share(NO_STOP),
        }
    }
}

/// The correlations along the spanning tree of the highest ones (Prim): one for each check but one.
fn tree(checks: &[&CheckError]) -> Vec<f64> {
    let Some((first, rest)) = checks.split_first() else {
        return Vec::new();
    };
    let mut waiting: Vec<(&CheckError, f64)> = rest
        .iter()
        .map(|check| (*check, first.correlation(check).abs()))
        .collect();
    let mut tree = Vec::with_capacity(rest.len());
    let highest = |waiting: &[(&CheckError, f64)]| {
        let places = waiting.iter().enumerate();
        places
            .max_by(|(_, one), (_, other)| one.1.total_cmp(&other.1))
            .map(|(place, _)| place)
    };
    while let Some(place) = highest(&waiting) {
        let (joined, correlation) = waiting.swap_remove(place);
        tree.push(correlation);
        for (check, best) in &mut waiting {
            *best = best.max(joined.correlation(check).abs());
        }
    }
    tree
}

impl Budget {
    /// The course with what its checks may read taken from this budget, rounded outwards to the
    /// graduation, so that no good reading is called out by rounding alone.
    #[must_use]
    pub fn told(&self, course: &Course, thresholds: &Thresholds, ruler: &Ruler) -> Course {
        let mut told = course.clone();
        let step = ruler.graduation.metres();
        for check in &self.checks {
            let deed = told.deeds.get_mut(check.deed);
            let Some(reading) = deed.and_then(|deed| deed.checks.get_mut(check.nth)) else {
                continue;
            };
            let [least, most] = check.range(thresholds.fine);
            let outwards = |limit: f64, way: f64| {
                let rounded = ruler.round(limit);
                if (rounded - limit) * way < 0.0 {
                    ruler.round(limit + way * step)
                } else {
                    rounded
                }
            };
            reading.least = outwards(least, -1.0).max(0.0);
            reading.most = outwards(most, 1.0);
        }
        told
    }
}
