//! Several waypoints moved together.

use geometry::Vector;

use super::{EditError, Stopped, peg};
use crate::document::{Plan, Shape};

/// Moves several waypoints of one option by the same way. Legs with both ends among them keep
/// their shape; legs with one end follow the rule of a dragged peg.
pub(super) fn move_all(
    plan: &mut Plan,
    scheme: usize,
    waypoints: &[(usize, usize)],
    by: Vector,
) -> Result<(), EditError> {
    if !by.is_finite() {
        return Err(EditError::Held(Stopped::Limit));
    }
    for index in 0..plan.scheme_mut(scheme)?.routes.len() {
        let route = plan.route_mut(scheme, index)?;
        let chosen = |waypoint: usize| waypoints.contains(&(index, waypoint));
        let mut shapes: Vec<(usize, Shape)> = Vec::new();
        for leg in 0..route.legs.len() {
            let Some((from, to)) = route.ends_of(leg) else {
                continue;
            };
            if chosen(from) == chosen(to) {
                continue;
            }
            let moving = if chosen(from) { from } else { to };
            let goal = route.waypoints[moving].at + by;
            shapes.extend(peg::moved_legs(route, moving, &[leg], goal).map_err(EditError::Held)?);
        }
        let mut moved = false;
        for waypoint in 0..route.waypoints.len() {
            if chosen(waypoint) {
                route.waypoints[waypoint].at += by;
                moved = true;
            }
        }
        if moved && chosen(0) {
            route.start_on = None;
        }
        for (leg, shape) in shapes {
            route.legs[leg] = shape;
        }
    }
    Ok(())
}
