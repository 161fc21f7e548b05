//! Each leg by itself: a straight, a bend from its rise, or an onward bend.

use geometry::{Arc, ArcError, Direction, Line, Piece, Point};

use super::Report;
use crate::document::{Route, Shape};
use crate::finding::{Code, Part, Severity};
use crate::limits::SHORTEST;

/// The pieces of all legs before any rounding; `None` where both ends are the same point.
pub(super) fn legs(
    route: &Route,
    start: Option<Direction>,
    report: &mut Report<'_>,
) -> Vec<Option<Piece>> {
    let count = route.legs.len();
    let mut pieces = vec![None; count];
    // On a closed path an onward first leg leaves from the last one: begin where the shape of a
    // leg does not depend on another.
    let first = if route.closed {
        let free = |leg: &Shape| !matches!(leg, Shape::Onward);
        route.legs.iter().position(free).unwrap_or(0)
    } else {
        0
    };
    let mut before = if first == 0 { start } else { None };
    for leg in (0..count).map(|i| (first + i) % count) {
        if leg == 0 && !route.closed {
            before = start;
        }
        pieces[leg] = piece(route, leg, before, report);
        if let Some(piece) = &pieces[leg] {
            before = Some(piece.end_direction());
        }
    }
    pieces
}

fn piece(
    route: &Route,
    leg: usize,
    before: Option<Direction>,
    report: &mut Report<'_>,
) -> Option<Piece> {
    let (from, to) = route.ends_of(leg)?;
    let (from, to) = (route.waypoints.get(from)?.at, route.waypoints.get(to)?.at);
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
    match route.legs.get(leg)? {
        Shape::Straight => straight,
        Shape::Bend { rise, .. } => Arc::from_rise(from, to, *rise)
            .map(Piece::Arc)
            .ok()
            .or(straight),
        Shape::Onward => onward(leg, (from, to), before, straight, report),
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
    match Arc::leaving(from, before, to) {
        Ok(arc) => Some(Piece::Arc(arc)),
        Err(ArcError::DoublesBack) => {
            report.add(
                (Severity::Stop, Code::OnwardDoublesBack),
                (Part::Leg(leg), to),
                "this bend would have to double back, its end lies straight behind its start: drawn straight; move its end peg to one side".into(),
                (None, None),
            );
            straight
        }
        Err(_) => straight,
    }
}
