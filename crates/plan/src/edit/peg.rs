//! A peg moves: what the legs on both sides do.

use geometry::{Bend, Direction, Figure, Point, bends_from};

use super::{EditError, LegId, Stopped, WaypointId, hold::held, nearest};
use crate::document::{Plan, Route, Shape};
use crate::limits::{COORDINATE, SHORTEST};

/// Moves a waypoint as far towards `to` as the legs on both sides allow.
pub(super) fn drag(
    plan: &mut Plan,
    id: WaypointId,
    to: Point,
) -> Result<Option<Stopped>, EditError> {
    if !to.is_finite() {
        return Err(EditError::Held(Stopped::Limit));
    }
    let route = plan.route_mut(id.scheme, id.route)?;
    let waypoint = route.waypoints.get(id.waypoint).ok_or(EditError::NotThere)?;
    let from = waypoint.at;
    let (before, after) = route.legs_at(id.waypoint);
    let legs: Vec<usize> = before.into_iter().chain(after).collect();
    let (goal, mut stopped) = within_reach(route, id.waypoint, &legs, from, to);
    let moved = |to: Point| moved_legs(route, id.waypoint, &legs, to);
    let (at, shapes) = match moved(goal) {
        Ok(shapes) => (goal, shapes),
        Err(why) => {
            stopped = Some(why);
            farthest(from, goal, moved).ok_or_else(|| {
                EditError::Held(stopped.clone().unwrap_or(Stopped::Limit))
            })?
        }
    };
    route.waypoints[id.waypoint].at = at;
    for (leg, shape) in shapes {
        route.legs[leg] = shape;
    }
    Ok(stopped)
}

/// Moves the end of a leg exactly to `to`; the leg after it follows the rule.
pub(super) fn move_end(plan: &mut Plan, id: LegId, to: Point) -> Result<(), EditError> {
    let route = plan.route_mut(id.scheme, id.route)?;
    let (_, end) = route.ends_of(id.leg).ok_or(EditError::NotThere)?;
    let (before, after) = route.legs_at(end);
    let others: Vec<usize> = before
        .into_iter()
        .chain(after)
        .filter(|leg| *leg != id.leg)
        .collect();
    let shapes = moved_legs(route, end, &others, to).map_err(EditError::Held)?;
    route.waypoints[end].at = to;
    for (leg, shape) in shapes {
        route.legs[leg] = shape;
    }
    Ok(())
}

/// A bend whose chord holds keeps its peg on a circle about the other peg.
fn within_reach(
    route: &Route,
    waypoint: usize,
    legs: &[usize],
    from: Point,
    to: Point,
) -> (Point, Option<Stopped>) {
    let fixed: Vec<(Point, f64)> = legs
        .iter()
        .filter(|leg| chord_holds(&route.legs[**leg]))
        .filter_map(|leg| {
            let pivot = other_end(route, *leg, waypoint)?;
            Some((pivot, pivot.distance(from)))
        })
        .collect();
    match fixed[..] {
        [] => (to, None),
        [(pivot, chord)] => {
            let round = Direction::of(to - pivot).map_or(from, |way| pivot + way.unit() * chord);
            (round, None)
        }
        _ => (from, Some(Stopped::BothChords)),
    }
}

fn chord_holds(leg: &Shape) -> bool {
    match leg {
        Shape::Bend { holds, .. } => holds.len() == 2 || holds.contains(&Figure::Chord),
        Shape::Straight | Shape::Onward => false,
    }
}

fn other_end(route: &Route, leg: usize, waypoint: usize) -> Option<Point> {
    let (start, end) = route.ends_of(leg)?;
    let other = if start == waypoint { end } else { start };
    route.waypoints.get(other).map(|w| w.at)
}

/// The shapes of the legs if the waypoint stood at `to`, or why it cannot.
fn moved_legs(
    route: &Route,
    waypoint: usize,
    legs: &[usize],
    to: Point,
) -> Result<Vec<(usize, Shape)>, Stopped> {
    if to.x.abs() > COORDINATE || to.y.abs() > COORDINATE {
        return Err(Stopped::Limit);
    }
    let from = route.waypoints[waypoint].at;
    let mut shapes = Vec::new();
    for &leg in legs {
        let Some(pivot) = other_end(route, leg, waypoint) else {
            continue;
        };
        let (old, new) = (pivot.distance(from), pivot.distance(to));
        // Pegs that already lie on each other may be pulled apart, never pushed together.
        if new < SHORTEST && old >= SHORTEST {
            return Err(Stopped::Limit);
        }
        if let Shape::Bend { rise, holds } = &route.legs[leg]
            && let Some(rise) = moved_rise(leg, [old, new], *rise, holds)?
        {
            let holds = holds.clone();
            shapes.push((leg, Shape::Bend { rise, holds }));
        }
    }
    Ok(shapes)
}

/// The rise of a bend whose chord changes: its sweep is kept, or the one figure typed. `None` if
/// it stays.
fn moved_rise(
    leg: usize,
    [old, new]: [f64; 2],
    rise: f64,
    typed: &[Figure],
) -> Result<Option<f64>, Stopped> {
    let holding = match typed {
        [one] if *one != Figure::Chord => *one,
        // The chord holds: the peg went round on its circle.
        [_, ..] => return Ok(None),
        [] => {
            // The shape stays: rise and radius grow with the chord.
            return Ok((old > 0.0).then(|| rise * (new / old)));
        }
    };
    let Ok(bend) = Bend::from_chord_and_rise(old, rise.abs()) else {
        return Ok(None);
    };
    let stop = || Stopped::Holds {
        leg,
        figures: held(typed),
    };
    let value = bend.figure(holding).ok_or_else(stop)?;
    let answers =
        bends_from((Figure::Chord, new), (holding, value)).map_err(|_| stop())?;
    let moved = nearest(&answers, bend.sweep()).ok_or_else(stop)?;
    Ok(Some(moved.rise().copysign(rise)))
}

/// The farthest point on the way from `from` to `to` that still works, found by halving.
fn farthest<T>(
    from: Point,
    to: Point,
    works: impl Fn(Point) -> Result<T, Stopped>,
) -> Option<(Point, T)> {
    const HALVINGS: u32 = 48; // a 100 km drag to well below a micrometre
    let (mut near, mut far) = (0.0, 1.0);
    let mut best = works(from).ok().map(|result| (from, result))?;
    for _ in 0..HALVINGS {
        let middle = 0.5 * (near + far);
        let point = from.towards(to, middle);
        if let Ok(result) = works(point) {
            (near, best) = (middle, (point, result));
        } else {
            far = middle;
        }
    }
    Some(best)
}
