//! Edits of a path as a whole: begun, led on, split, joined, turned round, closed.

use geometry::{Arc, Direction, Piece, Point, SAME_DIRECTION, Vector};

use super::branch::{drop_branches, move_branches, reseat, shift_junctions, swap_sides};
use super::keep::{
    as_drawn, free_onward, hold_end, hold_start, keep_from_end, length, parted_at,
    renumber_methods, runs_on, starts_elsewhere, turn_methods, turn_pads,
};
use super::{EditError, End, LegId, Stopped, WaypointId};
use crate::document::{Heading, MethodChoice, Plan, Route, Shape, Site, Waypoint};
use crate::limits::{LONGEST, SHORTEST};
use crate::solve::{Origin, SolvedRoute};

/// Ends nearer than this are one peg when paths are closed or joined, in metres: a millimetre,
/// which no peg can tell apart.
pub(super) const SAME_PEG: f64 = 1e-3;

pub(super) fn peg_at(at: Point) -> Waypoint {
    Waypoint { at, rounding: None }
}

pub(super) fn solved(plan: &Plan, scheme: usize, route: usize) -> Result<SolvedRoute, EditError> {
    plan.solve_path(scheme, route).ok_or(EditError::NotThere)
}

/// Leads a path on from one of its ends.
pub(super) fn append(
    plan: &mut Plan,
    (scheme, index): (usize, usize),
    end: End,
    at: Point,
    shape: Shape,
) -> Result<(), EditError> {
    let was = solved(plan, scheme, index)?;
    let route = plan.route_mut(scheme, index)?;
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
            free_onward(route, &was, 0);
            route.waypoints.insert(0, peg_at(at));
            if route.waypoints.len() > 1 {
                route.legs.insert(0, shape);
            }
            renumber_methods(route, |leg| Some(leg + 1), |peg| Some(peg + 1));
            route.start_direction = None;
            route.start_on = None;
            keep_from_end(plan, (scheme, index), length(&was))?;
        }
    }
    reseat(plan, scheme, &[index]);
    Ok(())
}

/// Puts a waypoint on a leg, as near to a place as the drawn part of the leg comes. The line of the
/// path stays.
pub(super) fn insert(plan: &mut Plan, id: LegId, near: Point) -> Result<(), EditError> {
    if !near.is_finite() {
        return Err(EditError::Held(Stopped::Limit));
    }
    let solved = solved(plan, id.scheme, id.route)?;
    let route = plan.route_mut(id.scheme, id.route)?;
    let shape = route.legs.get(id.leg).ok_or(EditError::NotThere)?;
    // The first half leaves smoothly where that gives the same line: not after two bends, which
    // would arrive another way.
    let smooth = match route.legs_at(id.leg).0 {
        Some(before) => route.legs[before] != Shape::TwoBends,
        None => route.start_direction.is_some(),
    };
    let first_half = |piece: &Piece| {
        if smooth {
            Shape::Onward
        } else {
            as_drawn(piece)
        }
    };
    let (at, shapes) = match solved.legs.get(id.leg).map(Vec::as_slice) {
        Some([piece]) => {
            let [low, high] = drawn_part(&solved, id.leg, piece);
            let along = piece.nearest(near).0.max(low).min(high);
            let (Some(first), Some(second)) = (
                piece.between(0.0, along),
                piece.between(along, piece.length()),
            ) else {
                return Err(EditError::NothingDrawn);
            };
            let shapes = match shape {
                Shape::Straight => [Shape::Straight, Shape::Straight],
                Shape::Bend { holds, .. } => [&first, &second].map(|half| Shape::Bend {
                    rise: half.arc().map_or(0.0, Arc::rise),
                    // What was typed of both halves alike is the radius.
                    holds: holds
                        .iter()
                        .copied()
                        .filter(|figure| *figure == geometry::Figure::Radius)
                        .collect(),
                }),
                Shape::Onward | Shape::TwoBends => [first_half(&first), Shape::Onward],
            };
            (piece.point_at(along), shapes)
        }
        // Two bends are parted where they join.
        Some([first, _]) => (first.end(), [first_half(first), Shape::Onward]),
        _ => return Err(EditError::NothingDrawn),
    };
    part_methods(route, id.leg);
    route.waypoints.insert(id.leg + 1, peg_at(at));
    route.legs.splice(id.leg..=id.leg, shapes);
    Ok(())
}

/// Both halves of a parted bend are set out as the whole was; of two bends each keeps its own.
fn part_methods(route: &mut Route, parted: usize) {
    let of_two = route.legs[parted] == Shape::TwoBends;
    let mut second = Vec::new();
    for choice in &mut route.methods {
        match choice.of {
            Origin::Leg(leg) if leg == parted && !of_two => second.push(MethodChoice {
                of: Origin::Leg(leg + 1),
                ..*choice
            }),
            Origin::SecondBend(leg) if leg == parted => choice.of = Origin::Leg(leg + 1),
            Origin::Leg(leg) if leg > parted => choice.of = Origin::Leg(leg + 1),
            Origin::SecondBend(leg) if leg > parted => choice.of = Origin::SecondBend(leg + 1),
            Origin::Rounding(peg) if peg > parted => choice.of = Origin::Rounding(peg + 1),
            _ => {}
        }
    }
    route.methods.extend(second);
}

/// From where to where along a leg a peg can be put: not on its ends, which are pegs already, nor
/// where a rounding takes the leg away, which would have no room any more.
fn drawn_part(solved: &SolvedRoute, leg: usize, piece: &Piece) -> [f64; 2] {
    let drawn = |origin| {
        let number = solved.piece_of(origin)?;
        solved.centre_line.as_ref()?.pieces().get(number).copied()
    };
    let [low, high] = match (drawn(Origin::Leg(leg)), drawn(Origin::Rounding(leg))) {
        (Some(part), _) => [piece.along(part.start()), piece.along(part.end())],
        // All of it is rounded away: where the two roundings meet.
        (None, Some(rounding)) => [piece.along(rounding.end()); 2],
        (None, None) => [0.0, piece.length()],
    };
    let off_the_end = (2.0 * SHORTEST).min(0.5 * piece.length());
    [low.max(off_the_end), high.min(piece.length() - off_the_end)]
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
            let next = if route.closed {
                (after + 1) % route.legs.len()
            } else {
                after + 1
            };
            free_onward(route, &solved, next);
            renumber_methods(
                route,
                |leg| (leg != before && leg != after).then(|| leg - usize::from(leg > after)),
                |peg| (peg != id.waypoint).then(|| peg - usize::from(peg > id.waypoint)),
            );
            route.legs[before] = shape;
            route.legs.remove(after);
            route.waypoints.remove(id.waypoint);
            if after == 0 {
                // The ring now starts at the second peg.
                starts_elsewhere(route);
                turn_pads(route, length(&solved), parted_at(&solved, 1));
            }
        }
        (None, Some(_)) => {
            route.waypoints.remove(0);
            route.legs.remove(0);
            let before = |number: usize| number.checked_sub(1);
            renumber_methods(route, before, before);
            starts_elsewhere(route);
            hold_start(route, &solved.legs[1]);
            keep_from_end(plan, (id.scheme, id.route), length(&solved))?;
        }
        (Some(before), None) => {
            route.waypoints.pop();
            route.legs.pop();
            route.end_direction = None;
            hold_end(route, &solved.legs[before - 1]);
        }
        (None, None) => return Err(EditError::NotThere),
    }
    reseat(plan, id.scheme, &[id.route]);
    Ok(())
}

/// What two legs become when the waypoint between them is taken out: two alike one of their kind,
/// bends and others the bend through where the waypoint was.
fn merged(shapes: [&Shape; 2], [from, through, to]: [Point; 3]) -> Shape {
    match shapes {
        [Shape::Straight, Shape::Straight] => Shape::Straight,
        [Shape::Onward, Shape::Onward] => Shape::Onward,
        [Shape::TwoBends, Shape::TwoBends] => Shape::TwoBends,
        _ => Arc::through(from, through, to)
            .ok()
            .filter(|arc| arc.rise().abs() <= LONGEST)
            .map_or(Shape::Straight, |arc| Shape::bend(arc.rise())),
    }
}

/// Turns a path round: it runs the other way over the same ground.
pub(super) fn reverse(plan: &mut Plan, (scheme, index): (usize, usize)) -> Result<(), EditError> {
    let solved = solved(plan, scheme, index)?;
    let route = plan.route_mut(scheme, index)?;
    for leg in 0..route.legs.len() {
        free_onward(route, &solved, leg);
    }
    reverse_methods(route);
    route.legs.reverse();
    route.legs.iter_mut().for_each(turn_over);
    route.waypoints.reverse();
    if route.closed && !route.waypoints.is_empty() {
        // It still starts at the same peg.
        route.waypoints.rotate_right(1);
    } else {
        route.start_on = None;
    }
    let start = route.start_direction.take();
    route.start_direction = route.end_direction.take().map(|heading| heading.reversed());
    route.end_direction = start.map(|heading| heading.reversed());
    if let Some(line) = &solved.centre_line {
        for pad in &mut route.pads {
            pad.station = (line.length() - pad.station).max(0.0);
        }
    }
    swap_sides(plan, (scheme, index));
    reseat(plan, scheme, &[index]);
    Ok(())
}

/// A bend is set out as before when it is walked the other way; of two the first is the second.
fn reverse_methods(route: &mut Route) {
    let (legs, pegs, closed) = (route.legs.len(), route.waypoints.len(), route.closed);
    renumber_methods(
        route,
        |leg| legs.checked_sub(leg + 1),
        |peg| match closed {
            true => Some((pegs - peg) % pegs),
            false => pegs.checked_sub(peg + 1),
        },
    );
    let two = |leg: usize| route.legs.get(legs - 1 - leg) == Some(&Shape::TwoBends);
    for choice in &mut route.methods {
        choice.of = match choice.of {
            Origin::Leg(leg) if two(leg) => Origin::SecondBend(leg),
            Origin::SecondBend(leg) => Origin::Leg(leg),
            other => other,
        };
    }
}

/// Leads the end of a path back to its start.
pub(super) fn close(plan: &mut Plan, (scheme, index): (usize, usize)) -> Result<(), EditError> {
    let was = solved(plan, scheme, index)?;
    let route = plan.route_mut(scheme, index)?;
    if route.closed {
        return Err(EditError::Closed);
    }
    let ends = route.waypoints.first().zip(route.waypoints.last());
    let Some((first, last)) = ends.filter(|_| route.waypoints.len() > 2) else {
        return Err(EditError::TwoPegs);
    };
    let same = first.at.distance(last.at) < SAME_PEG;
    // An onward first leg leaves from the last one only where that gives the same line.
    let turns_on_itself = !route.legs.iter().any(|leg| *leg != Shape::Onward);
    if !same || turns_on_itself || !runs_on(&was, &was) {
        free_onward(route, &was, 0);
    }
    if same {
        route.waypoints.pop();
    } else {
        route.legs.push(Shape::Straight);
    }
    route.closed = true;
    starts_elsewhere(route);
    reseat(plan, scheme, &[index]);
    Ok(())
}

/// Parts a path at a waypoint: an open one becomes two, a closed one opens there.
pub(super) fn split(plan: &mut Plan, id: WaypointId) -> Result<(), EditError> {
    let was = solved(plan, id.scheme, id.route)?;
    let route = plan.route_mut(id.scheme, id.route)?;
    if id.waypoint >= route.waypoints.len() {
        return Err(EditError::NotThere);
    }
    if route.closed {
        open(route, &was, id.waypoint);
        reseat(plan, id.scheme, &[id.route]);
        return Ok(());
    }
    if id.waypoint == 0 || id.waypoint + 1 == route.waypoints.len() {
        return Err(EditError::AtAnEnd);
    }
    let mut rest = route.clone();
    rest.waypoints.drain(..id.waypoint);
    rest.legs.drain(..id.waypoint);
    let after = |number: usize| number.checked_sub(id.waypoint);
    renumber_methods(&mut rest, after, after);
    starts_elsewhere(&mut rest);
    hold_start(&mut rest, &was.legs[id.waypoint]);
    rest.waypoints[0].rounding = None;
    rest.name = renamed(&route.name, "part 2");
    route.waypoints.truncate(id.waypoint + 1);
    route.legs.truncate(id.waypoint);
    route.end_direction = None;
    hold_end(route, &was.legs[id.waypoint - 1]);
    route.waypoints[id.waypoint].rounding = None;
    // Landings stay with the part they lie on.
    let parted = parted_at(&was, id.waypoint);
    rest.pads.retain(|pad| pad.station > parted);
    route.pads.retain(|pad| pad.station <= parted);
    let routes = &mut plan.scheme_mut(id.scheme)?.routes;
    routes.insert(id.route + 1, rest);
    shift_junctions(routes, id.route + 1, 1);
    keep_from_end(plan, (id.scheme, id.route + 1), length(&was))?;
    reseat(plan, id.scheme, &[id.route, id.route + 1]);
    Ok(())
}

/// Opens a closed path at a waypoint, where it then starts and ends.
fn open(route: &mut Route, was: &SolvedRoute, waypoint: usize) {
    if waypoint > 0 {
        // Its first leg may have left in a direction of its own.
        if was
            .centre_line
            .as_ref()
            .is_some_and(|l| l.corner(0).abs() >= SAME_DIRECTION)
        {
            free_onward(route, was, 0);
        }
        starts_elsewhere(route);
        turn_pads(route, length(was), parted_at(was, waypoint));
    }
    turn_methods(route, waypoint);
    route.waypoints.rotate_left(waypoint);
    route.legs.rotate_left(waypoint);
    route.waypoints[0].rounding = None;
    route.waypoints.push(route.waypoints[0]);
    route.closed = false;
    let last = (waypoint + route.legs.len() - 1) % route.legs.len();
    if route.start_direction.is_none() {
        hold_start(route, &was.legs[waypoint]);
    }
    if route.end_direction.is_none() {
        hold_end(route, &was.legs[last]);
    }
}

/// The name of what is made from a path.
pub(super) fn renamed(name: &str, what: &str) -> String {
    let name: String = name.chars().take(crate::limits::NAME - 12).collect();
    format!("{name}, {what}")
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
    let (one, other) = (solved(plan, scheme, first)?, solved(plan, scheme, second)?);
    let mut rest = plan.route_mut(scheme, second)?.clone();
    let same = gap < SAME_PEG;
    if !same || !runs_on(&one, &other) {
        free_onward(&mut rest, &other, 0);
    }
    let route = plan.route_mut(scheme, first)?;
    if !same {
        route.legs.push(Shape::Straight);
    }
    let before = route.legs.len();
    let after = |number: usize| Some(number + before);
    renumber_methods(&mut rest, after, after);
    route.methods.extend(rest.methods);
    let waypoints = rest.waypoints.into_iter();
    route.waypoints.extend(waypoints.skip(usize::from(same)));
    route.legs.extend(rest.legs);
    route.end_direction = rest.end_direction;
    let before = length(&solved(plan, scheme, first)?) - length(&other);
    let route = plan.route_mut(scheme, first)?;
    route.pads.extend(rest.pads.into_iter().map(|mut pad| {
        pad.station += before;
        pad
    }));
    let routes = &mut plan.scheme_mut(scheme)?.routes;
    move_branches(routes, second, first);
    remove_route(plan, (scheme, second))?;
    reseat(plan, scheme, &[first - usize::from(second < first)]);
    Ok(())
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
    drop_branches(routes, index);
    shift_junctions(routes, index + 1, -1);
    Ok(())
}

/// Mirrors a path in a line; what starts on its edges starts on the mirrored ones.
pub(super) fn mirror(
    plan: &mut Plan,
    (scheme, index): (usize, usize),
    (through, along): (Point, Direction),
) -> Result<(), EditError> {
    let site = plan.site.clone();
    let route = plan.route_mut(scheme, index)?;
    for waypoint in &mut route.waypoints {
        waypoint.at = through + mirrored(waypoint.at - through, along);
    }
    route.legs.iter_mut().for_each(turn_over);
    for heading in [&mut route.start_direction, &mut route.end_direction] {
        mirror_heading(heading, along, &site);
    }
    route.start_on = None;
    swap_sides(plan, (scheme, index));
    Ok(())
}

/// The mirror image of a vector in a line of this direction.
pub(super) fn mirrored(vector: Vector, along: Direction) -> Vector {
    let across = along.left().unit();
    vector - across * (2.0 * across.dot(vector))
}

/// A bend turns the other way.
pub(super) fn turn_over(leg: &mut Shape) {
    if let Shape::Bend { rise, .. } = leg {
        *rise = -*rise;
    }
}

/// A line of the site is not mirrored with a path: a held direction is an angle from now on.
pub(super) fn mirror_heading(heading: &mut Option<Heading>, along: Direction, site: &Site) {
    *heading = heading
        .take()
        .and_then(|heading| heading.direction(site))
        .and_then(|way| Direction::of(mirrored(way.unit(), along)))
        .map(|way| Heading::Angle(way.angle()));
}
