//! Reverse and compound curves as published, drawn with onward bends.

use std::f64::consts::PI;

use geometry::angle::to_degrees;
use plan::document::{Heading, Route, Shape};

use super::common::route;
use super::{bends, line, near, solved};

/// A path that leaves due east through these points, one onward bend to each.
fn onward(points: &[(f64, f64)]) -> Route {
    Route {
        start_direction: Some(Heading::Angle(0.0)),
        ..route(points, vec![Shape::Onward; points.len() - 1])
    }
}

/// Two bends from (0, 0) to `end` that meet at the given share of the way; both then run east.
#[track_caller]
fn check_reverse(end: (f64, f64), share: f64, radii: [f64; 2], sweep_degrees: f64, tolerance: f64) {
    let joint = (end.0 * share, end.1 * share);
    let route = Route {
        end_direction: Some(Heading::Angle(0.0)),
        ..onward(&[(0., 0.), joint, end])
    };
    let plan = super::common::plan_of(route.clone());
    assert!(plan.solve().findings.is_empty(), "both directions are met");
    let solved = solved(route);
    let chain = line(&solved);
    for (bend, radius) in bends(&solved).iter().zip(radii) {
        near(bend.radius(), radius, tolerance);
        near(to_degrees(bend.sweep()), sweep_degrees, 1e-3);
    }
    assert!(chain.corner(1).abs() < 1e-12, "smooth where the bends meet");
    near(
        chain.length(),
        radii.iter().sum::<f64>() * sweep_degrees * PI / 180.0,
        1e-3,
    );
}

#[test]
fn two_equal_bends_between_parallel_lines() {
    // Source: vtgyjfy.blogspot.com (copy of a math.stackexchange answer), R = (a² + b²) / 4b;
    // a 10, b 3: R 9.083333, turning 33.398°.
    check_reverse((10., 3.), 0.5, [9.083_333_333_333_3; 2], 33.398_488, 1e-9);
    // Source: Civil engineering question page, parallel tangents 30 m apart, both radii 200 m:
    // 22.3° each; 151.986842 m along recomputed.
    check_reverse((151.986_842, 30.), 0.5, [200.0; 2], 22.331_645, 5e-6); // the published digits of the 151.986842
    // Source: Indian surveying textbook, from memory: lines 10 m apart, tangent points 40 m apart
    // along them: equal radii of 42.5 m; with 50 m the other is 35 m; both turn 28.072487°.
    check_reverse((40., 10.), 0.5, [42.5; 2], 28.072_487, 1e-9);
    check_reverse((40., 10.), 50.0 / 85.0, [50.0, 35.0], 28.072_487, 1e-9);
    // The same for lines 20 m apart and 80 m along, recomputed: 85 m; 90 m and 80 m.
    check_reverse((80., 20.), 0.5, [85.0; 2], 28.072_487, 1e-9);
    check_reverse((80., 20.), 90.0 / 170.0, [90.0, 80.0], 28.072_487, 1e-9);
}

#[test]
fn two_equal_bends_with_a_straight_between() {
    // Source: vtgyjfy.blogspot.com, R = (b − S sin t) / (2 − 2 cos t); a 10, b 4, S 2: the angle
    // of the 3-4-5 triangle, R 7.
    let (cosine, sine) = (0.8, 0.6);
    let first = (7.0 * sine, 7.0 * (1.0 - cosine));
    let second = (first.0 + 2.0 * cosine, first.1 + 2.0 * sine);
    let route = Route {
        start_direction: Some(Heading::Angle(0.0)),
        end_direction: Some(Heading::Angle(0.0)),
        ..route(
            &[(0., 0.), first, second, (10., 4.)],
            vec![Shape::Onward, Shape::Straight, Shape::Onward],
        )
    };
    let solved = solved(route);
    for bend in bends(&solved) {
        near(bend.radius(), 7.0, 1e-9);
        near(to_degrees(bend.sweep()), 36.869_897_645_844_02, 1e-9);
    }
    let chain = line(&solved);
    assert!(chain.corner(1).abs() < 1e-12 && chain.corner(2).abs() < 1e-12);
}

#[test]
fn a_compound_curve() {
    // Source: homeworksource.com/p/1004689: R1 600 ft, 45°, R2 400 ft, 20°: T1 368.92, T2 319.45
    // (rounded within; exactly 368.933790, 319.462486), arcs 471.238898 and 139.626340.
    let (r1, i1, r2, i2) = (600.0, 0.25 * PI, 400.0, PI / 9.0);
    let joint = (r1 * i1.sin(), r1 * (1.0 - i1.cos()));
    let end = (
        joint.0 + r2 * ((i1 + i2).sin() - i1.sin()),
        joint.1 + r2 * (i1.cos() - (i1 + i2).cos()),
    );
    let solved = solved(onward(&[(0., 0.), joint, end]));
    let chain = line(&solved);
    near(chain.pieces()[0].length(), 471.238_898, 1e-6);
    near(chain.pieces()[1].length(), 139.626_340, 1e-6);
    near(chain.start().distance(chain.end()), 581.195_687, 1e-6);
    // Where the tangents of both ends meet, by walking back from the end.
    let back = chain.pieces()[1].end_direction().unit();
    let t2 = chain.end().y / back.y;
    near(t2, 319.462_486, 1e-6);
    near(chain.end().x - t2 * back.x, 368.933_790, 1e-6);
}

#[test]
fn an_onward_bend_straight_ahead_is_a_straight() {
    let solved = solved(onward(&[(0., 0.), (4., 0.), (7., 0.)]));
    near(line(&solved).length(), 7.0, 1e-12);
    assert!(bends(&solved).is_empty());
}

#[test]
fn on_a_closed_path_the_first_onward_bend_leaves_from_the_last_leg() {
    // A straight back west along the top, an onward half circle down, and so round a stadium.
    let points = [(0., 2.), (0., 0.), (5., 0.), (5., 2.)];
    let legs = vec![
        Shape::Onward,
        Shape::Straight,
        Shape::Onward,
        Shape::Straight,
    ];
    let solved = solved(route(&points, legs));
    let chain = line(&solved);
    near(chain.length(), 10.0 + 2.0 * PI, 1e-12);
    for joint in 0..4 {
        assert!(chain.corner(joint).abs() < 1e-12);
    }
    near(chain.enclosed_area(), 10.0 + PI, 1e-12);
}

#[test]
fn onward_bends_alone_run_round_a_closed_path_from_the_start_direction() {
    let points = [(0., 0.), (1., 1.), (0., 2.), (-1., 1.)];
    let route = Route {
        closed: true,
        start_direction: Some(Heading::Angle(0.0)),
        ..route(&points, vec![Shape::Onward; 4])
    };
    let solved = solved(route);
    let chain = line(&solved);
    near(chain.length(), 2.0 * PI, 1e-12);
    assert!(chain.is_closed() && chain.corner(0).abs() < 1e-12);
}
