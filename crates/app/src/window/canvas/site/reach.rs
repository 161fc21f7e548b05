//! What of the site lies under a place on the screen, and what a click there means.

use egui::{Pos2, Response, Ui};
use geometry::{Piece, Point};
use plan::Edit;
use plan::document::{Extent, Obstacle, ObstacleKind};
use plan::edit::SiteEdit;

use super::super::{NEAR, Scene};
use crate::window::intent::Intent;
use crate::window::site::{Part, SiteAsk, SitePick, Thing};
use crate::window::view::View;
use crate::window::words;

/// A click chooses what lies under it, or nothing; a double click puts a corner on a side.
pub(in super::super) fn choose(
    ui: &Ui,
    view: &View,
    scene: &Scene<'_>,
    ground: &Response,
    out: &mut Vec<Intent>,
) {
    let Some(at) = ground.interact_pointer_pos() else {
        return;
    };
    let choose = |pick| Intent::Site(SiteAsk::Choose(pick));
    if ground.double_clicked()
        && let Some((obstacle, it)) = scene.site.and_then(|pick| pick.obstacle(scene.plan))
        && let Some((side, place)) = side_at(view, it, at)
    {
        out.push(insert(it, obstacle, side, place));
        let part = Part::Corner(side + 1);
        let thing = Thing::Obstacle(obstacle);
        out.push(choose(Some(SitePick { thing, part })));
    } else if ground.clicked() {
        let under = thing_at(view, scene, at);
        if under.is_none() {
            ui.memory_mut(|memory| {
                if let Some(id) = memory.focused() {
                    memory.surrender_focus(id);
                }
            });
        }
        out.push(choose(under.map(SitePick::whole)));
    }
}

/// Puts a corner on a side, unless the thing holds still.
pub(crate) fn insert(it: &Obstacle, obstacle: usize, after: usize, at: Point) -> Intent {
    if it.still {
        return Intent::Tell(words::site::holds_still(it));
    }
    Intent::Commit(Edit::Site(SiteEdit::InsertCorner {
        obstacle,
        after,
        at,
    }))
}

/// The thing under a place: the line nearest to it, or else the smallest ground that it lies in.
pub(super) fn thing_at(view: &View, scene: &Scene<'_>, at: Pos2) -> Option<Thing> {
    let site = &scene.plan.site;
    let marks = site.marks.iter().enumerate();
    let marks = marks.filter_map(|(i, mark)| {
        let off = view.screen_from_plan(mark.at).distance(at);
        (off <= NEAR).then_some((Reach::Line(off), Thing::Mark(i)))
    });
    let obstacles = site.obstacles.iter().enumerate();
    let obstacles =
        obstacles.filter_map(|(i, it)| Some((reach(view, it, at)?, Thing::Obstacle(i))));
    marks
        .chain(obstacles)
        .min_by(|(a, _), (b, _)| a.order().total_cmp(&b.order()))
        .map(|(_, thing)| thing)
}

/// How an obstacle lies under a place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Reach {
    /// Its line is so many screen points off.
    Line(f32),
    /// The place lies in its ground, which is so large on the screen.
    Ground(f32),
}

impl Reach {
    /// A line before any ground; the nearest line, the smallest ground.
    fn order(self) -> f32 {
        match self {
            Self::Line(off) => off,
            Self::Ground(size) => NEAR + size,
        }
    }
}

/// How an obstacle lies under a place, if it does.
pub(super) fn reach(view: &View, it: &Obstacle, at: Pos2) -> Option<Reach> {
    let place = view.plan_from_screen(at);
    let room = it.extent.room()?;
    let half = 0.5 * it.thickness.unwrap_or(0.0);
    let near = view.plan_length(NEAR) + half;
    if !room.grown(near).holds(place) {
        return None;
    }
    let off = match &it.extent {
        Extent::Round { centre, radius } => (centre.distance(place) - radius).abs(),
        extent => extent
            .sides()
            .map(|side| side.nearest(place).1.distance(place))
            .fold(f64::INFINITY, f64::min),
    };
    let size = view.screen_length(room.width().max(room.height()));
    if off <= near {
        return Some(Reach::Line(view.screen_length((off - half).max(0.0))));
    }
    let solid = it.kind != ObstacleKind::Boundary;
    let holds = || match &it.extent {
        Extent::Round { centre, radius } => centre.distance(place) <= *radius,
        extent => extent.chain().is_some_and(|chain| chain.contains(place)),
    };
    (solid && it.extent.is_closed() && holds()).then_some(Reach::Ground(size))
}

/// The side under a place, and the nearest point of it.
pub(super) fn side_at(view: &View, it: &Obstacle, at: Pos2) -> Option<(usize, Point)> {
    if it.kind == ObstacleKind::Gate {
        return None; // it has two posts and no other corners
    }
    let place = view.plan_from_screen(at);
    let reach = view.plan_length(NEAR) + 0.5 * it.thickness.unwrap_or(0.0);
    let (mut best, mut off) = (None, reach);
    for side in 0..it.extent.count() {
        let Some(piece) = side_of(&it.extent, side) else {
            continue;
        };
        let (_, on) = piece.nearest(place);
        if on.distance(place) <= off {
            off = on.distance(place);
            best = Some((side, on));
        }
    }
    best
}

/// The side that leads on from a corner, counted from 0, straight or bent; none of a circle, or
/// where it has no length.
pub(crate) fn side_of(extent: &Extent, side: usize) -> Option<Piece> {
    match extent {
        Extent::Round { .. } => None,
        Extent::Curved(corners) => {
            let from = corners.get(side)?;
            let to = corners.get((side + 1) % corners.len())?;
            match geometry::Arc::from_rise(from.at, to.at, from.rise) {
                Ok(arc) => Some(Piece::Arc(arc)),
                Err(_) => geometry::Line::new(from.at, to.at).ok().map(Piece::Line),
            }
        }
        Extent::Line(_) | Extent::Area(_) => {
            let (from, to) = extent.side(side)?;
            geometry::Line::new(from, to).ok().map(Piece::Line)
        }
    }
}
