//! The slip at the stage Set out: the steps of the chosen bend, and the sheet to take along.

use egui::{RichText, Ui};
use geometry::Piece;
use plan::setout::{BendSetOut, RouteSetOut, Step, SwingVerdict, Voice, set_out};
use plan::units::Ruler;

use super::SheetWish;
use crate::window::action::Action;
use crate::window::canvas::Scene;
use crate::window::intent::Intent;
use crate::window::theme;

/// Shows how the chosen part is set out, and asks for the sheet.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>, wish: &mut SheetWish, out: &mut Vec<Intent>) {
    sheet_ui(ui, scene, wish, out);
    ui.add_space(theme::WIDE_GAP);
    let voice = Voice {
        ruler: scene.ruler(),
        both: wish.both_units,
    };
    let Some(all) = scene.route().and_then(|route| set_out(scene.plan, route)) else {
        ui.label("There is nothing to set out yet");
        return;
    };
    egui::CollapsingHeader::new("First the base line and the pegs")
        .id_salt("base line")
        .default_open(scene.piece().is_none())
        .show(ui, |ui| {
            steps_ui(ui, &all.order_of_work(&voice));
            pegs_ui(ui, &all, &voice);
        });
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
        None => {}
    }
}

/// Every peg from the base line.
fn pegs_ui(ui: &mut Ui, all: &RouteSetOut, voice: &Voice) {
    let ruler = voice.ruler;
    ui.label(format!(
        "From {} to {}, in {}",
        all.base.from_name,
        all.base.to_name,
        ruler.bare_unit()
    ));
    // On a narrow slip there is no room for the ties; a table wider still is moved sideways.
    let ties = ui.available_width() >= WITH_TIES;
    egui::ScrollArea::horizontal().show(ui, |ui| {
        egui::Grid::new("pegs").show(ui, |ui| placings_ui(ui, all, ruler, ties));
    });
    if !ties {
        ui.label("The ties are on the sheet");
    }
    let count = all.pegs.len() + all.swing_points.len();
    if count > MOST_ROWS {
        ui.label(format!(
            "And {} more, all of them on the sheet",
            count - MOST_ROWS
        ));
    }
}

/// The least width of a table with ties, in screen points.
const WITH_TIES: f32 = 285.0;
/// Rows of a table shown at a time: more would not be read here, and the sheet has all.
const MOST_ROWS: usize = 100;

fn placings_ui(ui: &mut Ui, all: &RouteSetOut, ruler: Ruler, ties: bool) {
    let (columns, size) = if ties {
        (5, theme::SMALL)
    } else {
        (3, theme::BODY)
    };
    for name in ["", "along", "off", "tie", "tie"].iter().take(columns) {
        ui.label(RichText::new(*name).size(theme::SMALL));
    }
    ui.end_row();
    for placing in all.pegs.iter().chain(&all.swing_points).take(MOST_ROWS) {
        let off = placing.off.exact;
        let side = if placing.off.tape < 0.0 {
            "right"
        } else {
            "left"
        };
        let figures = [
            ruler.bare(placing.along.exact),
            format!("{} {side}", ruler.bare(off.abs())),
            ruler.bare(placing.from_start.exact),
            ruler.bare(placing.from_end.exact),
        ];
        ui.label(RichText::new(&placing.name).size(size));
        for text in figures.into_iter().take(columns - 1) {
            ui.label(RichText::new(text).text_style(theme::figure()).size(size));
        }
        ui.end_row();
    }
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
                        edge(row.centre),
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
        ui.label(unbroken(&format!("{}.  {}", i + 1, step.text)));
        if let Some(check) = &step.check {
            let check = unbroken(&format!("Check: {check}"));
            ui.label(RichText::new(check).text_style(theme::strong()));
        }
        ui.add_space(4.0);
    }
}

/// The same sentence, with the parts of each length kept on one line: `13′ 1 1⁄2″` broken after
/// the feet reads as another length.
fn unbroken(sentence: &str) -> String {
    let letters: Vec<char> = sentence.chars().collect();
    let figure = |at: Option<&char>| at.is_some_and(char::is_ascii_digit);
    let kept = |i: usize| {
        let before = i.checked_sub(1).and_then(|i| letters.get(i));
        let (after, last) = (letters.get(i + 1), letters.get(i + 2));
        let ends = !last.is_some_and(|c| c.is_alphanumeric());
        (before == Some(&'′') && figure(after))
            || (figure(before) && (figure(after) || (after == Some(&'m') && ends)))
    };
    letters
        .iter()
        .enumerate()
        .map(|(i, c)| if *c == ' ' && kept(i) { '\u{a0}' } else { *c })
        .collect()
}

fn heading(ui: &mut Ui, words: &str) {
    ui.label(
        RichText::new(words)
            .text_style(theme::strong())
            .size(theme::HEADING),
    );
}
