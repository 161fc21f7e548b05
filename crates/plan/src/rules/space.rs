//! Room to pass and to turn on the landings of a path.

use geometry::Chain;

use super::Space;
use crate::document::{PadShape, Route};

/// The longest way from one place where two can pass to the next, and the station of its middle. The
/// ends of an open path count as such places.
pub(super) fn widest_gap(route: &Route, chain: &Chain, space: Space) -> (f64, f64) {
    let length = chain.length();
    let mut stations: Vec<f64> = route
        .pads
        .iter()
        .filter(|pad| holds(pad.shape, space))
        .map(|pad| pad.station.clamp(0.0, length))
        .collect();
    stations.sort_by(f64::total_cmp);
    if chain.is_closed() {
        // Once round from the last to the first.
        let Some(first) = stations.first().copied() else {
            return (length, 0.5 * length);
        };
        stations.push(first + length);
    } else {
        stations.insert(0, 0.0);
        stations.push(length);
    }
    let gaps = stations
        .windows(2)
        .map(|pair| (pair[1] - pair[0], 0.5 * (pair[0] + pair[1])));
    let (gap, middle) = gaps
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .unwrap_or((length, 0.0));
    (
        gap,
        if middle > length {
            middle - length
        } else {
            middle
        },
    )
}

/// Whether a rectangle of that size has room on a landing, either way round.
fn holds(shape: PadShape, Space { along, across }: Space) -> bool {
    // What is drawn to the size itself holds it.
    let fits = |room: f64, wanted: f64| room >= wanted - 1e-9;
    match shape {
        PadShape::Rectangle {
            along: a,
            across: b,
        } => (fits(a, along) && fits(b, across)) || (fits(a, across) && fits(b, along)),
        PadShape::Circle { diameter } => fits(diameter, along.hypot(across)),
    }
}

/// The diameter of the largest circle on the path or one of its landings.
pub(super) fn room_to_turn(route: &Route, width: f64) -> f64 {
    let room = |shape: PadShape| match shape {
        PadShape::Rectangle { along, across } => along.min(across),
        PadShape::Circle { diameter } => diameter,
    };
    route
        .pads
        .iter()
        .map(|pad| room(pad.shape))
        .fold(width, f64::max)
}
