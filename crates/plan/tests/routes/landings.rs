//! Landings and passing places: where they lie, and that they stay there.

use std::f64::consts::PI;

use geometry::Point;
use plan::Plan;
use plan::document::{Pad, PadShape, Shape, Side};
use plan::edit::{Edit, End};
use plan::finding::{Code, Part, Severity};

use super::common::{drag, path, peg, plan};
use super::{at, line, near, solved, with};

fn landing(station: f64, shape: PadShape) -> Pad {
    Pad {
        name: format!("at {station}"),
        station,
        shape,
    }
}

const ROUND: PadShape = PadShape::Circle { diameter: 2.0 };

/// A bend of 10 m and two straights, with landings at these stations.
fn laid(stations: &[f64]) -> Plan {
    let points = [(0., 0.), (10., 0.), (10., 6.), (18., 6.)];
    let mut plan = plan(
        &points,
        vec![Shape::bend(1.0), Shape::Straight, Shape::Straight],
    );
    let pads = stations.iter().map(|s| landing(*s, ROUND));
    plan.schemes[0].routes[0].pads = pads.collect();
    plan
}

/// The middles of all landings of the first option, as they are drawn, path after path.
fn middles(plan: &Plan) -> Vec<Point> {
    let solved = plan.solve().schemes.remove(0);
    let of_route = |route: plan::solve::SolvedRoute| {
        route.pads.into_iter().map(|pad| {
            let bounds = pad.bounds();
            bounds.low.middle(bounds.high)
        })
    };
    solved.routes.into_iter().flat_map(of_route).collect()
}

#[track_caller]
fn same_places(before: &[Point], after: &[Point], what: &str) {
    assert_eq!(before.len(), after.len(), "{what}");
    let mut rest = after.to_vec();
    for place in before {
        let there = rest.iter().position(|other| other.distance(*place) < 1e-9);
        match there {
            Some(there) => drop(rest.remove(there)),
            None => panic!("{what}: {place:?} is not in {after:?}"),
        }
    }
}

#[test]
fn their_outlines() {
    let mut plan = laid(&[]);
    plan.schemes[0].routes[0].pads = vec![
        landing(3.0, PadShape::Circle { diameter: 2.5 }),
        landing(
            line(&plan, 0).length() - 4.0,
            PadShape::Rectangle {
                along: 3.0,
                across: 2.0,
            },
        ),
    ];
    let pads = solved(&plan, 0).pads;
    near(pads[0].length(), 2.5 * PI, 1e-12);
    near(pads[0].enclosed_area(), 1.25 * 1.25 * PI, 1e-12);
    near(pads[1].length(), 10.0, 1e-12);
    near(pads[1].enclosed_area(), 6.0, 1e-12);
    // On the last straight, due east at y = 6, four metres before x = 18.
    let bounds = pads[1].bounds();
    assert!(bounds.low.distance(at(12.5, 5.0)) < 1e-9);
    assert!(bounds.high.distance(at(15.5, 7.0)) < 1e-9);
    for pad in &pads {
        assert!(pad.is_closed());
    }
}

#[test]
fn on_a_bend_a_rectangle_lies_square_to_it() {
    let mut plan = laid(&[]);
    let length = line(&plan, 0).pieces()[0].length();
    plan.schemes[0].routes[0].pads = vec![landing(
        0.25 * length,
        PadShape::Rectangle {
            along: 2.0,
            across: 1.0,
        },
    )];
    let chain = line(&plan, 0);
    let way = chain.direction_at(0.25 * length);
    let first = solved(&plan, 0).pads[0].pieces()[0];
    near(way.turn_to(first.start_direction()), 0.0, 1e-12);
}

#[test]
fn one_beyond_the_end_is_drawn_there_and_said() {
    let plan = laid(&[90.0]);
    let length = line(&plan, 0).length();
    let findings = plan.solve().findings;
    let [finding] = &findings[..] else {
        panic!("{findings:?}")
    };
    assert_eq!(finding.code, Code::PadBeyondEnd);
    assert_eq!(finding.severity, Severity::Care);
    assert_eq!(finding.place.part, Part::Whole);
    assert_eq!((finding.value, finding.limit), (Some(90.0), Some(length)));
    assert_eq!(
        finding.sentence,
        format!(
            "“at 90” is laid 90.000 m from the start, beyond the end of the path at {}: drawn at the end",
            plan.ruler().text(length)
        )
    );
    same_places(&[at(18., 6.)], &middles(&plan), "the end");
}

#[test]
fn they_are_laid_changed_and_taken_away() {
    let before = laid(&[1.0, 5.0]);
    let set = |pad: usize, to: Option<Pad>| Edit::SetPad {
        scheme: 0,
        route: 0,
        pad,
        to,
    };
    let three = with(&before, &set(2, Some(landing(9.0, ROUND))));
    assert_eq!(path(&three).pads.len(), 3);
    assert_eq!(path(&three).pads[..2], path(&before).pads[..]);
    assert_eq!(with(&three, &set(2, None)), before);
    let moved = with(&before, &set(0, Some(landing(2.0, ROUND))));
    near(path(&moved).pads[0].station, 2.0, 0.0);
    assert_eq!(path(&moved).pads[1], path(&before).pads[1]);
    for edit in [
        set(3, Some(landing(9.0, ROUND))),
        set(2, None),
        set(9, None),
    ] {
        assert!(before.with(&edit).is_err());
    }
}

#[test]
fn they_move_with_their_stations() {
    let before = laid(&[2.0, 12.0]);
    let after = with(&before, &drag(3, (20., 9.)));
    assert_eq!(path(&after).pads, path(&before).pads);
    same_places(&middles(&before), &middles(&after), "the last peg dragged");
    let after = with(&before, &drag(0, (-5., 0.)));
    assert_eq!(path(&after).pads, path(&before).pads);
    let chain = line(&after, 0);
    same_places(
        &[chain.point_at(2.0), chain.point_at(12.0)],
        &middles(&after),
        "the first peg dragged",
    );
}

/// What leaves the line leaves the landings on it.
#[test]
fn they_stay_where_the_line_stays() {
    let before = laid(&[0.5, 4.0, 10.5, 12.0, 17.0, 24.0]);
    let (scheme, route) = (0, 0);
    let lead = |end| Edit::LeadOn {
        scheme,
        route,
        end,
        at: at(-4., 7.),
        shape: Shape::bend(1.0),
    };
    for edit in [
        Edit::TurnRound { scheme, route },
        Edit::Split { id: peg(1) },
        Edit::Split { id: peg(2) },
        Edit::Close { scheme, route },
        lead(End::Start),
        lead(End::End),
        Edit::InsertWaypoint {
            id: super::common::leg(0),
            near: at(4., 1.),
        },
        Edit::Branch {
            scheme,
            host: route,
            side: Side::Left,
            near: at(10., 3.),
            to: at(0., 4.),
        },
    ] {
        same_places(
            &middles(&before),
            &middles(&with(&before, &edit)),
            &edit.name(),
        );
    }
}

#[test]
fn they_stay_where_two_paths_are_joined() {
    let mut before = laid(&[1.0]);
    let mut other = path(&laid(&[2.0, 12.0])).clone();
    for waypoint in &mut other.waypoints {
        waypoint.at.x += 30.0;
    }
    // A rounded last corner comes to count when the path leads on.
    before.schemes[0].routes[0].waypoints[3].rounding = Some(0.5);
    before.schemes[0].routes.push(other);
    let join = Edit::Join {
        scheme: 0,
        first: 0,
        second: 1,
    };
    same_places(&middles(&before), &middles(&with(&before, &join)), "join");
}

#[test]
fn they_stay_where_a_rounded_corner_is_parted() {
    let mut before = laid(&[3.0, 22.0]);
    before.schemes[0].routes[0].waypoints[2].rounding = Some(2.0);
    let two = with(&before, &Edit::Split { id: peg(2) });
    same_places(&middles(&before), &middles(&two), "parted");
    let routes = two.schemes[0].routes.iter();
    assert!(routes.map(|route| route.pads.len()).eq([1, 1]));
}

#[test]
fn they_stay_where_an_end_leg_goes() {
    let before = laid(&[12.0, 17.0]);
    for number in [0, 3] {
        let out = with(&before, &Edit::RemoveWaypoint { id: peg(number) });
        let kept = |plan: &Plan| middles(plan)[usize::from(number == 0)..][..1].to_vec();
        same_places(&kept(&before), &kept(&out), "the end leg taken out");
    }
}

#[test]
fn on_a_ring_they_stay_when_it_is_opened_and_when_its_first_peg_goes() {
    let points = [(0., 0.), (10., 0.), (10., 8.), (5., 8.), (0., 8.)];
    let mut before = plan(
        &points,
        vec![
            Shape::Straight,
            Shape::bend(-1.0),
            Shape::Straight,
            Shape::Straight,
            Shape::Straight,
        ],
    );
    before.schemes[0].routes[0].pads = [3.0, 13.0, 20.0, 26.0, 30.0]
        .map(|station| landing(station, ROUND))
        .to_vec();
    for number in 0..5 {
        let open = with(&before, &Edit::Split { id: peg(number) });
        same_places(&middles(&before), &middles(&open), "opened");
        let close = Edit::Close {
            scheme: 0,
            route: 0,
        };
        same_places(&middles(&before), &middles(&with(&open, &close)), "closed");
    }
    let round = Edit::TurnRound {
        scheme: 0,
        route: 0,
    };
    same_places(&middles(&before), &middles(&with(&before, &round)), "round");
    // The first peg out: the three between the second peg and the last stay.
    let out = with(&before, &Edit::RemoveWaypoint { id: peg(0) });
    same_places(
        &middles(&before)[1..4],
        &middles(&out)[1..4],
        "first peg out",
    );
}
