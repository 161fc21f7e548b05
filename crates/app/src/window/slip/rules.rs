//! Which rules judge the paths, and what their edges are made of.

use egui::{ComboBox, RichText, Ui};
use plan::Edit;
use plan::edging::Edging;
use plan::rules::{JUDGED_BY_OTHERS, RuleSet};

use super::field::{Subject, Typing, figure_style};
use super::{ask, bend::row_ui, read_length};
use crate::window::canvas::Scene;
use crate::window::intent::Intent;
use crate::window::theme;
use crate::window::words::capital;

/// Shows both.
pub(super) fn ui(ui: &mut Ui, typing: &mut Typing, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    egui::CollapsingHeader::new("Which rules judge the paths")
        .id_salt("rules")
        .show(ui, |ui| rules_ui(ui, scene, out));
    egui::CollapsingHeader::new("What the edges are made of")
        .id_salt("edging")
        .show(ui, |ui| edging_ui(ui, typing, scene, out));
}

fn rules_ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    ui.label(format!(
        "Values of named clauses, not the whole of any rule: {JUDGED_BY_OTHERS}"
    ));
    let chosen = &scene.plan.rules;
    for set in RuleSet::ALL {
        let mut judges = chosen.contains(&set);
        if ui.checkbox(&mut judges, capital(set.title())).changed() {
            // In the order they are listed in, however they were ticked.
            let kept = |other: &RuleSet| {
                if *other == set {
                    judges
                } else {
                    chosen.contains(other)
                }
            };
            let rules = RuleSet::ALL.into_iter().filter(kept).collect();
            out.push(Intent::Commit(Edit::SetRules(rules)));
        }
    }
}

fn edging_ui(ui: &mut Ui, typing: &mut Typing, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    let index = scene.pick.scheme;
    let Some(scheme) = scene.plan.schemes.get(index) else {
        return;
    };
    let set = |edging| Edit::SetEdging {
        scheme: index,
        edging,
    };
    let now = scheme.edging;
    let called = |edging: Option<Edging>| match edging {
        None => "not said".to_owned(),
        Some(Edging::Other { .. }) => "something else".to_owned(),
        Some(edging) => edging.data().name.to_owned(),
    };
    let named = ui.label("Edged with");
    let choice = ComboBox::from_id_salt("edging")
        .selected_text(called(now))
        .width(ui.available_width().min(300.0))
        .show_ui(ui, |ui| {
            let other = Edging::Other {
                least_radius: OTHER,
            };
            let all = Edging::ALL.into_iter().chain([other]).map(Some);
            for edging in [None].into_iter().chain(all) {
                let here = called(edging) == called(now);
                if ui.selectable_label(here, called(edging)).clicked() && !here {
                    out.push(Intent::Commit(set(edging)));
                }
            }
        });
    choice.response.labelled_by(named.id);
    let Some(edging) = now else { return };
    let data = edging.data();
    let ruler = scene.ruler();
    let shown = ruler.text(data.least_radius);
    row_ui(ui, "It follows an inside radius down to", |ui| {
        if !matches!(edging, Edging::Other { .. }) {
            ui.label(RichText::new(shown).text_style(figure_style()));
            return;
        }
        let name = "Least radius of the edging";
        if let Some(typed) = typing.field(ui, Subject::Edging, name, &shown, figure_style()) {
            let read = read_length(&ruler, &typed.text);
            let other = |least_radius| set(Some(Edging::Other { least_radius }));
            ask(out, read.map(other));
        }
    });
    let source = RichText::new(capital(data.source)).color(scene.palette.faint);
    ui.label(source.size(theme::SMALL));
}

/// What another edging follows before it is said, in metres: own choice.
const OTHER: f64 = 2.0;
