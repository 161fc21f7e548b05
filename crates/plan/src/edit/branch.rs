//! Paths that begin at the edge of another: begun, slid along it, and following it.

use geometry::{Point, SAME_PLACE};

use super::route::{peg_at, solved};
use super::{EditError, Stopped, WaypointId, peg};
use crate::document::{Junction, Plan, Route, Scheme, Shape, Side};
use crate::solve::SolvedRoute;

/// Begins a path at the edge of another, with a first straight to `to`.
pub(super) fn branch(
    plan: &mut Plan,
    (scheme, host): (usize, usize),
    side: Side,
    near: Point,
    to: Point,
) -> Result<(), EditError> {
    if !near.is_finite() {
        return Err(EditError::Held(Stopped::Limit));
    }
    let solved = solved(plan, scheme, host)?;
    let edge = solved.edge(side).ok_or(EditError::NothingDrawn)?;
    let nearest = edge.nearest(near);
    let routes = &mut plan.scheme_mut(scheme)?.routes;
    let name = format!("Path {}", routes.len() + 1);
    routes.push(Route {
        name,
        width: solved.width,
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

/// Where the first peg of a path that starts on an edge goes when it is dragged: along that edge.
/// `None` for all other pegs.
pub(super) fn along_its_edge(
    plan: &Plan,
    id: WaypointId,
    to: Point,
) -> Result<Option<(Point, Junction)>, EditError> {
    let route = plan.route(id.scheme, id.route).ok_or(EditError::NotThere)?;
    let Some(junction) = route.start_on.filter(|_| id.waypoint == 0) else {
        return Ok(None);
    };
    if !to.is_finite() {
        return Err(EditError::Held(Stopped::Limit));
    }
    let host = host_of(plan, id.scheme, &junction)?;
    Ok(host.edge(junction.side).map(|edge| {
        let nearest = edge.nearest(to);
        let station = nearest.station;
        (
            nearest.point,
            Junction {
                station,
                ..junction
            },
        )
    }))
}

fn host_of(plan: &Plan, scheme: usize, junction: &Junction) -> Result<SolvedRoute, EditError> {
    let host = junction.route.checked_sub(1).ok_or(EditError::NotThere)?;
    solved(plan, scheme, host)
}

/// Moves the first peg of a path to another place of its edge; where its legs do not let it come
/// there it stays.
pub(super) fn slide(
    plan: &mut Plan,
    id: WaypointId,
    at: Point,
    junction: Junction,
) -> Result<Option<Stopped>, EditError> {
    let before = plan.route_mut(id.scheme, id.route)?.clone();
    let stopped = peg::drag(plan, id, at)?;
    let route = plan.route_mut(id.scheme, id.route)?;
    if route.waypoints.first().is_some_and(|first| first.at == at) {
        route.start_on = Some(junction);
        return Ok(stopped);
    }
    *route = before;
    Ok(stopped.or_else(|| peg::holding(route, 0)))
}

/// After an edit, paths that start on an edge start there again: their first peg follows by the
/// rule of a dragged peg. Whether any did.
pub(super) fn refasten(before: &Plan, plan: &mut Plan) -> bool {
    let mut followed = false;
    for scheme in 0..plan.schemes.len() {
        let fastened = |scheme: &Scheme| scheme.routes.iter().any(|r| r.start_on.is_some());
        if !fastened(&plan.schemes[scheme])
            || plan.schemes[scheme].locked
            || before.schemes.get(scheme) == plan.schemes.get(scheme)
        {
            continue;
        }
        for route in 0..plan.schemes[scheme].routes.len() {
            let path = &plan.schemes[scheme].routes[route];
            let (Some(junction), Some(first)) = (path.start_on, path.waypoints.first()) else {
                continue;
            };
            let Ok(host) = host_of(plan, scheme, &junction) else {
                continue;
            };
            let Some(at) = host.place_of(&junction) else {
                continue;
            };
            if first.at.distance(at) < SAME_PLACE {
                continue;
            }
            let id = WaypointId {
                scheme,
                route,
                waypoint: 0,
            };
            // Where what is held does not let the peg follow, a finding says so.
            followed |= peg::drag(plan, id, at).is_ok();
        }
    }
    followed
}

/// After the edges of these paths came to run from elsewhere, over the same ground, what starts on
/// them starts where it stands: only the stations count anew.
pub(super) fn reseat(plan: &mut Plan, scheme: usize, hosts: &[usize]) {
    let on_them = |route: &Route| {
        let on = |junction: Junction| hosts.iter().any(|host| host + 1 == junction.route);
        route.start_on.is_some_and(on)
    };
    if !plan.schemes[scheme].routes.iter().any(on_them) {
        return;
    }
    let solved: Vec<(usize, SolvedRoute)> = hosts
        .iter()
        .filter_map(|host| Some((*host, plan.solve_path(scheme, *host)?)))
        .collect();
    let routes = plan.schemes[scheme].routes.iter_mut();
    for route in routes.filter(|route| on_them(route)) {
        let (Some(junction), Some(first)) = (&mut route.start_on, route.waypoints.first()) else {
            continue;
        };
        let nearest = solved
            .iter()
            .filter_map(|(host, solved)| {
                let edge = solved.edge(junction.side)?;
                Some((*host, edge.nearest(first.at)))
            })
            .min_by(|(_, a), (_, b)| a.distance.total_cmp(&b.distance));
        if let Some((host, nearest)) = nearest {
            junction.route = host + 1;
            junction.station = nearest.station;
        }
    }
}

/// After a path was turned round or mirrored, its left edge is its right one.
pub(super) fn swap_sides(plan: &mut Plan, (scheme, host): (usize, usize)) {
    for junction in junctions(&mut plan.schemes[scheme].routes) {
        if junction.route == host + 1 {
            junction.side = junction.side.other();
        }
    }
}

/// What starts on one path starts on another, if that stands before it.
pub(super) fn move_branches(routes: &mut [Route], from: usize, to: usize) {
    for junction in junctions(&mut routes[to + 1..]) {
        if junction.route == from + 1 {
            junction.route = to + 1;
        }
    }
}

/// What started on a path that is gone starts freely.
pub(super) fn drop_branches(routes: &mut [Route], host: usize) {
    for route in routes {
        route.start_on = route.start_on.filter(|on| on.route != host + 1);
    }
}

/// After a path was put in at `from` (or taken out, `by` −1) junctions count anew.
pub(super) fn shift_junctions(routes: &mut [Route], from: usize, by: isize) {
    for junction in junctions(routes) {
        if junction.route > from {
            junction.route = junction.route.saturating_add_signed(by);
        }
    }
}

fn junctions(routes: &mut [Route]) -> impl Iterator<Item = &mut Junction> {
    routes
        .iter_mut()
        .filter_map(|route| route.start_on.as_mut())
}
