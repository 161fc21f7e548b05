//! The same work by general libraries: kurbo with cubic curves, geo with short straights.
//!
//! Both get the path ready made in their own form, to a tenth of a millimetre, and answer to a tenth of a millimetre.
//! We answer exactly.

use std::hint::black_box;

use geo::algorithm::buffer::{BufferStyle, LineCap, LineJoin};
use geo::{Buffer, Closest, ClosestPoint, Euclidean, Length, LineString, MultiPolygon};
use geometry::{Chain, Piece};
use kurbo::{BezPath, Cap, Join, ParamCurveNearest, PathSeg, Shape, Stroke, StrokeOpts};

use crate::ours;

/// A tenth of a millimetre.
const CLOSE: f64 = 1e-4;

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
            Piece::Arc(piece) => path.extend(arc(piece).append_iter(CLOSE)),
        }
    }
    path
}

fn straights(line: &Chain) -> LineString {
    let mut corners = vec![(line.start().x, line.start().y)];
    for piece in line.pieces() {
        let steps = piece.arc().map_or(1, |arc| {
            let chord = arc.bend().chord_for_bow(CLOSE).unwrap_or(arc.chord());
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

/// Short straights cut the bends short, by a hundred-thousandth here: more than that is another path.
fn same_length(theirs: f64, ours: &Chain) {
    assert!(
        (theirs / ours.length() - 1.0).abs() < 1e-4,
        "not the same path"
    );
}

/// An arc made from ends and rise, and its length along the cubics that stand for it.
pub(crate) fn kurbo_arc_length() -> f64 {
    let centre = black_box((4.0, 3.0));
    let arc = kurbo::Arc::new(centre, (4.0, 4.0), black_box(3.0), black_box(-1.5), 0.0);
    arc.perimeter(CLOSE)
}

/// The length of a whole path.
pub(crate) fn kurbo_length(legs: usize) -> impl Fn() -> f64 {
    let line = ours::centre_line(legs);
    let path = curves(&line);
    same_length(path.perimeter(CLOSE), &line);
    move || black_box(&path).perimeter(CLOSE)
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
            let each = segments.iter().map(|s| s.nearest(place, CLOSE).distance_sq);
            each.fold(f64::INFINITY, f64::min)
        };
        black_box(&places).iter().map(to).collect::<Vec<_>>()
    };
    for (theirs, ours) in nearest().iter().zip(ours::nearest(legs)()) {
        assert!(
            (theirs.sqrt() - ours.distance).abs() < 10.0 * CLOSE,
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
    move || kurbo::stroke(black_box(&path), &style, &StrokeOpts::default(), CLOSE)
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
