//! Exact arcs against a general curve library that knows none: it sees them as cubic curves drawn
//! to a nanometre, and must measure the same.

use geometry::{Arc, Chain, Direction, Line, Piece, Point};
use kurbo::{
    BezPath, ParamCurve as _, ParamCurveArclen as _, ParamCurveNearest as _, Shape as _, Vec2,
};
use proptest::prelude::*;

/// How near the cubic curves keep to the arcs, in metres.
const DRAWN: f64 = 1e-9;
/// How well lengths and distances along them are computed, in metres.
const MEASURED: f64 = 1e-9;

fn theirs(point: Point) -> kurbo::Point {
    kurbo::Point::new(point.x, point.y)
}

/// The chain as cubic curves, each arc by its centre, radius and angles.
fn curves(chain: &Chain) -> BezPath {
    let mut path = BezPath::new();
    path.move_to(theirs(chain.start()));
    for piece in chain.pieces() {
        match piece {
            Piece::Line(line) => path.line_to(theirs(line.end())),
            Piece::Arc(arc) => {
                let centre = arc.centre();
                let round = kurbo::Arc {
                    center: theirs(centre),
                    radii: Vec2::new(arc.radius(), arc.radius()),
                    start_angle: (arc.start() - centre).angle(),
                    sweep_angle: arc.sweep(),
                    x_rotation: 0.0,
                };
                path.extend(round.append_iter(DRAWN));
            }
        }
    }
    path
}

fn length(path: &BezPath) -> f64 {
    path.segments().map(|curve| curve.arclen(MEASURED)).sum()
}

fn distance(path: &BezPath, from: Point) -> f64 {
    let squares = path
        .segments()
        .map(|curve| curve.nearest(theirs(from), MEASURED).distance_sq);
    squares.fold(f64::INFINITY, f64::min).sqrt()
}

/// Straights and bends one after the other, smooth or with corners; sweeps up to 340°.
fn chains() -> impl Strategy<Value = Chain> {
    let sweep = prop_oneof![Just(0.0), -6.0..6.0_f64, -0.05..0.05_f64];
    let corner = prop_oneof![Just(0.0), -2.5..2.5_f64];
    let step = (0.5..12.0_f64, sweep, corner);
    (prop::collection::vec(step, 1..7), -3.0..3.0_f64).prop_filter_map(
        "no chain",
        |(steps, angle)| {
            let mut at = Point::new(2.0, -1.0);
            let mut way = Direction::EAST.turned(angle);
            let mut pieces = Vec::new();
            for (chord, sweep, corner) in steps {
                way = way.turned(corner);
                let end = at + way.turned(0.5 * sweep).unit() * chord;
                let bend =
                    Arc::from_rise(at, end, -0.5 * chord * (0.25 * sweep).tan()).map(Piece::Arc);
                pieces.push(bend.or_else(|_| Line::new(at, end).map(Piece::Line)).ok()?);
                at = end;
                way = way.turned(sweep);
            }
            Chain::new(pieces, false).ok()
        },
    )
}

fn place() -> impl Strategy<Value = Point> {
    (-30.0..30.0_f64, -30.0..30.0_f64).prop_map(|(x, y)| Point::new(x, y))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn lengths_boxes_and_areas(chain in chains()) {
        let path = curves(&chain);
        let size = 1.0 + chain.length();
        // A curve a nanometre off is longer or shorter by its turn times that, its wiggle aside.
        prop_assert!((length(&path) - chain.length()).abs() < 1e-8 * size);
        let (ours, drawn) = (chain.bounds(), path.bounding_box());
        for (our, their) in [
            (ours.low.x, drawn.x0),
            (ours.low.y, drawn.y0),
            (ours.high.x, drawn.x1),
            (ours.high.y, drawn.y1),
        ] {
            prop_assert!((our - their).abs() < 2.0 * DRAWN, "{our} {their}");
        }
        let mut ring = path;
        ring.close_path();
        prop_assert!((ring.area() - chain.enclosed_area()).abs() < DRAWN * size);
    }

    #[test]
    fn distances(chain in chains(), from in place()) {
        let found = chain.nearest(from);
        let drawn = distance(&curves(&chain), from);
        prop_assert!((found.distance - drawn).abs() < 2.0 * DRAWN, "{} {drawn}", found.distance);
    }

    #[test]
    fn points_along(chain in chains(), share in 0.0..1.0_f64) {
        let point = chain.point_at(share * chain.length());
        prop_assert!(distance(&curves(&chain), point) < 2.0 * DRAWN);
        // And the joints of the curves lie on the chain.
        for curve in curves(&chain).segments() {
            let (start, end) = (curve.start(), curve.end());
            for joint in [start, end, curve.eval(0.5)] {
                let off = chain.nearest(Point::new(joint.x, joint.y)).distance;
                prop_assert!(off < 2.0 * DRAWN, "{off}");
            }
        }
    }

    #[test]
    fn edges(chain in chains(), offset in -0.4..0.4_f64) {
        let edge = chain.offset(offset);
        if !edge.troubles.is_empty() {
            return Ok(());
        }
        for piece in edge.chain.iter().flat_map(Chain::pieces) {
            let middle = piece.point_at(0.5 * piece.length());
            let drawn = distance(&curves(&chain), middle);
            // Never farther than a mitre reaches; on an arc never farther than the offset.
            prop_assert!(drawn < 4.2 * offset.abs() + DRAWN, "{drawn}");
        }
        if let Some(edge) = &edge.chain {
            prop_assert!((length(&curves(edge)) - edge.length()).abs() < 1e-8 * (1.0 + edge.length()));
        }
    }

    #[test]
    fn extremes_of_one_arc(
        chord in 0.01..50.0_f64, share in 0.001..4.0_f64, angle in -3.2..3.2_f64, left: bool,
    ) {
        let end = Point::ORIGIN + Direction::EAST.turned(angle).unit() * chord;
        let rise = share * chord * if left { -1.0 } else { 1.0 };
        let arc = Arc::from_rise(Point::ORIGIN, end, rise).unwrap();
        let drawn = curves(&Chain::new(vec![Piece::Arc(arc)], false).unwrap()).bounding_box();
        let bounds = arc.bounds();
        prop_assert!((bounds.width() - drawn.width()).abs() < 4.0 * DRAWN);
        prop_assert!((bounds.height() - drawn.height()).abs() < 4.0 * DRAWN);
    }
}
