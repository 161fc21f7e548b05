//! How sure the set-out is: pegs, lines, what would help most, and what no check shows.

use egui::{RichText, Ui};
use plan::setout::{BendWork, Manner};

use crate::window::canvas::Scene;
use crate::window::intent::Intent;
use crate::window::theme;
use crate::window::words::{capital, set_out as words};

/// So many blunders that no check shows are listed, those that do the most harm.
const MOST_UNSEEN: usize = 4;

/// Shows how far the pegs may be out, and whether that is drawn on the plan.
pub(super) fn pegs_ui(ui: &mut Ui, scene: &Scene<'_>, manner: &Manner, out: &mut Vec<Intent>) {
    let Some(trust) = scene.derived.trust() else {
        return;
    };
    let mut shows = scene.trust;
    if ui.checkbox(&mut shows, words::SHOW_TRUST).changed() {
        out.push(Intent::Trust(shows));
    }
    let spots = trust.pegs.spots.iter();
    let reach =
        |spot: &&plan::setout::SpotTrust| spot.error.shift.length() + spot.error.ellipse().long;
    let worst = spots.max_by(|a, b| reach(a).total_cmp(&reach(b)));
    if let Some(worst) = worst {
        let far = manner.voice.fine(reach(&worst));
        ui.label(words::pegs_out(&worst.name, &far));
    }
    unseen_ui(ui, scene, &trust.pegs.unseen);
}

/// Shows how sure the taken way of a bend is.
pub(super) fn bend_ui(ui: &mut Ui, scene: &Scene<'_>, work: &BendWork, manner: &Manner) {
    let trust = scene.derived.trust();
    let bends = trust.into_iter().flat_map(|trust| &trust.bends);
    for bend in bends.filter(|bend| bend.number == work.bend.number) {
        let colour = if bend.verdict.suits() {
            scene.palette.ink
        } else {
            scene.palette.clay
        };
        let verdict = capital(&bend.verdict.words(&manner.voice));
        ui.label(RichText::new(verdict).color(colour));
        if let Some((_, change)) = &bend.change {
            ui.label(words::truer(change));
        }
        unseen_ui(ui, scene, &bend.course.unseen);
    }
}

fn unseen_ui(ui: &mut Ui, scene: &Scene<'_>, unseen: &[String]) {
    for blunder in unseen.iter().take(MOST_UNSEEN) {
        let blunder = RichText::new(blunder.trim_end_matches('.')).color(scene.palette.faint);
        ui.label(blunder.size(theme::SMALL));
    }
}
