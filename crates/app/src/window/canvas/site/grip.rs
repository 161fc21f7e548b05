//! The hand on the chosen thing: by pointer, by keys, by name.

use std::sync::Arc;

use egui::{Key, Rect, Response, Sense, Ui, Vec2};
use geometry::Point;
use plan::document::{Extent, Obstacle, Site};
use plan::edit::SiteEdit;
use plan::{Edit, Plan};

use super::super::Scene;
use super::super::guide::{self, Beside, Corner, Guided, Spot, guided_corner};
use super::super::labels::Labels;
use super::chosen::{draw, label_sides};
use super::holds::{self, Hold, Placed};
use super::keys::{keys, tell_reader, typed_by_reader};
use super::look;
use super::reach::{self, Reach};
use crate::window::intent::Intent;
use crate::window::mode::Mode;
use crate::window::pick::Stage;
use crate::window::site::{SiteAsk, SitePick, Thing};
use crate::window::theme;
use crate::window::view::View;
use crate::window::words;

/// What the hand holds of the site, and where it took hold of it.
#[derive(Debug, Default)]
pub(crate) struct SiteGrip {
    held: Option<Held>,
}

#[derive(Debug)]
struct Held {
    thing: Thing,
    hold: Hold,
    /// Where the hold was at the press.
    from: Point,
    /// From the pointer to the hold at the press, in screen points.
    offset: Vec2,
    /// The plan without the thing that is moved: what holds it.
    others: Arc<Plan>,
    /// What letting go would carry out; `None` until it has been moved.
    edit: Option<SiteEdit>,
    guided: Option<Guided>,
    /// Escape was pressed: nothing happens until the button is let go.
    dropped: bool,
}

impl SiteGrip {
    /// Whether something is held.
    #[must_use]
    pub(crate) fn is_holding(&self) -> bool {
        self.held.is_some()
    }

    /// Takes hold of the chosen thing where its body is pressed, before the paper is moved.
    pub(in super::super) fn press(
        &mut self,
        ui: &Ui,
        view: &View,
        scene: &Scene<'_>,
        ground: &Response,
        out: &mut Vec<Intent>,
    ) {
        let choosing = scene.stage == Stage::Measure && *scene.mode == Mode::Choose;
        let Some((pick, press)) = scene
            .site
            .zip(ui.input(|input| input.pointer.press_origin()))
            .filter(|_| choosing && ground.drag_started())
        else {
            return;
        };
        let on_body = pick.obstacle(scene.plan).is_some_and(|(_, it)| {
            reach::reach(view, it, press).is_some_and(
                |reach| !matches!(reach, Reach::Line(off) if off > 0.5 * theme::TARGET),
            )
        });
        let whole = holds::placed(scene, pick.thing)
            .into_iter()
            .find(|placed| placed.hold == Hold::Whole);
        if let (true, Some(placed)) = (on_body, whole) {
            let at = view.screen_from_plan(placed.at);
            self.take(scene, pick.thing, &placed, at - press, out);
        }
    }

    fn take(
        &mut self,
        scene: &Scene<'_>,
        thing: Thing,
        placed: &Placed,
        offset: Vec2,
        out: &mut Vec<Intent>,
    ) {
        let still = obstacle(&scene.plan.site, thing).filter(|it| it.still);
        if let Some(it) = still {
            out.push(Intent::Tell(words::site::holds_still(it)));
        }
        let mut others = scene.settled.clone();
        match thing {
            Thing::Obstacle(i) => drop(others.site_mut().obstacles.remove(i)),
            Thing::Mark(i) => drop(others.site_mut().marks.remove(i)),
        }
        self.held = Some(Held {
            thing,
            hold: placed.hold,
            from: placed.at,
            offset,
            others: Arc::new(others),
            edit: None,
            guided: None,
            dropped: still.is_some(),
        });
    }

    /// Shows the holds of the chosen thing and follows the hand.
    pub(in super::super) fn ui(
        &mut self,
        ui: &Ui,
        view: &View,
        scene: &Scene<'_>,
        labels: &mut Labels,
        ground: &Response,
        out: &mut Vec<Intent>,
    ) {
        let pick = scene.site.filter(|pick| pick.is_in(scene.plan));
        if let Some(held) = &self.held
            && pick.is_none_or(|pick| pick.thing != held.thing)
        {
            self.held = None;
            out.push(Intent::Cancel);
        }
        let (Some(pick), Mode::Choose) = (pick, scene.mode) else {
            return;
        };
        let painter = ui.painter_at(view.area());
        let held = self.held.as_ref().map(|held| held.hold);
        let all = holds::placed(scene, pick.thing);
        let (mut by_handle, mut handles) = (false, Vec::new());
        for (placed, at) in holds::shown(all, view, pick.part, held) {
            let id = ui.scope_id().with(("site", pick.thing, placed.hold));
            let rect = Rect::from_center_size(at, Vec2::splat(theme::TARGET));
            let touch = ui.interact(rect, id, Sense::click_and_drag());
            labels.keep_free(Rect::from_center_size(at, Vec2::splat(14.0)));
            tell_reader(ui, &touch, &placed);
            if touch.drag_started() {
                let press = ui.input(|input| input.pointer.press_origin());
                let offset = press.map_or(Vec2::ZERO, |press| at - press);
                self.take(scene, pick.thing, &placed, offset, out);
                touch.request_focus();
                out.push(choose(pick.thing, placed.hold));
            }
            if self.is(placed.hold) && (touch.dragged() || touch.drag_stopped()) {
                by_handle = true;
                self.follow(ui, view, scene, &touch, out);
            }
            if touch.clicked() {
                touch.request_focus();
                out.push(choose(pick.thing, placed.hold));
            }
            if touch.has_focus() && self.held.is_none() {
                keys(ui, scene, pick.thing, &placed, touch.id, out);
            }
            typed_by_reader(ui, id, scene, pick.thing, &placed, out);
            handles.push((placed, at, touch));
        }
        if !by_handle && self.held.is_some() {
            self.follow(ui, view, scene, ground, out);
        }
        label_sides(view, scene, pick, labels);
        for (placed, at, touch) in &handles {
            draw(&painter, *at, placed, touch, scene, pick.part);
        }
        if let Some(guided) = self.held.as_ref().and_then(|held| held.guided.as_ref()) {
            guide::draw(&painter, view, scene.palette, guided, labels);
        }
    }

    fn is(&self, hold: Hold) -> bool {
        self.held.as_ref().is_some_and(|held| held.hold == hold)
    }

    fn follow(
        &mut self,
        ui: &Ui,
        view: &View,
        scene: &Scene<'_>,
        touch: &Response,
        out: &mut Vec<Intent>,
    ) {
        let Some(held) = &mut self.held else { return };
        if !held.dropped && ui.input(|input| input.key_pressed(Key::Escape)) {
            held.dropped = true;
            held.edit = None;
            held.guided = None;
            out.push(Intent::Cancel);
        }
        if let (false, Some(pointer)) = (held.dropped, touch.interact_pointer_pos()) {
            let free = ui.input(|input| input.modifiers.alt);
            let to = view.plan_from_screen(pointer + held.offset);
            let to = held.held_to(view, scene, free, to);
            let edit = holds::edit(&scene.settled.site, held.thing, held.hold, (held.from, to));
            if held.edit != edit {
                out.extend(edit.clone().map(|edit| Intent::Preview(Edit::Site(edit))));
                held.edit = edit;
            }
        }
        if touch.drag_stopped() {
            let inserted = |held: &Held| match held.edit {
                Some(SiteEdit::InsertCorner { after, .. }) => Some((held.thing, after + 1)),
                _ => None,
            };
            let corner = self.held.as_ref().and_then(inserted);
            let done = self.held.take().and_then(|held| held.edit);
            out.push(done.map_or(Intent::Cancel, |edit| Intent::Commit(Edit::Site(edit))));
            if let Some((thing, corner)) = corner {
                out.push(choose(thing, Hold::Corner(corner)));
            }
        }
    }
}

impl Held {
    /// The place that a hold comes to when the hand is at `to`, and what holds it there.
    fn held_to(&mut self, view: &View, scene: &Scene<'_>, free: bool, to: Point) -> Point {
        self.guided = None;
        if free {
            return to;
        }
        let site = &scene.settled.site;
        let graduation = scene.plan.graduation;
        let reach = view.plan_length(super::super::HOLD);
        let it = obstacle(site, self.thing);
        match (self.hold, it.map(|it| &it.extent)) {
            // A round thing keeps a whole radius, of a stem a whole diameter.
            (Hold::Radius, Some(Extent::Round { centre, radius })) => {
                let twice = it.is_some_and(|it| it.stem_radius().is_some());
                let times = if twice { 2.0 } else { 1.0 };
                let length = graduation.round(times * centre.distance(to)) / times;
                let length = if length > 0.0 { length } else { *radius };
                Point::new(centre.x + length, centre.y)
            }
            (Hold::Side(side), Some(extent)) if extent.is_closed() => {
                let corners = extent.corners();
                let ends = corners
                    .get(side)
                    .zip(corners.get((side + 1) % corners.len()));
                let (Some(across), Some((from, end))) = (holds::across(extent, side), ends) else {
                    return to;
                };
                let middle = from.middle(*end);
                let rise = across.dot(to - middle);
                // Nearly straight is straight.
                let rise = if rise.abs() <= reach {
                    0.0
                } else {
                    graduation.round(rise)
                };
                middle + across * rise
            }
            (Hold::Opening, _) => to,
            (hold, extent) => {
                let beside = beside(extent, hold, self.from);
                let corner = Corner {
                    plan: &self.others,
                    solved: scene.solved,
                    beside: &beside,
                    to_site: hold != Hold::Whole
                        || !matches!(
                            extent,
                            Some(Extent::Line(_) | Extent::Area(_) | Extent::Curved(_))
                        ),
                    reach,
                };
                let guided = guided_corner(&corner, to);
                let at = guided.at;
                self.guided = Some(guided);
                at
            }
        }
    }
}

/// The corners beside the one that is moved, or where a thing stood that is moved as a whole.
fn beside(extent: Option<&Extent>, hold: Hold, from: Point) -> Vec<Beside> {
    let corners = extent.map(Extent::corners).unwrap_or_default();
    let closed = extent.is_some_and(Extent::is_closed);
    let count = corners.len();
    let (before, after) = match hold {
        Hold::Corner(i) if closed => (Some((i + count - 1) % count), Some((i + 1) % count)),
        Hold::Corner(i) => (i.checked_sub(1), Some(i + 1).filter(|next| *next < count)),
        Hold::Side(i) => (Some(i), Some(i + 1).filter(|next| *next < count)),
        Hold::Whole | Hold::Radius | Hold::Opening => {
            return vec![Beside {
                at: from,
                spot: Spot::Before,
                side: None,
            }];
        }
    };
    let side_to = |corner: usize, back: bool| {
        let extent = extent?;
        if back {
            // The side after it, walked back to it.
            let way = look::way(extent, corner)?;
            return Some(way.reversed());
        }
        let side = if closed {
            Some((corner + count - 1) % count)
        } else {
            corner.checked_sub(1)
        };
        look::way(extent, side?)
    };
    [(before, false), (after, true)]
        .into_iter()
        .filter_map(|(corner, back)| {
            let corner = corner?;
            Some(Beside {
                at: *corners.get(corner)?,
                spot: Spot::Corner(corner + 1),
                side: side_to(corner, back),
            })
        })
        .collect()
}

pub(super) fn obstacle(site: &Site, thing: Thing) -> Option<&Obstacle> {
    match thing {
        Thing::Obstacle(i) => site.obstacles.get(i),
        Thing::Mark(_) => None,
    }
}

pub(super) fn choose(thing: Thing, hold: Hold) -> Intent {
    let part = hold.part();
    Intent::Site(SiteAsk::Choose(Some(SitePick { thing, part })))
}
