//! One step of setting out, large enough to be read from a step away, and the way through the steps.

use egui::accesskit::{Live, Role};
use egui::{Button, RichText, Ui};
use plan::setout::Stage;

use super::deeds::unbroken;
use crate::window::canvas::Scene;
use crate::window::intent::Intent;
use crate::window::rehearsal::Rehearsal;
use crate::window::theme;
use crate::window::words::{capital, set_out as words};

/// Where the steps are begun: at the first, or at those of the chosen bend.
pub(super) fn begin_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    rehearsal: &Rehearsal,
    out: &mut Vec<Intent>,
) {
    if rehearsal.count() == 0 {
        return;
    }
    ui.label(words::steps_in_all(rehearsal.count()));
    let mut begin = |ui: &mut Ui, name: &str, step: usize| {
        let button = Button::new(name).wrap();
        if ui.add(button).on_hover_text(words::BEGIN_TIP).clicked() {
            out.push(Intent::Step(Some(step)));
        }
    };
    ui.horizontal_wrapped(|ui| {
        begin(ui, words::BEGIN, 0);
        let chosen = scene.ways().first().map(|(bend, _)| bend.of);
        let bends = rehearsal.work.bends.iter();
        let nth = bends.clone().position(|bend| Some(bend.of) == chosen);
        if let Some(step) = nth.and_then(|nth| rehearsal.first_of(Stage::Bend(nth))) {
            begin(ui, words::BEGIN_AT_BEND, step);
        }
    });
}

/// The step that is gone through.
pub(super) fn ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    rehearsal: &Rehearsal,
    step: usize,
    both_units: bool,
    out: &mut Vec<Intent>,
) {
    let last = rehearsal.last();
    let count = words::step_of(step + 1, rehearsal.count());
    let which = RichText::new(&count)
        .text_style(theme::strong())
        .size(theme::HEADING);
    ui.label(which);
    buttons_ui(ui, (step, last), out);
    ui.add_space(theme::GAP);
    if let Some(stage) = rehearsal.stage(step) {
        let method = match stage {
            Stage::Bend(nth) => rehearsal.work.bends.get(nth).map(|b| b.way().method.name()),
            _ => None,
        };
        let title = rehearsal.title(stage);
        let title = method.map_or(title.clone(), |method| format!("{title}: {method}"));
        ui.label(RichText::new(title).color(scene.palette.faint));
    }
    let Some(due) = rehearsal.words(step, &scene.manner(both_units)) else {
        return;
    };
    let says = ui.label(RichText::new(unbroken(&due.text)).size(LARGE));
    // A screen reader hears each step as it is turned to.
    ui.ctx().accesskit_node_builder(says.id, |node| {
        node.set_role(Role::Status);
        node.set_live(Live::Polite);
        let check = due.check.iter().map(|check| format!(" Check: {check}"));
        node.set_label(format!(
            "{count}. {}{}",
            due.text,
            check.collect::<String>()
        ));
    });
    ui.add_space(theme::GAP);
    if let Some(check) = &due.check {
        let check = unbroken(&format!("Check: {check}"));
        ui.label(RichText::new(check).text_style(theme::strong()).size(CHECK));
        ui.add_space(theme::GAP);
    }
    for hindered in rehearsal.hindered(step) {
        let sentence = capital(&hindered.sentence(&scene.plan.site, &scene.ruler()));
        let (sign, colour) = if hindered.stops() {
            ("Stop", scene.palette.clay)
        } else {
            ("Care", scene.palette.ochre)
        };
        let sign = RichText::new(sign)
            .text_style(theme::strong())
            .color(colour);
        ui.label(sign);
        ui.label(sentence);
    }
}

/// The words of a step are larger than those of the slip: they are read aloud from a step away.
const LARGE: f32 = 21.0;
const CHECK: f32 = 17.0;

fn buttons_ui(ui: &mut Ui, (step, last): (usize, usize), out: &mut Vec<Intent>) {
    ui.horizontal_wrapped(|ui| {
        let to = [
            (words::BACK, words::BACK_TIP, step.saturating_sub(1)),
            (words::NEXT, words::NEXT_TIP, (step + 1).min(last)),
            (words::FIRST, words::FIRST_TIP, 0),
            (words::LAST, words::LAST_TIP, last),
        ];
        for (name, tip, to) in to {
            let button = ui.add_enabled(to != step, Button::new(name));
            if button.on_hover_text(tip).clicked() {
                out.push(Intent::Step(Some(to)));
            }
        }
        let leave = ui.button(words::LEAVE).on_hover_text(words::LEAVE_TIP);
        if leave.clicked() {
            out.push(Intent::Step(None));
        }
    });
}
