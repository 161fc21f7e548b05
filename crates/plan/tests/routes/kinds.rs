//! Paths of every kind there is, each by a name.

use geometry::Figure;
use plan::Plan;
use plan::document::{Heading, Route, Shape};

use super::common::{plan_of, route, waypoint};

/// Every kind of path: all legs and joints, both ends, open and closed.
pub(crate) fn every_kind() -> Vec<(&'static str, Plan)> {
    let onward_points = [(0., 0.), (4., 1.), (6., 4.), (5., 8.)];
    let ring = [(0., 0.), (6., 0.), (8., 5.), (2., 7.)];
    let zigzag = [(0., 0.), (6., 1.), (10., 6.), (16., 6.), (20., 2.)];
    let loop_legs = vec![
        Shape::bend(0.5),
        Shape::Onward,
        Shape::Straight,
        Shape::Onward,
    ];
    vec![
        ("straights", open(&zigzag, vec![Shape::Straight; 4])),
        ("bends", open(&zigzag, bends(&[0.8, -1.5, 0.2, 3.5]))),
        (
            "a typed bend",
            open(
                &zigzag[..3],
                vec![Shape::Straight, holding(1.2, &[Figure::Radius])],
            ),
        ),
        (
            "a bend with two typed figures",
            open(
                &zigzag[..3],
                vec![
                    holding(-1.2, &[Figure::Chord, Figure::Sweep]),
                    Shape::Straight,
                ],
            ),
        ),
        ("a flat bend", open(&zigzag[..2], bends(&[0.0]))),
        (
            "onward bends from a direction",
            plan_of(Route {
                start_direction: Some(Heading::Angle(0.4)),
                ..route(&onward_points, vec![Shape::Onward; 3])
            }),
        ),
        (
            "onward bends from a straight",
            open(
                &onward_points,
                vec![Shape::Straight, Shape::Onward, Shape::Onward],
            ),
        ),
        (
            "an onward bend with nothing before it",
            open(&onward_points, vec![Shape::Onward; 3]),
        ),
        (
            "two bends between straights",
            open(
                &[(0., 0.), (4., 0.), (12., 3.), (16., 3.)],
                vec![Shape::Straight, Shape::TwoBends, Shape::Straight],
            ),
        ),
        (
            "two bends alone between directions",
            plan_of(Route {
                start_direction: Some(Heading::Angle(0.3)),
                end_direction: Some(Heading::Angle(-0.9)),
                ..route(&[(0., 0.), (10., 3.)], vec![Shape::TwoBends])
            }),
        ),
        (
            "two bends that one bend does",
            plan_of(Route {
                start_direction: Some(Heading::Angle(0.0)),
                end_direction: Some(Heading::Angle(std::f64::consts::FRAC_PI_2)),
                ..route(&[(0., 0.), (5., 5.)], vec![Shape::TwoBends])
            }),
        ),
        (
            "two bends at both free ends",
            open(
                &zigzag[..4],
                vec![Shape::TwoBends, Shape::bend(0.4), Shape::TwoBends],
            ),
        ),
        (
            "two bends after each other",
            open(
                &zigzag,
                vec![
                    Shape::Straight,
                    Shape::TwoBends,
                    Shape::TwoBends,
                    Shape::Straight,
                ],
            ),
        ),
        (
            "two bends and onward bends",
            open(
                &zigzag,
                vec![
                    Shape::Straight,
                    Shape::TwoBends,
                    Shape::Onward,
                    Shape::TwoBends,
                ],
            ),
        ),
        (
            "a ring of straights and bends",
            open(
                &ring,
                vec![
                    Shape::Straight,
                    Shape::bend(-0.9),
                    Shape::Straight,
                    Shape::bend(-2.0),
                ],
            ),
        ),
        ("a ring with onward bends", open(&ring, loop_legs)),
        (
            "a ring of onward bends from a direction",
            plan_of(Route {
                start_direction: Some(Heading::Angle(-0.3)),
                ..route(&ring, vec![Shape::Onward; 4])
            }),
        ),
        ("a ring of two bends", open(&ring, vec![Shape::TwoBends; 4])),
        (
            "a ring of two bends and onward bends",
            open(
                &ring,
                vec![
                    Shape::Onward,
                    Shape::TwoBends,
                    Shape::Onward,
                    Shape::TwoBends,
                ],
            ),
        ),
        (
            "a ring of two half circles",
            open(&ring[..2], bends(&[-3.0, -3.0])),
        ),
        (
            "rounded corners",
            rounded(
                open(&zigzag, vec![Shape::Straight; 4]),
                &[(1, 1.5), (2, 1.0), (3, 2.0)],
            ),
        ),
        (
            "a rounded bend",
            rounded(open(&zigzag, bends(&[0.8, -1.5, 0.2, 0.5])), &[(2, 0.8)]),
        ),
        (
            "a leg all taken by its roundings",
            rounded(
                open(
                    &[(0., 0.), (9., 0.), (9., 4.), (0., 4.)],
                    vec![Shape::Straight; 3],
                ),
                &[(1, 2.0), (2, 2.0)],
            ),
        ),
        (
            "two bends beside rounded corners",
            rounded(
                open(
                    &zigzag,
                    vec![
                        Shape::Straight,
                        Shape::Straight,
                        Shape::TwoBends,
                        Shape::Straight,
                    ],
                ),
                &[(1, 1.0)],
            ),
        ),
        (
            "a rounded ring",
            rounded(
                open(&ring, vec![Shape::Straight; 4]),
                &[(0, 1.0), (1, 1.0), (2, 0.5), (3, 1.5)],
            ),
        ),
    ]
}

/// The path of this name.
pub(crate) fn kind(name: &str) -> Plan {
    let found = every_kind().into_iter().find(|(called, _)| *called == name);
    match found {
        Some((_, plan)) => plan,
        None => panic!("there is no path called {name}"),
    }
}

fn open(points: &[(f64, f64)], legs: Vec<Shape>) -> Plan {
    plan_of(route(points, legs))
}

fn bends(rises: &[f64]) -> Vec<Shape> {
    rises.iter().map(|rise| Shape::bend(*rise)).collect()
}

fn holding(rise: f64, holds: &[Figure]) -> Shape {
    Shape::Bend {
        rise,
        holds: holds.to_vec(),
    }
}

fn rounded(mut plan: Plan, corners: &[(usize, f64)]) -> Plan {
    let waypoints = &mut plan.schemes[0].routes[0].waypoints;
    for (i, radius) in corners {
        let at = waypoints[*i].at;
        waypoints[*i] = waypoint((at.x, at.y), Some(*radius));
    }
    plan
}
