//! Courses about a swing point, counted by hand.

use std::f64::consts::PI;

use plan::count::paving::{Bond, Course, Fit, Joints, Lay};
use plan::document::{Route, Shape};

use crate::common::route;
use crate::{near, paved, tight, wide};

/// A full circle, its centre line of this radius.
fn ring(radius: f64, width: f64) -> Route {
    let ends = [(-radius, 0.), (radius, 0.)];
    wide(width, route(&ends, vec![Shape::bend(radius); 2]))
}

fn soldiers(least: f64, usual: f64, most: f64) -> Course {
    Course {
        joints: Joints { least, usual, most },
        ..tight(Bond::Radial(Lay::Soldier))
    }
}

#[test]
fn a_ring_of_soldiers() {
    // Inner face 6.0 m, outer 6.2 m: 2π 6.2 / 0.106 = 367.5 to 2π 6.0 / 0.102 = 369.6 units. With
    // the usual 3 mm in the middle, 2π 6.1 / 0.103 = 372.1: joints close as far as they may.
    let paving = paved(&ring(6.1, 0.2), &soldiers(0.002, 0.003, 0.006));
    assert_eq!((paving.whole, paving.cut), (369, 0));
    let bends = &paving.courses[0].bends;
    assert_eq!(bends.len(), 2);
    for bend in bends {
        near(bend.inner_radius, 6.0, 1e-9);
        near(bend.least_radius, 5.1, 1e-9);
        near(bend.units, PI * 6.0 / 0.102, 1e-9);
        let Fit::Whole {
            inner_joint,
            outer_joint,
        } = bend.fit
        else {
            panic!("{bend:?}");
        };
        near(inner_joint, 0.002, 1e-12);
        near(outer_joint, 0.102 * 6.2 / 6.0 - 0.1, 1e-12);
    }
    near(paving.laid, 369.0 * 0.02, 1e-9);
}

#[test]
fn a_bend_just_above_and_just_below_the_least_radius() {
    let course = soldiers(0.002, 0.004, 0.006);
    let whole = |inner: f64| {
        let paving = paved(&ring(inner + 0.1, 0.2), &course);
        matches!(paving.courses[0].bends[0].fit, Fit::Whole { .. })
    };
    assert!(whole(5.101) && !whole(5.099));
}

#[test]
fn too_tight_for_whole_units() {
    // Inner 2.0 m, outer 2.2 m, joints of 4 mm: π 2.2 / 0.104 = 66.5 on each half, 67 of them cut.
    let paving = paved(&ring(2.1, 0.2), &soldiers(0.002, 0.004, 0.006));
    let bend = paving.courses[0].bends[0];
    let Fit::Taper { inner_width } = bend.fit else {
        panic!("{bend:?}");
    };
    near(inner_width, 0.104 * 2.0 / 2.2 - 0.004, 1e-12);
    near(bend.units, PI * 2.2 / 0.104, 1e-9);
    assert_eq!(paving.cut, paving.ordered);
    assert_eq!(paving.ordered, 133);
    assert_eq!(paving.slivers, 0);
    // A ring of 0.15 m inner radius leaves 40.57 mm of 100; of 0.14 m, 38.8 mm.
    let leaves =
        |inner: f64| paved(&ring(inner + 0.1, 0.2), &soldiers(0.002, 0.004, 0.006)).slivers;
    // The unit that closes a ring may be one.
    assert!(leaves(0.15) <= 1);
    assert!(leaves(0.14) > 10 - 1);
}

#[test]
fn joints_follow_the_bend_that_turns_either_way() {
    let bend = |rise: f64| wide(1.016, route(&[(0., 0.), (6., 0.)], vec![Shape::bend(rise)]));
    let course = soldiers(0.002, 0.004, 0.006);
    let (one, other) = (paved(&bend(0.4), &course), paved(&bend(-0.4), &course));
    assert_eq!(one.ordered, other.ordered);
    assert_eq!(one.cut, other.cut);
    let radius =
        |paving: &plan::count::paving::Paving, at: usize| paving.courses[at].bends[0].inner_radius;
    let last = one.courses.len() - 1;
    near(radius(&one, 0), radius(&other, last), 1e-9);
    // Five courses and four joints of 4 mm. c 6, h 0.4: R 11.45; the inner edge has 10.942 m.
    near(radius(&one, 0).min(radius(&one, last)), 10.942, 1e-9);
}

#[test]
fn a_corner_is_mitred() {
    let corner = |width: f64| {
        wide(
            width,
            route(&[(0., 0.), (4., 0.), (4., 4.)], vec![Shape::Straight; 2]),
        )
    };
    // One course 0.2 m wide: 4.1 m outside on either leg, 41 each, of which two meet in the mitre.
    let paving = paved(&corner(0.2), &tight(Bond::Radial(Lay::Soldier)));
    assert_eq!((paving.ordered, paving.cut), (82, 2));
    // Two courses of 0.2 m: the right one lies outside the corner, 4.2 m on either leg; the left one
    // inside, 4.0 m.
    let paving = paved(&corner(0.4), &tight(Bond::Radial(Lay::Soldier)));
    let units: Vec<usize> = paving.courses.iter().map(|course| course.units).collect();
    assert_eq!(units, [84, 80]);
    // What the mitres take of it: in each course twice a triangle of 0.2 by 0.2 m.
    near(paving.laid, 164.0 * 0.02 - 4.0 * 0.02, 1e-9);
    near(paving.laid, 0.4 * 8.0, 1e-9);
    // A turn of half a degree opens 0.2 m of joint by 1.75 mm, which joints of 2 to 6 mm take up; of
    // two degrees by 7 mm.
    let kink = |degrees: f64| {
        let (sin, cos) = geometry::angle::from_degrees(degrees).sin_cos();
        let ends = [(0., 0.), (4., 0.), (4. + 4. * cos, 4. * sin)];
        let path = wide(0.2, route(&ends, vec![Shape::Straight; 2]));
        paved(&path, &soldiers(0.002, 0.004, 0.006)).cut
    };
    assert_eq!((kink(0.5), kink(2.0)), (0, 2));
}
