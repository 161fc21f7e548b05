//! What each part of the work costs, as bars, and what has no price yet.

use egui::{FontId, Rangef, Stroke, Ui};
use egui_plot::{AxisHints, Bar, BarChart, GridMark, PlotBounds};
use plan::price::Charge;
use rust_decimal::prelude::ToPrimitive;

use super::small;
use crate::window::canvas::Scene;
use crate::window::fonts::Face;
use crate::window::still_plot::still_plot;
use crate::window::theme;
use crate::window::words::count as said;

/// Height of one bar with its air, and of the whole at least, in screen points.
const ROW: f32 = 28.0;
/// Room for the name of a part beside its bar, in screen points.
const BESIDE: f32 = 132.0;

/// Shows the bars, the first part of the work on top.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>, charge: &Charge) {
    let parts = &charge.parts;
    let sum = |part: &plan::price::PartSum| part.sum.to_f64().unwrap_or(0.0);
    let most = parts.iter().map(sum).fold(0.0, f64::max);
    if most <= 0.0 {
        return;
    }
    let palette = scene.palette;
    let names: Vec<String> = parts
        .iter()
        .rev()
        .map(|it| {
            // A part with a missing price is marked beside its name: its bar is too short.
            let sign = if it.missing > 0 { "! " } else { "" };
            format!("{sign}{}", said::part(it.part))
        })
        .collect();
    let bars = parts.iter().rev().enumerate().map(|(at, part)| {
        let fill = if part.missing > 0 {
            palette.paper
        } else {
            palette.moss
        };
        Bar::new(f64::from(u32::try_from(at).unwrap_or(0)), sum(part))
            .width(0.6)
            .fill(fill)
            .stroke(Stroke::new(1.5 * palette.weight, palette.ink))
    });
    let bars = BarChart::new(said::CHART, bars.collect()).horizontal();
    let rows = f64::from(u32::try_from(parts.len()).unwrap_or(0));
    let font: FontId = Face::Text.sized(theme::SMALL);
    let upright = AxisHints::new_y()
        .min_thickness(BESIDE)
        .tick_label_font(font)
        .tick_label_color(palette.ink)
        .label_spacing(Rangef::new(1.0, 2.0))
        .formatter(move |mark, _| {
            at(mark.value)
                .and_then(|at| names.get(at))
                .cloned()
                .unwrap_or_default()
        });
    let tall = ROW * parts.len() as f32;
    let shown = still_plot("cost by part")
        .height(tall)
        .custom_y_axes(vec![upright])
        .show_axes([false, true])
        .y_grid_spacer(move |_| marks(rows))
        .x_grid_spacer(|_| Vec::new())
        .show_grid([false, false])
        .sense(egui::Sense::hover())
        .show(ui, |plot| {
            plot.set_plot_bounds(PlotBounds::from_min_max(
                [0.0, -0.6],
                [1.02 * most, rows - 0.4],
            ));
            plot.bar_chart(bars);
        });
    let words: Vec<String> = parts
        .iter()
        .map(|part| {
            format!(
                "{}: {}",
                said::part(part.part),
                said::sum(charge, part.sum, part.missing)
            )
        })
        .collect();
    ui.ctx().accesskit_node_builder(shown.response.id, |node| {
        node.set_role(egui::accesskit::Role::Image);
        node.set_label(said::CHART);
        node.set_value(words.join("; "));
    });
    if parts.iter().any(|part| part.missing > 0) {
        small(ui, scene, said::BARS_LACK);
    }
}

fn marks(rows: f64) -> Vec<GridMark> {
    let mut value = 0.0;
    let mut marks = Vec::new();
    while value < rows {
        marks.push(GridMark {
            value,
            step_size: 1.0,
        });
        value += 1.0;
    }
    marks
}

/// Which bar stands at a height.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "rounded, and not negative"
)]
fn at(height: f64) -> Option<usize> {
    (height >= 0.0).then(|| height.round() as usize)
}
