//! What is on the ground: obstacles and marks, their names, north and a scale.

use egui::{Painter, Pos2, Rect, Vec2, vec2};
use geometry::{Arc, Point};
use plan::document::{Extent, Obstacle, ObstacleKind};
use plan::units::Units;

use super::Scene;
use super::labels::Labels;
use crate::window::fonts::Face;
use crate::window::pen::Pen;
use crate::window::theme;
use crate::window::view::{Curve, Run, View};

/// Obstacles and marks, without their names.
pub(super) fn draw_grounds(painter: &Painter, view: &View, scene: &Scene<'_>) {
    for obstacle in &scene.plan.site.obstacles {
        let pen = match obstacle.kind {
            ObstacleKind::Wall | ObstacleKind::Building | ObstacleKind::Gate => Pen::Edge,
            ObstacleKind::Bed | ObstacleKind::Pond | ObstacleKind::Tree => Pen::Outline,
            ObstacleKind::Service => Pen::Buried,
            ObstacleKind::Boundary => Pen::Centre,
        };
        let runs = view.trace(&outline(&obstacle.extent));
        pen.draw_in(painter, &runs, scene.palette, scene.palette.faint);
        if obstacle.kind == ObstacleKind::Building {
            hatch(painter, view, scene, &obstacle.extent);
        }
    }
    for mark in &scene.plan.site.marks {
        let at = view.screen_from_plan(mark.at);
        let stroke = egui::Stroke::new(1.5 * scene.palette.weight, scene.palette.ink);
        painter.line_segment([at - vec2(6.0, 0.0), at + vec2(6.0, 0.0)], stroke);
        painter.line_segment([at - vec2(0.0, 6.0), at + vec2(0.0, 6.0)], stroke);
    }
}

/// Names of obstacles and marks, where there is room.
pub(super) fn write_names(view: &View, scene: &Scene<'_>, labels: &mut Labels) {
    let font = Face::Text.sized(theme::SMALL);
    keep_paths_free(labels, view, scene);
    for mark in &scene.plan.site.marks {
        let at = view.screen_from_plan(mark.at);
        let style = (font.clone(), scene.palette.ink);
        labels.write_name(at, 10.0, vec2(0.0, 1.0), &mark.name, style);
    }
    for obstacle in &scene.plan.site.obstacles {
        let (at, gap) = name_place(obstacle, view);
        let style = (font.clone(), scene.palette.faint);
        labels.write_name(at, gap, Vec2::ZERO, &obstacle.name, style);
    }
}

/// Names keep off the paths.
pub(super) fn keep_paths_free(labels: &mut Labels, view: &View, scene: &Scene<'_>) {
    let scheme = scene.solved.schemes.get(scene.pick.scheme);
    for route in scheme.iter().flat_map(|scheme| &scheme.routes) {
        let Some(chain) = &route.centre_line else {
            continue;
        };
        // Boxes no longer than the path is wide follow it closely enough.
        let half = 0.5 * view.screen_length(route.width) + 4.0;
        for run in view.trace(&super::curves(chain)) {
            for pair in run.points.windows(2) {
                let way = pair[1] - pair[0];
                let steps = (way.length() / half.max(8.0)).ceil().max(1.0);
                let mut step = 0.0;
                while step <= steps {
                    let at = pair[0] + way * (step / steps);
                    labels.keep_free(Rect::from_center_size(at, Vec2::splat(1.6 * half)));
                    step += 1.0;
                }
            }
        }
    }
}

fn name_place(obstacle: &Obstacle, view: &View) -> (Pos2, f32) {
    match &obstacle.extent {
        Extent::Round { centre, radius } => (
            view.screen_from_plan(*centre),
            view.screen_length(*radius) + 4.0,
        ),
        Extent::Area(_) | Extent::Curved(_) => {
            let bounds = geometry::Bounds::around(obstacle.extent.outline());
            let middle = bounds.map_or(Point::ORIGIN, geometry::Bounds::middle);
            (view.screen_from_plan(middle), -8.0)
        }
        Extent::Line(points) => {
            let middle = points.len() / 2;
            let (from, to) = (points[middle.saturating_sub(1)], points[middle]);
            (view.screen_from_plan(from.middle(to)), 8.0)
        }
    }
}

fn outline(extent: &Extent) -> Vec<Curve> {
    extent
        .sides()
        .map(|side| Curve {
            start: side.start(),
            end: side.end(),
            rise: side.arc().map_or(0.0, Arc::rise),
        })
        .collect()
}

/// A building is hatched inside its outline, thin and wide apart.
fn hatch(painter: &Painter, view: &View, scene: &Scene<'_>, extent: &Extent) {
    if !extent.is_closed() {
        return;
    }
    let runs = view.trace(&outline(extent));
    let corners: Vec<Pos2> = runs.into_iter().flat_map(|run| run.points).collect();
    let Some(bounds) = bounds(&corners) else {
        return;
    };
    let seen = bounds.intersect(view.area());
    if !seen.is_positive() {
        return;
    }
    const APART: f32 = 9.0;
    let mut at = ((seen.left() - seen.bottom()) / APART).floor() * APART;
    while at < seen.right() - seen.top() {
        let mut cuts = crossings(&corners, at);
        cuts.sort_by(f32::total_cmp);
        for pair in cuts.chunks_exact(2) {
            let ends = [pair[0], pair[1]].map(|x| Pos2::new(x, x - at));
            let run = Run {
                points: ends.to_vec(),
                from: 0.0,
            };
            Pen::Measure.draw_in(painter, &[run], scene.palette, scene.palette.rule);
        }
        at += APART;
    }
}

fn bounds(corners: &[Pos2]) -> Option<Rect> {
    let first = *corners.first()?;
    Some(
        corners
            .iter()
            .fold(Rect::from_min_max(first, first), |all, p| {
                all.union(Rect::from_min_max(*p, *p))
            }),
    )
}

/// Where the line y = x − at cuts the outline, by x.
fn crossings(corners: &[Pos2], at: f32) -> Vec<f32> {
    let side = |p: &Pos2| p.x - p.y - at;
    let next = corners.iter().cycle().skip(1);
    corners
        .iter()
        .zip(next)
        .filter_map(|(a, b)| {
            let (from, to) = (side(a), side(b));
            ((from < 0.0) != (to < 0.0)).then(|| a.x + (b.x - a.x) * (from / (from - to)))
        })
        .collect()
}

/// No text over the scale bar and the arrow to north.
pub(super) fn keep_scale_free(labels: &mut Labels, view: &View) {
    let corner = view.area().left_bottom();
    for size in [vec2(180.0, 54.0), vec2(50.0, 120.0)] {
        labels.keep_free(Rect::from_two_pos(corner, corner + vec2(size.x, -size.y)));
    }
}

/// North and a scale bar in the lower left corner.
pub(super) fn draw_scale(painter: &Painter, view: &View, scene: &Scene<'_>) {
    let ink = scene.palette.ink;
    let stroke = egui::Stroke::new(1.5 * scene.palette.weight, ink);
    let font = Face::Text.sized(theme::SMALL);
    let corner = view.area().left_bottom() + vec2(20.0, -20.0);
    let metres = round_length(view.plan_length(140.0), scene.plan.units);
    let end = corner + vec2(view.screen_length(metres), 0.0);
    painter.line_segment([corner, end], stroke);
    for tick in [corner, end] {
        painter.line_segment([tick - vec2(0.0, 4.0), tick + vec2(0.0, 4.0)], stroke);
    }
    let text = scale_text(metres, scene.plan.units);
    let label = painter.layout_no_wrap(text, font.clone(), ink);
    let rect = Rect::from_min_size(corner + vec2(0.0, -8.0 - label.size().y), label.size());
    super::backed_text(painter, rect, label, scene.palette.paper, ink);
    // North: a thin arrow with its letter.
    let north = Vec2::angled(-std::f32::consts::FRAC_PI_2) * 34.0;
    let turned = egui::emath::Rot2::from_angle(-angle(scene.plan.north)) * north;
    let foot = corner + vec2(8.0, -48.0);
    painter.arrow(foot, turned, stroke);
    painter.text(
        foot + turned * 1.35,
        egui::Align2::CENTER_CENTER,
        "N",
        font,
        ink,
    );
}

#[expect(clippy::cast_possible_truncation, reason = "an angle for the screen")]
fn angle(radians: f64) -> f32 {
    radians as f32
}

/// The largest of 1, 2, 5 times a power of ten in the plan's unit that is not longer.
fn round_length(metres: f64, units: Units) -> f64 {
    let unit = match units {
        Units::Metric => 1.0,
        Units::FeetInches => 0.3048,
    };
    let length = metres / unit;
    let power = 10f64.powf(length.log10().floor());
    let step = [5.0, 2.0, 1.0]
        .into_iter()
        .find(|step| step * power <= length)
        .unwrap_or(1.0);
    step * power * unit
}

fn scale_text(metres: f64, units: Units) -> String {
    match units {
        Units::Metric if metres < 0.995 => format!("{:.0} mm", metres * 1000.0),
        Units::Metric => format!("{metres:.0} m"),
        Units::FeetInches => {
            let feet = metres / 0.3048;
            if feet < 0.995 {
                format!("{feet} ft")
            } else {
                format!("{feet:.0} ft")
            }
        }
    }
}
