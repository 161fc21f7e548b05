//! Pavers counted one by one on the outline of the chosen path, and what would save cuts.

use egui::{CollapsingHeader, Ui};
use plan::count::paving::{Bond, DUST, Lay, Paving, Savings};

use super::small;
use crate::window::canvas::Scene;
use crate::window::slip::choice;
use crate::window::theme;
use crate::window::words::count as said;

/// How pavers are laid.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::window::slip) struct Paved(pub Bond);

impl Default for Paved {
    fn default() -> Self {
        Self(Bond::Running)
    }
}

const BONDS: [Bond; 4] = [
    Bond::Running,
    Bond::Stack,
    Bond::Radial(Lay::Soldier),
    Bond::Radial(Lay::Stretcher),
];

/// Shows them, where the surface is laid of such.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>, paved: &mut Paved) {
    let Some(pavers) = scene.derived.paving(paved.0) else {
        return;
    };
    ui.add_space(theme::WIDE_GAP);
    super::heading(ui, said::PAVERS);
    let words = |it: &Bond| said::bond(*it).to_owned();
    if let Some(bond) = choice(ui, said::LAID, &paved.0, &BONDS, words) {
        paved.0 = bond;
        ui.ctx().request_repaint();
    }
    match &pavers.count {
        Ok(paving) => count_ui(ui, scene, paving),
        Err(error) => {
            ui.label(said::no_pavers(error));
            return;
        }
    }
    CollapsingHeader::new(said::WIDTHS)
        .id_salt("which width saves cuts")
        .show(ui, |ui| {
            if let Some(savings) = scene.derived.paving_savings(&pavers) {
                savings_ui(ui, scene, savings);
            }
        });
    small(ui, scene, DUST);
}

fn count_ui(ui: &mut Ui, scene: &Scene<'_>, paving: &Paving) {
    let area = |area| scene.ruler().ordered_area(area);
    let slivers = match paving.slivers {
        0 => "none of them a sliver".to_owned(),
        1 => "one of them a sliver".to_owned(),
        many => format!("{many} of them slivers"),
    };
    ui.label(format!(
        "{} whole and {} cut, {slivers}",
        paving.whole, paving.cut
    ));
    ui.label(format!(
        "{} to order without spares, {} if offcuts serve again",
        paving.ordered, paving.ordered_reusing
    ));
    ui.label(format!(
        "Cut off: {}, or {} if offcuts serve again",
        area(paving.waste),
        area(paving.waste_reusing)
    ));
}

fn savings_ui(ui: &mut Ui, scene: &Scene<'_>, savings: &Savings) {
    let ruler = scene.ruler();
    match &savings.fewest {
        Some(tally) => ui.label(format!(
            "At a width of {} there are {} cuts rather than {}",
            ruler.text(tally.width),
            tally.cut,
            savings.now.cut
        )),
        None => ui.label(said::NO_SAVING),
    };
    if let Some(whole) = &savings.courses {
        ui.label(format!(
            "{} is filled across by {} whole courses",
            ruler.text(whole.width),
            whole.courses
        ));
    }
    for bend in &savings.bends {
        ui.label(format!(
            "A bend of radius {} is cut to tapers; from {} on it is not",
            ruler.text(bend.radius),
            ruler.text(bend.least_radius)
        ));
    }
}
