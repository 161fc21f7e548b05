//! Edges and the area between them: the foreman's checks.

use std::f64::consts::PI;

use geometry::{Arc, Chain, Direction, Piece, Point};
use plan::document::{Heading, Route, Shape};
use proptest::prelude::*;

use super::common::{plan_of, route};
use super::{line, near, solved};

fn wide(width: f64, route: Route) -> Route {
    Route { width, ..route }
}

/// Outer less inner edge is width times angle turned; area is width times centre line (Pappus).
#[track_caller]
fn check_smooth(route: Route) {
    let solved = solved(route);
    let chain = line(&solved);
    let length = |edge: &Option<Chain>| edge.as_ref().map_or(f64::NAN, Chain::length);
    let (left, right) = (length(&solved.left_edge), length(&solved.right_edge));
    near(right - left, solved.width * chain.turned(), 1e-9);
    near(0.5 * (right + left), chain.length(), 1e-9);
    near(solved.area, solved.width * chain.length(), 1e-9);
}

#[test]
fn an_annular_sector() {
    // Source: fxsolver.com, area of an annulus sector, ½ t (R² − r²); centre line 6 m, width
    // 1.2 m, 90°: 11.309734 m²; 3 m, 1 m, 180°: 9.424778 m².
    let quarter = Route {
        start_direction: Some(Heading::Angle(0.0)),
        ..wide(1.2, route(&[(0., 0.), (6., 6.)], vec![Shape::Onward]))
    };
    near(solved(quarter).area, 11.309_734, 5e-7);
    let half = wide(1.0, route(&[(0., 0.), (6., 0.)], vec![Shape::bend(3.0)]));
    near(solved(half).area, 9.424_778, 5e-7);
}

#[test]
fn a_closed_ring() {
    let circle = route(&[(-3., 0.), (3., 0.)], vec![Shape::bend(3.0); 2]);
    let solved = solved(wide(1.0, circle));
    near(solved.area, 6.0 * PI, 1e-12);
    near(line(&solved).length(), 6.0 * PI, 1e-12);
    near(solved.left_edge.unwrap().length(), 7.0 * PI, 1e-12);
    near(solved.right_edge.unwrap().length(), 5.0 * PI, 1e-12);
}

#[test]
fn a_lobed_figure() {
    // Four half circles of radius 1 outward on a square of side 2: area 4 + 2π, perimeter 4π
    // (points of the chain of PostGIS liblwgeom cu_measures.c, four arcs).
    let corners = [(-1., -1.), (-1., 1.), (1., 1.), (1., -1.)];
    let width = 0.4;
    let solved = solved(wide(width, route(&corners, vec![Shape::bend(1.0); 4])));
    let chain = line(&solved);
    near(chain.enclosed_area(), -(4.0 + 2.0 * PI), 1e-12);
    near(chain.length(), 4.0 * PI, 1e-12);
    // Both edges are circles about the same swing points, cut or led on to where neighbours meet:
    // on the diagonals, at x² + (x − 1)² = r².
    for (edge, r) in [(&solved.left_edge, 1.2_f64), (&solved.right_edge, 0.8)] {
        let edge = edge.as_ref().unwrap();
        assert!(edge.is_closed() && edge.pieces().len() == 4);
        let x = 0.5 + (0.5 * r * r - 0.25).sqrt();
        for piece in edge.pieces() {
            near(piece.arc().unwrap().radius(), r, 1e-12);
            near(piece.start().x.abs(), x, 1e-9);
            near(piece.start().y.abs(), x, 1e-9);
        }
        near(edge.bounds().high.y, 1.0 + r, 1e-12);
    }
}

#[test]
fn corners_are_mitred_outside_and_trimmed_inside() {
    let corner = solved(wide(
        2.0,
        route(&[(0., 0.), (10., 0.), (10., 8.)], vec![Shape::Straight; 2]),
    ));
    near(
        corner.left_edge.as_ref().unwrap().length(),
        9.0 + 7.0,
        1e-12,
    );
    near(
        corner.right_edge.as_ref().unwrap().length(),
        11.0 + 9.0,
        1e-12,
    );
    near(corner.area, 2.0 * 18.0, 1e-12);
    let square = route(
        &[(0., 0.), (10., 0.), (10., 10.), (0., 10.)],
        vec![Shape::Straight; 4],
    );
    let square = solved(wide(2.0, square));
    near(square.area, 144.0 - 64.0, 1e-12);
}

#[test]
fn bends_keep_their_swing_point_on_both_edges() {
    let bent = solved(route(&[(0., 0.), (4., 1.)], vec![Shape::bend(-0.9)]));
    let centre = line(&bent).pieces()[0].arc().unwrap();
    for (edge, radius) in [
        (&bent.left_edge, centre.radius() - 0.6),
        (&bent.right_edge, centre.radius() + 0.6),
    ] {
        let edge = edge.as_ref().unwrap().pieces()[0].arc().unwrap();
        assert!(edge.centre().distance(centre.centre()) < 1e-12);
        near(edge.radius(), radius, 1e-12);
    }
}

#[test]
fn a_joint_that_is_smooth_but_for_a_hair_has_both_edges() {
    // From dead straight to a corner one can see: a path 50 m wide and one of 0.6 m.
    for tenths in -120..=-10 {
        let turn = 10f64.powf(f64::from(tenths) / 10.0);
        for turn in [turn, -turn] {
            for width in [0.6, 50.0] {
                let way = Direction::EAST.turned(turn).unit() * 40.0;
                let end = Point::new(40.0, 0.0) + way;
                let arc = Arc::leaving(
                    Point::new(40.0, 0.0),
                    Direction::EAST.turned(turn),
                    Point::new(80.0, 40.0),
                );
                let shape = Shape::bend(arc.unwrap().rise());
                for (end, shape) in [((end.x, end.y), Shape::Straight), ((80.0, 40.0), shape)] {
                    let path = route(&[(0., 0.), (40., 0.), end], vec![Shape::Straight, shape]);
                    let plan = plan_of(wide(width, path));
                    let all = plan.solve();
                    let case = format!("turn {turn}, width {width}, to {end:?}");
                    assert!(all.findings.is_empty(), "{case}: {:?}", all.findings);
                    let path = &all.schemes[0].routes[0];
                    let expected = line(path).length();
                    for (edge, sign) in [(&path.left_edge, -1.0), (&path.right_edge, 1.0)] {
                        let edge = edge.as_ref().unwrap_or_else(|| panic!("{case}: no edge"));
                        let turned = line(path).turned();
                        let exact = expected + sign * 0.5 * width * turned;
                        // At a corner an edge is mitred or trimmed: off by d (2 tan t/2 − t).
                        let corner = 0.5 * width * (2.0 * (0.5 * turn).tan() - turn).abs()
                            + 2.0 * width * turn * turn;
                        near(edge.length(), exact, corner + 1e-6);
                    }
                }
            }
        }
    }
}

/// A smooth chain of straights and bends whose radii are over 3 m.
fn smooth_chain() -> impl Strategy<Value = Route> {
    let step = (2.0..8.0_f64, -1.5..1.5_f64, any::<bool>());
    (prop::collection::vec(step, 1..8), 0.05..5.5_f64).prop_map(|(steps, width)| {
        let mut points = vec![(0.0, 0.0)];
        let mut legs = Vec::new();
        let (mut at, mut way) = (Point::ORIGIN, Direction::EAST);
        for (length, turn, straight) in steps {
            let turn = if straight {
                0.0
            } else {
                turn.abs().max(1e-3).copysign(turn)
            };
            // The chord of a bend of radius 3 + length that turns by `turn`.
            let radius = 3.0 + length;
            let chord = if straight {
                length
            } else {
                2.0 * radius * (0.5 * turn.abs()).sin()
            };
            at += way.turned(0.5 * turn).unit() * chord;
            way = way.turned(turn);
            points.push((at.x, at.y));
            let rise = -0.5 * chord * (0.25 * turn).tan();
            legs.push(if straight {
                Shape::Straight
            } else {
                Shape::bend(rise)
            });
        }
        wide(width, route(&points, legs))
    })
}

proptest! {
    #[test]
    fn smooth_paths_pass_the_foremans_checks(path in smooth_chain()) {
        check_smooth(path);
    }

    /// Walked the other way the edges change sides and nothing else changes.
    #[test]
    fn walked_the_other_way(path in smooth_chain()) {
        let mut back = path.clone();
        back.waypoints.reverse();
        back.legs.reverse();
        for leg in &mut back.legs {
            if let Shape::Bend { rise, .. } = leg {
                *rise = -*rise;
            }
        }
        let (there, back) = (solved(path), solved(back));
        prop_assert!((there.area - back.area).abs() < 1e-9);
        let length = |edge: &Option<Chain>| edge.as_ref().map_or(0.0, Chain::length);
        prop_assert!((length(&there.left_edge) - length(&back.right_edge)).abs() < 1e-9);
        let ends = |chain: &Chain| (chain.start(), chain.end());
        let (a, b) = ends(line(&there));
        prop_assert_eq!(ends(line(&back)), (b, a));
        let pieces = |chain: &Chain| chain.pieces().iter().map(Piece::length).collect::<Vec<_>>();
        let mut turned = pieces(line(&back));
        turned.reverse();
        for (one, other) in pieces(line(&there)).iter().zip(turned) {
            prop_assert!((one - other).abs() < 1e-9);
        }
    }
}
