//! The figures at the cursor in words; before each the line it is drawn with, so that they are the key.

use egui::{Label, RichText, Sense, Stroke, Ui, vec2};
use plan::document::Obstacle;
use plan::profile::{Along, Near, Profile};
use plan::units::angle_text;

use super::{Chart, READING};
use crate::window::canvas::Scene;
use crate::window::theme;
use crate::window::words::short;

/// Which line stands for what.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Mark {
    Solid,
    Dashed,
    Dotted,
}

/// From these widths on there is room for what is wanted, and for names, in screen points.
const ROOM_FOR_WANTED: f32 = 700.0;
const ROOM_FOR_NAMES: f32 = 1000.0;

/// Shows the row of figures.
pub(super) fn ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    chart: Chart,
    profile: &Profile,
    now: Option<&Along>,
) {
    let room = ui.available_width();
    ui.allocate_ui(vec2(room, READING), |ui| {
        ui.horizontal(|ui| {
            ui.set_height(READING);
            ui.spacing_mut().interact_size.y = READING;
            write(ui, &station_text(scene, now));
            match (chart, now) {
                (Chart::Clearance, now) => {
                    for (side, mark) in [(0, Mark::Solid), (1, Mark::Dashed)] {
                        sample(ui, scene, mark);
                        let word = ["left", "right"][side];
                        let text = now.map_or_else(
                            || word.to_owned(),
                            |now| {
                                let found = now.near[side].as_ref();
                                format!("{word} {}", near_text(scene, profile, found, room))
                            },
                        );
                        write(ui, &text);
                    }
                    sample(ui, scene, Mark::Dotted);
                    write(ui, "wanted");
                }
                (Chart::Turn, Some(now)) => write(ui, &turn_text(now)),
                (Chart::Inside, Some(now)) => write(ui, &inside_text(scene, now)),
                (Chart::Turn | Chart::Inside, None) => {}
            }
        });
    });
}

fn write(ui: &mut Ui, text: &str) {
    ui.add(Label::new(RichText::new(text).size(theme::SMALL)).truncate());
}

/// A short piece of the line that is meant.
fn sample(ui: &mut Ui, scene: &Scene<'_>, mark: Mark) {
    let (rect, _) = ui.allocate_exact_size(vec2(26.0, READING), Sense::hover());
    let line = [rect.left_center(), rect.right_center()];
    let stroke = Stroke::new(1.5 * scene.palette.weight, scene.palette.ink);
    match mark {
        Mark::Solid => {
            ui.painter().line_segment(line, stroke);
        }
        Mark::Dashed => ui
            .painter()
            .extend(egui::Shape::dashed_line(&line, stroke, 6.0, 4.0)),
        Mark::Dotted => {
            ui.painter().extend(egui::Shape::dotted_line(
                &line,
                scene.palette.ochre,
                4.0,
                1.0,
            ));
        }
    }
}

fn station_text(scene: &Scene<'_>, now: Option<&Along>) -> String {
    now.map_or_else(
        || "Point along the path".to_owned(),
        |now| format!("At {}:", scene.ruler().text(now.station)),
    )
}

fn near_text(scene: &Scene<'_>, profile: &Profile, near: Option<&Near>, room: f32) -> String {
    let ruler = scene.ruler();
    let Some(near) = near else {
        return format!("nothing within {}", ruler.text(profile.reach));
    };
    let obstacle = scene.plan.site.obstacles.get(near.obstacle);
    let name = obstacle.map_or_else(String::new, Obstacle::called);
    let distance = ruler.text(near.distance.abs());
    let mut text = match near.distance < 0.0 {
        true => format!("{distance} into it"),
        false => distance,
    };
    if room > ROOM_FOR_NAMES {
        text = format!("{text} from {}", short(&name));
    }
    if room > ROOM_FOR_WANTED && near.wanted > 0.0 {
        text = format!("{text}, {} wanted", ruler.text(near.wanted));
    }
    text
}

fn turn_text(now: &Along) -> String {
    let turn = angle_text(now.turn_per_pace.abs());
    match now.inside_radius {
        None => "straight on".to_owned(),
        Some(_) if now.turn_per_pace < 0.0 => format!("{turn} to the right with each pace"),
        Some(_) => format!("{turn} to the left with each pace"),
    }
}

fn inside_text(scene: &Scene<'_>, now: &Along) -> String {
    match now.inside_radius {
        None => "straight: no inside".to_owned(),
        Some(radius) if radius <= 0.0 => "the inside edge has no radius left".to_owned(),
        Some(radius) => format!("{} inside", scene.ruler().text(radius)),
    }
}

/// All of it in one sentence, as a screen reader says it.
pub(super) fn sentence(
    scene: &Scene<'_>,
    chart: Chart,
    profile: &Profile,
    now: Option<&Along>,
) -> String {
    let station = station_text(scene, now);
    let Some(now) = now else { return station };
    let rest = match chart {
        Chart::Clearance => {
            let [left, right] = [0, 1]
                .map(|side| near_text(scene, profile, now.near[side].as_ref(), f32::INFINITY));
            format!("left {left}; right {right}")
        }
        Chart::Turn => turn_text(now),
        Chart::Inside => inside_text(scene, now),
    };
    format!("{station} {rest}")
}
