//! Brute force: every unit near a path looked at point by point.

use std::collections::BTreeSet;

use geometry::{Chain, Lattice, Point};
use plan::count::paving::{Bond, Course, Field, Grid};
use plan::document::{PadShape, Route, Shape};
use proptest::prelude::*;

use crate::common::route;
use crate::laws::paths;
use crate::{blocks, pad, paved, solved};

/// A case asks for half a million points.
const CASES: u32 = 6;

/// So many points along and across each unit.
const FINE: usize = 32;

fn is_ground(rings: &[Chain], pads: &[Chain], at: Point) -> bool {
    let on_path = rings[0].contains(at) && !rings[1..].iter().any(|ring| ring.contains(at));
    on_path || pads.iter().any(|pad| pad.contains(at))
}

/// The share of a cell, by its points.
fn share(lattice: &Lattice, (row, column): (i64, i64), ground: impl Fn(Point) -> bool) -> f64 {
    let [south_west, south_east, _, north_west] = lattice.corners(row, column);
    let (along, across) = (south_east - south_west, north_west - south_west);
    let middle = |i: usize| (i as f64 + 0.5) / FINE as f64;
    let points =
        (0..FINE * FINE).map(|i| south_west + along * middle(i % FINE) + across * middle(i / FINE));
    points.filter(|at| ground(*at)).count() as f64 / (FINE * FINE) as f64
}

fn check(route: &Route, course: &Course) {
    let solved = solved(route);
    let (rings, pads) = (solved.outline(), &solved.pads);
    let Field {
        lattice,
        whole,
        parts,
        ..
    } = paved(route, course).field.unwrap();
    let exact = |cell: (i64, i64)| parts.iter().find(|part| (part.row, part.column) == cell);
    // All cells within reach: the lattice starts on or near the path, which is 12 m long.
    let mut wholly = 0;
    let mut in_part = BTreeSet::new();
    for row in -120..120 {
        for column in -60..100 {
            let corners = lattice.corners(row, column);
            let off = |ring: &Chain| ring.nearest(corners[0]).distance;
            let crossed = rings
                .iter()
                .chain(pads)
                .map(off)
                .fold(f64::INFINITY, f64::min)
                < 0.25;
            let middle = corners[0].middle(corners[2]);
            if !crossed {
                wholly += usize::from(is_ground(&rings, pads, middle));
                continue;
            }
            let share = share(&lattice, (row, column), |at| is_ground(&rings, pads, at));
            match exact((row, column)) {
                Some(part) => {
                    in_part.insert((row, column));
                    // A line across a cell is off by at most a column of points.
                    assert!(
                        (part.share - share).abs() < 2.0 / FINE as f64,
                        "{part:?} {share}"
                    );
                    assert!(part.extent[0] * part.extent[1] >= part.share * 0.198 * 0.098 - 1e-9);
                }
                None if share > 0.5 => {
                    assert!(share >= 1.0, "({row}, {column}): {share} but whole");
                    wholly += 1;
                }
                None => assert!(share <= 0.0, "({row}, {column}): {share} but none"),
            }
        }
    }
    assert_eq!(wholly, whole);
    assert_eq!(in_part.len(), parts.len());
}

#[test]
fn a_ring_is_what_its_points_say() {
    // Two half circles about a bed 2 m across, with a passing place over its inner edge.
    let ring = route(&[(0., 0.), (3.2, 0.)], vec![Shape::bend(1.6); 2]);
    let landing = pad(1.0, PadShape::Circle { diameter: 1.5 });
    check(&ring, &blocks(Bond::Running));
    let with = Route {
        pads: vec![landing],
        ..ring
    };
    check(&with, &blocks(Bond::Stack));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(CASES))]

    #[test]
    fn every_unit_is_what_its_points_say(route in paths(), running in any::<bool>()) {
        let bond = if running { Bond::Running } else { Bond::Stack };
        check(&route, &blocks(bond));
        let grid = Grid::At {
            origin: Point::new(0.01, -0.02),
            along: geometry::Direction::at_angle(0.7).unwrap(),
        };
        check(&route, &Course { grid, ..blocks(bond) });
    }
}
