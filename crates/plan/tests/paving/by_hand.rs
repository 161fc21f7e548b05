//! Outlines that can be counted on squared paper.

use plan::count::paving::{Bond, Course, Grid, Lay};
use plan::document::{PadShape, Route, Shape, Side};

use crate::common::route;
use crate::{blocks, near, pad, paved, tight, wide};

fn straight(length: f64, width: f64) -> Route {
    wide(
        width,
        route(&[(0., 0.), (length, 0.)], vec![Shape::Straight]),
    )
}

/// Whole, cut, slivers, to order, to order with offcuts.
#[track_caller]
fn check(route: &Route, course: &Course, expected: [usize; 5]) {
    let paving = paved(route, course);
    let found = [
        paving.whole,
        paving.cut,
        paving.slivers,
        paving.ordered,
        paving.ordered_reusing,
    ];
    assert_eq!(found, expected, "{paving:?}");
}

#[test]
fn a_square_metre() {
    check(&straight(1.0, 1.0), &tight(Bond::Stack), [50, 0, 0, 50, 50]);
    check(
        &straight(1.0, 1.0),
        &blocks(Bond::Stack),
        [50, 0, 0, 50, 50],
    );
    // In every other row two halves. Without play in the joints the saw's 3 mm spoil the second.
    check(
        &straight(1.0, 1.0),
        &tight(Bond::Running),
        [45, 10, 0, 55, 55],
    );
    check(
        &straight(1.0, 1.0),
        &blocks(Bond::Running),
        [45, 10, 0, 55, 50],
    );
}

#[test]
fn a_last_row_split() {
    // 1.05 m: ten rows and half a row of five, 50 mm each.
    check(
        &straight(1.0, 1.05),
        &tight(Bond::Stack),
        [50, 5, 0, 55, 55],
    );
    // 1.03 m: 30 mm are slivers, and one unit gives two.
    check(
        &straight(1.0, 1.03),
        &tight(Bond::Stack),
        [50, 5, 5, 55, 53],
    );
    let split = paved(&straight(1.0, 1.03), &tight(Bond::Stack));
    near(split.laid, 1.03, 1e-9);
    near(split.waste, 5.0 * 0.2 * 0.07, 1e-9);
}

#[test]
fn offcuts_serve_again() {
    // Rows 1.06 m long end in 60 mm: three would do from one, but an offcut serves once.
    let course = Course {
        grid: Grid::From(Side::Left),
        ..tight(Bond::Stack)
    };
    let paving = paved(&straight(1.06, 1.0), &course);
    assert_eq!((paving.whole, paving.cut), (50, 10));
    assert_eq!((paving.ordered, paving.ordered_reusing), (60, 55));
    near(paving.waste, 10.0 * 0.14 * 0.1, 1e-9);
    near(paving.waste_reusing, (5.0 * 0.2 - 10.0 * 0.06) * 0.1, 1e-9);
}

#[test]
fn a_joint_on_the_outline_cuts_nothing() {
    // 5 × 198 + 4 × 2 = 998 along, 10 × 98 + 9 × 2 = 998 across.
    let course = blocks(Bond::Stack);
    check(&straight(0.998, 0.998), &course, [50, 0, 0, 50, 50]);
    // Across, nine joints opened from 2 to 5 mm fill 1.025 m; along a last unit begins at 1.000.
    check(&straight(0.998, 1.025), &course, [50, 0, 0, 50, 50]);
    check(&straight(0.998, 1.026), &course, [50, 5, 5, 55, 53]);
}

#[test]
fn a_landing_is_paved_with_the_path() {
    // 1 m by 1 m in the middle of 3 m by 0.4 m: 0.2 m more on either side.
    let landing = pad(
        1.5,
        PadShape::Rectangle {
            along: 1.0,
            across: 0.8,
        },
    );
    let with = Route {
        pads: vec![landing],
        ..straight(3.0, 0.4)
    };
    check(&straight(3.0, 0.4), &tight(Bond::Stack), [60, 0, 0, 60, 60]);
    check(&with, &tight(Bond::Stack), [80, 0, 0, 80, 80]);
    // As wide as the path, it adds nothing.
    let within = Route {
        pads: vec![pad(
            1.5,
            PadShape::Rectangle {
                along: 1.0,
                across: 0.4,
            },
        )],
        ..straight(3.0, 0.4)
    };
    check(&within, &tight(Bond::Stack), [60, 0, 0, 60, 60]);
    let round = Route {
        pads: vec![pad(1.5, PadShape::Circle { diameter: 0.4 })],
        ..straight(3.0, 0.4)
    };
    check(&round, &tight(Bond::Stack), [60, 0, 0, 60, 60]);
}

#[test]
fn courses_along_the_edges() {
    // 2 m by 1 m: soldiers of 200 mm along both edges, 20 each, and 0.6 m of 6 rows of 10.
    let course = Course {
        edges: Some(Lay::Soldier),
        ..tight(Bond::Stack)
    };
    check(&straight(2.0, 1.0), &course, [100, 0, 0, 100, 100]);
    // Stretchers: 10 each, and 0.8 m of 8 rows of 10.
    let course = Course {
        edges: Some(Lay::Stretcher),
        ..tight(Bond::Stack)
    };
    check(&straight(2.0, 1.0), &course, [100, 0, 0, 100, 100]);
    let landing = Route {
        pads: vec![pad(
            1.0,
            PadShape::Rectangle {
                along: 1.2,
                across: 1.4,
            },
        )],
        ..straight(2.0, 1.0)
    };
    check(&landing, &course, [124, 0, 0, 124, 124]);
}

#[test]
fn courses_all_across() {
    let course = tight(Bond::Radial(Lay::Stretcher));
    check(&straight(2.0, 1.0), &course, [100, 0, 0, 100, 100]);
    let course = tight(Bond::Radial(Lay::Soldier));
    check(&straight(2.0, 1.0), &course, [100, 0, 0, 100, 100]);
    // A last course of 50 mm is cut lengthwise.
    let course = tight(Bond::Radial(Lay::Stretcher));
    check(&straight(2.0, 1.05), &course, [100, 10, 0, 110, 110]);
    check(&straight(2.0, 1.03), &course, [100, 10, 10, 110, 110]);
}
