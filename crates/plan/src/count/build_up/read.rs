//! A build-up from a file of its own.

use std::fmt;

use super::{BuildUp, check};
use crate::file::{self, Slip};
use crate::limits::LimitError;

/// The largest build-up file that is read, in bytes: 1 MiB.
const FILE_BYTES: usize = 1024 * 1024;

/// Why a text is not a build-up.
#[derive(Clone, Debug, PartialEq)]
pub enum BuildUpError {
    /// The file is larger than is read.
    TooLarge {
        /// Its size in bytes.
        bytes: usize,
    },
    /// There is nothing in it.
    Empty,
    /// It is not written as a build-up is.
    Written {
        /// The line, from 1.
        line: usize,
        /// The column, from 1.
        column: usize,
        /// What stands there, if anything does.
        read: String,
        /// What is wrong there.
        what: String,
    },
    /// A figure is past a limit, or parts of it do not fit together.
    Limit(LimitError),
}

impl fmt::Display for BuildUpError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLarge { bytes } => write!(
                f,
                "the file has {bytes} bytes: a build-up has at most {FILE_BYTES} (1 MiB), so this is not one"
            ),
            Self::Empty => f.write_str("the file is empty: there is no build-up in it"),
            Self::Written {
                line,
                column,
                read,
                what,
            } => {
                write!(f, "line {line}, column {column}")?;
                if !read.is_empty() {
                    write!(f, ", at `{read}`")?;
                }
                write!(f, ": {what}")
            }
            Self::Limit(limit) => limit.fmt(f),
        }
    }
}

impl std::error::Error for BuildUpError {}

/// Reads a build-up.
///
/// # Errors
/// * [`BuildUpError::TooLarge`] and [`BuildUpError::Empty`] for what cannot be one;
/// * [`BuildUpError::Written`] with line, column and what stands there for what is not written as a
///   build-up is, unknown fields among it;
/// * [`BuildUpError::Limit`] for figures that are not finite or past a limit, by layer.
pub fn read_build_up(text: &str) -> Result<BuildUp, BuildUpError> {
    if text.len() > FILE_BYTES {
        return Err(BuildUpError::TooLarge { bytes: text.len() });
    }
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.trim().is_empty() {
        return Err(BuildUpError::Empty);
    }
    let build_up: BuildUp = file::read_data(text, "build-up").map_err(|slip| {
        let Slip { line, column, what } = slip;
        BuildUpError::Written {
            line,
            column,
            read: standing_at(text, line, column),
            what,
        }
    })?;
    check("the build-up", &build_up).map_err(BuildUpError::Limit)?;
    Ok(build_up)
}

/// Writes a build-up as a file of its own, which reads back as the same.
#[must_use]
pub fn write_build_up(build_up: &BuildUp) -> String {
    file::write_data(build_up)
}

/// What stands at a place of a text, to the end of its line, at most so many characters of it.
fn standing_at(text: &str, line: usize, column: usize) -> String {
    const SHOWN: usize = 24;
    let rest: String = text
        .lines()
        .nth(line.saturating_sub(1))
        .unwrap_or_default()
        .chars()
        .skip(column.saturating_sub(1))
        .collect();
    let rest = rest.trim();
    if rest.chars().count() <= SHOWN {
        return rest.to_owned();
    }
    rest.chars().take(SHOWN).chain(['…']).collect()
}
