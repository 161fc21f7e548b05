//! How a path feels to walk, and what stays on it.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod common;

use std::f64::consts::{FRAC_PI_2, PI};

use common::{plan_of, route};
use plan::Plan;
use plan::document::{Route, Shape};
use plan::edit::Edit;
use plan::feel::{Feel, Trailer, Vehicle, Walk, feel, swept_strip, turn_per_pace};
use plan::solve::SolvedRoute;

#[track_caller]
fn near(found: f64, expected: f64, within: f64) {
    assert!(
        (found - expected).abs() <= within,
        "{found} instead of {expected}"
    );
}

fn solved(path: Route) -> SolvedRoute {
    plan_of(path).solve().schemes.remove(0).routes.remove(0)
}

fn felt(path: Route, walk: &Walk) -> Feel {
    feel(walk, &solved(path)).unwrap()
}

/// A straight, a bend of this radius through 90°, a straight.
fn quarter(radius: f64, width: f64) -> Route {
    let points = [
        (0., 0.),
        (20., 0.),
        (20. + radius, radius),
        (20. + radius, radius + 20.),
    ];
    Route {
        width,
        ..route(
            &points,
            vec![Shape::Straight, Shape::Onward, Shape::Straight],
        )
    }
}

/// Source: our own arithmetic of Repton's rule, worked beforehand with 2 √(2 R w) and 2 acos(Ri/Ro).
#[test]
fn views_along_a_bend() {
    for (radius, width, longest, degrees) in [
        (3., 1.2, 5.37, 96.4),
        (6., 0.9, 6.57, 61.3),
        (6., 1.2, 7.59, 70.2),
        (6., 1.5, 8.49, 77.9),
        (10., 1.2, 9.80, 55.1),
        (20., 1.2, 13.86, 39.3),
    ] {
        let feel = felt(quarter(radius, width), &Walk::default());
        let [bend] = feel.bends[..] else {
            panic!("{feel:?}")
        };
        let view = bend.view.unwrap();
        near(view.longest, longest, 0.005);
        near(
            view.turn_that_hides,
            degrees * PI / 180.0,
            0.05 * PI / 180.0,
        );
        assert_eq!(view.hides_what_is_beyond, degrees < 90.0);
        near(bend.inside_radius, radius - 0.5 * width, 1e-12);
        // The sight line touches the inside edge: a chord of the outside circle.
        let outside = radius + 0.5 * width;
        near(
            0.5 * view.longest,
            outside * (0.5 * view.turn_that_hides).sin(),
            1e-12,
        );
    }
}

#[test]
fn turn_with_each_pace() {
    let walk = Walk {
        pace: 0.6,
        ..Walk::default()
    };
    let points = [(0., 0.), (5., 0.), (8., 3.), (11., 6.), (11., 9.)];
    let path = route(
        &points,
        vec![
            Shape::Straight,
            Shape::Onward,
            Shape::bend(-1.0),
            Shape::Straight,
        ],
    );
    let solved = solved(path);
    let feel = feel(&walk, &solved).unwrap();
    near(feel.bends[0].turn_per_pace, 0.2, 1e-12);
    assert_eq!(feel.tightest, Some(1));
    assert_eq!(feel.bends[1].piece, 2);
    let chain = solved.centre_line.unwrap();
    near(turn_per_pace(&chain, 0.6, 2.0), 0.0, 0.0);
    near(turn_per_pace(&chain, 0.6, 6.0), 0.2, 1e-12);
    near(turn_per_pace(&chain, 0.6, chain.length()), 0.0, 0.0);
    // Walked all through, the turns add up to those of the bends.
    let right = quarter(4.0, 1.2);
    let mirrored = Route {
        waypoints: right
            .waypoints
            .iter()
            .map(|w| common::waypoint((w.at.x, -w.at.y), None))
            .collect(),
        ..right.clone()
    };
    near(felt(right, &walk).bends[0].turn_per_pace, 0.15, 1e-12);
    near(felt(mirrored, &walk).bends[0].turn_per_pace, -0.15, 1e-12);
}

#[test]
fn a_bend_without_an_inside_edge_has_no_view() {
    let feel = felt(quarter(0.5, 1.2), &Walk::default());
    assert_eq!(feel.bends[0].view, None);
    assert!(feel.bends[0].inside_radius <= 0.0);
    let feel = felt(
        route(&[(0., 0.), (5., 0.)], vec![Shape::Straight]),
        &Walk::default(),
    );
    assert_eq!((feel.bends.len(), feel.tightest), (0, None));
    assert_eq!(feel.vehicles.len(), 3);
}

fn cart(wheelbase: f64, trailer: Option<Trailer>) -> Walk {
    let vehicle = Vehicle {
        name: "cart".into(),
        width: 0.8,
        wheelbase,
        front: 0.0,
        back: 0.0,
        trailer,
    };
    Walk {
        vehicles: vec![vehicle],
        ..Walk::default()
    }
}

#[test]
fn a_long_bend_wants_what_the_closed_form_says() {
    // Nearly a full round of 4 m: the inside by √(R² − L²) at the rear axle.
    let ring = route(&[(0., 0.), (0.01, 0.)], vec![Shape::bend(-7.999_99)]);
    let fit = &felt(ring, &cart(1.5, None)).vehicles[0];
    let radius: f64 = 0.5 * (8.0 - 1e-5);
    let reach = radius - ((radius * radius - 2.25).sqrt() - 0.4);
    near(fit.left, reach, 2e-3);
    near(fit.needs_width, 2.0 * fit.left.max(fit.right), 0.0);
    near(fit.spare, 1.2 - fit.needs_width, 0.0);
    assert!(!fit.stays_on && fit.folds_at.is_none());
}

#[test]
fn a_straight_wants_the_width_of_the_vehicle() {
    let path = |width: f64| Route {
        width,
        ..route(&[(0., 0.), (9., 0.)], vec![Shape::Straight])
    };
    for (width, stays_on) in [(0.799, false), (0.801, true)] {
        let fit = &felt(path(width), &cart(1.0, None)).vehicles[0];
        near(fit.needs_width, 0.8, 1e-12);
        assert_eq!(fit.stays_on, stays_on);
    }
}

#[test]
fn what_cannot_follow_jackknifes() {
    let trailer = Trailer {
        hitch: 0.2,
        drawbar: 2.0,
        width: 0.8,
        front: 0.0,
        back: 0.0,
    };
    let ring = Route {
        width: 1.0,
        ..route(&[(0., 0.), (0.5, 0.)], vec![Shape::bend(-3.0)])
    };
    for walk in [cart(1.8, None), cart(0.5, Some(trailer))] {
        let fit = &felt(ring.clone(), &walk).vehicles[0];
        assert!(fit.folds_at.is_some_and(f64::is_finite), "{fit:?}");
        assert!(!fit.stays_on && fit.needs_width.is_finite());
    }
}

#[test]
fn the_strip_reaches_as_far_as_the_figures_say() {
    let solved = solved(quarter(3.0, 1.2));
    let walk = Walk::default();
    let feel = feel(&walk, &solved).unwrap();
    let chain = solved.centre_line.unwrap();
    for (vehicle, fit) in walk.vehicles.iter().zip(&feel.vehicles) {
        let strip = swept_strip(vehicle, &chain, 0.05);
        let left = strip.iter().map(|r| r.left).fold(0.0, f64::max);
        let right = strip.iter().map(|r| r.right).fold(0.0, f64::max);
        near(left, fit.left, 0.01);
        near(right, fit.right, 0.01);
        // Far from the bend it is as wide as the widest part.
        near(strip[20].left, strip[20].right, 1e-9);
    }
}

#[test]
fn walking_is_edited_and_stored() {
    let plan = Plan::empty(plan::units::Units::Metric);
    assert!(!plan::file::write(&plan).contains("walk"));
    let edit = Edit::SetWalk(Walk {
        pace: 0.7,
        vehicles: vec![],
    });
    assert_eq!(edit.name(), "set what goes along the paths");
    let after = plan.with(&edit).unwrap().plan;
    let text = plan::file::write(&after);
    assert_eq!(plan::file::read(text.as_bytes()).unwrap(), after);
    let trailer = Trailer {
        hitch: 0.2,
        drawbar: 0.0,
        width: 0.8,
        front: 0.0,
        back: 0.0,
    };
    for (walk, why) in [
        (
            Walk {
                pace: 0.0,
                ..Walk::default()
            },
            "walking: a pace in metres must lie between 0.1 and 3, it is 0",
        ),
        (
            cart(0.01, None),
            "vehicle 1 “cart”: its wheelbase in metres, unless it is 0, must lie between 0.05 and 20",
        ),
        (cart(f64::NAN, None), "its wheelbase"),
        (
            cart(1.0, Some(trailer)),
            "its drawbar in metres must lie between 0.05 and 20",
        ),
        (
            Walk {
                vehicles: vec![Walk::default().vehicles[0].clone(); 21],
                ..Walk::default()
            },
            "21 vehicles, more than 20",
        ),
    ] {
        let error = plan.with(&Edit::SetWalk(walk)).unwrap_err().to_string();
        assert!(error.contains(why), "{error}");
    }
}

#[test]
fn two_thousand_legs_are_soon_felt() {
    let points: Vec<(f64, f64)> = (0..=2000)
        .map(|i| (3.0 * f64::from(i), (0.7 * f64::from(i)).sin()))
        .collect();
    let shapes = [Shape::Straight, Shape::Onward, Shape::bend(0.2)];
    let legs = (0..2000).map(|i| shapes[i % 3].clone()).collect();
    let feel = felt(route(&points, legs), &Walk::default());
    assert_eq!(feel.vehicles.len(), 3);
    assert!(
        feel.bends
            .iter()
            .all(|bend| bend.turn_per_pace.abs() < FRAC_PI_2)
    );
}

/// Out along a line, round half a circle of 0.9 m radius, back beside it: the edges of a path 1.2 m wide are 0.6 m apart.
#[test]
fn a_path_that_comes_back_beside_itself_says_how_near() {
    let back = |width: f64, radius: f64| {
        let points = [(0., 0.), (8., 0.), (8., 2. * radius), (0., 2. * radius)];
        let path = route(
            &points,
            vec![Shape::Straight, Shape::Onward, Shape::Straight],
        );
        felt(Route { width, ..path }, &Walk::default()).comes_by
    };
    let by = back(1.2, 0.9).unwrap();
    near(by.distance, 0.6, 1e-9);
    near(
        (by.at[0].y - 0.6).abs() + (by.at[1].y - 1.2).abs(),
        0.0,
        1e-9,
    );
    let [first, second] = by.stations;
    // As far from the turn on the one leg as on the other.
    near((8.0 - first) - (second - 8.0 - 0.9 * PI), 0.0, 1e-9);
    assert_eq!(back(1.2, 1.2), None, "1.2 m apart is far enough");
    // Two legs that join at a right angle turn into each other; they do not come by each other.
    assert_eq!(felt(quarter(1.0, 1.2), &Walk::default()).comes_by, None);
}

#[test]
fn a_path_that_crosses_itself_runs_into_itself() {
    let points = [(0., 0.), (8., 0.), (8., 6.), (4., 6.), (4., -4.)];
    let by = felt(route(&points, vec![Shape::Straight; 4]), &Walk::default()).comes_by;
    near(by.unwrap().distance, 0.0, 1e-12);
}

/// A ring is round: the place where it closes is none where it comes by itself.
#[test]
fn a_ring_does_not_come_by_itself_where_it_closes() {
    let points = [(0., 0.), (8., 0.), (8., 8.), (0., 8.)];
    let path = Route {
        closed: true,
        ..route(&points, vec![Shape::Straight; 4])
    };
    assert_eq!(felt(path, &Walk::default()).comes_by, None);
}
