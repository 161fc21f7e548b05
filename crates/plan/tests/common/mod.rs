//! Plans to try things on.

#![allow(dead_code, reason = "no test file needs all of them")]

use geometry::{Bend, Figure, Point};
use plan::Plan;
use plan::document::{Route, Scheme, Shape, Waypoint};
use plan::edit::{Edit, LegId, WaypointId};
use plan::units::Units;

/// A path 1.2 m wide through these points.
pub(crate) fn route(points: &[(f64, f64)], legs: Vec<Shape>) -> Route {
    Route {
        name: "path".into(),
        width: 1.2,
        waypoints: points.iter().map(|p| waypoint(*p, None)).collect(),
        closed: legs.len() == points.len() && !legs.is_empty(),
        legs,
        start_direction: None,
        end_direction: None,
        ..Route::default()
    }
}

pub(crate) fn waypoint((x, y): (f64, f64), rounding: Option<f64>) -> Waypoint {
    Waypoint {
        at: Point::new(x, y),
        rounding,
    }
}

/// A metric plan with this one path, judged by no rules.
pub(crate) fn plan_of(route: Route) -> Plan {
    let scheme = Scheme {
        name: "option".into(),
        routes: vec![route],
        ..Scheme::default()
    };
    Plan {
        schemes: vec![scheme],
        rules: Vec::new(),
        ..Plan::empty(Units::Metric)
    }
}

/// A metric plan with one path through these points.
pub(crate) fn plan(points: &[(f64, f64)], legs: Vec<Shape>) -> Plan {
    plan_of(route(points, legs))
}

pub(crate) fn path(plan: &Plan) -> &Route {
    &plan.schemes[0].routes[0]
}

pub(crate) fn leg(leg: usize) -> LegId {
    LegId {
        scheme: 0,
        route: 0,
        leg,
    }
}

pub(crate) fn peg(waypoint: usize) -> WaypointId {
    WaypointId {
        scheme: 0,
        route: 0,
        waypoint,
    }
}

pub(crate) fn drag(waypoint: usize, (x, y): (f64, f64)) -> Edit {
    Edit::MoveWaypoint {
        id: peg(waypoint),
        to: Point::new(x, y),
    }
}

pub(crate) fn typed(leg_number: usize, figure: Figure, value: f64) -> Edit {
    Edit::SetFigure {
        id: leg(leg_number),
        figure,
        value,
    }
}

/// The signed rise of a leg and what holds of it.
pub(crate) fn bend_of(plan: &Plan, leg: usize) -> (f64, Vec<Figure>) {
    match &path(plan).legs[leg] {
        Shape::Bend { rise, holds } => (*rise, holds.clone()),
        other => panic!("leg {leg} is {other:?}"),
    }
}

/// The size of a bend as it is stored.
#[expect(clippy::unwrap_used, reason = "a test asks for bends only")]
pub(crate) fn size_of(plan: &Plan, leg: usize) -> Bend {
    let route = path(plan);
    let (from, to) = route.ends_of(leg).unwrap();
    let chord = route.waypoints[from].at.distance(route.waypoints[to].at);
    Bend::from_chord_and_rise(chord, bend_of(plan, leg).0.abs()).unwrap()
}
