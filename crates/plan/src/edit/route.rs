//! Edits of a path as a whole: begun, led on, split, joined, turned round, closed.

use geometry::{Arc, Chain, Direction, Piece, Point, Vector};

use super::{EditError, End, LegId, Stopped, WaypointId};
use crate::document::{Heading, Junction, Plan, Route, Scheme, Shape, Side, Waypoint};
use crate::limits::SHORTEST;
use crate::solve::SolvedRoute;

/// Ends nearer than this are one peg when paths are closed or joined, in metres: a millimetre,
/// which no peg can tell apart.
const SAME_PEG: f64 = 1e-3;

pub(super) fn peg_at(at: Point) -> Waypoint {
    Waypoint { at, rounding: None }
}

fn solved(plan: &Plan, scheme: usize, route: usize) -> Result<SolvedRoute, EditError> {
    let solved = plan.solve();
    let scheme = solved.schemes.into_iter().nth(scheme);
    scheme
        .and_then(|scheme| scheme.routes.into_iter().nth(route))
        .ok_or(EditError::NotThere)
}

/// Leads a path on from one of its ends.
pub(super) fn append(
    plan: &mut Plan,
    (scheme, route): (usize, usize),
    end: End,
    at: Point,
    shape: Shape,
) -> Result<(), EditError> {
    let solved = solved(plan, scheme, route)?;
    let route = plan.route_mut(scheme, route)?;
    if route.closed {
        return Err(EditError::Closed);
    }
    match end {
        End::End => {
            route.waypoints.push(peg_at(at));
            if route.waypoints.len() > 1 {
                route.legs.push(shape);
            }
            route.end_direction = None;
        }
        End::Start => {
            free_onward(route, &solved, 0);
            route.waypoints.insert(0, peg_at(at));
            if route.waypoints.len() > 1 {
                route.legs.insert(0, shape);
            }
            route.start_direction = None;
            route.start_on = None;
        }
    }
    Ok(())
}

/// Puts a waypoint on a leg, as near to a place as the leg comes. The line of the path stays.
pub(super) fn insert(plan: &mut Plan, id: LegId, near: Point) -> Result<(), EditError> {
    let solved = solved(plan, id.scheme, id.route)?;
    let pieces = solved.legs.get(id.leg).ok_or(EditError::NotThere)?;
    let route = plan.route_mut(id.scheme, id.route)?;
    let shape = route.legs.get(id.leg).ok_or(EditError::NotThere)?.clone();
    let (at, shapes) = match (pieces.as_slice(), &shape) {
        ([piece], _) => {
            let along = piece.nearest(near).0;
            let length = piece.length();
            // Not on an end: that is a waypoint already.
            let along = along.clamp(
                SHORTEST.min(0.5 * length),
                length - SHORTEST.min(0.5 * length),
            );
            let halves = [piece.between(0.0, along), piece.between(along, length)];
            let shapes = match &shape {
                Shape::Bend { holds, .. } => {
                    // What was typed of both halves alike is the radius.
                    let radius = geometry::Figure::Radius;
                    let holds: Vec<_> = holds.iter().copied().filter(|f| *f == radius).collect();
                    halves.map(|half| Shape::Bend {
                        rise: half.and_then(|h| h.arc().map(Arc::rise)).unwrap_or(0.0),
                        holds: holds.clone(),
                    })
                }
                other => [other.clone(), other.clone()],
            };
            (piece.point_at(along), shapes)
        }
        // Two bends are parted where they join; each then leaves smoothly from what is before it.
        ([first, _], _) => (first.end(), [Shape::Onward, Shape::Onward]),
        _ => return Err(EditError::NotThere),
    };
    route.waypoints.insert(id.leg + 1, peg_at(at));
    route.legs.splice(id.leg..=id.leg, shapes);
    Ok(())
}

/// Takes a waypoint out; the legs on both sides become one.
pub(super) fn remove(plan: &mut Plan, id: WaypointId) -> Result<(), EditError> {
    let solved = solved(plan, id.scheme, id.route)?;
    let route = plan.route_mut(id.scheme, id.route)?;
    let removed = route
        .waypoints
        .get(id.waypoint)
        .ok_or(EditError::NotThere)?
        .at;
    let least = if route.closed { 3 } else { 2 };
    if route.waypoints.len() <= least {
        return Err(EditError::TwoPegs);
    }
    let (before, after) = route.legs_at(id.waypoint);
    match (before, after) {
        (Some(before), Some(after)) => {
            let ends = (route.ends_of(before), route.ends_of(after));
            let (Some((from, _)), Some((_, to))) = ends else {
                return Err(EditError::NotThere);
            };
            let (from, to) = (route.waypoints[from].at, route.waypoints[to].at);
            let shape = merged(
                [&route.legs[before], &route.legs[after]],
                [from, removed, to],
            );
            // The leg after both stays as it is drawn, though it now leaves from another.
            let next = (after + 1) % route.legs.len();
            free_onward(route, &solved, next);
            route.legs[before] = shape;
            route.legs.remove(after);
            route.waypoints.remove(id.waypoint);
        }
        (None, Some(_)) => {
            free_onward(route, &solved, 1);
            route.waypoints.remove(0);
            route.legs.remove(0);
            route.start_direction = None;
            route.start_on = None;
        }
        (Some(_), None) => {
            route.waypoints.pop();
            route.legs.pop();
            route.end_direction = None;
        }
        (None, None) => return Err(EditError::NotThere),
    }
    Ok(())
}

/// What two legs become when the waypoint between them is taken out: straights a straight, onward
/// bends an onward bend, others the bend through where the waypoint was.
fn merged(shapes: [&Shape; 2], [from, through, to]: [Point; 3]) -> Shape {
    match shapes {
        [Shape::Straight, Shape::Straight] => Shape::Straight,
        [Shape::Onward, Shape::Onward] => Shape::Onward,
        _ => Arc::through(from, through, to).map_or(Shape::Straight, |arc| Shape::bend(arc.rise())),
    }
}

/// A leg that takes its shape from its neighbours becomes free, just as it is drawn.
fn free_onward(route: &mut Route, solved: &SolvedRoute, leg: usize) {
    let Some(shape) = route.legs.get_mut(leg) else {
        return;
    };
    if let (Shape::Onward, Some([piece])) = (&*shape, solved.legs.get(leg).map(Vec::as_slice)) {
        *shape = as_drawn(piece);
    }
}

fn as_drawn(piece: &Piece) -> Shape {
    piece
        .arc()
        .map_or(Shape::Straight, |arc| Shape::bend(arc.rise()))
}

/// Turns a path round: it runs the other way over the same ground.
pub(super) fn reverse(plan: &mut Plan, (scheme, index): (usize, usize)) -> Result<(), EditError> {
    let solved = solved(plan, scheme, index)?;
    let length = solved.centre_line.as_ref().map_or(0.0, Chain::length);
    let route = plan.route_mut(scheme, index)?;
    for leg in 0..route.legs.len() {
        free_onward(route, &solved, leg);
    }
    route.legs.reverse();
    for leg in &mut route.legs {
        if let Shape::Bend { rise, .. } = leg {
            *rise = -*rise;
        }
    }
    route.waypoints.reverse();
    if route.closed && !route.waypoints.is_empty() {
        // It still starts at the same peg.
        route.waypoints.rotate_right(1);
    }
    let start = route.start_direction.take();
    route.start_direction = route.end_direction.take().map(|heading| heading.reversed());
    route.end_direction = start.map(|heading| heading.reversed());
    route.start_on = None;
    for pad in &mut route.pads {
        pad.station = (length - pad.station).max(0.0);
    }
    Ok(())
}

/// Leads the end of a path back to its start.
pub(super) fn close(plan: &mut Plan, (scheme, index): (usize, usize)) -> Result<(), EditError> {
    let route = plan.route_mut(scheme, index)?;
    if route.closed {
        return Err(EditError::Closed);
    }
    let ends = route.waypoints.first().zip(route.waypoints.last());
    let Some((first, last)) = ends.filter(|_| route.waypoints.len() > 2) else {
        return Err(EditError::TwoPegs);
    };
    if first.at.distance(last.at) < SAME_PEG {
        route.waypoints.pop();
    } else {
        route.legs.push(Shape::Straight);
    }
    route.closed = true;
    route.start_direction = None;
    route.end_direction = None;
    route.start_on = None;
    Ok(())
}

/// Parts a path at a waypoint: an open one becomes two, a closed one opens there.
pub(super) fn split(plan: &mut Plan, id: WaypointId) -> Result<(), EditError> {
    let solved = solved(plan, id.scheme, id.route)?;
    let route = plan.route_mut(id.scheme, id.route)?;
    if id.waypoint >= route.waypoints.len() {
        return Err(EditError::NotThere);
    }
    if route.closed {
        for leg in 0..route.legs.len() {
            free_onward(route, &solved, leg);
        }
        route.waypoints.rotate_left(id.waypoint);
        route.legs.rotate_left(id.waypoint);
        let again = Waypoint {
            rounding: None,
            ..route.waypoints[0]
        };
        route.waypoints[0].rounding = None;
        route.waypoints.push(again);
        route.closed = false;
        return Ok(());
    }
    if id.waypoint == 0 || id.waypoint + 1 == route.waypoints.len() {
        return Err(EditError::AtAnEnd);
    }
    free_onward(route, &solved, id.waypoint);
    let mut rest = route.clone();
    rest.waypoints.drain(..id.waypoint);
    rest.legs.drain(..id.waypoint);
    rest.start_direction = None;
    rest.start_on = None;
    rest.waypoints[0].rounding = None;
    rest.name = second_name(&route.name);
    route.waypoints.truncate(id.waypoint + 1);
    route.legs.truncate(id.waypoint);
    route.end_direction = None;
    route.waypoints[id.waypoint].rounding = None;
    // Landings stay with the part they lie on.
    let parted = solved
        .centre_line
        .as_ref()
        .map_or(0.0, |line| line.nearest(rest.waypoints[0].at).station);
    rest.pads.retain(|pad| pad.station > parted);
    for pad in &mut rest.pads {
        pad.station -= parted;
    }
    route.pads.retain(|pad| pad.station <= parted);
    let routes = &mut plan.scheme_mut(id.scheme)?.routes;
    routes.insert(id.route + 1, rest);
    shift_junctions(routes, id.route + 1, 1);
    Ok(())
}

fn second_name(name: &str) -> String {
    let name: String = name.chars().take(crate::limits::NAME - 12).collect();
    format!("{name}, part 2")
}

/// After a path was put in at `from` (or taken out, `by` −1) junctions count anew.
fn shift_junctions(routes: &mut [Route], from: usize, by: isize) {
    for junction in routes
        .iter_mut()
        .filter_map(|route| route.start_on.as_mut())
    {
        if junction.route > from {
            junction.route = junction.route.saturating_add_signed(by);
        }
    }
}

/// Joins the start of a second path to the end of a first; a gap becomes a straight.
pub(super) fn join(
    plan: &mut Plan,
    scheme: usize,
    [first, second]: [usize; 2],
) -> Result<(), EditError> {
    let routes = &plan.scheme_mut(scheme)?.routes;
    let (Some(one), Some(other)) = (routes.get(first), routes.get(second)) else {
        return Err(EditError::NotThere);
    };
    if first == second || one.closed || other.closed {
        return Err(EditError::Closed);
    }
    let (Some(end), Some(start)) = (one.waypoints.last(), other.waypoints.first()) else {
        return Err(EditError::NotThere);
    };
    let gap = end.at.distance(start.at);
    let length = solved(plan, scheme, first)?
        .centre_line
        .map_or(0.0, |line| line.length());
    let other_solved = solved(plan, scheme, second)?;
    let mut other = plan.route_mut(scheme, second)?.clone();
    free_onward(&mut other, &other_solved, 0);
    let one = plan.route_mut(scheme, first)?;
    let skip = usize::from(gap < SAME_PEG);
    if skip == 0 {
        one.legs.push(Shape::Straight);
    }
    let before = length + if skip == 0 { gap } else { 0.0 };
    one.waypoints.extend(other.waypoints.into_iter().skip(skip));
    one.legs.extend(other.legs);
    one.end_direction = other.end_direction;
    one.pads.extend(other.pads.into_iter().map(|mut pad| {
        pad.station += before;
        pad
    }));
    remove_route(plan, (scheme, second))
}

/// Takes a path away; paths that started from its edge stay where they are.
pub(super) fn remove_route(
    plan: &mut Plan,
    (scheme, index): (usize, usize),
) -> Result<(), EditError> {
    let routes = &mut plan.scheme_mut(scheme)?.routes;
    if index >= routes.len() {
        return Err(EditError::NotThere);
    }
    routes.remove(index);
    for route in routes.iter_mut() {
        if route
            .start_on
            .is_some_and(|junction| junction.route == index + 1)
        {
            route.start_on = None;
        }
    }
    shift_junctions(routes, index + 1, -1);
    Ok(())
}

/// Begins a path at the edge of another, leaving square to it, with a first straight to `to`.
pub(super) fn branch(
    plan: &mut Plan,
    (scheme, host): (usize, usize),
    side: Side,
    near: Point,
    to: Point,
) -> Result<(), EditError> {
    let solved = solved(plan, scheme, host)?;
    let edge = edge_of(&solved, side).ok_or(EditError::NotThere)?;
    let nearest = edge.nearest(near);
    let routes = &mut plan.scheme_mut(scheme)?.routes;
    let width = routes.get(host).ok_or(EditError::NotThere)?.width;
    let name = format!("Path {}", routes.len() + 1);
    routes.push(Route {
        name,
        width,
        waypoints: vec![peg_at(nearest.point), peg_at(to)],
        legs: vec![Shape::Straight],
        start_on: Some(Junction {
            route: host + 1,
            side,
            station: nearest.station,
        }),
        ..Route::default()
    });
    Ok(())
}

fn edge_of(route: &SolvedRoute, side: Side) -> Option<&Chain> {
    match side {
        Side::Left => route.left_edge.as_ref(),
        Side::Right => route.right_edge.as_ref(),
    }
}

/// Where the first peg of a path that starts on an edge goes when it is dragged: along that edge.
pub(super) fn along_its_edge(
    plan: &Plan,
    id: WaypointId,
    to: Point,
) -> Result<Option<(Point, Junction)>, EditError> {
    let route = plan.route(id.scheme, id.route).ok_or(EditError::NotThere)?;
    let Some(junction) = route.start_on.filter(|_| id.waypoint == 0) else {
        return Ok(None);
    };
    let host = solved(plan, id.scheme, junction.route.saturating_sub(1))?;
    let Some(edge) = edge_of(&host, junction.side) else {
        return Ok(None);
    };
    let nearest = edge.nearest(to);
    let station = nearest.station;
    Ok(Some((
        nearest.point,
        Junction {
            station,
            ..junction
        },
    )))
}

/// After an edit, paths that start on an edge start there again: their first peg follows by the
/// rule of a dragged peg.
pub(super) fn refasten(before: &Plan, plan: &mut Plan) {
    for scheme in 0..plan.schemes.len() {
        let fastened = |scheme: &Scheme| scheme.routes.iter().any(|r| r.start_on.is_some());
        if !fastened(&plan.schemes[scheme]) {
            continue;
        }
        if before.schemes.get(scheme) == plan.schemes.get(scheme) {
            continue;
        }
        for route in 0..plan.schemes[scheme].routes.len() {
            let Some(junction) = plan.schemes[scheme].routes[route].start_on else {
                continue;
            };
            let Ok(host) = solved(plan, scheme, junction.route.saturating_sub(1)) else {
                continue;
            };
            let Some(edge) = edge_of(&host, junction.side) else {
                continue;
            };
            let at = edge.point_at(junction.station.min(edge.length()));
            let id = WaypointId {
                scheme,
                route,
                waypoint: 0,
            };
            // Where what is held does not let the peg follow, a finding says so.
            let _: Result<Option<Stopped>, EditError> = super::peg::drag(plan, id, at);
        }
    }
}

/// Mirrors a path in a line.
pub(super) fn mirror(route: &mut Route, (through, along): (Point, Direction)) {
    let across = along.left().unit();
    let reflect = |vector: Vector| vector - across * (2.0 * across.dot(vector));
    for waypoint in &mut route.waypoints {
        waypoint.at = through + reflect(waypoint.at - through);
    }
    for leg in &mut route.legs {
        if let Shape::Bend { rise, .. } = leg {
            *rise = -*rise;
        }
    }
    for heading in [&mut route.start_direction, &mut route.end_direction] {
        // A line of the site is not mirrored with it; an angle is.
        *heading = match heading.take() {
            Some(Heading::Angle(angle)) => Direction::at_angle(angle)
                .and_then(|way| Direction::of(reflect(way.unit())))
                .map(|way| Heading::Angle(way.angle())),
            _ => None,
        };
    }
    route.start_on = None;
}
