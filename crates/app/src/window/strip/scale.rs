//! Whole divisions for the two scales of the strip, in the plan's units.

use egui_plot::GridMark;
use plan::units::Units;

/// A foot and an inch in metres: exact, by the definition of 1959.
const FOOT: f64 = 0.3048;
const INCH: f64 = 0.0254;

/// The least whole division of a length, in metres, of which `most` or fewer cover `range` metres.
pub(super) fn division(range: f64, most: f64, units: Units) -> f64 {
    let least = range / most;
    match units {
        Units::Metric => whole(least),
        Units::FeetInches if least < FOOT => {
            let inches = [1.0, 2.0, 3.0, 6.0, 12.0];
            let fits = inches.into_iter().find(|inches| least <= inches * INCH);
            fits.unwrap_or(12.0) * INCH
        }
        Units::FeetInches => whole(least / FOOT) * FOOT,
    }
}

/// The least of 1, 2, 5, 10, 20, 50 … that is not less than `least`.
pub(super) fn whole(least: f64) -> f64 {
    let power = 10_f64.powf(least.max(1e-6).log10().floor());
    let fits = [1.0, 2.0, 5.0].into_iter().find(|m| least <= m * power);
    fits.unwrap_or(10.0) * power
}

/// Marks at every `step` from `from` to `to`.
pub(super) fn marks((from, to): (f64, f64), step: f64) -> Vec<GridMark> {
    let mut marks = Vec::new();
    let mut count = (from / step).ceil();
    while count * step <= to && marks.len() < 100 {
        marks.push(GridMark {
            value: count * step,
            step_size: step,
        });
        count += 1.0;
    }
    marks
}

/// A division as it is written on a scale: whole, without noughts that say nothing.
pub(super) fn label(value: f64, units: Units) -> String {
    // Divisions are whole, so that what is left after nine places is noise.
    let tidy = |value: f64| {
        let value = (value * 1e9).round() / 1e9;
        if value == 0.0 { 0.0 } else { value }
    };
    match units {
        Units::Metric => format!("{} m", tidy(value)).replace('-', "−"),
        Units::FeetInches => {
            let inches = (value / INCH).round();
            let sign = if inches < 0.0 { "−" } else { "" };
            let (feet, rest) = ((inches.abs() / 12.0).floor(), inches.abs() % 12.0);
            if rest == 0.0 {
                format!("{sign}{feet}′")
            } else if feet == 0.0 {
                format!("{sign}{rest}″")
            } else {
                format!("{sign}{feet}′ {rest}″")
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(range: f64, most: f64, units: Units, expected: &str) {
        assert_eq!(label(division(range, most, units), units), expected);
    }

    #[test]
    fn divisions_are_whole_in_either_system() {
        check(18.0, 10.0, Units::Metric, "2 m");
        check(20.0, 10.0, Units::Metric, "2 m");
        check(2.0, 5.0, Units::Metric, "0.5 m");
        check(1000.0, 7.0, Units::Metric, "200 m");
        check(18.0, 10.0, Units::FeetInches, "10′");
        check(2.0, 5.0, Units::FeetInches, "2′");
        check(0.9, 4.0, Units::FeetInches, "1′");
        check(0.5, 4.0, Units::FeetInches, "6″");
    }

    #[test]
    fn marks_stand_at_multiples() {
        let at: Vec<f64> = marks((-0.7, 1.2), 0.5).iter().map(|m| m.value).collect();
        assert_eq!(at, [-0.5, 0.0, 0.5, 1.0]);
    }
}
