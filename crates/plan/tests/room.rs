//! The rises that keep clear: alone, with neighbours, and against looking at every one of them.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use geometry::Point;
use plan::Solved;
use plan::document::{
    Extent, Heading, Obstacle, ObstacleKind, Plan, Route, Scheme, Shape, Waypoint,
};
use plan::edit::LegId;
use plan::room::Room;
use plan::units::Units;
use proptest::prelude::*;

fn at((x, y): (f64, f64)) -> Point {
    Point::new(x, y)
}

fn route(places: &[(f64, f64, Option<f64>)], legs: Vec<Shape>) -> Route {
    let waypoint = |(x, y, rounding): &(f64, f64, Option<f64>)| Waypoint {
        at: Point::new(*x, *y),
        rounding: *rounding,
    };
    Route {
        name: "path".into(),
        width: 1.2,
        waypoints: places.iter().map(waypoint).collect(),
        legs,
        ..Route::default()
    }
}

fn plan(route: Route, obstacles: Vec<Obstacle>) -> Plan {
    let mut plan = Plan::empty(Units::Metric);
    plan.site_mut().obstacles = obstacles;
    plan.schemes = vec![Scheme {
        routes: vec![route],
        ..Scheme::default()
    }];
    plan
}

fn stem(x: f64, y: f64, radius: f64, clearance: f64) -> Obstacle {
    let extent = Extent::Round {
        centre: Point::new(x, y),
        radius,
    };
    Obstacle {
        root_zone: Some(0.0),
        clearance: Some(clearance),
        ..Obstacle::new("pear", ObstacleKind::Tree, extent)
    }
}

fn bed(places: &[(f64, f64)], clearance: f64) -> Obstacle {
    let extent = Extent::Area(places.iter().copied().map(at).collect());
    Obstacle {
        clearance: Some(clearance),
        ..Obstacle::new("bed", ObstacleKind::Bed, extent)
    }
}

fn room_of(plan: &Plan, leg: usize) -> Room {
    let solved = plan.solve();
    let id = LegId {
        scheme: 0,
        route: 0,
        leg,
    };
    plan.room(id, &solved.surroundings).unwrap()
}

/// The kinds of neighbours a bend of 6 m chord may have; those before and after lead away south.
fn neighbours(kind: usize) -> (Route, usize) {
    let places = |rounding| {
        vec![
            (0., -9., None),
            (0., 0., rounding),
            (6., 0., rounding),
            (6., -9., None),
        ]
    };
    let bend = Shape::bend(0.5);
    match kind {
        0 => (route(&[(0., 0., None), (6., 0., None)], vec![bend]), 0),
        1 => (
            route(&places(None), vec![Shape::Straight, bend, Shape::Straight]),
            1,
        ),
        2 => (
            route(
                &places(Some(0.8)),
                vec![Shape::Straight, bend, Shape::Straight],
            ),
            1,
        ),
        _ => (
            route(&places(None), vec![Shape::Straight, bend, Shape::Onward]),
            1,
        ),
    }
}

/// What is to spare of the whole path at a rise, looked at afresh.
fn to_spare(plan: &Plan, leg: usize, rise: f64) -> f64 {
    let mut plan = plan.clone();
    plan.schemes[0].routes[0].legs[leg] = Shape::bend(rise);
    let solved: Solved = plan.solve();
    let route = &solved.schemes[0].routes[0];
    let spares = route
        .clearances
        .iter()
        .map(plan::clearance::Clearance::to_spare);
    if route.left_edge.is_none() || route.right_edge.is_none() {
        return f64::NEG_INFINITY;
    }
    spares.fold(1.0, f64::min)
}

#[test]
fn a_gap_of_two_millimetres_is_found_with_and_without_neighbours() {
    for kind in 0..3 {
        let (route, leg) = neighbours(kind);
        // The path is 1.2 m wide: 0.3 m off both stems leaves 2 mm, at a rise of about 2.4 m.
        let stems = vec![
            stem(3., 1.4, 0.1, 0.3),
            stem(3., 1.4 + 0.2 + 1.802, 0.1, 0.3),
        ];
        let room = room_of(&plan(route, stems), leg);
        let narrow: Vec<_> = room
            .ranges
            .iter()
            .filter(|r| r.to - r.from < 0.02)
            .collect();
        assert_eq!(narrow.len(), 1, "{kind}: {:?}", room.ranges);
        let width = narrow[0].to - narrow[0].from;
        assert!((width - 0.002).abs() < 3e-5, "{kind}: {width}");
        assert_eq!((narrow[0].below, narrow[0].above), (Some(0), Some(1)));
    }
}

#[test]
fn a_path_of_one_bend_and_the_same_bend_between_straights_that_lead_on() {
    // Between straights along the chord the corners at the pegs are all that differs.
    let lone = room_of(&plan(neighbours(0).0, vec![stem(3., 3., 0.2, 0.4)]), 0);
    let legs = vec![Shape::Straight, Shape::bend(0.5), Shape::Straight];
    let places = [
        (-9., 0., None),
        (0., 0., None),
        (6., 0., None),
        (15., 0., None),
    ];
    let long = room_of(&plan(route(&places, legs), vec![stem(3., 3., 0.2, 0.4)]), 1);
    let end = |room: &Room| room.ranges.iter().find(|r| r.above.is_some()).unwrap().to;
    assert!((end(&lone) - 1.8).abs() < 1e-9);
    assert!((end(&long) - 1.8).abs() < 2e-5, "{}", end(&long));
}

#[test]
fn an_empty_room_says_what_stands_against_what() {
    // A bed above that wants the apex below 1.0, a stem below that wants it above 1.5.
    let above = bed(&[(-20., 2.), (20., 2.), (20., 9.), (-20., 9.)], 0.4);
    let below = bed(&[(2.5, -7.), (3.5, -7.), (3.5, 0.5), (2.5, 0.5)], 0.4);
    let room = room_of(&plan(neighbours(0).0, vec![above, below]), 0);
    assert!(room.ranges.is_empty(), "{:?}", room.ranges);
    let against = room.contradiction.unwrap();
    let mut obstacles = against.obstacles.clone();
    obstacles.sort_unstable();
    assert_eq!(obstacles, [0, 1]);
    // The middle of the 1.5 m between them is 0.25 m short on both sides of 1.2 m and twice 0.4 m
    // in the middle of the chord; the edge that curves past the bed's corner is a little nearer.
    assert!((against.missing - 0.25).abs() < 0.02, "{against:?}");
    assert!((against.rise - 1.25).abs() < 0.03, "{against:?}");
}

#[test]
fn which_rise_to_take() {
    let room = room_of(&plan(neighbours(0).0, vec![stem(3., 2., 0.1, 0.3)]), 0);
    // Up to 1.0 below the stem, from 3.0 on above it, and all of the other side.
    let near = |found: Option<f64>, wanted: f64| {
        assert!(
            (found.unwrap() - wanted).abs() < 1e-6,
            "{found:?} for {wanted}"
        );
    };
    near(room.shallowest(0.5), 0.0);
    near(room.deepest(0.5), 1.0);
    near(room.shallowest(3.5), 3.0);
    near(room.gentlest(3.5, 6.0), 6.0);
    // Nothing stands in the way there.
    assert_eq!(room.deepest(3.5), None);
    near(room.gentlest(0.5, 6.0), 0.0);
    near(room.nearest(1.4), 1.0);
    near(room.nearest(2.9), 3.0);
    assert_eq!(room.deepest(-0.5), None);
    assert!(room.fits(0.9) && !room.fits(2.0) && room.fits(3.1));
}

#[test]
fn what_is_no_free_bend_has_none() {
    let (route, _) = neighbours(3);
    let plan = plan(route, Vec::new());
    let solved = plan.solve();
    for leg in [0, 2, 9] {
        let id = LegId {
            scheme: 0,
            route: 0,
            leg,
        };
        assert!(plan.room(id, &solved.surroundings).is_none());
    }
}

#[test]
fn the_far_end_of_a_neighbour_does_not_count_against_the_bend() {
    // The straight before comes too near to a stem 8 m back: no rise can help that.
    let (route, leg) = neighbours(1);
    let room = room_of(&plan(route, vec![stem(0.7, -8., 0.1, 0.3)]), leg);
    assert!(room.contradiction.is_none() && room.fits(0.5), "{room:?}");
}

#[test]
fn a_bend_that_ends_at_a_door_has_room() {
    let shed = bed(&[(6., -2.), (9., -2.), (9., 2.), (6., 2.)], 0.3);
    let legs = vec![Shape::Straight, Shape::bend(0.5), Shape::Straight];
    let places = [
        (-6., 3., None),
        (0., 0., Some(1.)),
        (4., 0., None),
        (6., 0., None),
    ];
    let mut route = route(&places, legs);
    route.start_direction = Some(Heading::Angle(0.0));
    let room = room_of(&plan(route, vec![shed]), 1);
    assert!(room.fits(0.4), "{room:?}");
}

fn obstacles() -> impl Strategy<Value = Vec<Obstacle>> {
    // All of them north of the straights that lead away, which no rise changes.
    let wanted = || prop_oneof![Just(0.0), 0.05..0.6];
    let one = prop_oneof![
        (-3.0..9.0, 1.8..7.0, 0.05..0.5, wanted()).prop_map(|(x, y, r, k)| stem(x, y, r, k)),
        (-3.0..9.0, 1.8..7.0, 0.2..2.0, 0.2..2.0, wanted())
            .prop_map(|(x, y, a, b, k)| bed(&[(x, y), (x + a, y), (x + a, y + b), (x, y + b)], k)),
    ];
    prop::collection::vec(one, 1..4)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Every rise found clear by solving the whole path lies in a range, and no other does.
    #[test]
    fn the_room_is_what_dense_looking_finds(kind in 0_usize..4, obstacles in obstacles()) {
        let (route, leg) = neighbours(kind);
        let plan = plan(route, obstacles);
        let room = room_of(&plan, leg);
        for step in 0..600_i32 {
            let rise = -6.0 + f64::from(step) * 0.02 + 3e-4;
            let spare = to_spare(&plan, leg, rise);
            // Ends of ranges are found to a hundredth of a millimetre.
            if spare > 1e-4 {
                prop_assert!(room.fits(rise), "{kind}: {rise} fits by {spare}: {room:?}");
            } else if spare < -1e-4 {
                prop_assert!(!room.fits(rise), "{kind}: {rise} misses by {spare}: {room:?}");
            }
        }
    }
}
