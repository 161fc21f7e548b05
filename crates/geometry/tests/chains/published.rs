//! Published values of arcs, chains and distances.

use std::f64::consts::PI;

use geometry::{Arc, Chain, Line, Piece, Point};

use super::making::chain;

/// An arc through three points.
fn arc(points: [(f64, f64); 3]) -> Arc {
    let [start, on, end] = points.map(|(x, y)| Point::new(x, y));
    match Arc::through(start, on, end) {
        Ok(arc) => arc,
        Err(why) => panic!("{why}"),
    }
}

fn one(arc: Arc) -> Chain {
    chain(vec![Piece::Arc(arc)], false)
}

#[track_caller]
fn near(actual: f64, expected: f64, tolerance: f64) {
    assert!(
        (actual - expected).abs() <= tolerance,
        "{actual} for {expected}"
    );
}

/// Distances from a chain to points, to the tolerance of the source's tests, 1e-6.
#[track_caller]
fn check_distances(chain: &Chain, rows: &[((f64, f64), f64)]) {
    for ((x, y), expected) in rows {
        let found = chain.nearest(Point::new(*x, *y));
        near(found.distance, *expected, 1e-6);
        assert!(found.point.distance(chain.point_at(found.station)) < 1e-12);
    }
}

// Source of the distances and lengths: postgis/postgis, liblwgeom/cunit/cu_measures.c and
// regress/core (ticket 3774), unless said.

#[test]
fn point_to_half_circle() {
    let root = 2.0_f64.sqrt();
    check_distances(
        &one(arc([(-1., 0.), (0., 1.), (1., 0.)])),
        &[
            ((0., 0.5), 0.5),
            ((0., 1.5), 0.5),
            ((0., -1.), root),
            ((1., 1.), root - 1.0),
            ((0., 0.), 1.0),
            ((1., 0.), 0.0),
            ((root, root), 1.0),
        ],
    );
    check_distances(
        &one(arc([(0., 0.), (-1., 5.), (0., 10.)])),
        &[((-0.5, 5.), 0.5)],
    );
}

#[test]
fn point_to_a_closed_chain_of_four_arcs() {
    let arcs = [
        [(-1., -1.), (-2., 0.), (-1., 1.)],
        [(-1., 1.), (0., 2.), (1., 1.)],
        [(1., 1.), (2., 0.), (1., -1.)],
        [(1., -1.), (0., -2.), (-1., -1.)],
    ];
    let lobes = chain(arcs.map(|points| Piece::Arc(arc(points))).to_vec(), true);
    let root = 2.0_f64.sqrt();
    check_distances(
        &lobes,
        &[
            ((0., 0.), root),
            ((-1., 0.), 1.0),
            ((-1.5, 0.), 0.5),
            ((-2.5, 0.), 0.5),
            ((0., -2.5), 0.5),
            ((1., 2.), root - 1.0),
        ],
    );
    // Closed forms: a square of side 2 and four half circles of radius 1.
    near(lobes.enclosed_area(), -(4.0 + 2.0 * PI), 1e-12);
    near(lobes.length(), 4.0 * PI, 1e-12);
    assert!(lobes.self_crossings().is_empty());
}

#[test]
fn a_square_and_a_circle_apart() {
    // Source: the same tests: square 0..4 and a circle of radius 1 about (6, 7): 2.60555.
    let corners = [(0., 0.), (4., 0.), (4., 4.), (0., 4.), (0., 0.)].map(|(x, y)| Point::new(x, y));
    let sides = corners
        .windows(2)
        .map(|p| Piece::Line(Line::new(p[0], p[1]).unwrap()));
    let square = chain(sides.collect(), true);
    near(
        square.nearest(Point::new(6., 7.)).distance - 1.0,
        2.605_551_275,
        1e-9,
    );
}

#[test]
fn lengths() {
    near(arc([(-1., 0.), (0., 1.), (1., 0.)]).length(), PI, 1e-12);
    near(
        arc([(-1., 0.), (1., 0.), (0., -1.)]).length(),
        1.5 * PI,
        1e-12,
    );
    near(
        arc([(0., -1.), (1., 0.), (-1., 0.)]).length(),
        1.5 * PI,
        1e-12,
    );
    let hump = arc([(0., 0.), (1., 1.), (2., 0.)]);
    let tail = Line::new(Point::new(2., 0.), Point::new(4., 0.)).unwrap();
    near(
        chain(vec![Piece::Arc(hump), Piece::Line(tail)], false).length(),
        PI + 2.0,
        1e-12,
    );
    // Source: GDAL node binding test, 11.5911 ± 0.001; recomputed 11.591190.
    near(
        arc([(-5., 0.), (0., 2.5), (5., 0.)]).length(),
        11.591_190,
        5e-7,
    );
}

#[test]
fn a_share_of_an_arc() {
    // Source: gsinclair/rgeom, test/shapes/arc-complex.rb.
    let half = Arc::about(
        Point::new(3., 1.),
        Point::new(6., 1.),
        Point::new(0., 1.),
        true,
    )
    .unwrap();
    let found = half.point_at(0.6 * half.length());
    assert!(found.distance(Point::new(2.072_949_017, 3.853_169_549)) < 1e-8);
    let at = |degrees: f64| {
        let (sine, cosine) = geometry::angle::from_degrees(degrees).sin_cos();
        Point::new(cosine, sine)
    };
    let round = Arc::about(Point::ORIGIN, at(310.), at(195.), true).unwrap();
    near(geometry::angle::to_degrees(round.sweep()), 245.0, 1e-9);
    let found = round.point_at(0.217 * round.length());
    assert!(found.distance(Point::new(0.998_474_677_3, 0.055_211_581_86)) < 1e-8);
    // The box takes in the farthest points at 0°, 90° and 180°.
    let bounds = round.bounds();
    assert!(bounds.low.distance(Point::new(-1., -0.766_044)) < 1e-6);
    assert!(bounds.high.distance(Point::new(1., 1.)) < 1e-12);
}
