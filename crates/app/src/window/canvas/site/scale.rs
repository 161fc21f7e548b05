//! North and a scale bar in the lower left corner.

use egui::{Painter, Rect, Vec2, vec2};
use plan::units::Units;

use super::super::labels::Labels;
use super::super::{Scene, backed_text};
use crate::window::fonts::Face;
use crate::window::theme;
use crate::window::view::View;

/// No text over the scale bar and the arrow to north.
pub(in super::super) fn keep_scale_free(labels: &mut Labels, view: &View) {
    let corner = view.area().left_bottom();
    for size in [vec2(180.0, 54.0), vec2(50.0, 120.0)] {
        labels.keep_free(Rect::from_two_pos(corner, corner + vec2(size.x, -size.y)));
    }
}

/// North and a scale bar in the lower left corner.
pub(in super::super) fn draw_scale(painter: &Painter, view: &View, scene: &Scene<'_>) {
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
    backed_text(painter, rect, label, scene.palette.paper, ink);
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
