//! A path of any number of legs: the same work for us and for the general libraries beside us.

pub mod among;

use std::f64::consts::PI;

use geometry::{Direction, Point, Vector};
use plan::Plan;
use plan::document::{Route, Shape, Waypoint};
use plan::units::Units;

/// Length of the straights, in metres.
const STRAIGHT: f64 = 3.0;
/// Radius of the bends, in metres.
const RADIUS: f64 = 4.0;
/// Sweep of the bends, in radians.
const SWEEP: f64 = PI / 3.0;
/// How much the corners turn, in radians.
const CORNER: f64 = PI / 9.0;
/// After so many legs comes a corner; all other legs join smoothly.
const LEGS_TO_A_CORNER: usize = 10;

/// A plan with one path of so many legs: straights and bends in turn, left and right in turn, with a corner now and
/// then. It winds along and never crosses itself.
#[must_use]
pub fn plan(legs: usize) -> Plan {
    let mut plan = Plan::empty(Units::Metric);
    if let Some(scheme) = plan.schemes.first_mut() {
        scheme.routes.push(route(legs));
    }
    plan
}

fn route(legs: usize) -> Route {
    let waypoint = |at: Point| Waypoint { at, rounding: None };
    let mut at = Point::ORIGIN;
    let mut way = Direction::EAST;
    let mut route = Route {
        name: "Winding".to_owned(),
        width: 1.2,
        waypoints: vec![waypoint(at)],
        legs: Vec::with_capacity(legs),
        ..Route::default()
    };
    for leg in 0..legs {
        if leg % 2 == 0 {
            route.legs.push(Shape::Straight);
            at += way.unit() * STRAIGHT;
        } else {
            let turn = if leg % 4 == 1 { SWEEP } else { -SWEEP };
            let rise = RADIUS * (1.0 - (0.5 * SWEEP).cos());
            route.legs.push(Shape::bend(rise.copysign(-turn)));
            at += way.turned(0.5 * turn).unit() * (2.0 * RADIUS * (0.5 * SWEEP).sin());
            way = way.turned(turn);
        }
        route.waypoints.push(waypoint(at));
        if leg % LEGS_TO_A_CORNER == LEGS_TO_A_CORNER - 1 {
            let left = (leg / LEGS_TO_A_CORNER).is_multiple_of(2);
            way = way.turned(if left { CORNER } else { -CORNER });
        }
    }
    route
}

/// Legs in a row of a [`park`].
const LEGS_IN_A_ROW: usize = 80;
/// The legs of a park, again and again: how far each leads along its row and up from it, what it is,
/// and the radius of the rounding at its start.
const CELL: [(f64, f64, Leg, Option<f64>); 4] = [
    (3.0, 0.0, Leg::Straight, None),
    (3.0, 1.0, Leg::Straight, Some(2.0)),
    (4.0, 0.0, Leg::Bend, None),
    (3.0, -1.0, Leg::Onward, None),
];
/// From one row of a park up to the next, in metres.
const ROW: f64 = 8.0;

#[derive(Clone, Copy)]
enum Leg {
    Straight,
    Bend,
    Onward,
}

/// A plan with one path of so many legs of every kind, straights, bends, onward bends and rounded corners, led to and
/// fro over a park so that all of it fits a picture. It never crosses itself.
#[must_use]
pub fn park(legs: usize) -> Plan {
    let mut plan = Plan::empty(Units::Metric);
    // Drawn for its many legs, not to be walked: no rule is held against it.
    plan.rules.clear();
    let mut at = Point::ORIGIN;
    let waypoint = |at: Point, rounding: Option<f64>| Waypoint { at, rounding };
    let mut route = Route {
        name: "Park".to_owned(),
        width: 1.2,
        waypoints: vec![waypoint(at, None)],
        legs: Vec::with_capacity(legs),
        ..Route::default()
    };
    for leg in 0..legs {
        let (row, nth) = (leg / LEGS_IN_A_ROW, leg % LEGS_IN_A_ROW);
        let east = if row.is_multiple_of(2) { 1.0 } else { -1.0 };
        if nth + 1 == LEGS_IN_A_ROW {
            // Up to the next row.
            let straight_up = ROW * (row as f64 + 1.0) - at.y;
            route.legs.push(Shape::Straight);
            at += Vector::new(0.0, straight_up);
            route.waypoints.push(waypoint(at, None));
            continue;
        }
        let (along, up, kind, rounding) = CELL[nth % CELL.len()];
        if let (Some(last), true) = (route.waypoints.last_mut(), leg > 0) {
            last.rounding = rounding;
        }
        at += Vector::new(east * along, up);
        route.legs.push(match kind {
            Leg::Straight => Shape::Straight,
            Leg::Bend => Shape::bend(0.5 * east),
            Leg::Onward => Shape::Onward,
        });
        route.waypoints.push(waypoint(at, None));
    }
    if let Some(scheme) = plan.schemes.first_mut() {
        scheme.routes.push(route);
    }
    plan
}

/// A plan with one path of so many straights that goes to and fro over a circle, so that nearly every leg crosses
/// nearly every other.
#[must_use]
pub fn tangle(legs: usize) -> Plan {
    let mut plan = park(legs);
    if let Some(route) = plan
        .schemes
        .first_mut()
        .and_then(|scheme| scheme.routes.first_mut())
    {
        let mut angle: f64 = 0.0;
        for waypoint in &mut route.waypoints {
            waypoint.at = Point::new(30.0 * angle.cos(), 30.0 * angle.sin());
            waypoint.rounding = None;
            angle += 2.4;
        }
        route.legs.fill(Shape::Straight);
    }
    plan
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_park_has_every_kind_of_leg_and_nothing_to_stop_for() {
        let solved = park(400).solve();
        let route = &solved.schemes[0].routes[0];
        let pieces = route.centre_line.as_ref().unwrap().pieces();
        assert_eq!(pieces.len(), 400 + 100);
        assert!(route.left_edge.is_some() && route.right_edge.is_some());
        for finding in &solved.findings {
            assert_eq!(
                finding.severity,
                plan::finding::Severity::Note,
                "{finding:?}"
            );
        }
    }

    #[test]
    fn the_path_has_nothing_wrong_with_it() {
        let solved = plan(200).solve();
        let centre_line = solved.schemes[0].routes[0].centre_line.as_ref().unwrap();
        assert_eq!(centre_line.pieces().len(), 200);
        let length = 100.0 * (STRAIGHT + RADIUS * SWEEP);
        assert!((centre_line.length() - length).abs() < 1e-9);
        assert_eq!(centre_line.self_crossings(), []);
        // Only the corners are pointed out, if anything is.
        for finding in &solved.findings {
            assert_ne!(
                finding.severity,
                plan::finding::Severity::Stop,
                "{finding:?}"
            );
        }
    }
}
