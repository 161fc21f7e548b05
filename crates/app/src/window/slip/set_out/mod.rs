//! The slip at the stage Set out: the sheet to take along, the steps, and the ways to set out a bend.

mod deeds;
mod pegs;
mod settings;
mod stepping;
mod trust;
mod ways;

use egui::{RichText, Ui};
use geometry::Piece;

use super::SheetWish;
use super::field::Typing;
use crate::window::action::Action;
use crate::window::canvas::Scene;
use crate::window::intent::Intent;
use crate::window::rehearsal::Rehearsal;
use crate::window::theme;
use crate::window::words::set_out as words;

/// Shows how the chosen path is set out, or the step that is gone through.
pub(super) fn ui(
    ui: &mut Ui,
    typing: &mut Typing,
    scene: &Scene<'_>,
    wish: &mut SheetWish,
    out: &mut Vec<Intent>,
) {
    let rehearsal = scene.derived.rehearsal();
    if let (Some(step), Some(rehearsal)) = (scene.step, rehearsal) {
        stepping::ui(ui, scene, rehearsal, step, wish.both_units, out);
        return;
    }
    sheet_ui(ui, scene, wish, out);
    ui.add_space(theme::WIDE_GAP);
    match rehearsal {
        Some(rehearsal) => rehearsal_ui(ui, scene, rehearsal, wish.both_units, out),
        None if scene.derived.waits() => {
            ui.label(words::LONG);
            if ui.button(words::WORK_OUT).clicked() {
                out.push(Intent::WorkOut);
            }
        }
        None => {
            ui.label(words::NOTHING);
        }
    }
    egui::CollapsingHeader::new(words::SETTINGS)
        .id_salt("how it is set out")
        .show(ui, |ui| settings::ui(ui, typing, scene, out));
}

fn rehearsal_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    rehearsal: &Rehearsal,
    both_units: bool,
    out: &mut Vec<Intent>,
) {
    let manner = scene.manner(both_units);
    let work = &rehearsal.work;
    stepping::begin_ui(ui, scene, rehearsal, out);
    ui.add_space(theme::GAP);
    egui::CollapsingHeader::new("First the base line and the pegs")
        .id_salt("base line")
        .default_open(scene.piece().is_none())
        .show(ui, |ui| {
            deeds::ui(ui, &work.pegging, &manner);
            pegs::ui(ui, &work.figures, &manner.voice);
        });
    trust::pegs_ui(ui, scene, &manner, out);
    match scene.piece() {
        Some((_, Piece::Arc(_))) => ways::ui(ui, scene, &manner, out),
        Some((piece, Piece::Line(_))) => {
            let pegs = scene.route().map(|route| route.pegs_of(piece));
            let straights = work.straights.iter();
            for straight in straights.filter(|work| Some(work.straight.pegs) == pegs) {
                heading(ui, "A straight");
                ui.label(super::sentence(&straight.straight.words(&manner.voice)));
                deeds::ui(ui, &straight.course, &manner);
            }
        }
        None => {
            ui.label(words::CHOOSE);
        }
    }
    super::clean::ui(ui, scene, out);
}

fn sheet_ui(ui: &mut Ui, scene: &Scene<'_>, wish: &mut SheetWish, out: &mut Vec<Intent>) {
    let letter_now = wish.on_letter(scene.plan.units);
    ui.horizontal_wrapped(|ui| {
        ui.label("Paper");
        for (letter, name) in [(false, "A4"), (true, "Letter")] {
            if ui.selectable_label(letter_now == letter, name).clicked() {
                wish.letter = Some(letter);
            }
        }
    });
    ui.checkbox(&mut wish.both_units, "Both systems of units side by side");
    let entry = Action::Sheet.entry();
    if ui
        .button(entry.name)
        .on_hover_text(entry.tip_with_key(ui.ctx()))
        .clicked()
    {
        out.push(Intent::Do(Action::Sheet));
    }
}

fn heading(ui: &mut Ui, words: &str) {
    ui.label(
        RichText::new(words)
            .text_style(theme::strong())
            .size(theme::HEADING),
    );
}
