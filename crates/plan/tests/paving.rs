//! Pavers counted on the real outline of a path.
#![allow(clippy::unwrap_used, reason = "a test may panic")]

mod common;

#[path = "paving/by_hand.rs"]
mod by_hand;
#[path = "paving/courses.rs"]
mod courses;
#[path = "paving/laws.rs"]
mod laws;
#[path = "paving/published.rs"]
mod published;
#[path = "paving/raster.rs"]
mod raster;
#[path = "paving/refusing.rs"]
mod refusing;
#[path = "paving/savings.rs"]
mod savings;

use plan::count::paving::{Bond, Course, Grid, Joints, Paving, Unit, count};
use plan::document::{Pad, PadShape, Route};
use plan::solve::SolvedRoute;

/// 200 by 100 mm with its joints of 2 mm, in one bond.
fn blocks(bond: Bond) -> Course {
    Course {
        unit: Unit {
            length: 0.198,
            width: 0.098,
        },
        joints: Joints {
            least: 0.002,
            usual: 0.002,
            most: 0.005,
        },
        bond,
        edges: None,
        grid: Grid::default(),
    }
}

/// The same without joints.
fn tight(bond: Bond) -> Course {
    Course {
        unit: Unit {
            length: 0.2,
            width: 0.1,
        },
        joints: Joints {
            least: 0.0,
            usual: 0.0,
            most: 0.0,
        },
        ..blocks(bond)
    }
}

fn solved(route: &Route) -> SolvedRoute {
    let solved = common::plan_of(route.clone()).solve();
    solved.schemes[0].routes[0].clone()
}

#[track_caller]
fn paved(route: &Route, course: &Course) -> Paving {
    count(&solved(route), course).unwrap()
}

fn wide(width: f64, route: Route) -> Route {
    Route { width, ..route }
}

fn pad(station: f64, shape: PadShape) -> Pad {
    Pad {
        name: "landing".into(),
        station,
        shape,
    }
}

#[track_caller]
fn near(actual: f64, expected: f64, within: f64) {
    assert!(
        (actual - expected).abs() <= within,
        "{actual}, not {expected}"
    );
}
