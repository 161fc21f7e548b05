//! The slip at the stage Set out: the steps of the chosen bend, and the sheet to take along.

use egui::{RichText, Ui};
use geometry::Piece;
use plan::setout::{BendSetOut, Step, SwingVerdict, Voice, set_out};

use super::SheetWish;
use crate::window::action::Action;
use crate::window::canvas::Scene;
use crate::window::intent::Intent;
use crate::window::theme;

/// Shows how the chosen part is set out, and asks for the sheet.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>, wish: &mut SheetWish, out: &mut Vec<Intent>) {
    sheet_ui(ui, wish, out);
    ui.add_space(theme::WIDE_GAP);
    let voice = Voice {
        ruler: scene.ruler(),
        both: wish.both_units,
    };
    let Some(all) = scene.route().and_then(|route| set_out(scene.plan, route)) else {
        ui.label("There is nothing to set out yet");
        return;
    };
    match scene.piece() {
        Some((piece, Piece::Arc(_))) => {
            if let Some(bend) = all.bends.iter().find(|bend| bend.piece == piece) {
                bend_ui(ui, bend, &voice);
            }
        }
        Some((piece, Piece::Line(_))) => {
            let pegs = scene.route().map(|route| route.pegs_of(piece));
            if let Some(straight) = all.straights.iter().find(|s| Some(s.pegs) == pegs) {
                heading(ui, "A straight");
                ui.label(super::sentence(&straight.words(&voice)));
            }
        }
        None => {
            heading(ui, "Order of work");
            steps_ui(ui, &all.order_of_work(&voice));
        }
    }
}

fn sheet_ui(ui: &mut Ui, wish: &mut SheetWish, out: &mut Vec<Intent>) {
    ui.horizontal_wrapped(|ui| {
        ui.label("Paper");
        for (letter, name) in [(false, "A4"), (true, "Letter")] {
            if ui.selectable_label(wish.letter == letter, name).clicked() {
                wish.letter = letter;
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

fn bend_ui(ui: &mut Ui, bend: &BendSetOut, voice: &Voice) {
    let (first, last) = bend.pegs;
    heading(
        ui,
        &format!("Bend {}, peg {first} to peg {last}", bend.number),
    );
    ui.label(bend.swing_words(voice));
    ui.add_space(theme::GAP);
    if bend.swing != SwingVerdict::NotWorkable {
        heading(ui, "From the swing point");
        steps_ui(ui, &bend.swing_steps(voice));
        ui.label(bend.rounding_words(voice));
        ui.add_space(theme::GAP);
    }
    heading(ui, "By offsets from the chord");
    steps_ui(ui, &bend.offset_steps(voice));
    for table in &bend.offsets {
        ui.label(format!("Along from {} to {}", table.from, table.to));
        egui::Grid::new(("offsets", &table.from))
            .num_columns(4)
            .striped(false)
            .show(ui, |ui| {
                for name in ["along", "centre", "inside", "outside"] {
                    ui.label(RichText::new(name).size(theme::SMALL));
                }
                ui.end_row();
                let ruler = voice.ruler;
                for row in &table.rows {
                    let edge = |edge: Option<plan::setout::Taped>| {
                        edge.map_or_else(|| "–".to_owned(), |taped| ruler.bare(taped.exact))
                    };
                    for text in [
                        ruler.bare(row.along.exact),
                        ruler.bare(row.centre.exact),
                        edge(row.inner),
                        edge(row.outer),
                    ] {
                        ui.label(RichText::new(text).text_style(theme::figure()));
                    }
                    ui.end_row();
                }
            });
    }
}

fn steps_ui(ui: &mut Ui, steps: &[Step]) {
    for (i, step) in steps.iter().enumerate() {
        ui.label(format!("{}.  {}", i + 1, step.text));
        if let Some(check) = &step.check {
            ui.label(RichText::new(format!("Check: {check}")).text_style(theme::strong()));
        }
        ui.add_space(4.0);
    }
}

fn heading(ui: &mut Ui, words: &str) {
    ui.label(
        RichText::new(words)
            .text_style(theme::strong())
            .size(theme::HEADING),
    );
}
