//! The chosen thing moved by keys, and read and set by a screen reader.

use egui::accesskit::{Action as Asked, ActionData, Role};
use egui::{EventFilter, Id, Key, Response, Ui};
use geometry::{Point, Vector};
use plan::Edit;
use plan::document::Extent;

use super::super::Scene;
use super::grip::{choose, obstacle};
use super::holds::{self, Hold, Placed};
use super::reach;
use crate::window::intent::Intent;
use crate::window::site::{SiteAsk, Thing};
use crate::window::words;

/// Arrow keys move by one graduation; Enter goes to the fields; Insert puts a corner on a side.
pub(super) fn keys(
    ui: &Ui,
    scene: &Scene<'_>,
    thing: Thing,
    placed: &Placed,
    id: Id,
    out: &mut Vec<Intent>,
) {
    let arrows = EventFilter {
        horizontal_arrows: true,
        vertical_arrows: true,
        ..EventFilter::default()
    };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(id, arrows));
    let step = scene.plan.graduation.metres();
    let presses = |key: Key| {
        let times = ui.input(|input| input.num_presses(key));
        f64::from(u32::try_from(times).unwrap_or(0))
    };
    let east = presses(Key::ArrowRight) - presses(Key::ArrowLeft);
    let north = presses(Key::ArrowUp) - presses(Key::ArrowDown);
    let it = obstacle(&scene.plan.site, thing);
    let still = it.filter(|it| it.still);
    if east.abs() + north.abs() > 0.0 {
        out.push(match still {
            Some(it) => Intent::Tell(words::site::holds_still(it)),
            None => nudge(scene, thing, placed, Vector::new(east, north) * step),
        });
    }
    let pressed = |key: Key| ui.input(|input| input.key_pressed(key));
    if pressed(Key::Delete) || pressed(Key::Backspace) {
        out.push(choose(thing, placed.hold));
        out.push(Intent::Site(SiteAsk::TakeOut));
    }
    if pressed(Key::Insert)
        && let (Hold::Side(side), Thing::Obstacle(i), Some(it)) = (placed.hold, thing, it)
    {
        out.push(reach::insert(it, i, side, placed.at));
        out.push(choose(thing, Hold::Corner(side + 1)));
    }
    if pressed(Key::Enter) {
        out.push(choose(thing, placed.hold));
        out.push(Intent::Type);
    }
}

/// What an arrow key asks for: a way of one graduation east or north.
fn nudge(scene: &Scene<'_>, thing: Thing, placed: &Placed, way: Vector) -> Intent {
    let extent = obstacle(&scene.plan.site, thing).map(|it| &it.extent);
    let way = match (placed.hold, extent) {
        // Along the one line it can move: up and right are farther out.
        (Hold::Radius, _) => Vector::new(way.x + way.y, 0.0),
        (Hold::Side(side), Some(extent)) if extent.is_closed() => holds::across(extent, side)
            .map_or(way, |across| {
                let hand = across.dot(way);
                across * way.length().copysign(hand)
            }),
        _ => way,
    };
    let places = (placed.at, placed.at + way);
    match holds::edit(&scene.plan.site, thing, placed.hold, places) {
        Some(edit) => Intent::Commit(Edit::Site(edit)),
        None => Intent::Cancel,
    }
}

pub(super) fn tell_reader(ui: &Ui, touch: &Response, placed: &Placed) {
    ui.ctx().accesskit_node_builder(touch.id, |node| {
        node.set_role(Role::Slider);
        node.set_label(placed.name.clone());
        node.set_value(placed.value.clone());
        node.add_action(Asked::SetValue);
    });
}

/// A value set by a screen reader: `east; north`, a radius, or the rise of a side.
pub(super) fn typed_by_reader(
    ui: &Ui,
    id: Id,
    scene: &Scene<'_>,
    thing: Thing,
    placed: &Placed,
    out: &mut Vec<Intent>,
) {
    let asked: Vec<String> = ui.input(|input| {
        input
            .accesskit_action_requests(id, Asked::SetValue)
            .filter_map(|request| match &request.data {
                Some(ActionData::Value(text)) => Some(text.to_string()),
                _ => None,
            })
            .collect()
    });
    let ruler = scene.ruler();
    let it = obstacle(&scene.plan.site, thing);
    for text in asked {
        if let Some(it) = it.filter(|it| it.still) {
            out.push(Intent::Tell(words::site::holds_still(it)));
            continue;
        }
        let (first, second) = text.split_once(';').unwrap_or((&text, ""));
        let to = match (placed.hold, it.map(|it| &it.extent)) {
            (Hold::Radius, Some(Extent::Round { centre, .. })) => ruler
                .parse(first)
                .map(|radius| Point::new(centre.x + radius, centre.y)),
            (Hold::Side(side), Some(extent)) if extent.is_closed() => {
                let corners = extent.corners();
                let middle = corners[side].middle(corners[(side + 1) % corners.len()]);
                let across = holds::across(extent, side).unwrap_or(Vector::ZERO);
                ruler.parse(first).map(|rise| middle + across * rise)
            }
            _ => ruler
                .parse(first)
                .and_then(|x| Ok(Point::new(x, ruler.parse(second)?))),
        };
        out.push(match to {
            Ok(to) => match holds::edit(&scene.plan.site, thing, placed.hold, (placed.at, to)) {
                Some(edit) => Intent::Commit(Edit::Site(edit)),
                None => Intent::Cancel,
            },
            Err(error) => Intent::Tell(error.to_string()),
        });
    }
}
