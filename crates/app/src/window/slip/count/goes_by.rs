//! What counting goes by that is the same for all options: the soil, the barrow, the skip, hours.

use egui::Ui;
use plan::Edit;
use plan::count::{CountSettings, Soil};
use plan::units::Kind;

use super::small;
use crate::window::canvas::Scene;
use crate::window::intent::Intent;
use crate::window::slip::bend::row_ui;
use crate::window::slip::field::{CountField, Subject, Typing, figure_style};
use crate::window::slip::{ask, choice};
use crate::window::words::capital;
use crate::window::words::count as said;

/// A figure: what it is called, what it measures, where it is kept.
type Setting = (
    &'static str,
    Kind,
    fn(&mut CountSettings) -> Option<&mut f64>,
);

const SETTINGS: [Setting; 7] = [
    (
        "Loose for one in the ground",
        Kind::Factor,
        |it| match &mut it.soil {
            Soil::Other { bulking, .. } => Some(bulking),
            _ => None,
        },
    ),
    (
        "Its density when loose",
        Kind::Density,
        |it| match &mut it.soil {
            Soil::Other { density, .. } => Some(density),
            _ => None,
        },
    ),
    ("A barrow is filled with", Kind::Volume, |it| {
        Some(&mut it.barrow.volume)
    }),
    ("A barrow carries", Kind::Mass, |it| {
        Some(&mut it.barrow.payload)
    }),
    ("It is wheeled, one way", Kind::Length, |it| {
        Some(&mut it.distance)
    }),
    ("One load holds", Kind::Volume, |it| {
        Some(&mut it.carrier.volume)
    }),
    ("One load may weigh", Kind::Mass, |it| {
        Some(&mut it.carrier.payload)
    }),
];

/// Shows them.
pub(super) fn ui(ui: &mut Ui, typing: &mut Typing, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    let now = &scene.plan.count;
    let ruler = scene.ruler();
    soil_ui(ui, scene, out);
    for (place, (name, kind, kept)) in SETTINGS.into_iter().enumerate() {
        let Some(value) = kept(&mut now.clone()).map(|value| *value) else {
            continue;
        };
        row_ui(ui, name, |ui| {
            let subject = Subject::Count(CountField::Setting(place));
            let shown = ruler.figure(kind, value);
            let Some(typed) = typing.field(ui, subject, name, &shown, figure_style()) else {
                return;
            };
            let read = ruler.read_figure(kind, &typed.text);
            let read = read.map_err(|error| capital(&error.to_string()));
            ask(
                out,
                read.map(|value| {
                    edit(now, |it| {
                        if let Some(kept) = kept(it) {
                            *kept = value;
                        }
                    })
                }),
            );
        });
    }
    row_ui(ui, said::CARRIER, |ui| {
        let subject = Subject::Count(CountField::Carrier);
        let name = &now.carrier.name;
        if let Some(typed) = typing.field(ui, subject, said::CARRIER, name, figure_style()) {
            let name = typed.text.trim().to_owned();
            out.push(Intent::Commit(edit(now, |it| it.carrier.name = name)));
        }
    });
    small(ui, scene, &now.barrow.because(ruler).source);
    small(ui, scene, &now.carrier.because(ruler).source);
    let mut labour = now.labour;
    if ui.checkbox(&mut labour, said::LABOUR).changed() {
        out.push(Intent::Commit(edit(now, |it| it.labour = labour)));
    }
    if *now != CountSettings::default() && ui.button(said::USUAL).clicked() {
        out.push(Intent::Commit(Edit::SetCount(CountSettings::default())));
    }
}

fn soil_ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    let now = &scene.plan.count;
    let data = now.soil.data();
    let own = match now.soil {
        own @ Soil::Other { .. } => own,
        _ => Soil::Other {
            bulking: data.bulking.value,
            density: data.density.value,
        },
    };
    let mut all = Soil::ALL.to_vec();
    all.push(own);
    let words = |it: &Soil| it.data().name.to_owned();
    if let Some(soil) = choice(ui, said::SOIL, &now.soil, &all, words) {
        out.push(Intent::Commit(edit(now, |it| it.soil = soil)));
    }
    let ruler = scene.ruler();
    for (what, kind, assumed) in [
        ("Loose for one in the ground", Kind::Factor, &data.bulking),
        ("Density when loose", Kind::Density, &data.density),
    ] {
        let [low, high] = assumed.spread().map(|end| ruler.figure(kind, end));
        let value = ruler.figure(kind, assumed.value);
        let source = &assumed.source;
        small(
            ui,
            scene,
            &format!("{what}: {value} ({low} to {high}); {source}"),
        );
    }
}

fn edit(now: &CountSettings, change: impl FnOnce(&mut CountSettings)) -> Edit {
    let mut to = now.clone();
    change(&mut to);
    Edit::SetCount(to)
}
