//! Along the foot: a string with a peg for each stage, and how many findings wait there.

use egui::{Align, Align2, Button, Layout, Rect, Sense, Stroke, Ui, Vec2, vec2};
use plan::finding::Severity;

use super::action::Action;
use super::canvas::Scene;
use super::fonts::Face;
use super::intent::Intent;
use super::pick::Stage;
use super::theme;

/// Height of the foot in screen points.
pub const HEIGHT: f32 = 46.0;

/// Shows the string with its pegs.
pub fn ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    let area = ui.available_rect_before_wrap();
    let palette = scene.palette;
    let string_at = area.top() + 13.0;
    let painter = ui.painter().clone();
    let string = Stroke::new(1.5 * palette.weight, palette.string);
    painter.hline(area.x_range(), string_at, string);
    let stages = Stage::ALL.map(|stage| {
        let word = word(scene, stage);
        let chosen = stage == scene.stage;
        let face = if chosen { Face::Strong } else { Face::Text };
        let galley = painter.layout_no_wrap(word.clone(), face.sized(theme::BODY), palette.ink);
        (stage, word, chosen, galley)
    });
    let wide = |galley: &egui::Galley| galley.size().x.max(theme::TARGET);
    let text: f32 = stages.iter().map(|(.., galley)| wide(galley)).sum();
    // In a small window with large type they stand closer.
    let room = (area.width() - text) / (stages.len() as f32 + 1.0);
    let closer = (room / (AROUND + BETWEEN)).clamp(CLOSEST, 1.0);
    let mut left = area.left() + BEFORE * closer;
    for (stage, word, chosen, galley) in stages {
        let width = wide(&galley) + AROUND * closer;
        let rect = Rect::from_min_size(egui::pos2(left, area.top()), vec2(width, area.height()));
        let touch = ui.interact(rect, ui.scope_id().with(stage.word()), Sense::click());
        ui.ctx().accesskit_node_builder(touch.id, |node| {
            node.set_role(egui::accesskit::Role::Tab);
            node.set_label(word);
            node.set_selected(chosen);
        });
        let peg = Rect::from_center_size(
            egui::pos2(rect.center().x, string_at),
            Vec2::splat(if chosen { 12.0 } else { 9.0 }),
        );
        let fill = if chosen {
            palette.string
        } else {
            palette.paper
        };
        let outline = Stroke::new(2.0 * palette.weight, palette.ink);
        painter.rect(peg, 0.0, fill, outline, egui::StrokeKind::Middle);
        let at = egui::pos2(rect.center().x, string_at + 9.0);
        painter.galley(
            Align2::CENTER_TOP.anchor_size(at, galley.size()).min,
            galley,
            palette.ink,
        );
        if touch.has_focus() {
            let ring = Stroke::new(2.0 * palette.weight, palette.focus);
            painter.rect_stroke(rect.shrink(2.0), 3.0, ring, egui::StrokeKind::Inside);
        }
        if touch.clicked() {
            out.push(Intent::Stage(stage));
        }
        left += width + BETWEEN * closer;
    }
    let rest = Rect::from_min_max(egui::pos2(left, string_at + 2.0), area.max);
    let words = egui::UiBuilder::new()
        .max_rect(rest.shrink2(vec2(10.0, 0.0)))
        .layout(Layout::right_to_left(Align::Center));
    ui.scope_builder(words, |ui| actions_ui(ui, out));
}

/// Before the first stage, around its word and between two of them, in screen points; and to what share of that
/// they close up.
const BEFORE: f32 = 30.0;
const AROUND: f32 = 20.0;
const BETWEEN: f32 = 24.0;
const CLOSEST: f32 = 0.2;

/// The word of a stage, with how many findings wait there.
fn word(scene: &Scene<'_>, stage: Stage) -> String {
    let waits = |finding: &&plan::Finding| {
        finding.severity != Severity::Note
            && finding.place.concerns(scene.pick.scheme)
            && stage == Stage::Draw
    };
    match scene.solved.findings.iter().filter(waits).count() {
        0 => stage.word().to_owned(),
        count => format!("{}  {count} to look at", stage.word()),
    }
}

/// What is asked for most, as plain words, the most wanted at the far right; where the window is
/// narrow the rest stays on the slip.
fn actions_ui(ui: &mut Ui, out: &mut Vec<Intent>) {
    let mut room = ui.available_width();
    let fits = |action: &Action| {
        room -= wide(ui, *action);
        room >= 0.0
    };
    let shown: Vec<Action> = WANTED.into_iter().take_while(fits).collect();
    for action in FROM_RIGHT.iter().filter(|action| shown.contains(action)) {
        let entry = action.entry();
        let button = Button::new(entry.name).frame_when_inactive(false);
        let tip = entry.tip_with_key(ui.ctx());
        if ui.add(button).on_hover_text(tip).clicked() {
            out.push(Intent::Do(*action));
        }
    }
}

/// What is shown first where there is not room for all.
const WANTED: [Action; 6] = [
    Action::Sheet,
    Action::Save,
    Action::Undo,
    Action::Redo,
    Action::Open,
    Action::Fit,
];
/// The same as it stands, from the right.
const FROM_RIGHT: [Action; 6] = [
    Action::Sheet,
    Action::Save,
    Action::Redo,
    Action::Undo,
    Action::Open,
    Action::Fit,
];

/// Room for the button of an action.
fn wide(ui: &Ui, action: Action) -> f32 {
    let font = egui::TextStyle::Button.resolve(ui.style());
    let ink = ui.visuals().text_color();
    let text = ui
        .painter()
        .layout_no_wrap(action.entry().name.to_owned(), font, ink);
    text.size().x + 2.0 * ui.spacing().button_padding.x + ui.spacing().item_spacing.x
}
