//! Rounded corners: tangent, of the radius asked for where it fits, in the order of the route.

use std::f64::consts::PI;

use plan::document::{Route, Shape};
use plan::finding::{Code, Part};
use plan::solve::Origin;

use super::common::{plan_of, route, waypoint};
use super::{bends, line, near, solved};

/// Straights through these points, with these roundings.
fn rounded(points: &[(f64, f64, Option<f64>)], closed: bool) -> Route {
    let legs = points.len() - usize::from(!closed);
    Route {
        waypoints: points
            .iter()
            .map(|(x, y, r)| waypoint((*x, *y), *r))
            .collect(),
        closed,
        ..route(&[], vec![Shape::Straight; legs])
    }
}

/// What the findings say of too large roundings: waypoint and the radius drawn.
fn tight(route: &Route) -> Vec<(Part, f64)> {
    let findings = plan_of(route.clone()).solve().findings;
    let tight = findings.iter().filter(|f| f.code == Code::RoundingTooLarge);
    tight
        .map(|f| (f.place.part, f.limit.unwrap_or(f64::NAN)))
        .collect()
}

#[test]
fn a_square_corner() {
    let path = rounded(
        &[(0., 0., None), (10., 0., Some(3.0)), (10., 10., None)],
        false,
    );
    let solved = solved(path);
    assert_eq!(
        solved.origins,
        [Origin::Leg(0), Origin::Rounding(1), Origin::Leg(1)]
    );
    near(line(&solved).length(), 14.0 + 1.5 * PI, 1e-12);
    near(bends(&solved)[0].radius(), 3.0, 1e-12);
    near(solved.area, 1.2 * line(&solved).length(), 1e-12);
}

#[test]
fn a_rounding_larger_than_fits_is_the_largest_that_does() {
    // The shorter leg is used up; in a corner that turns by t the largest radius is length / tan t/2.
    for (wanted, legs, turn_degrees) in [
        (7.0, (10.0, 6.0), 90.0_f64),
        (100_000.0, (0.5, 6.0), 90.0),
        (100_000.0, (4.0, 3.0), 30.0),
        (3.0, (1.0, 1.0), 150.0),
        (2.0, (5.0, 9.0), 179.0),
        (50.0, (10.0, 10.0), 179.999),
    ] {
        let turn = geometry::angle::from_degrees(turn_degrees);
        let end = (legs.0 + legs.1 * turn.cos(), legs.1 * turn.sin());
        let path = rounded(
            &[
                (0., 0., None),
                (legs.0, 0., Some(wanted)),
                (end.0, end.1, None),
            ],
            false,
        );
        let largest = legs.0.min(legs.1) / (0.5 * turn).tan();
        let found = tight(&path);
        assert_eq!(found.len(), 1, "{wanted} in {turn_degrees}°");
        assert_eq!(found[0].0, Part::Waypoint(1));
        near(found[0].1 / largest, 1.0, 1e-6);
        near(bends(&solved(path))[0].radius() / largest, 1.0, 1e-6);
    }
}

#[test]
fn two_roundings_that_want_the_same_short_leg() {
    let path = |first, second| {
        rounded(
            &[
                (0., 0., None),
                (10., 0., Some(first)),
                (10., 4., Some(second)),
                (20., 4., None),
            ],
            false,
        )
    };
    // 1.5 and 2.5 fill the 4 m exactly.
    assert!(tight(&path(1.5, 2.5)).is_empty());
    // 3 comes first in the route and is drawn; for 2 there is 1 m left.
    let crowded = path(3.0, 2.0);
    let found = tight(&crowded);
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].0, Part::Waypoint(2));
    near(found[0].1, 1.0, 1e-6);
    let radii: Vec<f64> = bends(&solved(crowded))
        .iter()
        .map(geometry::Bend::radius)
        .collect();
    near(radii[0], 3.0, 1e-9);
    near(radii[1], 1.0, 1e-6);
    // Nothing left at all: the second corner stays sharp.
    let used_up = path(4.0, 2.0);
    assert_eq!(tight(&used_up).len(), 1);
    let solved = solved(used_up);
    assert_eq!(bends(&solved).len(), 1);
    near(line(&solved).turned(), 0.0, 1e-9);
}

#[test]
fn a_closed_path_with_all_corners_rounded() {
    let corner = Some(1.5);
    let path = rounded(
        &[
            (0., 0., corner),
            (8., 0., corner),
            (8., 6., corner),
            (0., 6., corner),
        ],
        true,
    );
    let solved = solved(path);
    let chain = line(&solved);
    assert!(chain.is_closed());
    near(chain.length(), 28.0 - 8.0 * 1.5 + 3.0 * PI, 1e-12);
    near(chain.enclosed_area(), 48.0 - (4.0 - PI) * 2.25, 1e-12);
    near(solved.area, 1.2 * chain.length(), 1e-9);
    // The rounding of the first corner comes last.
    assert_eq!(solved.origins.last(), Some(&Origin::Rounding(0)));
    assert_eq!(solved.pegs().len(), 8);
    assert_eq!(solved.pegs_of(7), (8, 1));
}

#[test]
fn roundings_that_leave_no_straight_at_all() {
    let corner = Some(3.0);
    let path = rounded(
        &[
            (0., 0., corner),
            (6., 0., corner),
            (6., 6., corner),
            (0., 6., corner),
        ],
        true,
    );
    let solved = solved(path);
    near(line(&solved).length(), 6.0 * PI, 1e-6);
    assert_eq!(bends(&solved).len(), 4);
    near(solved.left_edge.unwrap().length(), 4.8 * PI, 1e-6);
}

#[test]
fn between_a_straight_and_a_bend() {
    // A straight east along y = 0 to (6, 0), then a bend of radius 5 that turns left, leaving
    // north: tangent to both, the rounding's centre is 1 above the straight and 4 from (1, 0).
    let path = Route {
        waypoints: vec![
            waypoint((-5., 0.), None),
            waypoint((6., 0.), Some(1.0)),
            waypoint((1., 5.), None),
        ],
        ..route(
            &[],
            vec![Shape::Straight, Shape::bend(-5.0 * (1.0 - 0.5f64.sqrt()))],
        )
    };
    let solved = solved(path);
    let arc = line(&solved).pieces()[1].arc().copied().unwrap();
    near(arc.radius(), 1.0, 1e-9);
    near(arc.centre().y, 1.0, 1e-9);
    near(
        arc.centre().distance(geometry::Point::new(1.0, 0.0)),
        4.0,
        1e-9,
    );
    for joint in [1, 2] {
        near(line(&solved).corner(joint), 0.0, 1e-7);
    }
}
