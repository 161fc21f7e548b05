//! What cannot be paved, and the sentence that says so.

use geometry::{Direction, Point};
use plan::count::paving::{Bond, Course, Grid, Joints, Lay, PavingError, Unit, count};
use plan::document::{Route, Shape};

use crate::common::route;
use crate::{blocks, solved, tight, wide};

fn path() -> Route {
    route(&[(0., 0.), (6., 0.)], vec![Shape::bend(0.5)])
}

#[track_caller]
fn check(route: &Route, course: &Course, expected: &str) {
    let error = count(&solved(route), course).unwrap_err();
    let sentence = error.to_string();
    assert!(sentence.contains(expected), "{sentence}");
}

#[test]
fn sizes_that_are_none() {
    for side in [0.0, -0.1, f64::NAN, f64::INFINITY] {
        let unit = Unit {
            length: 0.2,
            width: side,
        };
        check(
            &path(),
            &Course {
                unit,
                ..blocks(Bond::Stack)
            },
            "sides above zero",
        );
    }
    for [least, usual, most] in [
        [0.003, 0.002, 0.005],
        [0.002, 0.006, 0.005],
        [-0.001, 0.002, 0.005],
        [f64::NAN, 0.002, 0.005],
        [0.002, 0.002, f64::INFINITY],
    ] {
        let joints = Joints { least, usual, most };
        check(
            &path(),
            &Course {
                joints,
                ..blocks(Bond::Stack)
            },
            "joints go from",
        );
    }
    for origin in [
        Point::new(f64::NAN, 0.0),
        Point::new(0.0, 1e300),
        Point::new(-1e6, 0.0),
    ] {
        let along = Direction::EAST;
        let grid = Grid::At { origin, along };
        check(
            &path(),
            &Course {
                grid,
                ..blocks(Bond::Stack)
            },
            "origin",
        );
    }
}

#[test]
fn paths_that_have_no_ground() {
    check(
        &route(&[(0., 0.)], Vec::new()),
        &blocks(Bond::Running),
        "no two edges",
    );
    // A bend tighter than half the width.
    let tight_bend = wide(3.0, route(&[(0., 0.), (2., 0.)], vec![Shape::bend(1.0)]));
    check(&tight_bend, &blocks(Bond::Running), "no two edges");
    let narrow = wide(0.4, path());
    let edged = Course {
        edges: Some(Lay::Soldier),
        ..blocks(Bond::Running)
    };
    check(&narrow, &edged, "leave them out");
}

#[test]
fn more_than_can_be_counted() {
    let mosaic = Course {
        unit: Unit {
            length: 0.001,
            width: 0.001,
        },
        ..tight(Bond::Stack)
    };
    let far = route(&[(0., 0.), (9000., 0.)], vec![Shape::Straight]);
    for course in [
        mosaic,
        Course {
            bond: Bond::Radial(Lay::Soldier),
            ..mosaic
        },
    ] {
        let found = count(&solved(&far), &course);
        assert!(matches!(found, Err(PavingError::TooMany(_))), "{found:?}");
    }
    // Threads a kilometre long: few to the square metre, but many across.
    let thread = Course {
        unit: Unit {
            length: 1000.0,
            width: 1e-6,
        },
        bond: Bond::Radial(Lay::Stretcher),
        ..mosaic
    };
    check(&path(), &thread, "more than");
    check(
        &path(),
        &Course {
            bond: Bond::Stack,
            ..thread
        },
        "more than",
    );
}
