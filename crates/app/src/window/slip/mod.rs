//! The slip: the chosen part of the path as a person would dictate it, figures editable in place.

mod axes;
mod bend;
mod clean;
mod compare;
mod count;
pub mod field;
mod path;
mod pegs;
mod room;
mod rules;
mod set_out;
mod site;
mod vehicles;
mod walk;
mod whole;

use egui::scroll_area::ScrollBarVisibility;
use egui::{ComboBox, RichText, ScrollArea, Ui};
use geometry::{Figure, Piece};
use plan::Edit;
use plan::edit::figure_name;
use plan::units::{Ruler, Units, parse_angle};

use super::canvas::Scene;
use super::intent::Intent;
use super::mode::Mode;
use super::pick::{Picked, Stage};
use super::theme;
use super::words::capital as sentence;
use field::{Subject, Typing};

/// What the slip remembers: only what is being typed, and how the sheet is wanted.
#[derive(Debug, Default)]
pub struct Slip {
    /// What is being typed.
    pub typing: Typing,
    /// How the sheet is wanted.
    pub sheet: SheetWish,
}

/// How the sheet is wanted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct SheetWish {
    /// On Letter rather than A4, if that was chosen.
    pub letter: Option<bool>,
    /// Both systems of units side by side.
    pub both_units: bool,
    /// No money on the client's page.
    pub without_prices: bool,
}

/// Room for the scroll bar beside the figures, in screen points.
const BAR: f32 = 12.0;

impl SheetWish {
    /// Whether the sheet goes on Letter: as chosen, or else as is usual where people use feet.
    #[must_use]
    pub fn on_letter(&self, units: Units) -> bool {
        self.letter.unwrap_or(units == Units::FeetInches)
    }
}

/// A sentence for the person, and how it is meant.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Said {
    /// The sentence.
    pub sentence: String,
    /// Whether something went wrong.
    pub wrong: bool,
}

impl Slip {
    /// Shows the slip.
    pub fn ui(
        &mut self,
        ui: &mut Ui,
        scene: &Scene<'_>,
        said: Option<&Said>,
        out: &mut Vec<Intent>,
    ) {
        // Each step of setting out begins at its head.
        ScrollArea::vertical()
            .id_salt(("slip", scene.step))
            .auto_shrink(false)
            .scroll_bar_visibility(ScrollBarVisibility::AlwaysVisible)
            .show(ui, |ui| {
                ui.set_width(ui.available_width() - BAR);
                // What is about one path alone.
                let of_path = !matches!(scene.stage, Stage::Measure | Stage::Compare);
                if of_path && scene.step.is_none() {
                    whole::head_ui(ui, scene, out);
                }
                if let Some(said) = said {
                    said_ui(ui, scene, said);
                }
                match scene.stage {
                    Stage::Measure => site::ui(ui, &mut self.typing, scene, out),
                    Stage::Draw => {
                        path::mode_ui(ui, scene, out);
                        self.part_ui(ui, scene, out);
                        room::ui(ui, scene, out);
                        clean::ui(ui, scene, out);
                    }
                    Stage::Compare => {
                        compare::ui(ui, &mut self.typing, scene, &mut self.sheet, out);
                    }
                    Stage::Count => count::ui(ui, &mut self.typing, scene, out),
                    Stage::SetOut => {
                        set_out::ui(ui, &mut self.typing, scene, &mut self.sheet, out);
                    }
                }
                if scene.step.is_some() {
                    return;
                }
                ui.add_space(theme::WIDE_GAP);
                if of_path {
                    whole::findings_ui(ui, scene, out);
                    if scene.stage != Stage::Count {
                        whole::path_ui(ui, &mut self.typing, scene, out);
                    }
                }
                if scene.stage == Stage::Draw {
                    walk::ui(ui, &mut self.typing, scene, out);
                    path::deeds_ui(ui, &mut self.typing, scene, out);
                    rules::ui(ui, &mut self.typing, scene, out);
                    path::schemes_ui(ui, &mut self.typing, scene, out);
                }
                ui.add_space(theme::WIDE_GAP);
                whole::plan_ui(ui, &mut self.typing, scene, out);
            });
    }

    fn part_ui(&mut self, ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Intent>) {
        if scene.together.len() > 1 {
            pegs::together_ui(ui, scene, out);
            return;
        }
        match (scene.pick.part, scene.piece()) {
            (Some(Picked::Waypoint(waypoint)), _) => {
                pegs::waypoint_ui(ui, &mut self.typing, scene, waypoint, out);
                bend::beside_peg_ui(ui, &mut self.typing, scene, out);
            }
            (Some(part), Some((piece, Piece::Arc(arc)))) => {
                bend::ui(ui, &mut self.typing, scene, (part, piece, &arc), out);
            }
            (Some(Picked::Leg(leg)), Some((piece, Piece::Line(line)))) => {
                pegs::straight_ui(ui, &mut self.typing, scene, (leg, piece, &line), out);
            }
            (Some(Picked::Leg(leg)), None) => {
                ui.label(format!("Leg {} cannot be drawn, see below", leg + 1));
            }
            _ if *scene.mode == Mode::Choose && scene.route().is_some() => {
                ui.label("Click a leg or a peg of the path to see its figures");
            }
            _ => {}
        }
        if let (Some(Picked::Leg(leg)), Mode::Choose) = (scene.pick.part, scene.mode) {
            pegs::shape_ui(ui, scene, leg, out);
        }
    }
}

fn said_ui(ui: &mut Ui, scene: &Scene<'_>, said: &Said) {
    let colour = if said.wrong {
        scene.palette.clay
    } else {
        scene.palette.moss
    };
    let sign = if said.wrong { "!  " } else { "✓  " };
    let response = ui.label(RichText::new(format!("{sign}{}", said.sentence)).color(colour));
    ui.ctx().accesskit_node_builder(response.id, |node| {
        node.set_role(egui::accesskit::Role::Status);
        node.set_live(egui::accesskit::Live::Polite);
    });
    ui.add_space(theme::GAP);
}

/// A choice of one thing among several; what is newly chosen.
fn choice<T: Clone + PartialEq>(
    ui: &mut Ui,
    name: &str,
    now: &T,
    all: &[T],
    words: impl Fn(&T) -> String,
) -> Option<T> {
    let mut chosen = None;
    let named = ui.label(name);
    let shown = ComboBox::from_id_salt(name)
        .selected_text(words(now))
        .width(ui.available_width().min(300.0))
        .show_ui(ui, |ui| {
            for one in all {
                let here = one == now;
                if ui.selectable_label(here, words(one)).clicked() && !here {
                    chosen = Some(one.clone());
                }
            }
        });
    shown.response.labelled_by(named.id);
    chosen
}

/// Reads what was typed into a length field; a sentence if it cannot be read.
fn read_length(ruler: &Ruler, text: &str) -> Result<f64, String> {
    ruler
        .parse(text)
        .map_err(|error| sentence(&error.to_string()))
}

/// Reads what was typed into the field of a figure.
fn read_figure(ruler: &Ruler, figure: Figure, text: &str) -> Result<f64, String> {
    if figure.is_angle() {
        parse_angle(text).map_err(|error| sentence(&error.to_string()))
    } else {
        read_length(ruler, text)
    }
}

/// What is understood of a text while it is typed, shown under the sentence.
fn echo_ui(ui: &mut Ui, scene: &Scene<'_>, typing: &Typing, figures: &[Figure]) {
    let ruler = scene.ruler();
    for figure in figures {
        let Some(text) = typing.typed_into(Subject::Figure(*figure)) else {
            continue;
        };
        let (words, colour) = match read_figure(&ruler, *figure, text) {
            Ok(value) if figure.is_angle() => (
                format!("read as {}", plan::units::angle_text(value)),
                scene.palette.faint,
            ),
            Ok(value) => (ruler.echo(value, text), scene.palette.faint),
            Err(error) => (error, scene.palette.clay),
        };
        ui.label(RichText::new(words).color(colour).size(theme::SMALL));
    }
}

/// What a figure of the chosen bend typed on the plan asks for.
pub(super) fn bend_edit(
    scene: &Scene<'_>,
    arc: &geometry::Arc,
    figure: Figure,
    text: &str,
) -> Intent {
    match (scene.pick.part, read_figure(&scene.ruler(), figure, text)) {
        (Some(part), Ok(value)) => Intent::Commit(bend::edit(scene, part, arc, figure, value)),
        (_, Err(error)) => Intent::Tell(error),
        (None, Ok(_)) => Intent::Cancel,
    }
}

/// The text of a figure.
pub(super) fn figure_text(ruler: &Ruler, figure: Figure, value: f64) -> String {
    if figure.is_angle() {
        plan::units::angle_text(value)
    } else {
        ruler.text(value)
    }
}

/// The name of a field, as a screen reader says it.
fn field_name(figure: Figure) -> String {
    sentence(figure_name(figure))
}

/// Asks for an edit, or says why the text cannot be read.
fn ask(out: &mut Vec<Intent>, read: Result<Edit, String>) {
    out.push(match read {
        Ok(edit) => Intent::Commit(edit),
        Err(error) => Intent::Tell(error),
    });
}
