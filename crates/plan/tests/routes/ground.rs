//! The ground a path runs over stays when pegs are put on it and when it is turned, parted, joined,
//! opened and closed.

use geometry::Chain;
use plan::Plan;
use plan::document::{Heading, Shape};
use plan::edit::{Edit, End};
use plan::finding::Code;

use super::common::{leg, path, peg, plan, plan_of, route};
use super::kinds::{every_kind, kind};
use super::{apart, at, codes, leg_pieces, line, near, same_ground, solved, with};

const TURN: Edit = Edit::TurnRound {
    scheme: 0,
    route: 0,
};
const CLOSE: Edit = Edit::Close {
    scheme: 0,
    route: 0,
};
const JOIN: Edit = Edit::Join {
    scheme: 0,
    first: 0,
    second: 1,
};

#[test]
fn a_peg_put_anywhere_on_any_leg_leaves_the_line() {
    for (name, before) in every_kind() {
        let lies = line(&before, 0);
        for number in 0..path(&before).legs.len() {
            let piece = leg_pieces(&before, number)[0];
            for share in [0.0, 0.02, 0.3, 0.5, 0.9, 1.0] {
                let near = piece.point_at(share * piece.length());
                let what = format!("{name}, leg {number} at {share}");
                let insert = Edit::InsertWaypoint {
                    id: leg(number),
                    near,
                };
                let after = with(&before, &insert);
                same_ground(&lies, &line(&after, 0), &what);
                // All other pegs and legs are the very same.
                let (was, mut now) = (path(&before), path(&after).clone());
                now.waypoints.remove(number + 1);
                assert_eq!(now.waypoints, was.waypoints, "{what}");
                now.legs
                    .splice(number..=number + 1, [was.legs[number].clone()]);
                assert_eq!(now.legs, was.legs, "{what}");
                assert!(!codes(&after).contains(&Code::WaypointsCoincide), "{what}");
            }
        }
    }
}

#[test]
fn a_peg_is_put_where_the_hand_is() {
    for (name, before) in every_kind() {
        for number in 0..path(&before).legs.len() {
            let solved = solved(&before, 0);
            let [piece] = solved.legs[number][..] else {
                continue; // two bends are parted where they join
            };
            let Some(drawn) = solved.piece_of(plan::solve::Origin::Leg(number)) else {
                continue; // all of it is rounded away
            };
            let drawn = line(&before, 0).pieces()[drawn];
            let (low, high) = (piece.along(drawn.start()), piece.along(drawn.end()));
            let near = piece.point_at(low + 0.37 * (high - low));
            let insert = Edit::InsertWaypoint {
                id: leg(number),
                near,
            };
            let peg = path(&with(&before, &insert)).waypoints[number + 1].at;
            assert!(peg.distance(near) < 1e-9, "{name}, leg {number}");
        }
    }
}

#[test]
fn a_peg_leaves_the_line_where_roundings_do_not_fit() {
    let mut before = plan(
        &[(0., 0.), (9., 0.), (9., 4.), (0., 4.)],
        vec![Shape::Straight; 3],
    );
    for corner in [1, 2] {
        before.schemes[0].routes[0].waypoints[corner].rounding = Some(3.0);
    }
    assert_eq!(codes(&before), [Code::RoundingTooLarge]);
    for number in 0..3 {
        let piece = leg_pieces(&before, number)[0];
        for share in [0.0, 0.5, 1.0] {
            let near = piece.point_at(share * piece.length());
            let insert = Edit::InsertWaypoint {
                id: leg(number),
                near,
            };
            let after = with(&before, &insert);
            let what = format!("leg {number} at {share}");
            same_ground(&line(&before, 0), &line(&after, 0), &what);
            assert_eq!(codes(&after), codes(&before), "{what}");
        }
    }
}

#[test]
fn a_typed_radius_holds_on_both_sides_of_a_new_peg() {
    let before = kind("a typed bend");
    let near = leg_pieces(&before, 1)[0].point_at(2.0);
    let after = with(&before, &Edit::InsertWaypoint { id: leg(1), near });
    for i in [1, 2] {
        let holds = super::common::bend_of(&after, i).1;
        assert_eq!(holds, [geometry::Figure::Radius]);
        let radius = super::common::size_of(&after, i).radius();
        let typed = super::common::size_of(&before, 1).radius();
        super::near(radius, typed, 1e-9);
    }
}

#[test]
fn a_peg_taken_out_leaves_the_other_legs() {
    for (name, before) in every_kind() {
        let pegs = path(&before).waypoints.len();
        let least = if path(&before).closed { 3 } else { 2 };
        if pegs <= least {
            continue;
        }
        for number in 0..pegs {
            let (b, a) = path(&before).legs_at(number);
            let after = with(&before, &Edit::RemoveWaypoint { id: peg(number) });
            let (was, now) = (path(&before), path(&after));
            let mut expected = was.waypoints.clone();
            expected.remove(number);
            assert_eq!(now.waypoints, expected, "{name}, peg {number}");
            assert_eq!(now.closed, was.closed);
            // Legs that touch neither the peg nor two bends stay; two bends fit themselves to what
            // is then beside them, and onward bends follow those.
            let leans = |leg: &Shape| matches!(leg, Shape::TwoBends);
            if was.legs.iter().any(leans) || was.waypoints.iter().any(|w| w.rounding.is_some()) {
                continue;
            }
            let whole = line(&after, 0);
            for other in (0..was.legs.len()).filter(|i| Some(*i) != b && Some(*i) != a) {
                let leg = Chain::new(leg_pieces(&before, other), false).unwrap();
                for share in [0.0, 0.2, 0.5, 0.9] {
                    let point = leg.point_at(share * leg.length());
                    let off = whole.nearest(point).distance;
                    assert!(
                        off < 1e-9,
                        "{name}, peg {number}: leg {other} moves {off} m"
                    );
                }
            }
        }
    }
}

#[test]
fn a_peg_taken_out_at_an_end_leaves_the_rest() {
    for (name, before) in every_kind() {
        let route = path(&before);
        if route.closed || route.legs.len() < 2 {
            continue;
        }
        let solved = solved(&before, 0);
        let chain = line(&before, 0);
        let last = route.legs.len() - 1;
        for (number, gone) in [(0, 0), (last + 1, last)] {
            let corner = if number == 0 { 1 } else { last };
            if route.waypoints[corner].rounding.is_some() {
                continue; // the corner goes with the leg
            }
            let gone: f64 = solved.legs[gone].iter().map(geometry::Piece::length).sum();
            let after = line(&with(&before, &Edit::RemoveWaypoint { id: peg(number) }), 0);
            near(after.length(), chain.length() - gone, 1e-9);
            for i in 0..30 {
                let point = after.point_at(after.length() * f64::from(i) / 29.0);
                let off = chain.nearest(point).distance;
                assert!(off < 1e-9, "{name}, peg {number}: the rest moves {off} m");
            }
        }
    }
}

#[test]
fn an_onward_first_leg_stays_one_when_the_last_but_one_peg_goes() {
    let before = plan_of(plan::document::Route {
        start_direction: Some(Heading::Angle(0.4)),
        ..route(
            &[(0., 0.), (4., 1.), (6., 4.), (5., 8.)],
            vec![Shape::Onward, Shape::Straight, Shape::Straight],
        )
    });
    let after = with(&before, &Edit::RemoveWaypoint { id: peg(2) });
    assert_eq!(path(&after).legs, [Shape::Onward, Shape::Straight]);
}

#[test]
fn what_two_legs_become() {
    let points = [(0., 0.), (4., 0.), (8., 2.), (9., 6.)];
    let check = |legs: [Shape; 3], expected: &[Shape]| {
        let before = plan(&points, legs.to_vec());
        let after = with(&before, &Edit::RemoveWaypoint { id: peg(2) });
        assert_eq!(path(&after).legs, expected);
    };
    let (straight, onward, two) = (Shape::Straight, Shape::Onward, Shape::TwoBends);
    check(
        [straight.clone(), straight.clone(), straight.clone()],
        &[straight.clone(), straight.clone()],
    );
    check(
        [straight.clone(), onward.clone(), onward.clone()],
        &[straight.clone(), onward],
    );
    check(
        [straight.clone(), two.clone(), two.clone()],
        &[straight.clone(), two],
    );
    // The bend through where the peg was: (4, 0), (8, 2), (9, 6).
    let before = plan(&points, vec![straight.clone(), Shape::bend(0.3), straight]);
    let after = with(&before, &Edit::RemoveWaypoint { id: peg(2) });
    let [piece] = leg_pieces(&after, 1)[..] else {
        panic!("one bend")
    };
    assert!(piece.nearest(at(8., 2.)).1.distance(at(8., 2.)) < 1e-12);
}

#[test]
fn turned_round_any_path_runs_over_the_same_ground() {
    for (name, before) in every_kind() {
        let round = with(&before, &TURN);
        let (there, back) = (line(&before, 0), line(&round, 0));
        same_ground(&there, &back, name);
        assert_eq!(path(&before).closed, path(&round).closed);
        if !path(&before).closed {
            assert!(back.start().distance(there.end()) < 1e-9, "{name}");
            assert!(back.end().distance(there.start()) < 1e-9, "{name}");
        }
        near(there.enclosed_area(), -back.enclosed_area(), 1e-9);
        let twice = with(&round, &TURN);
        same_ground(&there, &line(&twice, 0), name);
        assert_eq!(path(&twice).waypoints, path(&before).waypoints, "{name}");
        let onward = path(&before).legs.contains(&Shape::Onward);
        if !onward {
            assert_eq!(path(&twice).legs, path(&before).legs, "{name}");
            let way = |h: &Option<Heading>| h.as_ref().and_then(|h| h.direction(&before.site));
            for (now, was) in [
                (
                    &path(&twice).start_direction,
                    &path(&before).start_direction,
                ),
                (&path(&twice).end_direction, &path(&before).end_direction),
            ] {
                match (way(now), way(was)) {
                    (Some(now), Some(was)) => near(was.turn_to(now), 0.0, 1e-12),
                    (now, was) => assert_eq!(now.is_some(), was.is_some()),
                }
            }
        }
        let what = |plan: &Plan| {
            let mut codes: Vec<&str> = codes(plan).iter().map(|c| c.name()).collect();
            codes.sort_unstable();
            codes
        };
        if !onward {
            assert_eq!(what(&before), what(&round), "{name}");
        }
    }
}

#[test]
fn parted_both_parts_stay_and_joined_it_is_the_very_same_plan() {
    for (name, before) in every_kind() {
        let route = path(&before);
        if route.closed {
            continue;
        }
        for number in 1..route.waypoints.len() - 1 {
            if route.waypoints[number].rounding.is_some() {
                continue; // the corner is no corner then
            }
            let two = with(&before, &Edit::Split { id: peg(number) });
            assert_eq!(two.schemes[0].routes.len(), 2);
            let (whole, parts) = (line(&before, 0), [line(&two, 0), line(&two, 1)]);
            let cut = parts[0].length();
            near(cut + parts[1].length(), whole.length(), 1e-9);
            for i in 0..=40 {
                let station = whole.length() * f64::from(i) / 40.0;
                let part = usize::from(station > cut);
                let off = parts[part].nearest(whole.point_at(station)).distance;
                assert!(off < 1e-9, "{name}, parted at {number}: {off} m");
            }
            assert_eq!(with(&two, &JOIN), before, "{name}, parted at {number}");
        }
    }
}

#[test]
fn a_rounded_corner_is_none_where_a_path_is_parted() {
    let before = kind("rounded corners");
    let two = with(&before, &Edit::Split { id: peg(2) });
    let roundings = |route: usize| -> Vec<Option<f64>> {
        let waypoints = &two.schemes[0].routes[route].waypoints;
        waypoints.iter().map(|w| w.rounding).collect()
    };
    assert_eq!(roundings(0), [None, Some(1.5), None]);
    assert_eq!(roundings(1), [None, Some(2.0), None]);
    assert!(!codes(&two).contains(&Code::NothingToRound));
}

#[test]
fn a_ring_opened_anywhere_and_closed_is_the_same_ring() {
    for (name, before) in every_kind() {
        let route = path(&before);
        if !route.closed {
            continue;
        }
        for number in 0..route.waypoints.len() {
            if route.waypoints[number].rounding.is_some() {
                continue;
            }
            let opened = with(&before, &Edit::Split { id: peg(number) });
            let what = format!("{name}, opened at {number}");
            same_ground(&line(&before, 0), &line(&opened, 0), &what);
            let pegs = &path(&opened).waypoints;
            assert_eq!(pegs[0].at, route.waypoints[number].at);
            assert_eq!(pegs[0], pegs[pegs.len() - 1]);
            let closed = with(&opened, &CLOSE);
            same_ground(&line(&before, 0), &line(&closed, 0), &what);
            if number == 0 && route.start_direction.is_none() {
                assert_eq!(closed, before, "{what}");
            }
        }
    }
}

#[test]
fn closing_leads_a_straight_home() {
    let before = plan(
        &[(0., 0.), (6., 0.), (6., 4.)],
        vec![Shape::Straight, Shape::bend(-0.5)],
    );
    let after = with(&before, &CLOSE);
    assert_eq!(path(&after).legs[..2], path(&before).legs[..]);
    assert_eq!(path(&after).legs[2], Shape::Straight);
    let home = 52.0_f64.sqrt();
    near(
        line(&after, 0).length(),
        line(&before, 0).length() + home,
        1e-12,
    );
}

#[test]
fn closing_leaves_an_onward_first_leg_where_it_lies() {
    let start = Some(Heading::Angle(0.4));
    let before = plan_of(plan::document::Route {
        start_direction: start,
        ..route(&[(0., 0.), (4., 1.), (6., 4.)], vec![Shape::Onward; 2])
    });
    let after = with(&before, &CLOSE);
    for leg in 0..2 {
        let (was, now) = (leg_pieces(&before, leg), leg_pieces(&after, leg));
        let chain = |pieces| Chain::new(pieces, false).unwrap();
        assert!(apart(&chain(was), &chain(now)) < 1e-9);
    }
}

#[test]
fn joined_with_a_gap_a_straight_leads_over() {
    let mut before = plan(&[(0., 0.), (4., 0.)], vec![Shape::bend(0.4)]);
    let other = plan_of(plan::document::Route {
        start_direction: Some(Heading::Angle(1.0)),
        end_direction: Some(Heading::Angle(2.0)),
        ..route(&[(7., 4.), (9., 9.)], vec![Shape::Onward])
    });
    before.schemes[0].routes.push(path(&other).clone());
    let after = with(&before, &JOIN);
    assert_eq!(after.schemes[0].routes.len(), 1);
    near(
        line(&after, 0).length(),
        line(&before, 0).length() + 5.0 + line(&before, 1).length(),
        1e-9,
    );
    assert_eq!(path(&after).end_direction, Some(Heading::Angle(2.0)));
    // Onward would leave from the straight: it is a free bend, as it was drawn.
    let bend = leg_pieces(&after, 2)[0];
    near(bend.start_direction().angle(), 1.0, 1e-9);
}

#[test]
fn led_on_from_its_start_the_path_stays() {
    for (name, before) in every_kind() {
        let leans = |leg: &Shape| *leg == Shape::TwoBends;
        if path(&before).closed || path(&before).legs.iter().any(leans) {
            continue;
        }
        for end in [End::Start, End::End] {
            let lead = Edit::LeadOn {
                scheme: 0,
                route: 0,
                end,
                at: at(-3., -2.),
                shape: Shape::Straight,
            };
            let (was, now) = (line(&before, 0), line(&with(&before, &lead), 0));
            for i in 0..=30 {
                let point = was.point_at(was.length() * f64::from(i) / 30.0);
                let off = now.nearest(point).distance;
                assert!(off < 1e-9, "{name}, from {end:?}: moves {off} m");
            }
        }
    }
}
