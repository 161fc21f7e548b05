//! The sheet followed by somebody who has only the paper: where its steps lead, what its tables add up
//! to, and whether its numbers are the figures of the plan.

#![expect(
    clippy::unwrap_used,
    reason = "helpers of tests fail the test by panicking"
)]

mod following;
mod numbers;
mod printed;
mod words;
