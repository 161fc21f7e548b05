//! Scratches: how long to draw them so that two surely cross, and where, in distances a person can find.

use super::Spot;
use crate::units::Ruler;

/// A short arc scratched on the ground about one spot, its ends told by the distance from another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scratch {
    /// Scratched about this spot.
    pub about: Spot,
    /// Its ends are found by the distance from this one.
    pub seen_from: Spot,
    /// The distance at its near end, in metres on the graduation.
    pub least: f64,
    /// The distance at its far end.
    pub most: f64,
    /// How long it is, in metres.
    pub length: f64,
}

/// Standard deviations of what makes two scratches miss each other, in metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Deviations {
    /// How far a spot stands from where it belongs, in each direction.
    pub spot: f64,
    /// The constant part of a string's or tape's own error: one string used twice errs alike.
    pub string: f64,
    /// The part of it that grows with its length, a metre.
    pub string_per_metre: f64,
    /// Reading and pointing, anew at each pull.
    pub pointing: f64,
}

impl Default for Deviations {
    /// Half of what garden taping on smooth ground may be out, 5 mm and 1 mm a metre, since that
    /// is a bound and not a deviation; common practice, no source.
    fn default() -> Self {
        Self {
            spot: 0.005,
            string: 0.001,
            string_per_metre: 0.0005,
            pointing: 0.003,
        }
    }
}

impl Deviations {
    /// Of a string this long, in metres.
    #[must_use]
    pub fn of_string(&self, length: f64) -> f64 {
        self.string + self.string_per_metre * length
    }
}

/// The crossing falls on the scratch within so many standard deviations.
const SURELY: f64 = 3.0;

/// The shortest scratch, in metres: one that is found again. Common practice, no source.
const SHORTEST: f64 = 0.150;

/// A longer scratch than this finds nothing better, in metres; common practice, no source.
const LONGEST: f64 = 1.0;

/// Of the way along a scratch to the line through both spots, where distances turn back.
const SHORT_OF_THE_LINE: f64 = 0.9;

impl Scratch {
    /// The scratches about the two end pegs of a chord, both `radius` long, which cross at the
    /// swing point; all in metres.
    ///
    /// With `g` the angle of the crossing, each peg and each pointing err by themselves and move
    /// the crossing along the scratch by `e·√(1 + cos² g) / sin g`; the one string errs alike at
    /// both and moves it by `e·tan(g/2)`. Derived from the two distances' derivatives.
    #[must_use]
    pub fn pair(
        spots: [Spot; 2],
        radius: f64,
        chord: f64,
        deviations: &Deviations,
        ruler: &Ruler,
    ) -> [Self; 2] {
        let half = (0.5 * chord / radius).clamp(-1.0, 1.0).asin();
        let (sine, cosine) = (2.0 * half).sin_cos();
        let alone = deviations.spot.hypot(deviations.pointing) * 1.0_f64.hypot(cosine) / sine;
        let alike = deviations.of_string(radius) * half.tan();
        let reach = (SURELY * alone.hypot(alike)).clamp(0.5 * SHORTEST, 0.5 * LONGEST);
        // At each peg the other peg and the crossing stand a quarter turn less half the angle apart.
        let turn = (reach / radius)
            .min(SHORT_OF_THE_LINE * (std::f64::consts::FRAC_PI_2 - half))
            .max(0.0);
        let from_other = |turn: f64| {
            let base = std::f64::consts::FRAC_PI_2 - half + turn;
            // The law of cosines in the form that keeps its digits for small angles.
            let across = 2.0 * (chord * radius).sqrt() * (0.5 * base).sin();
            (chord - radius).hypot(across)
        };
        let step = ruler.graduation.metres();
        let (least, most) = (from_other(-turn), from_other(turn));
        let scratch = |about, seen_from| Self {
            about,
            seen_from,
            least: ruler.round(least - 0.5 * step),
            most: ruler.round(most + 0.5 * step),
            length: 2.0 * radius * turn,
        };
        [scratch(spots[0], spots[1]), scratch(spots[1], spots[0])]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Units;

    fn pair(radius: f64, chord: f64, deviations: &Deviations) -> Scratch {
        let spots = [Spot::Peg(1), Spot::Peg(2)];
        Scratch::pair(spots, radius, chord, deviations, &Ruler::new(Units::Metric))[0]
    }

    #[test]
    fn strings_crossing_square_need_three_deviations_each_way() {
        // Square: the scratch about one peg runs along the string from the other.
        let deviations = Deviations {
            spot: 0.03,
            string: 0.0,
            string_per_metre: 0.0,
            pointing: 0.04,
        };
        let scratch = pair(5.0, 5.0 * 2.0_f64.sqrt(), &deviations);
        assert!((scratch.length - 2.0 * 3.0 * 0.05).abs() < 1e-12);
        assert!((scratch.least - 4.85).abs() < 0.011 && (scratch.most - 5.15).abs() < 0.011);
    }

    #[test]
    fn good_tapes_still_scratch_so_much_that_it_is_seen() {
        let none = Deviations {
            spot: 0.0,
            string: 0.0,
            string_per_metre: 0.0,
            pointing: 0.0,
        };
        assert!((pair(4.0, 5.0, &none).length - SHORTEST).abs() < 1e-12);
    }

    /// The two strings, each too long by the same, meet farther off along both scratches.
    #[test]
    fn one_string_used_twice_errs_once() {
        let (radius, chord, error) = (4.0_f64, 7.0_f64, 0.05);
        let deviations = Deviations {
            spot: 0.0,
            string: error,
            string_per_metre: 0.0,
            pointing: 0.0,
        };
        let half = 0.5 * chord;
        let height = |radius: f64| (radius * radius - half * half).sqrt();
        let moved = height(radius + error) - height(radius);
        // The way along the scratch is what is square to the string.
        let along = moved * half / radius;
        assert!((pair(radius, chord, &deviations).length - 6.0 * along).abs() < 0.02);
    }
}
