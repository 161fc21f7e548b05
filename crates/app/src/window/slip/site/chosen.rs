//! The chosen obstacle as a person would dictate it, its figures editable in place.

use egui::{ComboBox, RichText, Ui};
use plan::Edit;
use plan::document::{Extent, Obstacle, ObstacleKind};
use plan::edit::SiteEdit;

use super::super::field::{SiteField, Typing, figure_style};
use super::super::{ask, bend::row_ui, read_length};
use super::{corners, subject, ways};
use crate::window::canvas::Scene;
use crate::window::intent::Intent;
use crate::window::site::{SiteAsk, SitePick, Thing};
use crate::window::theme;
use crate::window::words::site as words;

/// The chosen obstacle, and which it is.
pub(super) struct Chosen<'a> {
    pub(super) scene: &'a Scene<'a>,
    pub(super) index: usize,
    pub(super) it: &'a Obstacle,
}

/// Shows the obstacle.
pub(super) fn ui(
    ui: &mut Ui,
    typing: &mut Typing,
    scene: &Scene<'_>,
    index: usize,
    out: &mut Vec<Intent>,
) {
    let Some(it) = scene.plan.site.obstacles.get(index) else {
        return;
    };
    let chosen = Chosen { scene, index, it };
    chosen.name_ui(ui, typing, out);
    chosen.clearance_ui(ui, typing, out);
    match it.kind {
        ObstacleKind::Wall => chosen.thickness_ui(ui, typing, out),
        ObstacleKind::Service => chosen.unsure_ui(ui, typing, out),
        ObstacleKind::Tree => ways::tree_ui(ui, typing, &chosen, out),
        ObstacleKind::Gate => ways::gate_ui(ui, typing, &chosen, out),
        ObstacleKind::Building
        | ObstacleKind::Bed
        | ObstacleKind::Pond
        | ObstacleKind::Boundary => {}
    }
    if let Some(area) = it.extent.area().filter(|_| it.kind != ObstacleKind::Tree) {
        row_ui(ui, "It takes up", |ui| {
            ui.label(RichText::new(scene.ruler().area(area)).text_style(figure_style()));
        });
    }
    corners::ui(ui, typing, &chosen, out);
    let mut still = it.still;
    if ui.checkbox(&mut still, "Hold still").changed() {
        out.push(chosen.set(|it| it.still = still));
    }
    if ui.button("Take it away").clicked() {
        let whole = SitePick::whole(Thing::Obstacle(index));
        out.push(Intent::Site(SiteAsk::Choose(Some(whole))));
        out.push(Intent::Site(SiteAsk::TakeOut));
    }
}

impl Chosen<'_> {
    /// The edit by which the obstacle changes.
    pub(super) fn edit(&self, change: impl FnOnce(&mut Obstacle)) -> Edit {
        let mut to = self.it.clone();
        change(&mut to);
        Edit::Site(SiteEdit::SetObstacle {
            obstacle: self.index,
            to: Box::new(to),
        })
    }

    pub(super) fn set(&self, change: impl FnOnce(&mut Obstacle)) -> Intent {
        Intent::Commit(self.edit(change))
    }

    /// What to answer where its place is asked to change: whether it may.
    pub(super) fn may_move(&self, out: &mut Vec<Intent>) -> bool {
        if self.it.still {
            out.push(Intent::Tell(words::holds_still(self.it)));
        }
        !self.it.still
    }

    /// A length in a row of its own; a field left empty or with `none` lets go of it.
    pub(super) fn length_ui(
        &self,
        ui: &mut Ui,
        typing: &mut Typing,
        (name, field): (&str, SiteField),
        value: Option<f64>,
        out: &mut Vec<Intent>,
        change: impl FnOnce(&mut Obstacle, Option<f64>),
    ) {
        let ruler = self.scene.ruler();
        row_ui(ui, name, |ui| {
            let shown = value.map_or_else(|| "none".to_owned(), |length| ruler.text(length));
            let typed = typing.field(ui, subject(field), name, &shown, figure_style());
            if let Some(typed) = typed {
                let text = typed.text.trim();
                let none = text.is_empty() || text.eq_ignore_ascii_case("none");
                let read = if none {
                    Ok(None)
                } else {
                    read_length(&ruler, text).map(Some)
                };
                ask(out, read.map(|value| self.edit(|it| change(it, value))));
            }
        });
    }

    fn name_ui(&self, ui: &mut Ui, typing: &mut Typing, out: &mut Vec<Intent>) {
        ui.horizontal_wrapped(|ui| {
            let (field, name) = (subject(SiteField::Name), &self.it.name);
            if let Some(typed) = typing.field(ui, field, "Name", name, theme::strong()) {
                let name = typed.text.trim().to_owned();
                out.push(self.set(|it| it.name = name));
            }
        });
        ui.horizontal_wrapped(|ui| {
            let named = ui.label("is a");
            let here = self.it.kind;
            let choice = ComboBox::from_id_salt("kind of thing")
                .selected_text(here.word())
                .show_ui(ui, |ui| {
                    for kind in ObstacleKind::ALL
                        .into_iter()
                        .filter(|kind| fits(*kind, self.it))
                    {
                        if ui.selectable_label(kind == here, kind.word()).clicked() && kind != here
                        {
                            out.push(self.set(|it| it.kind = kind));
                        }
                    }
                });
            choice.response.labelled_by(named.id);
        });
    }

    fn clearance_ui(&self, ui: &mut Ui, typing: &mut Typing, out: &mut Vec<Intent>) {
        let ruler = self.scene.ruler();
        let wanted = self.it.wanted_clearance();
        let words = match self.it.kind {
            ObstacleKind::Boundary => "Paths keep inside it by",
            _ => "Paths keep off it by",
        };
        row_ui(ui, words, |ui| {
            let field = subject(SiteField::Clearance);
            let shown = ruler.text(wanted);
            if let Some(typed) = typing.field(ui, field, "Clearance", &shown, figure_style()) {
                let read = read_length(&ruler, &typed.text);
                ask(
                    out,
                    read.map(|value| self.edit(|it| it.clearance = Some(value))),
                );
            }
        });
        let kind = self.it.kind;
        let usual = ruler.text(kind.usual_clearance());
        if self.it.clearance.is_none() {
            let sentence = format!("as is usual for a {}", kind.word());
            ui.label(RichText::new(sentence).color(self.scene.palette.faint));
        } else if ui.button(format!("Back to the usual {usual}")).clicked() {
            out.push(self.set(|it| it.clearance = None));
        }
    }

    fn thickness_ui(&self, ui: &mut Ui, typing: &mut Typing, out: &mut Vec<Intent>) {
        if self.it.extent.is_closed() {
            return;
        }
        let row = ("Thickness", SiteField::Thickness);
        self.length_ui(ui, typing, row, self.it.thickness, out, |it, value| {
            it.thickness = value.filter(|value| *value > 0.0);
        });
        if self.it.thickness.is_some() {
            let words = "half of it on each side of its line";
            ui.label(RichText::new(words).color(self.scene.palette.faint));
        }
    }

    fn unsure_ui(&self, ui: &mut Ui, typing: &mut Typing, out: &mut Vec<Intent>) {
        let row = ("It may lie off its line by", SiteField::Unsure);
        self.length_ui(ui, typing, row, self.it.unsure, out, |it, value| {
            it.unsure = value.filter(|value| *value > 0.0);
        });
    }
}

/// Whether a thing can become of a kind as it is drawn: a gate has two corners, a tree a stem.
fn fits(kind: ObstacleKind, it: &Obstacle) -> bool {
    match (kind, &it.extent) {
        (ObstacleKind::Gate, Extent::Line(posts)) => posts.len() == 2,
        (ObstacleKind::Gate, _) => false,
        (ObstacleKind::Tree, Extent::Line(_)) => false,
        _ => true,
    }
}
