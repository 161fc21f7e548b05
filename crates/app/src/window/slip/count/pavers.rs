//! Pavers counted one by one on the outlines, how they are laid, and what would save cuts.

use std::sync::Arc;

use egui::{CollapsingHeader, Ui};
use plan::Edit;
use plan::count::build_up::Bought;
use plan::count::paving::{Bond, DUST, Lay, Savings};
use plan::count::{BuildUp, PaverCount, Pavers};
use plan::order::Order;

use super::small;
use crate::window::canvas::Scene;
use crate::window::intent::Intent;
use crate::window::slip::choice;
use crate::window::theme;
use crate::window::words::count as said;

const BONDS: [Bond; 4] = [
    Bond::Running,
    Bond::Stack,
    Bond::Radial(Lay::Soldier),
    Bond::Radial(Lay::Stretcher),
];

/// Shows them, where the surface is laid of such.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>, order: &Order, out: &mut Vec<Intent>) {
    let Some(paved) = &order.quantities.paving else {
        return;
    };
    ui.add_space(theme::WIDE_GAP);
    super::heading(ui, said::PAVERS);
    bond_ui(ui, scene, &paved.key, out);
    match &paved.pavers {
        Pavers::Counted(count) => count_ui(ui, scene, count),
        Pavers::Uncounted(why) => {
            ui.label(why);
            return;
        }
    }
    CollapsingHeader::new(said::WIDTHS)
        .id_salt("which width saves cuts")
        .show(ui, |ui| {
            if let Some(savings) = scene.derived.paving_savings() {
                savings_ui(ui, scene, savings);
            }
        });
    small(ui, scene, DUST);
}

/// How they are laid: part of the build-up, so that the order list goes by it.
fn bond_ui(ui: &mut Ui, scene: &Scene<'_>, key: &str, out: &mut Vec<Intent>) {
    let Some(build_up) = super::build_up(scene) else {
        return;
    };
    let nth = build_up.layers.iter().position(|layer| layer.key == key);
    let bought = nth.map(|nth| &build_up.layers[nth].bought);
    let (Some(nth), Some(Bought::Units { bond, .. })) = (nth, bought) else {
        return;
    };
    let words = |it: &Bond| said::bond(*it).to_owned();
    if let Some(chosen) = choice(ui, said::LAID, bond, &BONDS, words) {
        let mut changed = BuildUp::clone(build_up);
        if let Bought::Units { bond, edges, .. } = &mut changed.layers[nth].bought {
            *bond = chosen;
            // Courses along the path have none of their own along the edges.
            *edges = edges.filter(|_| !matches!(chosen, Bond::Radial(_)));
        }
        out.push(Intent::Commit(Edit::SetBuildUp {
            scheme: scene.pick.scheme,
            build_up: Some(Arc::new(changed)),
        }));
    }
}

fn count_ui(ui: &mut Ui, scene: &Scene<'_>, count: &PaverCount) {
    let area = |area| scene.ruler().ordered_area(area);
    let slivers = match count.slivers {
        0 => "none of them a sliver".to_owned(),
        1 => "one of them a sliver".to_owned(),
        many => format!("{many} of them slivers"),
    };
    ui.label(format!(
        "{} whole and {} cut, {slivers}",
        count.whole, count.cut
    ));
    ui.label(format!(
        "{} to order without spares, {} if offcuts serve again",
        count.ordered, count.ordered_reusing
    ));
    ui.label(format!(
        "Cut off: {}, or {} if offcuts serve again",
        area(count.waste),
        area(count.waste_reusing)
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
