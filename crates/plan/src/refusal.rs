//! Why two figures make no bend, in words and in the plan's units: one wording for window and command line.

use geometry::{Bound, Figure, SolveError};

use crate::limits::{LONGEST, SHORTEST};
use crate::units::{Graduation, Ruler, Units, angle_text, closest};

/// The refusal as a sentence with the figure and the remedy, without a final stop.
///
/// A bound is rounded to the safe side, so that the figure it names is accepted when it is typed.
///
/// ```
/// use geometry::{Figure, bends_from};
/// use plan::{refusal, units::{Ruler, Units}};
/// let refused = bends_from((Figure::Chord, 4.0), (Figure::Radius, 1.5)).unwrap_err();
/// assert_eq!(
///     refusal::sentence(&refused, &Ruler::new(Units::Metric)),
///     "a radius of 1.500 m is too short for a chord of 4.000 m: it must be at least 2.000 m"
/// );
/// ```
#[must_use]
pub fn sentence(error: &SolveError, ruler: &Ruler) -> String {
    let fine = Ruler {
        graduation: fine(ruler),
        ..*ruler
    };
    let shown = |(figure, value)| shown(&fine, figure, value);
    match *error {
        SolveError::SameFigure { figure } => {
            format!("the {figure} is given twice: give a second, different figure")
        }
        SolveError::NotFinite { figure, .. } => {
            format!("the {figure} is not a number one can measure: give a figure")
        }
        SolveError::NotPositive { figure, value } => {
            format!("the {figure} is {}: it must be more than 0", shown((figure, value)))
        }
        SolveError::OutOfRange { figure, .. } if figure.is_angle() => {
            format!("the {figure} is too small to compute with: give a hundredth of a degree or more")
        }
        SolveError::OutOfRange { figure, .. } => format!(
            "the {figure} is past what can be computed: keep it between {} and {}",
            ruler.exact(SHORTEST),
            fine.text(LONGEST)
        ),
        SolveError::WholeTurn { sweep } => format!(
            "a sweep of {} comes round on itself: it must be less than 360°",
            angle_text(sweep)
        ),
        SolveError::OutOfReach {
            given,
            bound,
            other,
        } => format!(
            "{} {} of {} is too {} for {} {} of {}: it must be {}",
            article(given.0),
            given.0,
            shown(given),
            fault(given.0, bound),
            article(other.0),
            other.0,
            shown(other),
            limit(&fine, given.0, bound)
        ),
        SolveError::TangentsNeverMeet { figure, other } => format!(
            "{} {} of {} makes half a circle or more, which has no {figure}: give {}, or another figure",
            article(other.0),
            other.0,
            shown(other),
            if other.0 == Figure::Sweep {
                "less than 180°"
            } else {
                "more than 0"
            }
        ),
        SolveError::ApothemSide { sweep, apothem } => format!(
            "an apothem of {} does not go with a sweep of {}: it must be {}",
            shown((Figure::Apothem, apothem)),
            angle_text(sweep),
            match sweep.total_cmp(&std::f64::consts::PI) {
                std::cmp::Ordering::Less => "more than 0 below half a circle",
                std::cmp::Ordering::Equal => "0 at half a circle, with a length to size it",
                std::cmp::Ordering::Greater => "less than 0 past half a circle",
            }
        ),
        SolveError::SizeOpen => {
            "half a circle always has an apothem of 0, so its size stays open: give a length as well as the sweep".into()
        }
        SolveError::BeyondComputing { first, second } => format!(
            "the bend with {} {} of {} and {} {} of {} is past what can be computed: give figures less far apart",
            article(first.0),
            first.0,
            shown(first),
            article(second.0),
            second.0,
            shown(second)
        ),
    }
}

/// The finest division of the ruler's kind of tape: a refusal shows more than the tape in use does,
/// or a figure just past its bound would read as if it kept it.
fn fine(ruler: &Ruler) -> Graduation {
    match (ruler.units, ruler.graduation) {
        (Units::Metric, _) => Graduation::Millimetre,
        (_, Graduation::HundredthFoot | Graduation::TenthFoot) => Graduation::HundredthFoot,
        _ => Graduation::SixteenthInch,
    }
}

fn shown(fine: &Ruler, figure: Figure, value: f64) -> String {
    if figure.is_angle() {
        angle_text(value)
    } else {
        closest(fine, value)
    }
}

fn fault(figure: Figure, bound: Bound) -> &'static str {
    match (figure, bound.is_lower()) {
        (Figure::Apothem, true) => "low",
        (Figure::Apothem, false) => "high",
        (_, true) => "short",
        (_, false) => "long",
    }
}

fn limit(fine: &Ruler, figure: Figure, bound: Bound) -> String {
    let words = match bound {
        Bound::Above(_) => "more than",
        Bound::AtLeast(_) => "at least",
        Bound::Below(_) => "less than",
        Bound::AtMost(_) => "at most",
    };
    if figure.is_angle() {
        return format!("{words} {}", angle_text(bound.value()));
    }
    let value = bound.value();
    let nearest = fine.round(value);
    let division = fine.graduation.metres();
    let safe = if bound.is_lower() && nearest < value - SAME {
        nearest + division
    } else if !bound.is_lower() && nearest > value + SAME {
        nearest - division
    } else {
        nearest
    };
    // So small that a whole division would turn it round: then as exactly as it can be written.
    if (safe > 0.0) == (value > 0.0) {
        format!("{words} {}", fine.text(safe))
    } else {
        format!("{words} {}", closest(fine, value))
    }
}

/// Lengths that differ by less are one length: a nanometre, the rounding of reading and writing.
const SAME: f64 = 1e-9;

fn article(figure: Figure) -> &'static str {
    match figure {
        Figure::ArcLength | Figure::Apothem | Figure::ExternalDistance => "an",
        _ => "a",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use geometry::Figure::{Apothem, ArcLength, Chord, Radius, Rise, Sweep, TangentLength};
    use geometry::bends_from;

    const INCH: f64 = 0.0254;

    #[track_caller]
    fn check(units: Units, first: (Figure, f64), second: (Figure, f64), expected: &str) {
        let refused = bends_from(first, second).unwrap_err();
        assert_eq!(sentence(&refused, &Ruler::new(units)), expected);
    }

    #[test]
    fn each_sentence_has_the_figure_in_the_plans_units_and_the_remedy() {
        check(
            Units::FeetInches,
            (Chord, 84.0 * INCH),
            (Radius, 40.0 * INCH),
            "a radius of 3′ 4″ is too short for a chord of 7′ 0″: it must be at least 3′ 6″",
        );
        check(
            Units::Metric,
            (Radius, 1.0),
            (ArcLength, 7.0),
            "an arc length of 7.000 m is too long for a radius of 1.000 m: it must be less than 6.283 m",
        );
        check(
            Units::Metric,
            (Rise, 2.0),
            (Apothem, -1.5),
            "an apothem of −1.500 m is too low for a rise of 2.000 m: it must be more than −1.000 m",
        );
        check(
            Units::Metric,
            (Sweep, 3.5),
            (TangentLength, 1.0),
            "a sweep of 200.54° makes half a circle or more, which has no tangent length: give less than 180°, or another figure",
        );
        check(
            Units::FeetInches,
            (Chord, -INCH),
            (Rise, INCH),
            "the chord is −1″: it must be more than 0",
        );
        check(
            Units::Metric,
            (Chord, 1.0),
            (Rise, 1e31),
            "the rise is past what can be computed: keep it between 0.0001 m and 100000.000 m",
        );
        check(
            Units::Metric,
            (Sweep, 7.0),
            (Radius, 1.0),
            "a sweep of 401.07° comes round on itself: it must be less than 360°",
        );
    }

    #[test]
    fn a_figure_a_hair_past_its_bound_does_not_read_like_it() {
        check(
            Units::Metric,
            (Chord, 4.0),
            (Radius, 1.999_96),
            "a radius of about 2.0000 m is too short for a chord of 4.000 m: it must be at least 2.000 m",
        );
    }

    #[test]
    fn typing_the_bound_that_was_named_is_accepted() {
        let ruler = Ruler::new(Units::Metric);
        for arc_length in [1.0, 2.345_678, 9.9, 31.4] {
            // The greatest rise of an arc length is irrational.
            let refused = bends_from((Rise, 0.9 * arc_length), (ArcLength, arc_length));
            let said = sentence(&refused.unwrap_err(), &ruler);
            let (_, named) = said.rsplit_once("at least ").unwrap();
            let named = ruler.parse(named).unwrap();
            assert!(
                bends_from((Rise, 0.9 * arc_length), (ArcLength, named)).is_ok(),
                "{said}"
            );
        }
    }
}
