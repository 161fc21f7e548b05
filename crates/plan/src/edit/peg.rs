//! A peg moves: what the legs on both sides do.

use geometry::{Bend, Direction, Figure, Point, SAME_PLACE, bends_from};

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
    if id.waypoint >= route.waypoints.len() {
        return Err(EditError::NotThere);
    }
    let (before, after) = route.legs_at(id.waypoint);
    let legs: Vec<usize> = before.into_iter().chain(after).collect();
    let Some(way) = Way::of(route, id.waypoint, &legs, to) else {
        return Ok(Some(Stopped::BothChords));
    };
    let moved = |share: f64| {
        let at = way.at(share);
        moved_legs(route, id.waypoint, &legs, at).map(|shapes| (at, shapes))
    };
    let (stopped, (at, shapes)) = match moved(1.0) {
        Ok(there) => (None, there),
        Err(why) => {
            let short = farthest(moved).ok_or_else(|| EditError::Held(why.clone()))?;
            (Some(why), short)
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
    move_peg_of(route, id.leg, end, to)
}

/// Moves a peg of a leg exactly to `to`; the other leg there follows the rule, the leg itself is left
/// as it is.
fn move_peg_of(route: &mut Route, leg: usize, peg: usize, to: Point) -> Result<(), EditError> {
    let (before, after) = route.legs_at(peg);
    let others: Vec<usize> = before
        .into_iter()
        .chain(after)
        .filter(|other| *other != leg)
        .collect();
    let shapes = moved_legs(route, peg, &others, to).map_err(EditError::Held)?;
    route.waypoints[peg].at = to;
    for (leg, shape) in shapes {
        route.legs[leg] = shape;
    }
    Ok(())
}

/// Gives a bend these ends and this rise; what was typed lets go.
pub(super) fn set_bend(
    plan: &mut Plan,
    id: LegId,
    ends: [Point; 2],
    rise: f64,
) -> Result<(), EditError> {
    let shape = plan.leg_mut(id)?;
    match shape {
        Shape::Bend { .. } => *shape = Shape::bend(rise),
        Shape::Straight => return Err(EditError::NotABend),
        Shape::Onward | Shape::TwoBends => return Err(EditError::Onward),
    }
    if !ends.iter().all(|end| end.is_finite()) {
        return Err(EditError::Held(Stopped::Limit));
    }
    let route = plan.route_mut(id.scheme, id.route)?;
    let (from, to) = route.ends_of(id.leg).ok_or(EditError::NotThere)?;
    move_peg_of(route, id.leg, from, ends[0])?;
    move_peg_of(route, id.leg, to, ends[1])
}

/// The way a dragged peg can take: straight, or round the other peg of a bend whose chord holds.
enum Way {
    Straight {
        from: Point,
        to: Point,
    },
    Round {
        pivot: Point,
        chord: f64,
        start: Direction,
        turn: f64,
        from: Point,
    },
}

impl Way {
    /// The way towards `to`; `None` if the chords on both sides hold.
    fn of(route: &Route, waypoint: usize, legs: &[usize], to: Point) -> Option<Self> {
        let from = route.waypoints[waypoint].at;
        let pivots: Vec<Point> = legs
            .iter()
            .filter(|leg| chord_holds(&route.legs[**leg]))
            .filter_map(|leg| other_end(route, *leg, waypoint))
            .collect();
        match pivots[..] {
            [] => Some(Self::Straight { from, to }),
            [pivot] => {
                let start = Direction::of(from - pivot).unwrap_or(Direction::EAST);
                let turn = Direction::of(to - pivot).map_or(0.0, |way| start.turn_to(way));
                Some(Self::Round {
                    pivot,
                    chord: pivot.distance(from),
                    start,
                    turn,
                    from,
                })
            }
            _ => None,
        }
    }

    /// The place at a share of the way: 0 where the peg is, 1 as near to the hand as it can be.
    fn at(&self, share: f64) -> Point {
        match *self {
            Self::Straight { to, .. } if share >= 1.0 => to,
            Self::Straight { from, to } => from.towards(to, share),
            Self::Round { from, turn, .. } if turn * share == 0.0 => from,
            Self::Round {
                pivot,
                chord,
                start,
                turn,
                ..
            } => pivot + start.turned(turn * share).unit() * chord,
        }
    }
}

/// What holds a peg on its circle, if anything does.
pub(super) fn holding(route: &Route, waypoint: usize) -> Option<Stopped> {
    let (before, after) = route.legs_at(waypoint);
    let mut legs = before.into_iter().chain(after);
    legs.find_map(|leg| match route.legs.get(leg)? {
        Shape::Bend { holds, .. } if chord_holds(&route.legs[leg]) => Some(Stopped::Holds {
            leg,
            figures: held(holds),
        }),
        _ => None,
    })
}

fn chord_holds(leg: &Shape) -> bool {
    match leg {
        Shape::Bend { holds, .. } => holds.len() == 2 || holds.contains(&Figure::Chord),
        Shape::Straight | Shape::Onward | Shape::TwoBends => false,
    }
}

fn other_end(route: &Route, leg: usize, waypoint: usize) -> Option<Point> {
    let (start, end) = route.ends_of(leg)?;
    let other = if start == waypoint { end } else { start };
    route.waypoints.get(other).map(|w| w.at)
}

/// The shapes of the legs if the waypoint stood at `to`, or why it cannot.
pub(super) fn moved_legs(
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
    let stop = || Stopped::Holds {
        leg,
        figures: held(typed),
    };
    let holding = match typed {
        _ if (new - old).abs() <= 0.0 => return Ok(None),
        [one] if *one != Figure::Chord => *one,
        // The chord holds: the peg went round on its circle, or cannot go.
        [_, ..] if (new - old).abs() <= SAME_PLACE => return Ok(None),
        [_, ..] => return Err(stop()),
        [] => {
            // The shape stays: rise and radius grow with the chord.
            return Ok((old > 0.0).then(|| rise * (new / old)));
        }
    };
    let Ok(bend) = Bend::from_chord_and_rise(old, rise.abs()) else {
        return Ok(None);
    };
    let value = bend.figure(holding).ok_or_else(stop)?;
    let answers = bends_from((Figure::Chord, new), (holding, value)).map_err(|_| stop())?;
    let moved = nearest(&answers, bend.sweep()).ok_or_else(stop)?;
    Ok(Some(moved.rise().copysign(rise)))
}

/// What works farthest along a way, found by halving; `None` if not even its start does.
fn farthest<T>(works: impl Fn(f64) -> Result<T, Stopped>) -> Option<T> {
    const HALVINGS: u32 = 48; // a 100 km drag to well below a micrometre
    let (mut near, mut far) = (0.0, 1.0);
    let mut best = works(near).ok()?;
    for _ in 0..HALVINGS {
        let middle = 0.5 * (near + far);
        match works(middle) {
            Ok(better) => (near, best) = (middle, better),
            Err(_) => far = middle,
        }
    }
    Some(best)
}
