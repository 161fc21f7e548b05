//! Angles as people write them: read from text, written in degrees.

use geometry::Direction;
use geometry::angle::{from_degrees, to_degrees};

use super::error::{AngleError, Fault};
use super::graduation::Step;
use super::scan::{Figure, Ratio, Scan};
use super::token::{Kind, Token};

/// Reads an angle, in radians: `105`, `105°`, `105 deg`, `1.8 rad`, `45° 30′`, `45 30 15`, `22½°`.
///
/// A number without unit is degrees, the next minutes, the next seconds. Minutes and seconds stay below 60,
/// and only the last part has a fraction or decimals. The sign stands in front; any size is read.
///
/// # Errors
/// An [`AngleError`] with the place, if the text is empty, longer than 64 characters, or not such an angle.
///
/// ```
/// # use plan::units::{Fault, parse_angle};
/// assert_eq!(parse_angle("180")?, std::f64::consts::PI);
/// assert_eq!(parse_angle("-1.8 rad")?, -1.8);
/// assert_eq!(parse_angle("45° 75′").unwrap_err().kind, Fault::TooLarge);
/// # Ok::<(), plan::units::AngleError>(())
/// ```
pub fn parse_angle(text: &str) -> Result<f64, AngleError> {
    let mut scan = Scan::new(text)?;
    let mut total = Ratio::ZERO;
    let mut before: Option<(Part, Figure)> = None;
    loop {
        let figure = scan.figure()?;
        let part = match (part(&mut scan)?, before) {
            (Some(part), _) => part,
            (None, None) => Part::Degrees,
            (None, Some((Part::Degrees, _))) => Part::Minutes,
            (None, Some(_)) => Part::Seconds,
        };
        if let Some(before) = before {
            check_after(&scan, before, (part, figure))?;
        }
        total = total.plus(figure.ratio.times(Ratio {
            over: 1.0,
            under: part.per_degree(),
        }));
        let Some(next) = scan.peek() else {
            let size = match part {
                Part::Radians => total.value(),
                _ => from_degrees(total.value()),
            };
            // never minus zero
            return Ok(if scan.is_negative && size > 0.0 {
                -size
            } else {
                size
            });
        };
        if next.kind == Kind::Dash || next.kind == Kind::Comma {
            scan.skip();
        }
        before = Some((part, figure));
    }
}

/// Refuses two parts of which the second does not follow from the first.
fn check_after(
    scan: &Scan,
    (before, more): (Part, Figure),
    (part, figure): (Part, Figure),
) -> Result<(), AngleError> {
    let (kind, culprit) = if part == Part::Radians || before == Part::Radians {
        (Fault::Mixed, figure)
    } else if part.per_degree() <= before.per_degree() {
        (Fault::Order, figure)
    } else if !more.is_whole {
        (Fault::NotWhole, more)
    } else if figure.ratio.value() >= part.per_degree() / before.per_degree() {
        (Fault::TooLarge, figure)
    } else {
        return Ok(());
    };
    Err(scan.fault(kind, culprit.at, culprit.until))
}

/// The angle in degrees to the hundredth, such as `105.25°`: 2 mm at the end of a 10 m string. Rounded half
/// away from zero, never minus zero, and read back by [`parse_angle`]. What is not a number or
/// past a thousand million degrees is written as bare radians.
///
/// ```
/// # use plan::units::angle_text;
/// assert_eq!(angle_text(std::f64::consts::FRAC_PI_3), "60.00°");
/// assert_eq!(angle_text(-0.00001), "0.00°");
/// ```
#[must_use]
pub fn angle_text(radians: f64) -> String {
    match counted(radians, 100) {
        Some((sign, count)) => format!("{sign}{}.{:02}°", count / 100, count % 100),
        None => format!("{radians:e} rad"),
    }
}

/// A direction as its angle and as so much in so much: `12.53° north of east, 1 in 4.50`.
///
/// The angle is measured from the nearer of east and west, up to 90°; the ratio is the lesser way
/// in the greater, none along an axis or on the diagonal.
///
/// ```
/// # use geometry::{Direction, Vector};
/// # use plan::units::direction_text;
/// let way = |x, y| direction_text(Direction::of(Vector::new(x, y)).unwrap());
/// assert_eq!(way(4.0, 1.0), "14.04° north of east, 1 in 4.00");
/// assert_eq!(way(-1.0, -2.0), "63.43° south of west, 2 in 1");
/// assert_eq!(way(0.0, 3.0), "north");
/// ```
#[must_use]
pub fn direction_text(direction: Direction) -> String {
    let unit = direction.unit();
    let (x, y) = (unit.x.abs(), unit.y.abs());
    let across = if unit.x < 0.0 { "west" } else { "east" };
    let up = if unit.y < 0.0 { "south" } else { "north" };
    // Less than the angle text shows is along the axis.
    const ALONG: f64 = 5e-5;
    if y < ALONG {
        return across.to_owned();
    }
    if x < ALONG {
        return up.to_owned();
    }
    let ratio = ratio_text(y / x);
    format!("{} {up} of {across}, {ratio}", angle_text(y.atan2(x)))
}

/// A slope as so much in so much: `1 in 4.50` up to one in one, `2.50 in 1` beyond.
fn ratio_text(slope: f64) -> String {
    let figure = |value: f64| {
        let text = format!("{value:.2}");
        text.strip_suffix(".00").map(str::to_owned).unwrap_or(text)
    };
    if slope <= 1.0 {
        format!("1 in {:.2}", 1.0 / slope)
    } else {
        format!("{} in 1", figure(slope))
    }
}

/// The angle in degrees and minutes, such as `105° 07′`, as an angle instrument is set. Rounded and read
/// back as [`angle_text`].
///
/// ```
/// # use plan::units::{degrees_minutes, parse_angle};
/// assert_eq!(degrees_minutes(parse_angle("44.9999")?), "45° 00′");
/// # Ok::<(), plan::units::AngleError>(())
/// ```
#[must_use]
pub fn degrees_minutes(radians: f64) -> String {
    match counted(radians, 60) {
        Some((sign, count)) => format!("{sign}{}° {:02}′", count / 60, count % 60),
        None => format!("{radians:e} rad"),
    }
}

/// The sign and the whole number of parts of a degree in an angle.
fn counted(radians: f64, per_degree: u32) -> Option<(&'static str, u64)> {
    let degrees = to_degrees(radians);
    if degrees.abs() <= 1e9 {
        let count = Step {
            over: 1,
            under: per_degree,
        }
        .count(degrees);
        Some((if count < 0 { "−" } else { "" }, count.unsigned_abs()))
    } else {
        None
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Part {
    Degrees,
    Minutes,
    Seconds,
    Radians,
}

impl Part {
    /// How many make a degree; radians are kept as they are.
    fn per_degree(self) -> f64 {
        match self {
            Self::Degrees | Self::Radians => 1.0,
            Self::Minutes => 60.0,
            Self::Seconds => 3600.0,
        }
    }
}

/// Reads the unit if one stands next.
fn part(scan: &mut Scan) -> Result<Option<Part>, AngleError> {
    let part = match scan.peek() {
        Some(Token {
            kind: Kind::Degree, ..
        }) => Part::Degrees,
        Some(Token {
            kind: Kind::Prime, ..
        }) => Part::Minutes,
        Some(Token {
            kind: Kind::DoublePrime,
            ..
        }) => Part::Seconds,
        Some(Token {
            kind: Kind::Word(word),
            at,
            until,
        }) => match word.as_str() {
            "deg" | "degs" | "degree" | "degrees" => Part::Degrees,
            "min" | "mins" | "minute" | "minutes" => Part::Minutes,
            "sec" | "secs" | "second" | "seconds" => Part::Seconds,
            "rad" | "rads" | "radian" | "radians" => Part::Radians,
            _ => return Err(scan.fault(Fault::AngleUnit, *at, *until)),
        },
        _ => return Ok(None),
    };
    scan.skip();
    Ok(Some(part))
}
