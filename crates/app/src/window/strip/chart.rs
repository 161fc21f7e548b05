//! One figure drawn against the station, with a cursor for pointer and keys.

use egui::accesskit::Role;
use egui::{EventFilter, FontId, Key, Rangef, Rect, Response, Sense, Stroke, Ui, Vec2, vec2};
use egui_plot::{AxisHints, Line, LineStyle, MarkerShape, PlotBounds, PlotPoints, PlotUi};
use egui_plot::{Points, VLine};
use plan::profile::{Along, Profile};
use plan::units::Units;

use super::{Chart, reading, scale};
use crate::window::canvas::Scene;
use crate::window::fonts::Face;
use crate::window::intent::Intent;
use crate::window::still_plot::still_plot;
use crate::window::theme::{self, Palette};

/// Room for the figures beside the upright scale, in screen points.
const BESIDE: f32 = 62.0;
/// Room for one division along and up, in screen points: a figure and some air.
const ALONG: f32 = 90.0;
const UP: f32 = 26.0;
/// Room beyond both ends, in screen points: half a figure of the scale.
const END: f32 = 30.0;
/// The least size of the chart: what a small window with large type leaves of it.
const LEAST: Vec2 = vec2(100.0, 24.0);
/// The least turn that fills the scale, in degrees, and the least inside radius in metres: without
/// them the scale of a nearly straight path would be all noise.
const LEAST_TURN: f64 = 5.0;
const LEAST_RADIUS: f64 = 2.0;
/// A radius so many times the tightest is drawn off the top: a flat bend has one of kilometres.
const RADII: f64 = 4.0;
/// Air above and below the lines, as a share of what they span.
const AIR: f64 = 0.06;

/// Shows the chart; whether the keyboard speaks to it.
pub(super) fn ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    chart: Chart,
    profile: &Profile,
    now: Option<&Along>,
    out: &mut Vec<Intent>,
) -> bool {
    let (units, palette) = (scene.plan.units, scene.palette);
    let room = ui.available_size();
    let along = scale::division(profile.length, f64::from((room.x - BESIDE) / ALONG), units);
    let span = span(chart, profile);
    let steps = f64::from((room.y - 20.0) / UP).max(1.0);
    let up = match chart {
        Chart::Turn => scale::whole((span.1 - span.0) / steps),
        Chart::Clearance | Chart::Inside => scale::division(span.1 - span.0, steps, units),
    };
    let font: FontId = Face::Figures.sized(theme::SMALL);
    let axis = |hints: AxisHints<'static>| {
        hints
            .tick_label_font(font.clone())
            .tick_label_color(palette.faint)
            .label_spacing(Rangef::new(1.0, 2.0))
    };
    let length = profile.length;
    let shown = still_plot("along the path")
        .custom_x_axes(vec![
            axis(AxisHints::new_x()).formatter(move |mark, _| scale::label(mark.value, units)),
        ])
        .custom_y_axes(vec![
            axis(AxisHints::new_y())
                .min_thickness(BESIDE)
                .formatter(move |mark, _| up_label(chart, mark.value, units)),
        ])
        .x_grid_spacer(move |_| scale::marks((0.0, length), along))
        .y_grid_spacer(move |_| scale::marks(span, up))
        .grid_color(palette.rule)
        .min_size(LEAST)
        .sense(Sense::click())
        .show(ui, |plot| {
            // The figure under the last division needs room to its right.
            let air = length * f64::from(END / (room.x - BESIDE - 2.0 * END).max(END));
            let bounds = PlotBounds::from_min_max([-air, span.0], [length + air, span.1]);
            plot.set_plot_bounds(bounds);
            draw(plot, chart, profile, palette);
            if let Some(now) = now {
                let stroke = Stroke::new(2.0 * palette.weight, palette.focus);
                plot.vline(VLine::new("cursor", now.station).stroke(stroke));
            }
        });
    let pointed = |at: egui::Pos2| shown.transform.value_from_position(at).x.clamp(0.0, length);
    let moved = ui.input(|input| {
        let moves = |event: &egui::Event| matches!(event, egui::Event::PointerMoved(_));
        input.events.iter().any(moves)
    });
    if let (true, Some(at)) = (moved, shown.response.hover_pos()) {
        out.push(Intent::Along(pointed(at)));
    }
    if let (true, Some(at)) = (
        shown.response.clicked(),
        shown.response.interact_pointer_pos(),
    ) {
        shown.response.request_focus();
        go_to(scene, pointed(at), out);
    }
    let cursor = Cursor {
        step: along,
        length,
        station: now.map(|now| now.station),
    };
    cursor.keys(ui, scene, &shown.response, out);
    let sentence = reading::sentence(scene, chart, profile, now);
    ui.ctx().accesskit_node_builder(shown.response.id, |node| {
        node.set_role(Role::Slider);
        node.set_label(format!("{} along the path", chart.word()));
        node.set_value(sentence);
    });
    let has_keys = shown.response.has_focus();
    if has_keys {
        focus_ring(ui, shown.response.rect, palette);
    }
    has_keys
}

fn go_to(scene: &Scene<'_>, station: f64, out: &mut Vec<Intent>) {
    if let Some(chain) = scene.route().and_then(|route| route.centre_line.as_ref()) {
        out.push(Intent::Along(station));
        out.push(Intent::GoTo(chain.point_at(station)));
    }
}

fn focus_ring(ui: &Ui, rect: Rect, palette: &Palette) {
    let ring = Stroke::new(2.0 * palette.weight, palette.focus);
    ui.painter()
        .rect_stroke(rect, 2.0, ring, egui::StrokeKind::Inside);
}

/// The cursor, moved by keys.
struct Cursor {
    /// One division of the scale, in metres.
    step: f64,
    length: f64,
    station: Option<f64>,
}

impl Cursor {
    fn keys(&self, ui: &Ui, scene: &Scene<'_>, response: &Response, out: &mut Vec<Intent>) {
        if !response.has_focus() {
            return;
        }
        let arrows = EventFilter {
            horizontal_arrows: true,
            ..EventFilter::default()
        };
        ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, arrows));
        let (by, enter) = ui.input(|input| {
            let times = |key| f64::from(u32::try_from(input.num_presses(key)).unwrap_or(0));
            let fine = if input.modifiers.shift { 0.1 } else { 1.0 };
            let by = times(Key::ArrowRight) - times(Key::ArrowLeft);
            (by * fine * self.step, input.key_pressed(Key::Enter))
        });
        let station = self.station.unwrap_or(0.0);
        if by.abs() > 0.0 {
            out.push(Intent::Along((station + by).clamp(0.0, self.length)));
        } else if enter {
            go_to(scene, station, out);
        }
    }
}

/// What the upright scale spans: metres, or degrees.
fn span(chart: Chart, profile: &Profile) -> (f64, f64) {
    let all = || profile.runs.iter().flatten();
    let (low, high) = match chart {
        Chart::Clearance => {
            let near = all().flat_map(|along| along.near).flatten();
            let least = near.map(|near| near.distance).fold(0.0, f64::min);
            (least, profile.reach)
        }
        Chart::Turn => {
            let most = all()
                .map(|along| degrees(along.turn_per_pace).abs())
                .fold(LEAST_TURN, f64::max);
            (-most, most)
        }
        Chart::Inside => {
            let radii = || all().filter_map(|along| along.inside_radius);
            let tightest = radii().fold(f64::INFINITY, f64::min);
            let widest = radii().fold(LEAST_RADIUS, f64::max);
            let most = widest.min((RADII * tightest).max(LEAST_RADIUS));
            (tightest.min(0.0), most)
        }
    };
    let air = AIR * (high - low);
    (low - air, high + air)
}

fn degrees(turn: f64) -> f64 {
    geometry::angle::to_degrees(turn)
}

fn up_label(chart: Chart, value: f64, units: Units) -> String {
    match chart {
        Chart::Turn if value < 0.0 => format!("{}° right", -value),
        Chart::Turn if value > 0.0 => format!("{value}° left"),
        Chart::Turn => "0°".to_owned(),
        Chart::Clearance | Chart::Inside => scale::label(value, units),
    }
}

fn draw(plot: &mut PlotUi<'_>, chart: Chart, profile: &Profile, palette: &Palette) {
    let firm = Stroke::new(1.75 * palette.weight, palette.ink);
    match chart {
        Chart::Clearance => {
            for (side, style) in [
                (0, LineStyle::Solid),
                (1, LineStyle::Dashed { length: 8.0 }),
            ] {
                let near = |along: &Along| along.near[side].map(|near| near.distance);
                lines(plot, profile, near, firm, style);
                // What is wanted shows where the nearest thing wants something.
                let wanted = |along: &Along| {
                    let [left, right] = along.near.map(|near| near.map(|near| near.wanted));
                    let wanted = if side == 0 { left } else { right };
                    // Dots on dots would be no dots.
                    wanted.filter(|wanted| *wanted > 0.0 && (side == 0 || left != right))
                };
                let dots = Stroke::new(1.75 * palette.weight, palette.ochre);
                lines(
                    plot,
                    profile,
                    wanted,
                    dots,
                    LineStyle::Dotted { spacing: 5.0 },
                );
            }
        }
        Chart::Turn => {
            let turn = |along: &Along| Some(degrees(along.turn_per_pace));
            lines(plot, profile, turn, firm, LineStyle::Solid);
            let corners: PlotPoints<'_> = profile
                .corners
                .iter()
                .map(|corner| [corner.station, 0.0])
                .collect();
            let marks = Points::new("corners", corners)
                .shape(MarkerShape::Diamond)
                .filled(false)
                .radius(6.0)
                .color(palette.ink);
            plot.points(marks);
        }
        Chart::Inside => {
            let inside = |along: &Along| along.inside_radius;
            lines(plot, profile, inside, firm, LineStyle::Solid);
        }
    }
}

/// A figure along the path, broken where there is none.
fn lines(
    plot: &mut PlotUi<'_>,
    profile: &Profile,
    figure: impl Fn(&Along) -> Option<f64>,
    stroke: Stroke,
    style: LineStyle,
) {
    let mut line: Vec<[f64; 2]> = Vec::new();
    let mut draw = |line: &mut Vec<[f64; 2]>| {
        if line.len() > 1 {
            let line = std::mem::take(line);
            plot.line(Line::new("", line).stroke(stroke).style(style));
        }
        line.clear();
    };
    for along in profile.runs.iter().flatten() {
        match figure(along) {
            Some(value) => line.push([along.station, value]),
            None => draw(&mut line),
        }
    }
    draw(&mut line);
}
