//! Options on two chosen axes: where one is better in one thing and worse in another, it shows.

use egui::accesskit::Role;
use egui::{Align2, FontId, Rangef, RichText, Ui};
use egui_plot::{AxisHints, GridMark, MarkerShape, PlotBounds, PlotPoint, Points, Text};
use plan::compare::{Comparison, Criterion};

use super::choice;
use crate::window::canvas::Scene;
use crate::window::compare::CompareAsk;
use crate::window::fonts::Face;
use crate::window::intent::Intent;
use crate::window::still_plot::still_plot;
use crate::window::theme;
use crate::window::words::compare as said;

/// Height of the chart, and room for the figures beside its upright scale, in screen points.
const HEIGHT: f32 = 190.0;
const BESIDE: f32 = 84.0;
/// Air round the options, as a share of what they span.
const AIR: f64 = 0.3;
/// Options nearer than this share of both spans stand at one point, or their letters would lie on each other.
const NEAR: f64 = 0.12;

/// An option: its letters, and where it stands.
struct Spot {
    letters: String,
    at: [f64; 2],
}

/// Shows them.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>, comparison: &Comparison, out: &mut Vec<Intent>) {
    let all: Vec<Criterion> = comparison
        .criteria()
        .into_iter()
        .filter(|criterion| *criterion != Criterion::Findings)
        .collect();
    let axes = scene.comparing.axes;
    let words = |criterion: &Criterion| criterion.name().to_owned();
    for (axis, name) in [said::ACROSS, said::UPWARDS].into_iter().enumerate() {
        if let Some(criterion) = choice(ui, name, &axes[axis], &all, words) {
            out.push(Intent::Compare(CompareAsk::Axis(axis, criterion)));
        }
    }
    let known: Vec<_> = comparison
        .standings
        .iter()
        .filter_map(|standing| {
            let [across, up] = axes.map(|axis| axis.value(standing));
            Some((standing, [across?, up?]))
        })
        .collect();
    if known.is_empty() {
        ui.label(said::NOT_ON_AXES);
        return;
    }
    let marks = [0, 1].map(|axis| {
        let mut marks: Vec<(f64, String)> = known
            .iter()
            .map(|(standing, at)| (at[axis], axes[axis].brief(standing, comparison.ruler)))
            .collect();
        marks.sort_by(|a, b| a.0.total_cmp(&b.0));
        let last = marks.pop();
        marks.truncate(1);
        marks.extend(last);
        marks.dedup_by(|a, b| a.0 <= b.0);
        marks
    });
    let [across, up] = [0, 1].map(|axis| span(&marks[axis]));
    let spots = spots(
        &known
            .iter()
            .map(|(s, at)| (s.letter.as_str(), *at))
            .collect::<Vec<_>>(),
        [across, up],
    );
    chart_ui(ui, scene, marks, [across, up], &spots);
    let better = axes.map(|axis| format!("{}: {}", axis.name(), said::better(axis)));
    ui.label(
        RichText::new(better.join("; "))
            .size(theme::SMALL)
            .color(scene.palette.faint),
    );
}

fn chart_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    marks: [Vec<(f64, String)>; 2],
    [across, up]: [[f64; 2]; 2],
    spots: &[Spot],
) {
    let palette = scene.palette;
    let font: FontId = Face::Figures.sized(theme::SMALL);
    let axis = |hints: AxisHints<'static>, marks: Vec<(f64, String)>| {
        hints
            .tick_label_font(font.clone())
            .tick_label_color(palette.faint)
            .label_spacing(Rangef::new(1.0, 2.0))
            .formatter(move |mark, _| {
                let at = marks
                    .iter()
                    .find(|(at, _)| (at - mark.value).abs() <= f64::EPSILON * at.abs());
                at.map_or_else(String::new, |(_, words)| words.clone())
            })
    };
    let grid = |marks: &[(f64, String)], span: [f64; 2]| -> Vec<GridMark> {
        let step_size = span[1] - span[0];
        let mark = |(value, _): &(f64, String)| GridMark {
            value: *value,
            step_size,
        };
        marks.iter().map(mark).collect()
    };
    let (over, beside) = (grid(&marks[0], across), grid(&marks[1], up));
    let [of_x, of_y] = marks;
    let shown = still_plot("options on two axes")
        .height(HEIGHT)
        .custom_x_axes(vec![axis(AxisHints::new_x(), of_x)])
        .custom_y_axes(vec![axis(AxisHints::new_y(), of_y).min_thickness(BESIDE)])
        .x_grid_spacer(move |_| over.clone())
        .y_grid_spacer(move |_| beside.clone())
        .grid_color(palette.rule)
        .sense(egui::Sense::hover())
        .show(ui, |plot| {
            let [[left, right], [low, high]] = [across, up];
            plot.set_plot_bounds(PlotBounds::from_min_max([left, low], [right, high]));
            let letters = Face::Strong.sized(theme::BODY);
            for spot in spots {
                let square = Points::new("", vec![spot.at])
                    .shape(MarkerShape::Square)
                    .radius(4.0)
                    .color(palette.ink);
                plot.points(square);
                let words = RichText::new(format!("  {}", spot.letters)).font(letters.clone());
                let [x, y] = spot.at;
                let text = Text::new("", PlotPoint::new(x, y), words)
                    .color(palette.ink)
                    .anchor(Align2::LEFT_CENTER);
                plot.text(text);
            }
        });
    let axes = scene.comparing.axes.map(Criterion::name);
    ui.ctx().accesskit_node_builder(shown.response.id, |node| {
        node.set_role(Role::Image);
        node.set_label(said::on_axes(axes));
    });
}

/// What an axis spans: the options with some air.
fn span(marks: &[(f64, String)]) -> [f64; 2] {
    let low = marks.first().map_or(0.0, |mark| mark.0);
    let high = marks.last().map_or(low, |mark| mark.0);
    let air = match high - low {
        span if span > 0.0 => AIR * span,
        _ => low.abs().max(1.0) * AIR,
    };
    [low - air, high + air]
}

/// Where letters stand: those of options that are alike together.
fn spots(options: &[(&str, [f64; 2])], spans: [[f64; 2]; 2]) -> Vec<Spot> {
    let mut spots: Vec<Spot> = Vec::new();
    for (letter, at) in options {
        let near = |spot: &&mut Spot| {
            (0..2).all(|i| (spot.at[i] - at[i]).abs() < NEAR * (spans[i][1] - spans[i][0]))
        };
        match spots.iter_mut().find(near) {
            Some(spot) => spot.letters = format!("{}, {letter}", spot.letters),
            None => spots.push(Spot {
                letters: (*letter).to_owned(),
                at: *at,
            }),
        }
    }
    spots
}
