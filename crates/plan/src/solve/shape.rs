//! Each leg by itself: a straight, a bend from its rise, an onward bend, or two bends smoothly joined.

use geometry::{Arc, ArcError, Direction, Line, Piece, Point, two_bends};

use super::Report;
use crate::document::{Route, Shape};
use crate::finding::{Code, Part, Severity};
use crate::limits::SHORTEST;

/// The pieces of all legs before any rounding: one each, two for two bends, none where both ends
/// are the same point.
pub(super) fn legs(
    route: &Route,
    [start, end]: [Option<Direction>; 2],
    report: &mut Report<'_>,
) -> Vec<Vec<Piece>> {
    let count = route.legs.len();
    let mut pieces = vec![Vec::new(); count];
    let (first, mut before) = beginning(route, start);
    for leg in (0..count).map(|i| (first + i) % count) {
        let last = leg + 1 == count;
        let after = if last { end } else { None };
        let after = match after {
            None if !last || route.closed => arrives(route, leg, start),
            fixed => fixed,
        };
        pieces[leg] = leg_pieces(route, leg, [before, after], report);
        if let Some(piece) = pieces[leg].last() {
            before = Some(piece.end_direction());
        }
    }
    pieces
}

/// The leg to begin with, and the direction it leaves in. On a closed path without a start direction
/// the first leg may leave from the last one: it begins at a straight or a free bend, else after
/// two bends, whose arrival hangs on nothing before them.
fn beginning(route: &Route, start: Option<Direction>) -> (usize, Option<Direction>) {
    if !route.closed || start.is_some() {
        return (0, start);
    }
    let find = |shape: fn(&Shape) -> bool| route.legs.iter().position(shape);
    if let Some(leg) = find(|leg| matches!(leg, Shape::Straight | Shape::Bend { .. })) {
        return (leg, None);
    }
    match find(|leg| matches!(leg, Shape::TwoBends)) {
        Some(leg) => ((leg + 1) % route.legs.len(), arrives(route, leg, None)),
        None => (0, None),
    }
}

/// The direction in which two bends must arrive at the end of a leg: that of the leg after. Where
/// that one takes its own from here, the path runs past the waypoint in the direction from the
/// waypoint before to the one after, and past its start in the start direction.
fn arrives(route: &Route, leg: usize, start: Option<Direction>) -> Option<Direction> {
    let next = (leg + 1) % route.legs.len();
    let at = |i: usize| route.waypoints.get(i).map(|w| w.at);
    let (from, to) = route.ends_of(next)?;
    let (from, to) = (at(from)?, at(to)?);
    match route.legs.get(next)? {
        Shape::Straight => Direction::of(to - from),
        Shape::Bend { rise, .. } => match Arc::from_rise(from, to, *rise) {
            Ok(arc) => Some(arc.direction_at(0.0)),
            Err(_) => Direction::of(to - from),
        },
        Shape::Onward | Shape::TwoBends if next == 0 && start.is_some() => start,
        Shape::Onward | Shape::TwoBends => {
            let before = at(route.ends_of(leg)?.0)?;
            Direction::of(to - before)
        }
    }
}

fn leg_pieces(
    route: &Route,
    leg: usize,
    [before, after]: [Option<Direction>; 2],
    report: &mut Report<'_>,
) -> Vec<Piece> {
    let ends = route.ends_of(leg).and_then(|(from, to)| {
        let at = |i: usize| route.waypoints.get(i).map(|w| w.at);
        at(from).zip(at(to))
    });
    let Some((from, to)) = ends else {
        return Vec::new();
    };
    let apart = from.distance(to);
    if apart < SHORTEST {
        report.add(
            (Severity::Stop, Code::WaypointsCoincide),
            (Part::Leg(leg), from),
            format!(
                "waypoints {} and {} lie on each other: move one of them, or take it out",
                leg + 1,
                (leg + 1) % route.waypoints.len() + 1
            ),
            (Some(apart), Some(SHORTEST)),
        );
    }
    let straight = Line::new(from, to).ok().map(Piece::Line);
    let one = match route.legs.get(leg) {
        Some(Shape::Bend { rise, .. }) => Arc::from_rise(from, to, *rise)
            .map(Piece::Arc)
            .ok()
            .or(straight),
        Some(Shape::Onward) => onward(leg, (from, to), before, straight, report),
        Some(Shape::TwoBends) => match (before, after) {
            (Some(leaving), Some(arriving)) => {
                return both_bends(leg, (from, to), [leaving, arriving], straight, report);
            }
            (None, Some(arriving)) => one_bend(
                Arc::arriving(from, to, arriving),
                (leg, from),
                straight,
                report,
            ),
            (before, None) => onward(leg, (from, to), before, straight, report),
        },
        Some(Shape::Straight) | None => straight,
    };
    one.into_iter().collect()
}

fn both_bends(
    leg: usize,
    (from, to): (Point, Point),
    [leaving, arriving]: [Direction; 2],
    straight: Option<Piece>,
    report: &mut Report<'_>,
) -> Vec<Piece> {
    match two_bends(from, leaving, to, arriving) {
        Ok(bends) => bends.pieces().to_vec(),
        Err(_) => {
            if straight.is_some() {
                report.add(
                    (Severity::Stop, Code::OnwardDoublesBack),
                    (Part::Leg(leg), to),
                    "no two bends leave and arrive smoothly here: drawn straight; move one of its end pegs to one side".into(),
                    (None, None),
                );
            }
            straight.into_iter().collect()
        }
    }
}

fn onward(
    leg: usize,
    (from, to): (Point, Point),
    before: Option<Direction>,
    straight: Option<Piece>,
    report: &mut Report<'_>,
) -> Option<Piece> {
    let Some(before) = before else {
        report.add(
            (Severity::Care, Code::OnwardWithoutStart),
            (Part::Leg(leg), from),
            "this bend has no leg before it to leave smoothly: drawn straight; give the path a start direction or make the bend a free one".into(),
            (None, None),
        );
        return straight;
    };
    one_bend(Arc::leaving(from, before, to), (leg, to), straight, report)
}

/// The bend that leaves or arrives smoothly, or the straight where it would double back.
fn one_bend(
    bend: Result<Arc, ArcError>,
    (leg, free_end): (usize, Point),
    straight: Option<Piece>,
    report: &mut Report<'_>,
) -> Option<Piece> {
    match bend {
        Ok(arc) => Some(Piece::Arc(arc)),
        Err(ArcError::DoublesBack) => {
            report.add(
                (Severity::Stop, Code::OnwardDoublesBack),
                (Part::Leg(leg), free_end),
                "this bend would have to double back, its end lies straight behind its start: drawn straight; move its end peg to one side".into(),
                (None, None),
            );
            straight
        }
        Err(_) => straight,
    }
}
