//! The cursor of the strip, where it is on the plan: a line across the path with a dot in it.

use egui::{Event, Painter, Stroke, Ui};

use super::{NEAR, Scene};
use crate::window::intent::Intent;
use crate::window::view::View;

/// The radius of the dot, and how far the line reaches beyond the edges, in screen points.
const DOT: f32 = 5.0;

/// Draws it.
pub(super) fn draw(painter: &Painter, view: &View, scene: &Scene<'_>) {
    let (Some(Some(station)), Some(route)) = (scene.along, scene.route()) else {
        return;
    };
    let Some(chain) = &route.centre_line else {
        return;
    };
    let station = station.min(chain.length());
    let (at, across) = (
        chain.point_at(station),
        chain.direction_at(station).left().unit(),
    );
    let reach = 0.5 * route.width + view.plan_length(2.0 * DOT);
    let ends = [at + across * reach, at - across * reach].map(|end| view.screen_from_plan(end));
    let palette = scene.palette;
    painter.line_segment(ends, Stroke::new(2.0 * palette.weight, palette.focus));
    let outline = Stroke::new(1.5 * palette.weight, palette.paper);
    painter.circle(view.screen_from_plan(at), DOT, palette.focus, outline);
}

/// The cursor follows a pointer that moves over the chosen path.
pub(super) fn follow(ui: &Ui, view: &View, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    let moved = ui.input(|input| {
        let moves = |event: &Event| matches!(event, Event::PointerMoved(_));
        input.events.iter().any(moves)
    });
    if scene.along.is_none() || !moved || !ui.rect_contains_pointer(view.area()) {
        return;
    }
    let chain = scene.route().and_then(|route| {
        let reach = (0.5 * route.width).max(view.plan_length(NEAR));
        Some((route.centre_line.as_ref()?, reach))
    });
    let pointer = ui.input(|input| input.pointer.hover_pos());
    if let (Some((chain, reach)), Some(pointer)) = (chain, pointer) {
        let nearest = chain.nearest(view.plan_from_screen(pointer));
        if nearest.distance <= reach {
            out.push(Intent::Along(nearest.station));
        }
    }
}
