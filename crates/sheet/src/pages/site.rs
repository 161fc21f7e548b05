//! What stands on the site, as seen through the window of the plan page: each kind of thing by its
//! own kind of line and filling, so that a copier in black and white keeps them apart.

use std::f64::consts::{FRAC_PI_4, TAU};

use geometry::{Chain, Piece, Point};
use plan::document::{Extent, Obstacle, ObstacleKind, RootRule};

use crate::ink::{Ink, Pos};
use crate::paper::Frame;
use crate::pen::{Dash, Pen, Tone};

use super::scale::{View, clipped};

/// Corners nearer to each other than this on paper are drawn as one, millimetres: less than the
/// narrowest pen.
const MERGED: f64 = 0.15;

/// Outlines with more corners than this are not filled with lines.
const FILLED: usize = 2000;

/// An obstacle on paper.
pub(super) struct Drawn {
    /// Its lines.
    pub(super) inks: Vec<Ink>,
    /// Where its name is best put; empty when nothing of it shows.
    pub(super) name_at: Vec<Pos>,
}

/// The obstacle as far as it shows in the window; `roots` says how far those of a tree reach.
pub(super) fn drawn(obstacle: &Obstacle, roots: RootRule, view: &View, window: &Frame) -> Drawn {
    let (places, closed) = outline(&obstacle.extent, view, window);
    let mut inks = Vec::new();
    let strokes = strokes(&places, closed, window);
    if closed && places.len() <= FILLED {
        inks.extend(filling(obstacle.kind, &places, window));
    }
    let thick = match obstacle.kind {
        ObstacleKind::Wall => faces(obstacle, view, window),
        _ => None,
    };
    match (thick, whole(&obstacle.extent, view, window)) {
        (Some(faces), _) => inks.extend(faces),
        // Bent sides that show as a whole are true arcs.
        (None, Some(outline)) => inks.push(view.chain(&outline, pen(obstacle.kind))),
        (None, None) => {
            let pen = pen(obstacle.kind);
            inks.extend(strokes.iter().filter_map(|run| Ink::polyline(run, pen)));
            if obstacle.kind == ObstacleKind::Wall {
                inks.extend(ticks(&strokes, window));
            }
        }
    }
    inks.extend(beside(obstacle, roots, view, window));
    Drawn {
        name_at: name_places(&strokes, closed),
        inks,
    }
}

/// A wall narrower than this on paper is one line, millimetres.
const NARROW: f64 = 0.7;

/// Both faces of a wall that can be told apart, with the wall hatched between them.
fn faces(obstacle: &Obstacle, view: &View, window: &Frame) -> Option<Vec<Ink>> {
    let half = 0.5 * obstacle.thickness?;
    let on_paper = 2.0 * half * view.scale.millimetres();
    let [left, right] = obstacle.extent.faces(half).filter(|_| on_paper > NARROW)?;
    let round: Vec<Point> = left.into_iter().chain(right.into_iter().rev()).collect();
    let places = merged(&round, view);
    let mut inks = filling(ObstacleKind::Wall, &places, window);
    let runs = strokes(&places, true, window);
    inks.extend(
        runs.iter()
            .filter_map(|run| Ink::polyline(run, Pen::OUTLINE)),
    );
    Some(inks)
}

/// The outline of a thing with bent sides, if all of it shows in the window.
fn whole(extent: &Extent, view: &View, window: &Frame) -> Option<Chain> {
    let Extent::Curved(_) = extent else {
        return None;
    };
    let room = extent.room()?;
    let ends = [room.low, room.high].map(|at| view.paper_from_plan(at));
    let all = Frame::around(ends)?;
    window.holds(&all, 0.0).then(|| extent.chain())?
}

/// What belongs to an obstacle beside its outline: the cross in a stem and the reach of its roots,
/// where a service may lie, the swing of a gate.
fn beside(obstacle: &Obstacle, roots: RootRule, view: &View, window: &Frame) -> Vec<Ink> {
    let mut inks = Vec::new();
    let mut trace = |places: &[Pos], closed: bool, pen: Pen| {
        let runs = strokes(places, closed, window);
        inks.extend(runs.iter().filter_map(|run| Ink::polyline(run, pen)));
    };
    match obstacle.kind {
        ObstacleKind::Tree => {
            if let Some((centre, radius)) = obstacle.root_circle(roots) {
                let zone = Extent::Round { centre, radius };
                let (places, closed) = outline(&zone, view, window);
                trace(&places, closed, Pen::ZONE);
                let middle = view.paper_from_plan(centre);
                let at = |x: f64, y: f64| [middle.shifted(-x, -y), middle.shifted(x, y)];
                trace(&at(1.0, 0.0), false, Pen::OUTLINE);
                trace(&at(0.0, 1.0), false, Pen::OUTLINE);
            }
        }
        ObstacleKind::Service => {
            let edges = obstacle.unsure.and_then(|by| obstacle.extent.faces(by));
            for edge in edges.into_iter().flatten() {
                trace(&merged(&edge, view), false, Pen::ZONE);
            }
        }
        ObstacleKind::Gate => {
            let swept = points_along(obstacle.swept().into_iter());
            trace(&merged(&swept, view), false, Pen::THIN);
            if let (Some([hinge, _]), Some(end)) = (obstacle.posts(), obstacle.opened()) {
                trace(&merged(&[hinge, end], view), false, Pen::THIN);
            }
            for post in obstacle.posts().into_iter().flatten() {
                let at = view.paper_from_plan(post);
                let corner = |x, y| at.shifted(x, y);
                let square = [
                    corner(-0.6, -0.6),
                    corner(0.6, -0.6),
                    corner(0.6, 0.6),
                    corner(-0.6, 0.6),
                ];
                trace(&square, true, Pen::OUTLINE);
            }
        }
        _ => {}
    }
    inks
}

/// The name to write beside it: what it is called, and what one cannot see.
pub(super) fn name(obstacle: &Obstacle) -> String {
    let kind = match obstacle.kind {
        ObstacleKind::Wall => "wall",
        ObstacleKind::Building => "building",
        ObstacleKind::Bed => "bed",
        ObstacleKind::Pond => "water",
        ObstacleKind::Tree => "tree",
        ObstacleKind::Service => "buried",
        ObstacleKind::Boundary => "boundary",
        ObstacleKind::Gate => "gate",
    };
    let name = obstacle.name.trim();
    if name.is_empty() {
        kind.to_owned()
    } else if matches!(
        obstacle.kind,
        ObstacleKind::Service | ObstacleKind::Boundary
    ) && !name.contains(kind)
    {
        format!("{name} ({kind})")
    } else {
        name.to_owned()
    }
}

fn pen(kind: ObstacleKind) -> Pen {
    match kind {
        ObstacleKind::Wall | ObstacleKind::Building | ObstacleKind::Gate => {
            Pen::new(0.5, Dash::Continuous)
        }
        ObstacleKind::Bed | ObstacleKind::Pond | ObstacleKind::Tree => Pen::OUTLINE,
        ObstacleKind::Service => Pen::BURIED,
        ObstacleKind::Boundary => Pen::BOUNDARY,
    }
}

/// The corners on paper, and whether the last joins the first.
fn outline(extent: &Extent, view: &View, window: &Frame) -> (Vec<Pos>, bool) {
    match extent {
        Extent::Line(points) => (merged(points, view), false),
        Extent::Area(points) => (merged(points, view), points.len() > 2),
        Extent::Curved(_) => {
            // The last point is the first again.
            let mut points = points_along(extent.sides());
            points.pop();
            (merged(&points, view), true)
        }
        Extent::Round { centre, radius } => {
            let middle = view.paper_from_plan(*centre);
            let radius = radius * view.scale.millimetres();
            // Of a circle far larger than the page only the part that can show is drawn.
            let reach = window.width.hypot(window.height);
            let (from, sweep) = if radius > 4.0 * reach {
                let share = (reach / radius).min(1.0);
                (middle.direction(window.middle()) - share, 2.0 * share)
            } else {
                (0.0, TAU)
            };
            let steps = 96_u8;
            let at = |i: u8| middle.toward(from + sweep * f64::from(i) / f64::from(steps), radius);
            ((0..steps).map(at).collect(), sweep >= TAU)
        }
    }
}

/// Points along straight and bent sides, each bent one in so many parts that none shows.
fn points_along(sides: impl Iterator<Item = Piece>) -> Vec<Point> {
    let mut points = Vec::new();
    let mut end = None;
    for side in sides {
        let parts: u8 = if side.arc().is_some() { 96 } else { 1 };
        let step = side.length() / f64::from(parts);
        points.extend((0..parts).map(|i| side.point_at(step * f64::from(i))));
        end = Some(side.end());
    }
    points.extend(end);
    points
}

fn merged(points: &[Point], view: &View) -> Vec<Pos> {
    let mut places: Vec<Pos> = Vec::new();
    for point in points {
        let at = view.paper_from_plan(*point);
        if places.last().is_none_or(|last| last.distance(at) > MERGED) {
            places.push(at);
        }
    }
    places
}

/// The lines of the outline that show, each run unbroken.
fn strokes(places: &[Pos], closed: bool, window: &Frame) -> Vec<Vec<Pos>> {
    let mut runs: Vec<Vec<Pos>> = Vec::new();
    let ends = places
        .iter()
        .skip(1)
        .chain(closed.then(|| places.first()).flatten());
    for (from, to) in places.iter().zip(ends) {
        let Some((from, to)) = clipped(*from, *to, window) else {
            continue;
        };
        match runs.last_mut() {
            Some(run) if run.last().is_some_and(|last| last.distance(from) < 1e-6) => run.push(to),
            _ => runs.push(vec![from, to]),
        }
    }
    runs
}

/// Lines inside the outline: buildings slanting, walls closer and the other way, water level, beds
/// dotted.
fn filling(kind: ObstacleKind, places: &[Pos], window: &Frame) -> Vec<Ink> {
    let (angle, spacing, pen) = match kind {
        ObstacleKind::Building => (FRAC_PI_4, 2.5, Pen::RULE),
        ObstacleKind::Wall => (-FRAC_PI_4, 1.0, Pen::RULE),
        ObstacleKind::Pond => (0.0, 1.6, Pen::RULE),
        ObstacleKind::Bed => (-FRAC_PI_4, 2.2, Pen::ZONE),
        _ => return Vec::new(),
    };
    let turned: Vec<Pos> = places
        .iter()
        .map(|at| at.turned(Pos::ORIGIN, -angle))
        .collect();
    let seen = |corner: Pos| corner.turned(Pos::ORIGIN, -angle);
    let corners = [
        window.corner,
        window.corner.shifted(window.width, 0.0),
        window.corner.shifted(0.0, window.height),
        window.corner.shifted(window.width, window.height),
    ];
    let Some(room) = Frame::around(corners.map(seen)) else {
        return Vec::new();
    };
    let Some(frame) = Frame::around(turned.iter().copied()).and_then(|frame| frame.shared(&room))
    else {
        return Vec::new();
    };
    let mut inks = Vec::new();
    let mut y = frame.foot() + 0.5 * spacing;
    while y < frame.head() {
        let mut crossed: Vec<f64> = turned
            .iter()
            .zip(turned.iter().cycle().skip(1))
            .filter(|(a, b)| (a.y > y) != (b.y > y))
            .map(|(a, b)| a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x))
            .collect();
        crossed.sort_by(f64::total_cmp);
        for pair in crossed.chunks_exact(2) {
            let at = |x: f64| Pos::new(x, y).turned(Pos::ORIGIN, angle);
            if let Some((from, to)) = clipped(at(pair[0]), at(pair[1]), window) {
                inks.push(Ink::line(from, to, pen.toned(Tone::Grey)));
            }
        }
        y += spacing;
    }
    inks
}

/// Short strokes across a wall or fence.
fn ticks(strokes: &[Vec<Pos>], window: &Frame) -> Vec<Ink> {
    const EVERY: f64 = 5.0;
    let mut inks = Vec::new();
    for pair in strokes.iter().flat_map(|run| run.windows(2)) {
        let [from, to] = pair else { continue };
        let way = from.direction(*to);
        let length = from.distance(*to);
        let mut along = 0.5 * EVERY.min(length);
        while along < length {
            let at = from.toward(way, along);
            let end = at.toward(way + FRAC_PI_4, 1.4);
            if window.holds(&Frame::new(end, 0.0, 0.0), 0.0) {
                inks.push(Ink::line(at, end, Pen::THIN));
            }
            along += EVERY;
        }
    }
    inks
}

/// The middle of what shows of an area; the middles of the longest lines that show.
fn name_places(strokes: &[Vec<Pos>], closed: bool) -> Vec<Pos> {
    let mut places: Vec<Pos> = Vec::new();
    if closed {
        places.extend(Frame::around(strokes.iter().flatten().copied()).map(|frame| frame.middle()));
    }
    let mut lines: Vec<(f64, Pos)> = strokes
        .iter()
        .flat_map(|run| run.windows(2))
        .map(|pair| {
            let middle = Pos::new(0.5 * (pair[0].x + pair[1].x), 0.5 * (pair[0].y + pair[1].y));
            (pair[0].distance(pair[1]), middle)
        })
        .collect();
    lines.sort_by(|a, b| b.0.total_cmp(&a.0));
    places.extend(lines.into_iter().take(2).map(|(_, middle)| middle));
    places
}
