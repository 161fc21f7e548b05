//! A deed done in numbers, with the distances that were in fact pulled.

use std::error::Error;
use std::fmt;

use geometry::{Arc, Direction, Point, Vector};

use super::{Deed, Doing, Spot, Spots};

/// What a deed leaves on the ground.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Made {
    /// A string or a check: no spot, no line.
    Nothing,
    /// A spot.
    Spot(Point),
    /// A line struck or slid.
    Line(Arc),
}

/// Why a deed cannot be done as it is written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CannotDo {
    /// A spot it is done from does not stand.
    NotSet(Spot),
    /// The two spots of its string are one.
    NoString(Spot, Spot),
    /// Another number of distances than [`Deed::figures`] has.
    Figures {
        /// How many it takes.
        wanted: usize,
        /// How many came.
        got: usize,
    },
    /// The two tapes do not meet, or run in one line; how far the spots are apart, in metres.
    NoCrossing {
        /// From one spot to the other.
        apart: f64,
    },
    /// The distances make no arc.
    NoArc,
}

impl fmt::Display for CannotDo {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let bare = |spot: &Spot| Spots::default().name(*spot);
        match self {
            Self::NotSet(spot) => {
                write!(f, "{} does not stand yet: set it first", bare(spot))
            }
            Self::NoString(from, to) => write!(
                f,
                "{} and {} stand in one place, which gives no line: set one of them again",
                bare(from),
                bare(to)
            ),
            Self::Figures { wanted, got } => {
                write!(f, "{got} distances were given where {wanted} are pulled")
            }
            Self::NoCrossing { apart } => write!(
                f,
                "the two tapes do not cross between spots {apart:.3} m apart: read both again"
            ),
            Self::NoArc => {
                f.write_str("the distances make no arc: read the radius and both ends again")
            }
        }
    }
}

impl Error for CannotDo {}

/// Does a deed from where its spots stand with the distances pulled, in metres, in the order of
/// [`Deed::figures`].
///
/// A right angle that is out by a small angle is the same as a running distance out by that angle
/// times the offset, so errors of squares need no figure of their own.
///
/// # Errors
/// As [`CannotDo`] says.
///
/// ```
/// use geometry::Point;
/// use plan::setout::{Deed, Doing, Made, Spot, Spots, Taped, carry_out};
/// use plan::units::{Ruler, Units};
/// let tape = |length| Taped::new(length, &Ruler::new(Units::Metric));
/// let mut spots = Spots::default();
/// spots.put(Spot::Peg(1), Point::ORIGIN);
/// spots.put(Spot::Peg(2), Point::new(6.0, 0.0));
/// let deed = Deed::making(Spot::Apex(1), Doing::Square {
///     from: Spot::Peg(1), to: Spot::Peg(2), along: tape(3.0), off: tape(0.8), left: true,
/// });
/// assert_eq!(carry_out(&deed, &spots, &[3.01, 0.8]), Ok(Made::Spot(Point::new(3.01, 0.8))));
/// ```
pub fn carry_out(deed: &Deed, spots: &Spots, pulled: &[f64]) -> Result<Made, CannotDo> {
    let stands = |spot: Spot| spots.at(spot).ok_or(CannotDo::NotSet(spot));
    let string = |from: Spot, to: Spot| {
        let (start, end) = (stands(from)?, stands(to)?);
        let way = Direction::of(end - start).ok_or(CannotDo::NoString(from, to))?;
        Ok((start, way))
    };
    match (&deed.does, pulled) {
        (&Doing::Stretch { from, to, .. }, []) => string(from, to).map(|_| Made::Nothing),
        (Doing::Read, []) => Ok(Made::Nothing),
        (&Doing::Along { from, to, .. }, &[at]) => {
            let (start, way) = string(from, to)?;
            Ok(Made::Spot(start + way.unit() * at))
        }
        (&Doing::Square { from, to, left, .. }, &[along, off]) => {
            let (start, way) = string(from, to)?;
            let square = side_of(way, left);
            Ok(Made::Spot(start + way.unit() * along + square * off))
        }
        (
            &Doing::Cross {
                one, other, left, ..
            },
            &[first, second],
        ) => {
            let (start, way) = string(one.0, other.0)?;
            let apart = start.distance(stands(other.0)?);
            let foot = 0.5 * (apart + (first - second) * ((first + second) / apart));
            let off = ((first - foot) * (first + foot)).sqrt();
            if off.is_finite() && first >= 0.0 && second >= 0.0 {
                Ok(Made::Spot(
                    start + way.unit() * foot + side_of(way, left) * off,
                ))
            } else {
                Err(CannotDo::NoCrossing { apart })
            }
        }
        (
            &Doing::Strike {
                about,
                from,
                to,
                left,
                ..
            },
            &[radius],
        ) => {
            let ((nail, first), (_, last)) = (string(about, from)?, string(about, to)?);
            let end = |way: Direction| nail + way.unit() * radius;
            Arc::about(nail, end(first), end(last), left)
                .map(Made::Line)
                .map_err(|_| CannotDo::NoArc)
        }
        (&Doing::Slide { from, over, to, .. }, []) => {
            Arc::through(stands(from)?, stands(over)?, stands(to)?)
                .map(Made::Line)
                .map_err(|_| CannotDo::NoArc)
        }
        _ => Err(CannotDo::Figures {
            wanted: deed.figures().len(),
            got: pulled.len(),
        }),
    }
}

/// One metre square off a way, to its left or its right.
fn side_of(way: Direction, left: bool) -> Vector {
    let square = way.left().unit();
    if left { square } else { -square }
}
