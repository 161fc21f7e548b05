//! Laying a path click by click, and measuring: what follows the pointer.

use egui::{Key, Painter, Pos2, Rect, Response, Stroke, Ui, Vec2};
use geometry::{Arc, Direction, Line, Piece, Point};
use plan::document::Side;
use plan::edit::End;

use super::guide::{Around, Guided, guided};
use super::labels::Labels;
use super::{Scene, curve};
use crate::window::fonts::Face;
use crate::window::intent::Intent;
use crate::window::mode::{Lay, Measure, Mode, Next, Start};
use crate::window::pen::Pen;
use crate::window::theme;
use crate::window::view::View;
use crate::window::words;

/// A place this near is the place itself, in screen points.
const CATCH: f32 = 12.0;

/// Follows the pointer while a path is laid or a distance measured.
pub(super) fn ui(
    ui: &Ui,
    view: &View,
    scene: &Scene<'_>,
    labels: &mut Labels,
    ground: &Response,
    out: &mut Vec<Intent>,
) {
    let (done, pointer) = ui.input(|input| {
        let done = input.key_pressed(Key::Enter) || input.key_pressed(Key::Escape);
        (done, input.pointer.hover_pos())
    });
    if done && !ui.ctx().text_edit_focused() {
        out.push(Intent::Turn(Mode::Choose));
        return;
    }
    let painter = ui.painter_at(view.area());
    let pointer = pointer.filter(|at| view.area().contains(*at));
    match scene.mode {
        Mode::Choose | Mode::Sketch(_) => {}
        Mode::Lay(lay) => {
            next_kind(ui, lay, out);
            if let Some(at) = pointer {
                lay_at(ui, view, scene, (lay, ground), at, (&painter, labels), out);
            }
        }
        Mode::Measure(measure) => {
            measure_at(
                ui,
                view,
                scene,
                (measure, ground),
                pointer,
                (&painter, labels),
                out,
            );
        }
    }
}

/// Letters choose what the next leg becomes.
fn next_kind(ui: &Ui, lay: &Lay, out: &mut Vec<Intent>) {
    if ui.ctx().text_edit_focused() {
        return;
    }
    for (key, next) in [
        (Key::S, Next::Straight),
        (Key::B, Next::Bend),
        (Key::O, Next::Onward),
    ] {
        if ui.input(|input| input.modifiers.is_none() && input.key_pressed(key)) {
            let lay = Lay {
                next,
                ..lay.clone()
            };
            out.push(Intent::Turn(Mode::Lay(lay)));
        }
    }
}

/// Where the next leg starts.
fn last_peg(scene: &Scene<'_>, lay: &Lay) -> Option<Point> {
    let Some(end) = lay.leads_on else {
        return lay.first.map(|start| start.at);
    };
    let route = scene.plan.route(scene.pick.scheme, scene.pick.route)?;
    let waypoint = match end {
        End::Start => route.waypoints.first(),
        End::End => route.waypoints.last(),
    };
    waypoint.map(|w| w.at)
}

fn lay_at(
    ui: &Ui,
    view: &View,
    scene: &Scene<'_>,
    (lay, ground): (&Lay, &Response),
    pointer: Pos2,
    (painter, labels): (&Painter, &mut Labels),
    out: &mut Vec<Intent>,
) {
    let from = last_peg(scene, lay);
    let place = view.plan_from_screen(pointer);
    let held = held_place(ui, view, scene, from, place);
    let edge = if from.is_none() {
        near_edge(view, scene, place)
    } else {
        None
    };
    let at = edge.map_or(held.at, |(_, _, on)| on);
    let closes = closes(view, scene, lay, pointer);
    if let Some(from) = from {
        leg_ghost(view, scene, lay, (from, at), (painter, labels));
    }
    if edge.is_none() {
        super::guide::draw(painter, view, scene.palette, &held, labels);
    }
    peg_ghost(painter, view.screen_from_plan(at), scene);
    if ground.double_clicked() {
        out.push(Intent::Turn(Mode::Choose));
    } else if ground.clicked() {
        let edge = edge.map(|(route, side, _)| (route, side));
        out.push(Intent::LayPeg {
            start: Start { at, edge },
            closes,
        });
    }
}

fn held_place(
    ui: &Ui,
    view: &View,
    scene: &Scene<'_>,
    from: Option<Point>,
    place: Point,
) -> Guided {
    let around = Around {
        plan: scene.plan,
        solved: scene.solved,
        scheme: scene.pick.scheme,
        route: match scene.mode {
            Mode::Lay(Lay { leads_on: None, .. }) => usize::MAX, // it is not there yet
            _ => scene.pick.route,
        },
        waypoint: None,
        from,
        // Alt lets go of all holds.
        reach: if ui.input(|input| input.modifiers.alt) {
            0.0
        } else {
            view.plan_length(super::HOLD)
        },
    };
    guided(&around, place)
}

/// The edge of a path near a place: which path, which side, where on it.
fn near_edge(view: &View, scene: &Scene<'_>, place: Point) -> Option<(usize, Side, Point)> {
    let scheme = scene.solved.schemes.get(scene.pick.scheme)?;
    let reach = view.plan_length(CATCH);
    scheme
        .routes
        .iter()
        .enumerate()
        .flat_map(|(i, route)| {
            [
                (i, Side::Left, &route.left_edge),
                (i, Side::Right, &route.right_edge),
            ]
        })
        .filter_map(|(i, side, edge)| {
            let nearest = edge.as_ref()?.nearest(place);
            (nearest.distance <= reach).then_some((nearest.distance, (i, side, nearest.point)))
        })
        .min_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, found)| found)
}

/// Whether a click here leads the path back to its other end.
fn closes(view: &View, scene: &Scene<'_>, lay: &Lay, pointer: Pos2) -> bool {
    let Some(end) = lay.leads_on else {
        return false;
    };
    let route = scene.plan.route(scene.pick.scheme, scene.pick.route);
    let Some(route) = route.filter(|route| route.waypoints.len() > 2) else {
        return false;
    };
    let other = match end {
        End::End => route.waypoints.first(),
        End::Start => route.waypoints.last(),
    };
    other.is_some_and(|w| view.screen_from_plan(w.at).distance(pointer) < CATCH)
}

/// The next leg as it would be laid, with its length and direction.
fn leg_ghost(
    view: &View,
    scene: &Scene<'_>,
    lay: &Lay,
    (from, to): (Point, Point),
    (painter, labels): (&Painter, &mut Labels),
) {
    let Ok(line) = Line::new(from, to) else {
        return;
    };
    let before = scene.route().and_then(|route| {
        let chain = route.centre_line.as_ref()?;
        let last = chain.pieces().last()?;
        (lay.leads_on == Some(End::End)).then(|| last.end_direction())
    });
    let piece = match (lay.next, before) {
        (Next::Onward, Some(before)) => Arc::leaving(from, before, to).map(Piece::Arc).ok(),
        (Next::Bend, _) => Arc::from_rise(from, to, line.length() / 8.0)
            .map(Piece::Arc)
            .ok(),
        _ => None,
    };
    let piece = piece.unwrap_or(Piece::Line(line));
    Pen::Ghost.draw(painter, &view.trace(&[curve(&piece)]), scene.palette);
    distance_label(view, scene, (from, to), labels);
}

/// A distance with its direction, beside its middle.
fn distance_label(view: &View, scene: &Scene<'_>, (from, to): (Point, Point), labels: &mut Labels) {
    let Some(direction) = Direction::of(to - from) else {
        return;
    };
    let text = format!(
        "{}, {}",
        scene.ruler().text(from.distance(to)),
        plan::units::direction_text(direction)
    );
    let style = (Face::Figures.sized(theme::BODY), scene.palette.ink);
    let middle = view.screen_from_plan(from.middle(to));
    labels.write(middle, 14.0, Vec2::ZERO, &text, style);
}

fn peg_ghost(painter: &Painter, at: Pos2, scene: &Scene<'_>) {
    let square = Rect::from_center_size(at, Vec2::splat(10.0));
    let line = Stroke::new(1.5 * scene.palette.weight, scene.palette.string);
    painter.rect_stroke(square, 0.0, line, egui::StrokeKind::Middle);
}

fn measure_at(
    ui: &Ui,
    view: &View,
    scene: &Scene<'_>,
    (measure, ground): (&Measure, &Response),
    pointer: Option<Pos2>,
    (painter, labels): (&Painter, &mut Labels),
    out: &mut Vec<Intent>,
) {
    let here = pointer.map(|at| {
        let place = view.plan_from_screen(at);
        // A measured length is not made round: only points and lines of the site hold it.
        held_place(ui, view, scene, None, place)
    });
    let to = measure.to.or(here.as_ref().map(|held| held.at));
    if let (Some(from), Some(to)) = (measure.from, to) {
        if let Ok(line) = Line::new(from, to) {
            let runs = view.trace(&[curve(&Piece::Line(line))]);
            Pen::Measure.draw_in(painter, &runs, scene.palette, scene.palette.ink);
            distance_label(view, scene, (from, to), labels);
        }
        for end in [from, to] {
            let at = view.screen_from_plan(end);
            painter.circle_filled(at, 3.5, scene.palette.ink);
        }
    }
    let Some(held) = here else { return };
    if measure.to.is_none() {
        super::guide::draw(painter, view, scene.palette, &held, labels);
    }
    if ground.clicked() {
        let next = match (measure.from, measure.to) {
            (Some(from), None) => Measure {
                from: Some(from),
                to: Some(held.at),
            },
            _ => Measure {
                from: Some(held.at),
                to: None,
            },
        };
        out.push(Intent::Turn(Mode::Measure(next)));
    }
}

/// Says at the head of the plan what a click does now.
pub(super) fn write_tip(view: &View, scene: &Scene<'_>, labels: &mut Labels) {
    let sketched;
    let tip = match scene.mode {
        Mode::Choose => return,
        Mode::Sketch(sketch) => {
            sketched = super::site::tip(sketch);
            &sketched
        }
        Mode::Lay(Lay {
            first: None,
            leads_on: None,
            ..
        }) => words::lay::FIRST,
        Mode::Lay(_) => words::lay::NEXT,
        Mode::Measure(Measure { from: None, .. }) => words::lay::MEASURE_FROM,
        Mode::Measure(Measure { to: None, .. }) => words::lay::MEASURE_TO,
        Mode::Measure(_) => words::lay::MEASURE_AGAIN,
    };
    let corner = view.area().left_top() + Vec2::new(20.0, 14.0);
    let width = (view.area().width() - 40.0).max(80.0);
    let style = (Face::Text.sized(theme::BODY), scene.palette.ink);
    labels.write_at(corner, width, tip, style);
}
