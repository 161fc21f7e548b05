//! Figures of a build-up as people write them, each kind in the units of a plan.

use std::fmt;

use super::{LengthError, Ruler, Units};

/// What a figure measures. Figures themselves are in SI units, shares as parts of 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Kind {
    /// Metres.
    Length,
    /// Cubic metres.
    Volume,
    /// Kilograms.
    Mass,
    /// Kilograms per cubic metre.
    Density,
    /// Square metres across something that runs along a path.
    Section,
    /// A part of 1, written per cent.
    Share,
    /// How many times.
    Factor,
    /// Hours for a cubic metre.
    HoursPerVolume,
    /// Hours for a square metre.
    HoursPerArea,
}

/// Why a text is not a figure of its kind.
#[derive(Clone, Debug, PartialEq)]
pub enum FigureError {
    /// It is not a length.
    Length(LengthError),
    /// No figures stand at its start, or there is more than one point in them.
    Written(String),
    /// What stands behind the figures is none of the units it may be in.
    Unit {
        /// What stands there.
        read: String,
        /// What may stand there.
        units: Vec<&'static str>,
    },
}

impl fmt::Display for FigureError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Length(error) => error.fmt(f),
            Self::Written(text) => write!(
                f,
                "`{text}` is no figure: write figures with a point before the decimals and nothing between thousands, such as 12.5"
            ),
            Self::Unit { read, units } if units.iter().all(|unit| unit.is_empty()) => {
                write!(f, "`{read}` has no place here: write figures alone")
            }
            Self::Unit { read, units } => write!(
                f,
                "`{read}` is no unit for this: write one of {}, or figures alone",
                units.join(", ")
            ),
        }
    }
}

impl std::error::Error for FigureError {}

/// A unit: how it is written, and its size in SI units.
type Unit = (&'static str, f64);

/// A cubic foot, a cubic yard and a square yard in metres, and a pound in kilograms: exact.
const CUBIC_FOOT: f64 = 0.028_316_846_592;
const CUBIC_YARD: f64 = 27.0 * CUBIC_FOOT;
const SQUARE_FOOT: f64 = 0.092_903_04;
const SQUARE_YARD: f64 = 9.0 * SQUARE_FOOT;
const POUND: f64 = 0.453_592_37;

impl Kind {
    /// The units of metric plans and those of plans in feet, the one that is written first.
    fn both(self) -> [&'static [Unit]; 2] {
        match self {
            Self::Length => [&[], &[]],
            Self::Volume => [
                &[("m³", 1.0), ("m3", 1.0), ("L", 0.001), ("l", 0.001)],
                &[
                    ("ft³", CUBIC_FOOT),
                    ("ft3", CUBIC_FOOT),
                    ("yd³", CUBIC_YARD),
                    ("yd3", CUBIC_YARD),
                ],
            ],
            Self::Mass => [
                &[("kg", 1.0), ("t", 1000.0)],
                &[("lb", POUND), ("short tons", 2000.0 * POUND)],
            ],
            Self::Density => [
                &[("kg/m³", 1.0), ("kg/m3", 1.0), ("t/m³", 1000.0)],
                &[
                    ("lb/ft³", POUND / CUBIC_FOOT),
                    ("lb/ft3", POUND / CUBIC_FOOT),
                    ("lb/yd³", POUND / CUBIC_YARD),
                ],
            ],
            Self::Section => [
                &[("m²", 1.0), ("m2", 1.0), ("cm²", 1e-4)],
                &[("ft²", SQUARE_FOOT), ("ft2", SQUARE_FOOT)],
            ],
            Self::Share => [&[("%", 0.01)], &[]],
            Self::Factor => [&[("", 1.0), ("×", 1.0)], &[]],
            Self::HoursPerVolume => [
                &[("h/m³", 1.0), ("h/m3", 1.0)],
                &[("h/yd³", 1.0 / CUBIC_YARD), ("h/yd3", 1.0 / CUBIC_YARD)],
            ],
            Self::HoursPerArea => [
                &[("h/m²", 1.0), ("h/m2", 1.0)],
                &[("h/yd²", 1.0 / SQUARE_YARD), ("h/yd2", 1.0 / SQUARE_YARD)],
            ],
        }
    }

    fn usual(self, units: Units) -> Unit {
        let [metric, feet] = self.both();
        let own = match units {
            Units::FeetInches => feet.first(),
            Units::Metric => None,
        };
        *own.or(metric.first()).unwrap_or(&("", 1.0))
    }
}

/// The most digits behind the point that are written.
const DIGITS: i32 = 7;
/// How many digits are written in all, where the whole ones are fewer.
const IN_ALL: i32 = 5;

impl Ruler {
    /// A figure as text in the units of a plan, to five digits.
    ///
    /// ```
    /// # use plan::units::{Kind, Ruler, Units};
    /// let metric = Ruler::new(Units::Metric);
    /// assert_eq!(metric.figure(Kind::Density, 1830.0), "1830 kg/m³");
    /// assert_eq!(metric.figure(Kind::Share, 0.075), "7.5 %");
    /// assert_eq!(metric.figure(Kind::Length, 0.1), "0.100 m");
    /// assert_eq!(Ruler::new(Units::FeetInches).figure(Kind::Density, 1830.0), "114.24 lb/ft³");
    /// ```
    #[must_use]
    pub fn figure(&self, kind: Kind, value: f64) -> String {
        if kind == Kind::Length {
            return self.text(value);
        }
        let (sign, size) = kind.usual(self.units);
        let count = value / size;
        let places = (1..=DIGITS)
            .find(|places| count.abs() * 10_f64.powi(*places) >= 10_f64.powi(IN_ALL - 1))
            .unwrap_or(DIGITS);
        let places = usize::try_from(places).unwrap_or(0);
        let digits = format!("{count:.places$}");
        let digits = match digits.contains('.') {
            true => digits.trim_end_matches('0').trim_end_matches('.'),
            false => &digits,
        };
        format!("{digits} {sign}").trim_end().to_owned()
    }

    /// Reads a figure: figures alone are in the unit that [`Self::figure`] writes.
    ///
    /// ```
    /// # use plan::units::{Kind, Ruler, Units};
    /// let metric = Ruler::new(Units::Metric);
    /// assert_eq!(metric.read_figure(Kind::Share, "12 %"), Ok(0.12));
    /// assert_eq!(metric.read_figure(Kind::Volume, "60 L"), Ok(0.06));
    /// assert!(metric.read_figure(Kind::Density, "1,830").is_err());
    /// ```
    ///
    /// # Errors
    /// [`FigureError`] for what is no figure, and for units of another kind.
    pub fn read_figure(&self, kind: Kind, text: &str) -> Result<f64, FigureError> {
        if kind == Kind::Length {
            return self.parse(text).map_err(FigureError::Length);
        }
        let text = text.trim();
        let text = text.strip_prefix('×').map_or(text, str::trim_start);
        let minus = text.replacen('−', "-", 1);
        let end = minus
            .find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',' | '-')))
            .unwrap_or(minus.len());
        let (figures, unit) = minus.split_at(end);
        let count: f64 = figures
            .parse()
            .ok()
            .filter(|count: &f64| count.is_finite())
            .ok_or_else(|| FigureError::Written(shown(text)))?;
        let unit = unit.trim();
        let usual = kind.usual(self.units);
        let [metric, feet] = kind.both();
        let known = || metric.iter().chain(feet);
        let size = if unit.is_empty() {
            usual.1
        } else {
            let found = known().find(|(sign, _)| *sign == unit);
            found
                .map(|(_, size)| *size)
                .ok_or_else(|| FigureError::Unit {
                    read: shown(unit),
                    units: known()
                        .map(|(sign, _)| *sign)
                        .filter(|sign| !sign.ends_with('3') && !sign.ends_with('2'))
                        .collect(),
                })?
        };
        // Divided where that is exact: 12 % is 0.12, not 12 times the nearest number to 0.01.
        let inverse = (1.0 / size).round();
        Ok(
            if size < 1.0 && (inverse * size - 1.0).abs() < f64::EPSILON {
                count / inverse
            } else {
                count * size
            },
        )
    }
}

/// The most characters of a text that are shown in a sentence.
const SHOWN: usize = 32;

fn shown(text: &str) -> String {
    text.chars()
        .filter(|c| !c.is_control())
        .take(SHOWN)
        .collect()
}
