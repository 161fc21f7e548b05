//! What stands on the site, as seen through the window of the plan page: each kind of thing by its
//! own kind of line and filling, so that a copier in black and white keeps them apart.

use std::f64::consts::{FRAC_PI_4, TAU};

use geometry::Point;
use plan::document::{Extent, Obstacle, ObstacleKind};

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

/// The obstacle as far as it shows in the window.
pub(super) fn drawn(obstacle: &Obstacle, view: &View, window: &Frame) -> Drawn {
    let (places, closed) = outline(&obstacle.extent, view, window);
    let mut inks = Vec::new();
    let pen = pen(obstacle.kind);
    let strokes = strokes(&places, closed, window);
    if closed && places.len() <= FILLED {
        inks.extend(filling(obstacle.kind, &places, window));
    }
    for run in &strokes {
        inks.extend(Ink::polyline(run, pen));
    }
    if obstacle.kind == ObstacleKind::Wall {
        inks.extend(ticks(&strokes, window));
    }
    if let Extent::Round { centre, .. } = &obstacle.extent {
        let middle = view.paper_from_plan(*centre);
        if obstacle.kind == ObstacleKind::Tree
            && window.inset(1.0).holds(&Frame::new(middle, 0.0, 0.0), 0.0)
        {
            let arm = |x: f64, y: f64| {
                Ink::line(middle.shifted(-x, -y), middle.shifted(x, y), Pen::OUTLINE)
            };
            inks.extend([arm(1.0, 0.0), arm(0.0, 1.0)]);
        }
    }
    Drawn {
        name_at: name_places(&strokes, closed),
        inks,
    }
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
        ObstacleKind::Boundary => Pen::new(0.5, Dash::LongDashDot),
    }
}

/// The corners on paper, and whether the last joins the first.
fn outline(extent: &Extent, view: &View, window: &Frame) -> (Vec<Pos>, bool) {
    match extent {
        Extent::Line(points) => (merged(points, view), false),
        Extent::Area(points) => (merged(points, view), points.len() > 2),
        Extent::Curved(_) => (merged(&along(extent), view), true),
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
fn along(extent: &Extent) -> Vec<Point> {
    let mut points = Vec::new();
    for side in extent.sides() {
        let parts: u8 = if side.arc().is_some() { 32 } else { 1 };
        let step = side.length() / f64::from(parts);
        points.extend((0..parts).map(|i| side.point_at(step * f64::from(i))));
    }
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

/// Lines inside the outline: buildings slanting, water level, beds dotted.
fn filling(kind: ObstacleKind, places: &[Pos], window: &Frame) -> Vec<Ink> {
    let (angle, spacing, pen) = match kind {
        ObstacleKind::Building => (FRAC_PI_4, 2.5, Pen::RULE),
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
