//! Setting out: the figures on the sheet rebuild the path, and the words say the right side.

#![expect(clippy::unwrap_used, reason = "the helpers of these tests fail by it")]

mod common;

#[path = "setout/bends.rs"]
mod bends;
#[path = "setout/clean.rs"]
mod clean;
#[path = "setout/offset_pegs.rs"]
mod offset_pegs;
#[path = "setout/placing.rs"]
mod placing;
#[path = "setout/rounding.rs"]
mod rounding;
#[path = "setout/ties.rs"]
mod ties;
#[path = "setout/words.rs"]
mod words;

use plan::Plan;
use plan::setout::{RouteSetOut, set_out};

/// The set-out of the first path.
fn out(plan: &Plan) -> RouteSetOut {
    let solved = plan.solve();
    match set_out(plan, &solved.schemes[0].routes[0]) {
        Some(out) => out,
        None => panic!("nothing to set out"),
    }
}

#[track_caller]
fn near(actual: f64, expected: f64, tolerance: f64) {
    assert!(
        (actual - expected).abs() <= tolerance,
        "{actual} for {expected}"
    );
}
