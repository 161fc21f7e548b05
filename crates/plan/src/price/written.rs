//! How prices and counts are written in a price list: as text, so that no digit a person typed is lost.

use std::fmt;

use rust_decimal::Decimal;
use serde::de::{Deserializer, Error, Visitor};

/// The most digits behind the point of a price, a count or a share.
pub(super) const MOST_DIGITS: u32 = 4;
/// The largest price, and the most packs or units of one thing: with this the product of the two and every sum
/// stay whole in the 28 digits of a decimal.
pub(super) const LARGEST: Decimal = Decimal::from_parts(1_000_000_000, 0, 0, false, 0);
/// The most characters of a text that are shown in a sentence.
const SHOWN: usize = 32;

/// Why a text is no figure.
pub(super) struct NoFigure;

/// Reads plain figures: digits, one point, perhaps a minus.
pub(super) fn parse(text: &str) -> Result<Decimal, NoFigure> {
    let plain = |c: char| c.is_ascii_digit() || matches!(c, '.' | '-');
    if text.is_empty() || !text.chars().all(plain) {
        return Err(NoFigure);
    }
    let mut figure = Decimal::from_str_exact(text).map_err(|_| NoFigure)?;
    if figure.is_zero() {
        figure.set_sign_positive(true);
    }
    Ok(figure)
}

/// A text cut short and without control characters, to be shown in a sentence.
pub(super) fn shown(text: &str) -> String {
    let clean = |c: char| {
        if c.is_control() {
            char::REPLACEMENT_CHARACTER
        } else {
            c
        }
    };
    text.chars().take(SHOWN).map(clean).collect()
}

/// What is wrong with a price: below nothing, too large or too fine.
pub(super) fn price_fault(price: Decimal) -> Option<String> {
    if price < Decimal::ZERO {
        Some(format!("a price is 0 or more, this one is {price}"))
    } else {
        fault("a price", price)
    }
}

/// What is wrong with a count: nothing or less, too large or too fine.
pub(super) fn count_fault(count: Decimal) -> Option<String> {
    if count <= Decimal::ZERO {
        Some(format!("a count is more than 0, this one is {count}"))
    } else {
        fault("a count", count)
    }
}

fn fault(what: &str, figure: Decimal) -> Option<String> {
    if figure > LARGEST {
        Some(format!("{what} is at most {LARGEST}, this one is {figure}"))
    } else if figure.scale() > MOST_DIGITS {
        Some(format!(
            "{what} has at most {MOST_DIGITS} digits behind the point, this one is {figure}"
        ))
    } else {
        None
    }
}

/// Reads a price.
pub(super) fn price<'de, D: Deserializer<'de>>(input: D) -> Result<Decimal, D::Error> {
    figure(input, price_fault)
}

/// Reads a count of packs or units.
pub(super) fn count<'de, D: Deserializer<'de>>(input: D) -> Result<Decimal, D::Error> {
    figure(input, count_fault)
}

fn figure<'de, D: Deserializer<'de>>(
    input: D,
    fault: fn(Decimal) -> Option<String>,
) -> Result<Decimal, D::Error> {
    read(&text(input, "24.50")?, fault).map_err(D::Error::custom)
}

fn read(text: &str, fault: fn(Decimal) -> Option<String>) -> Result<Decimal, MoneyError> {
    if text.trim().is_empty() {
        return Err(MoneyError::Empty);
    }
    let figure = parse(text.trim()).map_err(|NoFigure| MoneyError::Written(shown(text)))?;
    fault(figure).map_or(Ok(figure), |fault| Err(MoneyError::Limit(fault)))
}

/// Why a text is no price and no count.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum MoneyError {
    /// There is nothing in it.
    Empty,
    /// It is not written in plain figures.
    Written(String),
    /// It is past a limit: a sentence.
    Limit(String),
}

impl fmt::Display for MoneyError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => f.write_str(
                "nothing is written here: write figures, such as \"24.50\", or take this line of the list out",
            ),
            Self::Written(text) => write!(
                f,
                "`{text}` is no price or count: write figures with a point before the decimals and nothing between thousands, such as \"1250.00\""
            ),
            Self::Limit(limit) => f.write_str(limit),
        }
    }
}

impl std::error::Error for MoneyError {}

/// Reads a price as a person types it: plain figures, such as `24.50`.
///
/// # Errors
/// [`MoneyError`] for what is no figure, below 0, too large or too fine.
pub fn read_price(text: &str) -> Result<Decimal, MoneyError> {
    read(text, price_fault)
}

/// Reads a count of packs or units as a person types it.
///
/// # Errors
/// [`MoneyError`] for what is no figure, 0 or below, too large or too fine.
pub fn read_count(text: &str) -> Result<Decimal, MoneyError> {
    read(text, count_fault)
}

/// Reads a price that may be missing.
pub(super) fn some_price<'de, D: Deserializer<'de>>(input: D) -> Result<Option<Decimal>, D::Error> {
    input.deserialize_option(Maybe(price_fault))
}

/// Reads a count that may be missing.
pub(super) fn some_count<'de, D: Deserializer<'de>>(input: D) -> Result<Option<Decimal>, D::Error> {
    input.deserialize_option(Maybe(count_fault))
}

struct Maybe(fn(Decimal) -> Option<String>);

impl<'de> Visitor<'de> for Maybe {
    type Value = Option<Decimal>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Some(…) or None")
    }

    fn visit_none<E: Error>(self) -> Result<Self::Value, E> {
        Ok(None)
    }

    fn visit_some<D: Deserializer<'de>>(self, input: D) -> Result<Self::Value, D::Error> {
        figure(input, self.0).map(Some)
    }
}

/// Reads text; a bare number is refused with the way to write it.
pub(super) fn text<'de, D: Deserializer<'de>>(
    input: D,
    example: &'static str,
) -> Result<String, D::Error> {
    input.deserialize_any(Quoted(example))
}

struct Quoted(&'static str);

impl Quoted {
    fn refuse<T, E: Error>(&self) -> Result<T, E> {
        Err(E::custom(format_args!(
            "this is written between double quotes, such as \"{}\"",
            self.0
        )))
    }
}

impl Visitor<'_> for Quoted {
    type Value = String;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "text between double quotes, such as \"{}\"", self.0)
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<String, E> {
        Ok(text.to_owned())
    }

    fn visit_u64<E: Error>(self, _: u64) -> Result<String, E> {
        self.refuse()
    }

    fn visit_i64<E: Error>(self, _: i64) -> Result<String, E> {
        self.refuse()
    }

    fn visit_f64<E: Error>(self, _: f64) -> Result<String, E> {
        self.refuse()
    }
}
