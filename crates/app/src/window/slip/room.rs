//! What stands beside the chosen leg, and the rises at which it keeps clear.

use egui::{RichText, Ui};
use geometry::RiseRange;
use plan::Edit;
use plan::clearance::Clearance;
use plan::room::Room;

use crate::window::canvas::{Scene, nearest};
use crate::window::intent::Intent;
use crate::window::pick::Picked;
use crate::window::theme;
use crate::window::words::capital;

/// What is near, and for a free bend what fits and what to take of it.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    if scene.plan.site.obstacles.is_empty() {
        return;
    }
    ui.add_space(theme::WIDE_GAP);
    ui.label(RichText::new("Room").text_style(theme::strong()));
    let near = nearest(scene);
    if near.is_empty() {
        let reach = scene.ruler().text(plan::clearance::IN_SIGHT);
        ui.label(format!(
            "Nothing stands within {reach} of what it must keep off"
        ));
    }
    for clearance in near {
        clearance_ui(ui, scene, &clearance);
    }
    if let (Some(Picked::Leg(leg)), Some(room)) = (scene.pick.part, scene.room) {
        room_ui(ui, scene, leg, room, out);
    }
}

fn clearance_ui(ui: &mut Ui, scene: &Scene<'_>, clearance: &Clearance) {
    let ruler = scene.ruler();
    let name = called(scene, clearance.obstacle);
    let distance = ruler.text(clearance.distance.abs());
    let wanted = ruler.text(clearance.wanted);
    let edge = capital(&format!("the {}", clearance.border.word()));
    let sentence = if clearance.crosses() {
        format!("{edge} crosses {name}")
    } else if clearance.overlaps {
        format!("{edge} is {distance} in {name}")
    } else if clearance.wanted > 0.0 {
        format!("{edge} comes within {distance} of {name}, {wanted} wanted")
    } else {
        format!("{edge} comes within {distance} of {name}")
    };
    if clearance.is_too_near() {
        let text = RichText::new(format!("!  {sentence}")).color(scene.palette.clay);
        ui.label(text);
    } else {
        ui.label(sentence);
    }
}

fn called(scene: &Scene<'_>, obstacle: usize) -> String {
    let obstacle = scene.plan.site.obstacles.get(obstacle);
    obstacle.map_or_else(String::new, plan::document::Obstacle::called)
}

/// More ranges than this are not read: the band on the plan shows them all.
const MOST_RANGES: usize = 4;

fn room_ui(ui: &mut Ui, scene: &Scene<'_>, leg: usize, room: &Room, out: &mut Vec<Intent>) {
    ui.add_space(theme::GAP);
    if let Some(against) = &room.contradiction {
        let missing = scene.ruler().text(against.missing);
        let names: Vec<String> = against
            .obstacles
            .iter()
            .map(|obstacle| called(scene, *obstacle))
            .collect();
        let sentence = match &names[..] {
            [one, other] => format!(
                "No rise keeps clear: between {one} and {other} the best still wants {missing} more. Move a peg, make the path narrower, or ask less of one of them"
            ),
            [one] => format!(
                "No rise keeps clear of {one}: the best still wants {missing} more. Move a peg, or ask less of it"
            ),
            _ => "No rise leaves the inside edge a radius: make the path narrower".to_owned(),
        };
        ui.label(RichText::new(format!("!  {sentence}")).color(scene.palette.clay));
        return;
    }
    let limited: Vec<&RiseRange> = room
        .ranges
        .iter()
        .filter(|range| range.below.is_some() || range.above.is_some())
        .collect();
    if limited.is_empty() {
        ui.label("Any rise keeps clear");
        return;
    }
    for range in limited.iter().take(MOST_RANGES) {
        ui.label(range_text(scene, range));
    }
    if limited.len() > MOST_RANGES {
        let more = limited.len() - MOST_RANGES;
        ui.label(format!("and {more} more, shown on the plan"));
    }
    let rise = scene
        .piece()
        .and_then(|(_, piece)| piece.arc().map(geometry::Arc::rise))
        .unwrap_or(0.0);
    let chord = scene
        .piece()
        .map_or(1.0, |(_, piece)| piece.start().distance(piece.end()));
    let step = scene.plan.graduation.metres();
    ui.add_space(theme::GAP);
    for (name, found) in [
        (
            "Take the gentlest rise that fits",
            room.gentlest(rise, chord),
        ),
        ("Take the shallowest", room.shallowest(rise)),
        ("Take the deepest", room.deepest(rise)),
    ] {
        let Some(found) = found else { continue };
        let found = room.on_step(found, step);
        let text = format!("{name}: {}", scene.ruler().text(found.abs()));
        if ui.button(text).clicked() {
            out.push(Intent::Commit(Edit::SetRise {
                id: scene.pick.leg(leg),
                rise: found,
            }));
        }
    }
    let mut keeps = scene.keeps_clear;
    if ui
        .checkbox(&mut keeps, "Keep the apex where the path keeps clear")
        .changed()
    {
        out.push(Intent::KeepClear(keeps));
    }
}

/// One range, from the chord outward, with what bounds it.
fn range_text(scene: &Scene<'_>, range: &RiseRange) -> String {
    let ruler = scene.ruler();
    let end = |rise: f64, by: Option<usize>| {
        let side = if rise < 0.0 { " right" } else { " left" };
        by.map(|by| format!("{}{side} ({})", ruler.text(rise.abs()), called(scene, by)))
    };
    match (end(range.from, range.below), end(range.to, range.above)) {
        (Some(from), Some(to)) => {
            format!("It keeps clear with the apex from {from} to {to} of the chord")
        }
        (Some(from), None) => format!("It keeps clear with the apex from {from} of the chord on"),
        (None, Some(to)) => format!("It keeps clear with the apex up to {to} of the chord"),
        (None, None) => "Any rise keeps clear".to_owned(),
    }
}
