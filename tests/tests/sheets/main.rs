//! The stake-out as someone gets it who has only the paper: nothing overlaps, nothing leaves the page,
//! the scale is true, and pegs and swing points can be rebuilt from its words alone.
//!
//! `PEGBOW_SHEETS_DIR=some/folder cargo test -p pegbow-tests --test sheets` also writes every sheet there.

#![expect(
    clippy::unwrap_used,
    reason = "helpers of tests fail the test by panicking"
)]

mod layout;
mod plans;
mod reading;

use sheet::{Date, Paper, Request, Sheet, compose, pdf};

use plans::Case;

/// The sheet of a case.
fn composed(case: &Case, paper: Paper) -> Sheet {
    let request = Request {
        scheme: case.scheme,
        paper,
        both_units: case.both,
        date: Date::new(2026, 11, 25),
    };
    compose(&case.plan, &case.plan.solve(), &request)
}

fn written(case: &Case, paper: Paper) -> Vec<u8> {
    let bytes =
        pdf(&composed(case, paper)).unwrap_or_else(|error| panic!("{}: {error}", case.name));
    if let Ok(folder) = std::env::var("PEGBOW_SHEETS_DIR") {
        let name = format!("{folder}/{}-{}.pdf", case.name, paper.name().to_lowercase());
        std::fs::write(name, &bytes).unwrap();
    }
    bytes
}
