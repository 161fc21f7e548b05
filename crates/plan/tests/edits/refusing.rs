//! Edits that are refused: a sentence, and the plan stays as it was.

use geometry::{Bend, Figure, Point};
use plan::Plan;
use plan::document::Shape;
use plan::edit::{Edit, LegId, WaypointId};

use super::common::{leg, peg, plan, typed};

/// Leg 1 a straight, leg 2 a bend, leg 3 onward.
fn start() -> Plan {
    let points = [(0., 0.), (4., 0.), (8., 0.), (9., 3.)];
    plan(
        &points,
        vec![Shape::Straight, Shape::bend(0.8), Shape::Onward],
    )
}

#[track_caller]
fn check(edit: &Edit, expected: &str) {
    let before = start();
    match before.with(edit) {
        Ok(edited) => panic!("{edit:?} gives {:?}", edited.plan.schemes),
        Err(why) => assert_eq!(why.to_string(), expected, "{edit:?}"),
    }
    assert_eq!(before, start());
}

#[test]
fn what_is_not_there() {
    let gone = "that part of the plan is no longer there";
    let leg_id = |scheme, route, leg| LegId { scheme, route, leg };
    for id in [
        leg_id(0, 0, 3),
        leg_id(0, 1, 0),
        leg_id(1, 0, 0),
        leg_id(9, 9, usize::MAX),
    ] {
        check(&Edit::SetRise { id, rise: 1.0 }, gone);
        check(
            &Edit::SetFigure {
                id,
                figure: Figure::Rise,
                value: 1.0,
            },
            gone,
        );
        check(&Edit::LetGo { id }, gone);
        check(
            &Edit::SetShape {
                id,
                shape: Shape::Straight,
            },
            gone,
        );
        let bend = Bend::from_chord_and_rise(1.0, 0.1).unwrap();
        check(&Edit::ChooseBend { id, bend }, gone);
    }
    let peg_id = |scheme, route, waypoint| WaypointId {
        scheme,
        route,
        waypoint,
    };
    for id in [
        peg_id(0, 0, 4),
        peg_id(0, 1, 0),
        peg_id(1, 0, 0),
        peg_id(0, 0, usize::MAX),
    ] {
        check(
            &Edit::MoveWaypoint {
                id,
                to: Point::ORIGIN,
            },
            gone,
        );
        check(
            &Edit::SetRounding {
                id,
                radius: Some(1.0),
            },
            gone,
        );
    }
    check(
        &Edit::SetWidth {
            scheme: 0,
            route: 1,
            width: 1.0,
        },
        gone,
    );
}

#[test]
fn figures_of_what_is_no_free_bend() {
    let straight =
        "this leg is a straight: only its length can be set; make it a bend to set the rest";
    check(&typed(0, Figure::Rise, 0.5), straight);
    check(
        &Edit::SetRise {
            id: leg(0),
            rise: 0.5,
        },
        straight,
    );
    let onward = "this bend leaves smoothly from the leg before it and takes its shape from there: make it a free bend to set its figures";
    check(&typed(2, Figure::Radius, 3.0), onward);
    check(
        &Edit::SetRise {
            id: leg(2),
            rise: 0.5,
        },
        onward,
    );
}

#[test]
fn figures_that_give_no_bend() {
    for (figure, value) in [
        (Figure::Radius, 1.9),
        (Figure::ArcLength, 3.9),
        (Figure::TangentLength, 2.0),
        (Figure::Rise, 0.0),
        (Figure::Rise, -1.0),
        (Figure::Radius, f64::NAN),
        (Figure::Sweep, f64::INFINITY),
        (Figure::Sweep, 7.0),
    ] {
        let before = start();
        let error = before.with(&typed(1, figure, value)).unwrap_err();
        assert!(
            matches!(error, plan::edit::EditError::NoBend(_, _)),
            "{figure} {value}: {error:?}"
        );
        assert_eq!(before, start());
    }
}

#[test]
fn lengths_past_the_limits() {
    let chord = |value| typed(0, Figure::Chord, value);
    let range = "leg 1: its chord in metres must lie between 0.0001 and 100000, it is";
    check(&chord(0.0), &format!("{range} 0"));
    check(&chord(-3.0), &format!("{range} -3"));
    check(&chord(f64::NAN), &format!("{range} NaN"));
    check(&chord(1e6), &format!("{range} 1000000"));
    let bend = "leg 2: its chord in metres must lie between 0.0001 and 100000, it is";
    check(&typed(1, Figure::Chord, 1e-5), &format!("{bend} 0.00001"));
    check(
        &Edit::SetRise {
            id: leg(1),
            rise: f64::NAN,
        },
        "option A, path 1, leg 2: its rise in metres must lie between -100000 and 100000, it is NaN",
    );
    check(
        &Edit::SetRounding {
            id: peg(1),
            radius: Some(0.0),
        },
        "option A, path 1, waypoint 2: its rounding in metres must lie between 0.0001 and 100000, it is 0",
    );
    for width in [0.049, 50.1, 0.0, -1.0, f64::NAN] {
        check(
            &Edit::SetWidth {
                scheme: 0,
                route: 0,
                width,
            },
            &format!(
                "option A, path 1: its width in metres must lie between 0.05 and 50, it is {width}"
            ),
        );
    }
    check(
        &Edit::SetTitle("x".repeat(201)),
        "the plan's title: a name has at most 200 characters, this one has 201",
    );
    check(
        &Edit::SetShape {
            id: leg(0),
            shape: Shape::Bend {
                rise: 0.5,
                holds: vec![Figure::Rise, Figure::Rise],
            },
        },
        "option A, path 1, leg 1: a bend holds two different figures",
    );
}

#[test]
fn a_peg_dragged_nowhere() {
    for to in [Point::new(f64::NAN, 0.0), Point::new(0.0, f64::INFINITY)] {
        check(
            &Edit::MoveWaypoint { id: peg(1), to },
            "the peg cannot go farther this way",
        );
    }
}
