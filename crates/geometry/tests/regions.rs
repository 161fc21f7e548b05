//! Regions of several rings, and lattices over them.
#![allow(clippy::unwrap_used, reason = "a test may panic")]

use std::f64::consts::PI;

use geometry::{Arc, Chain, Direction, Lattice, Line, Piece, Point, Region};
use proptest::prelude::*;

fn circle(centre: Point, radius: f64) -> Chain {
    let ends = [
        Point::new(centre.x - radius, centre.y),
        Point::new(centre.x + radius, centre.y),
    ];
    let half = |from, to| Piece::Arc(Arc::from_rise(from, to, -radius).unwrap());
    Chain::new(vec![half(ends[0], ends[1]), half(ends[1], ends[0])], true).unwrap()
}

fn polygon(corners: &[(f64, f64)]) -> Chain {
    let at = |i: usize| Point::new(corners[i % corners.len()].0, corners[i % corners.len()].1);
    let sides = (0..corners.len()).map(|i| Piece::Line(Line::new(at(i), at(i + 1)).unwrap()));
    Chain::new(sides.collect(), true).unwrap()
}

fn rectangle(west: f64, south: f64, east: f64, north: f64) -> Chain {
    polygon(&[(west, south), (east, south), (east, north), (west, north)])
}

fn any(held: &[bool]) -> bool {
    held.contains(&true)
}

#[track_caller]
fn near(actual: f64, expected: f64, within: f64) {
    assert!(
        (actual - expected).abs() <= within,
        "{actual}, not {expected}"
    );
}

#[track_caller]
fn check_union(rings: &[Chain], area: f64, perimeter: f64) {
    for rings in [
        rings.to_vec(),
        rings.iter().rev().map(Chain::reversed).collect(),
    ] {
        let region = Region::of(&rings, any);
        near(region.area(), area, 1e-9);
        near(region.perimeter(), perimeter, 1e-6);
    }
}

#[test]
fn rings_that_share_sides() {
    let square = rectangle(0., 0., 2., 2.);
    check_union(std::slice::from_ref(&square), 4.0, 8.0);
    check_union(&[square.clone(), square.clone()], 4.0, 8.0);
    check_union(&[square.clone(), rectangle(2., 0., 3., 2.)], 6.0, 10.0);
    check_union(&[square.clone(), rectangle(0.5, 0., 1.5, 2.)], 4.0, 8.0);
    check_union(&[square.clone(), rectangle(0.5, 0., 1.5, 3.)], 5.0, 10.0);
    check_union(&[square.clone(), rectangle(2., 2., 3., 3.)], 5.0, 12.0);
    // A circle that touches three sides.
    check_union(
        &[square.clone(), circle(Point::new(1.0, 1.0), 1.0)],
        4.0,
        8.0,
    );
    let cap = rectangle(-9., -9., -8., -8.);
    check_union(&[square, cap], 5.0, 12.0);
}

#[test]
fn what_one_holds_and_another_does_not() {
    let (outer, inner) = (circle(Point::ORIGIN, 2.0), circle(Point::ORIGIN, 1.0));
    let ring = Region::of(&[outer, inner], |held| held[0] && !held[1]);
    near(ring.area(), 3.0 * PI, 1e-12);
    near(ring.perimeter(), 6.0 * PI, 1e-12);
    let gone = Region::of(&[rectangle(0., 0., 1., 1.)], |_| false);
    assert!(gone.border().is_empty());
    near(gone.area(), 0.0, 0.0);
}

#[test]
fn an_open_chain_holds_nothing() {
    let open = Chain::new(rectangle(0., 0., 1., 1.).pieces()[..3].to_vec(), false).unwrap();
    let square = rectangle(5., 0., 6., 1.);
    let region = Region::of(&[open, square], |held| held[0] || held[1]);
    near(region.area(), 1.0, 1e-12);
}

#[test]
fn cells_of_a_triangle_by_hand() {
    // Half of a square of 3 by 3 cells: three whole below the diagonal, three halved.
    let triangle = Region::of(&[polygon(&[(0., 0.), (3., 0.), (3., 3.)])], any);
    let lattice = Lattice::new(Point::ORIGIN, Direction::EAST, [1.0; 2], [0.0; 2], 0.0).unwrap();
    let cover = lattice.cover(&triangle);
    assert_eq!(cover.whole, 3);
    let cells: Vec<_> = cover
        .parts
        .iter()
        .map(|part| (part.row, part.column))
        .collect();
    assert_eq!(cells, [(0, 0), (1, 1), (2, 2)]);
    for part in &cover.parts {
        near(part.share, 0.5, 1e-12);
        near(part.extent[0], 1.0, 1e-12);
        near(part.extent[1], 1.0, 1e-12);
    }
}

#[test]
fn what_is_no_lattice() {
    let lattice = |cell, gap, stagger| {
        Lattice::new(
            Point::ORIGIN,
            Direction::EAST,
            [cell, 1.0],
            [gap, 0.0],
            stagger,
        )
    };
    assert!(lattice(1.0, 0.0, 0.5).is_some());
    for (cell, gap, stagger) in [
        (0.0, 0.0, 0.0),
        (-1.0, 0.0, 0.0),
        (1.0, -0.1, 0.0),
        (f64::NAN, 0.0, 0.0),
        (1.0, f64::INFINITY, 0.0),
        (1.0, 0.0, f64::NAN),
    ] {
        assert!(
            lattice(cell, gap, stagger).is_none(),
            "{cell} {gap} {stagger}"
        );
    }
}

proptest! {
    /// A ∪ B = A + B − A ∩ B, what both share being found in another way.
    #[test]
    fn a_circle_and_a_bed(
        corners in (0.5..3.0_f64, 0.5..3.0_f64, 0.5..3.0_f64, 0.5..3.0_f64),
        (x, y, radius) in (-3.0..3.0_f64, -3.0..3.0_f64, 0.2..3.0_f64),
        rise in 0.1..0.6_f64,
    ) {
        let (east, north, west, south) = corners;
        let at = [
            Point::new(east, 0.0), Point::new(0.0, north), Point::new(-west, 0.0), Point::new(0.0, -south),
        ];
        // One side bulges out, the others are straight.
        let mut sides = vec![Piece::Arc(Arc::from_rise(at[0], at[1], -rise).unwrap())];
        sides.extend((1..4).map(|i| Piece::Line(Line::new(at[i], at[(i + 1) % 4]).unwrap())));
        let bed = Chain::new(sides, true).unwrap();
        let centre = Point::new(x, y);
        let (area, round) = (bed.enclosed_area(), PI * radius * radius);
        let shared = bed.area_in_circle(centre, radius);
        let rings = [bed, circle(centre, radius)];
        near(Region::of(&rings, any).area(), area + round - shared, 1e-6);
        near(Region::of(&rings, |held| held[0] && !held[1]).area(), area - shared, 1e-6);
        near(Region::of(&rings, |held| held[0] && held[1]).area(), shared, 1e-6);
    }

    /// Cells without gaps cover a region, however they lie.
    #[test]
    fn cells_cover_a_circle(
        (x, y, radius) in (-3.0..3.0_f64, -3.0..3.0_f64, 0.2..3.0_f64),
        angle in -3.0..3.0_f64,
        cell in (0.1..1.0_f64, 0.1..1.0_f64),
        stagger in 0.0..1.0_f64,
    ) {
        let region = Region::of(&[circle(Point::new(x, y), radius)], any);
        let along = Direction::at_angle(angle).unwrap();
        let lattice = Lattice::new(Point::ORIGIN, along, [cell.0, cell.1], [0.0; 2], stagger).unwrap();
        let cover = lattice.cover(&region);
        let shares: f64 = cover.parts.iter().map(|part| part.share).sum();
        let covered = (cover.whole as f64 + shares) * cell.0 * cell.1;
        // Each cell that is crossed may be off by what counts as none or all of it.
        let within = geometry::FLUSH * cell.0 * cell.1 * (cover.parts.len() + 4) as f64;
        near(covered, PI * radius * radius, within);
        for part in &cover.parts {
            prop_assert!(part.share * cell.0 * cell.1 <= part.extent[0] * part.extent[1] + 1e-9);
            prop_assert!(part.extent[0] <= cell.0 + 1e-9 && part.extent[1] <= cell.1 + 1e-9);
        }
    }
}
