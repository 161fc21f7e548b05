//! The smallest division of a tape, and rounding to it.

use serde::{Deserialize, Serialize};

use super::Units;

/// The smallest division of the tape in use: every taped figure is rounded to a multiple of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Graduation {
    /// 1/16 in.
    SixteenthInch,
    /// 1/8 in.
    EighthInch,
    /// 1/4 in.
    QuarterInch,
    /// 1/2 in.
    HalfInch,
    /// 1 in.
    Inch,
    /// 0.01 ft.
    HundredthFoot,
    /// 0.1 ft.
    TenthFoot,
    /// 1 mm.
    Millimetre,
    /// 2 mm.
    TwoMillimetres,
    /// 5 mm.
    FiveMillimetres,
    /// 10 mm.
    TenMillimetres,
}

impl Graduation {
    /// Every graduation: inches, decimal feet, millimetres, each from fine to coarse.
    pub const ALL: [Self; 11] = [
        Self::SixteenthInch,
        Self::EighthInch,
        Self::QuarterInch,
        Self::HalfInch,
        Self::Inch,
        Self::HundredthFoot,
        Self::TenthFoot,
        Self::Millimetre,
        Self::TwoMillimetres,
        Self::FiveMillimetres,
        Self::TenMillimetres,
    ];

    /// The graduations of one system, finest first.
    #[must_use]
    pub fn for_units(units: Units) -> &'static [Self] {
        match units {
            Units::FeetInches => &[
                Self::SixteenthInch,
                Self::EighthInch,
                Self::QuarterInch,
                Self::HalfInch,
                Self::Inch,
                Self::HundredthFoot,
                Self::TenthFoot,
            ],
            Units::Metric => &[
                Self::Millimetre,
                Self::TwoMillimetres,
                Self::FiveMillimetres,
                Self::TenMillimetres,
            ],
        }
    }

    /// What a plan starts with: 1/8 in or 5 mm, about as fine as a peg and a string can be placed
    /// (common practice, no source).
    #[must_use]
    pub fn default_for(units: Units) -> Self {
        match units {
            Units::FeetInches => Self::EighthInch,
            Units::Metric => Self::FiveMillimetres,
        }
    }

    /// The system this graduation belongs to.
    #[must_use]
    pub fn units(self) -> Units {
        match self {
            Self::Millimetre
            | Self::TwoMillimetres
            | Self::FiveMillimetres
            | Self::TenMillimetres => Units::Metric,
            _ => Units::FeetInches,
        }
    }

    /// The name to show, such as `1/8 in`, `0.01 ft`, `5 mm`.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::SixteenthInch => "1/16 in",
            Self::EighthInch => "1/8 in",
            Self::QuarterInch => "1/4 in",
            Self::HalfInch => "1/2 in",
            Self::Inch => "1 in",
            Self::HundredthFoot => "0.01 ft",
            Self::TenthFoot => "0.1 ft",
            Self::Millimetre => "1 mm",
            Self::TwoMillimetres => "2 mm",
            Self::FiveMillimetres => "5 mm",
            Self::TenMillimetres => "10 mm",
        }
    }

    /// The division in metres.
    ///
    /// ```
    /// # use plan::units::Graduation;
    /// assert_eq!(Graduation::Inch.metres(), 0.0254);
    /// assert_eq!(Graduation::EighthInch.metres(), 0.003175);
    /// ```
    #[must_use]
    pub fn metres(self) -> f64 {
        self.step().times(1)
    }

    /// `length` in metres rounded to the nearest multiple, half away from zero. What this gives is the
    /// number closest to the true multiple, and the number that reading the multiple's text gives.
    ///
    /// A length that lies on the half but for the last digits of the arithmetic counts as the half.
    ///
    /// ```
    /// # use plan::units::Graduation;
    /// assert_eq!(Graduation::FiveMillimetres.round(0.0025), 0.005);
    /// assert_eq!(Graduation::FiveMillimetres.round(-0.0025), -0.005);
    /// assert_eq!(Graduation::FiveMillimetres.round(3.1649), 3.165);
    /// ```
    #[must_use]
    pub fn round(self, length: f64) -> f64 {
        self.step().round(length)
    }

    /// How many whole divisions `length` in metres is, rounded as [`Graduation::round`] rounds. Exact far
    /// beyond the greatest length of a plan (100 km); past what an `i64` holds it stays at the end of its
    /// range, and it is 0 for what is not a number.
    ///
    /// ```
    /// # use plan::units::Graduation;
    /// assert_eq!(Graduation::QuarterInch.steps(0.0254 * 11.9375), 48);
    /// ```
    #[must_use]
    pub fn steps(self, length: f64) -> i64 {
        self.step().count(length)
    }

    pub(super) fn step(self) -> Step {
        let (over, under) = match self {
            Self::SixteenthInch => (127, 80_000),
            Self::EighthInch => (127, 40_000),
            Self::QuarterInch => (127, 20_000),
            Self::HalfInch => (127, 10_000),
            Self::Inch => (127, 5_000),
            Self::HundredthFoot => (381, 125_000),
            Self::TenthFoot => (381, 12_500),
            Self::Millimetre => (1, 1_000),
            Self::TwoMillimetres => (2, 1_000),
            Self::FiveMillimetres => (5, 1_000),
            Self::TenMillimetres => (10, 1_000),
        };
        Step { over, under }
    }
}

/// A division of `over / under` metres, kept as two whole numbers because no power of two divides an
/// inch or a millimetre: the one rounding of a multiple is that of the last division.
#[derive(Clone, Copy, Debug)]
pub(super) struct Step {
    pub(super) over: u32,
    pub(super) under: u32,
}

/// How far below a half a length may lie and still count as the half: a nanometre. The numbers of a
/// plan are good to 0.015 nm at 100 km, so sums of them stay well inside it, and nothing on the ground
/// comes near it.
const HALF_SLACK: f64 = 1e-9;

impl Step {
    /// `count` divisions in metres.
    pub(super) fn times(self, count: i64) -> f64 {
        count as f64 * f64::from(self.over) / f64::from(self.under)
    }

    pub(super) fn round(self, length: f64) -> f64 {
        let count = self.whole(length);
        if count.abs() < COUNTED_EXACTLY {
            count * f64::from(self.over) / f64::from(self.under)
        } else {
            length // so long that it has no digits finer than the division, or not a number
        }
    }

    #[expect(
        clippy::cast_possible_truncation,
        reason = "already whole; the cast stops at the ends of the range"
    )]
    pub(super) fn count(self, length: f64) -> i64 {
        self.whole(length) as i64
    }

    fn whole(self, length: f64) -> f64 {
        let size = (length.abs() + HALF_SLACK) * f64::from(self.under) / f64::from(self.over);
        let count = (size + 0.5).floor();
        if length < 0.0 && count > 0.0 {
            -count
        } else {
            count
        }
    }
}

/// 2^44: up to this many divisions, the count times `over` (at most 381) stays a whole number that an
/// `f64` holds exactly.
const COUNTED_EXACTLY: f64 = 17_592_186_044_416.0;
