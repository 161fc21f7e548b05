//! A chosen method stays with its bend, however legs and waypoints come to be counted.

use geometry::{Direction, Point, Vector};
use plan::Plan;
use plan::document::{MethodChoice, Shape};
use plan::edit::{Edit, EditError, End, LegId, WaypointId};
use plan::setout::Method;
use plan::solve::Origin;
use proptest::prelude::*;

use super::{at, common};

/// Straights, bends, a rounding, two bends: each with a method of its own.
fn plan(closed: bool) -> Plan {
    let mut legs = vec![
        Shape::bend(0.8),
        Shape::Straight,
        Shape::Straight,
        Shape::TwoBends,
        Shape::bend(-0.5),
    ];
    let mut places = vec![(0., 0.), (5., 0.), (9., 0.), (9., 6.), (4., 9.), (-1., 8.)];
    if closed {
        legs.push(Shape::bend(0.7));
    } else {
        legs.push(Shape::Onward);
        places.push((-6., 7.));
    }
    let mut route = common::route(&places, legs);
    route.waypoints[2].rounding = Some(1.5);
    let bends = [
        Origin::Leg(0),
        Origin::Rounding(2),
        Origin::Leg(3),
        Origin::SecondBend(3),
        Origin::Leg(4),
        Origin::Leg(5),
    ];
    let methods = Method::OF_A_BEND.into_iter().skip(1);
    route.methods = bends
        .into_iter()
        .zip(methods)
        .map(|(of, method)| MethodChoice { of, method })
        .collect();
    common::plan_of(route)
}

/// The bends of all paths with a chosen method: where the apex is, and which.
fn placed(plan: &Plan) -> Vec<(Point, Method)> {
    let solved = plan.solve();
    let mut found = Vec::new();
    for (route, drawn) in plan.schemes[0].routes.iter().zip(&solved.schemes[0].routes) {
        for choice in &route.methods {
            let piece = drawn.piece_of(choice.of);
            let pieces = drawn.centre_line.as_ref().unwrap().pieces();
            if let Some(arc) = piece.and_then(|piece| pieces[piece].arc()) {
                found.push((arc.apex(), choice.method));
            }
        }
    }
    found
}

/// The edits that count legs and waypoints anew, and leave the bends where they are.
fn edits(closed: bool) -> Vec<Edit> {
    let leg = |leg| LegId {
        scheme: 0,
        route: 0,
        leg,
    };
    let peg = |waypoint| WaypointId {
        scheme: 0,
        route: 0,
        waypoint,
    };
    let (scheme, route) = (0, 0);
    let mut edits = vec![
        Edit::InsertWaypoint {
            id: leg(1),
            near: at(7.0, 0.0),
        },
        Edit::RemoveWaypoint { id: peg(1) },
        Edit::TurnRound { scheme, route },
        Edit::Split { id: peg(3) },
    ];
    if !closed {
        let lead = |end, at| Edit::LeadOn {
            scheme,
            route,
            end,
            at,
            shape: Shape::Straight,
        };
        edits.push(lead(End::Start, at(-4.0, 0.0)));
        edits.push(lead(End::End, at(-9.0, 3.0)));
        edits.push(Edit::Close { scheme, route });
        edits.push(Edit::RemoveWaypoint { id: peg(0) });
    }
    edits
}

#[test]
fn it_goes_with_its_bend() {
    for closed in [false, true] {
        let before = plan(closed);
        let was = placed(&before);
        assert_eq!(was.len(), 6);
        for edit in edits(closed) {
            let after = placed(&before.with(&edit).unwrap().plan);
            for (apex, method) in &after {
                let same = was.iter().find(|(other, _)| other.distance(*apex) < 1e-6);
                let same = same.unwrap_or_else(|| panic!("{edit:?} made a choice at {apex:?}"));
                assert_eq!(same.1, *method, "{edit:?}");
            }
            let gone = match edit {
                Edit::RemoveWaypoint { .. } => 1,
                _ => 0,
            };
            assert!(
                after.len() >= 6 - gone,
                "{edit:?}: {} are left",
                after.len()
            );
        }
    }
}

#[test]
fn parted_and_joined_again_all_is_as_before() {
    let whole = plan(false);
    let parted = whole
        .with(&Edit::Split { id: common::peg(3) })
        .unwrap()
        .plan;
    assert_eq!(parted.schemes[0].routes[0].methods.len(), 2);
    assert_eq!(parted.schemes[0].routes[1].methods.len(), 4);
    let join = Edit::Join {
        scheme: 0,
        first: 0,
        second: 1,
    };
    let joined = parted.with(&join).unwrap().plan;
    assert_eq!(placed(&joined), placed(&whole));
}

#[test]
fn both_halves_of_a_parted_bend_are_set_out_as_it_was() {
    let whole = plan(false);
    let near = at(2.0, 0.7);
    let parted = whole
        .with(&Edit::InsertWaypoint {
            id: common::leg(0),
            near,
        })
        .unwrap()
        .plan;
    let methods = &parted.schemes[0].routes[0].methods;
    let of = |of| {
        methods
            .iter()
            .find(|choice| choice.of == of)
            .map(|choice| choice.method)
    };
    assert_eq!(of(Origin::Leg(0)), Some(Method::SwingSquaredOff));
    assert_eq!(of(Origin::Leg(1)), Some(Method::SwingSquaredOff));
}

#[test]
fn a_bend_made_straight_has_none() {
    let shape = Shape::Straight;
    let straight = plan(false)
        .with(&Edit::SetShape {
            id: common::leg(0),
            shape,
        })
        .unwrap()
        .plan;
    let methods = &straight.schemes[0].routes[0].methods;
    assert!(methods.len() == 5 && methods.iter().all(|choice| choice.of != Origin::Leg(0)));
}

fn any_edit() -> impl Strategy<Value = Edit> {
    let place = || (-10.0..10.0, -10.0..10.0).prop_map(|(x, y)| at(x, y));
    let pegs = || prop::collection::vec(0..7_usize, 2..5);
    let path = || 0..3_usize;
    let (scheme, route) = (0, 0);
    let shape = prop_oneof![
        Just(Shape::Straight),
        Just(Shape::Onward),
        Just(Shape::TwoBends),
        (-2.0..2.0).prop_map(Shape::bend),
    ];
    let bend = prop_oneof![
        (0..8_usize).prop_map(Origin::Leg),
        (0..8_usize).prop_map(Origin::SecondBend),
        (0..8_usize).prop_map(Origin::Rounding),
    ];
    let method = prop::option::of(prop::sample::select(Method::OF_A_BEND.to_vec()));
    prop_oneof![
        (path(), 0..7_usize, place()).prop_map(move |(route, leg, near)| {
            Edit::InsertWaypoint {
                id: LegId { scheme, route, leg },
                near,
            }
        }),
        (path(), 0..7_usize).prop_map(move |(route, waypoint)| {
            Edit::RemoveWaypoint {
                id: WaypointId {
                    scheme,
                    route,
                    waypoint,
                },
            }
        }),
        path().prop_map(move |route| Edit::TurnRound { scheme, route }),
        path().prop_map(move |route| Edit::Close { scheme, route }),
        (path(), 0..7_usize).prop_map(move |(route, waypoint)| {
            Edit::Split {
                id: WaypointId {
                    scheme,
                    route,
                    waypoint,
                },
            }
        }),
        (path(), path()).prop_map(move |(first, second)| Edit::Join {
            scheme,
            first,
            second
        }),
        (path(), place()).prop_map(move |(route, at)| {
            Edit::LeadOn {
                scheme,
                route,
                end: End::Start,
                at,
                shape: Shape::Straight,
            }
        }),
        place().prop_map(move |through| {
            Edit::Mirror {
                scheme,
                route,
                through,
                along: Direction::EAST,
            }
        }),
        pegs().prop_map(move |waypoints| Edit::MirrorPegs {
            scheme,
            route,
            waypoints
        }),
        pegs().prop_map(move |waypoints| {
            Edit::CopyPegs {
                scheme,
                route,
                waypoints,
                by: Vector::new(1.0, 2.0),
            }
        }),
        (path(), 0..7_usize, shape).prop_map(move |(route, leg, shape)| {
            Edit::SetShape {
                id: LegId { scheme, route, leg },
                shape,
            }
        }),
        (path(), 0..7_usize, prop::option::of(0.2..2.0)).prop_map(
            move |(route, waypoint, radius)| {
                Edit::SetRounding {
                    id: WaypointId {
                        scheme,
                        route,
                        waypoint,
                    },
                    radius,
                }
            }
        ),
        (0..7_usize, place()).prop_map(|(peg, to)| common::drag(peg, (to.x, to.y))),
        (path(), bend, method).prop_map(move |(route, of, method)| {
            Edit::SetMethod {
                scheme,
                route,
                of,
                method,
            }
        }),
    ]
}

proptest! {
    #[test]
    fn whatever_is_done_a_choice_is_for_a_bend(
        closed: bool,
        edits in prop::collection::vec(any_edit(), 1..12),
    ) {
        let mut plan = plan(closed);
        for edit in edits {
            match plan.with(&edit) {
                Ok(edited) => plan = edited.plan,
                // No edit fails because of a choice it did not make.
                Err(EditError::Limit(why)) => {
                    prop_assert!(!why.place.contains("method"), "{edit:?}: {why}");
                }
                Err(_) => {}
            }
            for route in &plan.schemes[0].routes {
                for choice in &route.methods {
                    prop_assert!(route.is_bend(choice.of), "{edit:?}");
                }
            }
        }
        let text = plan::file::write(&plan);
        prop_assert_eq!(plan::file::read(text.as_bytes()).unwrap(), plan);
    }
}
