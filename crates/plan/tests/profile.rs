//! What a path is like all along it: figures at a station, and the lines drawn of them.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]
#![allow(
    clippy::float_cmp,
    reason = "figures that are given come back to the bit"
)]

mod common;

use std::f64::consts::{FRAC_PI_2, PI};

use common::{plan_of, route};
use geometry::Point;
use plan::Plan;
use plan::clearance::Border;
use plan::document::{Extent, Obstacle, ObstacleKind, Route, Shape};
use plan::profile::{Along, Profile, along, profile};

const PACE: f64 = 0.75;

fn tree(x: f64, y: f64, radius: f64) -> Obstacle {
    let centre = Point::new(x, y);
    let extent = Extent::Round { centre, radius };
    Obstacle {
        clearance: Some(0.4),
        root_zone: Some(0.0),
        ..Obstacle::new("pear", ObstacleKind::Tree, extent)
    }
}

fn with(path: Route, obstacles: Vec<Obstacle>) -> Plan {
    let mut plan = plan_of(path);
    plan.site_mut().obstacles = obstacles;
    plan
}

fn at(plan: &Plan, station: f64) -> Along {
    let solved = plan.solve();
    let route = &solved.schemes[0].routes[0];
    along(PACE, route, &solved.surroundings, station).unwrap()
}

fn of(plan: &Plan) -> Profile {
    let solved = plan.solve();
    profile(PACE, &solved.schemes[0].routes[0], &solved.surroundings).unwrap()
}

#[track_caller]
fn near(found: f64, expected: f64) {
    let apart = (found - expected).abs();
    assert!(apart < 1e-9, "{found} instead of {expected}");
}

/// 10 m straight, a quarter of a bend to the left of radius 3 m, 5 m straight; 1.2 m wide.
fn hook() -> Route {
    let points = [(0., 0.), (10., 0.), (13., 3.), (13., 8.)];
    let legs = vec![Shape::Straight, Shape::Onward, Shape::Straight];
    route(&points, legs)
}

#[test]
fn figures_at_a_station() {
    // 0.3 m from the left edge at station 4; the stem is measured from its border.
    let plan = with(hook(), vec![tree(4.0, 1.1, 0.2)]);
    let beside = at(&plan, 4.0);
    let [left, right] = beside.near;
    near(left.unwrap().distance, 0.3);
    near(left.unwrap().wanted, 0.4);
    assert_eq!(right, None, "the tree lies beyond the other edge");
    assert_eq!((beside.turn_per_pace, beside.inside_radius), (0.0, None));
    // A step off along the edge: 1 m along, 0.5 m across, less the stem.
    near(
        at(&plan, 5.0).near[0].unwrap().distance,
        1.25_f64.sqrt() - 0.2,
    );
    // Out of reach at the far end.
    assert_eq!(at(&plan, 10.0).near, [None, None]);
    let bend = at(&plan, 10.0 + 1.5 * FRAC_PI_2);
    near(bend.turn_per_pace, 0.25);
    near(bend.inside_radius.unwrap(), 2.4);
    // Past the ends it is held to them.
    assert_eq!(at(&plan, -3.0).station, 0.0);
    near(at(&plan, 99.0).station, 15.0 + 1.5 * PI);
}

#[test]
fn a_bend_to_the_right_has_its_inside_on_the_right() {
    let points = [(0., 0.), (0.5, -0.5), (0.5, -3.)];
    let mut tight = route(&points, vec![Shape::bend(0.15), Shape::Straight]);
    tight.width = 1.2;
    let plan = with(tight, vec![tree(0.0, 1.2, 0.2)]);
    let bend = at(&plan, 0.1);
    assert!(bend.turn_per_pace < 0.0, "{bend:?}");
    assert!(bend.inside_radius.unwrap() <= 0.0, "{bend:?}");
    assert!(bend.near[0].is_some(), "the outside edge is there");
    assert_eq!(bend.near[1], None, "no edge is left to measure from");
}

#[test]
fn corners_are_sharp_ones_only() {
    let points = [(0., 0.), (4., 0.), (4., 3.)];
    let plan = with(route(&points, vec![Shape::Straight; 2]), Vec::new());
    let [corner] = of(&plan).corners[..] else {
        panic!("one corner")
    };
    near(corner.station, 4.0);
    near(corner.turn, FRAC_PI_2);
    assert!(of(&with(hook(), Vec::new())).corners.is_empty());
}

/// What is drawn are exact figures at stations that run from end to end and meet at every joint.
#[test]
fn the_drawn_lines_hold_exact_figures() {
    let plan = with(hook(), vec![tree(4.0, 1.1, 0.2), tree(11.0, 2.6, 0.1)]);
    let (solved, profile) = (plan.solve(), of(&plan));
    let route = &solved.schemes[0].routes[0];
    assert_eq!(profile.runs.len(), 3);
    let stations: Vec<f64> = profile.runs.iter().flatten().map(|a| a.station).collect();
    assert!(stations.is_sorted() && stations.len() > 300 && stations.len() < 600);
    near(stations[0], 0.0);
    near(stations[stations.len() - 1], profile.length);
    for joint in profile.runs.windows(2) {
        near(joint[0].last().unwrap().station, joint[1][0].station);
    }
    // Nowhere nearer than the exact least clearance, and somewhere as near to the width of a step.
    for clearance in &route.clearances {
        let side = match clearance.border {
            Border::Left => 0,
            Border::Right => 1,
            Border::Start | Border::End => continue,
        };
        let least = profile
            .runs
            .iter()
            .flatten()
            .filter_map(|along| along.near[side].filter(|n| n.obstacle == clearance.obstacle))
            .map(|near| near.distance)
            .fold(f64::INFINITY, f64::min);
        if least.is_finite() {
            assert!(clearance.distance <= least + 1e-9, "{clearance:?} {least}");
            let step = profile.length / 300.0;
            assert!(least <= clearance.distance + step, "{clearance:?} {least}");
        }
    }
}

/// A path may touch the door it leads to: there the shed wants nothing kept, and farther off all that it wants.
#[test]
fn on_the_doorstep_nothing_is_wanted() {
    let corners = [
        (13.0, 8.0),
        (15.0, 8.0),
        (15.0, 11.0),
        (11.0, 11.0),
        (11.0, 8.0),
    ];
    let corners = corners.map(|(x, y)| Point::new(x, y)).to_vec();
    let shed = Obstacle {
        clearance: Some(0.5),
        ..Obstacle::new("shed", ObstacleKind::Building, Extent::Area(corners))
    };
    let plan = with(hook(), vec![shed]);
    let length = of(&plan).length;
    let wanted = |station: f64| {
        at(&plan, station)
            .near
            .map(|near| near.map(|near| near.wanted))
    };
    assert_eq!(wanted(length - 0.1), [Some(0.0); 2]);
    // A width and the clearance from the door, and the joint.
    assert_eq!(wanted(length - 1.69), [Some(0.0); 2]);
    assert_eq!(wanted(length - 1.75), [Some(0.5); 2]);
}
