//! What stays where it lies when a path is cut, led on or joined: its line, its landings, and how its bends are set out.

use geometry::{Chain, Piece, SAME_DIRECTION};

use super::EditError;
use super::route::solved;
use crate::document::{Heading, MethodChoice, Plan, Route, Shape};
use crate::solve::{Origin, SolvedRoute};

/// After a path became longer or shorter at its start, its landings stay where they lie: as far
/// from its end as before.
pub(super) fn keep_from_end(
    plan: &mut Plan,
    (scheme, index): (usize, usize),
    length_before: f64,
) -> Result<(), EditError> {
    let longer = length(&solved(plan, scheme, index)?) - length_before;
    for pad in &mut plan.route_mut(scheme, index)?.pads {
        pad.station = (pad.station + longer).max(0.0);
    }
    Ok(())
}

/// After a ring came to start elsewhere, its landings stay where they lie.
pub(super) fn turn_pads(route: &mut Route, length: f64, start: f64) {
    for pad in &mut route.pads {
        if length > 0.0 {
            pad.station = (pad.station.min(length) - start).rem_euclid(length);
        }
    }
}

/// The station at which a waypoint parts the line: the middle of its rounding, if it has one.
pub(super) fn parted_at(solved: &SolvedRoute, waypoint: usize) -> f64 {
    let Some(line) = &solved.centre_line else {
        return 0.0;
    };
    let from = solved.origins.iter().position(|origin| match origin {
        Origin::Leg(leg) | Origin::SecondBend(leg) => *leg >= waypoint,
        Origin::Rounding(at) => *at >= waypoint,
    });
    let Some(piece) = from else {
        return line.length();
    };
    let rounded = solved.origins[piece] == Origin::Rounding(waypoint);
    let half = if rounded {
        0.5 * line.pieces()[piece].length()
    } else {
        0.0
    };
    line.station_of(piece) + half
}

/// What was fixed about the start of a path is no longer about its first peg; on a ring neither is
/// the end.
pub(super) fn starts_elsewhere(route: &mut Route) {
    route.start_direction = None;
    route.start_on = None;
    if route.closed {
        route.end_direction = None;
    }
}

/// Where a path is cut, a first leg that took its shape from the leg before takes it from the
/// direction the line has there.
pub(super) fn hold_start(route: &mut Route, drawn: &[Piece]) {
    if let (Some(Shape::Onward | Shape::TwoBends), Some(piece)) =
        (route.legs.first(), drawn.first())
    {
        route.start_direction = Some(Heading::Angle(piece.start_direction().angle()));
    }
}

/// The same at the end: two bends took their shape from the leg after.
pub(super) fn hold_end(route: &mut Route, drawn: &[Piece]) {
    if let (Some(Shape::TwoBends), Some(piece)) = (route.legs.last(), drawn.last()) {
        route.end_direction = Some(Heading::Angle(piece.end_direction().angle()));
    }
}

/// A leg that takes its shape from its neighbours becomes free, just as it is drawn.
pub(super) fn free_onward(route: &mut Route, solved: &SolvedRoute, leg: usize) {
    let Some(shape) = route.legs.get_mut(leg) else {
        return;
    };
    if let (Shape::Onward, Some([piece])) = (&*shape, solved.legs.get(leg).map(Vec::as_slice)) {
        *shape = as_drawn(piece);
    }
}

pub(super) fn as_drawn(piece: &Piece) -> Shape {
    piece
        .arc()
        .map_or(Shape::Straight, |arc| Shape::bend(arc.rise()))
}

/// Whether a line arrives in the direction in which another leaves.
pub(super) fn runs_on(one: &SolvedRoute, other: &SolvedRoute) -> bool {
    let (Some(one), Some(other)) = (&one.centre_line, &other.centre_line) else {
        return false;
    };
    let arrives = one.pieces()[one.pieces().len() - 1].end_direction();
    arrives.turn_to(other.direction_at(0.0)).abs() < SAME_DIRECTION
}

pub(super) fn length(solved: &SolvedRoute) -> f64 {
    solved.centre_line.as_ref().map_or(0.0, Chain::length)
}

/// After legs and waypoints came to count anew, each chosen method stays with its bend: `leg` and
/// `waypoint` say what becomes of a number. What is gone is chosen for no longer.
pub(super) fn renumber_methods(
    route: &mut Route,
    leg: impl Fn(usize) -> Option<usize>,
    waypoint: impl Fn(usize) -> Option<usize>,
) {
    route.methods = std::mem::take(&mut route.methods)
        .into_iter()
        .filter_map(|choice| {
            let of = match choice.of {
                Origin::Leg(number) => Origin::Leg(leg(number)?),
                Origin::SecondBend(number) => Origin::SecondBend(leg(number)?),
                Origin::Rounding(number) => Origin::Rounding(waypoint(number)?),
            };
            Some(MethodChoice { of, ..choice })
        })
        .collect();
}

/// The methods chosen for bends of a ring that starts at another waypoint stay with them.
pub(super) fn turn_methods(route: &mut Route, start: usize) {
    let count = route.legs.len();
    let turned = |number: usize| Some((number + count - start) % count.max(1));
    renumber_methods(route, turned, turned);
}

/// A method is chosen for bends only.
pub(super) fn drop_methods_of_no_bend(plan: &mut Plan) {
    let routes = plan
        .schemes
        .iter_mut()
        .flat_map(|scheme| &mut scheme.routes);
    for route in routes.filter(|route| !route.methods.is_empty()) {
        let mut methods = std::mem::take(&mut route.methods);
        methods.retain(|choice| route.is_bend(choice.of));
        route.methods = methods;
    }
}
