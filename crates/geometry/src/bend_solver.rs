//! Which bends two given figures make: all 28 pairs, each with every answer there is.

mod pairs;
mod refusal;
mod root;
mod sensitivity;

use std::f64::consts::TAU;

use crate::bend::{Bend, Figure};
pub use refusal::{Bound, SolveError};

/// All bends that have both figures, least sweep first: one or two, never none.
///
/// Lengths in metres, the sweep in radians; all above zero but the apothem, which is negative past
/// a half circle. Closed forms where there are any, else a bracketed root found to the last digits.
///
/// # Errors
///
/// If the same figure is given twice, a figure is not a finite number or outside its own range, or
/// no bend has both; the error then names the second figure and the bound it must keep.
///
/// ```
/// use geometry::{Figure, bends_from};
/// // A radius of 2.5 m joins the ends of a 4 m chord in two ways: the flat one and the long way round.
/// let answers = bends_from((Figure::Chord, 4.0), (Figure::Radius, 2.5))?;
/// let rises: Vec<f64> = answers.iter().map(|answer| answer.bend.rise()).collect();
/// assert_eq!(rises, [1.0, 4.0]);
/// assert!(bends_from((Figure::Chord, 4.0), (Figure::Radius, 1.9)).is_err());
/// # Ok::<(), geometry::SolveError>(())
/// ```
pub fn bends_from(first: (Figure, f64), second: (Figure, f64)) -> Result<Vec<Answer>, SolveError> {
    if first.0 == second.0 {
        return Err(SolveError::SameFigure { figure: first.0 });
    }
    check_range(first)?;
    check_range(second)?;
    let sizes = if first.0 < second.0 {
        pairs::sizes(first, second)
    } else {
        pairs::sizes(second, first)
    }
    .map_err(|error| error.about(second))?;
    sizes
        .into_iter()
        .map(|(chord, rise)| {
            Bend::from_chord_and_rise(chord, rise)
                .ok()
                // a tangent length so great that the bend rounds to a half circle, which has none
                .filter(|bend| {
                    [first.0, second.0]
                        .iter()
                        .all(|&is| bend.figure(is).is_some())
                })
                .map(|bend| sensitivity::answer(bend, first, second))
                .ok_or(SolveError::BeyondComputing { first, second })
        })
        .collect()
}

/// A bend that has both given figures, and how far it can be trusted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Answer {
    /// The bend.
    pub bend: Bend,
    /// Change of the radius in metres for each unit (metre or radian) of the first given figure,
    /// the second kept. Infinite or of no meaning where two answers meet.
    pub radius_per_first: f64,
    /// Change of the radius in metres for each unit of the second given figure, the first kept.
    pub radius_per_second: f64,
    /// Decimal digits of the radius that hold when both givens hold [`Self::ALL_DIGITS`].
    pub digits: f64,
}

impl Answer {
    /// The digits a full-precision number holds.
    pub const ALL_DIGITS: f64 = 15.9;
    /// Digits lost from which an answer counts as ill-conditioned: with two gone, a tape read to
    /// 1 part in 10 000 leaves the radius no better than 1 part in 100.
    pub const DIGITS_TO_LOSE: f64 = 2.0;

    /// Whether a small slip in a given figure makes a great one in the radius, so that another
    /// pair of figures should be measured.
    #[must_use]
    pub fn is_ill_conditioned(&self) -> bool {
        self.digits < Self::ALL_DIGITS - Self::DIGITS_TO_LOSE
    }
}

/// The range a figure has whatever the other one is.
fn check_range((figure, value): (Figure, f64)) -> Result<(), SolveError> {
    if !value.is_finite() {
        return Err(SolveError::NotFinite { figure, value });
    }
    if value <= 0.0 && figure != Figure::Apothem {
        return Err(SolveError::NotPositive { figure, value });
    }
    if figure == Figure::Sweep && value >= TAU {
        return Err(SolveError::WholeTurn { sweep: value });
    }
    if !figure.is_angle() && value.abs() > Bend::MOST
        || figure != Figure::Apothem && value < Bend::LEAST
    {
        return Err(SolveError::OutOfRange { figure, value });
    }
    Ok(())
}
