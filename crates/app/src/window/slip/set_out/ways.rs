//! All ways to set out the chosen bend: which can be gone here and which not, why, and which is taken.

use egui::{Button, Color32, RichText, Ui};
use plan::Edit;
use plan::setout::{BendWork, Manner, Way, WayVerdict};

use super::{deeds, heading, trust};
use crate::window::canvas::Scene;
use crate::window::intent::Intent;
use crate::window::theme::{self, Palette};
use crate::window::words::{capital, set_out as words};

/// Shows them, bend by bend of what is chosen.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>, manner: &Manner, out: &mut Vec<Intent>) {
    for (work, looked_at) in scene.ways() {
        let (first, last) = work.bend.pegs;
        let number = work.bend.number;
        heading(ui, &format!("Bend {number}, peg {first} to peg {last}"));
        for (nth, way) in work.ways.iter().enumerate() {
            let looked_at = way.method == looked_at.method;
            way_ui(ui, scene, (work, nth == work.chosen), (way, looked_at), out);
        }
        ui.add_space(theme::GAP);
        heading(ui, &capital(looked_at.method.name()));
        taken_ui(ui, scene, work, (looked_at, manner), out);
        if let Ok(course) = &looked_at.course {
            deeds::ui(ui, course, manner);
        }
    }
}

/// A way in one row, with what keeps it from being gone.
fn way_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    (work, taken): (&BendWork, bool),
    (way, looked_at): (&Way, bool),
    out: &mut Vec<Intent>,
) {
    let (sign, colour) = verdict(&way.verdict, scene.palette);
    let name = capital(way.method.name());
    let word = way.verdict.word();
    ui.horizontal_wrapped(|ui| {
        let row = Button::selectable(looked_at, &name).wrap();
        let row = ui.add(row).on_hover_text(words::LOOK_TIP);
        ui.ctx().accesskit_node_builder(row.id, |node| {
            let taken = if taken { ", taken" } else { "" };
            node.set_label(format!("{name}: {word}{taken}"));
        });
        if row.clicked() {
            out.push(Intent::LookAt(work.of, way.method));
        }
        let word = RichText::new(format!("{sign}{word}").replace(' ', "\u{a0}")).color(colour);
        ui.label(word.text_style(theme::strong()));
        if taken {
            ui.label(RichText::new(words::TAKEN).text_style(theme::strong()));
        }
    });
    for reason in way.verdict.reasons() {
        let reason = RichText::new(capital(reason)).color(scene.palette.faint);
        ui.label(reason.size(theme::SMALL));
    }
}

/// A sign and a colour for a verdict.
fn verdict(verdict: &WayVerdict, palette: &Palette) -> (&'static str, Color32) {
    match verdict {
        WayVerdict::Workable => ("✓\u{a0}", palette.moss),
        WayVerdict::Awkward(_) => ("", palette.ochre),
        WayVerdict::NotHere(_) => ("!\u{a0}", palette.clay),
    }
}

/// What the way that is looked at takes, and whether it is the one that is taken.
fn taken_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    work: &BendWork,
    (way, manner): (&Way, &Manner),
    out: &mut Vec<Intent>,
) {
    let ruler = scene.ruler();
    if let Some(effort) = &way.effort {
        ui.label(words::effort(effort, &ruler));
    }
    if way.method == work.way().method {
        trust::bend_ui(ui, scene, work, manner);
    } else if let Some(error) = way.error {
        let tolerance = scene.plan.set_out.surface.tolerance();
        ui.label(words::error(error, tolerance, &ruler));
    }
    let set = |method| {
        Intent::Commit(Edit::SetMethod {
            scheme: scene.pick.scheme,
            route: scene.pick.route,
            of: work.of,
            method,
        })
    };
    let taken = way.method == work.way().method;
    match (taken, work.by_choice) {
        (true, true) => {
            ui.label(words::YOUR_CHOICE);
            if ui.button(words::LEAVE_IT).clicked() {
                out.push(set(None));
            }
        }
        (true, false) => {
            ui.label(words::BEST);
        }
        (false, _) if way.course.is_ok() => {
            if ui.button(words::TAKE_IT).clicked() {
                out.push(set(Some(way.method)));
            }
        }
        (false, _) => {}
    }
    ui.add_space(theme::GAP);
}
