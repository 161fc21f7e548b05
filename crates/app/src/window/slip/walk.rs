//! How the chosen path walks: its tightest place, the chosen bend, what is wheeled along.

use egui::{Button, RichText, Ui};
use geometry::Piece;
use plan::feel::{BendFeel, ComesBy, Feel, VehicleFit};
use plan::units::angle_text;

use super::field::Typing;
use super::vehicles;
use crate::window::canvas::Scene;
use crate::window::intent::Intent;
use crate::window::pick::Picked;
use crate::window::theme;
use crate::window::words::short;

/// Shows it; nothing of it is worked out while it is shut.
pub(super) fn ui(ui: &mut Ui, typing: &mut Typing, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    if scene.route().is_none() {
        return;
    }
    egui::CollapsingHeader::new("How it walks")
        .id_salt("walk")
        .show(ui, |ui| {
            if let Some(feel) = scene.derived.feel() {
                feel_ui(ui, scene, feel, out);
            }
            egui::CollapsingHeader::new("Pace, and what goes along")
                .id_salt("vehicles")
                .show(ui, |ui| vehicles::ui(ui, typing, scene, out));
        });
}

fn feel_ui(ui: &mut Ui, scene: &Scene<'_>, feel: &Feel, out: &mut Vec<Intent>) {
    match feel.tightest.and_then(|nth| feel.bends.get(nth)) {
        Some(tightest) => tightest_ui(ui, scene, tightest, out),
        None => {
            ui.label("It is straight all along");
        }
    }
    let chosen = scene.piece().map(|(piece, _)| piece);
    if let Some(bend) = feel.bends.iter().find(|bend| Some(bend.piece) == chosen) {
        bend_ui(ui, scene, bend);
    }
    if let Some(by) = &feel.comes_by {
        comes_by_ui(ui, scene, by, out);
    }
    for (nth, fit) in feel.vehicles.iter().enumerate() {
        vehicle_ui(ui, scene, nth, fit, out);
    }
}

fn tightest_ui(ui: &mut Ui, scene: &Scene<'_>, bend: &BendFeel, out: &mut Vec<Intent>) {
    let Some(route) = scene.route() else { return };
    let (first, last) = route.pegs_of(bend.piece);
    let sentence = if bend.inside_radius > 0.0 {
        let radius = scene.ruler().text(bend.inside_radius);
        format!("Tightest from peg {first} to peg {last}: the inside edge has a radius of {radius}")
    } else {
        format!("Tightest from peg {first} to peg {last}: its inside edge has no radius left")
    };
    if ui.add(Button::new(sentence).wrap().frame(false)).clicked() {
        let chain = route.centre_line.as_ref();
        let piece = chain.and_then(|chain| chain.pieces().get(bend.piece));
        if let Some(Piece::Arc(arc)) = piece {
            out.push(Intent::GoTo(arc.apex()));
        }
        if let Some(origin) = route.origins.get(bend.piece) {
            out.push(Intent::Pick(Picked::from(*origin)));
        }
    }
}

fn comes_by_ui(ui: &mut Ui, scene: &Scene<'_>, by: &ComesBy, out: &mut Vec<Intent>) {
    let ruler = scene.ruler();
    let [distance, first, second] =
        [by.distance, by.stations[0], by.stations[1]].map(|length| ruler.text(length));
    let sentence = if by.distance > 0.0 {
        format!("At {second} from its start it comes within {distance} of itself at {first}")
    } else {
        format!("At {second} from its start it runs into itself at {first}")
    };
    if ui.add(Button::new(sentence).wrap().frame(false)).clicked() {
        out.push(Intent::GoTo(by.at[1]));
        out.push(Intent::Along(by.stations[1]));
    }
}

/// Up to each of these turns in radians a bend is called so: 3°, 10° and 20° a pace; own choice.
const CALLED: [(f64, &str); 3] = [
    (0.052_36, "hardly felt"),
    (0.174_53, "an easy bend"),
    (0.349_07, "a bend one slows down for"),
];
const CALLED_BEYOND: &str = "one turns on the spot";

fn bend_ui(ui: &mut Ui, scene: &Scene<'_>, bend: &BendFeel) {
    let turn = bend.turn_per_pace.abs();
    let called = CALLED.iter().find(|(most, _)| turn <= *most);
    let called = called.map_or(CALLED_BEYOND, |(_, word)| word);
    let turn = angle_text(turn);
    ui.label(format!(
        "In the chosen bend one turns {turn} with each pace: {called}"
    ));
    let Some(view) = bend.view else { return };
    let (longest, hides) = (
        scene.ruler().text(view.longest),
        angle_text(view.turn_that_hides),
    );
    let sentence = if view.hides_what_is_beyond {
        format!(
            "Planted inside, it hides what lies beyond: one sees {longest} along it at most, and a turn of {hides} is enough"
        )
    } else {
        format!(
            "Planted inside, one sees {longest} along it at most, but past its end: it would hide what lies beyond from a turn of {hides} on"
        )
    };
    ui.label(sentence);
}

fn vehicle_ui(ui: &mut Ui, scene: &Scene<'_>, nth: usize, fit: &VehicleFit, out: &mut Vec<Intent>) {
    let ruler = scene.ruler();
    let name = short(&fit.name);
    ui.add_space(theme::GAP);
    ui.label(RichText::new(&name).text_style(theme::strong()));
    let station = fit.folds_at.unwrap_or(fit.worst_station);
    let place = ruler.text(station);
    let sentence = if fit.folds_at.is_some() {
        format!("!  Folds up at {place}: it cannot follow so tight a bend")
    } else if fit.stays_on {
        let spare = ruler.text(fit.spare);
        format!("Stays on, with {spare} of the width to spare")
    } else {
        let (needs, missing) = (ruler.text(fit.needs_width), ruler.text(-fit.spare));
        format!("!  Needs a width of {needs}, {missing} more than there is, most of all at {place}")
    };
    let ink = if fit.stays_on {
        scene.palette.ink
    } else {
        scene.palette.ochre
    };
    let text = RichText::new(sentence).color(ink);
    if ui.add(Button::new(text).wrap().frame(false)).clicked()
        && let Some(chain) = scene.route().and_then(|route| route.centre_line.as_ref())
    {
        out.push(Intent::GoTo(chain.point_at(station)));
        out.push(Intent::Along(station));
    }
    let mut shows = scene.sweep == Some(nth);
    let response = ui.checkbox(&mut shows, "Show the ground it sweeps");
    ui.ctx().accesskit_node_builder(response.id, |node| {
        node.set_label(format!("Show the ground swept by {name}"));
    });
    if response.changed() {
        out.push(Intent::Sweep(shows.then_some(nth)));
    }
}
