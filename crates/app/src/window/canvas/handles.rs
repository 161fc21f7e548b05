//! What the hand can move: end pegs, apexes, waypoints; by pointer, by keys, by name.

use egui::accesskit::{Action as Asked, ActionData, Role};
use egui::{
    EventFilter, Id, Key, Painter, Pos2, Rect, Response, Sense, Shape, Stroke, Ui, Vec2, vec2,
};
use geometry::{Direction, Point, Vector};
use plan::Edit;
use plan::document::Pad;
use plan::solve::Origin;

use super::Scene;
use super::guide::{Around, Guided, guided};
use super::labels::Labels;
use super::placed::{Handle, Placed, leg_ends, picked};
use crate::window::intent::Intent;
use crate::window::mode::Mode;
use crate::window::pen;
use crate::window::pick::Stage;
use crate::window::theme;
use crate::window::view::View;

/// What the hand holds, and where it took hold of it.
#[derive(Debug, Default)]
pub struct Grip {
    held: Option<Held>,
}

#[derive(Debug)]
struct Held {
    handle: Handle,
    /// From the pointer to the middle of the handle at the press, in screen points.
    offset: Vec2,
    /// What letting go would carry out; `None` until it has been moved.
    edit: Option<Edit>,
    /// What the peg is held to, and why.
    guided: Option<Guided>,
    /// Escape was pressed: nothing happens until the button is let go.
    dropped: bool,
}

impl Grip {
    /// Whether something is held.
    #[must_use]
    pub fn is_holding(&self) -> bool {
        self.held.is_some()
    }

    /// What is held, if anything.
    pub(super) fn held(&self) -> Option<Handle> {
        self.held.as_ref().map(|held| held.handle)
    }

    /// Shows the handles of the chosen path and follows the hand; what is held, if anything.
    pub(super) fn ui(
        &mut self,
        ui: &mut Ui,
        view: &View,
        scene: &Scene<'_>,
        handles: Vec<(Placed, Pos2)>,
        labels: &mut Labels,
        out: &mut Vec<Intent>,
    ) -> Option<Handle> {
        let painter = ui.painter_at(view.area());
        // What was held is gone (another plan was opened): let go of it.
        if let Some(held) = &self.held
            && !handles
                .iter()
                .any(|(placed, _)| placed.handle == held.handle)
        {
            self.held = None;
            out.push(Intent::Cancel);
        }
        for (placed, at) in handles {
            let id = ui.scope_id().with(placed.handle);
            let rect = Rect::from_center_size(at, Vec2::splat(theme::TARGET));
            let movable = scene.stage == Stage::Draw;
            let sense = match scene.mode {
                Mode::Choose if movable => Sense::click_and_drag(),
                Mode::Choose => Sense::click(),
                // A click lays a peg or measures, wherever it is.
                Mode::Lay(_) | Mode::Measure(_) | Mode::Sketch(_) => Sense::hover(),
            };
            let touch = ui.interact(rect, id, sense);
            tell_reader(ui, &touch, scene, &placed);
            if movable {
                self.follow(ui, view, scene, (&placed, at, &touch), out);
                typed_by_reader(ui, id, scene, &placed, out);
            }
            if touch.clicked() {
                touch.request_focus();
                let add = ui.input(|input| input.modifiers.shift);
                match (placed.handle, picked(placed.handle)) {
                    (Handle::Waypoint(waypoint), _) if add => out.push(Intent::Also(waypoint)),
                    (_, picked) => out.extend(picked.map(Intent::Pick)),
                }
            }
            draw(&painter, at, &placed, &touch, scene);
        }
        let held = self
            .held
            .as_ref()
            .and_then(|held| Some((held.handle, held.guided.as_ref()?)));
        // What is held by its chord, or stopped, may stand elsewhere: then nothing is said.
        if let Some((Handle::Waypoint(waypoint), guided)) = held
            && scene
                .plan
                .route(scene.pick.scheme, scene.pick.route)
                .and_then(|route| route.waypoints.get(waypoint))
                .is_some_and(|w| w.at.distance(guided.at) < geometry::SAME_PLACE)
        {
            super::site::keep_paths_free(labels, view, scene);
            super::guide::draw(&painter, view, scene.palette, guided, labels);
        }
        self.held()
    }

    fn follow(
        &mut self,
        ui: &Ui,
        view: &View,
        scene: &Scene<'_>,
        (placed, at, touch): (&Placed, Pos2, &Response),
        out: &mut Vec<Intent>,
    ) {
        if touch.drag_started() {
            let press = ui.input(|input| input.pointer.press_origin());
            self.held = Some(Held {
                handle: placed.handle,
                offset: press.map_or(Vec2::ZERO, |press| at - press),
                edit: None,
                guided: None,
                dropped: false,
            });
            touch.request_focus();
            let among = matches!(placed.handle, Handle::Waypoint(w) if scene.together.contains(&w));
            if !among {
                out.extend(picked(placed.handle).map(Intent::Pick));
            }
        }
        if let Some(held) = self.held.as_mut().filter(|h| h.handle == placed.handle) {
            if !held.dropped && ui.input(|input| input.key_pressed(Key::Escape)) {
                held.dropped = true;
                held.edit = None;
                out.push(Intent::Cancel);
            }
            if let (false, Some(pointer)) = (held.dropped, touch.interact_pointer_pos()) {
                let target = view.plan_from_screen(pointer + held.offset);
                let target = match placed.handle {
                    Handle::Waypoint(waypoint) if !ui.input(|input| input.modifiers.alt) => {
                        let guided = guide(view, scene, waypoint, target);
                        let at = guided.at;
                        held.guided = Some(guided);
                        at
                    }
                    _ => {
                        held.guided = None;
                        target
                    }
                };
                let edit = edit(scene, placed.handle, target);
                if held.edit != edit {
                    out.extend(edit.clone().map(Intent::Preview));
                    held.edit = edit;
                }
            }
            if touch.drag_stopped() {
                let done = self.held.take().and_then(|held| held.edit);
                out.push(done.map_or(Intent::Cancel, Intent::Commit));
            }
        }
        if touch.has_focus() && self.held.is_none() {
            self.keys(ui, scene, placed, touch.id, out);
        }
    }

    /// Arrow keys move by one graduation; Enter goes to the fields.
    fn keys(&self, ui: &Ui, scene: &Scene<'_>, placed: &Placed, id: Id, out: &mut Vec<Intent>) {
        let arrows = EventFilter {
            horizontal_arrows: true,
            vertical_arrows: true,
            ..EventFilter::default()
        };
        ui.memory_mut(|memory| memory.set_focus_lock_filter(id, arrows));
        let step = scene.plan.graduation.metres();
        let pressed = |key: Key| {
            let times = ui.input(|input| input.num_presses(key));
            f64::from(u32::try_from(times).unwrap_or(0)) * step
        };
        let east = pressed(Key::ArrowRight) - pressed(Key::ArrowLeft);
        let north = pressed(Key::ArrowUp) - pressed(Key::ArrowDown);
        if east.abs() + north.abs() > 0.0 {
            let way = match placed.away {
                // An apex moves along the one line it can: to or from its chord.
                Some(away) => {
                    let hand = away.x * east + away.y * north;
                    away * step.copysign(hand)
                }
                None => Vector::new(east, north),
            };
            out.extend(edit(scene, placed.handle, placed.at + way).map(Intent::Commit));
        }
        let take_out = |key| ui.input(|input| input.key_pressed(key));
        if take_out(Key::Delete) || take_out(Key::Backspace) {
            out.push(Intent::TakeOut);
        }
        if ui.input(|input| input.key_pressed(Key::Enter)) {
            out.extend(picked(placed.handle).map(Intent::Pick));
            out.push(Intent::Type);
        }
    }
}

/// What holds a dragged peg.
fn guide(view: &View, scene: &Scene<'_>, waypoint: usize, to: Point) -> Guided {
    let pick = scene.pick;
    let solved = scene.before.unwrap_or(scene.solved);
    let around = Around {
        plan: scene.settled,
        solved,
        scheme: pick.scheme,
        route: pick.route,
        waypoint: Some(waypoint),
        from: None,
        reach: view.plan_length(super::HOLD),
    };
    guided(&around, to)
}

/// What moving a handle to a place means, on the plan as it was at the press.
fn edit(scene: &Scene<'_>, handle: Handle, to: Point) -> Option<Edit> {
    let pick = scene.pick;
    let route = scene.settled.route(pick.scheme, pick.route)?;
    match handle {
        Handle::Waypoint(waypoint)
            if scene.together.len() > 1 && scene.together.contains(&waypoint) =>
        {
            let waypoints = scene.together.iter().map(|w| (pick.route, *w)).collect();
            Some(Edit::MoveTogether {
                scheme: pick.scheme,
                waypoints,
                by: to - route.waypoints.get(waypoint)?.at,
            })
        }
        Handle::Waypoint(waypoint) => Some(Edit::MoveWaypoint {
            id: pick.waypoint(waypoint),
            to,
        }),
        Handle::Apex(leg) => {
            let (start, end) = leg_ends(route, leg)?;
            let across = Direction::of(end - start)?.left().unit();
            let rise = across.dot(to - start.middle(end));
            let room = scene.room.filter(|_| scene.keeps_clear);
            Some(Edit::SetRise {
                id: pick.leg(leg),
                rise: room.and_then(|room| room.nearest(rise)).unwrap_or(rise),
            })
        }
        Handle::Rounding(waypoint) => Some(Edit::SetRounding {
            id: pick.waypoint(waypoint),
            radius: Some(rounding_through(scene, waypoint, to)?),
        }),
        Handle::Pad(index) => {
            // It slides along the path.
            let solved = scene.before.unwrap_or(scene.solved);
            let solved = solved.schemes.get(pick.scheme)?.routes.get(pick.route)?;
            let station = solved.centre_line.as_ref()?.nearest(to).station;
            Some(pad_at(scene, route.pads.get(index)?, index, station))
        }
    }
}

fn pad_at(scene: &Scene<'_>, pad: &Pad, index: usize, station: f64) -> Edit {
    Edit::SetPad {
        scheme: scene.pick.scheme,
        route: scene.pick.route,
        pad: index,
        to: Some(Pad {
            station,
            ..pad.clone()
        }),
    }
}

/// The radius of the rounding whose apex is as far from the corner as `to`: between straights
/// the distance from corner to apex grows in step with the radius; between arcs nearly so.
fn rounding_through(scene: &Scene<'_>, waypoint: usize, to: Point) -> Option<f64> {
    let pick = scene.pick;
    let solved = scene.before.unwrap_or(scene.solved);
    let route = solved.schemes.get(pick.scheme)?.routes.get(pick.route)?;
    let piece = route.piece_of(Origin::Rounding(waypoint))?;
    let arc = *route.centre_line.as_ref()?.pieces().get(piece)?.arc()?;
    let corner = scene
        .settled
        .route(pick.scheme, pick.route)?
        .waypoints
        .get(waypoint)?
        .at;
    let inward = Direction::of(arc.apex() - corner)?.unit();
    let least = plan::limits::SHORTEST;
    let reach = inward.dot(to - corner).max(least);
    Some((arc.radius() * reach / corner.distance(arc.apex())).clamp(least, plan::limits::LONGEST))
}

fn tell_reader(ui: &Ui, touch: &Response, scene: &Scene<'_>, placed: &Placed) {
    ui.ctx().accesskit_node_builder(touch.id, |node| {
        node.set_role(Role::Slider);
        node.set_label(placed.name(scene));
        node.set_value(placed.value(&scene.ruler()));
        node.add_action(Asked::SetValue);
    });
}

/// A value set by a screen reader: a rise, a radius, or `east, north`.
fn typed_by_reader(ui: &Ui, id: Id, scene: &Scene<'_>, placed: &Placed, out: &mut Vec<Intent>) {
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
    let (pick, figure) = (scene.pick, geometry::Figure::Rise);
    for text in asked {
        let edit = match placed.handle {
            Handle::Apex(leg) => ruler.parse(&text).map(|value| Edit::SetFigure {
                id: pick.leg(leg),
                figure,
                value,
            }),
            Handle::Rounding(waypoint) => ruler.parse(&text).map(|value| Edit::SetRounding {
                id: pick.waypoint(waypoint),
                radius: Some(value),
            }),
            Handle::Pad(index) => ruler.parse(&text).map(|station| {
                let route = scene.plan.route(pick.scheme, pick.route);
                let pad = route.and_then(|route| route.pads.get(index)).cloned();
                Edit::SetPad {
                    scheme: pick.scheme,
                    route: pick.route,
                    pad: index,
                    to: pad.map(|pad| Pad { station, ..pad }),
                }
            }),
            Handle::Waypoint(waypoint) => {
                let (east, north) = text.split_once(';').unwrap_or((&text, ""));
                ruler.parse(east).and_then(|x| {
                    Ok(Edit::MoveWaypoint {
                        id: pick.waypoint(waypoint),
                        to: Point::new(x, ruler.parse(north)?),
                    })
                })
            }
        };
        out.push(match edit {
            Ok(edit) => Intent::Commit(edit),
            Err(error) => Intent::Tell(error.to_string()),
        });
    }
}

fn draw(painter: &Painter, at: Pos2, placed: &Placed, touch: &Response, scene: &Scene<'_>) {
    let palette = scene.palette;
    let part = picked(placed.handle);
    let chosen = (part.is_some() && scene.pick.part == part)
        || matches!(placed.handle, Handle::Waypoint(w) if scene.together.contains(&w));
    let active = touch.hovered() || touch.dragged() || chosen;
    if touch.has_focus() {
        let ring = Stroke::new(2.0 * palette.weight, palette.focus);
        painter.circle_stroke(at, 0.5 * theme::TARGET, ring);
    }
    let line = Stroke::new(2.0 * palette.weight, palette.ink);
    if let Some(away) = placed.away {
        let fill = if active {
            palette.string
        } else {
            palette.paper
        };
        let tip = triangle(at, away);
        painter.add(Shape::convex_polygon(
            tip,
            fill,
            Stroke {
                color: palette.string,
                ..line
            },
        ));
        return;
    }
    let size = if active { 12.0 } else { 10.0 };
    let fill = if active {
        palette.string
    } else {
        palette.paper
    };
    if placed.peg.is_some() {
        pen::peg(painter, at, size, fill, palette);
    } else {
        painter.circle_filled(at, 0.5 * (size + line.width), line.color);
        painter.circle_filled(at, 0.5 * (size - line.width), fill);
    }
}

/// A triangle that points away from the chord.
#[expect(
    clippy::cast_possible_truncation,
    reason = "a direction for the screen"
)]
fn triangle(at: Pos2, away: Vector) -> Vec<Pos2> {
    let up = vec2(away.x as f32, -away.y as f32);
    let across = vec2(-up.y, up.x);
    vec![
        at + up * 9.0,
        at - up * 5.0 + across * 8.0,
        at - up * 5.0 - across * 8.0,
    ]
}
