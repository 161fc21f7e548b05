//! A right angle off a string: by a builder's square, by 3-4-5, or by two equal pulls.

use crate::setout::Voice;
use crate::units::Units;

/// How a right angle is made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RightAngle {
    /// With a builder's square against the string.
    BuildersSquare,
    /// With a triangle whose sides are as 3 to 4 to 5, all in metres.
    ThreeFourFive {
        /// The side on the string.
        along: f64,
        /// The side square to it.
        square: f64,
        /// The side across.
        across: f64,
        /// Whether the side on the string runs back towards its zero.
        back: bool,
    },
    /// From two points of the string equally far to both sides of the foot, where two equal
    /// lengths meet; in metres.
    EqualPulls {
        /// From the foot to each point.
        each_way: f64,
        /// From each point.
        pull: f64,
    },
}

/// Up to here a builder's square is good enough, in metres; common practice, no source.
const BY_THE_SQUARE: f64 = 1.0;

/// The biggest triangle worth laying: 6-8-10 of whole metres. Common practice, no source.
const LARGEST: f64 = 2.0;

/// The least side of a triangle on the string, in metres: below it a builder's square is truer.
const LEAST_SIDE: f64 = 0.6;

impl RightAngle {
    /// The best that fits at `along` on a string of `length` for a square of `off`, with a tape
    /// this long; all in metres.
    ///
    /// The larger the triangle, the smaller the error of the angle, so the largest that fits on
    /// the string and the tape is taken, its sides whole tenths of a metre or quarters of a foot.
    #[must_use]
    pub fn choose(along: f64, length: f64, off: f64, tape: f64, units: Units) -> Self {
        if off <= BY_THE_SQUARE {
            return Self::BuildersSquare;
        }
        let unit = match units {
            Units::Metric => 0.1,
            Units::FeetInches => 0.25 * 0.3048,
        };
        let (behind, ahead) = (along, length - along);
        // On the string runs the 4; the 5 must be on the tape.
        let room = behind.max(ahead).min(0.8 * tape).min(4.0 * LARGEST);
        let times = (room / (4.0 * unit) + 1e-9).floor() * unit;
        if 4.0 * times >= LEAST_SIDE {
            return Self::ThreeFourFive {
                along: 4.0 * times,
                square: 3.0 * times,
                across: 5.0 * times,
                back: behind > ahead,
            };
        }
        let each_way = 10.0 * unit;
        Self::EqualPulls {
            each_way,
            pull: 2.0 * each_way,
        }
    }

    /// In a sentence.
    #[must_use]
    pub fn words(&self, voice: &Voice) -> String {
        match *self {
            Self::BuildersSquare => "Make the right angle with a builder's square.".to_owned(),
            Self::ThreeFourFive {
                along,
                square,
                across,
                back,
            } => format!(
                "Make the right angle with 3-4-5: mark {} on the line {} from there; the square goes through where {} from there meets {} from that mark.",
                voice.length(along),
                if back { "back" } else { "onwards" },
                voice.length(square),
                voice.length(across)
            ),
            Self::EqualPulls { each_way, pull } => format!(
                "Make the right angle with two equal pulls: mark {} each way on the line; the square goes through where {} from both marks meet.",
                voice.length(each_way),
                voice.length(pull)
            ),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_largest_triangle_that_fits_is_laid() {
        let check = |along: f64, length: f64, expected: f64| {
            match RightAngle::choose(along, length, 1.5, 30.0, Units::Metric) {
                RightAngle::ThreeFourFive {
                    along,
                    square,
                    across,
                    ..
                } => {
                    assert!((along - expected).abs() < 1e-9, "{along}");
                    // Source: Euclid, Elements, I.47: the sides of a right angle.
                    assert!((along.hypot(square) - across).abs() < 1e-12);
                }
                other => panic!("{other:?}"),
            }
        };
        check(3.0, 6.0, 2.8); // 7 times 0.4
        check(4.0, 8.0, 4.0); // 3-4-5 itself
        check(10.0, 20.0, 8.0); // 6-8-10
        check(0.0, 5.0, 4.8); // at the zero it runs onwards
    }

    #[test]
    fn short_offsets_want_no_triangle() {
        let angle = RightAngle::choose(3.0, 6.0, 0.8, 30.0, Units::Metric);
        assert_eq!(angle, RightAngle::BuildersSquare);
    }
}
