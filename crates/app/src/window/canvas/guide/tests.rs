//! What holds a place, and that it lies exactly there.

use geometry::{Direction, Point};
use plan::document::{
    Extent, Heading, Mark, Obstacle, ObstacleKind, Plan, Route, Scheme, Shape, Waypoint,
};
use plan::units::Units;
use plan::{Edit, edit::WaypointId};

use super::{Around, Guided, Side, Spot, Why, guided};
use crate::window::words::guides::sentence;

/// How far a place is held in these tests: 8 screen points at 40 to the metre.
const REACH: f64 = 0.2;

fn at((x, y): (f64, f64)) -> Point {
    Point::new(x, y)
}

fn route(waypoints: &[(f64, f64)], legs: &[Shape]) -> Route {
    let waypoint = |place: &(f64, f64)| Waypoint {
        at: at(*place),
        rounding: None,
    };
    Route {
        name: "Path 1".into(),
        width: 1.2,
        waypoints: waypoints.iter().map(waypoint).collect(),
        legs: legs.to_vec(),
        ..Route::default()
    }
}

fn straights(waypoints: &[(f64, f64)]) -> Route {
    route(waypoints, &vec![Shape::Straight; waypoints.len() - 1])
}

/// One route on an empty site, taped to 5 mm.
fn alone(route: Route) -> Plan {
    Plan {
        schemes: vec![Scheme {
            routes: vec![route],
            ..Scheme::default()
        }],
        ..Plan::empty(Units::Metric)
    }
}

fn mark(name: &str, place: (f64, f64)) -> Mark {
    Mark {
        name: name.into(),
        at: at(place),
    }
}

fn obstacle(name: &str, kind: ObstacleKind, extent: Extent) -> Obstacle {
    Obstacle::new(name, kind, extent)
}

fn places(all: &[(f64, f64)]) -> Vec<Point> {
    all.iter().copied().map(at).collect()
}

/// A path of one straight with a site far enough from its pegs that nothing interferes.
fn yard() -> Plan {
    let mut plan = alone(straights(&[(0.0, 0.0), (3.01, 4.02)]));
    plan.site_mut().marks = vec![
        mark("west gate post", (20.0, 11.0)),
        mark("Stone 7", (24.0, 14.0)),
    ];
    plan.site_mut().obstacles = vec![
        obstacle(
            "lane fence",
            ObstacleKind::Wall,
            Extent::Line(places(&[(10.0, -6.0), (18.0, -5.0)])),
        ),
        obstacle(
            "Shed",
            ObstacleKind::Building,
            Extent::Area(places(&[
                (30.0, 20.0),
                (34.0, 20.0),
                (34.0, 23.0),
                (30.0, 23.0),
            ])),
        ),
        obstacle(
            "water pipe",
            ObstacleKind::Service,
            Extent::Line(places(&[(10.0, 40.0), (18.0, 41.0)])),
        ),
    ];
    plan
}

fn held(plan: &Plan, waypoint: Option<usize>, from: Option<Point>, to: Point) -> Guided {
    let solved = plan.solve();
    let around = Around {
        plan,
        solved: &solved,
        scheme: 0,
        route: 0,
        waypoint,
        from,
        reach: REACH,
    };
    guided(&around, to)
}

fn said(guided: &Guided) -> String {
    let all: Vec<String> = guided.why.iter().map(sentence).collect();
    all.join("; ")
}

/// Waypoint dragged towards `to`; where it is held and why.
#[track_caller]
fn check(plan: &Plan, waypoint: usize, to: (f64, f64), expected: (f64, f64), why: &str) {
    let guided = held(plan, Some(waypoint), None, at(to));
    assert_eq!(said(&guided), why, "{guided:?}");
    let off = guided.at.distance(at(expected));
    assert!(
        off < 1e-9,
        "{} instead of {expected:?}",
        guided.at.distance(at(expected))
    );
}

#[test]
fn points_of_the_site_hold_exactly() {
    let yard = yard();
    for (to, expected, why) in [
        ((20.1, 10.9), (20.0, 11.0), "at the west gate post"),
        ((24.1, 14.1), (24.0, 14.0), "at Stone 7"),
        ((10.1, -6.1), (10.0, -6.0), "at the end of the lane fence"),
        ((33.9, 19.9), (34.0, 20.0), "at a corner of Shed"),
    ] {
        check(&yard, 1, to, expected, why);
        assert_eq!(held(&yard, Some(1), None, at(to)).at, at(expected));
    }
}

#[test]
fn what_is_out_of_reach_or_buried_holds_nothing_but_the_length() {
    let yard = yard();
    for to in [
        (20.15, 10.8),
        (33.75, 19.75),
        (10.0, 40.0),
        (14.0, 40.5),
        (25.0, -30.0),
    ] {
        let guided = held(&yard, Some(1), None, at(to));
        assert_eq!(said(&guided), "length to 5 mm", "{to:?}");
        let length = guided.at.distance(Point::ORIGIN);
        let steps = length / 0.005;
        assert!((steps - steps.round()).abs() < 1e-9, "{length}");
        assert!(guided.at.distance(at(to)) <= 0.0025 + 1e-12);
    }
}

#[test]
fn lines_of_the_site() {
    let mut yard = yard();
    // A first peg of a path of one place has no length: the foot itself.
    yard.schemes[0].routes[0] = route(&[(0.0, 0.0)], &[]);
    let shed = "on the line of Shed";
    check(&yard, 0, (32.0, 19.85), (32.0, 20.0), shed);
    // The line is followed its own length beyond its end, and no farther.
    check(&yard, 0, (37.9, 20.1), (37.9, 20.0), shed);
    check(&yard, 0, (38.1, 20.1), (38.1, 20.1), "");
    // Also along the side from the last corner back to the first.
    check(&yard, 0, (30.1, 21.0), (30.0, 21.0), shed);
    let fence = held(&yard, Some(0), None, at((14.0, -5.4)));
    assert_eq!(said(&fence), "on the line of the lane fence");
    let along = Direction::of(at((18.0, -5.0)) - at((10.0, -6.0))).expect("a fence");
    assert!(along.unit().cross(fence.at - at((10.0, -6.0))).abs() < 1e-12);
    // Between the marks, but not beyond them.
    check(
        &yard,
        0,
        (22.0, 12.5),
        (22.0, 12.5),
        "on the line from the west gate post to Stone 7",
    );
    check(&yard, 0, (28.0, 17.0), (28.0, 17.0), "");
}

#[test]
fn along_one_line_the_leg_is_a_whole_length() {
    // 25 m² = 3² + 4²: the side y = 20 of the shed is 20 m off the peg at the origin.
    let yard = yard();
    check(
        &yard,
        1,
        (32.001, 19.9),
        // 37.735 m is the whole length nearest to hypot(32.001, 20).
        ((37.735_f64.powi(2) - 400.0).sqrt(), 20.0),
        "on the line of Shed; length to 5 mm",
    );
    let guided = held(&yard, Some(1), None, at((32.001, 19.9)));
    assert_eq!(guided.at, Point::new(guided.at.x, 20.0));
}

#[test]
fn level_above_and_below_are_exact() {
    let plan = alone(straights(&[(0.3, 0.7), (5.0, 2.0), (9.1, -3.3)]));
    check(
        &plan,
        1,
        (4.0013, 0.8),
        (4.0, 0.7),
        "level with peg 1; length to 5 mm",
    );
    check(
        &plan,
        1,
        (0.2, 6.0012),
        (0.3, 6.0),
        "straight above peg 1; length to 5 mm",
    );
    check(
        &plan,
        1,
        (0.4, -6.0012),
        (0.3, -6.0),
        "straight below peg 1; length to 5 mm",
    );
    check(
        &plan,
        1,
        (9.0, -7.001),
        (9.1, -7.0),
        "straight below peg 3; length to 5 mm",
    );
    // Level with one and above the other: their meeting, to the last digit.
    let corner = held(&plan, Some(1), None, at((9.0, 0.8)));
    assert_eq!(said(&corner), "level with peg 1; straight above peg 3");
    assert_eq!(corner.at, at((9.1, 0.7)));
    assert_eq!(
        corner.lines,
        [[at((0.3, 0.7)), corner.at], [at((9.1, -3.3)), corner.at]]
    );
}

#[test]
fn straight_legs_run_on_or_turn_square() {
    let plan = alone(straights(&[
        (0.0, 0.0),
        (3.0, 4.0),
        (10.0, 1.0),
        (14.0, -2.0),
    ]));
    // Smooth from the leg before: along (3, 4) from peg 2, a whole 5 m on.
    check(
        &plan,
        2,
        (6.05, 8.05),
        (3.0 + 0.6 * 5.07, 4.0 + 0.8 * 5.07),
        "runs on smoothly from the leg before; length to 5 mm",
    );
    // The other way it would double back: nothing but the length.
    let back = held(&plan, Some(2), None, at((1.5, 2.0)));
    assert_eq!(said(&back), "length to 5 mm");
    // Square to it, to both sides.
    for share in [5.0, -5.0] {
        let place = (3.0 + 0.8 * share, 4.0 - 0.6 * share);
        check(
            &plan,
            2,
            (place.0 + 0.06, place.1 + 0.08),
            place,
            "square to the leg before; length to 5 mm",
        );
    }
    // Into the leg after: against (4, −3) from peg 3.
    check(
        &plan,
        1,
        (6.06, 4.08),
        (10.0 - 0.8 * 5.0, 1.0 + 0.6 * 5.0),
        "runs on smoothly into the leg after; length to 5 mm",
    );
}

#[test]
fn between_two_straights() {
    let plan = alone(straights(&[(0.0, 0.0), (3.0, 1.0), (8.0, 6.0)]));
    check(
        &plan,
        1,
        (4.03, 2.96),
        (4.0, 3.0),
        "in line with peg 1 and peg 3; length to 5 mm",
    );
}

/// A bend keeps its sweep while its peg is moved, so held smoothly it is tangent.
#[test]
fn a_bend_dragged_where_it_is_held_is_smooth_or_square() {
    let legs = [
        Shape::Straight,
        Shape::bend(0.7),
        Shape::bend(-0.4),
        Shape::Straight,
    ];
    let waypoints = [
        (0.0, 0.0),
        (3.0, 4.0),
        (8.0, 7.0),
        (13.0, 5.0),
        (17.0, -1.0),
    ];
    let plan = alone(route(&waypoints, &legs));
    let solved = plan.solve();
    let mut seen = 0;
    for waypoint in [2, 3] {
        for place in 0..2160 {
            let to =
                at(waypoints[waypoint]) + spoke(place % 720) * (1.5 * f64::from(place / 720 + 1));
            let around = Around {
                plan: &plan,
                solved: &solved,
                scheme: 0,
                route: 0,
                waypoint: Some(waypoint),
                from: None,
                reach: REACH,
            };
            let guided = guided(&around, to);
            let moved = plan
                .with(&Edit::MoveWaypoint {
                    id: WaypointId {
                        scheme: 0,
                        route: 0,
                        waypoint,
                    },
                    to: guided.at,
                })
                .expect("a free place");
            let moved = moved.plan.solve();
            let chain = moved.schemes[0].routes[0]
                .centre_line
                .clone()
                .expect("a path");
            for why in &guided.why {
                let (side, wanted) = match why {
                    Why::Smooth(side) => (side, 0.0),
                    Why::Square(side) => (side, std::f64::consts::FRAC_PI_2),
                    _ => continue,
                };
                // The corner at the start of a piece is that at the peg before it.
                let piece = if *side == Side::Before {
                    waypoint - 1
                } else {
                    waypoint + 1
                };
                let corner = chain.corner(piece).abs();
                assert!((corner - wanted).abs() < 1e-6, "{why:?} {corner} at {to:?}");
                seen += 1;
            }
        }
    }
    assert!(seen > 40, "{seen}");
}

fn spoke(half_degrees: u32) -> geometry::Vector {
    let turn = std::f64::consts::TAU * f64::from(half_degrees) / 720.0;
    Direction::EAST.turned(turn).unit()
}

#[test]
fn legs_that_bend_themselves_or_hold_a_figure_have_no_tangent_line() {
    let held_bend = Shape::Bend {
        rise: 0.7,
        holds: vec![geometry::Figure::Radius],
    };
    for own in [Shape::Onward, Shape::TwoBends, held_bend] {
        let plan = alone(route(
            &[(0.0, 0.0), (3.0, 4.0), (8.0, 7.0)],
            &[Shape::Straight, own],
        ));
        for turn in 0..720 {
            let guided = held(&plan, Some(2), None, at((3.0, 4.0)) + spoke(turn) * 5.0);
            let tangent = |why: &Why| matches!(why, Why::Smooth(_) | Why::Square(_));
            assert!(!guided.why.iter().any(tangent), "{guided:?}");
        }
    }
}

#[test]
fn a_direction_asked_for_holds_the_first_and_last_leg() {
    let mut path = straights(&[(0.0, 0.0), (4.0, 1.0), (9.0, 5.0)]);
    path.start_direction = Some(Heading::Angle(1.0));
    path.end_direction = Some(Heading::Angle(-0.5));
    let plan = alone(path);
    let leaves = Direction::at_angle(1.0).expect("an angle").unit();
    let place = Point::ORIGIN + leaves * 3.0;
    check(
        &plan,
        1,
        (place.x + 0.05, place.y),
        (place + leaves * 0.025).into_pair(),
        "leaves in the direction asked for; length to 5 mm",
    );
    let arrives = Direction::at_angle(-0.5).expect("an angle").unit();
    let place = at((9.0, 5.0)) - arrives * 3.0;
    let guided = held(&plan, Some(1), None, Point::new(place.x, place.y + 0.05));
    assert_eq!(guided.why[0], Why::Heading(Side::After));
    assert!(arrives.cross(guided.at - at((9.0, 5.0))).abs() < 1e-12);
}

trait IntoPair {
    fn into_pair(self) -> (f64, f64);
}

impl IntoPair for Point {
    fn into_pair(self) -> (f64, f64) {
        (self.x, self.y)
    }
}

#[test]
fn a_new_peg_is_led_on_from_either_end_or_from_nothing() {
    let plan = alone(straights(&[(0.0, 0.0), (3.0, 4.0), (9.0, 2.0)]));
    let end = Some(at((9.0, 2.0)));
    let level = held(&plan, None, end, at((12.001, 2.1)));
    assert_eq!(said(&level), "level with peg 3; length to 5 mm");
    assert_eq!(level.at, at((12.0, 2.0)));
    let smooth = held(&plan, None, end, at((12.0, 1.05)));
    assert_eq!(smooth.why[0], Why::Smooth(Side::Before));
    // Out of the start, backwards.
    let start = held(&plan, None, Some(Point::ORIGIN), at((-3.05, -4.0)));
    assert_eq!(start.why[0], Why::Smooth(Side::After));
    // A place of a path that is not there yet.
    let mut empty = plan.clone();
    empty.schemes[0].routes.clear();
    let second = held(&empty, None, Some(at((1.0, 1.0))), at((4.001, 1.1)));
    assert_eq!(said(&second), "level with the peg before; length to 5 mm");
    assert_eq!(second.at, at((4.0, 1.0)));
    let first = held(&empty, None, None, at((4.001, 1.1)));
    assert_eq!((first.at, first.why.len()), (at((4.001, 1.1)), 0));
}

#[test]
fn pegs_hold_but_not_the_next_ones() {
    let mut plan = alone(straights(&[
        (0.0, 0.0),
        (3.0, 4.0),
        (9.0, 2.0),
        (9.0, -5.0),
    ]));
    let mut other = straights(&[(20.0, 0.0), (24.0, 9.0), (30.0, 3.0)]);
    other.name = "Side path".into();
    other.waypoints[1].rounding = Some(1.0);
    plan.schemes[0].routes.push(other);
    check(&plan, 3, (0.1, 0.1), (0.0, 0.0), "at peg 1");
    check(&plan, 3, (20.1, 0.1), (20.0, 0.0), "at peg 1 of Side path");
    check(
        &plan,
        3,
        (24.1, 9.1),
        (24.0, 9.0),
        "at corner 2 of Side path",
    );
    let own = held(&plan, Some(3), None, at((9.05, -5.1)));
    assert!(
        !own.why.iter().any(|why| matches!(why, Why::AtPeg(..))),
        "{own:?}"
    );
    let next = held(&plan, Some(3), None, at((9.05, 2.1)));
    assert!(
        !next.why.iter().any(|why| matches!(why, Why::AtPeg(..))),
        "{next:?}"
    );
}

#[test]
fn of_equals_the_first_named_holds() {
    let mut yard = yard();
    yard.site_mut()
        .marks
        .push(mark("shed corner", (30.0, 20.0)));
    check(&yard, 1, (30.1, 20.1), (30.0, 20.0), "at the shed corner");
    // Two marks equally near.
    yard.site_mut().marks = vec![mark("first", (50.0, 0.5)), mark("second", (50.2, 0.5))];
    check(&yard, 1, (50.1, 0.5), (50.0, 0.5), "at the first");
    // The nearer of two.
    check(&yard, 1, (50.11, 0.5), (50.2, 0.5), "at the second");
}

#[test]
fn a_rounded_corner_is_called_a_corner() {
    let mut path = straights(&[(0.0, 0.0), (5.0, 5.0), (9.0, 1.0)]);
    path.waypoints[1].rounding = Some(1.0);
    let guided = held(&alone(path), Some(2), None, at((9.001, 5.1)));
    assert_eq!(guided.why[0], Why::Level(Spot::Corner(2)));
}

#[test]
fn a_closed_path_has_neighbours_round_the_joint() {
    let mut path = straights(&[(0.0, 0.0), (6.0, 1.0), (5.0, 7.0), (-1.0, 5.0)]);
    path.closed = true;
    path.legs.push(Shape::Straight);
    let plan = alone(path);
    let corner = held(&plan, Some(0), None, at((-1.1, 1.1)));
    assert_eq!(said(&corner), "straight below peg 4; level with peg 2");
    assert_eq!(corner.at, at((-1.0, 1.0)));
}

#[test]
fn nonsense_holds_nothing() {
    let plan = yard();
    let solved = plan.solve();
    let around = |waypoint, from, reach| Around {
        plan: &plan,
        solved: &solved,
        scheme: 0,
        route: 0,
        waypoint,
        from,
        reach,
    };
    let to = at((20.1, 10.9));
    for reach in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        let guided = guided(&around(Some(1), None, reach), to);
        assert_eq!((guided.at, guided.why), (to, vec![]));
    }
    for waypoint in [2, usize::MAX] {
        let guided = guided(&around(Some(waypoint), None, REACH), at((3.0, 3.0)));
        assert!(guided.why.is_empty());
    }
    let nowhere = Point::new(f64::NAN, 0.0);
    assert!(
        guided(&around(Some(1), None, REACH), nowhere)
            .why
            .is_empty()
    );
    let from = guided(&around(None, Some(nowhere), REACH), to);
    assert_eq!(said(&from), "at the west gate post");
    let mut elsewhere = around(Some(1), None, REACH);
    (elsewhere.scheme, elsewhere.route) = (7, 7);
    assert!(guided(&elsewhere, at((3.0, 3.0))).why.is_empty());
}

/// Whatever the place: never farther than the reach, on all that is said, and the same again.
#[test]
fn held_places_keep_their_word() {
    let mut plan = plan::example::plan().expect("the example");
    plan.schemes.truncate(1);
    let count = plan.schemes[0].routes[0].waypoints.len();
    for waypoint in 0..count {
        let peg = plan.schemes[0].routes[0].waypoints[waypoint].at;
        for turn in (0..720).step_by(9) {
            for out in [0.01, 0.4, 1.3, 5.0] {
                let to = peg + spoke(turn) * out;
                let once = held(&plan, Some(waypoint), None, to);
                assert!(
                    once.at.is_finite() && once.at.distance(to) <= REACH,
                    "{once:?}"
                );
                for [from, end] in &once.lines {
                    if let Some(way) = Direction::of(*end - *from) {
                        let off = way.unit().cross(once.at - *from).abs();
                        assert!(off < 1e-9, "{off} {once:?}");
                    }
                }
                assert_eq!(once, held(&plan, Some(waypoint), None, to));
            }
        }
    }
}

#[test]
fn a_full_site_costs_little() {
    let mut plan = alone(straights(&[(0.0, 0.0), (3.0, 4.0), (9.0, 2.0)]));
    for i in 0..60 {
        let (x, y) = (f64::from(i % 10) * 3.0, f64::from(i / 10) * 3.0);
        let corners = [(x, y), (x + 2.0, y), (x + 2.0, y + 2.0), (x, y + 2.0)];
        let extent = Extent::Area(places(&corners));
        plan.site_mut()
            .obstacles
            .push(obstacle(&format!("bed {i}"), ObstacleKind::Bed, extent));
        plan.site_mut()
            .marks
            .push(mark(&format!("mark {i}"), (x + 1.0, y + 0.9)));
    }
    let solved = plan.solve();
    let started = std::time::Instant::now();
    let mut held = 0;
    for i in 0..1000 {
        let to = at((f64::from(i % 100) * 0.3, f64::from(i / 100) * 1.7));
        let around = Around {
            plan: &plan,
            solved: &solved,
            scheme: 0,
            route: 0,
            waypoint: Some(1),
            from: None,
            reach: REACH,
        };
        held += guided(&around, to).why.len();
    }
    let each = started.elapsed() / 1000;
    assert!(held > 0);
    // Forty times what it takes: a guard against growth with the square, not a stopwatch.
    assert!(each < std::time::Duration::from_millis(2), "{each:?}");
}
