//! How much room the chosen leg has: what stands nearest to each edge, and every rise that keeps
//! clear, on the line along which the apex is dragged.

use egui::{Painter, Stroke, Vec2, vec2};
use geometry::{Arc, Direction, Point};
use plan::clearance::Clearance;

use super::Scene;
use super::labels::Labels;
use crate::window::fonts::Face;
use crate::window::pen::Pen;
use crate::window::pick::{Picked, Stage};
use crate::window::theme;
use crate::window::view::{Curve, View};

/// Draws the band of rises and the nearest distances of what is chosen.
pub(super) fn draw(painter: &Painter, view: &View, scene: &Scene<'_>, labels: &mut Labels) {
    if scene.stage != Stage::Draw {
        return;
    }
    draw_band(painter, view, scene, labels);
    for clearance in nearest(scene) {
        draw_clearance(painter, view, scene, &clearance, labels);
    }
}

/// The nearest clearances beside the pieces that are chosen: those of the chosen leg, or of the
/// bends at the chosen peg.
pub(in crate::window) fn nearest(scene: &Scene<'_>) -> Vec<Clearance> {
    let Some(route) = scene.route() else {
        return Vec::new();
    };
    let pieces: Vec<usize> = match scene.piece() {
        Some((piece, _)) => vec![piece],
        None => scene
            .bends_at_peg()
            .into_iter()
            .map(|bend| bend.0)
            .collect(),
    };
    let beside = |piece| route.nearest_beside(piece, &scene.solved.surroundings);
    let mut found: Vec<Clearance> = Vec::new();
    for clearance in pieces.into_iter().flat_map(beside).flatten() {
        // Of two bends the nearer place on each side.
        match found.iter_mut().find(|c| c.border == clearance.border) {
            Some(known) if clearance.distance < known.distance => *known = clearance,
            Some(_) => {}
            None => found.push(clearance),
        }
    }
    found
}

fn draw_clearance(
    painter: &Painter,
    view: &View,
    scene: &Scene<'_>,
    clearance: &Clearance,
    labels: &mut Labels,
) {
    let palette = scene.palette;
    let too_near = clearance.is_too_near();
    let ink = if too_near { palette.clay } else { palette.moss };
    let [from, to] = [clearance.on_path, clearance.on_obstacle].map(|at| view.screen_from_plan(at));
    let line = Curve {
        start: clearance.on_path,
        end: clearance.on_obstacle,
        rise: 0.0,
    };
    Pen::Measure.draw_in(painter, &view.trace(&[line]), palette, ink);
    // A short stroke across each end, as on any dimension.
    let way = to - from;
    if way.length() > 1.0 {
        let across = way.normalized().rot90() * 4.0;
        for at in [from, to] {
            painter.line_segment([at - across, at + across], Stroke::new(palette.weight, ink));
        }
    }
    let sign = if too_near { "! " } else { "" };
    let distance = scene.ruler().text(clearance.distance.abs());
    let text = if clearance.crosses() {
        format!("{sign}across it")
    } else if clearance.overlaps {
        format!("{sign}{distance} into it")
    } else {
        format!("{sign}{distance}")
    };
    let beside = if way.length() > 1.0 {
        way.normalized().rot90()
    } else {
        Vec2::ZERO
    };
    let middle = from + 0.5 * way;
    labels.write(
        middle,
        10.0,
        beside,
        &text,
        (Face::Figures.sized(theme::BODY), ink),
    );
}

/// Every rise that keeps clear, along the bisector: a solid bar where the apex may be, dots where
/// it may not, an end stroke where something stands in the way.
fn draw_band(painter: &Painter, view: &View, scene: &Scene<'_>, labels: &mut Labels) {
    let (Some(room), Some((_, piece)), Some(Picked::Leg(_))) =
        (scene.room, scene.piece(), scene.pick.part)
    else {
        return;
    };
    if scene.plan.site.obstacles.is_empty() {
        return;
    }
    let (start, end) = (piece.start(), piece.end());
    let Some(across) = Direction::of(end - start).map(|way| way.left().unit()) else {
        return;
    };
    let chord = start.distance(end);
    let at = |rise: f64| start.middle(end) + across * rise;
    let line = |from: f64, to: f64| {
        view.trace(&[Curve {
            start: at(from),
            end: at(to),
            rise: 0.0,
        }])
    };
    let palette = scene.palette;
    Pen::Ghost.draw(painter, &line(-chord, chord), palette);
    let bar = Stroke::new(BAR * palette.weight, palette.moss);
    let side = vec_of(view, start, end).normalized() * 9.0;
    for range in &room.ranges {
        for run in line(range.from, range.to) {
            painter.line(run.points, bar);
        }
        for (rise, by) in [(range.from, range.below), (range.to, range.above)] {
            if by.is_some() {
                let at = view.screen_from_plan(at(rise));
                let stroke = Stroke::new(2.0 * palette.weight, palette.moss);
                painter.line_segment([at - side, at + side], stroke);
            }
        }
    }
    let rise = piece.arc().map_or(0.0, Arc::rise);
    let Some(range) = room.range_about(rise) else {
        return;
    };
    let font = Face::Figures.sized(theme::SMALL);
    for (rise, by) in [(range.from, range.below), (range.to, range.above)] {
        if by.is_some() {
            let text = scene.ruler().text(rise.abs());
            let place = view.screen_from_plan(at(rise));
            labels.write(
                place,
                12.0,
                side.normalized(),
                &text,
                (font.clone(), palette.moss),
            );
        }
    }
}

/// How wide the bar of fitting rises is, in screen points.
const BAR: f32 = 5.0;

fn vec_of(view: &View, from: Point, to: Point) -> Vec2 {
    let way = view.screen_from_plan(to) - view.screen_from_plan(from);
    if way.length() > 0.0 {
        way
    } else {
        vec2(1.0, 0.0)
    }
}
