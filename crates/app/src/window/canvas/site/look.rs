//! How obstacles and marks look: each kind by its own line and filling, so that black and white keeps
//! them apart.

use std::f64::consts::FRAC_PI_4;

use egui::{Color32, Painter, Pos2, Rect, Stroke, StrokeKind, Vec2, vec2};
use geometry::{Arc, Bounds, Direction, Piece, Point};
use plan::document::{Extent, Obstacle, ObstacleKind};

use super::super::Scene;
use super::hatch::{self, Hatch};
use crate::window::pen::{self, Pen};
use crate::window::site::Thing;
use crate::window::view::{Curve, View};

/// What is smaller than this on the screen is drawn as a dot, in screen points.
const SPECK: f32 = 3.0;
/// Corners nearer than this to the one before are left out of a line, in screen points.
const MERGED: f32 = 1.0;
/// Narrower than this on the screen, a wall is drawn as one line, in screen points.
const NARROW: f32 = 3.0;
/// An outline smaller than this on the screen is not filled, in screen points.
const FILLED: f32 = 14.0;

/// Obstacles and marks, without their names.
pub(in super::super) fn draw_grounds(painter: &Painter, view: &View, scene: &Scene<'_>) {
    let site = &scene.plan.site;
    let brush = Brush {
        painter,
        view,
        scene,
        seen: view.seen(),
    };
    for (i, obstacle) in site.obstacles.iter().enumerate() {
        if obstacle.kind != ObstacleKind::Service || !scene.only_looked_at() {
            brush.draw(obstacle, brush.is_chosen(Thing::Obstacle(i)));
        }
    }
    if scene.only_looked_at() {
        return;
    }
    let seen = view.area().expand(10.0);
    for (i, mark) in site.marks.iter().enumerate() {
        let at = view.screen_from_plan(mark.at);
        if !seen.contains(at) {
            continue;
        }
        let palette = scene.palette;
        let chosen = brush.is_chosen(Thing::Mark(i));
        let colour = if chosen { palette.string } else { palette.ink };
        let stroke = Stroke::new(1.5 * palette.weight, colour);
        painter.line_segment([at - vec2(6.0, 0.0), at + vec2(6.0, 0.0)], stroke);
        painter.line_segment([at - vec2(0.0, 6.0), at + vec2(0.0, 6.0)], stroke);
    }
}

/// What is drawn with, and where.
struct Brush<'a> {
    painter: &'a Painter,
    view: &'a View,
    scene: &'a Scene<'a>,
    seen: Bounds,
}

impl Brush<'_> {
    fn is_chosen(&self, thing: Thing) -> bool {
        let measuring = self.scene.stage == crate::window::pick::Stage::Measure;
        measuring && self.scene.site.is_some_and(|pick| pick.thing == thing)
    }

    fn draw(&self, obstacle: &Obstacle, chosen: bool) {
        let (view, palette) = (self.view, self.scene.palette);
        let Some(room) = obstacle.extent.room() else {
            return;
        };
        let rule = self.scene.plan.site.roots;
        let beside = obstacle.root_radius(rule).unwrap_or(0.0);
        let beside = beside.max(obstacle.unsure.unwrap_or(0.0));
        let leaf = obstacle.posts().map_or(0.0, |[a, b]| a.distance(b));
        if !self.seen.meets(room.grown(beside.max(leaf))) {
            return;
        }
        let colour = if chosen {
            palette.string
        } else {
            palette.faint
        };
        let size = view.screen_length(room.width().max(room.height()));
        if size < SPECK && obstacle.kind != ObstacleKind::Tree {
            let at = view.screen_from_plan(room.middle());
            let dot = Rect::from_center_size(at, Vec2::splat(SPECK - 1.0));
            self.painter.rect_filled(dot, 0.0, colour);
            return;
        }
        match obstacle.kind {
            ObstacleKind::Wall => self.wall(obstacle, colour),
            ObstacleKind::Tree => self.tree(obstacle, colour),
            ObstacleKind::Service => self.service(obstacle, colour),
            ObstacleKind::Gate => self.gate(obstacle, colour),
            ObstacleKind::Building => self.ground(obstacle, Pen::Edge, colour, size),
            ObstacleKind::Bed | ObstacleKind::Pond => {
                self.ground(obstacle, Pen::Outline, colour, size);
            }
            ObstacleKind::Boundary => self.line(&obstacle.extent, Pen::Boundary, colour),
        }
    }

    fn line(&self, extent: &Extent, pen: Pen, colour: Color32) {
        let runs = self.view.trace(&outline(extent, self.view));
        pen.draw_in(self.painter, &runs, self.scene.palette, colour);
    }

    fn curves(&self, pen: Pen, curves: &[Curve], colour: Color32) {
        let runs = self.view.trace(curves);
        pen.draw_in(self.painter, &runs, self.scene.palette, colour);
    }

    /// Filled ground with its outline.
    fn ground(&self, obstacle: &Obstacle, pen: Pen, colour: Color32, size: f32) {
        if size >= FILLED {
            self.fill(obstacle);
        }
        self.line(&obstacle.extent, pen, colour);
    }

    fn fill(&self, obstacle: &Obstacle) {
        let (angle, apart, dotted) = match obstacle.kind {
            ObstacleKind::Building => (FRAC_PI_4, 9.0, false),
            ObstacleKind::Wall => (-FRAC_PI_4, 4.5, false),
            ObstacleKind::Pond => (0.0, 6.0, false),
            _ => (-FRAC_PI_4, 9.0, true),
        };
        let palette = self.scene.palette;
        let colour = if dotted { palette.faint } else { palette.rule };
        let stroke = Stroke::new(palette.weight, colour);
        let hatch = Hatch {
            angle,
            apart,
            dotted,
        };
        hatch::fill(self.painter, self.view, &obstacle.extent, hatch, stroke);
    }

    /// Both faces with the wall between them; one line where they would run together.
    fn wall(&self, obstacle: &Obstacle, colour: Color32) {
        let half = 0.5 * obstacle.thickness.unwrap_or(0.0);
        if obstacle.extent.is_closed() {
            self.fill(obstacle);
        } else if self.view.screen_length(2.0 * half) > NARROW
            && let Some([left, right]) = obstacle.extent.faces(half)
        {
            self.band(&left, &right, self.scene.palette.rule);
            let ends = left.iter().zip(&right).map(|(left, right)| [*left, *right]);
            let ends: Vec<_> = ends.collect();
            let caps = [ends.first(), ends.last()].into_iter().flatten();
            let faces = along(&left).into_iter().chain(along(&right));
            let all: Vec<Curve> = faces.chain(caps.map(|[a, b]| straight(*a, *b))).collect();
            self.curves(Pen::Outline, &all, colour);
            return;
        }
        self.line(&obstacle.extent, Pen::Edge, colour);
    }

    fn band(&self, left: &[Point], right: &[Point], colour: Color32) {
        let sides = left.windows(2).zip(right.windows(2));
        let bands: Vec<Vec<[Pos2; 2]>> = sides
            .flat_map(|(left, right)| {
                let [left, right] = [left, right].map(|pair| straight(pair[0], pair[1]));
                self.view.band(&left, &right)
            })
            .collect();
        pen::fill_bands(self.painter, &bands, colour);
    }

    /// The stem with a cross, and the circle its roots are taken to reach to.
    fn tree(&self, obstacle: &Obstacle, colour: Color32) {
        self.line(&obstacle.extent, Pen::Outline, colour);
        let Extent::Round { centre, radius } = &obstacle.extent else {
            return;
        };
        let at = self.view.screen_from_plan(*centre);
        let arm = (self.view.screen_length(*radius) + 3.0).max(4.0);
        let stroke = Stroke::new(self.scene.palette.weight, colour);
        let arms = [vec2(arm, 0.0), vec2(0.0, arm)];
        for way in arms {
            self.painter.line_segment([at - way, at + way], stroke);
        }
        if let Some((centre, radius)) = obstacle.root_circle(self.scene.plan.site.roots)
            && self.view.screen_length(radius) > FILLED
        {
            self.line(&Extent::Round { centre, radius }, Pen::Zone, colour);
        }
    }

    /// Dashed, between the dotted edges of where it may lie.
    fn service(&self, obstacle: &Obstacle, colour: Color32) {
        let palette = self.scene.palette;
        if let Some(unsure) = obstacle.unsure
            && self.view.screen_length(unsure) > NARROW
            && let Some([left, right]) = obstacle.extent.faces(unsure)
        {
            self.band(&left, &right, palette.field);
            self.curves(Pen::Ghost, &along(&left), palette.faint);
            self.curves(Pen::Ghost, &along(&right), palette.faint);
        }
        self.line(&obstacle.extent, Pen::Buried, colour);
    }

    /// The leaf between its posts, and thin the arc that its latch end draws.
    fn gate(&self, obstacle: &Obstacle, colour: Color32) {
        self.line(&obstacle.extent, Pen::Edge, colour);
        let Some(posts) = obstacle.posts() else {
            return;
        };
        let swept = obstacle.swept();
        let mut swing: Vec<Curve> = swept.iter().map(Curve::from).collect();
        swing.extend(obstacle.opened().map(|end| straight(posts[0], end)));
        self.curves(Pen::Measure, &swing, colour);
        let palette = self.scene.palette;
        let stroke = Stroke::new(1.5 * palette.weight, colour);
        // The hinge is filled, the latch open.
        for (post, fill) in posts.into_iter().zip([colour, palette.paper]) {
            let at = self.view.screen_from_plan(post);
            let square = Rect::from_center_size(at, Vec2::splat(6.0));
            self.painter
                .rect(square, 0.0, fill, stroke, StrokeKind::Middle);
        }
    }
}

pub(super) fn straight(start: Point, end: Point) -> Curve {
    Curve {
        start,
        end,
        rise: 0.0,
    }
}

fn along(corners: &[Point]) -> Vec<Curve> {
    let sides = corners.windows(2);
    sides.map(|pair| straight(pair[0], pair[1])).collect()
}

/// The outline as the camera draws it: corners of straight sides that fall together are one.
pub(super) fn outline(extent: &Extent, view: &View) -> Vec<Curve> {
    match extent {
        Extent::Line(points) => along(&apart(points, view)),
        Extent::Area(points) => {
            let mut points = apart(points, view);
            points.extend(points.first().copied());
            along(&points)
        }
        Extent::Round { .. } | Extent::Curved(_) => extent
            .sides()
            .map(|side: Piece| Curve {
                start: side.start(),
                end: side.end(),
                rise: side.arc().map_or(0.0, Arc::rise),
            })
            .collect(),
    }
}

/// The corners that can be told from the one before; the last is always kept.
fn apart(points: &[Point], view: &View) -> Vec<Point> {
    let least = view.plan_length(MERGED);
    let mut kept: Vec<Point> = Vec::with_capacity(points.len().min(1024));
    for (i, point) in points.iter().enumerate() {
        let far = |last: &Point| (last.x - point.x).abs().max((last.y - point.y).abs()) >= least;
        if i + 1 == points.len() || kept.last().is_none_or(far) {
            kept.push(*point);
        }
    }
    kept
}

/// The way a straight side runs, if it is one.
pub(super) fn way(extent: &Extent, side: usize) -> Option<Direction> {
    let (from, to) = extent.side(side)?;
    Direction::of(to - from)
}
