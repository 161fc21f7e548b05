//! Paths that begin at the edge of another: they follow it, and stay when it does.

use geometry::{Direction, Figure, Point, Vector};
use plan::Plan;
use plan::document::{Junction, Route, Shape, Side};
use plan::edit::{Edit, End, LegId, Stopped, WaypointId};
use plan::finding::{Code, Part, Severity};
use plan::{file, limits};

use super::common::{drag, leg, path, peg, plan, plan_of, route};
use super::{at, codes, line, near, solved, with};

/// A straight of 10 m and a bend; a path from its left edge at (5, 0.6), and one from the right
/// edge of the bend.
fn branched() -> Plan {
    let host = plan(
        &[(0., 0.), (10., 0.), (16., 4.)],
        vec![Shape::Straight, Shape::bend(1.0)],
    );
    let one = with(&host, &branch(Side::Left, (5., 3.), (5., 8.)));
    with(&one, &branch(Side::Right, (15.5, 1.5), (17., -6.)))
}

fn branch(side: Side, near: (f64, f64), to: (f64, f64)) -> Edit {
    Edit::Branch {
        scheme: 0,
        host: 0,
        side,
        near: at(near.0, near.1),
        to: at(to.0, to.1),
    }
}

fn branch_of(plan: &Plan, route: usize) -> &Route {
    &plan.schemes[0].routes[route]
}

fn start(plan: &Plan, route: usize) -> Point {
    branch_of(plan, route).waypoints[0].at
}

fn junction(plan: &Plan, route: usize) -> Junction {
    match branch_of(plan, route).start_on {
        Some(junction) => junction,
        None => panic!("path {route} starts freely"),
    }
}

/// How far the first peg of a path stands off the edge it starts from.
fn off(plan: &Plan, route: usize) -> f64 {
    let junction = junction(plan, route);
    let host = solved(plan, junction.route - 1);
    let edge = match junction.side {
        Side::Left => host.left_edge,
        Side::Right => host.right_edge,
    };
    edge.map_or(f64::INFINITY, |edge| {
        let place = edge.point_at(junction.station.min(edge.length()));
        place.distance(start(plan, route))
    })
}

fn other_peg(route: usize) -> WaypointId {
    WaypointId {
        scheme: 0,
        route,
        waypoint: 0,
    }
}

#[test]
fn it_begins_on_the_edge_nearest_to_the_hand() {
    let plan = branched();
    assert!(start(&plan, 1).distance(at(5.0, 0.6)) < 1e-12);
    let expected = Junction {
        route: 1,
        side: Side::Left,
        station: 5.0,
    };
    assert_eq!(junction(&plan, 1), expected);
    near(branch_of(&plan, 1).width, 1.2, 0.0);
    assert!(off(&plan, 2) < 1e-12);
    assert_eq!(codes(&plan), []);
    // Nothing of the host changes.
    assert_eq!(
        path(&plan).waypoints[..],
        [(0., 0.), (10., 0.), (16., 4.)].map(|p| super::common::waypoint(p, None))
    );
}

#[test]
fn it_follows_whatever_is_done_to_the_host_and_its_other_pegs_stay() {
    let before = branched();
    for edit in [
        drag(1, (9., -3.)),
        drag(0, (-4., 2.)),
        drag(2, (20., 9.)),
        Edit::SetWidth {
            scheme: 0,
            route: 0,
            width: 2.0,
        },
        Edit::SetRise {
            id: leg(1),
            rise: -2.0,
        },
        Edit::SetShape {
            id: leg(0),
            shape: Shape::bend(0.7),
        },
        Edit::SetRounding {
            id: peg(1),
            radius: Some(2.0),
        },
        Edit::InsertWaypoint {
            id: leg(0),
            near: at(3., 0.),
        },
        Edit::MoveTogether {
            scheme: 0,
            waypoints: vec![(0, 0), (0, 1), (0, 2)],
            by: Vector::new(1.0, -7.0),
        },
    ] {
        let after = with(&before, &edit);
        for route in [1, 2] {
            assert!(off(&after, route) < 1e-9, "{edit:?}");
            assert_eq!(junction(&after, route), junction(&before, route));
            let (was, now) = (branch_of(&before, route), branch_of(&after, route));
            assert_eq!(now.waypoints[1..], was.waypoints[1..]);
            assert_eq!(now.legs, was.legs);
        }
        assert!(!codes(&after).contains(&Code::OffItsEdge));
    }
}

#[test]
fn a_bend_that_begins_at_an_edge_keeps_its_sweep() {
    let before = with(
        &branched(),
        &Edit::SetShape {
            id: LegId {
                scheme: 0,
                route: 1,
                leg: 0,
            },
            shape: Shape::bend(1.0),
        },
    );
    let after = with(&before, &drag(1, (9., -3.)));
    let sweep = |plan: &Plan| solved(plan, 1).legs[0][0].sweep();
    near(sweep(&after), sweep(&before), 1e-12);
}

/// What leaves the host's ground leaves the paths at its edge too, bit for bit.
#[test]
fn they_stay_when_the_host_stays() {
    let before = branched();
    let (scheme, route) = (0, 0);
    let lead = |end, x, y| Edit::LeadOn {
        scheme,
        route,
        end,
        at: at(x, y),
        shape: Shape::Straight,
    };
    for edit in [
        Edit::TurnRound { scheme, route },
        Edit::Split { id: peg(1) },
        lead(End::Start, -4., 1.),
        lead(End::End, 20., 6.),
        Edit::InsertWaypoint {
            id: leg(0),
            near: at(5., 0.),
        },
        Edit::Close { scheme, route },
    ] {
        let after = with(&before, &edit);
        let added = after.schemes[0].routes.len() - before.schemes[0].routes.len();
        for route in [1, 2] {
            assert_eq!(
                branch_of(&after, route + added).waypoints,
                branch_of(&before, route).waypoints,
                "{edit:?}"
            );
            assert!(off(&after, route + added) < 1e-6, "{edit:?}");
        }
    }
}

#[test]
fn turned_round_the_edge_is_on_the_other_side() {
    let before = branched();
    let round = Edit::TurnRound {
        scheme: 0,
        route: 0,
    };
    let after = with(&before, &round);
    assert_eq!(junction(&after, 1).side, Side::Right);
    assert_eq!(junction(&after, 2).side, Side::Left);
    let length = solved(&before, 0).left_edge.unwrap().length();
    near(junction(&after, 1).station, length - 5.0, 1e-9);
    // The path that is turned round itself no longer starts there.
    let after = with(
        &before,
        &Edit::TurnRound {
            scheme: 0,
            route: 1,
        },
    );
    assert_eq!(branch_of(&after, 1).start_on, None);
    assert_eq!(start(&after, 1), at(5., 8.));
}

#[test]
fn parted_it_starts_from_the_part_it_lies_on() {
    let before = branched();
    let two = with(&before, &Edit::Split { id: peg(1) });
    assert_eq!(junction(&two, 2).route, 1);
    assert_eq!(junction(&two, 3).route, 2);
    let join = Edit::Join {
        scheme: 0,
        first: 0,
        second: 1,
    };
    let one = with(&two, &join);
    for route in [1, 2] {
        let (was, now) = (junction(&before, route), junction(&one, route));
        assert_eq!((now.route, now.side), (was.route, was.side));
        near(now.station, was.station, 1e-9);
        assert_eq!(
            branch_of(&one, route).waypoints,
            branch_of(&before, route).waypoints
        );
    }
}

#[test]
fn joined_to_a_later_path_it_stays_where_it_is_and_begins_freely() {
    // A path cannot start from one after it.
    let mut before = branched();
    let later = route(&[(-9., 0.), (0., 0.)], vec![Shape::Straight]);
    before.schemes[0].routes.push(later);
    let after = with(
        &before,
        &Edit::Join {
            scheme: 0,
            first: 3,
            second: 0,
        },
    );
    assert_eq!(after.schemes[0].routes.len(), 3);
    for route in [0, 1] {
        assert_eq!(branch_of(&after, route).start_on, None);
        assert_eq!(
            branch_of(&after, route).waypoints,
            branch_of(&before, route + 1).waypoints
        );
    }
    // A path before it takes it along.
    before.schemes[0].routes.rotate_right(1);
    for route in &mut before.schemes[0].routes {
        if let Some(junction) = &mut route.start_on {
            junction.route += 1;
        }
    }
    let after = with(
        &before,
        &Edit::Join {
            scheme: 0,
            first: 0,
            second: 1,
        },
    );
    for route in [1, 2] {
        assert_eq!(junction(&after, route).route, 1);
        assert_eq!(
            branch_of(&after, route).waypoints,
            branch_of(&before, route + 1).waypoints
        );
    }
    near(junction(&after, 1).station, 14.0, 1e-9);
}

#[test]
fn the_host_taken_away_it_stays() {
    let before = branched();
    let after = with(
        &before,
        &Edit::RemoveRoute {
            scheme: 0,
            route: 0,
        },
    );
    for route in [0, 1] {
        let expected = Route {
            start_on: None,
            ..branch_of(&before, route + 1).clone()
        };
        assert_eq!(branch_of(&after, route), &expected);
    }
    // A path before the host taken away, the numbers count anew.
    let mut four = branched();
    four.schemes[0]
        .routes
        .insert(0, route(&[(-20., 0.), (-20., 9.)], vec![Shape::Straight]));
    for route in &mut four.schemes[0].routes {
        if let Some(junction) = &mut route.start_on {
            junction.route += 1;
        }
    }
    let after = with(
        &four,
        &Edit::RemoveRoute {
            scheme: 0,
            route: 0,
        },
    );
    assert_eq!(after, branched());
}

#[test]
fn its_first_peg_slides_along_the_edge() {
    let before = branched();
    let slide = |x: f64, y: f64| Edit::MoveWaypoint {
        id: other_peg(1),
        to: at(x, y),
    };
    let after = with(&before, &slide(7.0, 4.0));
    assert!(start(&after, 1).distance(at(7.0, 0.6)) < 1e-12);
    near(junction(&after, 1).station, 7.0, 1e-12);
    assert_eq!(path(&after), path(&before));
    // Round the corner on to the bend, and not past the end.
    for (x, y) in [(13., 5.), (90., 90.), (-50., 0.), (1e9, -1e9)] {
        let after = with(&before, &slide(x, y));
        assert!(off(&after, 1) < 1e-9);
        assert!(!codes(&after).contains(&Code::OffItsEdge));
    }
    for (x, y) in [(f64::NAN, 0.), (0., f64::INFINITY)] {
        let why = before.with(&slide(x, y)).unwrap_err();
        assert_eq!(why.to_string(), "the peg cannot go farther this way");
    }
}

#[test]
fn a_peg_that_cannot_slide_stays_on_the_edge_and_says_why() {
    let first = LegId {
        scheme: 0,
        route: 1,
        leg: 0,
    };
    let bend = Shape::Bend {
        rise: 1.0,
        holds: vec![Figure::Chord],
    };
    let before = with(
        &branched(),
        &Edit::SetShape {
            id: first,
            shape: bend,
        },
    );
    let edited = before.with(&Edit::MoveWaypoint {
        id: other_peg(1),
        to: at(8., 0.),
    });
    let edited = edited.unwrap();
    assert_eq!(edited.plan, before);
    assert!(matches!(
        edited.stopped,
        Some(Stopped::Holds { leg: 0, .. })
    ));
}

#[test]
fn what_is_held_keeps_it_off_the_edge_and_a_finding_says_so() {
    let first = LegId {
        scheme: 0,
        route: 1,
        leg: 0,
    };
    let bend = Shape::Bend {
        rise: 1.0,
        holds: vec![Figure::Chord],
    };
    let held = with(
        &branched(),
        &Edit::SetShape {
            id: first,
            shape: bend,
        },
    );
    assert!(!codes(&held).contains(&Code::OffItsEdge));
    let after = with(&held, &drag(1, (10., -3.)));
    let findings = after.solve().findings;
    let found = findings
        .iter()
        .find(|f| f.code == Code::OffItsEdge)
        .unwrap();
    assert_eq!(found.severity, Severity::Care);
    assert_eq!(found.place.route, 1);
    assert_eq!(found.place.part, Part::Waypoint(0));
    assert_eq!(found.place.at, start(&after, 1));
    near(found.value.unwrap(), off(&after, 1), 1e-12);
    assert_eq!(found.limit, Some(0.001));
    let figure = after.ruler().exact(off(&after, 1));
    assert!(found.sentence.contains(&figure), "{}", found.sentence);
    // Let go and moved again, it is back on the edge.
    let free = with(&after, &Edit::LetGo { id: first });
    assert!(off(&free, 1) < 1e-9);
    assert!(!codes(&free).contains(&Code::OffItsEdge));
}

#[test]
fn a_path_less_than_a_millimetre_off_its_edge_is_on_it() {
    for (off, expected) in [(0.0009, false), (0.0011, true)] {
        let mut plan = branched();
        plan.schemes[0].routes[1].waypoints[0].at.y += off;
        assert_eq!(codes(&plan).contains(&Code::OffItsEdge), expected, "{off}");
    }
    // Nothing left of the edge: nothing to be off.
    let mut plan = branched();
    plan.schemes[0].routes[0].waypoints.truncate(1);
    plan.schemes[0].routes[0].legs.clear();
    assert!(codes(&plan).contains(&Code::OffItsEdge));
}

#[test]
fn all_moved_together_it_still_starts_there() {
    let before = branched();
    let everything = before.schemes[0].routes.iter().enumerate();
    let everything: Vec<(usize, usize)> = everything
        .flat_map(|(r, route)| (0..route.waypoints.len()).map(move |w| (r, w)))
        .collect();
    let by = Vector::new(2.5, -1.25);
    let after = with(
        &before,
        &Edit::MoveTogether {
            scheme: 0,
            waypoints: everything,
            by,
        },
    );
    for (now, was) in after.schemes[0]
        .routes
        .iter()
        .zip(&before.schemes[0].routes)
    {
        assert_eq!((&now.start_on, &now.legs), (&was.start_on, &was.legs));
        for (now, was) in now.waypoints.iter().zip(&was.waypoints) {
            assert_eq!(now.at, was.at + by);
        }
    }
    // Moved by itself it leaves the edge.
    let after = with(
        &before,
        &Edit::MoveTogether {
            scheme: 0,
            waypoints: vec![(1, 0), (1, 1)],
            by,
        },
    );
    assert_eq!(branch_of(&after, 1).start_on, None);
    assert_eq!(start(&after, 1), start(&before, 1) + by);
}

#[test]
fn a_path_from_a_path_from_a_path_follows() {
    let mut plan = branched();
    for _ in 0..3 {
        let host = plan.schemes[0].routes.len() - 1;
        let middle = line(&plan, host).point_at(2.0);
        let next = Edit::Branch {
            scheme: 0,
            host,
            side: Side::Left,
            near: middle,
            to: middle + Vector::new(3.0, 5.0),
        };
        plan = with(&plan, &next);
    }
    let after = with(&plan, &drag(1, (9., -2.)));
    for route in 1..6 {
        assert!(off(&after, route) < 1e-9, "{route}");
        assert!(start(&after, route).distance(start(&plan, route)) > 1e-3);
    }
}

#[test]
fn the_mirrored_host_takes_it_along() {
    let before = branched();
    let after = with(
        &before,
        &Edit::Mirror {
            scheme: 0,
            route: 0,
            through: Point::ORIGIN,
            along: Direction::EAST.left(),
        },
    );
    assert!(start(&after, 1).distance(at(-5.0, 0.6)) < 1e-9);
    assert!(off(&after, 1) < 1e-9 && off(&after, 2) < 1e-9);
}

#[test]
fn a_ring_opened_elsewhere_keeps_it() {
    let ring = plan(
        &[(0., 0.), (10., 0.), (10., 8.), (0., 8.)],
        vec![
            Shape::Straight,
            Shape::bend(-1.0),
            Shape::Straight,
            Shape::bend(-1.0),
        ],
    );
    let mut before = ring;
    for (side, near, to) in [
        (Side::Right, (4., -1.), (4., -9.)),
        (Side::Left, (10., 4.), (5., 4.)),
        (Side::Right, (5., 9.), (5., 19.)),
    ] {
        before = with(&before, &branch(side, near, to));
    }
    for number in 0..4 {
        let opened = with(&before, &Edit::Split { id: peg(number) });
        let close = Edit::Close {
            scheme: 0,
            route: 0,
        };
        let fewer = with(&before, &Edit::RemoveWaypoint { id: peg(number) });
        for route in 1..4 {
            for plan in [&opened, &with(&opened, &close)] {
                assert_eq!(
                    branch_of(plan, route).waypoints,
                    branch_of(&before, route).waypoints
                );
                assert!(off(plan, route) < 1e-6);
            }
            assert!(off(&fewer, route) < 1e-6);
        }
    }
}

#[test]
fn files_with_a_path_from_itself_or_a_later_one_are_refused() {
    let good = branched();
    assert!(file::read(file::write(&good).as_bytes()).is_ok());
    for (number, named) in [(2, 2), (2, 3), (2, 0), (1, 1), (2, usize::MAX)] {
        let mut bad = good.clone();
        bad.schemes[0].routes[number - 1].start_on = Some(Junction {
            route: named,
            side: Side::Left,
            station: 1.0,
        });
        let why = file::read(file::write(&bad).as_bytes()).unwrap_err();
        assert_eq!(
            why.to_string(),
            format!(
                "option A, path {number}: it cannot start from the edge of path {named}: only from one before it"
            )
        );
        assert!(limits::check(&bad).is_err());
        let _ = bad.solve();
        // An edit of such a plan is refused or mends it; it never breaks.
        let _ = bad.with(&drag(0, (1., 1.)));
    }
    for station in [-1.0, f64::NAN, f64::INFINITY, 1e6] {
        let mut bad = good.clone();
        if let Some(junction) = &mut bad.schemes[0].routes[1].start_on {
            junction.station = station;
        }
        assert!(file::read(file::write(&bad).as_bytes()).is_err());
    }
}

#[test]
fn a_copy_of_it_begins_freely() {
    let before = with(&branched(), &Edit::AddScheme { copy_of: None });
    let copy = Edit::CopyRoute {
        scheme: 0,
        route: 1,
        to: 1,
        by: Vector::ZERO,
    };
    let after = with(&before, &copy);
    let expected = Route {
        start_on: None,
        ..branch_of(&before, 1).clone()
    };
    assert_eq!(after.schemes[1].routes, [expected]);
    assert_eq!(after.schemes[0], before.schemes[0]);
}

#[test]
fn a_path_that_is_laid_is_set_on_its_edge() {
    let laid = Route {
        start_on: Some(Junction {
            route: 1,
            side: Side::Left,
            station: 2.0,
        }),
        ..route(&[(9., 9.), (2., 5.)], vec![Shape::Straight])
    };
    let host = plan_of(route(&[(0., 0.), (10., 0.)], vec![Shape::Straight]));
    let lay = Edit::AddRoute {
        scheme: 0,
        route: Box::new(laid),
    };
    assert!(start(&with(&host, &lay), 1).distance(at(2.0, 0.6)) < 1e-12);
}
