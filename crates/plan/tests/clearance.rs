//! How near a path comes to what stands round it, worked by hand, and what is said of it.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use std::f64::consts::PI;

use geometry::Point;
use plan::clearance::{Border, Clearance};
use plan::document::{
    Corner, Extent, Obstacle, ObstacleKind, Plan, RootRule, Route, Scheme, Shape, Waypoint,
};
use plan::edit::{LegId, SiteEdit, WaypointId};
use plan::finding::{Code, Severity};
use plan::units::Units;
use plan::{Edit, Solved};
use proptest::prelude::*;

fn at(x: f64, y: f64) -> Point {
    Point::new(x, y)
}

/// A path 1.2 m wide.
fn path(places: &[(f64, f64)], legs: Vec<Shape>) -> Route {
    let waypoint = |(x, y): &(f64, f64)| Waypoint {
        at: at(*x, *y),
        rounding: None,
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

fn straight(obstacles: Vec<Obstacle>) -> Plan {
    plan(
        path(&[(0., 0.), (10., 0.)], vec![Shape::Straight]),
        obstacles,
    )
}

fn tree(x: f64, y: f64, radius: f64) -> Obstacle {
    let extent = Extent::Round {
        centre: at(x, y),
        radius,
    };
    Obstacle {
        root_zone: Some(0.0),
        ..Obstacle::new("pear", ObstacleKind::Tree, extent)
    }
}

fn line(kind: ObstacleKind, places: &[(f64, f64)]) -> Obstacle {
    let points = places.iter().map(|(x, y)| at(*x, *y)).collect();
    Obstacle::new("", kind, Extent::Line(points))
}

fn area(kind: ObstacleKind, places: &[(f64, f64)]) -> Obstacle {
    let points = places.iter().map(|(x, y)| at(*x, *y)).collect();
    Obstacle::new("", kind, Extent::Area(points))
}

fn clearances(solved: &Solved) -> &[Clearance] {
    &solved.schemes[0].routes[0].clearances
}

/// The least clearance from the one obstacle, and which part of the path has it.
fn least(plan: &Plan) -> (f64, Border) {
    let solved = plan.solve();
    let least = clearances(&solved)
        .iter()
        .min_by(|a, b| a.distance.total_cmp(&b.distance))
        .unwrap();
    (least.distance, least.border)
}

#[track_caller]
fn check(plan: &Plan, distance: f64, border: Border) {
    let (found, part) = least(plan);
    assert!((found - distance).abs() < 1e-9, "{found} for {distance}");
    assert_eq!(part, border);
}

fn codes(plan: &Plan) -> Vec<(Severity, Code)> {
    let findings = plan.solve().findings;
    findings.iter().map(|f| (f.severity, f.code)).collect()
}

#[test]
fn beside_a_straight() {
    check(&straight(vec![tree(4., 1.5, 0.2)]), 0.7, Border::Left);
    check(&straight(vec![tree(4., -1.5, 0.2)]), 0.7, Border::Right);
    let wall = line(ObstacleKind::Wall, &[(2., 1.1), (8., 1.4)]);
    check(&straight(vec![wall.clone()]), 0.5, Border::Left);
    // Half the thickness of the wall is on each side of its line.
    let length = 6.0_f64.hypot(0.3);
    let thick = Obstacle {
        thickness: Some(0.2),
        ..wall
    };
    // Its near corner lies a tenth square off the line's end.
    check(
        &straight(vec![thick]),
        0.5 - 0.1 * 6.0 / length,
        Border::Left,
    );
}

#[test]
fn at_an_end_and_beyond_its_corner() {
    // Straight on from the end, and off its corner: 3-4-5.
    check(&straight(vec![tree(10.9, 0.2, 0.1)]), 0.8, Border::End);
    let corner = straight(vec![tree(10.3, 1.0, 0.1)]);
    let (distance, _) = least(&corner);
    assert!((distance - 0.4).abs() < 1e-9, "{distance}");
}

#[test]
fn at_the_tip_of_a_mitre_and_in_the_corner_inside() {
    // East, then north: outside the corner the edges meet at (5.6, −0.6), inside at (4.4, 0.6).
    let legs = vec![Shape::Straight, Shape::Straight];
    let corner = |tree| {
        plan(
            path(&[(0., 0.), (5., 0.), (5., 5.)], legs.clone()),
            vec![tree],
        )
    };
    let (outside, _) = least(&corner(tree(5.9, -1.0, 0.1)));
    assert!((outside - 0.4).abs() < 1e-9, "{outside}");
    // Centre line less half the width would say 0.98.
    let (inside, _) = least(&corner(tree(4.1, 1.0, 0.1)));
    assert!((inside - 0.2).abs() < 1e-9, "{inside}");
    // In the very tip of the mitre, farther from the corner peg than half the width, a stem
    // touches no edge and stands in the path all the same.
    let tip = corner(tree(5.5, -0.5, 0.05));
    assert_eq!(codes(&tip), [(Severity::Stop, Code::RunsInto)]);
    let (deep, _) = least(&tip);
    assert!((deep + 0.15).abs() < 1e-9, "{deep}");
}

#[test]
fn in_the_middle_of_the_path() {
    let post = straight(vec![tree(4., 0.1, 0.1)]);
    // Its far side is 0.6 m from the left edge.
    check(&post, -0.6, Border::Left);
    assert_eq!(codes(&post), [(Severity::Stop, Code::RunsInto)]);
    // Beyond the ends the path takes up nothing.
    assert_eq!(
        codes(&straight(vec![tree(10.35, 0., 0.1)])),
        [(Severity::Care, Code::TooNear)]
    );
    assert!(codes(&straight(vec![tree(10.9, 0., 0.1)])).is_empty());
}

#[test]
fn about_a_bend() {
    // A quarter circle of 4 m about the origin: its edges have 3.4 and 4.6 m.
    let rise = 4.0 - 8.0_f64.sqrt();
    let bend = |obstacle: Obstacle| {
        let obstacle = Obstacle {
            clearance: Some(9.0),
            ..obstacle
        };
        plan(
            path(&[(4., 0.), (0., 4.)], vec![Shape::bend(-rise)]),
            vec![obstacle],
        )
    };
    check(&bend(tree(0.6, 0.8, 0.4)), 3.4 - 1.0 - 0.4, Border::Left);
    check(&bend(tree(4.2, 5.6, 0.4)), 7.0 - 4.6 - 0.4, Border::Right);
    let ringed = Extent::Curved(vec![
        Corner {
            at: at(2., 2.),
            rise: -1.,
        },
        Corner {
            at: at(0., 2.),
            rise: -1.,
        },
    ]);
    // A round bed of 1 m about (1, 2), drawn with two half circles.
    let bed = Obstacle::new("bed", ObstacleKind::Bed, ringed);
    check(&bend(bed), 3.4 - 5.0_f64.sqrt() - 1.0, Border::Left);
}

#[test]
fn a_path_may_lead_up_to_a_door_but_not_run_into_the_wall_beside_it() {
    let shed = |x: f64| {
        area(
            ObstacleKind::Building,
            &[(x, -3.), (x + 4., -3.), (x + 4., 3.), (x, 3.)],
        )
    };
    assert!(codes(&straight(vec![shed(10.0)])).is_empty());
    assert_eq!(
        codes(&straight(vec![shed(9.8)])),
        [(Severity::Stop, Code::RunsInto)]
    );
    // A wing of the same building beside the path is kept off as ever.
    let wing = area(
        ObstacleKind::Building,
        &[
            (10., -3.),
            (14., -3.),
            (14., 3.),
            (10., 3.),
            (10., 2.),
            (2., 0.8),
            (10., 0.9),
        ],
    );
    assert_eq!(
        codes(&straight(vec![wing])),
        [(Severity::Care, Code::TooNear)]
    );
    // Arriving slanting, the corner of the path is in the wall, along which it can be cut off.
    let slanting = plan(
        path(&[(0., 4.), (10., 0.)], vec![Shape::Straight]),
        vec![shed(10.0)],
    );
    assert_eq!(codes(&slanting), [(Severity::Care, Code::RunsInto)]);
}

#[test]
fn inside_a_boundary() {
    let yard = |y: f64| {
        area(
            ObstacleKind::Boundary,
            &[(0., -4.), (12., -4.), (12., y), (0., y)],
        )
    };
    assert!(codes(&straight(vec![yard(4.)])).is_empty());
    let over = straight(vec![yard(0.4)]);
    assert_eq!(codes(&over), [(Severity::Stop, Code::OverBoundary)]);
    check(&over, -0.2, Border::Left);
    let wants = Obstacle {
        clearance: Some(0.5),
        ..yard(0.9)
    };
    assert_eq!(
        codes(&straight(vec![wants])),
        [(Severity::Care, Code::OverBoundary)]
    );
}

#[test]
fn over_a_service_and_through_a_gate() {
    let pipe = line(ObstacleKind::Service, &[(5., -9.), (5., 9.)]);
    assert_eq!(
        codes(&straight(vec![pipe])),
        [(Severity::Care, Code::OverService)]
    );
    let beside = |unsure| Obstacle {
        unsure: Some(unsure),
        ..line(ObstacleKind::Service, &[(-5., 1.0), (15., 1.0)])
    };
    assert!(codes(&straight(vec![beside(0.3)])).is_empty());
    assert_eq!(
        codes(&straight(vec![beside(0.5)])),
        [(Severity::Care, Code::OverService)]
    );
    let gate = |half: f64| line(ObstacleKind::Gate, &[(3., -half), (3., half)]);
    assert!(
        codes(&straight(vec![gate(0.7)])).is_empty(),
        "one walks through it"
    );
    let narrow = straight(vec![gate(0.5)]);
    assert_eq!(codes(&narrow), [(Severity::Stop, Code::RunsInto)]);
    check(&narrow, -0.1, Border::Right);
}

#[test]
fn over_roots() {
    let pear = Obstacle {
        root_zone: None,
        ..tree(5., 2.1, 0.1)
    };
    // A stem of 0.2 m has a root zone of 2.4 m; the strip from 1.5 to 2.4 m off it is the
    // difference of two segments of the circle, less what lies beyond.
    let solved = straight(vec![pear]).solve();
    let share = solved.schemes[0].routes[0].roots[0];
    let segment =
        |d: f64| 2.4_f64.powi(2) * (d / 2.4).acos() - d * (2.4_f64.powi(2) - d * d).sqrt();
    assert!((share.covered - segment(1.5)).abs() < 1e-9, "{share:?}");
    assert!((share.whole - PI * 5.76).abs() < 1e-12);
    assert_eq!(solved.findings[0].code, Code::OverRoots);
    // Source: BS 5837:2012 as computed in arboricultural notes, 12 times the stem: 150 mm gives
    // 1.8 m, 300 gives 3.6, 450 gives 5.4, 600 gives 7.2; capped at 707 m² (from memory).
    for (stem, radius) in [
        (0.15, 1.8),
        (0.3, 3.6),
        (0.45, 5.4),
        (0.6, 7.2),
        (1.25, 15.0),
        (2.0, 15.0),
    ] {
        assert!((RootRule::TwelveDiameters.radius(stem) - radius).abs() < 1e-12);
    }
    // Source: Vancouver (Washington) Municipal Code 20.170.100: 1 ft for each inch of diameter;
    // City of Edina (Minnesota): 1.5 ft.
    let inch = 0.0254;
    assert!((RootRule::FootAnInch.radius(10. * inch) - 10. * 12. * inch).abs() < 1e-12);
    assert!((RootRule::FootAndAHalfAnInch.radius(10. * inch) - 15. * 12. * inch).abs() < 1e-12);
}

#[test]
fn drawings_that_cannot_be_right_are_told_and_do_no_harm() {
    let bow = area(ObstacleKind::Bed, &[(2., 5.), (6., 8.), (6., 5.), (2., 8.)]);
    assert_eq!(
        codes(&straight(vec![bow])),
        [(Severity::Care, Code::OutlineCrosses)]
    );
    let nothing = line(ObstacleKind::Wall, &[(2., 5.), (2., 5.)]);
    assert_eq!(
        codes(&straight(vec![nothing])),
        [(Severity::Care, Code::NoGround)]
    );
    let giant = tree(4., 30., 20.);
    assert_eq!(
        codes(&straight(vec![giant])),
        [(Severity::Care, Code::StemTooThick)]
    );
    let on_the_peg = straight(vec![tree(10., 0., 0.1)]);
    assert!(!codes(&on_the_peg).is_empty());
}

#[test]
fn a_closed_path_keeps_off_what_is_in_its_middle() {
    let square = Route {
        closed: true,
        ..path(
            &[(0., 0.), (6., 0.), (6., 6.), (0., 6.)],
            vec![Shape::Straight; 4],
        )
    };
    let island = plan(square.clone(), vec![tree(3., 3., 0.5)]);
    assert!(codes(&island).is_empty());
    assert_eq!(
        codes(&plan(square, vec![tree(3., 0.2, 0.1)])),
        [(Severity::Stop, Code::RunsInto)]
    );
}

/// A yard with things of every kind, and a path of every kind of leg through it.
fn yard() -> Plan {
    let mut route = path(
        &[
            (0., 0.),
            (5., 0.),
            (9., 3.),
            (9., 8.),
            (13., 11.),
            (18., 10.),
            (22., 14.),
        ],
        vec![
            Shape::Straight,
            Shape::bend(-0.6),
            Shape::Straight,
            Shape::Onward,
            Shape::TwoBends,
            Shape::Straight,
        ],
    );
    route.waypoints[3].rounding = Some(1.5);
    let curved = Extent::Curved(vec![
        Corner {
            at: at(11., 5.),
            rise: 0.8,
        },
        Corner {
            at: at(14., 6.),
            rise: 0.0,
        },
        Corner {
            at: at(12., 8.),
            rise: -0.4,
        },
    ]);
    plan(
        route,
        vec![
            tree(4., 1.4, 0.2),
            tree(9.4, 5.0, 0.1),
            line(ObstacleKind::Wall, &[(-1., -1.2), (7., -1.0), (12., 1.)]),
            area(
                ObstacleKind::Building,
                &[(22., 12.), (26., 12.), (26., 18.), (22., 18.)],
            ),
            Obstacle::new("bed", ObstacleKind::Bed, curved),
            line(ObstacleKind::Service, &[(7., -4.), (7., 20.)]),
            area(
                ObstacleKind::Boundary,
                &[(-2., -3.), (26., -3.), (26., 20.), (-2., 20.)],
            ),
            line(ObstacleKind::Gate, &[(0.5, -0.9), (0.5, 0.9)]),
        ],
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Solving after an edit, with what is kept from before, answers what solving afresh does.
    #[test]
    fn what_is_kept_over_an_edit_changes_no_answer(
        moves in prop::collection::vec((0_usize..7, -2.0..2.0_f64, -2.0..2.0_f64, 0_u8..4), 1..6),
    ) {
        let mut now = yard();
        let mut solved = now.solve();
        for (index, x, y, kind) in moves {
            let by = geometry::Vector::new(x, y);
            let id = WaypointId { scheme: 0, route: 0, waypoint: index };
            let edit = match kind {
                0 => Edit::SetRise { id: LegId { scheme: 0, route: 0, leg: 1 }, rise: x },
                1 => Edit::Site(SiteEdit::MoveObstacle { obstacle: index, by }),
                2 => Edit::SetRounding { id, radius: Some(0.2 + x.abs()) },
                _ => Edit::MoveWaypoint { id, to: now.schemes[0].routes[0].waypoints[index].at + by },
            };
            let Ok(edited) = now.with(&edit) else { continue };
            now = edited.plan;
            solved = now.solve_after(Some(&solved));
            prop_assert_eq!(&solved, &now.solve());
        }
    }

    /// No clearance is greater than the distance from any place on the path's outline.
    #[test]
    fn no_place_on_an_edge_is_nearer_than_the_clearance(share in 0.0..1.0_f64) {
        let plan = yard();
        let solved = plan.solve();
        let route = &solved.schemes[0].routes[0];
        let ground = solved.surroundings.ground();
        for (border, edge) in [
            (Border::Left, route.left_edge.as_ref().unwrap()),
            (Border::Right, route.right_edge.as_ref().unwrap()),
        ] {
            let place = edge.point_at(share * edge.length());
            for (patch, gap) in ground.near_point(place, 0.9) {
                let obstacle = solved.surroundings.obstacle_of(patch);
                let told = route.clearances.iter().find(|c| c.obstacle == obstacle && c.border == border);
                // What the path leads up to is not held against it there.
                if plan.site.obstacles[obstacle].kind == ObstacleKind::Building { continue }
                let least = told.map_or(f64::INFINITY, |c| c.distance);
                prop_assert!(least <= gap.distance + 1e-4, "{least} for {} at {share}", gap.distance);
            }
        }
    }
}

#[test]
fn turning_the_plan_turns_nothing_else() {
    // The same yard walked the other way: left and right change places, distances stay.
    let there = yard();
    let back = there
        .with(&Edit::TurnRound {
            scheme: 0,
            route: 0,
        })
        .unwrap()
        .plan;
    let by_distance = |plan: &Plan| {
        let solved = plan.solve();
        let mut all: Vec<f64> = clearances(&solved).iter().map(|c| c.distance).collect();
        all.sort_by(f64::total_cmp);
        all
    };
    let (there, back) = (by_distance(&there), by_distance(&back));
    assert_eq!(there.len(), back.len());
    for (a, b) in there.iter().zip(&back) {
        assert!((a - b).abs() < 1e-3, "{a} and {b}");
    }
}
