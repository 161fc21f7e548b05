//! What a corner of a thing on the site is held to while it is moved or drawn.

use geometry::{Direction, Point};
use plan::Plan;
use plan::solve::Solved;

use super::around::Neighbour;
use super::{Around, Guided, Spot, settled};

/// A corner, a middle or a mark that is moved or drawn, and what it is looked at against.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Corner<'a> {
    /// The plan without the thing that is moved.
    pub(crate) plan: &'a Plan,
    /// What is solved of a plan; no path holds a corner.
    pub(crate) solved: &'a Solved,
    /// The corners beside it, the one its length is taped from first.
    pub(crate) beside: &'a [Beside],
    /// Whether it is drawn to the points and lines of the site; a thing moved as a whole is not.
    pub(crate) to_site: bool,
    /// How far a place is drawn to what is near, in metres.
    pub(crate) reach: f64,
}

/// A corner beside the one that is looked at.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Beside {
    /// Where it is.
    pub(crate) at: Point,
    /// What the screen calls it.
    pub(crate) spot: Spot,
    /// The way in which its own side runs to it, if that is straight.
    pub(crate) side: Option<Direction>,
}

/// A place held to what is near it, as a peg is by [`guided`](super::guided).
#[must_use]
pub(crate) fn guided_corner(corner: &Corner<'_>, to: Point) -> Guided {
    let around = Around {
        plan: corner.plan,
        solved: corner.solved,
        // No path is taken for the corner's own.
        scheme: usize::MAX,
        route: usize::MAX,
        waypoint: None,
        from: None,
        reach: corner.reach,
    };
    let free = Guided {
        at: to,
        why: Vec::new(),
        lines: Vec::new(),
    };
    if !(to.is_finite() && around.reach.is_finite() && around.reach > 0.0) {
        return free;
    }
    let neighbours: Vec<Neighbour> = corner
        .beside
        .iter()
        .map(|beside| Neighbour::corner(beside.at, beside.spot, beside.side))
        .collect();
    if corner.to_site
        && let Some((at, why)) = around.nearest_point(&neighbours, to)
    {
        let why = vec![why];
        return Guided { at, why, ..free };
    }
    settled(&around, &neighbours, to, corner.to_site)
}

#[cfg(test)]
mod tests {
    use plan::document::{Extent, Obstacle, ObstacleKind};
    use plan::units::Units;

    use super::super::Why;
    use super::*;

    fn at(x: f64, y: f64) -> Point {
        Point::new(x, y)
    }

    fn site() -> Plan {
        let mut plan = Plan::empty(Units::Metric);
        let extent = Extent::Line(vec![at(10.0, 0.0), at(20.0, 0.0)]);
        let wall = Obstacle::new("wall", ObstacleKind::Wall, extent);
        plan.site_mut().obstacles.push(wall);
        plan
    }

    fn held(beside: &[Beside], to_site: bool, to: Point) -> Guided {
        let plan = site();
        let solved = plan.solve();
        let corner = Corner {
            plan: &plan,
            solved: &solved,
            beside,
            to_site,
            reach: 0.2,
        };
        guided_corner(&corner, to)
    }

    #[test]
    fn a_corner_is_held_square_to_the_side_beside_it_at_a_whole_length() {
        let slope = Direction::of(at(1.0, 1.0) - Point::ORIGIN);
        let beside = [Beside {
            at: at(0.0, 5.0),
            spot: Spot::Corner(2),
            side: slope,
        }];
        let held = held(&beside, true, at(-2.05, 7.0));
        assert_eq!(held.why[0], Why::SquareSide);
        let side = held.at - at(0.0, 5.0);
        assert!((side.x + side.y).abs() < 1e-12, "{side:?}");
        let steps = side.length() / 0.005;
        assert!((steps - steps.round()).abs() < 1e-6, "{steps}");
    }

    #[test]
    fn a_corner_is_held_to_the_end_of_a_wall_but_a_thing_moved_whole_is_not() {
        let near = at(10.1, 0.05);
        let corner = held(&[], true, near);
        assert_eq!(corner.at, at(10.0, 0.0));
        assert_eq!(held(&[], false, near).at, near);
    }

    #[test]
    fn a_thing_moved_whole_is_held_level_with_where_it_stood() {
        let beside = [Beside {
            at: at(0.0, 5.0),
            spot: Spot::Before,
            side: None,
        }];
        let held = held(&beside, false, at(3.001, 5.1));
        assert_eq!(held.why[0], Why::Level(Spot::Before));
        assert!((held.at.y - 5.0).abs() < 1e-12);
        assert!((held.at.x - 3.0).abs() < 1e-12);
    }
}
