//! Several waypoints moved, mirrored or copied together.

use std::cmp::Reverse;
use std::collections::{BTreeSet, HashSet};

use geometry::{Direction, Point, Vector};

use super::keep::{
    free_onward, hold_end, hold_start, length, parted_at, renumber_methods, starts_elsewhere,
};
use super::route::{SAME_PEG, mirror_heading, mirrored, renamed, solved, turn_over};
use super::{EditError, Stopped, peg};
use crate::document::{Plan, Route, Shape};
use crate::solve::SolvedRoute;

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
        let shapes = shapes_at_the_border(route, chosen, |at| at + by)?;
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

/// The shapes of the legs with one end that moves, by the rule of a dragged peg.
fn shapes_at_the_border(
    route: &Route,
    moves: impl Fn(usize) -> bool,
    goal: impl Fn(Point) -> Point,
) -> Result<Vec<(usize, Shape)>, EditError> {
    let mut shapes = Vec::new();
    for leg in 0..route.legs.len() {
        let Some((from, to)) = route.ends_of(leg) else {
            continue;
        };
        if moves(from) == moves(to) {
            continue;
        }
        let moving = if moves(from) { from } else { to };
        let goal = goal(route.waypoints[moving].at);
        shapes.extend(peg::moved_legs(route, moving, &[leg], goal).map_err(EditError::Held)?);
    }
    Ok(shapes)
}

/// Mirrors several waypoints of a path in the line from the first to the last of them, and with
/// them the legs that have both ends among them.
///
/// All other legs stay as they are drawn, but for those with one end that moves, which follow the
/// rule of a dragged peg, and two bends beside a mirrored leg, which join it smoothly again.
pub(super) fn mirror(
    plan: &mut Plan,
    (scheme, index): (usize, usize),
    waypoints: &[usize],
) -> Result<(), EditError> {
    let was = solved(plan, scheme, index)?;
    let site = plan.site.clone();
    let route = plan.route_mut(scheme, index)?;
    let order = in_order(route, waypoints)?;
    let [first, between @ .., last] = order.as_slice() else {
        return Err(EditError::MirrorLine);
    };
    let (from, to) = (route.waypoints[*first].at, route.waypoints[*last].at);
    let along = Direction::of(to - from)
        .filter(|_| !between.is_empty() && from.distance(to) >= SAME_PEG)
        .ok_or(EditError::MirrorLine)?;
    let image = |at: Point| from + mirrored(at - from, along);

    let moving: BTreeSet<usize> = between.iter().copied().collect();
    let chosen: BTreeSet<usize> = order.iter().copied().collect();
    let shapes = shapes_at_the_border(route, |peg| moving.contains(&peg), image)?;
    let turned: Vec<bool> = (0..route.legs.len())
        .map(|leg| {
            let ends = route.ends_of(leg);
            ends.is_some_and(|(a, b)| chosen.contains(&a) && chosen.contains(&b))
        })
        .collect();
    for leg in 0..route.legs.len() {
        // A direction held at the start comes before the leg before: it is mirrored with the leg.
        let before = match leg {
            0 if route.start_direction.is_some() => None,
            _ => route.legs_at(leg).0,
        };
        let follows = (route.ends_of(leg))
            .is_some_and(|(a, b)| moving.contains(&a) != moving.contains(&b) && !turned[leg]);
        if !follows && before.is_some_and(|before| turned[before] != turned[leg]) {
            free_onward(route, &was, leg);
        }
    }
    for (leg, shape) in shapes.into_iter().filter(|(leg, _)| !turned[*leg]) {
        route.legs[leg] = shape;
    }
    for (leg, _) in turned.iter().enumerate().filter(|(_, turned)| **turned) {
        turn_over(&mut route.legs[leg]);
    }
    for peg in moving {
        route.waypoints[peg].at = image(route.waypoints[peg].at);
    }
    if turned.first() == Some(&true) {
        mirror_heading(&mut route.start_direction, along, &site);
    }
    if turned.last() == Some(&true) {
        mirror_heading(&mut route.end_direction, along, &site);
    }
    Ok(())
}

/// Copies what runs from the first to the last of several waypoints of a path as a path of its
/// own, with the landings on it.
pub(super) fn copy(
    plan: &mut Plan,
    (scheme, index): (usize, usize),
    waypoints: &[usize],
    by: Vector,
) -> Result<(), EditError> {
    let was = solved(plan, scheme, index)?;
    let route = plan.route_mut(scheme, index)?;
    let order = in_order(route, waypoints)?;
    let [first, .., last] = order[..] else {
        return Err(EditError::OnePeg);
    };
    let mut copy = route.clone();
    copy.start_on = None;
    copy.name = renamed(&route.name, "copy");
    if order.len() < route.waypoints.len() {
        cut_out(&mut copy, &was, [first, last]);
    }
    for waypoint in &mut copy.waypoints {
        waypoint.at += by;
    }
    let places: Option<Vec<Point>> = was.centre_line.as_ref().map(|line| {
        let pads = copy.pads.iter();
        pads.map(|pad| line.point_at(pad.station) + by).collect()
    });
    let routes = &mut plan.scheme_mut(scheme)?.routes;
    let made = routes.len();
    routes.push(copy);
    let line = solved(plan, scheme, made)?.centre_line;
    if let (Some(line), Some(places)) = (line, places) {
        let pads = &mut plan.route_mut(scheme, made)?.pads;
        for (pad, place) in pads.iter_mut().zip(places) {
            pad.station = line.nearest(place).station;
        }
    }
    Ok(())
}

/// Leaves of a path what runs from one waypoint to another, as it is drawn.
fn cut_out(route: &mut Route, was: &SolvedRoute, [first, last]: [usize; 2]) {
    let count = route.waypoints.len();
    let legs = (last + count - first) % count;
    let starts = route.closed || first > 0;
    let ends = route.closed || last + 1 < count;
    let [from, to] = [first, last].map(|waypoint| parted_at(was, waypoint));
    let (closed, length) = (route.closed, length(was));
    route.pads.retain(|pad| {
        // On a ring the run may go over the first peg.
        let past = |station: f64| {
            if closed && length > 0.0 {
                (station - from).rem_euclid(length)
            } else {
                station - from
            }
        };
        (0.0..=past(to)).contains(&past(pad.station))
    });
    if first > 0 {
        starts_elsewhere(route);
    }
    let (all_legs, part) = (route.legs.len(), legs);
    renumber_methods(
        route,
        |leg| Some((leg + all_legs - first) % all_legs).filter(|leg| *leg < part),
        |peg| Some((peg + count - first) % count).filter(|peg| *peg < part),
    );
    route.waypoints.rotate_left(first);
    route.waypoints.truncate(legs + 1);
    route.legs.rotate_left(first);
    route.legs.truncate(legs);
    route.closed = false;
    if starts && route.start_direction.is_none() {
        hold_start(route, &was.legs[first]);
    }
    if ends {
        route.end_direction = None;
        hold_end(route, &was.legs[(last + count - 1) % count]);
    }
    for end in [0, legs] {
        route.waypoints[end].rounding = None;
    }
}

/// Waypoints in walking order, each once; on a ring from behind its longest stretch without any.
fn in_order(route: &Route, waypoints: &[usize]) -> Result<Vec<usize>, EditError> {
    let count = route.waypoints.len();
    let chosen: BTreeSet<usize> = waypoints.iter().copied().collect();
    let mut order: Vec<usize> = chosen.into_iter().collect();
    if order.last().is_some_and(|last| *last >= count) {
        return Err(EditError::NotThere);
    }
    if route.closed {
        let stretch_before = |nth: usize| {
            let before = order[(nth + order.len() - 1) % order.len()];
            (order[nth] + count - before) % count
        };
        let begins = (0..order.len()).max_by_key(|nth| (stretch_before(*nth), Reverse(*nth)));
        order.rotate_left(begins.unwrap_or(0));
    }
    Ok(order)
}
