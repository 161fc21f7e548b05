//! Obstacles along a path: as thickly strewn however many there are, and none of them in the way.

use std::f64::consts::TAU;
use std::sync::Arc;

use geometry::{Chain, Core, Line, Patch, Piece, Point, Vector};
use plan::Plan;
use plan::document::{Extent, Obstacle, ObstacleKind, Site};

/// Ground that each obstacle has to itself, in square metres.
const GROUND: f64 = 16.0;
/// Radius of the obstacles, in metres.
const REACH: f64 = 0.7;
/// The least distance from the centre line of the path to the middle of an obstacle, in metres.
const CLEAR: f64 = 2.0;

/// Strews so many middles of obstacles over the ground to both sides of a path, none nearer than
/// [`CLEAR`].
fn strewn(line: &Chain, count: usize) -> Vec<Point> {
    let wide = (0.5 * GROUND * count as f64 / line.length()).max(2.0 * CLEAR);
    // Multiples of the two inverse powers of the plastic number fill a square evenly.
    // Source: M. Roberts, "The unreasonable effectiveness of quasirandom sequences" (2018).
    let share = |i: usize, step: f64| (0.5 + i as f64 * step).fract();
    let place = |i| {
        let along = share(i, 0.754_877_666_246_692_7) * line.length();
        let aside = (2.0 * share(i, 0.569_840_290_998_053_2) - 1.0) * wide;
        line.point_at(along) + Vector::new(0.0, aside)
    };
    (0..)
        .map(place)
        .filter(|at| line.nearest(*at).distance > CLEAR)
        .take(count)
        .collect()
}

fn corners(at: Point) -> Vec<Point> {
    let corner = |i: u8| {
        let (sine, cosine) = (TAU * f64::from(i) / 8.0).sin_cos();
        at + Vector::new(cosine, sine) * REACH
    };
    (0..8).map(corner).collect()
}

/// Eight-sided obstacles along the centre line of [`crate::plan`]: their corners.
#[must_use]
pub fn eight_sided(line: &Chain, count: usize) -> Vec<Vec<Point>> {
    strewn(line, count).into_iter().map(corners).collect()
}

/// The ground that obstacles with these corners take up.
#[must_use]
pub fn patches(obstacles: &[Vec<Point>]) -> Vec<Patch> {
    let patch = |corners: &Vec<Point>| {
        let ends = corners.iter().zip(corners.iter().cycle().skip(1));
        let sides = ends.filter_map(|(from, to)| Line::new(*from, *to).ok().map(Piece::Line));
        let outline = Chain::new(sides.collect(), true).ok()?;
        Patch::new(Core::Area(outline), 0.0).ok()
    };
    obstacles.iter().filter_map(patch).collect()
}

/// The winding path of so many legs among ponds.
fn among(legs: usize, count: usize, pond: impl Fn(Point) -> Extent) -> Plan {
    let mut plan = crate::plan(legs);
    let solved = plan.solve();
    let lines = solved.schemes.iter().flat_map(|scheme| &scheme.routes);
    let line = lines.filter_map(|route| route.centre_line.as_ref()).next();
    let places = line.map_or_else(Vec::new, |line| strewn(line, count));
    let ponds = places
        .into_iter()
        .map(|at| Obstacle::new("", ObstacleKind::Pond, pond(at)));
    plan.site = Arc::new(Site {
        obstacles: ponds.collect(),
        ..Site::default()
    });
    plan
}

/// The winding path of so many legs among so many eight-sided ponds.
#[must_use]
pub fn eight_sided_ponds(legs: usize, count: usize) -> Plan {
    among(legs, count, |at| Extent::Area(corners(at)))
}

/// The winding path of so many legs among so many round ponds.
#[must_use]
pub fn round_ponds(legs: usize, count: usize) -> Plan {
    among(legs, count, |centre| Extent::Round {
        centre,
        radius: REACH,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_obstacles_are_there_and_some_are_near() {
        for plan in [eight_sided_ponds(20, 60), round_ponds(20, 60)] {
            assert_eq!(plan.site.obstacles.len(), 60);
            let solved = plan.solve();
            let route = &solved.schemes[0].routes[0];
            assert!(route.clearances.len() > 5, "{}", route.clearances.len());
            assert!(route.clearances.iter().all(|near| !near.overlaps));
        }
    }
}
