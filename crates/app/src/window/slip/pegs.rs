//! A waypoint or a straight on the slip.

use egui::{RichText, Ui};
use geometry::{Direction, Figure, Line, Point, Vector};
use plan::Edit;
use plan::document::Shape;

use super::field::{Subject, Typing, figure_style};
use super::{ask, read_length};
use crate::window::canvas::Scene;
use crate::window::intent::Intent;
use crate::window::pick::Picked;
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
                ask(
                    out,
                    read.map(|value| Edit::MoveWaypoint { id, to: to(value) }),
                );
            }
            ui.label(name);
        }
        ui.label("of the plan’s origin");
    });
    if let Some(junction) = route.start_on.filter(|_| waypoint == 0) {
        ui.label(format!(
            "It stays on the {} edge of path {}, {} along",
            junction.side.word(),
            junction.route,
            ruler.text(junction.station)
        ));
    }
    if ui.button("Take it out").clicked() {
        out.push(Intent::TakeOut);
    }
    let (before, after) = route.legs_at(waypoint);
    if before.is_none() || after.is_none() {
        return;
    }
    ui.horizontal_wrapped(|ui| {
        ui.label("Rounding of its corner");
        let shown = here
            .rounding
            .map_or_else(|| "none".to_owned(), |radius| ruler.text(radius));
        let typed = typing.field(ui, Subject::Rounding, "Rounding", &shown, figure_style());
        if let Some(typed) = typed {
            let text = typed.text.trim();
            let sharp = text.is_empty() || text == "0" || text.eq_ignore_ascii_case("none");
            let radius = if sharp {
                Ok(None)
            } else {
                read_length(&ruler, text).map(Some)
            };
            ask(out, radius.map(|radius| Edit::SetRounding { id, radius }));
        }
    });
    if here.rounding.is_none() && ui.button("Round it").clicked() {
        // Twice the width: a rounding that a barrow follows; drag or type it from there.
        let radius = Some(2.0 * route.width);
        out.push(Intent::Commit(Edit::SetRounding { id, radius }));
        out.push(Intent::Pick(Picked::Rounding(waypoint)));
    }
    if ui.button("Part the path here").clicked() {
        out.push(Intent::Commit(Edit::Split { id }));
    }
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
    ui.label(format!(
        "It runs {}",
        plan::units::direction_text(line.direction())
    ));
}

/// What shape a leg has, and a peg put on it.
pub(super) fn shape_ui(ui: &mut Ui, scene: &Scene<'_>, leg: usize, out: &mut Vec<Intent>) {
    let id = scene.pick.leg(leg);
    let (Some(shape), Some(route)) = (scene.plan.leg(id), scene.route()) else {
        return;
    };
    let Some(pieces) = route.legs.get(leg) else {
        return;
    };
    ui.add_space(theme::GAP);
    ui.horizontal_wrapped(|ui| {
        ui.label("This leg is");
        let rise = match pieces.as_slice() {
            [piece] => piece.arc().map(geometry::Arc::rise),
            _ => None,
        };
        let chord = pieces
            .first()
            .zip(pieces.last())
            .map_or(1.0, |(first, last)| first.start().distance(last.end()));
        // A bend keeps the rise the leg has; a straight begins with a clear curve, one in eight.
        let free = Shape::bend(rise.unwrap_or(chord / 8.0));
        for (words, chosen, to) in [
            (
                "straight",
                matches!(shape, Shape::Straight),
                Shape::Straight,
            ),
            ("a bend", matches!(shape, Shape::Bend { .. }), free),
            (
                "an onward bend",
                matches!(shape, Shape::Onward),
                Shape::Onward,
            ),
            (
                "two bends",
                matches!(shape, Shape::TwoBends),
                Shape::TwoBends,
            ),
        ] {
            if ui.selectable_label(chosen, words).clicked() && !chosen {
                out.push(Intent::Commit(Edit::SetShape { id, shape: to }));
            }
        }
    });
    if ui.button("Put a peg on its middle").clicked()
        && let Some(piece) = pieces.first()
    {
        let near = piece.point_at(0.5 * piece.length());
        out.push(Intent::Commit(Edit::InsertWaypoint { id, near }));
    }
}

/// Several pegs chosen together.
pub(super) fn together_ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    let (scheme, route) = (scene.pick.scheme, scene.pick.route);
    ui.label(
        RichText::new(format!("{} pegs together", scene.together.len()))
            .text_style(theme::strong())
            .size(theme::HEADING),
    );
    ui.label("Drag one of them and all move; Shift and a click adds a peg or lets go of it");
    ui.horizontal_wrapped(|ui| {
        let waypoints: Vec<usize> = scene.together.iter().copied().collect();
        if ui.button("Mirror these pegs").clicked() {
            out.push(Intent::Commit(Edit::MirrorPegs {
                scheme,
                route,
                waypoints: waypoints.clone(),
            }));
        }
        if ui.button("Copy these pegs").clicked() {
            let by = aside(scene, &waypoints);
            out.push(Intent::Commit(Edit::CopyPegs {
                scheme,
                route,
                waypoints,
                by,
            }));
        }
        if ui.button("Let go of them").clicked() {
            out.push(Intent::Cancel);
        }
    });
}

/// Where a copy of what runs between these pegs is seen beside it: two widths to the right.
fn aside(scene: &Scene<'_>, waypoints: &[usize]) -> Vector {
    let Some(route) = scene.plan.route(scene.pick.scheme, scene.pick.route) else {
        return Vector::ZERO;
    };
    let stands = |peg: Option<&usize>| route.waypoints.get(*peg?).map(|peg| peg.at);
    let run = stands(waypoints.first()).zip(stands(waypoints.last()));
    let along = run.and_then(|(first, last)| Direction::of(last - first));
    -along.unwrap_or(Direction::EAST).left().unit() * (2.0 * route.width)
}
