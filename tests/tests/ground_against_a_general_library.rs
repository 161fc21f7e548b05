//! Ground and edges as counted, against a general library of polygons that knows no arcs: it joins
//! the outlines drawn as many short chords, and must find the same areas.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use std::sync::Arc;

use geo::{Area as _, BooleanOps as _, LineString, MultiPolygon, Polygon};
use geometry::{Chain, Piece, Point};
use plan::Plan;
use plan::count::{built_in, quantities};
use plan::document::{Pad, PadShape, Route, Scheme, Shape, Waypoint};
use plan::units::Units;
use proptest::prelude::*;

/// How far each chord of an arc turns, in radians: a segment on a radius of 20 m is then
/// r² θ³ / 12 = 2.7e-7 m².
const TURN: f64 = 2e-3;
/// How well the areas must agree, in square metres: a few thousand such segments.
const DRAWN: f64 = 2e-3;

fn drawn(chain: &Chain) -> LineString {
    let mut places: Vec<(f64, f64)> = Vec::new();
    for piece in chain.pieces() {
        let chords = match piece {
            Piece::Line(_) => 1,
            Piece::Arc(arc) => (1..)
                .find(|n| arc.sweep().abs() / f64::from(*n) <= TURN)
                .unwrap(),
        };
        places.extend((0..chords).map(|i| {
            let at = piece.point_at(piece.length() * f64::from(i) / f64::from(chords));
            (at.x, at.y)
        }));
    }
    LineString::from(places)
}

fn polygon(outline: &[Chain]) -> MultiPolygon {
    let mut rings = outline.iter().map(drawn);
    let outer = rings.next().unwrap();
    MultiPolygon(vec![Polygon::new(outer, rings.collect())])
}

/// A path of a few straights and bends through a yard of 20 m, without a bend so tight that an edge
/// is lost; perhaps with a landing.
fn path() -> impl Strategy<Value = Route> {
    let place = (0.0..20.0_f64, 0.0..20.0_f64);
    let legs = prop::collection::vec((-0.4..0.4_f64, any::<bool>()), 1..3);
    let pad = prop::option::of((0.1..0.9_f64, 0.5..3.0_f64, any::<bool>()));
    (place, 0.0..std::f64::consts::TAU, legs, 0.6..2.0_f64, pad).prop_map(
        |((x, y), mut way, legs, width, pad)| {
            let mut at = Point::new(x, y);
            let mut waypoints = vec![Waypoint { at, rounding: None }];
            let mut shapes = Vec::new();
            let mut length = 0.0;
            for (turn, bent) in legs {
                way += turn;
                at = Point::new(at.x + 7.0 * way.cos(), at.y + 7.0 * way.sin());
                waypoints.push(Waypoint { at, rounding: None });
                shapes.push(if bent {
                    Shape::bend(turn)
                } else {
                    Shape::Straight
                });
                length += 7.0;
            }
            let pads = pad.into_iter().map(|(share, size, round)| Pad {
                name: "landing".into(),
                station: share * length,
                shape: if round {
                    PadShape::Circle { diameter: size }
                } else {
                    PadShape::Rectangle {
                        along: size,
                        across: 1.1 * size,
                    }
                },
            });
            Route {
                name: "path".into(),
                width,
                waypoints,
                legs: shapes,
                pads: pads.collect(),
                ..Route::default()
            }
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    #[test]
    fn ground_taken_together(routes in prop::collection::vec(path(), 1..5)) {
        let plan = Plan {
            schemes: vec![Scheme {
                routes,
                build_up: Some(Arc::new(built_in()[0].clone())),
                ..Scheme::default()
            }],
            ..Plan::empty(Units::Metric)
        };
        let solved = plan.solve();
        let found = quantities(&plan, &solved, 0).unwrap();
        prop_assert!(found.not_counted.is_empty());
        let mut taken = MultiPolygon(Vec::new());
        for (route, share) in solved.schemes[0].routes.iter().zip(&found.paths) {
            let before = taken.unsigned_area();
            taken = taken.union(&polygon(&route.outline()));
            for pad in &route.pads {
                taken = taken.union(&polygon(std::slice::from_ref(pad)));
            }
            let own = taken.unsigned_area() - before;
            prop_assert!((own - share.area).abs() < DRAWN, "{own} {}", share.area);
        }
        let area = taken.unsigned_area();
        prop_assert!((area - found.area).abs() < DRAWN, "{area} {}", found.area);
    }
}
