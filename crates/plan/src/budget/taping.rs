//! Taping: what errs when a distance is pulled, how much by itself and how much alike each time.

use std::error::Error;
use std::fmt;

use super::TapeClass;
use crate::document::Plan;
use crate::setout::{RightAngle, Taped};
use crate::units::{Ruler, Units};

/// How well one tapes: standard deviations, in metres unless it says otherwise.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Taping {
    /// What the tape is marked with.
    pub class: TapeClass,
    /// How its marks are read.
    pub ruler: Ruler,
    /// How long it is.
    pub length: f64,
    /// Holding the zero, plumbing and marking, anew at each pull.
    pub pointing: f64,
    /// Pulling harder or softer and not quite straight, anew at each pull, a metre.
    pub per_metre: f64,
    /// What arcs are struck and scratched with.
    pub swung: Swung,
    /// A right angle made with a builder's square, in radians.
    pub square: f64,
    /// How steep the ground is along which the tape is laid without being levelled, rise over run;
    /// nothing where it is held level.
    pub slope: f64,
    /// How the tape hangs, where it is not laid down.
    pub hung: Option<Hung>,
    /// How far a mark of the site lies from where the plan has it, in each direction.
    pub marks: f64,
    /// How far a peg that stood before lies from where the plan has it, in each direction.
    pub pegs: f64,
}

/// Why numbers are no taping.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TapingError {
    /// One of them is no finite number, or less than nothing.
    Deviation(f64),
    /// A tape that hangs is not pulled, or not by a finite force.
    Pull(f64),
}

impl fmt::Display for TapingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Deviation(number) => write!(
                f,
                "a tape cannot be out by {number}: give nothing or a length"
            ),
            Self::Pull(pull) => write!(
                f,
                "a tape that hangs cannot be pulled by {pull} N: give a force above nothing, or lay it down"
            ),
        }
    }
}

impl Error for TapingError {}

/// What an arc is struck with.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Swung {
    /// The tape itself.
    #[default]
    Tape,
    /// A thin wire, marked by the tape.
    Wire,
    /// A mason's line, marked by the tape under its working pull.
    String,
}

/// A tape that hangs between its ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hung {
    /// What a metre of it weighs, in newtons.
    pub weight: f64,
    /// How hard it is pulled, in newtons.
    pub pull: f64,
}

impl Hung {
    /// How much farther a tape that sags reads than its ends are apart, in metres: `w²L³/24P²`, the
    /// parabola's excess over its chord, good while the sag is small.
    ///
    /// ```
    /// use plan::budget::Hung;
    /// // A worked example: 48.88 m at 0.20 N/m under 100 N are 48.8605 m.
    /// let short = Hung { weight: 0.20, pull: 100.0 }.short(48.88);
    /// assert!((48.88 - short - 48.8605).abs() < 5e-5);
    /// ```
    #[must_use]
    pub fn short(&self, length: f64) -> f64 {
        (self.weight / self.pull).powi(2) * length.powi(3) / 24.0
    }
}

impl Swung {
    /// The standard deviation of its stretch, a share of its length, the same at each pull.
    ///
    /// A mason's line gives 2 to 10 % under a hand's pull (from memory); marked under that pull,
    /// a tenth of the middle of it is taken to remain. Common practice, no source.
    #[must_use]
    pub fn stretch(self) -> f64 {
        match self {
            Self::Tape => 0.0,
            Self::Wire => 0.0005,
            Self::String => 0.005,
        }
    }
}

/// Of what garden taping on smooth ground may be out, 5 mm and 1 mm a metre, as an even spread, what
/// the tape itself does not account for. Common practice, no source.
const SMOOTH: [f64; 2] = [0.003, 0.0005];

/// The same over rough ground or plumbed down, where it may be out 15 mm.
const ROUGH: f64 = 0.0085;

/// A builder's square laid against a string: 3 mm out over its arm of 0.6 m, as an even spread.
/// Common practice, no source.
const SQUARE: f64 = 0.003;

impl Taping {
    /// Garden taping on smooth ground with the tape of a plan.
    #[must_use]
    pub fn of(plan: &Plan) -> Self {
        Self {
            class: plan.set_out.tape_class,
            ..Self::smooth(plan.ruler(), plan.tape.length)
        }
    }

    /// Garden taping on smooth ground with a tape of this length in metres, from pegs and marks that
    /// stand where they belong.
    #[must_use]
    pub fn smooth(ruler: Ruler, length: f64) -> Self {
        let [pointing, per_metre] = SMOOTH;
        Self {
            class: match ruler.units {
                Units::Metric => TapeClass::Three,
                Units::FeetInches => TapeClass::Handbook44,
            },
            ruler,
            length,
            pointing,
            per_metre,
            swung: Swung::Tape,
            square: SQUARE,
            slope: 0.0,
            hung: None,
            marks: 0.0,
            pegs: 0.0,
        }
    }

    /// The same over rough ground, the tape held level and plumbed down.
    #[must_use]
    pub fn rough(ruler: Ruler, length: f64) -> Self {
        Self {
            pointing: ROUGH,
            ..Self::smooth(ruler, length)
        }
    }

    /// The taping, if a budget can be drawn up with it: what a person typed goes through here.
    ///
    /// # Errors
    /// * [`TapingError::Deviation`] for a deviation, slope, length or weight below nothing or not
    ///   finite;
    /// * [`TapingError::Pull`] unless a tape that hangs is pulled by a force above nothing.
    ///
    /// ```
    /// use plan::budget::{Hung, Taping};
    /// use plan::units::{Ruler, Units};
    /// let taping = Taping::smooth(Ruler::new(Units::Metric), 30.0);
    /// assert!(taping.checked().is_ok());
    /// assert!(Taping { pegs: f64::NAN, ..taping }.checked().is_err());
    /// let slack = Some(Hung { weight: 0.15, pull: 0.0 });
    /// assert!(Taping { hung: slack, ..taping }.checked().is_err());
    /// ```
    pub fn checked(self) -> Result<Self, TapingError> {
        let numbers = [
            self.length,
            self.pointing,
            self.per_metre,
            self.square,
            self.slope,
            self.marks,
            self.pegs,
            self.hung.map_or(0.0, |hung| hung.weight),
        ];
        let possible = |number: &f64| *number >= 0.0 && number.is_finite();
        if let Some(number) = numbers.into_iter().find(|number| !possible(number)) {
            return Err(TapingError::Deviation(number));
        }
        match self.hung {
            Some(Hung { pull, .. }) if !(pull > 0.0 && pull.is_finite()) => {
                Err(TapingError::Pull(pull))
            }
            _ => Ok(self),
        }
    }

    /// The standard deviation of what errs anew at a pull of this length, in metres: pointing, pull,
    /// and reading to the nearest division, which is an even spread of half of one to each side.
    #[must_use]
    pub fn random(&self, length: f64) -> f64 {
        let reading = self.ruler.graduation.metres() / 12.0_f64.sqrt();
        self.pointing.hypot(self.per_metre * length).hypot(reading)
    }

    /// How much nearer a distance pulled along the slope or hanging ends than it reads, in metres:
    /// `L(1 − cos θ)`, and the sag. One way always, so a shift and no deviation.
    #[must_use]
    pub fn short(&self, length: f64) -> f64 {
        // 1 − cos θ in the form that keeps its digits on gentle slopes.
        let secant = 1.0_f64.hypot(self.slope);
        let sloping = length * self.slope * self.slope / (secant * (secant + 1.0));
        sloping + self.hung.map_or(0.0, |hung| hung.short(length))
    }

    /// How far a figure pulled as it is printed ends from the drawn one: by its rounding, the slope
    /// and the sag.
    #[must_use]
    pub fn shift(&self, figure: &Taped) -> f64 {
        figure.tape - figure.exact - self.short(figure.exact.abs()).copysign(figure.exact)
    }

    /// The standard deviation of a right angle in radians. The tape's own error scales a triangle
    /// and leaves its angles, so only what errs anew at each pull counts.
    ///
    /// From the law of cosines at the right angle between sides `a` and `b`:
    /// `dγ = (c dc − a da − b db) / ab`. Two equal pulls `p` from `e` each way put their crossing off
    /// by `p(dp₁ − dp₂)/2e` and half the sum of the marks' errors, at the height `√(p² − e²)`.
    #[must_use]
    pub fn right_angle(&self, angle: &RightAngle) -> f64 {
        match *angle {
            RightAngle::BuildersSquare => self.square,
            RightAngle::ThreeFourFive {
                along,
                square,
                across,
                ..
            } => {
                let side = |length: f64| length * self.random(length);
                side(across).hypot(side(along)).hypot(side(square)) / (along * square)
            }
            RightAngle::EqualPulls { each_way, pull } => {
                let pulls = pull * self.random(pull) / each_way;
                let off = (0.5_f64.sqrt() * pulls).hypot(0.5_f64.sqrt() * self.random(each_way));
                off / ((pull - each_way) * (pull + each_way)).sqrt()
            }
        }
    }
}
