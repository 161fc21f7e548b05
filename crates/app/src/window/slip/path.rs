//! What can be done with the chosen path as a whole, and with the options.

use egui::{RichText, Ui};
use geometry::{Direction, Point, Vector};
use plan::Edit;
use plan::document::{Heading, ObstacleKind, Pad, PadShape, Reference, Side, letter};
use plan::edit::End;

use super::field::{Subject, Typing, figure_style};
use super::{ask, bend::row_ui, read_length};
use crate::window::action::Action;
use crate::window::canvas::Scene;
use crate::window::intent::Intent;
use crate::window::mode::{Lay, Mode, Next};
use crate::window::pick::Picked;
use crate::window::theme;
use crate::window::words::short;

/// What a click on the plan does: the mode, and how to leave it.
pub(super) fn mode_ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    match scene.mode {
        Mode::Choose => {
            ui.horizontal_wrapped(|ui| {
                for action in [Action::Lay, Action::Measure, Action::Along, Action::Keys] {
                    let entry = action.entry();
                    let tip = entry.tip_with_key(ui.ctx());
                    if ui.button(entry.name).on_hover_text(tip).clicked() {
                        out.push(Intent::Do(action));
                    }
                }
            });
        }
        Mode::Lay(lay) => {
            ui.label(RichText::new("Laying a path").text_style(theme::strong()));
            ui.horizontal_wrapped(|ui| {
                ui.label("The next leg is a");
                for next in Next::ALL {
                    if ui.selectable_label(lay.next == next, next.word()).clicked() {
                        let lay = Lay {
                            next,
                            ..lay.clone()
                        };
                        out.push(Intent::Turn(Mode::Lay(lay)));
                    }
                }
            });
            if ui.button("That is the path").clicked() {
                out.push(Intent::Turn(Mode::Choose));
            }
        }
        Mode::Sketch(_) => {}
        Mode::Measure(_) => {
            ui.label(RichText::new("Measuring").text_style(theme::strong()));
            if ui.button("Put the tape away").clicked() {
                out.push(Intent::Turn(Mode::Choose));
            }
        }
    }
    ui.add_space(theme::GAP);
}

/// Everything that is done with a path as a whole.
pub(super) fn deeds_ui(ui: &mut Ui, typing: &mut Typing, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    let (scheme, index) = (scene.pick.scheme, scene.pick.route);
    let Some(route) = scene.plan.route(scheme, index) else {
        return;
    };
    row_ui(ui, "Path", |ui| {
        let name = &route.name;
        if let Some(typed) = typing.field(
            ui,
            Subject::PathName,
            "Name of the path",
            name,
            theme::strong(),
        ) {
            let name = typed.text.trim().to_owned();
            out.push(Intent::Commit(Edit::RenameRoute {
                scheme,
                route: index,
                name,
            }));
        }
    });
    egui::CollapsingHeader::new("Change the path")
        .id_salt("deeds")
        .show(ui, |ui| {
            ui.horizontal_wrapped(|ui| {
                let mut offer = |ui: &mut Ui, words: &str, intent: Intent| {
                    if ui.button(words).clicked() {
                        out.push(intent);
                    }
                };
                let turn = |end| Intent::Turn(Mode::Lay(Lay::leading_on(end)));
                if route.closed {
                    if let Some(Picked::Waypoint(waypoint)) = scene.pick.part {
                        let id = scene.pick.waypoint(waypoint);
                        offer(
                            ui,
                            "Open it at this peg",
                            Intent::Commit(Edit::Split { id }),
                        );
                    }
                } else {
                    offer(ui, "Lead it on from its end", turn(End::End));
                    offer(ui, "Lead it on from its start", turn(End::Start));
                    let close = Edit::Close {
                        scheme,
                        route: index,
                    };
                    offer(ui, "Close it", Intent::Commit(close));
                }
                let round = Edit::TurnRound {
                    scheme,
                    route: index,
                };
                offer(ui, "Turn it round", Intent::Commit(round));
                if let Some((through, along)) = mirror_line(scene) {
                    let mirror = Edit::Mirror {
                        scheme,
                        route: index,
                        through,
                        along,
                    };
                    offer(ui, "Mirror it", Intent::Commit(mirror));
                }
                let copy = |to: usize, by: Vector| {
                    Intent::Commit(Edit::CopyRoute {
                        scheme,
                        route: index,
                        to,
                        by,
                    })
                };
                let aside = Vector::new(2.0 * route.width, -2.0 * route.width);
                offer(ui, "Copy it", copy(scheme, aside));
                for other in 0..scene.plan.schemes.len() {
                    if other != scheme {
                        let words = format!("Copy it to option {}", letter(other));
                        offer(ui, &words, copy(other, Vector::ZERO));
                    }
                }
                for (other, candidate) in scene.plan.schemes[scheme].routes.iter().enumerate() {
                    if other != index && !candidate.closed && !route.closed {
                        let words = format!("Join path {} to its end", other + 1);
                        let join = Edit::Join {
                            scheme,
                            first: index,
                            second: other,
                        };
                        offer(ui, &words, Intent::Commit(join));
                    }
                }
                for (side, words) in [
                    (Side::Left, "Begin a path at its left edge"),
                    (Side::Right, "Begin a path at its right edge"),
                ] {
                    if let Some(branch) = branch(scene, side) {
                        offer(ui, words, Intent::Commit(branch));
                    }
                }
                let away = Edit::RemoveRoute {
                    scheme,
                    route: index,
                };
                offer(ui, "Take it away", Intent::Commit(away));
            });
        });
    if !route.closed {
        egui::CollapsingHeader::new("How it leaves and arrives")
            .id_salt("headings")
            .show(ui, |ui| headings_ui(ui, scene, out));
    }
    egui::CollapsingHeader::new("Landings and passing places")
        .id_salt("pads")
        .show(ui, |ui| pads_ui(ui, typing, scene, out));
}

/// The line a path is mirrored in: from its first peg to its last, or north through its middle.
fn mirror_line(scene: &Scene<'_>) -> Option<(Point, Direction)> {
    let chain = scene.route()?.centre_line.as_ref()?;
    Direction::of(chain.end() - chain.start()).map_or_else(
        || Some((chain.bounds().middle(), Direction::NORTH)),
        |along| Some((chain.start(), along)),
    )
}

/// A path that begins in the middle of an edge, or beside the chosen peg or leg.
fn branch(scene: &Scene<'_>, side: Side) -> Option<Edit> {
    let route = scene.route()?;
    let chain = route.centre_line.as_ref()?;
    let station = match scene.piece() {
        Some((piece, chosen)) => chain.station_of(piece) + 0.5 * chosen.length(),
        None => 0.5 * chain.length(),
    };
    let left = chain.direction_at(station).left().unit();
    let outward = match side {
        Side::Left => left,
        Side::Right => -left,
    };
    let near = chain.point_at(station) + outward * (0.5 * route.width);
    Some(Edit::Branch {
        scheme: scene.pick.scheme,
        host: scene.pick.route,
        side,
        near,
        to: near + outward * (3.0 * route.width).max(1.0),
    })
}

fn headings_ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    let (scheme, index) = (scene.pick.scheme, scene.pick.route);
    let Some(route) = scene.plan.route(scheme, index) else {
        return;
    };
    let chain = scene.route().and_then(|route| route.centre_line.as_ref());
    let now = |end: End| {
        let chain = chain?;
        Some(match end {
            End::Start => chain.direction_at(0.0),
            End::End => chain.pieces().last()?.end_direction(),
        })
    };
    for (end, words, heading) in [
        (End::Start, "It leaves its start", &route.start_direction),
        (End::End, "It arrives at its end", &route.end_direction),
    ] {
        let named = ui.label(words);
        let shown = heading
            .as_ref()
            .map_or("as it comes".to_owned(), heading_words);
        let choice = egui::ComboBox::from_id_salt(words)
            .selected_text(shown)
            .width(ui.available_width().min(300.0))
            .show_ui(ui, |ui| {
                let mut offer = |ui: &mut Ui, words: String, to: Option<Heading>| {
                    if ui.selectable_label(*heading == to, words).clicked() {
                        out.push(Intent::Commit(Edit::SetHeading {
                            scheme,
                            route: index,
                            end,
                            heading: to,
                        }));
                    }
                };
                offer(ui, "as it comes".into(), None);
                if let Some(now) = now(end) {
                    let angle = Heading::Angle(now.angle());
                    offer(
                        ui,
                        format!("as now, {}", heading_words(&angle)),
                        Some(angle),
                    );
                    for heading in nearest_headings(scene, now) {
                        offer(ui, heading_words(&heading), Some(heading));
                    }
                }
            });
        choice.response.labelled_by(named.id);
    }
}

/// Directions along and square to every line of the site, each the way round that is nearer to
/// how the path runs now.
fn nearest_headings(scene: &Scene<'_>, now: Direction) -> Vec<Heading> {
    let site = &scene.plan.site;
    let marks = site.marks.iter().enumerate().flat_map(|(i, from)| {
        site.marks[i + 1..]
            .iter()
            .map(|to| Reference::Marks(from.name.clone(), to.name.clone()))
    });
    let walls = site
        .obstacles
        .iter()
        .filter(|o| !matches!(o.kind, ObstacleKind::Service))
        .flat_map(|o| {
            (1..=MOST_SIDES).map(|side| Reference::Wall {
                name: o.name.clone(),
                side,
            })
        });
    marks
        .chain(walls)
        .filter(|reference| reference.direction(site).is_some())
        .flat_map(|reference| {
            [
                Heading::Along(reference.clone()),
                Heading::Square(reference),
            ]
        })
        .map(|heading| {
            let ahead = heading
                .direction(site)
                .is_some_and(|way| way.unit().dot(now.unit()) >= 0.0);
            if ahead { heading } else { heading.reversed() }
        })
        .take(MOST_OFFERED)
        .collect()
}

/// Sides of one obstacle that are offered, and directions in all: more would not be read.
const MOST_SIDES: usize = 8;
const MOST_OFFERED: usize = 60;

fn heading_words(heading: &Heading) -> String {
    let line = |reference: &Reference| match reference {
        Reference::Marks(from, to) => {
            format!("the line from {} to {}", short(from), short(to))
        }
        Reference::Wall { name, side } => format!("side {side} of the {}", short(name)),
    };
    match heading {
        Heading::Angle(angle) => Direction::at_angle(*angle).map_or_else(String::new, |way| {
            format!("at {}", plan::units::direction_text(way))
        }),
        Heading::Along(reference) | Heading::Against(reference) => {
            format!("along {}", line(reference))
        }
        Heading::Square(reference) | Heading::SquareRight(reference) => {
            format!("square to {}", line(reference))
        }
    }
}

fn pads_ui(ui: &mut Ui, typing: &mut Typing, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    let (scheme, index) = (scene.pick.scheme, scene.pick.route);
    let Some(route) = scene.plan.route(scheme, index) else {
        return;
    };
    let ruler = scene.ruler();
    let set = |pad: usize, to: Option<Pad>| Edit::SetPad {
        scheme,
        route: index,
        pad,
        to,
    };
    for (i, pad) in route.pads.iter().enumerate() {
        ui.label(RichText::new(short(&pad.name)).text_style(theme::strong()));
        let mut figure =
            |ui: &mut Ui, part: u8, name: &str, value: f64, change: &dyn Fn(f64) -> Pad| {
                row_ui(ui, name, |ui| {
                    let label = format!("{name} of {}", pad.name);
                    let subject = Subject::Pad(i, part);
                    let shown = ruler.text(value);
                    if let Some(typed) = typing.field(ui, subject, &label, &shown, figure_style()) {
                        let read = read_length(&ruler, &typed.text);
                        ask(out, read.map(|value| set(i, Some(change(value)))));
                    }
                });
            };
        figure(ui, 0, "Middle, from the start", pad.station, &|station| {
            Pad {
                station,
                ..pad.clone()
            }
        });
        match pad.shape {
            PadShape::Rectangle { along, across } => {
                let with = |along, across| Pad {
                    shape: PadShape::Rectangle { along, across },
                    ..pad.clone()
                };
                figure(ui, 1, "Length", along, &|along| with(along, across));
                figure(ui, 2, "Width", across, &|across| with(along, across));
            }
            PadShape::Circle { diameter } => {
                figure(ui, 1, "Diameter", diameter, &|diameter| Pad {
                    shape: PadShape::Circle { diameter },
                    ..pad.clone()
                });
            }
        }
        if ui
            .button(format!("Take {} away", short(&pad.name)))
            .clicked()
        {
            out.push(Intent::Commit(set(i, None)));
        }
    }
    let length = scene
        .route()
        .and_then(|route| route.centre_line.as_ref())
        .map_or(0.0, geometry::Chain::length);
    let count = route.pads.len();
    let wide = (1.25 * route.width).clamp(1.5, plan::limits::WIDEST);
    ui.horizontal_wrapped(|ui| {
        for (words, shape) in [
            (
                "Lay a square landing",
                PadShape::Rectangle {
                    along: wide,
                    across: wide,
                },
            ),
            ("Lay a round one", PadShape::Circle { diameter: wide }),
        ] {
            if ui.button(words).clicked() {
                let pad = Pad {
                    name: format!("Landing {}", count + 1),
                    station: 0.5 * length,
                    shape,
                };
                out.push(Intent::Commit(set(count, Some(pad))));
            }
        }
    });
}

/// The options: added, copied, renamed, taken away.
pub(super) fn schemes_ui(
    ui: &mut Ui,
    typing: &mut Typing,
    scene: &Scene<'_>,
    out: &mut Vec<Intent>,
) {
    let index = scene.pick.scheme;
    let Some(scheme) = scene.plan.schemes.get(index) else {
        return;
    };
    egui::CollapsingHeader::new("Options")
        .id_salt("schemes")
        .show(ui, |ui| {
            row_ui(ui, &format!("Option {}", letter(index)), |ui| {
                let style = theme::strong();
                let name = &scheme.name;
                if let Some(typed) =
                    typing.field(ui, Subject::SchemeName, "Name of the option", name, style)
                {
                    let name = typed.text.trim().to_owned();
                    out.push(Intent::Commit(Edit::RenameScheme {
                        scheme: index,
                        name,
                    }));
                }
            });
            ui.horizontal_wrapped(|ui| {
                for (words, edit) in [
                    ("Add an option", Edit::AddScheme { copy_of: None }),
                    (
                        "Copy this one",
                        Edit::AddScheme {
                            copy_of: Some(index),
                        },
                    ),
                    ("Take this one away", Edit::RemoveScheme { scheme: index }),
                ] {
                    if ui.button(words).clicked() {
                        out.push(Intent::Commit(edit));
                    }
                }
            });
        });
}
