//! Whole paths: what stays when they are cut, turned, joined and branched, and what two bends do.

mod common;

#[path = "routes/anything.rs"]
mod anything;
#[path = "routes/bad_input.rs"]
mod bad_input;
#[path = "routes/branches.rs"]
mod branches;
#[path = "routes/chosen.rs"]
mod chosen;
#[path = "routes/directions.rs"]
mod directions;
#[path = "routes/ground.rs"]
mod ground;
#[path = "routes/kinds.rs"]
mod kinds;
#[path = "routes/landings.rs"]
mod landings;
#[path = "routes/names.rs"]
mod names;
#[path = "routes/numbers.rs"]
mod numbers;
#[path = "routes/options.rs"]
mod options;
#[path = "routes/refusing.rs"]
mod refusing;
#[path = "routes/together.rs"]
mod together;
#[path = "routes/two_bends.rs"]
mod two_bends;

use geometry::{Chain, Piece, Point};
use plan::Plan;
use plan::edit::Edit;
use plan::finding::Code;
use plan::solve::SolvedRoute;

/// The plan with this done to it; undone it is the very same plan as before, and done again the
/// very same as after.
#[track_caller]
fn with(plan: &Plan, edit: &Edit) -> Plan {
    let mut history = plan::History::new(plan.clone());
    if let Err(why) = history.commit(edit) {
        panic!("{edit:?}: {why}");
    }
    let after = Plan::clone(history.plan());
    if history.undo() {
        assert_eq!(&**history.plan(), plan, "undone: {edit:?}");
        assert!(history.redo());
        assert_eq!(**history.plan(), after, "done again: {edit:?}");
    }
    after
}

fn solved(plan: &Plan, route: usize) -> SolvedRoute {
    plan.solve().schemes.remove(0).routes.remove(route)
}

/// The centre line of a path of the first option.
#[track_caller]
fn line(plan: &Plan, route: usize) -> Chain {
    match solved(plan, route).centre_line {
        Some(chain) => chain,
        None => panic!("nothing is drawn"),
    }
}

/// The pieces of one leg of the first path.
fn leg_pieces(plan: &Plan, leg: usize) -> Vec<Piece> {
    solved(plan, 0).legs.swap_remove(leg)
}

fn at(x: f64, y: f64) -> Point {
    Point::new(x, y)
}

fn codes(plan: &Plan) -> Vec<Code> {
    plan.solve().findings.iter().map(|f| f.code).collect()
}

/// How far a line leaves another anywhere, or how much longer it is, in metres.
fn apart(one: &Chain, other: &Chain) -> f64 {
    let stations = (0..=60).map(|i| one.length() * f64::from(i) / 60.0);
    stations
        .map(|station| other.nearest(one.point_at(station)).distance)
        .fold((one.length() - other.length()).abs(), f64::max)
}

#[track_caller]
fn same_ground(one: &Chain, other: &Chain, what: &str) {
    let apart = apart(one, other);
    assert!(apart < 1e-9, "{what}: the line moves {apart} m");
}

#[track_caller]
fn near(actual: f64, expected: f64, tolerance: f64) {
    assert!(
        (actual - expected).abs() <= tolerance,
        "{actual} for {expected}"
    );
}
