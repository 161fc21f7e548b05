//! Paths that begin at others count right, whatever is done in whatever order.

use geometry::Point;
use plan::document::{Junction, Shape, Side};
use plan::edit::{Edit, WaypointId};
use plan::finding::Code;
use plan::{Plan, limits};
use proptest::prelude::*;

use super::common::{plan, route};
use super::solved;

/// Two straight paths, one with a bend, to begin with.
fn start() -> Plan {
    let mut plan = plan(
        &[(0., 0.), (10., 0.), (18., 4.)],
        vec![Shape::Straight, Shape::bend(1.0)],
    );
    let other = route(
        &[(0., 30.), (9., 32.), (18., 30.)],
        vec![Shape::Straight; 2],
    );
    plan.schemes[0].routes.push(other);
    plan
}

fn step() -> impl Strategy<Value = Edit> {
    let place = || (-5.0..25.0_f64, -5.0..40.0_f64).prop_map(|(x, y)| Point::new(x, y));
    let path = || 0..6_usize;
    let waypoint = || {
        (path(), 0..4_usize).prop_map(|(route, waypoint)| WaypointId {
            scheme: 0,
            route,
            waypoint,
        })
    };
    prop_oneof![
        4 => (path(), any::<bool>(), place(), place()).prop_map(|(host, left, near, to)| {
            let side = if left { Side::Left } else { Side::Right };
            Edit::Branch { scheme: 0, host, side, near, to }
        }),
        1 => path().prop_map(|route| Edit::RemoveRoute { scheme: 0, route }),
        2 => waypoint().prop_map(|id| Edit::Split { id }),
        2 => (path(), path()).prop_map(|(first, second)| Edit::Join { scheme: 0, first, second }),
        1 => path().prop_map(|route| Edit::TurnRound { scheme: 0, route }),
        1 => path().prop_map(|route| Edit::Close { scheme: 0, route }),
        1 => waypoint().prop_map(|id| Edit::RemoveWaypoint { id }),
        1 => (waypoint(), place()).prop_map(|(id, to)| Edit::MoveWaypoint { id, to }),
    ]
}

/// The paths that begin at an edge: where, their next peg, and at which edge.
fn fastened(plan: &Plan) -> Vec<(Point, Point, Junction)> {
    let routes = plan.schemes[0].routes.iter();
    routes
        .filter_map(|route| {
            let junction = route.start_on?;
            Some((route.waypoints[0].at, route.waypoints[1].at, junction))
        })
        .collect()
}

/// How far a place is from the edge that a junction names.
fn off_its_edge(plan: &Plan, junction: Junction, place: Point) -> f64 {
    let host = solved(plan, junction.route - 1);
    let edge = host.edge(junction.side);
    edge.map_or(f64::INFINITY, |edge| edge.nearest(place).distance)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn each_begins_at_one_before_it_and_stands_on_its_edge(
        steps in prop::collection::vec(step(), 1..14),
    ) {
        let mut now = start();
        for edit in &steps {
            let Ok(edited) = now.with(edit) else {
                continue;
            };
            let next = edited.plan;
            prop_assert_eq!(limits::check(&next), Ok(()));
            for (i, route) in next.schemes[0].routes.iter().enumerate() {
                if let Some(junction) = route.start_on {
                    prop_assert!((1..=i).contains(&junction.route), "{edit:?}");
                }
            }
            // All pegs follow here: nothing is held. Two pegs on each other may not.
            let coincide = |plan: &Plan| {
                plan.solve().findings.iter().any(|f| f.code == Code::WaypointsCoincide)
            };
            let off = next.solve().findings.iter().any(|f| f.code == Code::OffItsEdge);
            prop_assert!(!off || coincide(&next) || edited.stopped.is_some(), "{edit:?}");
            // Where the ground of a path stays, what begins at it stays, bit for bit.
            if matches!(edit, Edit::Split { .. } | Edit::TurnRound { .. } | Edit::Join { .. }) {
                // But for the corners of the edges at a joint, and what hangs on those.
                let before = fastened(&now);
                let mut moved = Vec::new();
                let mut gone = false;
                for (place, to, junction) in fastened(&next) {
                    let was: Vec<Point> = before
                        .iter()
                        .filter_map(|(was, other, _)| (*other == to).then_some(*was))
                        .collect();
                    let [was] = was[..] else {
                        continue; // several lead to one place
                    };
                    gone |= off_its_edge(&next, junction, was) > 1e-6;
                    moved.extend((place != was).then_some(place));
                }
                prop_assert!(gone || moved.is_empty(), "{edit:?} moves {moved:?}");
            }
            now = next;
        }
    }
}
