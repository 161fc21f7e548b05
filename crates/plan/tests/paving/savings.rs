//! A few centimetres that save cuts.

use plan::count::paving::{Bond, Course, Lay, savings};
use plan::document::{Route, Shape};
use plan::units::Graduation;

use crate::common::{plan_of, route};
use crate::{blocks, near, tight, wide};

fn found(route: &Route, course: &Course) -> plan::count::paving::Savings {
    savings(
        &plan_of(route.clone()),
        route,
        course,
        Graduation::FiveMillimetres,
    )
    .unwrap()
}

#[test]
fn a_row_too_narrow() {
    let path = |width: f64| wide(width, route(&[(0., 0.), (4., 0.)], vec![Shape::Straight]));
    let savings = found(&path(1.03), &tight(Bond::Stack));
    assert_eq!((savings.now.cut, savings.now.slivers), (20, 20));
    let fewest = savings.fewest.unwrap();
    near(fewest.width, 1.0, 1e-9);
    assert_eq!(fewest.cut, 0);
    let courses = savings.courses.unwrap();
    near(courses.width, 1.0, 1e-9);
    assert_eq!(courses.courses, 10);
    // With play in the joints 1.025 m is as good, and nearer.
    let fewest = found(&path(1.03), &blocks(Bond::Stack)).fewest.unwrap();
    near(fewest.width, 1.025, 1e-9);
    // Nothing is better than none.
    assert!(found(&path(1.0), &tight(Bond::Stack)).fewest.is_none());
}

#[test]
fn a_bend_too_tight() {
    // c 6, h 1: R 5, inner face of the inner course 4.4 m. Soldiers of 98 by 198 mm with joints
    // of 2 to 5 mm follow 0.198 × 0.1 / 0.003 = 6.6 m.
    let path = wide(1.2, route(&[(0., 0.), (6., 0.)], vec![Shape::bend(1.0)]));
    let edged = Course {
        edges: Some(Lay::Soldier),
        ..blocks(Bond::Running)
    };
    let hints = found(&path, &edged).bends;
    assert_eq!(hints.len(), 1);
    near(hints[0].radius, 5.0, 1e-9);
    near(hints[0].least_radius, 7.2, 1e-9);
}

#[test]
fn fewer_cuts_are_what_a_count_finds() {
    let path = wide(
        1.2,
        route(
            &[(0., 0.), (6., 0.), (9., 3.)],
            vec![Shape::Straight, Shape::bend(0.6)],
        ),
    );
    let course = blocks(Bond::Running);
    if let Some(fewest) = found(&path, &course).fewest {
        let again = crate::paved(&wide(fewest.width, path), &course);
        assert_eq!((again.cut, again.slivers), (fewest.cut, fewest.slivers));
    }
}
