//! From a route to exact lines and arcs, edges, areas and findings.

mod common;

#[path = "solving/areas.rs"]
mod areas;
#[path = "solving/curves.rs"]
mod curves;
#[path = "solving/findings.rs"]
mod findings;
#[path = "solving/roundings.rs"]
mod roundings;

use geometry::{Bend, Chain};
use plan::document::Route;
use plan::solve::SolvedRoute;

fn solved(route: Route) -> SolvedRoute {
    common::plan_of(route)
        .solve()
        .schemes
        .remove(0)
        .routes
        .remove(0)
}

fn line(route: &SolvedRoute) -> &Chain {
    match &route.centre_line {
        Some(chain) => chain,
        None => panic!("nothing is drawn"),
    }
}

/// The bends of the centre line, in walking order.
fn bends(route: &SolvedRoute) -> Vec<Bend> {
    let pieces = line(route).pieces().iter();
    pieces
        .filter_map(|piece| piece.arc().map(geometry::Arc::bend))
        .collect()
}

#[track_caller]
fn near(actual: f64, expected: f64, tolerance: f64) {
    assert!(
        (actual - expected).abs() <= tolerance,
        "{actual} for {expected}"
    );
}
