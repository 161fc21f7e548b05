//! Ties: a spot fixed by pulls of the tape from things that stay, and found again by them.

mod words;

use std::f64::consts::{FRAC_PI_4, FRAC_PI_6, PI};

use geometry::{Point, Vector};

use super::{Taped, taping_allowance};
use crate::document::Side;
use crate::units::Ruler;

pub use words::{lost_pegs_words, moved_peg_words};

/// How one spot is fixed: two pulls that cross well, and a third to check by.
#[derive(Clone, Debug, PartialEq)]
pub struct Ties {
    /// Where the spot is.
    pub spot: Point,
    /// The two pulls that fix it, in the order the anchors were given in.
    pub pair: [Tie; 2],
    /// The angle in radians between the two pulls at the spot, above zero and below π.
    pub crossing: f64,
    /// Whether they cross well.
    pub verdict: CrossingVerdict,
    /// On which side of the line from the first anchor to the second the spot lies, as one looks
    /// from the first to the second: the same two distances cross on the other side as well.
    pub side: Side,
    /// How far the spot may be out, in metres, where it is out the most: the long half axis of
    /// its error ellipse when each pull is out by what garden taping may be.
    pub spread: f64,
    /// The pull that tells best whether the spot is right.
    pub check: Option<Tie>,
}

/// One pull of the tape.
#[derive(Clone, Debug, PartialEq)]
pub struct Tie {
    /// What the tape is held on.
    pub anchor: Anchor,
    /// How far it is from there to the spot, level.
    pub distance: Taped,
    /// How the tape gets there.
    pub passable: Passable,
}

/// A thing one can tape from.
#[derive(Clone, Debug, PartialEq)]
pub struct Anchor {
    /// What it is called.
    pub name: String,
    /// Where it is.
    pub at: Point,
    /// What it is.
    pub kind: AnchorKind,
}

/// What is taped from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum AnchorKind {
    /// A mark of the site, which stays.
    Mark,
    /// A peg set before, which may be out itself, or dug out: taken only where marks do not serve.
    Peg,
}

/// Whether a tape can be pulled straight from one place to another.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Passable {
    /// Nothing is in the way.
    Clear,
    /// It can, held up or over something: taken only where a clear pull fixes the spot worse.
    Care,
    /// Something stands in the way.
    Blocked,
}

/// How well two pulls cross.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum CrossingVerdict {
    /// Between [`GOOD_CROSSING`] and as much less than half a turn.
    Good,
    /// Between [`SLIGHTEST_CROSSING`] and that: to be pulled with care.
    Slight,
}

/// From this angle on to as much less than half a turn two pulls cross well, in radians: 45° and
/// 135°. Common practice, no source.
pub const GOOD_CROSSING: f64 = FRAC_PI_4;

/// Pulls that cross at less than this, or at less than this from half a turn, fix nothing, in
/// radians: 30° and 150°. Common practice, no source.
pub const SLIGHTEST_CROSSING: f64 = FRAC_PI_6;

/// A pull shorter than this has no sure direction beside the thickness of a peg, in metres; common
/// practice, no source.
pub const SHORTEST_PULL: f64 = 0.10;

/// How far a peg set before may be out, in metres; common practice, no source.
const PEG_OUT: f64 = 0.010;

/// A pull that needs care is trusted as one so many times less sure; common practice, no source.
const CARE: f64 = 2.0;

/// Two pulls are told apart in what they are good for from this share on: of equals the one that
/// was named first is taken.
const BETTER: f64 = 1e-9;

/// Why no two pulls fix a spot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TieError {
    /// Fewer than two things to tape from lie [`SHORTEST_PULL`] from the spot or more.
    TooFew {
        /// How many there are.
        found: usize,
    },
    /// Fewer than two are within one pull of the tape.
    OutOfReach {
        /// How far the second nearest is, in metres.
        second: f64,
        /// How long the tape is, in metres.
        tape: f64,
    },
    /// Fewer than two can be pulled to.
    Blocked,
    /// No two cross at an angle that fixes the spot.
    Crossing {
        /// The angle of those that come nearest to it, in radians.
        best: f64,
    },
}

/// The two pulls that fix a spot best, and a third that checks it.
///
/// Each anchor no farther than the `tape` in metres and not blocked is tried with each other. The
/// pair with the fewest pegs is taken, and of several the one whose long error axis at the spot is the
/// shortest: that weighs the crossing angle against the length of the pulls. The check is chosen by the
/// same rule.
///
/// # Errors
/// [`TieError`] unless two of the anchors can be pulled to and cross at [`SLIGHTEST_CROSSING`] or
/// more.
///
/// ```
/// use geometry::Point;
/// use plan::setout::{Anchor, AnchorKind, Passable, ties};
/// use plan::units::{Ruler, Units};
///
/// let mark = |name: &str, x, y| Anchor { name: name.into(), at: Point::new(x, y), kind: AnchorKind::Mark };
/// let marks = [mark("gate post", 0.0, 0.0), mark("corner", 7.0, 0.0), mark("well", 30.0, 4.0)];
/// let ruler = Ruler::new(Units::Metric);
/// let found = ties(Point::new(3.0, 4.0), &marks, 30.0, &ruler, |_, _| Passable::Clear)?;
/// assert_eq!(found.pair[0].distance.tape, 5.0);
/// assert_eq!(found.pair[1].distance.tape, 5.655);
/// assert!(ties(Point::new(3.5, 0.0), &marks[..2], 30.0, &ruler, |_, _| Passable::Clear).is_err());
/// # Ok::<(), plan::setout::TieError>(())
/// ```
pub fn ties(
    spot: Point,
    anchors: &[Anchor],
    tape: f64,
    ruler: &Ruler,
    passable: impl Fn(Point, Point) -> Passable,
) -> Result<Ties, TieError> {
    let pulls = pulls(spot, anchors, tape, passable)?;
    let mut best: Option<([&Pull<'_>; 2], Surety)> = None;
    let mut nearest_crossing = 0.0;
    for (i, first) in pulls.iter().enumerate() {
        for second in &pulls[i + 1..] {
            let crossing = first.crossing(second);
            if slightness(crossing) < SLIGHTEST_CROSSING {
                if slightness(crossing) >= slightness(nearest_crossing) {
                    nearest_crossing = crossing;
                }
                continue;
            }
            let surety = Surety::default().with(first).with(second);
            if best.is_none_or(|(_, so_far)| surety.is_better_than(&so_far)) {
                best = Some(([first, second], surety));
            }
        }
    }
    let (pair, surety) = best.ok_or(TieError::Crossing {
        best: nearest_crossing,
    })?;
    let others = pulls.iter().filter(|pull| !pair.contains(pull));
    let check = others
        .map(|pull| (pull, surety.with(pull)))
        .reduce(|a, b| if b.1.is_better_than(&a.1) { b } else { a })
        .map(|(pull, _)| pull);
    let [from, to] = pair.map(|pull| pull.anchor.at);
    let crossing = pair[0].crossing(pair[1]);
    Ok(Ties {
        spot,
        pair: pair.map(|pull| pull.tie(ruler)),
        crossing,
        verdict: if slightness(crossing) < GOOD_CROSSING {
            CrossingVerdict::Slight
        } else {
            CrossingVerdict::Good
        },
        side: if (to - from).cross(spot - from) > 0.0 {
            Side::Left
        } else {
            Side::Right
        },
        spread: surety.spread(),
        check: check.map(|pull| pull.tie(ruler)),
    })
}

/// How far a crossing is from no crossing: the angle itself or what it lacks of half a turn.
fn slightness(crossing: f64) -> f64 {
    crossing.min(PI - crossing)
}

/// The pulls that can be made, in the order of the anchors.
fn pulls(
    spot: Point,
    anchors: &[Anchor],
    tape: f64,
    passable: impl Fn(Point, Point) -> Passable,
) -> Result<Vec<Pull<'_>>, TieError> {
    let all = anchors.iter().filter_map(|anchor| {
        let length = spot.distance(anchor.at);
        (length >= SHORTEST_PULL).then_some((anchor, length))
    });
    let all: Vec<_> = all.collect();
    let mut lengths: Vec<f64> = all.iter().map(|(_, length)| *length).collect();
    lengths.sort_by(f64::total_cmp);
    let [_, second, ..] = lengths[..] else {
        return Err(TieError::TooFew { found: all.len() });
    };
    if second > tape {
        return Err(TieError::OutOfReach { second, tape });
    }
    let within = all.into_iter().filter(|(_, length)| *length <= tape);
    let pulls: Vec<Pull<'_>> = within
        .map(|(anchor, length)| Pull {
            anchor,
            length,
            way: (spot - anchor.at) * length.recip(),
            passable: passable(anchor.at, spot),
        })
        .filter(|pull| pull.passable != Passable::Blocked)
        .collect();
    if pulls.len() < 2 {
        return Err(TieError::Blocked);
    }
    Ok(pulls)
}

/// A pull that may become a tie.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Pull<'a> {
    anchor: &'a Anchor,
    length: f64,
    way: Vector,
    passable: Passable,
}

impl Pull<'_> {
    fn crossing(&self, other: &Self) -> f64 {
        let (cross, dot) = (self.way.cross(other.way), self.way.dot(other.way));
        cross.abs().atan2(dot)
    }

    /// How far it may be out, in metres.
    fn out(&self) -> f64 {
        let tape = match self.passable {
            Passable::Care => CARE * taping_allowance(self.length),
            Passable::Clear | Passable::Blocked => taping_allowance(self.length),
        };
        match self.anchor.kind {
            AnchorKind::Mark => tape,
            AnchorKind::Peg => tape.hypot(PEG_OUT),
        }
    }

    fn tie(&self, ruler: &Ruler) -> Tie {
        Tie {
            anchor: self.anchor.clone(),
            distance: Taped::new(self.length, ruler),
            passable: self.passable,
        }
    }
}

/// What pulls together know of a spot: the sum of u uᵀ / σ² over pulls along u that may be out by
/// σ each. The inverse is the covariance of the spot. Source: Gauss's least squares, in any text on
/// adjustment; from memory.
#[derive(Clone, Copy, Debug, Default)]
struct Surety {
    /// How many of the pulls are from pegs.
    pegs: u32,
    xx: f64,
    xy: f64,
    yy: f64,
}

impl Surety {
    fn with(self, pull: &Pull<'_>) -> Self {
        let with = self.along(pull.way, pull.out());
        let is_peg = pull.anchor.kind == AnchorKind::Peg;
        Self {
            pegs: self.pegs + u32::from(is_peg),
            ..with
        }
    }

    fn along(self, way: Vector, out: f64) -> Self {
        let weight = (out * out).recip();
        Self {
            xx: self.xx + weight * way.x * way.x,
            xy: self.xy + weight * way.x * way.y,
            yy: self.yy + weight * way.y * way.y,
            ..self
        }
    }

    /// The long half axis of the error ellipse, in metres: from the smaller eigenvalue, formed as
    /// determinant over the larger one.
    fn spread(&self) -> f64 {
        let mean = 0.5 * (self.xx + self.yy);
        let larger = mean + (0.5 * (self.xx - self.yy)).hypot(self.xy);
        let determinant = self.xx * self.yy - self.xy * self.xy;
        (larger / determinant).sqrt()
    }

    fn is_better_than(&self, other: &Self) -> bool {
        let nearer = self.spread() < other.spread() * (1.0 - BETTER);
        self.pegs < other.pegs || self.pegs == other.pegs && nearer
    }
}

/// How far a spot may be out where two pulls cross, in metres: the long half axis of its error
/// ellipse, when the pulls may be out by `out` metres each (one standard deviation gives one).
///
/// Of equal errors e at a crossing of γ it is e / √(1 − |cos γ|), from e at a right angle to
/// nearly 4 e at 30°. Closed form, derived from the law of propagation of errors. No crossing is
/// endless.
///
/// ```
/// use std::f64::consts::{FRAC_PI_2, FRAC_PI_6};
/// use plan::setout::spread_of_crossing;
/// assert!((spread_of_crossing(FRAC_PI_2, [0.005, 0.005]) - 0.005).abs() < 1e-12);
/// assert!(spread_of_crossing(FRAC_PI_6, [0.005, 0.005]) > 0.013);
/// ```
#[must_use]
pub fn spread_of_crossing(crossing: f64, out: [f64; 2]) -> f64 {
    let way = |angle: f64| Vector {
        x: angle.cos(),
        y: angle.sin(),
    };
    Surety::default()
        .along(way(0.0), out[0])
        .along(way(crossing), out[1])
        .spread()
}

impl Ties {
    /// Where two pulls of these lengths in metres from the two anchors cross, on the side of the
    /// spot; `None` where they do not meet.
    #[must_use]
    pub fn crossing_of(&self, lengths: [f64; 2]) -> Option<Point> {
        let [from, to] = [self.pair[0].anchor.at, self.pair[1].anchor.at];
        let base = from.distance(to);
        let [first, second] = lengths;
        let along = 0.5 * (base + (first - second) * (first + second) / base);
        let square = (first - along) * (first + along);
        let off = (square >= 0.0).then(|| square.sqrt())?;
        let way = (to - from) * base.recip();
        let off = match self.side {
            Side::Left => off,
            Side::Right => -off,
        };
        Some(from + way * along + way.left() * off)
    }

    /// How far from its true place the spot comes to stand when both pulls are taken as the tape
    /// reads them.
    #[must_use]
    pub fn moved_by_rounding(&self) -> Option<Vector> {
        let read = [0, 1].map(|i: usize| self.pair[i].distance.tape);
        self.crossing_of(read).map(|set| set - self.spot)
    }
}
