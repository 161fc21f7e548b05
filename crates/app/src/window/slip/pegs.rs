//! A waypoint or a straight on the slip.

use egui::{RichText, Ui};
use geometry::{Figure, Line, Point};
use plan::Edit;
use plan::document::Shape;

use super::field::{Subject, Typing, figure_style};
use super::{ask, read_length};
use crate::window::canvas::Scene;
use crate::window::intent::Intent;
use crate::window::theme;

/// Shows a waypoint: where it stands, and what rounds its corner.
pub(super) fn waypoint_ui(
    ui: &mut Ui,
    typing: &mut Typing,
    scene: &Scene<'_>,
    waypoint: usize,
    out: &mut Vec<Intent>,
) {
    let pick = scene.pick;
    let (Some(route), Some(solved)) = (scene.plan.route(pick.scheme, pick.route), scene.route())
    else {
        return;
    };
    let Some(here) = route.waypoints.get(waypoint) else {
        return;
    };
    let ruler = scene.ruler();
    let id = pick.waypoint(waypoint);
    let numbers = solved.pegs_of_waypoints(route.waypoints.len());
    let name = match numbers.get(waypoint).copied().flatten() {
        Some(number) => format!("Peg {number}"),
        None => format!("Corner {}", waypoint + 1),
    };
    ui.label(
        RichText::new(name)
            .text_style(theme::strong())
            .size(theme::HEADING),
    );
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 5.0;
        ui.label("It stands");
        for (subject, name, value) in [
            (Subject::East, "east", here.at.x),
            (Subject::North, "north", here.at.y),
        ] {
            let shown = ruler.text(value);
            let label = super::sentence(name);
            if let Some(typed) = typing.field(ui, subject, &label, &shown, figure_style()) {
                let to = |value| match subject {
                    Subject::East => Point::new(value, here.at.y),
                    _ => Point::new(here.at.x, value),
                };
                let read = read_length(&ruler, &typed.text);
                ask(out, read.map(|value| Edit::MoveWaypoint { id, to: to(value) }));
            }
            ui.label(name);
        }
        ui.label("of the plan’s origin");
    });
    let (before, after) = route.legs_at(waypoint);
    if before.is_none() || after.is_none() {
        return;
    }
    ui.horizontal_wrapped(|ui| {
        ui.label("Its corner is rounded by");
        let shown = here
            .rounding
            .map_or_else(|| "nothing".to_owned(), |radius| ruler.text(radius));
        let typed = typing.field(ui, Subject::Rounding, "Rounding", &shown, figure_style());
        if let Some(typed) = typed {
            let text = typed.text.trim();
            let sharp = text.is_empty() || text == "0" || text.eq_ignore_ascii_case("nothing");
            let radius = if sharp {
                Ok(None)
            } else {
                read_length(&ruler, text).map(Some)
            };
            ask(out, radius.map(|radius| Edit::SetRounding { id, radius }));
        }
    });
}

/// Shows a straight: its length.
pub(super) fn straight_ui(
    ui: &mut Ui,
    typing: &mut Typing,
    scene: &Scene<'_>,
    (leg, piece, line): (usize, usize, &Line),
    out: &mut Vec<Intent>,
) {
    let Some(route) = scene.route() else { return };
    let ruler = scene.ruler();
    let (first, last) = route.pegs_of(piece);
    let id = scene.pick.leg(leg);
    ui.label(
        RichText::new("A straight")
            .text_style(theme::strong())
            .size(theme::HEADING),
    );
    // Rounded corners take a part of the leg: only a whole leg's length can be typed.
    let whole = route.legs.get(leg).and_then(|pieces| pieces.first());
    let is_whole = whole.is_some_and(|whole| (whole.length() - line.length()).abs() < 1e-9);
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 5.0;
        ui.label(format!("From peg {first} to peg {last} straight on"));
        let shown = ruler.text(line.length());
        if is_whole {
            let style = theme::big_figure();
            if let Some(typed) = typing.field(ui, Subject::Length, "Length", &shown, style) {
                let read = read_length(&ruler, &typed.text);
                let figure = Figure::Chord;
                ask(out, read.map(|value| Edit::SetFigure { id, figure, value }));
            }
        } else {
            ui.label(RichText::new(shown).text_style(theme::big_figure()));
        }
    });
    if ui.button("Make it a bend").clicked() {
        // A clear curve to begin with, turning right: one in eight.
        let shape = Shape::bend(line.length() / 8.0);
        out.push(Intent::Commit(Edit::SetShape { id, shape }));
    }
}
