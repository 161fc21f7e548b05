//! What a walker has on the left and on the right.

use geometry::{Direction, Point};

use crate::document::ObstacleKind;
use crate::solve::SolvedRoute;
use crate::surroundings::Surroundings;

/// What stands nearest on one side of a walker.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beside {
    /// Which obstacle, counted from 0.
    pub obstacle: usize,
    /// How far it stands off the edge of the path, in metres, by its nearest point; 0 where it
    /// reaches onto the path.
    pub distance: f64,
    /// That point.
    pub at: Point,
}

/// What stands straight ahead or behind within this angle of the way is on neither side: its sine,
/// of 30°. Common practice, no source.
const AHEAD: f64 = 0.5;

/// The nearest thing on the left and on the right of someone at a station of a path, within `reach`
/// metres of the edges.
///
/// Only what is seen counts: nothing buried, and not the boundary as such.
#[must_use]
pub fn beside(
    route: &SolvedRoute,
    surroundings: &Surroundings,
    station: f64,
    reach: f64,
) -> [Option<Beside>; 2] {
    let Some(chain) = route.centre_line.as_ref().filter(|_| station.is_finite()) else {
        return [None, None];
    };
    let (at, way) = (chain.point_at(station), chain.direction_at(station));
    let half = 0.5 * route.width;
    let mut found: [Option<Beside>; 2] = [None, None];
    for (patch, gap) in surroundings.ground().near_point(at, reach + half) {
        let obstacle = surroundings.obstacle_of(patch);
        let kind = surroundings.site().obstacles[obstacle].kind;
        let hidden = matches!(kind, ObstacleKind::Service | ObstacleKind::Boundary);
        let Some(side) = side_of(at, way, gap.to).filter(|_| !hidden) else {
            continue;
        };
        let beside = Beside {
            obstacle,
            distance: (gap.distance - half).max(0.0),
            at: gap.to,
        };
        let place = &mut found[side];
        if place.is_none_or(|nearest| beside.distance < nearest.distance) {
            *place = Some(beside);
        }
    }
    found
}

/// Which side a point lies on, 0 the left one; neither if it lies ahead or behind.
fn side_of(at: Point, way: Direction, point: Point) -> Option<usize> {
    let to = point - at;
    let across = way.left().unit().dot(to);
    (AHEAD * to.length() < across.abs()).then_some(usize::from(across < 0.0))
}
