//! The same work by general libraries: kurbo with cubic curves, geo with short straights.
//!
//! Both get the path ready made in their own form: curves to a nanometre, short straights to a millimetre. We answer
//! exactly.

use std::hint::black_box;

use bench::among;
use geo::algorithm::buffer::{BufferStyle, LineCap, LineJoin};
use geo::line_intersection::LineIntersection;
use geo::{
    Area, Buffer, Closest, ClosestPoint, Distance, Euclidean, Intersections, Length, LineString,
    MultiPolygon, Polygon,
};
use geometry::{Chain, Piece};
use kurbo::{BezPath, Cap, Join, ParamCurveNearest, PathSeg, Shape, Stroke, StrokeOpts};

use crate::{ground, ours};

/// What curves may be out, in metres.
const CURVED: f64 = 1e-9;
/// What short straights may be out, in metres; and an outline of curves, which need not be better than theirs.
const STRAIGHT: f64 = 1e-3;

fn arc(piece: &geometry::Arc) -> kurbo::Arc {
    let from = piece.start() - piece.centre();
    kurbo::Arc::new(
        (piece.centre().x, piece.centre().y),
        (piece.radius(), piece.radius()),
        from.angle(),
        piece.sweep(),
        0.0,
    )
}

fn curves(line: &Chain) -> BezPath {
    let mut path = BezPath::new();
    path.move_to((line.start().x, line.start().y));
    for piece in line.pieces() {
        match piece {
            Piece::Line(line) => path.line_to((line.end().x, line.end().y)),
            Piece::Arc(piece) => path.extend(arc(piece).append_iter(CURVED)),
        }
    }
    path
}

fn straights(line: &Chain) -> LineString {
    let mut corners = vec![(line.start().x, line.start().y)];
    for piece in line.pieces() {
        let steps = piece.arc().map_or(1, |arc| {
            let chord = arc.bend().chord_for_bow(STRAIGHT).unwrap_or(arc.chord());
            // The number of steps is small: a bend of 4 m takes a few dozen.
            (1_u16..)
                .find(|n| arc.length() <= f64::from(*n) * chord)
                .unwrap_or(1)
        });
        for step in 1..=steps {
            let at = piece.point_at(piece.length() * f64::from(step) / f64::from(steps));
            corners.push((at.x, at.y));
        }
    }
    LineString::from(corners)
}

/// Short straights cut the bends short, by a ten-thousandth here: more than that is another path.
fn same_length(theirs: f64, ours: &Chain) {
    assert!(
        (theirs / ours.length() - 1.0).abs() < 1e-3,
        "not the same path"
    );
}

/// A bend as curves. An arc of kurbo's own takes its length from curves of a tenth of a unit, whatever accuracy it is
/// asked for, which is not the same work.
fn bend() -> BezPath {
    curves(&Chain::new(vec![ours::bend()], false).expect("a chain"))
}

/// The length of a bend.
pub(crate) fn kurbo_bend_length() -> impl Fn() -> f64 {
    let bend = bend();
    let out = bend.perimeter(CURVED) - ours::bend_length()();
    assert!(out.abs() < 10.0 * CURVED, "not the same length: {out}");
    move || black_box(&bend).perimeter(CURVED)
}

/// The distance, squared, of the nearest point of a bend.
pub(crate) fn kurbo_bend_nearest() -> impl Fn() -> f64 {
    let segments: Vec<PathSeg> = bend().segments().collect();
    let nearest = move || {
        let place = black_box(ours::BESIDE);
        let place = kurbo::Point::new(place.x, place.y);
        let each = black_box(&segments).iter();
        let each = each.map(|segment| segment.nearest(place, CURVED).distance_sq);
        each.fold(f64::INFINITY, f64::min)
    };
    let ours = ours::bend_nearest()().1.distance(ours::BESIDE);
    assert!((nearest().sqrt() - ours).abs() < 10.0 * CURVED);
    nearest
}

/// The length of a whole path.
pub(crate) fn kurbo_length(legs: usize) -> impl Fn() -> f64 {
    let line = ours::centre_line(legs);
    let path = curves(&line);
    same_length(path.perimeter(CURVED), &line);
    move || black_box(&path).perimeter(CURVED)
}

/// The length of a whole path.
pub(crate) fn geo_length(legs: usize) -> impl Fn() -> f64 {
    let line = ours::centre_line(legs);
    let path = straights(&line);
    same_length(Euclidean.length(&path), &line);
    move || Euclidean.length(black_box(&path))
}

/// The distances, squared, from sixteen places to a path.
pub(crate) fn kurbo_nearest(legs: usize) -> impl Fn() -> Vec<f64> {
    let segments: Vec<PathSeg> = curves(&ours::centre_line(legs)).segments().collect();
    let places = ours::places(legs);
    let nearest = move || {
        let to = |place: &geometry::Point| {
            let place = kurbo::Point::new(place.x, place.y);
            let each = segments
                .iter()
                .map(|s| s.nearest(place, CURVED).distance_sq);
            each.fold(f64::INFINITY, f64::min)
        };
        black_box(&places).iter().map(to).collect::<Vec<_>>()
    };
    for (theirs, ours) in nearest().iter().zip(ours::nearest(legs)()) {
        assert!(
            (theirs.sqrt() - ours.distance).abs() < 10.0 * CURVED,
            "not the same point"
        );
    }
    nearest
}

/// The points of a path nearest to sixteen places.
pub(crate) fn geo_nearest(legs: usize) -> impl Fn() -> Vec<Closest<f64>> {
    let path = straights(&ours::centre_line(legs));
    let places: Vec<geo::Point> = ours::places(legs)
        .iter()
        .map(|place| geo::Point::new(place.x, place.y))
        .collect();
    move || {
        places
            .iter()
            .map(|place| path.closest_point(black_box(place)))
            .collect()
    }
}

/// Both edges of a path, as the outline of a stroke.
pub(crate) fn kurbo_edges(legs: usize) -> impl Fn() -> BezPath {
    let path = curves(&ours::centre_line(legs));
    let style = Stroke::new(2.0 * ours::HALF_WIDTH)
        .with_caps(Cap::Butt)
        .with_join(Join::Miter);
    move || kurbo::stroke(black_box(&path), &style, &StrokeOpts::default(), STRAIGHT)
}

/// Both edges of a path, as the outline of the ground it covers.
pub(crate) fn geo_edges(legs: usize) -> impl Fn() -> MultiPolygon {
    let path = straights(&ours::centre_line(legs));
    let style = || {
        BufferStyle::new(ours::HALF_WIDTH)
            .line_cap(LineCap::Butt)
            .line_join(LineJoin::Miter(1.0))
    };
    move || black_box(&path).buffer_with_style(style())
}

/// The least distance of one edge to every obstacle.
pub(crate) fn geo_gaps(legs: usize, count: usize) -> impl Fn() -> Vec<f64> {
    let edge = straights(&ground::left_edge(legs));
    let polygon = |corners: Vec<geometry::Point>| {
        let corners = corners.iter().map(|corner| (corner.x, corner.y));
        Polygon::new(corners.collect(), Vec::new())
    };
    let obstacles = among::eight_sided(&ours::centre_line(legs), count);
    let obstacles: Vec<Polygon> = obstacles.into_iter().map(polygon).collect();
    let gaps = move || {
        let each = black_box(&obstacles).iter();
        each.map(|obstacle| Euclidean.distance(black_box(&edge), obstacle))
            .collect::<Vec<f64>>()
    };
    for (theirs, ours) in gaps().iter().zip(ground::gaps(legs, count)()) {
        assert!(
            (theirs - ours.distance).abs() < 2.0 * STRAIGHT,
            "not the same distance"
        );
    }
    gaps
}

/// The area of the ground a path takes up.
pub(crate) fn geo_area(legs: usize) -> impl Fn() -> f64 {
    let outline = Polygon::new(straights(&ours::outline(legs)), Vec::new());
    assert!((outline.signed_area() / ours::area(legs)() - 1.0).abs() < 1e-3);
    move || black_box(&outline).signed_area()
}

/// The area of the ground a path takes up.
pub(crate) fn kurbo_area(legs: usize) -> impl Fn() -> f64 {
    let mut outline = curves(&ours::outline(legs));
    outline.close_path();
    assert!((outline.area() / ours::area(legs)() - 1.0).abs() < 1e-6);
    move || black_box(&outline).area()
}

/// How often a path crosses itself.
pub(crate) fn geo_crossings(legs: usize) -> impl Fn() -> usize {
    let path = straights(&ours::centre_line(legs));
    let count = move || {
        let crossings = Intersections::from_iter(black_box(&path).lines());
        let proper = |of: &LineIntersection<f64>| {
            matches!(
                of,
                LineIntersection::SinglePoint {
                    is_proper: true,
                    ..
                }
            )
        };
        crossings.filter(|(_, _, of)| proper(of)).count()
    };
    assert_eq!(count(), ours::crossings(legs)().len());
    count
}
