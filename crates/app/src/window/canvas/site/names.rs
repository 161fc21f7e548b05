//! Names of obstacles and marks, where there is room.

use egui::{Pos2, Rect, Vec2, vec2};
use geometry::Point;
use plan::document::{Extent, Obstacle, ObstacleKind};

use super::super::labels::Labels;
use super::super::{Scene, curves};
use crate::window::fonts::Face;
use crate::window::theme;
use crate::window::view::View;

/// More names than this at a time are not read; the largest things are named.
const MOST: usize = 200;
/// Things smaller than this on the screen are named only if there are few, in screen points.
const SMALL: f32 = 6.0;

/// Names of obstacles and marks.
pub(in super::super) fn write_names(view: &View, scene: &Scene<'_>, labels: &mut Labels) {
    let font = Face::Text.sized(theme::SMALL);
    keep_paths_free(labels, view, scene);
    let area = view.area();
    let marks = scene.plan.site.marks.iter();
    let marks = marks.map(|mark| (mark, view.screen_from_plan(mark.at)));
    let most = if scene.only_looked_at() { 0 } else { MOST };
    for (mark, at) in marks.filter(|(_, at)| area.contains(*at)).take(most) {
        let style = (font.clone(), scene.palette.ink);
        labels.write_name(at, 10.0, vec2(0.0, 1.0), &mark.name, style);
    }
    for obstacle in named(view, scene) {
        let (at, gap) = name_place(obstacle, view);
        let style = (font.clone(), scene.palette.faint);
        labels.write_name(at, gap, Vec2::ZERO, &obstacle.name, style);
    }
}

/// The seen obstacles that are large enough to be named, in their own order.
fn named<'a>(view: &View, scene: &Scene<'a>) -> Vec<&'a Obstacle> {
    let seen = view.seen();
    let obstacles = scene.plan.site.obstacles.iter();
    let mut found: Vec<(f32, &Obstacle)> = obstacles
        .filter_map(|obstacle| {
            let room = obstacle.extent.room()?;
            let size = view.screen_length(room.width().max(room.height()));
            let hidden = obstacle.kind == ObstacleKind::Service && scene.only_looked_at();
            let shows = seen.meets(room) && !obstacle.name.is_empty() && !hidden;
            shows.then_some((size, obstacle))
        })
        .collect();
    if found.len() > MOST {
        found.retain(|(size, _)| *size > SMALL);
        found.sort_by(|a, b| b.0.total_cmp(&a.0));
        found.truncate(MOST);
    }
    found.into_iter().map(|(_, obstacle)| obstacle).collect()
}

/// Names keep off the paths.
pub(in super::super) fn keep_paths_free(labels: &mut Labels, view: &View, scene: &Scene<'_>) {
    let scheme = scene.solved.schemes.get(scene.pick.scheme);
    for route in scheme.iter().flat_map(|scheme| &scheme.routes) {
        let Some(chain) = &route.centre_line else {
            continue;
        };
        // Boxes no longer than the path is wide follow it closely enough.
        let half = 0.5 * view.screen_length(route.width) + 4.0;
        for run in view.trace(&curves(chain)) {
            for pair in run.points.windows(2) {
                let way = pair[1] - pair[0];
                let steps = (way.length() / half.max(8.0)).ceil().max(1.0);
                let mut step = 0.0;
                while step <= steps {
                    let at = pair[0] + way * (step / steps);
                    labels.keep_free(Rect::from_center_size(at, Vec2::splat(1.6 * half)));
                    step += 1.0;
                }
            }
        }
    }
}

fn name_place(obstacle: &Obstacle, view: &View) -> (Pos2, f32) {
    let beside = |from: Point, to: Point| (view.screen_from_plan(from.middle(to)), 8.0);
    match &obstacle.extent {
        Extent::Round { centre, radius } => (
            view.screen_from_plan(*centre),
            view.screen_length(*radius) + 4.0,
        ),
        // A boundary is named beside its line: inside it all the others are.
        Extent::Area(_) | Extent::Curved(_) if obstacle.kind == ObstacleKind::Boundary => {
            let longest = obstacle
                .extent
                .sides()
                .max_by(|a, b| a.length().total_cmp(&b.length()));
            longest.map_or((view.area().center(), 8.0), |side| {
                beside(side.start(), side.end())
            })
        }
        Extent::Area(_) | Extent::Curved(_) => {
            let middle = obstacle.extent.room().map(geometry::Bounds::middle);
            (view.screen_from_plan(middle.unwrap_or(Point::ORIGIN)), -8.0)
        }
        Extent::Line(points) => {
            let middle = points.len() / 2;
            beside(points[middle.saturating_sub(1)], points[middle])
        }
    }
}
