//! Reading a length as a person types it, and saying what was understood.

use super::error::{Fault, LengthError};
use super::scan::{Figure, Ratio, Scan};
use super::token::{Kind, Token};
use super::{Graduation, Ruler, Units};

/// Reads a length as a person types it, in metres.
///
/// | typed | read as |
/// | --- | --- |
/// | `7' 6 1/2"`, `7'-6½"`, `7ft 6.5in`, `7 feet 6 1/2 inches`, `7' 6 1/2` | 7 ft 6 1/2 in |
/// | `90 1/2 in`, `90-1/2"`, `90,5"` | 90 1/2 in |
/// | `2 yd 1 ft` | 7 ft |
/// | `2.3m`, `2,3 m`, `230cm`, `2300 mm`, `2m30`, `2m 30cm`, `2m300` | 2.3 m |
///
/// * Capital or small letters, spaces of any kind or none, typographic strokes, dashes and fractions are
///   all read; the sign stands in front of everything.
/// * Parts go from the larger unit to the smaller, in one kind of units; only the last has a fraction or
///   decimals, and each is less than one of the unit before: `7' 14"` is refused, as it is more often
///   a slip than meant.
/// * After feet a number without unit is inches. After metres two figures are centimetres and three
///   millimetres, as in `2m30` and `2m300`; one figure is refused, since `2m5` may be 2.05 or 2.5 m.
/// * A comma is a decimal mark, but `1,234` may be a thousand and more and is refused.
/// * A fraction is less than one: `63/4` is refused, since it is `6 3/4` with the space left out.
///
/// **A number without unit.** In feet and inches it is inches. In metric it is metres, as lengths are
/// written here, if it has a decimal mark or a fraction, or is below 100; a whole number from 1000 up is
/// millimetres, as drawings are dimensioned (`2300` is 2.3 m). Whole numbers from 100 to 999 are taken for
/// metres, centimetres and millimetres by different people, so they are refused and the unit asked for.
/// [`echo`] says which was taken.
///
/// The length may have any sign and size; its limits are the business of who asks. It is the number
/// nearest to what is written.
///
/// # Errors
/// A [`LengthError`] with the place, if the text is empty, longer than 64 characters, or not such a length.
///
/// ```
/// # use plan::units::{Fault, Units, parse_length};
/// assert_eq!(parse_length("2m30", Units::Metric)?, 2.3);
/// assert_eq!(parse_length("84", Units::FeetInches)?, 2.1336);
/// assert_eq!(parse_length("2m 3in", Units::Metric).unwrap_err().kind, Fault::Mixed);
/// # Ok::<(), plan::units::LengthError>(())
/// ```
pub fn parse_length(text: &str, units: Units) -> Result<f64, LengthError> {
    let ruler = Ruler::new(units);
    read(text, ruler.bare_rule()).map(|reading| reading.metres)
}

/// The system of units that the text names itself; `None` where its number stands bare, and where it
/// cannot be read.
///
/// ```
/// # use plan::units::{Units, units_named};
/// assert_eq!(units_named("84in"), Some(Units::FeetInches));
/// assert_eq!(units_named("2m30"), Some(Units::Metric));
/// assert_eq!(units_named("84"), None);
/// ```
#[must_use]
pub fn units_named(text: &str) -> Option<Units> {
    let reading = read(text, Bare::Inches).ok()?;
    reading.bare.is_none().then_some(reading.units)
}

/// What was understood of the text `typed` in a plan of `units`, as the end of a sentence: `read as
/// 2.300 m`. Where a number had no unit it says which was taken, where it was typed in the other
/// system it gives both, and `about` where the figure shown is rounded.
///
/// ```
/// # use plan::units::{Units, echo};
/// assert_eq!(echo(2.3, Units::Metric, "230cm"), "read as 2.300 m");
/// assert_eq!(echo(2.3, Units::Metric, "2300"), "read as 2.300 m, 2300 taken as millimetres");
/// assert_eq!(echo(2.3, Units::FeetInches, "2.3 m"), "read as about 7′ 6.551″ (2.300 m)");
/// ```
#[must_use]
pub fn echo(length: f64, units: Units, typed: &str) -> String {
    echo_as(&Ruler::new(units), length, typed)
}

pub(super) fn echo_as(ruler: &Ruler, length: f64, typed: &str) -> String {
    let bare = ruler.bare_rule();
    let graduation = match bare {
        Bare::Metric => Graduation::Millimetre,
        Bare::Inches => Graduation::SixteenthInch,
        Bare::Feet => Graduation::HundredthFoot,
    };
    let ruler = Ruler {
        graduation,
        ..*ruler
    };
    let mut said = format!("read as {}", closest(&ruler, length));
    if let Ok(reading) = read(typed, bare) {
        if reading.units != ruler.units {
            said += &format!(" ({})", closest(&ruler.companion(), length));
        }
        if let Some(unit) = reading.bare {
            said += &format!(", {} taken as {}", typed.trim(), unit.plural());
        }
    }
    said
}

/// The length to the ruler's graduation if it lies on it, else with more digits, `about` if it takes yet more.
pub(crate) fn closest(ruler: &Ruler, length: f64) -> String {
    if is_same(ruler.round(length), length) {
        return ruler.text(length);
    }
    let shown = ruler.exact(length);
    match read(&shown, ruler.bare_rule()) {
        Ok(reading) if is_same(reading.metres, length) => shown,
        _ => format!("about {shown}"),
    }
}

/// Whether two lengths differ by nothing but the last digits of their arithmetic: a nanometre.
fn is_same(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9
}

/// What a number without unit is taken for.
#[derive(Clone, Copy, Debug)]
pub(super) enum Bare {
    Inches,
    Feet,
    /// Metres or millimetres, by its form.
    Metric,
}

/// A length read, and what was taken for granted in reading it.
pub(super) struct Reading {
    pub(super) metres: f64,
    units: Units,
    /// The unit taken for a number that stood alone without one.
    bare: Option<Unit>,
}

pub(super) fn read(text: &str, bare: Bare) -> Result<Reading, LengthError> {
    let mut scan = Scan::new(text)?;
    let mut total = Ratio::ZERO;
    let mut before: Option<(Unit, Figure)> = None;
    let mut taken = None;
    loop {
        let figure = scan.figure()?;
        let written = unit(&mut scan)?;
        let unit = match (written, before) {
            (Some(unit), _) => unit,
            (None, _) if let Some(next) = scan.peek() => {
                return Err(match next.kind {
                    Kind::Number { .. } | Kind::Vulgar { .. } => {
                        scan.fault(Fault::NoUnit, figure.at, figure.until)
                    }
                    _ => scan.unexpected(next),
                });
            }
            (None, None) => {
                let unit = bare_unit(&scan, &figure, bare)?;
                taken = Some(unit);
                unit
            }
            (None, Some((Unit::Foot, _))) => Unit::Inch,
            (None, Some((Unit::Metre, _))) => match (figure.is_whole, figure.until - figure.at) {
                (true, 2) => Unit::Centimetre,
                (true, 3) => Unit::Millimetre,
                _ => return Err(scan.fault(Fault::AfterMetres, figure.at, figure.until)),
            },
            (None, Some(_)) => return Err(scan.fault(Fault::LastUnit, figure.at, figure.until)),
        };
        if let Some(before) = before {
            check_after(&scan, before, (unit, figure))?;
        }
        total = total.plus(figure.ratio.times(unit.metres()));
        if scan.peek().is_none() {
            let size = total.value();
            // never minus zero
            let metres = if scan.is_negative && size > 0.0 {
                -size
            } else {
                size
            };
            return Ok(Reading {
                metres,
                units: unit.units(),
                bare: taken,
            });
        }
        joint(&mut scan, unit);
        before = Some((unit, figure));
    }
}

/// Refuses two parts of which the second does not follow from the first.
fn check_after(
    scan: &Scan,
    (before, more): (Unit, Figure),
    (unit, figure): (Unit, Figure),
) -> Result<(), LengthError> {
    let (kind, culprit) = if unit.units() != before.units() {
        (Fault::Mixed, figure)
    } else if unit.metres().value() >= before.metres().value() {
        (Fault::Order, figure)
    } else if !more.is_whole {
        (Fault::NotWhole, more)
    } else if figure.ratio.times(unit.metres()).value() >= before.metres().value() {
        (Fault::TooLarge, figure)
    } else {
        return Ok(());
    };
    Err(scan.fault(kind, culprit.at, culprit.until))
}

fn bare_unit(scan: &Scan, figure: &Figure, bare: Bare) -> Result<Unit, LengthError> {
    match bare {
        Bare::Inches => Ok(Unit::Inch),
        Bare::Feet => Ok(Unit::Foot),
        Bare::Metric if !figure.is_whole || figure.ratio.value() < 100.0 => Ok(Unit::Metre),
        Bare::Metric if figure.ratio.value() >= 1000.0 => Ok(Unit::Millimetre),
        Bare::Metric => Err(scan.fault(Fault::Bare, figure.at, figure.until)),
    }
}

/// Reads the unit if one stands next.
fn unit(scan: &mut Scan) -> Result<Option<Unit>, LengthError> {
    let unit = match scan.peek() {
        Some(Token {
            kind: Kind::Prime, ..
        }) => Unit::Foot,
        Some(Token {
            kind: Kind::DoublePrime,
            ..
        }) => Unit::Inch,
        Some(Token {
            kind: Kind::Word(word),
            at,
            until,
        }) => match Unit::named(word) {
            Some(unit) => unit,
            None => return Err(scan.fault(Fault::LengthUnit, *at, *until)),
        },
        Some(Token {
            kind: Kind::Degree,
            at,
            until,
        }) => {
            return Err(scan.fault(Fault::LengthUnit, *at, *until));
        }
        _ => return Ok(None),
    };
    scan.skip();
    Ok(Some(unit))
}

/// Skips what may stand between two parts: `7' - 6"`, `7 ft, 6 in`, `7 feet and 6 inches`. A dash only
/// after feet and yards, since `2 m - 30 cm` reads as a subtraction.
fn joint(scan: &mut Scan, after: Unit) {
    let joins = match scan.peek().map(|token| &token.kind) {
        Some(Kind::Dash) => after.units() == Units::FeetInches,
        Some(Kind::Comma) => true,
        Some(Kind::Word(word)) => word == "and",
        _ => false,
    };
    if joins {
        scan.skip();
    }
}

/// A unit of length that may be typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Unit {
    Metre,
    Centimetre,
    Millimetre,
    Yard,
    Foot,
    Inch,
}

impl Unit {
    fn named(word: &str) -> Option<Self> {
        Some(match word {
            "m" | "metre" | "metres" | "meter" | "meters" => Self::Metre,
            "cm" | "cms" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => {
                Self::Centimetre
            }
            "mm" | "mms" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => {
                Self::Millimetre
            }
            "yd" | "yds" | "yard" | "yards" => Self::Yard,
            "ft" | "foot" | "feet" => Self::Foot,
            "in" | "ins" | "inch" | "inches" => Self::Inch,
            _ => return None,
        })
    }

    /// Source: NIST Special Publication 811, appendix B; from memory.
    fn metres(self) -> Ratio {
        let (over, under) = match self {
            Self::Metre => (1.0, 1.0),
            Self::Centimetre => (1.0, 100.0),
            Self::Millimetre => (1.0, 1000.0),
            Self::Yard => (1143.0, 1250.0), // 0.9144
            Self::Foot => (381.0, 1250.0),  // 0.3048
            Self::Inch => (127.0, 5000.0),  // 0.0254
        };
        Ratio { over, under }
    }

    fn units(self) -> Units {
        match self {
            Self::Metre | Self::Centimetre | Self::Millimetre => Units::Metric,
            Self::Yard | Self::Foot | Self::Inch => Units::FeetInches,
        }
    }

    fn plural(self) -> &'static str {
        match self {
            Self::Metre => "metres",
            Self::Centimetre => "centimetres",
            Self::Millimetre => "millimetres",
            Self::Yard => "yards",
            Self::Foot => "feet",
            Self::Inch => "inches",
        }
    }
}
