//! Options on the plan: the others behind the chosen one, all side by side, or one alone for a client.

use egui::{Align2, Painter, Pos2, Rect, Response, Stroke, Ui, pos2, vec2};
use geometry::{Bounds, Chain};
use plan::beside::beside;
use plan::solve::{SolvedRoute, SolvedScheme};

use super::labels::Labels;
use super::{
    FIT_MARGIN, FIT_SHARE, NARROW, NEAR, Scene, backed_text, curves, draw_path, fill_path, narrow,
    site,
};
use crate::window::compare::NAMED_WITHIN;
use crate::window::fonts::Face;
use crate::window::intent::Intent;
use crate::window::pen::{self, Pen};
use crate::window::pick::Pick;
use crate::window::theme;
use crate::window::view::{Run, View};
use crate::window::words;

/// At most so many stand side by side: smaller ones say nothing.
const MOST_BESIDE: usize = 4;
/// The lines of options that lie behind, told apart by their dashes, in the order of the plan.
const BEHIND: [Pen; 4] = [Pen::Ghost, Pen::Zone, Pen::Swept, Pen::Measure];
/// The key takes at most so much of the height of the plan.
const KEY_SHARE: f32 = 0.25;
/// Room for a line in the key, in screen points.
const KEY_LINE: f32 = 48.0;
/// Height of the heading over an option side by side, in screen points.
const HEADING: f32 = 30.0;
/// From the middle of the walker to the rim, in screen points.
const WALKER: f32 = 9.0;

/// Shows the options at the stage Compare; a click on one chooses it.
pub(super) fn ui(
    ui: &Ui,
    view: &View,
    scene: &Scene<'_>,
    ground: &Response,
    out: &mut Vec<Intent>,
) {
    let painter = ui.painter_at(view.area());
    let clicked = ground
        .clicked()
        .then(|| ground.interact_pointer_pos())
        .flatten();
    if scene.comparing.side_by_side {
        for (scheme, cell) in cells(view, scene) {
            draw_cell(&painter, view, scene, scheme, cell);
            if clicked.is_some_and(|at| cell.contains(at)) {
                out.push(Intent::Scheme(scheme));
            }
        }
    } else {
        draw_over(&painter, view, scene);
        let chosen = clicked.and_then(|at| scheme_at(view, scene, at));
        out.extend(chosen.map(Intent::Scheme));
    }
}

/// The chosen option with the others behind it.
fn draw_over(painter: &Painter, view: &View, scene: &Scene<'_>) {
    let mut labels = Labels::new(painter.clone(), scene.palette.paper, view.area());
    site::draw_grounds(painter, view, scene);
    let chosen = scene.solved.schemes.get(scene.pick.scheme);
    for route in chosen.iter().flat_map(|scheme| &scheme.routes) {
        draw_path(painter, view, scene.palette, route, true);
        draw_pads(painter, view, scene, route);
    }
    site::keep_scale_free(&mut labels, view);
    let others = others(scene);
    if scene.comparing.others {
        let key = key(painter, view, scene, &others, &mut labels);
        for (pen, scheme) in &others {
            draw_behind(painter, view, scene, (*pen, *scheme), &mut labels);
        }
        for row in key {
            row.draw(painter, scene);
        }
    }
    site::write_names(view, scene, &mut labels);
    labels.paint();
    site::draw_scale(painter, view, scene);
}

/// The options besides the chosen one, each with its line.
fn others<'a>(scene: &Scene<'a>) -> Vec<(Pen, &'a SolvedScheme)> {
    let all = scene.solved.schemes.iter().enumerate();
    all.filter(|(i, _)| *i != scene.pick.scheme)
        .map(|(i, scheme)| (BEHIND[i % BEHIND.len()], scheme))
        .collect()
}

fn draw_behind(
    painter: &Painter,
    view: &View,
    scene: &Scene<'_>,
    (pen, scheme): (Pen, &SolvedScheme),
    labels: &mut Labels,
) {
    for route in &scheme.routes {
        for edge in [&route.left_edge, &route.right_edge].into_iter().flatten() {
            let runs = view.trace(&curves(edge));
            pen.draw_in(painter, &runs, scene.palette, scene.palette.ink);
        }
        // Its letter a third along, where another one is least likely to run beside it.
        if let Some(line) = &route.centre_line {
            let places = [0.35, 0.55, 0.75, 0.2]
                .map(|share| view.screen_from_plan(line.point_at(share * line.length())));
            let style = (Face::Strong.sized(theme::BODY), scene.palette.ink);
            let _ = labels.write_at_one(&places, 6.0, vec2(0.0, 0.0), &scheme.letter, &style);
        }
    }
}

/// A row of the key: a line and whose it is.
struct KeyRow {
    pen: Pen,
    name: std::sync::Arc<egui::Galley>,
    room: Rect,
}

/// Which line is which option, as far as that leaves the plan to be seen; its room is kept free.
fn key(
    painter: &Painter,
    view: &View,
    scene: &Scene<'_>,
    others: &[(Pen, &SolvedScheme)],
    labels: &mut Labels,
) -> Vec<KeyRow> {
    let lowest = view.area().top() + KEY_SHARE * view.area().height();
    let mut at = view.area().left_top() + vec2(14.0, 14.0);
    let mut rows = Vec::new();
    for (pen, scheme) in others {
        let name = words::compare::option(&scheme.letter, &scheme.name);
        let font = Face::Text.sized(theme::SMALL);
        let name = painter.layout_no_wrap(words::short(&name), font, scene.palette.ink);
        let room = Rect::from_min_size(at, vec2(KEY_LINE + name.size().x, name.size().y));
        if lowest < room.bottom() {
            break;
        }
        labels.keep_free(room.expand(4.0));
        at.y = room.bottom() + 6.0;
        rows.push(KeyRow {
            pen: *pen,
            name,
            room,
        });
    }
    rows
}

impl KeyRow {
    fn draw(self, painter: &Painter, scene: &Scene<'_>) {
        let (palette, room) = (scene.palette, self.room);
        pen::fill_rect(painter, room.expand(3.0), palette.paper);
        let end = room.left() + KEY_LINE - theme::GAP;
        let line = [room.left(), end].map(|x| pos2(x, room.center().y));
        let run = Run {
            points: line.to_vec(),
            from: 0.0,
        };
        self.pen.draw_in(painter, &[run], palette, palette.ink);
        let at = room.left_top() + vec2(KEY_LINE, 0.0);
        painter.galley(at, self.name, palette.ink);
    }
}

/// Where each of the options side by side stands: the chosen one is always among them.
fn cells(view: &View, scene: &Scene<'_>) -> Vec<(usize, Rect)> {
    let all = scene.solved.schemes.len();
    let count = all.clamp(1, MOST_BESIDE);
    let first = (scene.pick.scheme + 1)
        .saturating_sub(count)
        .min(all - count.min(all));
    let area = view.area();
    let ground = extent_of_all(scene);
    let size = |columns: usize| {
        let rows = count.div_ceil(columns);
        vec2(
            area.width() / screen_count(columns),
            area.height() / screen_count(rows),
        )
    };
    let columns = (1..=count)
        .max_by(|a, b| {
            let scale = |columns| fitting(ground, Rect::from_min_size(Pos2::ZERO, size(columns)));
            scale(*a).total_cmp(&scale(*b))
        })
        .unwrap_or(1);
    let cell = size(columns);
    let place = |nth: usize| {
        let (column, row) = (screen_count(nth % columns), screen_count(nth / columns));
        Rect::from_min_size(area.min + vec2(column * cell.x, row * cell.y), cell)
    };
    (0..count.min(all))
        .map(|nth| (first + nth, place(nth)))
        .collect()
}

/// A small count for the screen.
fn screen_count(count: usize) -> f32 {
    u16::try_from(count).map_or(1.0, f32::from)
}

/// The scale at which some ground fits a part of the screen.
fn fitting(ground: Bounds, area: Rect) -> f64 {
    let area = below_heading(area);
    let margin = FIT_MARGIN.min(FIT_SHARE * area.width().min(area.height()));
    View::fitted(ground, area, margin).points_per_metre()
}

fn below_heading(cell: Rect) -> Rect {
    Rect::from_min_max(cell.min + vec2(0.0, HEADING), cell.max)
}

fn draw_cell(painter: &Painter, whole: &View, scene: &Scene<'_>, scheme: usize, cell: Rect) {
    let palette = scene.palette;
    let painter = painter.with_clip_rect(cell.intersect(painter.clip_rect()));
    // All as much smaller as the ground has to be to fit: one scale for all, moved and zoomed together.
    let ground = extent_of_all(scene);
    let share = fitting(ground, cell) / fitting(ground, whole.area());
    let scale = whole.points_per_metre() * share;
    let view = View::new(below_heading(cell), whole.centre(), scale);
    let here = of_option(scene, scheme);
    let inside = painter.with_clip_rect(view.area().intersect(painter.clip_rect()));
    let mut labels = Labels::new(inside.clone(), palette.paper, view.area());
    draw_alone(&inside, &view, &here);
    site::write_names(&view, &here, &mut labels);
    labels.paint();
    let rule = Stroke::new(1.0, palette.rule);
    painter.rect_stroke(cell, 0.0, rule, egui::StrokeKind::Inside);
    if let Some(drawn) = scene.solved.schemes.get(scheme) {
        let chosen = scheme == scene.pick.scheme;
        let face = if chosen { Face::Strong } else { Face::Text };
        let name = words::compare::option(&drawn.letter, &drawn.name);
        let name = words::short(&name);
        let galley = painter.layout_no_wrap(name, face.sized(theme::BODY), palette.ink);
        let rect = Align2::LEFT_CENTER.anchor_size(
            pos2(cell.left() + 12.0, cell.top() + 0.5 * HEADING),
            galley.size(),
        );
        backed_text(&painter, rect, galley, palette.paper, palette.ink);
        if chosen {
            let under = Stroke::new(3.0 * palette.weight, palette.string);
            painter.hline(rect.x_range(), rect.bottom() + 1.0, under);
        }
    }
}

/// The scene turned to another option.
fn of_option<'a>(scene: &Scene<'a>, scheme: usize) -> Scene<'a> {
    let pick = Pick {
        scheme,
        route: 0,
        part: None,
    };
    Scene { pick, ..*scene }
}

/// The chosen option without anything that the hand works with.
fn draw_alone(painter: &Painter, view: &View, scene: &Scene<'_>) {
    site::draw_grounds(painter, view, scene);
    let scheme = scene.solved.schemes.get(scene.pick.scheme);
    for route in scheme.iter().flat_map(|scheme| &scheme.routes) {
        draw_plain(painter, view, scene, route);
        draw_pads(painter, view, scene, route);
    }
}

fn draw_plain(painter: &Painter, view: &View, scene: &Scene<'_>, route: &SolvedRoute) {
    let (Some(chain), palette) = (&route.centre_line, scene.palette) else {
        return;
    };
    let wide = view.screen_length(route.width);
    if wide < NARROW {
        let edge = Pen::Edge.width() * palette.weight;
        narrow::draw(painter, view, palette, chain, (wide, edge));
        return;
    }
    fill_path(painter, view, palette, chain, route.width);
    for edge in [&route.left_edge, &route.right_edge].into_iter().flatten() {
        Pen::Edge.draw(painter, &view.trace(&curves(edge)), palette);
    }
}

fn draw_pads(painter: &Painter, view: &View, scene: &Scene<'_>, route: &SolvedRoute) {
    for pad in &route.pads {
        Pen::Outline.draw(painter, &view.trace(&curves(pad)), scene.palette);
    }
}

/// The chosen option over a whole window, with whoever walks along it.
pub(in crate::window) fn draw_for_client(painter: &Painter, area: Rect, scene: &Scene<'_>) {
    let margin = FIT_MARGIN.min(FIT_SHARE * area.width().min(area.height()));
    let view = View::fitted(extent_of_all(scene), area, margin);
    let painter = painter.with_clip_rect(area.intersect(painter.clip_rect()));
    let mut labels = Labels::new(painter.clone(), scene.palette.paper, area);
    draw_alone(&painter, &view, scene);
    let walker = scene.comparing.shown.and_then(|walk| walk.station);
    let route = scene.route();
    let chain = route.and_then(|route| route.centre_line.as_ref());
    if let (Some(station), Some(route), Some(chain)) = (walker, route, chain) {
        let at = view.screen_from_plan(chain.point_at(station));
        labels.keep_free(Rect::from_center_size(at, vec2(4.0 * WALKER, 4.0 * WALKER)));
        let palette = scene.palette;
        let line = Stroke::new(1.5 * palette.weight, palette.string);
        let around = &scene.solved.surroundings;
        for thing in beside(route, around, station, NAMED_WITHIN)
            .into_iter()
            .flatten()
        {
            painter.line_segment([at, view.screen_from_plan(thing.at)], line);
        }
        let rim = Stroke::new(2.0 * palette.weight, palette.ink);
        painter.circle(at, WALKER, palette.string, rim);
    }
    site::write_names(&view, scene, &mut labels);
    labels.paint();
    site::draw_scale(&painter, &view, scene);
}

/// Everything of all options and the site.
pub(super) fn extent_of_all(scene: &Scene<'_>) -> Bounds {
    let schemes = 0..scene.solved.schemes.len();
    let extents = schemes.map(|scheme| super::extent(&of_option(scene, scheme)));
    extents
        .reduce(Bounds::with)
        .unwrap_or_else(|| super::extent(scene))
}

/// The option whose path is under a place on the screen, the nearest one.
fn scheme_at(view: &View, scene: &Scene<'_>, at: Pos2) -> Option<usize> {
    let place = view.plan_from_screen(at);
    let schemes = scene.solved.schemes.iter().enumerate();
    let lines = schemes.flat_map(|(i, scheme)| scheme.routes.iter().map(move |route| (i, route)));
    let off = |(scheme, route): (usize, &SolvedRoute)| {
        let line: &Chain = route.centre_line.as_ref()?;
        let distance = line.nearest(place).distance;
        let reach = (0.5 * route.width).max(view.plan_length(NEAR));
        (distance <= reach).then_some((distance, scheme))
    };
    let nearest = lines.filter_map(off).min_by(|a, b| a.0.total_cmp(&b.0))?;
    Some(nearest.1)
}
