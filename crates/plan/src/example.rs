//! The built-in example: Quince Yard, an invented community orchard.

use crate::document::Plan;
use crate::file::{self, FileError};

/// The example as a plan file.
pub const TEXT: &str = include_str!("../../../assets/quince-yard.ron");

/// The example read.
///
/// # Errors
/// As [`file::read`]; a test sees to it that there are none.
pub fn plan() -> Result<Plan, FileError> {
    file::read(TEXT.as_bytes())
}
