//! Every peg of the chosen path from the base line, as a table.

use egui::{RichText, Ui};
use plan::setout::{RouteSetOut, Voice};
use plan::units::Ruler;

use crate::window::theme;

/// Every peg from the base line.
pub(super) fn ui(ui: &mut Ui, all: &RouteSetOut, voice: &Voice) {
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
