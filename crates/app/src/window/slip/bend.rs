//! A bend on the slip: its sentence, every other figure, and which two hold.

use egui::{Align, Layout, RichText, Ui};
use geometry::{Arc, Figure};
use plan::Edit;
use plan::document::Shape;
use plan::edit::{figure_name, held, other_answers};
use plan::solve::FLAT;

use super::field::{Subject, Typing, figure_style};
use super::{ask, echo_ui, field_name, figure_text, read_figure};
use crate::window::canvas::Scene;
use crate::window::intent::Intent;
use crate::window::pick::Picked;
use crate::window::theme;

/// The figures that follow under the sentence, always in this order.
const FOLLOWING: [Figure; 4] = [
    Figure::ArcLength,
    Figure::Sweep,
    Figure::TangentLength,
    Figure::ExternalDistance,
];

/// Shows the bend.
pub(super) fn ui(
    ui: &mut Ui,
    typing: &mut Typing,
    scene: &Scene<'_>,
    (part, piece, arc): (Picked, usize, &Arc),
    out: &mut Vec<Intent>,
) {
    let Some(route) = scene.route() else { return };
    let (first, last) = route.pegs_of(piece);
    let side = if arc.turns_left() { "left" } else { "right" };
    ui.label(
        RichText::new(if arc.bend().radius() > FLAT * arc.chord() {
            "The bend is as good as straight".to_owned()
        } else {
            format!("The bend turns {side}")
        })
        .text_style(theme::strong())
        .size(theme::HEADING),
    );
    let typed = typed_figures(scene, part);
    let shape = BendSlip {
        scene,
        part,
        arc,
        holds: typed.as_deref().map(held),
    };
    ui.label(format!("From peg {first} to peg {last}"));
    let sentence = [
        ("the chord is", Figure::Chord),
        ("the rise", Figure::Rise),
        ("swing", Figure::Radius),
    ];
    for (words, figure) in sentence {
        high_row_ui(ui, words, LARGE_ROW, |ui| {
            shape.figure_ui(ui, typing, figure, true, out);
        });
    }
    let behind = if arc.bend().apothem() < 0.0 {
        "from a point before the chord by"
    } else {
        "from a point behind the chord by"
    };
    row_ui(ui, behind, |ui| {
        shape.figure_ui(ui, typing, Figure::Apothem, false, out);
    });
    ui.add_space(theme::GAP);
    for figure in FOLLOWING {
        row_ui(
            ui,
            &crate::window::slip::sentence(figure_name(figure)),
            |ui| {
                shape.figure_ui(ui, typing, figure, false, out);
            },
        );
    }
    let half = 0.5 * route.width;
    let ruler = scene.ruler();
    for (name, radius) in [
        ("Inside edge, string", arc.radius() - half),
        ("Outside edge, string", arc.radius() + half),
    ] {
        let text = if radius > 0.0 {
            ruler.text(radius)
        } else {
            "no radius left".to_owned()
        };
        row_ui(ui, name, |ui| {
            ui.label(RichText::new(text).text_style(figure_style()));
        });
    }
    echo_ui(ui, scene, typing, &Figure::ALL);
    shape.holds_ui(ui, typed.as_deref().unwrap_or_default(), out);
}

/// The bends on both sides of the chosen peg: the first with all its figures, the other with the
/// three that fix it.
pub(super) fn beside_peg_ui(
    ui: &mut Ui,
    typing: &mut Typing,
    scene: &Scene<'_>,
    out: &mut Vec<Intent>,
) {
    let bends = scene.bends_at_peg();
    let Some(((piece, origin, arc), others)) = bends.split_first() else {
        return;
    };
    ui.add_space(theme::WIDE_GAP);
    self::ui(ui, typing, scene, (Picked::from(*origin), *piece, arc), out);
    for (piece, _, arc) in others {
        let Some(route) = scene.route() else { return };
        let (first, last) = route.pegs_of(*piece);
        let ruler = scene.ruler();
        ui.add_space(theme::GAP);
        ui.label(format!("And from peg {first} to peg {last}"));
        for (name, value) in [
            ("the chord is", arc.chord()),
            ("the rise", arc.rise().abs()),
            ("swing", arc.radius()),
        ] {
            row_ui(ui, name, |ui| {
                ui.label(RichText::new(ruler.text(value)).text_style(figure_style()));
            });
        }
    }
}

/// A name on the left and a figure at the right edge. Where there is not room for both the name takes
/// more than one row, and the longest figure ends where the name begins.
pub(super) fn row_ui(ui: &mut Ui, name: &str, figure: impl FnOnce(&mut Ui)) {
    high_row_ui(ui, name, theme::TARGET, figure);
}

fn high_row_ui(ui: &mut Ui, name: &str, height: f32, figure: impl FnOnce(&mut Ui)) {
    let room = ui.available_width();
    let font = egui::TextStyle::Body.resolve(ui.style());
    let ink = ui.visuals().text_color();
    let text = ui.painter().layout_no_wrap(name.to_owned(), font, ink);
    let kept = text.size().x.min(NAME_SHARE * room) + theme::GAP;
    let from_right = Layout::right_to_left(Align::Center);
    ui.allocate_ui_with_layout(egui::vec2(room, height), from_right, |ui| {
        ui.set_min_height(height);
        ui.allocate_ui_with_layout(egui::vec2(room - kept, height), from_right, figure);
        ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
            ui.add(egui::Label::new(name).wrap());
        });
    });
}

/// The part of a row that a long name has at least.
const NAME_SHARE: f32 = 0.4;
/// Height of a row with one of the large figures, in screen points.
const LARGE_ROW: f32 = 40.0;

/// The typed figures of a free bend; `None` where the shape follows from something else.
fn typed_figures(scene: &Scene<'_>, part: Picked) -> Option<Vec<Figure>> {
    let Picked::Leg(leg) = part else { return None };
    match scene.plan.leg(scene.pick.leg(leg))? {
        Shape::Bend { holds, .. } => Some(holds.clone()),
        Shape::Straight | Shape::Onward | Shape::TwoBends => None,
    }
}

struct BendSlip<'a> {
    scene: &'a Scene<'a>,
    part: Picked,
    arc: &'a Arc,
    holds: Option<[Figure; 2]>,
}

impl BendSlip<'_> {
    fn figure_ui(
        &self,
        ui: &mut Ui,
        typing: &mut Typing,
        figure: Figure,
        large: bool,
        out: &mut Vec<Intent>,
    ) {
        let ruler = self.scene.ruler();
        let value = self.arc.bend().figure(figure);
        // "behind" and "before" say the side of the swing point, so its distance has no sign.
        let value = value.map(|v| {
            if figure == Figure::Apothem {
                v.abs()
            } else {
                v
            }
        });
        let style = if large {
            theme::big_figure()
        } else {
            figure_style()
        };
        let editable = self.holds.is_some() || (self.is_rounding() && figure == Figure::Radius);
        let Some(value) = value else {
            ui.label(RichText::new("none: half a circle or more").color(self.scene.palette.faint));
            return;
        };
        let shown = figure_text(&ruler, figure, value);
        if !editable {
            let response = ui.label(RichText::new(&shown).text_style(style));
            ui.ctx().accesskit_node_builder(response.id, |node| {
                node.set_label(field_name(figure));
                node.set_value(shown);
            });
            return;
        }
        let name = field_name(figure);
        let subject = Subject::Figure(figure);
        let holds = self.holds.is_some_and(|holds| holds.contains(&figure));
        let done = typing.field(ui, subject, &name, &shown, style);
        if holds {
            mark_held(ui, self.scene);
        }
        if let Some(typed) = done {
            let read = read_figure(&ruler, figure, &typed.text);
            ask(
                out,
                read.map(|value| edit(self.scene, self.part, self.arc, figure, value)),
            );
        }
    }

    fn is_rounding(&self) -> bool {
        matches!(self.part, Picked::Rounding(_))
    }

    /// Which two hold, and what can be done about it.
    fn holds_ui(&self, ui: &mut Ui, typed: &[Figure], out: &mut Vec<Intent>) {
        ui.add_space(theme::GAP);
        let Picked::Leg(leg) = self.part else {
            ui.label("This bend rounds a corner: its radius holds, the rest follows");
            return;
        };
        let id = self.scene.pick.leg(leg);
        let Some([a, b]) = self.holds else {
            ui.label(match self.scene.plan.leg(id) {
                Some(Shape::TwoBends) => {
                    "Two bends that leave and arrive smoothly, their radii as near equal as they can be: drag their pegs"
                }
                _ => "This bend leaves smoothly from the leg before it: its shape follows from there",
            });
            return;
        };
        let (older, newer) = (figure_name(a), figure_name(b));
        ui.horizontal_wrapped(|ui| {
            mark_held(ui, self.scene);
            ui.label(format!(
                "{} and {newer} hold; type another figure and the {older} lets go",
                super::sentence(older)
            ));
        });
        if !typed.is_empty() && ui.button("Let go of what was typed").clicked() {
            out.push(Intent::Commit(Edit::LetGo { id }));
        }
        let ruler = self.scene.ruler();
        for other in other_answers(&self.arc.bend(), typed) {
            ui.label(format!(
                "These two also give a bend with a rise of {} and a radius of {}",
                ruler.text(other.rise()),
                ruler.text(other.radius())
            ));
            if ui.button("Take that bend").clicked() {
                out.push(Intent::Commit(Edit::ChooseBend { id, bend: other }));
            }
        }
    }
}

/// What a typed figure of a bend asks for: of a leg the figure, of a rounding its radius.
pub(super) fn edit(scene: &Scene<'_>, part: Picked, arc: &Arc, figure: Figure, value: f64) -> Edit {
    match part {
        Picked::Leg(leg) => Edit::SetFigure {
            id: scene.pick.leg(leg),
            figure,
            // The words say on which side the swing point lies, so that the figure has no sign.
            value: if figure == Figure::Apothem && arc.bend().apothem() < 0.0 {
                -value
            } else {
                value
            },
        },
        Picked::Rounding(waypoint) | Picked::Waypoint(waypoint) => Edit::SetRounding {
            id: scene.pick.waypoint(waypoint),
            radius: Some(value),
        },
    }
}

/// A small peg before a figure says that it holds.
fn mark_held(ui: &mut Ui, scene: &Scene<'_>) {
    let (rect, _) = ui.allocate_exact_size(egui::vec2(8.0, 18.0), egui::Sense::hover());
    let peg = egui::Rect::from_center_size(rect.center(), egui::Vec2::splat(8.0));
    ui.painter().rect_filled(peg, 0.0, scene.palette.string);
}
