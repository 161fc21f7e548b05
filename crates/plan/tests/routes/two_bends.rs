//! Legs of two bends: smooth at both ends and between, the equal S between parallel lines.

use std::f64::consts::{FRAC_PI_2, PI};

use geometry::{Bend, Piece};
use plan::Plan;
use plan::document::{Heading, Route, Shape};
use plan::edit::Edit;
use plan::figures;
use plan::finding::Code;
use plan::solve::Origin;

use super::common::{drag, leg, path, plan, plan_of, route, waypoint};
use super::{at, codes, leg_pieces, line, near, solved, with};

/// One leg of two bends that leaves and arrives at these angles.
fn held(to: (f64, f64), start: Option<f64>, end: Option<f64>) -> Plan {
    plan_of(Route {
        start_direction: start.map(Heading::Angle),
        end_direction: end.map(Heading::Angle),
        ..route(&[(0., 0.), to], vec![Shape::TwoBends])
    })
}

fn radii(pieces: &[Piece]) -> Vec<f64> {
    let bends = pieces
        .iter()
        .filter_map(|p| p.arc().map(geometry::Arc::bend));
    bends.map(|bend: Bend| bend.radius()).collect()
}

#[track_caller]
fn equal_s(plan: &Plan, along: f64, across: f64) {
    let expected = (along * along + across * across) / (4.0 * across.abs());
    let pieces = leg_pieces(plan, 0);
    let found = radii(&pieces);
    assert_eq!(found.len(), 2, "{found:?}");
    for radius in found {
        near(radius / expected, 1.0, 1e-12);
    }
    near(pieces[0].sweep(), -pieces[1].sweep(), 1e-12);
    assert_eq!(codes(plan), []);
}

#[test]
fn an_s_between_parallel_lines_stays_two_equal_bends_while_it_is_dragged() {
    let mut plan = held((10., 3.), Some(0.0), Some(0.0));
    equal_s(&plan, 10.0, 3.0);
    for to in [(12., 3.), (12., -4.), (8., 0.5), (1., 6.), (40., 10.)] {
        plan = with(&plan, &drag(1, to));
        equal_s(&plan, to.0, to.1);
    }
    let end = path(&plan).waypoints[1].at;
    for from in [(2., 1.), (-7., 4.), (30., -9.)] {
        plan = with(&plan, &drag(0, from));
        equal_s(&plan, end.x - from.0, end.y - from.1);
    }
}

#[test]
fn an_s_between_two_straights_stays_one_while_its_pegs_go_along_them() {
    let points = [(-5., 0.), (0., 0.), (10., 3.), (20., 3.)];
    let legs = vec![Shape::Straight, Shape::TwoBends, Shape::Straight];
    let mut plan = plan(&points, legs);
    for (peg, x) in [(2, 14.0), (1, -2.5), (2, 8.0), (1, 1.0)] {
        let y = path(&plan).waypoints[peg].at.y;
        plan = with(&plan, &drag(peg, (x, y)));
        let (a, b) = (path(&plan).waypoints[1].at, path(&plan).waypoints[2].at);
        let expected = ((b.x - a.x).powi(2) + 9.0) / 12.0;
        for radius in radii(&leg_pieces(&plan, 1)) {
            near(radius, expected, 1e-9);
        }
        let chain = line(&plan, 0);
        assert!((1..4).all(|joint| chain.corner(joint).abs() < 1e-12));
    }
}

#[test]
fn between_any_two_directions_it_meets_both() {
    for start in [-3.0, -1.2, 0.0, 0.4, 1.9, 3.0] {
        for end in [-2.8, -0.9, 0.0, 0.7, FRAC_PI_2, 2.9] {
            let plan = held((7., 2.), Some(start), Some(end));
            let chain = line(&plan, 0);
            let leaves = chain.direction_at(0.0).angle();
            let arrives = chain.pieces().last().unwrap().end_direction().angle();
            near((leaves - start).sin(), 0.0, 1e-9);
            near((arrives - end).sin(), 0.0, 1e-9);
            assert!(!codes(&plan).contains(&Code::DirectionMissed));
            for joint in 1..chain.pieces().len() {
                assert!(chain.corner(joint).abs() < 1e-9);
            }
        }
    }
}

#[test]
fn without_a_direction_one_bend_does_it() {
    // A start direction only: an onward bend. An end direction only: a bend that arrives in it.
    let onward = held((5., 5.), Some(0.0), None);
    let arriving = held((5., 5.), None, Some(FRAC_PI_2));
    for plan in [&onward, &arriving] {
        let [piece] = leg_pieces(plan, 0)[..] else {
            panic!("one bend")
        };
        near(piece.arc().unwrap().radius(), 5.0, 1e-12);
        assert_eq!(codes(plan), []);
    }
    // None at all: a straight, and a finding.
    let free = held((5., 5.), None, None);
    near(line(&free, 0).length(), 50.0_f64.sqrt(), 1e-12);
    assert_eq!(codes(&free), [Code::OnwardWithoutStart]);
}

#[test]
fn straight_behind_is_a_finding_and_a_straight() {
    for (start, end) in [(Some(PI), Some(PI)), (Some(PI), None), (None, Some(PI))] {
        let plan = held((6., 0.), start, end);
        near(line(&plan, 0).length(), 6.0, 1e-12);
        let found = codes(&plan);
        assert!(
            found.contains(&Code::OnwardDoublesBack),
            "{start:?} {end:?}: {found:?}"
        );
    }
}

#[test]
fn a_ring_of_two_bends_is_smooth_all_round() {
    for count in [3, 4, 7] {
        let corner = |i: u32| {
            let angle = 2.0 * PI * f64::from(i) / f64::from(count);
            ((5.0 + f64::from(i % 2)) * angle.cos(), 4.0 * angle.sin())
        };
        let points: Vec<(f64, f64)> = (0..count).map(corner).collect();
        let ring = plan(&points, vec![Shape::TwoBends; points.len()]);
        let chain = line(&ring, 0);
        assert!(chain.is_closed());
        for joint in 0..chain.pieces().len() {
            let turn = chain.corner(joint);
            assert!(turn.abs() < 1e-9, "{count} legs, joint {joint}: {turn}");
        }
        assert_eq!(codes(&ring), []);
    }
    // Onward bends between them are smooth as well.
    let points = [(0., 0.), (6., 0.), (8., 5.), (2., 7.)];
    for legs in [
        [
            Shape::Onward,
            Shape::TwoBends,
            Shape::Onward,
            Shape::TwoBends,
        ],
        [Shape::TwoBends, Shape::Onward, Shape::Onward, Shape::Onward],
        [
            Shape::Onward,
            Shape::Onward,
            Shape::TwoBends,
            Shape::TwoBends,
        ],
    ] {
        let ring = plan(&points, legs.to_vec());
        let chain = line(&ring, 0);
        for joint in 0..chain.pieces().len() {
            assert!(chain.corner(joint).abs() < 1e-9, "{legs:?} at {joint}");
        }
        assert_eq!(codes(&ring), [], "{legs:?}");
    }
}

#[test]
fn onward_bends_on_both_sides_run_on_smoothly() {
    let points = [(0., 0.), (4., 0.), (8., 3.), (12., 2.), (15., 6.)];
    let path = plan(
        &points,
        vec![
            Shape::Straight,
            Shape::Onward,
            Shape::TwoBends,
            Shape::Onward,
        ],
    );
    let chain = line(&path, 0);
    assert!((1..chain.pieces().len()).all(|joint| chain.corner(joint).abs() < 1e-9));
    assert_eq!(codes(&path), []);
}

#[test]
fn both_bends_are_listed() {
    let plan = plan(
        &[(0., 0.), (4., 0.), (12., 3.), (16., 3.)],
        vec![Shape::Straight, Shape::TwoBends, Shape::Straight],
    );
    let figures = figures::figures(&plan, &plan.solve());
    let centre = figures.schemes[0].routes[0].centre_line.clone().unwrap();
    let kinds: Vec<&str> = centre.pieces.iter().map(|piece| piece.kind).collect();
    assert_eq!(kinds, ["straight", "bend", "bend", "straight"]);
    let turns = |i: usize| centre.pieces[i].bend.clone().unwrap().turns;
    assert_eq!([turns(1), turns(2)], ["left", "right"]);
    let [x, y] = centre.pieces[1].end;
    assert!(at(x, y).distance(at(8.0, 1.5)) < 1e-12);
    let solved = solved(&plan, 0);
    let expected = [
        Origin::Leg(0),
        Origin::Leg(1),
        Origin::SecondBend(1),
        Origin::Leg(2),
    ];
    assert_eq!(solved.origins, expected);
    assert_eq!(solved.pegs().len(), 5);
    let numbers = [Some(1), Some(2), Some(4), Some(5)];
    assert_eq!(solved.pegs_of_waypoints(4), numbers);
    assert_eq!(solved.legs[1].len(), 2);
}

#[test]
fn pegs_of_waypoints_beside_two_bends() {
    // The last leg, a rounded corner before it, and rings.
    let mut corner = plan(
        &[(0., 0.), (6., 1.), (10., 6.), (16., 6.)],
        vec![Shape::Straight, Shape::Straight, Shape::TwoBends],
    );
    corner.schemes[0].routes[0].waypoints[1] = waypoint((6., 1.), Some(1.0));
    corner.schemes[0].routes[0].end_direction = Some(Heading::Angle(0.3));
    let numbers = solved(&corner, 0).pegs_of_waypoints(4);
    assert_eq!(numbers, [Some(1), None, Some(4), Some(6)]);
    let ring = plan(
        &[(0., 0.), (6., 0.), (8., 5.), (2., 7.)],
        vec![
            Shape::TwoBends,
            Shape::Straight,
            Shape::TwoBends,
            Shape::Straight,
        ],
    );
    let solved = solved(&ring, 0);
    let numbers = solved.pegs_of_waypoints(4);
    assert_eq!(numbers, [Some(1), Some(3), Some(4), Some(6)]);
    for (waypoint, number) in path(&ring).waypoints.iter().zip(numbers) {
        let peg = solved.pegs()[number.unwrap() - 1];
        assert!(peg.at.distance(waypoint.at) < 1e-12);
    }
}

#[test]
fn there_is_no_corner_to_round_beside_two_bends() {
    let points = [(0., 0.), (6., 0.), (12., 4.), (12., 12.)];
    let mut before = plan(
        &points,
        vec![Shape::Straight, Shape::TwoBends, Shape::Straight],
    );
    for corner in [1, 2] {
        before.schemes[0].routes[0].waypoints[corner].rounding = Some(1.0);
    }
    let found = codes(&before);
    assert_eq!(found, [Code::NothingToRound, Code::NothingToRound]);
    let legs = solved(&before, 0).legs;
    let whole: f64 = legs.iter().flatten().map(Piece::length).sum();
    near(line(&before, 0).length(), whole, 1e-12);
}

#[test]
fn a_rounding_takes_of_the_bend_beside_it_only() {
    // Round a ring two bends arrive at a corner where the end direction says so.
    let mut ring = plan_of(Route {
        end_direction: Some(Heading::Angle(-FRAC_PI_2)),
        ..route(
            &[(0., 0.), (8., 0.), (8., 6.), (1., 6.)],
            vec![
                Shape::Straight,
                Shape::bend(-1.0),
                Shape::Straight,
                Shape::TwoBends,
            ],
        )
    });
    assert_eq!(codes(&ring), [Code::DirectionMissed; 0]);
    ring.schemes[0].routes[0].waypoints[0].rounding = Some(0.5);
    let solved = solved(&ring, 0);
    let chain = line(&ring, 0);
    let ends = [Origin::Leg(3), Origin::SecondBend(3), Origin::Rounding(0)];
    assert_eq!(solved.origins[3..], ends);
    assert_eq!(chain.pieces()[3], solved.legs[3][0]);
    let taken = solved.legs[3][1].length() - chain.pieces()[4].length();
    assert!(taken > 0.1, "{taken}");
    near(chain.pieces()[5].arc().unwrap().radius(), 0.5, 1e-9);
    for joint in [0, 4, 5] {
        assert!(chain.corner(joint).abs() < 1e-6);
    }
    let numbers = solved.pegs_of_waypoints(4);
    assert_eq!(numbers, [None, Some(2), Some(3), Some(4)]);
}

#[test]
fn a_second_bend_of_more_than_a_half_circle_is_pointed_out() {
    let one = held((4., 0.), Some(FRAC_PI_2), Some(PI));
    let pieces = leg_pieces(&one, 0);
    let over: Vec<bool> = pieces
        .iter()
        .map(|p| p.arc().unwrap().bend().is_half_circle_or_more())
        .collect();
    assert!(over[1], "{pieces:?}");
    assert!(codes(&one).contains(&Code::HalfCircle));
}

#[test]
fn a_leg_becomes_two_bends_and_its_pegs_stay() {
    let before = plan(
        &[(0., 0.), (4., 0.), (12., 3.), (16., 3.)],
        vec![Shape::Straight, Shape::bend(0.5), Shape::Straight],
    );
    let edit = Edit::SetShape {
        id: leg(1),
        shape: Shape::TwoBends,
    };
    let after = with(&before, &edit);
    assert_eq!(path(&after).waypoints, path(&before).waypoints);
    for i in [0, 2] {
        assert_eq!(leg_pieces(&after, i), leg_pieces(&before, i));
    }
    let chain = line(&after, 0);
    assert!((1..4).all(|joint| chain.corner(joint).abs() < 1e-12));
    // Its figures are not typed: it takes them from beside it.
    let why = after
        .with(&super::common::typed(1, geometry::Figure::Radius, 9.0))
        .unwrap_err();
    assert!(why.to_string().contains("make it a free bend"), "{why}");
}

#[test]
fn legs_without_length_beside_two_bends_are_drawn_as_far_as_possible() {
    for points in [
        [(0., 0.), (0., 0.), (6., 2.), (6., 2.)],
        [(0., 0.), (6., 2.), (6., 2.), (9., 9.)],
        [(0., 0.), (6., 2.), (0., 0.), (6., 2.)],
    ] {
        for legs in [
            [Shape::TwoBends, Shape::TwoBends, Shape::TwoBends],
            [Shape::Straight, Shape::TwoBends, Shape::Onward],
            [Shape::bend(1.0), Shape::TwoBends, Shape::bend(1.0)],
        ] {
            let plan = plan(&points, legs.to_vec());
            let chain = line(&plan, 0);
            assert!(chain.length().is_finite() && chain.length() > 6.0);
            assert!(chain.end().distance(at(points[3].0, points[3].1)) < 1e-12);
        }
    }
}
