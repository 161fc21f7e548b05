//! Figures typed on the plan itself, where they are measured.

use egui::{Area, Frame, Id, Order, Rect, Sense, Ui};
use geometry::{Figure, Piece};

use super::Scene;
use crate::window::intent::Intent;
use crate::window::mode::Mode;
use crate::window::pick::Stage;
use crate::window::slip::field::{Subject, Typing};
use crate::window::slip::{bend_edit, figure_text};
use crate::window::theme;

/// The figure being typed on the plan, and what is typed.
#[derive(Debug, Default)]
pub(super) struct OnPlan {
    open: Option<Figure>,
    typing: Typing,
}

impl OnPlan {
    pub(super) fn open(&mut self, figure: Figure) {
        self.open = Some(figure);
        self.typing.focus_first = true;
    }

    /// A click on a figure opens it; Enter sets it, Esc or a click elsewhere leaves it.
    pub(super) fn ui(
        &mut self,
        ui: &mut Ui,
        scene: &Scene<'_>,
        shown: &[(Figure, Rect)],
        out: &mut Vec<Intent>,
    ) {
        let Some((_, Piece::Arc(arc))) = scene.piece() else {
            self.open = None;
            return;
        };
        if scene.stage != Stage::Draw || *scene.mode != Mode::Choose {
            self.open = None;
            return;
        }
        for (figure, rect) in shown {
            if self.open == Some(*figure) {
                self.field_ui(ui, scene, (*figure, *rect, &arc), out);
                continue;
            }
            let id = ui.scope_id().with(("figure", figure));
            let touch = ui.interact(rect.expand(4.0), id, Sense::click());
            ui.ctx().accesskit_node_builder(id, |node| {
                node.set_role(egui::accesskit::Role::Button);
                node.set_label(format!("Type the {figure} on the plan"));
            });
            if touch.clicked() {
                out.push(Intent::TypeOnPlan(*figure));
            }
        }
    }

    fn field_ui(
        &mut self,
        ui: &Ui,
        scene: &Scene<'_>,
        (figure, rect, arc): (Figure, Rect, &geometry::Arc),
        out: &mut Vec<Intent>,
    ) {
        let value = arc.bend().figure(figure).unwrap_or_default();
        let shown = figure_text(&scene.ruler(), figure, value);
        let mut left = false;
        Area::new(Id::unique("figure on the plan"))
            .order(Order::Foreground)
            .fixed_pos(rect.min)
            .show(ui.ctx(), |ui| {
                Frame::new().fill(scene.palette.paper).show(ui, |ui| {
                    let subject = Subject::OnPlan(figure);
                    let name = format!("{figure} on the plan");
                    let opening = self.typing.focus_first;
                    let typed = self
                        .typing
                        .field(ui, subject, &name, &shown, theme::figure());
                    left = !opening && ui.memory(|memory| memory.focused().is_none());
                    if let Some(typed) = typed {
                        out.push(bend_edit(scene, arc, figure, &typed.text));
                        left = true;
                    }
                });
            });
        if left {
            self.open = None;
            self.typing.forget();
        }
    }
}
