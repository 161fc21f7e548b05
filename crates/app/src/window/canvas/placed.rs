//! The handles of the chosen path: what each is called, where it stands, and which of them are shown.

use egui::Pos2;
use geometry::{Direction, Point, Vector};
use plan::document::{Route, Shape};
use plan::solve::Origin;
use plan::units::Ruler;

use super::Scene;
use super::sparse::thinned;
use crate::window::pick::Picked;
use crate::window::theme;
use crate::window::view::View;

/// A thing on the plan that the hand can move.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(crate) enum Handle {
    /// A waypoint, counted from 0.
    Waypoint(usize),
    /// The apex of a bend, by its leg.
    Apex(usize),
    /// The apex of a rounding, by its waypoint.
    Rounding(usize),
    /// The middle of a landing, counted from 0.
    Pad(usize),
}

/// A handle in its place this frame.
#[derive(Clone, Copy, Debug)]
pub(super) struct Placed {
    pub(super) handle: Handle,
    pub(super) at: Point,
    /// For an apex, the way it points: away from the chord.
    pub(super) away: Option<Vector>,
    /// The number of the peg that stands there, if one does; on a rounded corner there is none.
    pub(super) peg: Option<usize>,
    /// Of an apex its rise or radius, of a landing how far from the start it lies, in metres.
    figure: f64,
}

impl Placed {
    /// What a screen reader calls it.
    pub(super) fn name(&self, scene: &Scene<'_>) -> String {
        match (self.handle, self.peg) {
            (Handle::Waypoint(_), Some(number)) => format!("Peg {number}"),
            (Handle::Waypoint(waypoint), None) => format!("Corner {}", waypoint + 1),
            (Handle::Apex(leg), _) => format!("Apex of leg {}", leg + 1),
            (Handle::Rounding(waypoint), _) => format!("Rounding of corner {}", waypoint + 1),
            (Handle::Pad(pad), _) => {
                let route = scene.plan.route(scene.pick.scheme, scene.pick.route);
                let name = route.and_then(|route| Some(&route.pads.get(pad)?.name));
                format!("Middle of {}", name.map_or("", String::as_str))
            }
        }
    }

    /// What a screen reader reads as its value.
    pub(super) fn value(&self, ruler: &Ruler) -> String {
        match self.handle {
            Handle::Waypoint(_) => {
                let (east, north) = (ruler.text(self.at.x), ruler.text(self.at.y));
                format!("{east} east, {north} north")
            }
            Handle::Apex(_) => format!("rise {}", ruler.text(self.figure)),
            Handle::Rounding(_) => format!("radius {}", ruler.text(self.figure)),
            Handle::Pad(_) => format!("{} from the start", ruler.text(self.figure)),
        }
    }
}

/// The part of a path that a handle belongs to; a landing is none.
pub(super) fn picked(handle: Handle) -> Option<Picked> {
    match handle {
        Handle::Waypoint(waypoint) => Some(Picked::Waypoint(waypoint)),
        Handle::Apex(leg) => Some(Picked::Leg(leg)),
        Handle::Rounding(waypoint) => Some(Picked::Rounding(waypoint)),
        Handle::Pad(_) => None,
    }
}

/// The ends of a leg.
pub(super) fn leg_ends(route: &Route, leg: usize) -> Option<(Point, Point)> {
    let (start, end) = route.ends_of(leg)?;
    let at = |i: usize| route.waypoints.get(i).map(|w| w.at);
    at(start).zip(at(end))
}

/// All handles of the chosen path: apexes first, so that pegs lie above them.
fn placed(scene: &Scene<'_>) -> Vec<Placed> {
    let pick = scene.pick;
    let (Some(route), Some(solved)) = (scene.plan.route(pick.scheme, pick.route), scene.route())
    else {
        return Vec::new();
    };
    let mut all = Vec::with_capacity(2 * route.waypoints.len());
    for (leg, shape) in route.legs.iter().enumerate() {
        let Shape::Bend { rise, .. } = shape else {
            continue;
        };
        let Some((start, end)) = leg_ends(route, leg) else {
            continue;
        };
        let across = Direction::of(end - start).map(|way| way.left().unit());
        let Some(across) = across else { continue };
        all.push(Placed {
            handle: Handle::Apex(leg),
            at: start.middle(end) + across * *rise,
            away: Some(if *rise < 0.0 { -across } else { across }),
            peg: None,
            figure: rise.abs(),
        });
    }
    if let Some(chain) = &solved.centre_line {
        for (origin, piece) in solved.origins.iter().zip(chain.pieces()) {
            let (Origin::Rounding(waypoint), Some(arc)) = (*origin, piece.arc()) else {
                continue;
            };
            let Some(corner) = route.waypoints.get(waypoint) else {
                continue;
            };
            all.push(Placed {
                handle: Handle::Rounding(waypoint),
                at: arc.apex(),
                away: Direction::of(corner.at - arc.apex()).map(Direction::unit),
                peg: None,
                figure: arc.radius(),
            });
        }
        for (i, pad) in route.pads.iter().enumerate() {
            let station = pad.station.clamp(0.0, chain.length());
            all.push(Placed {
                handle: Handle::Pad(i),
                at: chain.point_at(station),
                away: None,
                peg: None,
                figure: station,
            });
        }
    }
    let numbers = solved.pegs_of_waypoints(route.waypoints.len());
    for (waypoint, w) in route.waypoints.iter().enumerate() {
        all.push(Placed {
            handle: Handle::Waypoint(waypoint),
            at: w.at,
            away: None,
            peg: numbers.get(waypoint).copied().flatten(),
            figure: 0.0,
        });
    }
    all
}

/// The handles that are shown, and where on the screen: of those that lie too near one another to be
/// told apart one stands for all, a peg before an apex, until the plan is shown larger. What is
/// chosen, its ends and what is `held` always show.
pub(super) fn shown(view: &View, scene: &Scene<'_>, held: Option<Handle>) -> Vec<(Placed, Pos2)> {
    let area = view.area().expand(theme::TARGET);
    let ends = match scene.pick.part {
        Some(Picked::Leg(leg)) => scene
            .plan
            .route(scene.pick.scheme, scene.pick.route)
            .and_then(|route| route.ends_of(leg)),
        _ => None,
    };
    let stays = |handle: Handle| {
        let part = picked(handle);
        let is_end = |w: usize| ends.is_some_and(|(start, end)| w == start || w == end);
        (part.is_some() && part == scene.pick.part)
            || matches!(handle, Handle::Waypoint(waypoint) if is_end(waypoint))
    };
    let is_held = |placed: &Placed| held == Some(placed.handle);
    // Pegs take their squares of the net before apexes do.
    let mut seen: Vec<_> = placed(scene)
        .into_iter()
        .rev()
        .filter(|placed| area.contains(view.screen_from_plan(placed.at)) || is_held(placed))
        .collect();
    seen = thinned(
        seen,
        view,
        |placed| placed.at,
        |p| stays(p.handle) || is_held(p),
    );
    seen.into_iter()
        .rev()
        .map(|placed| (placed, view.screen_from_plan(placed.at)))
        .collect()
}
