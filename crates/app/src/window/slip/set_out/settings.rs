//! What setting out has to go by: who does it, what the tape is hooked on, how far a string is swung.

use egui::Ui;
use plan::Edit;
use plan::document::{SetOutSettings, Spacing, Surface, TapeClass};
use plan::setout::Crew;

use crate::window::canvas::Scene;
use crate::window::intent::Intent;
use crate::window::slip::bend::row_ui;
use crate::window::slip::field::{SetOutField, Subject, Typing, figure_style};
use crate::window::slip::{ask, choice, read_length};
use crate::window::theme;
use crate::window::words::set_out as words;

/// A length of the settings: its field, what it is called, where it is kept.
type Length = (
    SetOutField,
    &'static str,
    fn(&mut SetOutSettings) -> &mut f64,
);

const ALLOWANCES: [Length; 3] = [
    (SetOutField::Hook, "The hook adds", |it| {
        &mut it.allowances.hook
    }),
    (SetOutField::Ring, "The ring adds", |it| {
        &mut it.allowances.ring
    }),
    (SetOutField::Peg, "Pegs without nails, thick", |it| {
        &mut it.allowances.peg
    }),
];

const LIMITS: [Length; 3] = [
    (SetOutField::Comfortable, "Swung with ease up to", |it| {
        &mut it.comfortable
    }),
    (SetOutField::Longest, "Swung at all up to", |it| {
        &mut it.longest_swing
    }),
    (SetOutField::OffsetPegs, "Offset pegs off the edge", |it| {
        &mut it.offset_pegs
    }),
];

/// Flags every so far, and a bow between them, before these are said, in metres: own choice.
const FLAGS_EVERY: f64 = 1.0;
const FLAGS_BOW: f64 = 0.01;

/// Shows them.
pub(super) fn ui(ui: &mut Ui, typing: &mut Typing, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    let now = &scene.plan.set_out;
    ui.horizontal_wrapped(|ui| {
        ui.label("Set out by");
        for (crew, name) in [(Crew::Two, "two people"), (Crew::Alone, "one alone")] {
            let here = now.crew == crew;
            if ui.selectable_label(here, name).clicked() && !here {
                out.push(set(now, |it| it.crew = crew));
            }
        }
    });
    let surfaces = [
        Surface::LooseGravel,
        Surface::EdgedGravel,
        Surface::Brick,
        Surface::Concrete,
        Surface::Flags,
    ];
    let ruler = scene.ruler();
    let surface = |it: &Surface| {
        let tolerance = ruler.text(it.tolerance());
        format!("{}, true to {tolerance}", words::surface(*it))
    };
    if let Some(surface) = choice(ui, "What is built", &now.surface, &surfaces, surface) {
        out.push(set(now, |it| it.surface = surface));
    }
    let classes = [
        TapeClass::One,
        TapeClass::Two,
        TapeClass::Three,
        TapeClass::Imperial,
        TapeClass::Handbook44,
    ];
    let class = |it: &TapeClass| words::tape_class(*it).to_owned();
    if let Some(class) = choice(ui, "The tape", &now.tape_class, &classes, class) {
        out.push(set(now, |it| it.tape_class = class));
    }
    let tape = scene.plan.tape.length;
    let tape = (SetOutField::Tape, "The tape is long", tape);
    typed_ui(ui, typing, scene, tape, out, Edit::SetTape);
    for length in ALLOWANCES.into_iter().chain(LIMITS) {
        length_ui(ui, typing, scene, length, out);
    }
    spacing_ui(ui, typing, scene, out);
    if *now != SetOutSettings::default() {
        ui.add_space(theme::GAP);
        if ui.button("Back to the usual ways").clicked() {
            out.push(set(now, |it| *it = SetOutSettings::default()));
        }
    }
}

fn edit(now: &SetOutSettings, change: impl FnOnce(&mut SetOutSettings)) -> Edit {
    let mut to = *now;
    change(&mut to);
    Edit::SetSetOut(to)
}

fn set(now: &SetOutSettings, change: impl FnOnce(&mut SetOutSettings)) -> Intent {
    Intent::Commit(edit(now, change))
}

fn length_ui(
    ui: &mut Ui,
    typing: &mut Typing,
    scene: &Scene<'_>,
    (field, name, kept): Length,
    out: &mut Vec<Intent>,
) {
    let now = &scene.plan.set_out;
    let value = *kept(&mut now.clone());
    typed_ui(ui, typing, scene, (field, name, value), out, |length| {
        edit(now, |it| *kept(it) = length)
    });
}

fn typed_ui(
    ui: &mut Ui,
    typing: &mut Typing,
    scene: &Scene<'_>,
    (field, name, value): (SetOutField, &str, f64),
    out: &mut Vec<Intent>,
    change: impl FnOnce(f64) -> Edit,
) {
    row_ui(ui, name, |ui| {
        let ruler = scene.ruler();
        let shown = ruler.text(value);
        let subject = Subject::SetOut(field);
        if let Some(typed) = typing.field(ui, subject, name, &shown, figure_style()) {
            ask(out, read_length(&ruler, &typed.text).map(change));
        }
    });
}

/// How far flags stand apart.
fn spacing_ui(ui: &mut Ui, typing: &mut Typing, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    let now = &scene.plan.set_out;
    let kinds = [
        Spacing::Usual,
        Spacing::Every(FLAGS_EVERY),
        Spacing::Bow(FLAGS_BOW),
    ];
    let same = |a: &Spacing, b: &Spacing| std::mem::discriminant(a) == std::mem::discriminant(b);
    let kind = kinds.iter().find(|kind| same(kind, &now.spacing));
    let words = |it: &Spacing| words::spacing(it).to_owned();
    let chosen = choice(ui, "Flags stand", kind.unwrap_or(&kinds[0]), &kinds, words);
    if let Some(spacing) = chosen {
        out.push(set(now, |it| it.spacing = spacing));
    }
    let length = match now.spacing {
        Spacing::Usual => return,
        Spacing::Every(apart) => (SetOutField::Apart, "Apart at most", apart),
        Spacing::Bow(bow) => (SetOutField::Bow, "Bow between them", bow),
    };
    typed_ui(ui, typing, scene, length, out, |length| {
        let spacing = match now.spacing {
            Spacing::Bow(_) => Spacing::Bow(length),
            _ => Spacing::Every(length),
        };
        edit(now, |it| it.spacing = spacing)
    });
}
