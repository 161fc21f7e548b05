//! Why two figures make no bend, with what would.

use std::f64::consts::PI;
use std::fmt;

use crate::bend::{Bend, Figure};

/// Why two figures make no bend.
///
/// Carries the figures, so that whoever knows the plan's units can word it; `Display` speaks in
/// metres and radians.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SolveError {
    /// Both givens are the same figure.
    SameFigure {
        /// Which.
        figure: Figure,
    },
    /// A given is not a finite number.
    NotFinite {
        /// Which.
        figure: Figure,
        /// What was given.
        value: f64,
    },
    /// A given that must be above zero is not.
    NotPositive {
        /// Which.
        figure: Figure,
        /// What was given.
        value: f64,
    },
    /// A given is smaller or greater than can be computed with.
    OutOfRange {
        /// Which.
        figure: Figure,
        /// What was given.
        value: f64,
    },
    /// The sweep is a whole turn or more.
    WholeTurn {
        /// What was given, radians.
        sweep: f64,
    },
    /// No bend has both: the given figure is out of reach of the other.
    OutOfReach {
        /// The figure at fault: the second one asked for.
        given: (Figure, f64),
        /// What it must keep, the other figure unchanged.
        bound: Bound,
        /// The other figure.
        other: (Figure, f64),
    },
    /// A tangent length or external distance with a sweep or apothem of a half circle or more.
    TangentsNeverMeet {
        /// The tangent length or external distance.
        figure: Figure,
        /// The sweep or apothem that leaves none.
        other: (Figure, f64),
    },
    /// The apothem's sign belongs to the other side of a half circle than the sweep.
    ApothemSide {
        /// Radians.
        sweep: f64,
        /// Metres; positive below a half circle, zero at it, negative past it.
        apothem: f64,
    },
    /// A half circle and its apothem of zero: true of every size.
    SizeOpen,
    /// The bend would be too flat, too small or too great to compute.
    BeyondComputing {
        /// The first given.
        first: (Figure, f64),
        /// The second given.
        second: (Figure, f64),
    },
}

/// What a figure must keep, in its own unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Bound {
    /// More than this.
    Above(f64),
    /// This or more.
    AtLeast(f64),
    /// Less than this.
    Below(f64),
    /// This or less.
    AtMost(f64),
}

impl Bound {
    /// The bound itself, whichever side.
    #[must_use]
    pub fn value(self) -> f64 {
        match self {
            Self::Above(value)
            | Self::AtLeast(value)
            | Self::Below(value)
            | Self::AtMost(value) => value,
        }
    }

    /// Whether the figure has to grow.
    #[must_use]
    pub fn is_lower(self) -> bool {
        matches!(self, Self::Above(_) | Self::AtLeast(_))
    }

    /// The same limit for the other figure, where this one limits `given` with `other` kept.
    ///
    /// Every limit is a ratio of the two: `given > k other` turns to `other < given / k`, or to
    /// `other > given / k` where `k` is negative.
    fn seen_from(self, given: f64, other: f64) -> Self {
        let value = given * (other / self.value());
        match (self, self.value() > 0.0) {
            (Self::Above(_), true) | (Self::Below(_), false) => Self::Below(value),
            (Self::Above(_), false) | (Self::Below(_), true) => Self::Above(value),
            (Self::AtLeast(_), true) | (Self::AtMost(_), false) => Self::AtMost(value),
            (Self::AtLeast(_), false) | (Self::AtMost(_), true) => Self::AtLeast(value),
        }
    }
}

impl SolveError {
    /// The same refusal, told of `figure` where either of the two could be named.
    pub(super) fn about(self, figure: (Figure, f64)) -> Self {
        match self {
            Self::OutOfReach {
                given,
                bound,
                other,
            } if given.0 != figure.0 => Self::OutOfReach {
                given: other,
                bound: bound.seen_from(given.1, other.1),
                other: given,
            },
            same => same,
        }
    }
}

impl fmt::Display for SolveError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::SameFigure { figure } => {
                write!(f, "the {figure} is given twice: give a second, different figure")
            }
            Self::NotFinite { figure, value } => {
                write!(f, "the {figure} is {value}, not a number one can measure: give a figure")
            }
            Self::NotPositive { figure, value } => {
                write!(f, "the {figure} is {}: it must be more than 0", In(figure, value))
            }
            Self::OutOfRange { figure, value } => write!(
                f,
                "the {figure} of {value:e} is past what can be computed: keep it between {:e} and {:e}",
                Bend::LEAST,
                Bend::MOST
            ),
            Self::WholeTurn { sweep } => write!(
                f,
                "a sweep of {} comes round on itself: it must be less than a whole turn",
                In(Figure::Sweep, sweep)
            ),
            Self::OutOfReach { given: (figure, value), bound, other } => {
                let fault = match (figure, bound.is_lower()) {
                    (Figure::Apothem, true) => "low",
                    (Figure::Apothem, false) => "high",
                    (_, true) => "short",
                    (_, false) => "long",
                };
                let limit = In(figure, bound.value());
                write!(
                    f,
                    "{} {figure} of {} is too {fault} for {} {} of {}: it must be {} {limit}",
                    article(figure),
                    In(figure, value),
                    article(other.0),
                    other.0,
                    In(other.0, other.1),
                    match bound {
                        Bound::Above(_) => "more than",
                        Bound::AtLeast(_) => "at least",
                        Bound::Below(_) => "less than",
                        Bound::AtMost(_) => "at most",
                    },
                )
            }
            Self::TangentsNeverMeet { figure, other } => write!(
                f,
                "the {} of {} is a half circle or more, which has no {figure}: give {}, or another figure",
                other.0,
                In(other.0, other.1),
                if other.0 == Figure::Sweep { "less than a half turn" } else { "more than 0" }
            ),
            Self::ApothemSide { sweep, apothem } => write!(
                f,
                "an apothem of {} does not go with a sweep of {}: it must be {}",
                In(Figure::Apothem, apothem),
                In(Figure::Sweep, sweep),
                match sweep.total_cmp(&PI) {
                    std::cmp::Ordering::Less => "more than 0 below a half circle",
                    std::cmp::Ordering::Equal => "0 at a half circle, with a length to size it",
                    std::cmp::Ordering::Greater => "less than 0 past a half circle",
                }
            ),
            Self::SizeOpen => f.write_str(
                "a half circle always has an apothem of 0, so its size stays open: give a length as well as the sweep",
            ),
            Self::BeyondComputing { first, second } => write!(
                f,
                "the bend with {} {} of {} and {} {} of {} is past what can be computed: give figures less far apart",
                article(first.0),
                first.0,
                In(first.0, first.1),
                article(second.0),
                second.0,
                In(second.0, second.1)
            ),
        }
    }
}

impl std::error::Error for SolveError {}

/// A figure's value with its unit.
struct In(Figure, f64);

impl fmt::Display for In {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.0.is_angle() {
            write!(f, "{:.4} rad", self.1)
        } else {
            write!(f, "{:.3} m", self.1)
        }
    }
}

fn article(figure: Figure) -> &'static str {
    match figure {
        Figure::ArcLength | Figure::Apothem | Figure::ExternalDistance => "an",
        _ => "a",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bends_from;

    fn check(first: (Figure, f64), second: (Figure, f64), sentence: &str) {
        assert_eq!(bends_from(first, second).unwrap_err().to_string(), sentence);
    }

    #[test]
    fn the_sentence_names_the_second_figure_and_the_remedy() {
        use Figure::{Apothem, ArcLength, Chord, Radius, Rise, Sweep, TangentLength};
        check(
            (Chord, 4.0),
            (TangentLength, 1.9),
            "a tangent length of 1.900 m is too short for a chord of 4.000 m: it must be more than 2.000 m",
        );
        check(
            (TangentLength, 1.9),
            (Chord, 4.0),
            "a chord of 4.000 m is too long for a tangent length of 1.900 m: it must be less than 3.800 m",
        );
        check(
            (Chord, 4.0),
            (Radius, 1.5),
            "a radius of 1.500 m is too short for a chord of 4.000 m: it must be at least 2.000 m",
        );
        check(
            (Rise, 2.0),
            (Apothem, -1.5),
            "an apothem of -1.500 m is too low for a rise of 2.000 m: it must be more than -1.000 m",
        );
        check(
            (Apothem, -1.5),
            (Rise, 2.0),
            "a rise of 2.000 m is too short for an apothem of -1.500 m: it must be more than 3.000 m",
        );
        check(
            (Sweep, 3.5),
            (TangentLength, 1.0),
            "the sweep of 3.5000 rad is a half circle or more, which has no tangent length: give less than a half turn, or another figure",
        );
        check(
            (ArcLength, 1.0),
            (ArcLength, 1.0),
            "the arc length is given twice: give a second, different figure",
        );
        check(
            (Chord, -1.0),
            (Rise, 1.0),
            "the chord is -1.000 m: it must be more than 0",
        );
    }
}
