//! Volumes and masses as text, each rounded once.

use super::{Ruler, Units};

/// A cubic yard in cubic metres, exactly: 0.9144³.
const CUBIC_YARD: f64 = 0.764_554_857_984;
/// A cubic foot in cubic metres, exactly: 0.3048³.
const CUBIC_FOOT: f64 = 0.028_316_846_592;
/// A square yard in square metres, exactly: 0.9144².
const SQUARE_YARD: f64 = 0.836_127_36;
/// A foot and a mile in metres, exactly.
const FOOT: f64 = 0.3048;
const MILE: f64 = 5280.0 * FOOT;
/// A pound in kilograms, exactly.
const POUND: f64 = 0.453_592_37;

impl Ruler {
    /// A volume in cubic metres as text: `1.99 m³` or `2.6 yd³`; under a tenth of a cubic metre or
    /// yard `54 L` or `1.9 ft³`.
    ///
    /// ```
    /// # use plan::units::{Ruler, Units};
    /// assert_eq!(Ruler::new(Units::Metric).volume(1.992_5), "1.99 m³");
    /// assert_eq!(Ruler::new(Units::FeetInches).volume(1.992_5), "2.6 yd³");
    /// ```
    #[must_use]
    pub fn volume(&self, cubic_metres: f64) -> String {
        match self.units {
            Units::Metric if cubic_metres.abs() < 0.1 => rounded(cubic_metres, 0.001, 0, "L"),
            Units::Metric => rounded(cubic_metres, 1.0, 2, "m³"),
            Units::FeetInches if cubic_metres.abs() < 0.1 * CUBIC_YARD => {
                rounded(cubic_metres, CUBIC_FOOT, 1, "ft³")
            }
            Units::FeetInches => rounded(cubic_metres, CUBIC_YARD, 1, "yd³"),
        }
    }

    /// A mass in kilograms as text: `640 kg`, from a tonne on `4.18 t`; `1411 lb`, from a short ton
    /// (2000 lb) on `4.61 short tons`.
    ///
    /// ```
    /// # use plan::units::{Ruler, Units};
    /// assert_eq!(Ruler::new(Units::Metric).mass(4184.2), "4.18 t");
    /// assert_eq!(Ruler::new(Units::FeetInches).mass(4184.2), "4.61 short tons");
    /// assert_eq!(Ruler::new(Units::FeetInches).mass(25.0), "55 lb");
    /// ```
    #[must_use]
    pub fn mass(&self, kilograms: f64) -> String {
        match self.units {
            Units::Metric if kilograms.abs() < 1000.0 => rounded(kilograms, 1.0, 0, "kg"),
            Units::Metric => rounded(kilograms, 1000.0, 2, "t"),
            Units::FeetInches if kilograms.abs() < 2000.0 * POUND => {
                rounded(kilograms, POUND, 0, "lb")
            }
            Units::FeetInches => rounded(kilograms, 2000.0 * POUND, 2, "short tons"),
        }
    }

    /// How far is walked, in metres, as text: `180 m`, from a kilometre on `5.7 km`; `590 ft`, from a mile on
    /// `3.6 mi`.
    ///
    /// ```
    /// # use plan::units::{Ruler, Units};
    /// assert_eq!(Ruler::new(Units::Metric).way(5720.0), "5.7 km");
    /// assert_eq!(Ruler::new(Units::FeetInches).way(5720.0), "3.6 mi");
    /// ```
    #[must_use]
    pub fn way(&self, metres: f64) -> String {
        match self.units {
            Units::Metric if metres < 1000.0 => rounded(metres, 1.0, 0, "m"),
            Units::Metric => rounded(metres, 1000.0, 1, "km"),
            Units::FeetInches if metres < MILE => rounded(metres, FOOT, 0, "ft"),
            Units::FeetInches => rounded(metres, MILE, 1, "mi"),
        }
    }

    /// An area in square metres as the trade orders it: `12.3 m²` or `14.8 yd²`.
    #[must_use]
    pub fn ordered_area(&self, square_metres: f64) -> String {
        match self.units {
            Units::Metric => rounded(square_metres, 1.0, 1, "m²"),
            Units::FeetInches => rounded(square_metres, SQUARE_YARD, 1, "yd²"),
        }
    }
}

/// What lies this much below a half, in counts of the last decimal, still counts as the half: what
/// is lost in the last digits of the arithmetic.
const HALF_SLACK: f64 = 1e-9;

/// So many of a unit with so many decimals, half away from zero; no minus before nothing.
fn rounded(figure: f64, unit: f64, places: u32, name: &str) -> String {
    let finer = 10_f64.powf(f64::from(places));
    let count = (figure.abs() / unit * finer + 0.5 + HALF_SLACK).floor();
    let sign = if figure < 0.0 && count > 0.0 {
        "−"
    } else {
        ""
    };
    let places = places as usize;
    format!("{sign}{:.places$} {name}", count / finer)
}
