//! The file a price list is kept in between jobs.

use std::fmt;

use super::{PriceList, VERSION, check};
use crate::file::{FileError, Kind, read_as, write_data};

const KIND: Kind = Kind {
    noun: "price list",
    version: VERSION,
};

/// Why a text is no price list, and where.
#[derive(Clone, Debug, PartialEq)]
pub struct PriceFileError(pub FileError);

impl fmt::Display for PriceFileError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.say(f, &KIND)
    }
}

impl std::error::Error for PriceFileError {}

/// Reads a price list.
///
/// # Errors
/// As [`crate::file::read`]: what is not text, newer, not written as a price list is, or past a limit. A figure that
/// is no price is told with its line and column.
///
/// ```
/// let text = r#"(version: 1, lines: [(key: "gravel", sold: Per(Tonne), price: "-3")])"#;
/// let error = plan::price::read_price_list(text.as_bytes()).unwrap_err();
/// assert_eq!(error.to_string(), "line 1, column 64: a price is 0 or more, this one is -3");
/// ```
pub fn read_price_list(bytes: &[u8]) -> Result<PriceList, PriceFileError> {
    let prices = read_as(bytes, &KIND).map_err(PriceFileError)?;
    check(&prices).map_err(|limit| PriceFileError(limit.into()))?;
    Ok(prices)
}

/// Writes a price list: reading it again gives the very same list, and writing that the very same text.
#[must_use]
pub fn write_price_list(prices: &PriceList) -> String {
    write_data(prices)
}
