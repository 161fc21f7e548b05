//! The strip along the path: one figure of it at every station, its cursor tied to the plan.

mod chart;
mod reading;
mod scale;

use egui::{Layout, RichText, Ui};

use super::canvas::Scene;
use super::intent::Intent;
use super::theme;

/// What the strip shows.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Chart {
    /// How near things stand to each edge.
    #[default]
    Clearance,
    /// How far one turns with each pace.
    Turn,
    /// The radius of the inside edge.
    Inside,
}

impl Chart {
    /// All of them, in the order they are offered.
    pub const ALL: [Self; 3] = [Self::Clearance, Self::Turn, Self::Inside];

    /// Its word.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Clearance => "Clearance",
            Self::Turn => "Turn per pace",
            Self::Inside => "Inside radius",
        }
    }
}

/// The strip, remembered for as long as the window is open.
#[derive(Debug, Default)]
pub struct Strip {
    /// Whether it shows.
    pub open: bool,
    /// What it shows.
    pub chart: Chart,
    /// The station of its cursor in metres, once the pointer or a key has put one.
    pub cursor: Option<f64>,
    /// Whether the keyboard speaks to it.
    pub has_keys: bool,
}

/// Height of the strip in screen points, and the most of the window it may take.
const HEIGHT: f32 = 200.0;
const MOST_OF_WINDOW: f32 = 1.0 / 3.0;

/// Its height in a window of this height, in screen points.
#[must_use]
pub fn height(window: f32) -> f32 {
    HEIGHT.min(MOST_OF_WINDOW * window)
}

impl Strip {
    /// Shows the strip.
    pub fn ui(&mut self, ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Intent>) {
        ui.spacing_mut().item_spacing.y = 2.0;
        ui.horizontal(|ui| {
            for chart in Chart::ALL {
                let chosen = chart == self.chart;
                if ui.selectable_label(chosen, chart.word()).clicked() {
                    out.push(Intent::Chart(chart));
                }
            }
            ui.with_layout(Layout::right_to_left(egui::Align::Center), |ui| {
                if ui.button("Put away").clicked() {
                    out.push(Intent::Do(super::action::Action::Along));
                }
            });
        });
        let Some(profile) = scene.derived.profile() else {
            ui.label(RichText::new("There is no path to go along yet").color(scene.palette.faint));
            return;
        };
        let now = self.cursor.and_then(|at| scene.derived.along(at));
        reading::ui(ui, scene, self.chart, profile, now.as_ref());
        self.has_keys = chart::ui(ui, scene, self.chart, profile, now.as_ref(), out);
    }
}

/// Height of the row of figures, in screen points.
const READING: f32 = theme::SMALL + 6.0;
