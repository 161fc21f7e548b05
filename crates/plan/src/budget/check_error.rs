//! What checks read when the work is good: fine, look again, or stop.

use super::moves::Moves;
use super::normal::{below, over_normal, within};
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

impl CheckError {
    /// A check that the plan has as `exact`, read with a deviation that no other check shares.
    pub(super) fn new((deed, nth): (usize, usize), exact: f64, read: f64, moves: Moves) -> Self {
        Self {
            deed,
            nth,
            expected: exact + moves.shift,
            deviation: moves.deviation().hypot(read),
            moves,
        }
    }

    /// The part of its variance that other checks may share.
    fn hangs_together(&self) -> f64 {
        (self.moves.deviation() / self.deviation).powi(2)
    }

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
}

impl Thresholds {
    /// Over all checks of one job, be they of one course or of several that follow each other
    /// ([`Budget::then`]).
    ///
    /// Checks hang together by the spots, pegs and tapes they share. What they have most in common
    /// is taken as one common factor, and given that factor they are judged as if by themselves
    /// (Dunnett and Sobel, *Biometrika* 42, 1955). The answer lies between that for one check alone
    /// and that for as many independent ones, which holds whatever the correlations are (Šidák,
    /// *Journal of the American Statistical Association* 62, 1967): another check never makes the
    /// others' room narrower than it would be alone.
    #[must_use]
    pub fn over(checks: &[&CheckError]) -> Self {
        let common = common_factor(checks);
        let for_share = |share: f64| {
            let alone = deviations_for(share);
            let independent = deviations_for(share.powf(1.0 / checks.len().max(1) as f64));
            // How many times more jobs fail than may; its logarithm bends little, so secants do.
            let excess = |k: f64| ((1.0 - all_within(&common, k)) / (1.0 - share)).ln();
            let mut k = independent;
            let mut before = NEAR * independent;
            let mut excess_before = excess(before);
            for _ in 0..SECANTS {
                let excess_now = excess(k);
                let slope = (excess_now - excess_before) / (k - before);
                if slope >= 0.0 || !slope.is_finite() {
                    break;
                }
                (before, excess_before) = (k, excess_now);
                k = (k - excess_now / slope).clamp(alone, independent);
                if (k - before).abs() < CLOSE {
                    break;
                }
            }
            k
        };
        Self {
            fine: for_share(FINE),
            stop: for_share(NO_STOP),
        }
    }
}

/// After so many secants the deviations stand to a thousandth.
const SECANTS: u32 = 4;

/// A step of secants that is no longer worth another, in deviations.
const CLOSE: f64 = 1e-3;

/// The first secant goes from this part of what independent checks would want.
const NEAR: f64 = 0.97;

/// So many rounds find the common factor to a hundredth, which moves thresholds by less still.
const ROUNDS: u32 = 12;

/// No check is taken to be the common factor itself: reading it errs anew. At most this keeps what is
/// left of it, a third, above the steps by which the factor is averaged over.
const MOST_COMMON: f64 = 0.95;

/// The correlation of each check's misclosure with what all have most in common: the principal
/// factor of their correlations, each check's own part taken off the diagonal round by round;
/// the principal axis method of factor analysis, from memory.
fn common_factor(checks: &[&CheckError]) -> Vec<f64> {
    let sources = checks.iter().map(|check| check.moves.reach()).max();
    let own: Vec<f64> = checks.iter().map(|check| check.hangs_together()).collect();
    // Uneven, so that it lies square to no pattern of signs.
    let mut common: Vec<f64> = (0..checks.len())
        .map(|i| 0.5 + 0.1 * (i % 3) as f64)
        .collect();
    for _ in 0..ROUNDS {
        let mut all = vec![0.0; sources.unwrap_or_default()];
        for (check, share) in checks.iter().zip(&common) {
            check.moves.add_to(&mut all, share / check.deviation);
        }
        let next = |((check, own), share): ((&&CheckError, &f64), &f64)| {
            check.moves.dot(&all) / check.deviation - share * own + share.powi(3)
        };
        let turned: Vec<f64> = checks.iter().zip(&own).zip(&common).map(next).collect();
        let both = common.iter().zip(&turned);
        let size: f64 = both.map(|(share, turned)| share * turned).sum();
        if size <= 0.0 {
            return vec![0.0; checks.len()];
        }
        let share = |turned: f64| (turned / size.sqrt()).clamp(-MOST_COMMON, MOST_COMMON);
        common = turned.into_iter().map(share).collect();
    }
    common
}

/// The share of jobs in which every check stays within `k` deviations. Checks that have next to
/// nothing in common with the others stand for themselves.
fn all_within(common: &[f64], k: f64) -> f64 {
    let hang_together = |share: &f64| share.abs() >= LEAST_COMMON;
    let (strong, weak): (Vec<f64>, Vec<f64>) =
        common.iter().partition(|share| hang_together(share));
    let together = over_normal(|factor| {
        let own = strong.iter().map(|share| {
            let rest = (1.0 - share * share).sqrt();
            below((k - share * factor) / rest) - below((-k - share * factor) / rest)
        });
        own.product()
    });
    together * within(k).powf(weak.len() as f64)
}

/// Below this a common factor changes the share of a check that is out by less than a part in a
/// hundred: its square, and its square again.
const LEAST_COMMON: f64 = 0.1;

/// So many deviations on both sides hold a share; halved to a ten thousandth.
fn deviations_for(share: f64) -> f64 {
    let [mut least, mut most] = [1.0, 8.0];
    while most - least > 1e-4 {
        let middle = 0.5 * (least + most);
        if within(middle) < share {
            least = middle;
        } else {
            most = middle;
        }
    }
    most
}

impl Budget {
    /// How far the checks of its course may be out, judged together.
    #[must_use]
    pub fn thresholds(&self) -> Thresholds {
        Thresholds::over(&self.checks.iter().collect::<Vec<_>>())
    }

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
            let outwards = |limit: f64, way: f64| {
                let rounded = ruler.round(limit);
                if (rounded - limit) * way < 0.0 {
                    ruler.round(limit + way * step)
                } else {
                    rounded
                }
            };
            let range = |factor| {
                let [least, most] = check.range(factor);
                [outwards(least, -1.0).max(0.0), outwards(most, 1.0)]
            };
            [reading.least, reading.most] = range(thresholds.fine);
            let [under, over] = range(thresholds.stop);
            // There is always something between fine and stop, be it one division.
            reading.stops = Some([
                under.min(ruler.round(reading.least - step)).max(0.0),
                over.max(ruler.round(reading.most + step)),
            ]);
        }
        told
    }
}
