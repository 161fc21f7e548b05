//! How the chosen thing shows: its lengths where they are measured, and what can be taken hold of.

use egui::{Painter, Pos2, Rect, Response, Stroke, StrokeKind, Vec2};
use plan::document::Extent;

use super::super::Scene;
use super::super::labels::Labels;
use super::holds::{Hold, Placed};
use super::reach;
use crate::window::fonts::Face;
use crate::window::site::{Part, SitePick};
use crate::window::theme;
use crate::window::view::View;

/// Sides shorter than this on the screen are not labelled with their length, in screen points.
const LABELLED: f32 = 40.0;
/// More sides than this are not labelled.
const MOST_LABELLED: usize = 60;

/// The length of each side of the chosen thing where it is measured, and the ground it encloses.
pub(super) fn label_sides(view: &View, scene: &Scene<'_>, pick: SitePick, labels: &mut Labels) {
    let Some((_, it)) = pick.obstacle(scene.plan) else {
        return;
    };
    let ruler = scene.ruler();
    let style = (Face::Figures.sized(theme::BODY), scene.palette.ink);
    match &it.extent {
        Extent::Round { centre, radius } => {
            let at = view.screen_from_plan(*centre);
            let gap = view.screen_length(*radius) + 12.0;
            let text = match it.stem_radius() {
                Some(stem) => format!("{} across", ruler.text(2.0 * stem)),
                None => format!("R {}", ruler.text(*radius)),
            };
            labels.write(at, gap, Vec2::new(1.0, 0.0), &text, style);
        }
        extent => {
            let seen = view.seen();
            let sides = (0..extent.count()).filter_map(|side| reach::side_of(extent, side));
            let sides = sides.filter(|side| {
                seen.meets(side.bounds()) && view.screen_length(side.length()) > LABELLED
            });
            for side in sides.take(MOST_LABELLED) {
                let length = side.length();
                let at = view.screen_from_plan(side.point_at(0.5 * length));
                let text = ruler.text(length);
                labels.write(at, 16.0, Vec2::ZERO, &text, style.clone());
            }
            if let (Some(area), Some(room)) = (extent.area(), extent.room()) {
                let at = view.screen_from_plan(room.middle());
                labels.write(at, 18.0, Vec2::ZERO, &ruler.area(area), style);
            }
        }
    }
}

/// A corner is a small square, the middle of a side a small round, the whole a ring, the edge of a
/// round thing a round.
pub(super) fn draw(
    painter: &Painter,
    at: Pos2,
    placed: &Placed,
    touch: &Response,
    scene: &Scene<'_>,
    chosen: Part,
) {
    let palette = scene.palette;
    if touch.has_focus() {
        let ring = Stroke::new(2.0 * palette.weight, palette.focus);
        painter.circle_stroke(at, 0.5 * theme::TARGET, ring);
    }
    let is_chosen = chosen != Part::Whole && placed.hold.part() == chosen;
    let active = touch.hovered() || touch.dragged() || is_chosen;
    let line = Stroke::new(2.0 * palette.weight, palette.ink);
    let fill = if active {
        palette.string
    } else {
        palette.paper
    };
    match placed.hold {
        Hold::Corner(_) => {
            let square = Rect::from_center_size(at, Vec2::splat(10.0));
            painter.rect(square, 0.0, fill, line, StrokeKind::Middle);
        }
        Hold::Side(_) | Hold::Radius | Hold::Opening => {
            painter.circle(at, 4.5, fill, line);
        }
        Hold::Whole => {
            painter.circle(at, 7.0, fill, line);
            painter.circle_filled(at, 2.0, palette.ink);
        }
    }
}
