//! Every figure a build-up assumes, each with its source and typed over in place.

use std::sync::Arc;

use egui::{RichText, Ui};
use plan::Edit;
use plan::count::BuildUp;
use plan::count::build_up::Figure;

use super::small;
use crate::window::canvas::Scene;
use crate::window::intent::Intent;
use crate::window::slip::ask;
use crate::window::slip::bend::row_ui;
use crate::window::slip::field::{CountField, Subject, Typing, figure_style};
use crate::window::theme;
use crate::window::words::{self, capital};

/// Shows them, part by part.
pub(super) fn ui(
    ui: &mut Ui,
    typing: &mut Typing,
    scene: &Scene<'_>,
    build_up: &BuildUp,
    out: &mut Vec<Intent>,
) {
    let mut shown = build_up.clone();
    let mut of = String::new();
    for (place, figure) in shown.figures().into_iter().enumerate() {
        if figure.of != of {
            of.clone_from(&figure.of);
            ui.add_space(theme::GAP);
            let part = capital(&words::short(&of));
            ui.label(RichText::new(part).text_style(theme::strong()));
        }
        figure_ui(ui, typing, scene, build_up, (place, &figure), out);
    }
}

fn figure_ui(
    ui: &mut Ui,
    typing: &mut Typing,
    scene: &Scene<'_>,
    build_up: &BuildUp,
    (place, figure): (usize, &Figure<'_>),
    out: &mut Vec<Intent>,
) {
    let ruler = scene.ruler();
    let text = |value| ruler.figure(figure.kind, value);
    let name = format!("{}: {}", capital(&words::short(&figure.of)), figure.what);
    row_ui(ui, &capital(&figure.what), |ui| {
        let subject = Subject::Count(CountField::Figure(place));
        let shown = text(figure.assumed.value);
        let Some(typed) = typing.field(ui, subject, &name, &shown, figure_style()) else {
            return;
        };
        let read = ruler.read_figure(figure.kind, &typed.text);
        let edit = read.map_err(|error| capital(&error.to_string()));
        ask(
            out,
            edit.map(|value| Edit::SetBuildUp {
                scheme: scene.pick.scheme,
                build_up: build_up.with_figure(place, value).map(Arc::new),
            }),
        );
    });
    let source = figure.assumed.source.to_string();
    small(
        ui,
        scene,
        &match figure.assumed.range {
            Some((low, high)) => format!("{} to {}; {source}", text(low), text(high)),
            None => source,
        },
    );
}
