//! The work of a path: which way each bend is set out, in which order, and with what.

#![allow(
    clippy::unwrap_used,
    clippy::float_cmp,
    reason = "a test that cannot go on must stop; what is copied is equal"
)]

#[path = "work/choices.rs"]
mod choices;
#[path = "work/choosing.rs"]
mod choosing;
mod common;
#[path = "work/ordering.rs"]
mod ordering;
#[path = "work/trust.rs"]
mod trust;

use geometry::Point;
use plan::Plan;
use plan::document::{Extent, Mark, Obstacle, ObstacleKind, Shape};
use plan::setout::{RouteWork, work};

fn at(x: f64, y: f64) -> Point {
    Point::new(x, y)
}

/// One bend from (0, 0) to (6, 0): rise 1.5 m, so that the string is 3.75 m, and the swing point
/// (3, −2.25). Three marks stand round it.
fn yard(obstacles: Vec<Obstacle>) -> Plan {
    let mut plan = common::plan(&[(0.0, 0.0), (6.0, 0.0)], vec![Shape::bend(1.5)]);
    let marks = [("well", -3.0, 5.0), ("gate", 3.0, 7.0), ("oak", 10.0, 4.0)];
    let site = plan.site_mut();
    site.marks = marks
        .map(|(name, x, y)| Mark {
            name: name.into(),
            at: at(x, y),
        })
        .to_vec();
    site.obstacles = obstacles;
    plan
}

fn round(kind: ObstacleKind, (x, y): (f64, f64), radius: f64) -> Obstacle {
    let centre = at(x, y);
    Obstacle::new("it", kind, Extent::Round { centre, radius })
}

fn points(points: &[(f64, f64)]) -> Vec<Point> {
    points.iter().map(|(x, y)| at(*x, *y)).collect()
}

fn worked(plan: &Plan) -> RouteWork {
    work(plan, &plan.solve(), (0, 0)).unwrap()
}
