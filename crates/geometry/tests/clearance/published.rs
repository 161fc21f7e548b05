//! Published distances between straights, arcs and chains of them.

use geometry::{Arc, Chain, Core, Line, Patch, Piece, Point};

use super::making::chain;

type Xy = (f64, f64);

fn line(from: Xy, to: Xy) -> Piece {
    Piece::Line(Line::new(Point::new(from.0, from.1), Point::new(to.0, to.1)).unwrap())
}

fn arc(start: Xy, on: Xy, end: Xy) -> Piece {
    let point = |(x, y): Xy| Point::new(x, y);
    Piece::Arc(Arc::through(point(start), point(on), point(end)).unwrap())
}

/// To the tolerance of the source's own tests, 1e-6 unless said, both ways round, and as chains.
#[track_caller]
fn check_to(tolerance: f64, one: Piece, other: Piece, expected: f64) {
    for (a, b) in [
        (one, other),
        (other, one),
        (one.reversed(), other),
        (one, other.reversed()),
    ] {
        let gap = a.gap(&b);
        let whole = chain(vec![a], false).gap(&chain(vec![b], false));
        for distance in [
            gap.distance,
            gap.from.distance(gap.to),
            whole.distance,
            whole.from.distance(whole.to),
        ] {
            assert!(
                (distance - expected).abs() <= tolerance,
                "{distance} for {expected}"
            );
        }
    }
}

#[track_caller]
fn check(one: Piece, other: Piece, expected: f64) {
    check_to(1e-6, one, other, expected);
}

fn root() -> f64 {
    2.0_f64.sqrt()
}

// Source of all rows, unless said: postgis/postgis, liblwgeom/cunit/cu_measures.c at b2d575041cbb.

#[test]
fn segment_to_half_circle() {
    let half = arc((-1., 0.), (0., 1.), (1., 0.));
    check(line((-2., 2.), (2., 2.)), half, 1.0);
    check(line((0., 0.), (0., 0.5)), half, 0.5);
    check(line((-2., 1.), (2., 1.)), half, 0.0);
    check(line((1., 1.), (2., 1.)), half, root() - 1.0);
    check(line((0., 0.), (2., 2.)), half, 0.0);
    check(line((-1., 1.), (-2., 2.)), half, root() - 1.0);
}

#[test]
fn arc_to_half_circle() {
    let half = arc((-1., 0.), (0., 1.), (1., 0.));
    check(arc((0., 0.5), (-0.3, 0.5), (0., 0.6)), half, 0.271_798_404);
    check(arc((-0.5, 0.5), (-0.4, 0.2), (0., 0.)), half, 0.292_893_219);
    check(arc((-1., 3.), (0., 2.), (1., 3.)), half, 1.0);
    check(arc((-1., 2.), (0., 1.), (1., 2.)), half, 0.0);
    check(arc((-1., 1.), (0., 2.), (1., 1.)), half, root() - 1.0);
    check(arc((-2., 0.), (0., 2.), (2., 0.)), half, 1.0);
    // A whole circle on the diameter (−2, −0.1) (1.5, −0.1): the nearer of its halves.
    let halves = [(-0.25, 1.65), (-0.25, -1.85)].map(|on| arc((-2., -0.1), on, (1.5, -0.1)));
    let whole = chain(vec![halves[0], halves[1].reversed()], true);
    let gap = whole.gap(&chain(vec![half], false));
    assert!((gap.distance - 0.480_741_760).abs() < 1e-6, "{gap:?}");
}

#[test]
fn arc_to_a_great_half_circle() {
    let half = arc((-10., 0.), (0., 10.), (10., 0.));
    check(arc((-22., 0.), (-17., -5.), (-12., 0.)), half, 2.0);
    check(arc((-15., -6.), (-10., -1.), (-5., -6.)), half, 1.0);
    check(arc((-5., 0.), (0., 5.), (5., 0.)), half, 5.0);
    check(arc((-5., 0.), (0., -5.), (5., 0.)), half, 5.0);
}

#[test]
fn segment_to_arc() {
    let bend = arc((1., 6.), (6., 1.), (9., 7.));
    check_to(1e-5, line((0., 0.), (50., 0.)), bend, 0.917_483_739);
    check_to(1e-5, line((10., 0.), (10., 2.)), bend, 1.529_129_013);
    check_to(1e-5, line((10., 4.), (10., 8.)), bend, 0.584_150_405);
}

#[test]
fn points_as_patches() {
    // The distances of points to arcs and to a chain of four, measured from the point's side.
    let from = |x, y, path: &[Piece]| {
        let patch = Patch::new(Core::Point(Point::new(x, y)), 0.0).unwrap();
        let gaps = path.iter().map(|piece| patch.gap(piece).distance);
        gaps.fold(f64::INFINITY, f64::min)
    };
    let near = |actual: f64, expected: f64| {
        assert!((actual - expected).abs() < 1e-6, "{actual} for {expected}");
    };
    let half = [arc((-1., 0.), (0., 1.), (1., 0.))];
    near(from(0., 0.5, &half), 0.5);
    near(from(0., 1.5, &half), 0.5);
    near(from(0., -1., &half), root());
    near(from(1., 1., &half), root() - 1.0);
    near(from(0., 0., &half), 1.0);
    near(from(1., 0., &half), 0.0);
    near(from(root(), root(), &half), 1.0);
    near(from(-0.5, 5., &[arc((0., 0.), (-1., 5.), (0., 10.))]), 0.5);
    let lobes = lobes();
    near(from(0., 0., lobes.pieces()), root());
    near(from(-1., 0., lobes.pieces()), 1.0);
    near(from(-1.5, 0., lobes.pieces()), 0.5);
    near(from(-2.5, 0., lobes.pieces()), 0.5);
    near(from(0., -2.5, lobes.pieces()), 0.5);
    near(from(1., 2., lobes.pieces()), root() - 1.0);
}

fn lobes() -> Chain {
    let arcs = [
        arc((-1., -1.), (-2., 0.), (-1., 1.)),
        arc((-1., 1.), (0., 2.), (1., 1.)),
        arc((1., 1.), (2., 0.), (1., -1.)),
        arc((1., -1.), (0., -2.), (-1., -1.)),
    ];
    chain(arcs.to_vec(), true)
}

#[test]
fn the_lobes_as_an_area_and_as_a_boundary() {
    // The same distances, now signed: the points of the row above that lie within are in depth.
    let area = Patch::new(Core::Area(lobes()), 0.0).unwrap();
    let beyond = Patch::new(Core::Beyond(lobes()), 0.0).unwrap();
    let rows = [
        ((0., 0.), -root()),
        ((-1., 0.), -1.0),
        ((-1.5, 0.), -0.5),
        ((-2.5, 0.), 0.5),
        ((0., -2.5), 0.5),
        ((1., 2.), root() - 1.0),
    ];
    for ((x, y), expected) in rows {
        let point = Point::new(x, y);
        let found = area.signed_distance(point).distance;
        assert!((found - expected).abs() < 1e-6, "{found} for {expected}");
        let found = beyond.signed_distance(point).distance;
        assert!((found + expected).abs() < 1e-6, "{found} for {expected}");
    }
}

#[test]
fn square_to_circle() {
    // The square 0..4 and the circle of radius 1 about (6, 7): 2.60555.
    let corners = [(0., 0.), (4., 0.), (4., 4.), (0., 4.), (0., 0.)];
    let square = chain(corners.windows(2).map(|c| line(c[0], c[1])).collect(), true);
    let (west, east) = ((5., 7.), (7., 7.));
    let circle = chain(
        vec![arc(west, (6., 8.), east), arc(east, (6., 6.), west)],
        true,
    );
    let pond = Patch::new(Core::Point(Point::new(6., 7.)), 1.0).unwrap();
    let bed = Patch::new(Core::Area(square.clone()), 0.0).unwrap();
    let least = |patch: &Patch, path: &Chain| {
        let gaps = path.pieces().iter().map(|piece| patch.gap(piece).distance);
        gaps.fold(f64::INFINITY, f64::min)
    };
    for found in [
        square.gap(&circle).distance,
        circle.gap(&square).distance,
        least(&pond, &square),
        least(&bed, &circle),
    ] {
        assert!((found - 2.605_551_275).abs() < 1e-6, "{found}");
    }
}
