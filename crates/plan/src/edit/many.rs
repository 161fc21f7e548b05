//! Several waypoints moved together.

use std::collections::HashSet;

use geometry::Vector;

use super::{EditError, Stopped, peg};
use crate::document::{Plan, Shape};

/// Moves several waypoints of one option by the same way. Legs with both ends among them keep
/// their shape; legs with one end follow the rule of a dragged peg. A path that starts on the edge
/// of another leaves it, unless that path goes along as a whole.
pub(super) fn move_all(
    plan: &mut Plan,
    scheme: usize,
    waypoints: &[(usize, usize)],
    by: Vector,
) -> Result<(), EditError> {
    if !by.is_finite() {
        return Err(EditError::Held(Stopped::Limit));
    }
    let routes = &plan.scheme_mut(scheme)?.routes;
    let pegs: Vec<usize> = routes.iter().map(|route| route.waypoints.len()).collect();
    let there = |(route, waypoint): &(usize, usize)| pegs.get(*route).is_some_and(|n| waypoint < n);
    if !waypoints.iter().all(there) {
        return Err(EditError::NotThere);
    }
    let waypoints: HashSet<(usize, usize)> = waypoints.iter().copied().collect();
    let goes = |route: usize| {
        let all = |count: &usize| (0..*count).all(|peg| waypoints.contains(&(route, peg)));
        pegs.get(route).is_some_and(all)
    };
    for (index, count) in pegs.iter().enumerate() {
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
        for waypoint in (0..*count).filter(|waypoint| chosen(*waypoint)) {
            route.waypoints[waypoint].at += by;
        }
        if chosen(0) {
            route.start_on = route
                .start_on
                .filter(|on| on.route.checked_sub(1).is_some_and(goes));
        }
        for (leg, shape) in shapes {
            route.legs[leg] = shape;
        }
    }
    Ok(())
}
