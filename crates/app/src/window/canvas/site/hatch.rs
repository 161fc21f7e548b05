//! Lines and dots that fill an outline, lying still on the ground while the plan is moved.

use std::f64::consts::PI;

use egui::{Color32, Mesh, Painter, Pos2, Rect, Shape, Stroke, Vec2};
use geometry::{Piece, Point, Vector};
use plan::document::Extent;

use crate::window::view::View;

/// How an outline is filled.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Hatch {
    /// The way its lines run, radians counter-clockwise from east.
    pub(super) angle: f64,
    /// From line to line, in screen points.
    pub(super) apart: f32,
    /// Dots instead of lines.
    pub(super) dotted: bool,
}

/// From dot to dot along a line, in screen points.
const DOTS: f32 = 9.0;
/// Side of a dot, in screen points.
const DOT: f32 = 1.6;
/// More lines than this across one outline are not drawn: they would only be grey.
const MOST_LINES: f64 = 2000.0;
/// How far a chord of a drawn arc may leave it, in screen points.
const CHORD_ERROR: f64 = 0.5;

/// Fills a closed outline.
pub(super) fn fill(painter: &Painter, view: &View, extent: &Extent, hatch: Hatch, stroke: Stroke) {
    if !extent.is_closed() {
        return;
    }
    let corners = outline(extent, view);
    let lines = lines(&corners, view, hatch);
    if hatch.dotted {
        painter.add(Shape::mesh(dots(&lines, stroke.color)));
    } else {
        painter.extend(lines.into_iter().map(|ends| Shape::LineSegment {
            points: ends,
            stroke,
        }));
    }
}

/// The corners of an outline, bent sides in parts that look round.
fn outline(extent: &Extent, view: &View) -> Vec<Point> {
    let mut corners = Vec::with_capacity(extent.count());
    for side in extent.sides() {
        let parts = match side {
            Piece::Line(_) => 1.0,
            Piece::Arc(arc) => {
                let radius = (arc.radius() * view.points_per_metre()).max(1.0);
                let step = 2.0 * (1.0 - CHORD_ERROR / radius).acos();
                (arc.sweep().abs() / step.max(PI / 200.0)).ceil()
            }
        };
        let step = side.length() / parts;
        let mut done = 0.0;
        while done < parts {
            corners.push(side.point_at(step * done));
            done += 1.0;
        }
    }
    corners
}

/// The seen parts of parallel lines inside an outline.
fn lines(corners: &[Point], view: &View, hatch: Hatch) -> Vec<[Pos2; 2]> {
    let (sine, cosine) = hatch.angle.sin_cos();
    let (along, across) = (Vector::new(cosine, sine), Vector::new(-sine, cosine));
    let place = |point: Point| {
        let way = point - Point::ORIGIN;
        (way.dot(along), way.dot(across))
    };
    let apart = view.plan_length(hatch.apart);
    let seen = view.seen();
    let window = [
        seen.low,
        seen.high,
        Point::new(seen.low.x, seen.high.y),
        Point::new(seen.high.x, seen.low.y),
    ]
    .map(place);
    let range = |values: &mut dyn Iterator<Item = f64>| {
        values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| {
            (low.min(v), high.max(v))
        })
    };
    let seen_along = range(&mut window.iter().map(|(u, _)| *u));
    let seen_across = range(&mut window.iter().map(|(_, v)| *v));
    let all = range(&mut corners.iter().map(|corner| place(*corner).1));
    let first = (all.0.max(seen_across.0) / apart).ceil();
    let last = (all.1.min(seen_across.1) / apart).floor();
    if !(first <= last && last - first <= MOST_LINES) {
        return Vec::new();
    }
    let mut cuts: Vec<Vec<f64>> = vec![Vec::new(); nth(last - first) + 1];
    let next = corners.iter().cycle().skip(1);
    for (from, to) in corners.iter().zip(next) {
        let (from, to) = (place(*from), place(*to));
        let (low, high) = (from.1.min(to.1), from.1.max(to.1));
        // A line through a corner is cut by one of its two sides only.
        let mut line = (low / apart).floor().max(first - 1.0) + 1.0;
        while line <= last && line * apart <= high {
            let share = (line * apart - from.1) / (to.1 - from.1);
            if let Some(cuts) = cuts.get_mut(nth(line - first)) {
                cuts.push(from.0 + (to.0 - from.0) * share);
            }
            line += 1.0;
        }
    }
    let mut found = Vec::new();
    let mut line = first;
    for mut cuts in cuts {
        cuts.sort_by(f64::total_cmp);
        for pair in cuts.chunks_exact(2) {
            let (from, to) = (pair[0].max(seen_along.0), pair[1].min(seen_along.1));
            if from < to {
                found.push([from, to].map(|u| {
                    let at = Point::ORIGIN + along * u + across * (line * apart);
                    view.screen_from_plan(at)
                }));
            }
        }
        line += 1.0;
    }
    found
}

/// Dots along lines.
fn dots(lines: &[[Pos2; 2]], colour: Color32) -> Mesh {
    let mut mesh = Mesh::default();
    for (row, [from, to]) in lines.iter().enumerate() {
        let way: Vec2 = *to - *from;
        let length = way.length();
        // Every other line begins half a step on.
        let mut along = if row % 2 == 0 { 0.25 } else { 0.75 } * DOTS;
        while along < length {
            let at = *from + way * (along / length);
            mesh.add_colored_rect(Rect::from_center_size(at, Vec2::splat(DOT)), colour);
            along += DOTS;
        }
    }
    mesh
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "the number of a line: a whole number from nought to a few thousand"
)]
fn nth(line: f64) -> usize {
    line.max(0.0) as usize
}

#[cfg(test)]
mod tests {
    use super::*;

    fn view() -> View {
        let area = Rect::from_min_size(Pos2::ZERO, Vec2::splat(400.0));
        View::new(area, Point::ORIGIN, 10.0)
    }

    fn length(extent: &Extent, angle: f64) -> f64 {
        let hatch = Hatch {
            angle,
            apart: 5.0,
            dotted: false,
        };
        let lines = lines(&outline(extent, &view()), &view(), hatch);
        lines
            .iter()
            .map(|[from, to]| f64::from(from.distance(*to)))
            .sum()
    }

    /// A law: lines one apart fill as much as they cover, whatever the way they run.
    #[test]
    fn hatching_covers_the_outline_and_nothing_else() {
        let at = |x, y| Point::new(x, y);
        let ell = Extent::Area(vec![
            at(-8.1, -8.1),
            at(8.2, -8.1),
            at(8.2, 1.1),
            at(1.1, 1.1),
            at(1.1, 8.3),
            at(-8.1, 8.3),
        ]);
        let round = Extent::Round {
            centre: at(0.3, -0.2),
            radius: 9.0,
        };
        for extent in [ell, round] {
            let area = extent.area().unwrap() * 100.0; // in square screen points
            for angle in [0.0, 0.3, PI / 4.0, -PI / 4.0, 1.5] {
                let covered = length(&extent, angle) * 5.0;
                assert!((covered / area - 1.0).abs() < 0.04, "{covered} of {area}");
            }
        }
    }
}
