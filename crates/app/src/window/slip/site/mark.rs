//! A mark on the slip: its name and where it stands.

use egui::{RichText, Ui};
use geometry::Point;
use plan::Edit;
use plan::document::Mark;
use plan::edit::SiteEdit;

use super::super::field::{SiteField, Typing, figure_style};
use super::super::{ask, read_length};
use super::subject;
use crate::window::canvas::Scene;
use crate::window::intent::Intent;
use crate::window::site::SiteAsk;
use crate::window::theme;

/// Shows the mark.
pub(super) fn ui(
    ui: &mut Ui,
    typing: &mut Typing,
    scene: &Scene<'_>,
    mark: usize,
    out: &mut Vec<Intent>,
) {
    let Some(it) = scene.plan.site.marks.get(mark) else {
        return;
    };
    let set = |to: Mark| Edit::Site(SiteEdit::SetMark { mark, to });
    ui.label(
        RichText::new("A mark to tape from")
            .text_style(theme::strong())
            .size(theme::HEADING),
    );
    ui.horizontal_wrapped(|ui| {
        ui.label("It is called");
        let field = subject(SiteField::Name);
        if let Some(typed) = typing.field(ui, field, "Name", &it.name, theme::strong()) {
            let name = typed.text.trim().to_owned();
            out.push(Intent::Commit(set(Mark { name, at: it.at })));
        }
    });
    let ruler = scene.ruler();
    ui.horizontal_wrapped(|ui| {
        ui.label("and stands");
        for (i, word) in ["east", "north"].into_iter().enumerate() {
            let east = i == 0;
            let (field, value) = if east {
                (SiteField::East(0), it.at.x)
            } else {
                (SiteField::North(0), it.at.y)
            };
            let label = super::super::sentence(word);
            let shown = ruler.text(value);
            if let Some(typed) = typing.field(ui, subject(field), &label, &shown, figure_style()) {
                let to = |value| {
                    let at = if east {
                        Point::new(value, it.at.y)
                    } else {
                        Point::new(it.at.x, value)
                    };
                    let name = it.name.clone();
                    set(Mark { name, at })
                };
                ask(out, read_length(&ruler, &typed.text).map(to));
            }
            ui.label(word);
        }
    });
    ui.label("of the plan’s origin");
    if ui.button("Take it away").clicked() {
        out.push(Intent::Site(SiteAsk::TakeOut));
    }
}
