//! The pace, and what is wheeled along: names and sizes to be typed over.

use egui::{RichText, Ui};
use plan::Edit;
use plan::feel::{Trailer, Vehicle, Walk, usual_vehicles};

use super::field::{Subject, Typing, WalkField, figure_style};
use super::{ask, bend::row_ui, read_length};
use crate::window::canvas::Scene;
use crate::window::intent::Intent;
use crate::window::theme;
use crate::window::words::short;

/// A length of a vehicle: what it is called, and where it is kept.
type Length<T> = (&'static str, fn(&mut T) -> &mut f64);

const LENGTHS: [Length<Vehicle>; 4] = [
    ("Width", |it| &mut it.width),
    ("Wheelbase, 0 for one axle", |it| &mut it.wheelbase),
    ("Ahead of the front axle", |it| &mut it.front),
    ("Behind the rear axle", |it| &mut it.back),
];

const TRAILER_LENGTHS: [Length<Trailer>; 5] = [
    ("Rear axle to hitch", |it| &mut it.hitch),
    ("Hitch to trailer axle", |it| &mut it.drawbar),
    ("Width of the trailer", |it| &mut it.width),
    ("Ahead of its axle", |it| &mut it.front),
    ("Behind its axle", |it| &mut it.back),
];

/// A trailer to begin with: a small tipping one; from memory.
const NEW_TRAILER: Trailer = Trailer {
    hitch: 0.3,
    drawbar: 1.2,
    width: 0.8,
    front: 0.55,
    back: 0.55,
};

/// Shows them.
pub(super) fn ui(ui: &mut Ui, typing: &mut Typing, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    let walk = &scene.plan.walk;
    let fields = Fields { scene, walk };
    fields.length_ui(
        ui,
        typing,
        WalkField::Pace,
        ("Pace", "Pace"),
        walk.pace,
        out,
        |walk| &mut walk.pace,
    );
    for (nth, vehicle) in walk.vehicles.iter().enumerate() {
        fields.vehicle_ui(ui, typing, nth, vehicle, out);
    }
    ui.add_space(theme::GAP);
    ui.horizontal_wrapped(|ui| {
        if ui.button("Add another").clicked() {
            let like = walk.vehicles.last().or(usual_vehicles().first()).cloned();
            out.push(set(walk, |walk| {
                walk.vehicles.extend(like.map(|like| Vehicle {
                    name: format!("vehicle {}", walk.vehicles.len() + 1),
                    ..like
                }));
            }));
        }
        if *walk != Walk::default() && ui.button("Back to the usual ones").clicked() {
            out.push(set(walk, |walk| *walk = Walk::default()));
        }
    });
}

fn edit(walk: &Walk, change: impl FnOnce(&mut Walk)) -> Edit {
    let mut to = walk.clone();
    change(&mut to);
    Edit::SetWalk(to)
}

fn set(walk: &Walk, change: impl FnOnce(&mut Walk)) -> Intent {
    Intent::Commit(edit(walk, change))
}

struct Fields<'a> {
    scene: &'a Scene<'a>,
    walk: &'a Walk,
}

impl Fields<'_> {
    fn vehicle_ui(
        &self,
        ui: &mut Ui,
        typing: &mut Typing,
        nth: usize,
        vehicle: &Vehicle,
        out: &mut Vec<Intent>,
    ) {
        ui.add_space(theme::GAP);
        let called = short(&vehicle.name);
        row_ui(ui, "Name", |ui| {
            let subject = Subject::Walk(WalkField::Name(nth));
            let label = format!("Name of {called}");
            let style = theme::strong();
            if let Some(typed) = typing.field(ui, subject, &label, &vehicle.name, style) {
                let name = typed.text.trim().to_owned();
                out.push(set(self.walk, |walk| walk.vehicles[nth].name = name));
            }
        });
        for (part, (name, length)) in LENGTHS.into_iter().enumerate() {
            let value = *length(&mut vehicle.clone());
            let label = format!("{name} of {called}");
            let field = WalkField::Length(nth, part);
            self.length_ui(ui, typing, field, (name, &label), value, out, |walk| {
                length(&mut walk.vehicles[nth])
            });
        }
        let mut draws = vehicle.trailer.is_some();
        let response = ui.checkbox(&mut draws, "It draws a trailer");
        ui.ctx().accesskit_node_builder(response.id, |node| {
            node.set_label(format!("{called} draws a trailer"));
        });
        if response.changed() {
            let trailer = draws.then_some(NEW_TRAILER);
            out.push(set(self.walk, |walk| walk.vehicles[nth].trailer = trailer));
        }
        if let Some(trailer) = vehicle.trailer {
            for (part, (name, length)) in TRAILER_LENGTHS.into_iter().enumerate() {
                let value = *length(&mut trailer.clone());
                let label = format!("{name}, {called}");
                let field = WalkField::Trailer(nth, part);
                self.length_ui(ui, typing, field, (name, &label), value, out, |walk| {
                    length(walk.vehicles[nth].trailer.get_or_insert(NEW_TRAILER))
                });
            }
        }
        let text = RichText::new(format!("Take {called} away"));
        if ui.add(egui::Button::new(text).wrap()).clicked() {
            out.push(set(self.walk, |walk| drop(walk.vehicles.remove(nth))));
            out.push(Intent::Sweep(None));
        }
    }

    #[expect(
        clippy::too_many_arguments,
        reason = "a field, its names and where it is kept"
    )]
    fn length_ui(
        &self,
        ui: &mut Ui,
        typing: &mut Typing,
        field: WalkField,
        (name, label): (&str, &str),
        value: f64,
        out: &mut Vec<Intent>,
        kept: impl FnOnce(&mut Walk) -> &mut f64,
    ) {
        row_ui(ui, name, |ui| {
            let ruler = self.scene.ruler();
            let shown = ruler.text(value);
            let subject = Subject::Walk(field);
            if let Some(typed) = typing.field(ui, subject, label, &shown, figure_style()) {
                let read = read_length(&ruler, &typed.text);
                let set = |length| edit(self.walk, |walk| *kept(walk) = length);
                ask(out, read.map(set));
            }
        });
    }
}
