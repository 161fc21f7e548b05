//! What only a tree or a gate has: stem and roots, and how it opens.

use egui::{ComboBox, RichText, Ui};
use plan::Edit;
use plan::document::{Extent, RootRule, Side, Swing};
use plan::edit::SiteEdit;
use plan::units::{angle_text, parse_angle};

use super::super::ask;
use super::super::bend::row_ui;
use super::super::field::{SiteField, Typing, figure_style};
use super::chosen::Chosen;
use super::subject;
use crate::window::intent::Intent;

/// The stem of a tree, and how far its roots reach.
pub(super) fn tree_ui(
    ui: &mut Ui,
    typing: &mut Typing,
    chosen: &Chosen<'_>,
    out: &mut Vec<Intent>,
) {
    let (it, rule) = (chosen.it, chosen.scene.plan.site.roots);
    let Some(stem) = it.stem_radius() else { return };
    let row = ("Its stem is across", SiteField::Stem);
    chosen.length_ui(ui, typing, row, Some(2.0 * stem), out, |it, value| {
        if let (Extent::Round { radius, .. }, Some(value)) = (&mut it.extent, value) {
            *radius = 0.5 * value;
        }
    });
    let row = ("Its roots reach", SiteField::RootZone);
    let reach = it.root_radius(rule);
    chosen.length_ui(ui, typing, row, reach, out, |it, value| {
        it.root_zone = value;
    });
    if it.root_zone.is_some() {
        let usual = chosen.scene.ruler().text(rule.radius(2.0 * stem));
        if ui.button(format!("Back to the rule: {usual}")).clicked() {
            out.push(chosen.set(|it| it.root_zone = None));
        }
        return;
    }
    let named = ui.label("from the middle of its stem, by the rule of the site");
    let choice = ComboBox::from_id_salt("rule for roots")
        .width(ui.available_width() - 2.0)
        .truncate()
        .selected_text(rule.source())
        .show_ui(ui, |ui| {
            for other in RootRule::ALL {
                if ui.selectable_label(other == rule, other.source()).clicked() && other != rule {
                    out.push(Intent::Commit(Edit::Site(SiteEdit::SetRoots(other))));
                }
            }
        });
    choice.response.labelled_by(named.id);
}

/// Which way a gate opens, and how far.
pub(super) fn gate_ui(
    ui: &mut Ui,
    typing: &mut Typing,
    chosen: &Chosen<'_>,
    out: &mut Vec<Intent>,
) {
    let swing = chosen.it.swing;
    let angle = swing.map_or(std::f64::consts::FRAC_PI_2, |swing| swing.angle);
    ui.horizontal_wrapped(|ui| {
        ui.label("It opens");
        for (words, to) in [
            ("to the left", Some(Side::Left)),
            ("to the right", Some(Side::Right)),
            ("not at all", None),
        ] {
            let here = swing.map(|swing| swing.to) == to;
            if ui.selectable_label(here, words).clicked() && !here {
                out.push(chosen.set(|it| it.swing = to.map(|to| Swing { to, angle })));
            }
        }
    });
    let Some(swing) = swing else { return };
    ui.label(
        RichText::new("as one looks from the hinge post to the latch post")
            .color(chosen.scene.palette.faint),
    );
    row_ui(ui, "as far as", |ui| {
        let field = subject(SiteField::Opening);
        let shown = angle_text(swing.angle);
        if let Some(typed) = typing.field(ui, field, "Opening", &shown, figure_style()) {
            let read = parse_angle(&typed.text)
                .map_err(|error| super::super::sentence(&error.to_string()));
            ask(
                out,
                read.map(|angle| chosen.edit(|it| it.swing = Some(Swing { angle, ..swing }))),
            );
        }
    });
}
