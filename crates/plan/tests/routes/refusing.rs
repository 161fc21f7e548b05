//! Edits of whole paths that are refused: a sentence with a remedy, and the plan stays as it was.

use geometry::{Direction, Point, Vector};
use plan::Plan;
use plan::document::{Heading, Pad, PadShape, Route, Shape, Side};
use plan::edit::{Edit, EditError, End, LegId, WaypointId};

use super::common::{leg, path, peg, plan, route};
use super::{at, with};

/// A path of three straights, a closed one, one with all pegs on one place, and one of one peg.
fn start() -> Plan {
    let points = [(0., 0.), (4., 0.), (8., 2.), (9., 9.)];
    let mut plan = plan(&points, vec![Shape::Straight; 3]);
    plan.schemes[0].routes.extend([
        route(&[(0., 20.), (4., 20.), (4., 25.)], vec![Shape::Straight; 3]),
        route(&[(30., 0.), (30., 0.)], vec![Shape::Straight]),
        route(&[(40., 0.)], vec![]),
    ]);
    plan
}

#[track_caller]
fn refused(edit: &Edit) -> EditError {
    let before = start();
    let why = match before.with(edit) {
        Ok(edited) => panic!("{edit:?} gives {:?}", edited.plan.schemes),
        Err(why) => why,
    };
    assert_eq!(before, start());
    let mut history = plan::History::new(before.clone());
    assert!(history.commit(edit).is_err() && !history.undo());
    why
}

#[track_caller]
fn check(edit: &Edit, expected: &str) {
    assert_eq!(refused(edit).to_string(), expected, "{edit:?}");
}

const CLOSED: &str =
    "the path is closed: it has no end to lead on or to join; open it at a peg first";

fn on(route: usize, waypoint: usize) -> WaypointId {
    WaypointId {
        scheme: 0,
        route,
        waypoint,
    }
}

fn lead(route: usize, at: Point) -> Edit {
    Edit::LeadOn {
        scheme: 0,
        route,
        end: End::Start,
        at,
        shape: Shape::Straight,
    }
}

fn join(first: usize, second: usize) -> Edit {
    Edit::Join {
        scheme: 0,
        first,
        second,
    }
}

#[test]
fn parts_that_are_not_there() {
    let gone = "that part of the plan is no longer there";
    for (scheme, route) in [(0, 4), (1, 0), (usize::MAX, usize::MAX)] {
        let waypoint = 0;
        let id = WaypointId {
            scheme,
            route,
            waypoint,
        };
        let pad = Pad {
            name: String::new(),
            station: 0.0,
            shape: PadShape::Circle { diameter: 1.0 },
        };
        for edit in [
            Edit::RemoveRoute { scheme, route },
            Edit::RenameRoute {
                scheme,
                route,
                name: String::new(),
            },
            Edit::LeadOn {
                scheme,
                route,
                end: End::End,
                at: Point::ORIGIN,
                shape: Shape::Straight,
            },
            Edit::InsertWaypoint {
                id: LegId {
                    scheme,
                    route,
                    leg: 0,
                },
                near: Point::ORIGIN,
            },
            Edit::RemoveWaypoint { id },
            Edit::TurnRound { scheme, route },
            Edit::Close { scheme, route },
            Edit::Split { id },
            Edit::Join {
                scheme,
                first: route,
                second: 0,
            },
            Edit::Join {
                scheme,
                first: 0,
                second: route.max(4),
            },
            Edit::Branch {
                scheme,
                host: route,
                side: Side::Left,
                near: Point::ORIGIN,
                to: Point::ORIGIN,
            },
            Edit::SetHeading {
                scheme,
                route,
                end: End::Start,
                heading: None,
            },
            Edit::MoveTogether {
                scheme,
                waypoints: vec![(0, 0), (route, 0)],
                by: Vector::ZERO,
            },
            Edit::Mirror {
                scheme,
                route,
                through: Point::ORIGIN,
                along: Direction::EAST,
            },
            Edit::CopyRoute {
                scheme,
                route,
                to: 0,
                by: Vector::ZERO,
            },
            Edit::MirrorPegs {
                scheme,
                route,
                waypoints: vec![0, 1, 2],
            },
            Edit::CopyPegs {
                scheme,
                route,
                waypoints: vec![0, 1],
                by: Vector::ZERO,
            },
            Edit::SetPad {
                scheme,
                route,
                pad: 0,
                to: Some(pad),
            },
        ] {
            check(&edit, gone);
        }
        if scheme != 0 {
            check(&Edit::RemoveScheme { scheme }, gone);
            check(
                &Edit::AddScheme {
                    copy_of: Some(scheme),
                },
                gone,
            );
            check(
                &Edit::CopyRoute {
                    scheme: 0,
                    route: 0,
                    to: scheme,
                    by: Vector::ZERO,
                },
                gone,
            );
        }
    }
    for waypoint in [4, usize::MAX] {
        check(&Edit::Split { id: peg(waypoint) }, gone);
        check(&Edit::RemoveWaypoint { id: peg(waypoint) }, gone);
        check(
            &Edit::MoveTogether {
                scheme: 0,
                waypoints: vec![(0, 1), (0, waypoint)],
                by: Vector::ZERO,
            },
            gone,
        );
    }
    check(
        &Edit::InsertWaypoint {
            id: leg(3),
            near: Point::ORIGIN,
        },
        gone,
    );
}

#[test]
fn what_a_path_cannot_do() {
    check(&lead(1, at(9., 9.)), CLOSED);
    check(
        &Edit::Close {
            scheme: 0,
            route: 1,
        },
        CLOSED,
    );
    for (first, second) in [(0, 1), (1, 0), (0, 0), (1, 1)] {
        check(&join(first, second), CLOSED);
    }
    let two_pegs =
        "a path needs two pegs, and a closed one three: take the whole path away instead";
    check(&Edit::RemoveWaypoint { id: on(1, 1) }, two_pegs);
    check(&Edit::RemoveWaypoint { id: on(2, 0) }, two_pegs);
    check(&Edit::RemoveWaypoint { id: on(3, 0) }, two_pegs);
    let at_an_end = "a path cannot be parted at its own end: choose a peg between two legs";
    check(&Edit::Split { id: peg(0) }, at_an_end);
    check(&Edit::Split { id: peg(3) }, at_an_end);
    for route in [2, 3] {
        let why = refused(&Edit::Close { scheme: 0, route });
        assert!(why.to_string().contains("a closed one three"), "{why}");
    }
    check(
        &Edit::RemoveScheme { scheme: 0 },
        "a plan keeps at least one option: add another before this one is taken away",
    );
    check(
        &Edit::InsertWaypoint {
            id: LegId {
                scheme: 0,
                route: 2,
                leg: 0,
            },
            near: Point::ORIGIN,
        },
        "no line is drawn here to put a peg on or to begin at: put right first what is found about this path",
    );
    for host in [2, 3] {
        check(
            &Edit::Branch {
                scheme: 0,
                host,
                side: Side::Left,
                near: Point::ORIGIN,
                to: Point::ORIGIN,
            },
            "no line is drawn here to put a peg on or to begin at: put right first what is found about this path",
        );
    }
}

#[test]
fn places_that_are_none() {
    let nowhere = "the peg cannot go farther this way";
    for (x, y) in [
        (f64::NAN, 0.),
        (0., f64::INFINITY),
        (f64::NEG_INFINITY, f64::NAN),
    ] {
        check(
            &Edit::InsertWaypoint {
                id: leg(0),
                near: at(x, y),
            },
            nowhere,
        );
        check(
            &Edit::Branch {
                scheme: 0,
                host: 0,
                side: Side::Right,
                near: at(x, y),
                to: at(1., 1.),
            },
            nowhere,
        );
        check(
            &Edit::MoveTogether {
                scheme: 0,
                waypoints: vec![(0, 0)],
                by: Vector::new(x, y),
            },
            nowhere,
        );
        for edit in [
            lead(0, at(x, y)),
            Edit::Branch {
                scheme: 0,
                host: 0,
                side: Side::Right,
                near: at(1., 1.),
                to: at(x, y),
            },
            Edit::Mirror {
                scheme: 0,
                route: 0,
                through: at(x, y),
                along: Direction::EAST,
            },
            Edit::CopyRoute {
                scheme: 0,
                route: 0,
                to: 0,
                by: Vector::new(x, y),
            },
        ] {
            assert!(matches!(refused(&edit), EditError::Limit(_)), "{edit:?}");
        }
    }
    for huge in [100_001.0, 1e300, f64::MAX] {
        assert!(matches!(
            refused(&lead(0, at(huge, 0.))),
            EditError::Limit(_)
        ));
        let copy = Edit::CopyRoute {
            scheme: 0,
            route: 0,
            to: 0,
            by: Vector::new(0.0, -huge),
        };
        assert!(matches!(refused(&copy), EditError::Limit(_)));
    }
    // Near means near: from however far away a peg is put on the leg.
    for huge in [1e6, 1e300, f64::MAX] {
        let insert = Edit::InsertWaypoint {
            id: leg(1),
            near: at(huge, -huge),
        };
        let peg = path(&with(&start(), &insert)).waypoints[2].at;
        assert!(peg.distance(at(8., 2.)) < 0.001 || peg.distance(at(4., 0.)) < 0.001);
    }
}

#[test]
fn figures_past_the_limits() {
    let pad = |station: f64, shape: PadShape| Edit::SetPad {
        scheme: 0,
        route: 0,
        pad: 0,
        to: Some(Pad {
            name: "landing".into(),
            station,
            shape,
        }),
    };
    let round = |diameter| PadShape::Circle { diameter };
    let place = "option A, path 1, landing 1: its";
    for (edit, expected) in [
        (
            pad(-1.0, round(1.0)),
            format!("{place} station in metres must lie between 0 and 100000, it is -1"),
        ),
        (
            pad(f64::NAN, round(1.0)),
            format!("{place} station in metres must lie between 0 and 100000, it is NaN"),
        ),
        (
            pad(1.0, round(0.01)),
            format!("{place} diameter in metres must lie between 0.05 and 50, it is 0.01"),
        ),
        (
            pad(
                1.0,
                PadShape::Rectangle {
                    along: 51.0,
                    across: 1.0,
                },
            ),
            format!("{place} length in metres must lie between 0.05 and 50, it is 51"),
        ),
        (
            pad(
                1.0,
                PadShape::Rectangle {
                    along: 1.0,
                    across: f64::INFINITY,
                },
            ),
            format!("{place} width in metres must lie between 0.05 and 50, it is inf"),
        ),
        (
            Edit::SetHeading {
                scheme: 0,
                route: 0,
                end: End::End,
                heading: Some(Heading::Angle(7.5)),
            },
            "option A, path 1, end direction: its angle in radians must lie between -7 and 7, it is 7.5".into(),
        ),
        (
            Edit::AddRoute {
                scheme: 0,
                route: Box::new(Route {
                    width: 0.0,
                    ..Route::default()
                }),
            },
            "option A, path 5: its width in metres must lie between 0.05 and 50, it is 0".into(),
        ),
        (
            Edit::RenameRoute {
                scheme: 0,
                route: 0,
                name: "two\nlines".into(),
            },
            "option A, path 1: a name is one line of text without control characters".into(),
        ),
        (
            Edit::RenameScheme {
                scheme: 0,
                name: "x".repeat(201),
            },
            "option A: a name has at most 200 characters, this one has 201".into(),
        ),
    ] {
        check(&edit, &expected);
    }
}

#[test]
fn the_longest_name_is_parted_too() {
    let mut plan = start();
    plan.schemes[0].routes[0].name = "é".repeat(200);
    let two = with(&plan, &Edit::Split { id: peg(1) });
    assert!(two.schemes[0].routes[1].name.ends_with(", part 2"));
}
