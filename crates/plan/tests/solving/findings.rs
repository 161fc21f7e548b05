//! Findings: each kind from a plan that has it, with its place, figure and limit.

use std::f64::consts::PI;

use plan::document::{Heading, Reference, Route, Shape};
use plan::finding::{Code, Finding, Part, Severity};
use plan::{Plan, example};

use super::common::{plan, plan_of, route, waypoint};
use super::near;

/// The one finding of a kind.
#[track_caller]
fn the(code: Code, route: Route) -> Finding {
    let findings = plan_of(route).solve().findings;
    let found: Vec<&Finding> = findings.iter().filter(|f| f.code == code).collect();
    assert_eq!(found.len(), 1, "{findings:?}");
    assert!(!found[0].source.is_empty());
    found[0].clone()
}

#[track_caller]
fn check(
    code: Code,
    route: Route,
    severity: Severity,
    part: Part,
    value: Option<f64>,
    limit: Option<f64>,
) -> Finding {
    let finding = the(code, route);
    assert_eq!((finding.severity, finding.place.part), (severity, part));
    for (found, expected) in [(finding.value, value), (finding.limit, limit)] {
        match (found, expected) {
            (Some(found), Some(expected)) => near(found, expected, 1e-9 * expected.abs().max(1.0)),
            (found, expected) => assert_eq!(found, expected),
        }
    }
    finding
}

fn codes(plan: &Plan) -> Vec<Code> {
    plan.solve().findings.iter().map(|f| f.code).collect()
}

const TWO: [(f64, f64); 2] = [(0., 0.), (4., 0.)];

#[test]
fn a_sound_plan_has_none() {
    let points = [(0., 0.), (4., 0.), (8., 4.), (12., 5.)];
    let legs = vec![Shape::Straight, Shape::Onward, Shape::bend(0.3)];
    assert_eq!(codes(&plan(&points, legs)), []);
    assert_eq!(codes(&plan(&TWO, vec![Shape::Straight])), []);
}

#[test]
fn waypoints_on_each_other() {
    for apart in [0.0, 5e-5] {
        let points = [(0., 0.), (4., 0.), (4., apart), (8., 3.)];
        for shape in [Shape::Straight, Shape::bend(1.0), Shape::Onward] {
            let path = route(&points, vec![Shape::Straight, shape, Shape::Straight]);
            let finding = check(
                Code::WaypointsCoincide,
                path.clone(),
                Severity::Stop,
                Part::Leg(1),
                Some(apart),
                Some(1e-4),
            );
            assert_eq!(
                finding.sentence,
                "waypoints 2 and 3 lie on each other: move one of them, or take it out"
            );
            // The rest is drawn all the same.
            let solved = super::solved(path);
            near(super::line(&solved).end().x, 8.0, 1e-12);
        }
    }
    // The last leg of a closed path names the first waypoint.
    let path = route(
        &[(0., 0.), (4., 0.), (4., 3.), (0., 0.)],
        vec![Shape::Straight; 4],
    );
    let finding = the(Code::WaypointsCoincide, path);
    assert!(
        finding.sentence.starts_with("waypoints 4 and 1 lie"),
        "{}",
        finding.sentence
    );
}

#[test]
fn roundings() {
    let corner = |rounding, end: (f64, f64)| Route {
        waypoints: vec![
            waypoint((0., 0.), None),
            waypoint((4., 0.), rounding),
            waypoint(end, None),
        ],
        ..route(&[], vec![Shape::Straight; 2])
    };
    let (care, at) = (Severity::Care, Part::Waypoint(1));
    let finding = the(Code::RoundingTooLarge, corner(Some(5.0), (4., 3.)));
    assert_eq!(
        (finding.severity, finding.place.part, finding.value),
        (care, at, Some(5.0))
    );
    near(finding.limit.unwrap(), 3.0, 1e-6);
    // Straight back there is nothing that fits.
    check(
        Code::RoundingTooLarge,
        corner(Some(1.0), (1., 0.)),
        care,
        at,
        Some(1.0),
        Some(0.0),
    );
    // Straight on there is no corner.
    check(
        Code::NothingToRound,
        corner(Some(1.0), (9., 0.)),
        Severity::Note,
        at,
        Some(1.0),
        None,
    );
    // Nor at an end.
    let mut end = corner(None, (4., 3.));
    end.waypoints[2].rounding = Some(1.0);
    check(
        Code::NothingToRound,
        end,
        Severity::Note,
        Part::Waypoint(2),
        Some(1.0),
        None,
    );
}

#[test]
fn onward_bends() {
    let back = route(
        &[(0., 0.), (4., 0.), (1., 0.)],
        vec![Shape::Straight, Shape::Onward],
    );
    check(
        Code::OnwardDoublesBack,
        back,
        Severity::Stop,
        Part::Leg(1),
        None,
        None,
    );
    let loose = route(&TWO, vec![Shape::Onward]);
    check(
        Code::OnwardWithoutStart,
        loose,
        Severity::Care,
        Part::Leg(0),
        None,
        None,
    );
    let led = Route {
        start_direction: Some(Heading::Angle(0.3)),
        ..route(&TWO, vec![Shape::Onward])
    };
    assert_eq!(codes(&plan_of(led)), []);
    let round = route(&[(0., 0.), (4., 0.), (2., 3.)], vec![Shape::Onward; 3]);
    check(
        Code::OnwardWithoutStart,
        round,
        Severity::Care,
        Part::Leg(0),
        None,
        None,
    );
}

#[test]
fn an_inside_edge_without_radius_is_a_stop() {
    // Radius 0.5 with half the width 0.6; the apex is left, so the inside is right.
    let tight = route(&[(0., 0.), (1., 0.)], vec![Shape::bend(0.5)]);
    let finding = check(
        Code::InnerEdge,
        tight.clone(),
        Severity::Stop,
        Part::Leg(0),
        Some(-0.1),
        Some(0.0),
    );
    assert_eq!(
        finding.sentence,
        "the right edge has no radius left: the bend's radius 0.500 m must be more than half the width, 0.600 m"
    );
    assert!(super::solved(tight).right_edge.is_none());
    // Just enough: no stop.
    let enough = route(&[(0., 0.), (1.21, 0.)], vec![Shape::bend(0.605)]);
    assert!(!codes(&plan_of(enough)).contains(&Code::InnerEdge));
    // Exactly half the width is not enough.
    let exactly = route(&[(0., 0.), (1.2, 0.)], vec![Shape::bend(0.6)]);
    check(
        Code::InnerEdge,
        exactly,
        Severity::Stop,
        Part::Leg(0),
        Some(0.0),
        Some(0.0),
    );
    // A rounding smaller than half the width is named by its waypoint.
    let rounding = Route {
        waypoints: vec![
            waypoint((0., 0.), None),
            waypoint((4., 0.), Some(0.4)),
            waypoint((4., 4.), None),
        ],
        ..route(&[], vec![Shape::Straight; 2])
    };
    check(
        Code::InnerEdge,
        rounding,
        Severity::Stop,
        Part::Waypoint(1),
        Some(-0.2),
        Some(0.0),
    );
}

#[test]
fn edges_of_what_is_too_narrow_to_turn_in() {
    // There and back 1 m apart, 1.5 m wide: inside, the edges of there and back never meet.
    let points = [(0., 0.), (8., 0.), (8., 1.), (0., 1.)];
    let path = Route {
        width: 1.5,
        ..route(&points, vec![Shape::Straight; 3])
    };
    check(
        Code::EdgeUntrimmed,
        path,
        Severity::Care,
        Part::Leg(2),
        None,
        None,
    );
    // A hook that ends half a metre from where it passed, 2 m wide: the left edge runs into itself.
    let points = [(0., 0.), (8., 0.), (8., 3.), (4., 3.), (4., 0.5)];
    let path = Route {
        width: 2.0,
        ..route(&points, vec![Shape::Straight; 4])
    };
    assert_eq!(codes(&plan_of(path.clone())), [Code::EdgeCrosses]);
    let finding = check(
        Code::EdgeCrosses,
        path,
        Severity::Care,
        Part::Whole,
        Some(5.0),
        None,
    );
    near(
        finding.place.at.distance(geometry::Point::new(5.0, 1.0)),
        0.0,
        1e-12,
    );
}

#[test]
fn crossings() {
    let points = [(0., 0.), (8., 0.), (8., 6.), (4., 6.), (4., -6.)];
    let finding = check(
        Code::PathCrosses,
        route(&points, vec![Shape::Straight; 4]),
        Severity::Care,
        Part::Whole,
        Some(4.0),
        None,
    );
    assert_eq!(
        finding.sentence,
        "the path crosses itself, 4.000 m and again 24.000 m from the start"
    );
    near(
        finding.place.at.distance(geometry::Point::new(4.0, 0.0)),
        0.0,
        1e-12,
    );
    // A path that crosses itself right at a waypoint crosses there once.
    let points = [
        (0., 0.),
        (4., 0.),
        (8., 0.),
        (8., 6.),
        (4., 6.),
        (4., 0.),
        (4., -6.),
    ];
    let path = route(&points, vec![Shape::Straight; 6]);
    check(
        Code::PathCrosses,
        path,
        Severity::Care,
        Part::Whole,
        Some(4.0),
        None,
    );
}

#[test]
fn directions_missed() {
    let east = |angle| Some(Heading::Angle(angle));
    let path = route(&[(0., 0.), (3., 3.)], vec![Shape::Straight]);
    let leaves = Route {
        start_direction: east(0.0),
        ..path.clone()
    };
    let finding = check(
        Code::DirectionMissed,
        leaves,
        Severity::Care,
        Part::Waypoint(0),
        Some(0.25 * PI),
        Some(0.0),
    );
    assert_eq!(
        finding.sentence,
        "the path leaves 45.00° too far to the left of the direction asked for"
    );
    let arrives = Route {
        end_direction: east(0.5 * PI),
        ..path.clone()
    };
    let finding = check(
        Code::DirectionMissed,
        arrives,
        Severity::Care,
        Part::Waypoint(1),
        Some(0.25 * PI),
        Some(0.0),
    );
    assert_eq!(
        finding.sentence,
        "the path arrives 45.00° too far to the right of the direction asked for"
    );
    let met = Route {
        start_direction: east(0.25 * PI),
        end_direction: east(0.25 * PI + 2.0 * PI),
        ..path
    };
    assert_eq!(codes(&plan_of(met)), []);
}

#[test]
fn directions_along_and_square_to_what_is_there() {
    let mut plan = example::plan().unwrap();
    let marks = Reference::Marks("west gate post".into(), "east gate post".into());
    let shed = |side| Reference::Wall {
        name: "potting shed".into(),
        side,
    };
    let fence = |side| Reference::Wall {
        name: "lane fence west".into(),
        side,
    };
    // The shed's corners run (16, 10.9), (16, 7.9), (19.6, 7.9), (19.6, 10.9).
    for (heading, degrees) in [
        (Heading::Along(marks.clone()), Some(0.0)),
        (Heading::Square(marks), Some(90.0)),
        (Heading::Along(shed(1)), Some(-90.0)),
        (Heading::Square(shed(1)), Some(0.0)),
        (Heading::Along(shed(4)), Some(180.0)),
        (Heading::Along(shed(5)), None),
        (Heading::Along(shed(0)), None),
        (Heading::Along(fence(1)), Some(0.0)),
        (Heading::Along(fence(2)), None),
        (Heading::Along(fence(usize::MAX)), None),
        (
            Heading::Along(Reference::Wall {
                name: "rain cistern".into(),
                side: 1,
            }),
            None,
        ),
        (
            Heading::Along(Reference::Marks("shed corner".into(), "shed corner".into())),
            None,
        ),
        (Heading::Angle(f64::NAN), None),
    ] {
        let found = heading
            .direction(&plan.site)
            .map(|d| geometry::angle::to_degrees(d.angle()).abs());
        assert_eq!(
            found.map(|d| (d * 1e9).round() / 1e9),
            degrees.map(f64::abs),
            "{heading:?}"
        );
    }
    // A site no file can hold does not break it either.
    plan.site_mut().obstacles[0].extent = plan::document::Extent::Area(Vec::new());
    assert_eq!(Heading::Along(shed(1)).direction(&plan.site), None);
    let _ = plan.solve();
}

#[test]
fn half_circles_and_bends_that_read_as_straights() {
    let (note, leg) = (Severity::Note, Part::Leg(0));
    check(
        Code::HalfCircle,
        route(&TWO, vec![Shape::bend(2.0)]),
        note,
        leg,
        Some(PI),
        Some(PI),
    );
    let most = 4.0 * (2.0_f64 * 3.0 / 4.0).atan();
    check(
        Code::HalfCircle,
        route(&TWO, vec![Shape::bend(-3.0)]),
        note,
        leg,
        Some(most),
        Some(PI),
    );
    assert_eq!(codes(&plan(&TWO, vec![Shape::bend(1.999_999)])), []);
    // R over a million chords: rise under c / 8,000,000.
    let flat = route(&TWO, vec![Shape::bend(4e-7)]);
    check(
        Code::ReadsAsStraight,
        flat,
        note,
        leg,
        Some(16.0 / 3.2e-6),
        Some(4e6),
    );
    assert_eq!(codes(&plan(&TWO, vec![Shape::bend(6e-7)])), []);
    // Pressed quite flat it is drawn as a straight, and says so.
    check(
        Code::ReadsAsStraight,
        route(&TWO, vec![Shape::bend(0.0)]),
        note,
        leg,
        None,
        Some(4e6),
    );
}

#[test]
fn nothing_to_draw() {
    let path = route(&[(1., 2.), (1., 2.)], vec![Shape::Straight]);
    let finding = check(
        Code::NothingToDraw,
        path,
        Severity::Note,
        Part::Whole,
        None,
        None,
    );
    assert_eq!(finding.place.at, geometry::Point::new(1.0, 2.0));
    check(
        Code::NothingToDraw,
        route(&[(1., 2.)], vec![]),
        Severity::Note,
        Part::Whole,
        None,
        None,
    );
    assert_eq!(
        codes(&plan(&[], vec![])),
        [],
        "a path not begun is no finding"
    );
}

#[test]
fn what_matters_most_stands_first() {
    let points = [(0., 0.), (4., 0.), (4., 0.), (6., 0.), (7., 0.)];
    let legs = vec![
        Shape::bend(2.5),
        Shape::Straight,
        Shape::bend(1e-7),
        Shape::bend(0.5),
    ];
    let findings = plan(&points, legs).solve().findings;
    let order: Vec<Severity> = findings.iter().map(|f| f.severity).collect();
    assert!(
        order.is_sorted() && order.first() == Some(&Severity::Stop),
        "{order:?}"
    );
}

#[test]
fn places_in_words() {
    let mut second = plan(&TWO, vec![Shape::bend(3.0)]);
    second.schemes = vec![second.schemes[0].clone(); 28];
    second.schemes[27]
        .routes
        .push(route(&TWO, vec![Shape::bend(3.0)]));
    let findings = second.solve().findings;
    assert_eq!(findings[0].place.to_string(), "option A, path 1, leg 1");
    assert_eq!(findings[28].place.to_string(), "option AB, path 2, leg 1");
}

#[test]
#[expect(
    clippy::print_stdout,
    reason = "how long it takes is told, not held to a limit"
)]
fn ten_thousand_legs() {
    let count: u32 = 10_000;
    let points: Vec<(f64, f64)> = (0..=count)
        .map(|i| {
            (
                f64::from(i % 200) * 3.0,
                f64::from(i / 200) * 9.0 + f64::from(i % 2),
            )
        })
        .collect();
    let legs = vec![Shape::bend(0.2); count as usize];
    let plan = plan(&points, legs);
    let start = std::time::Instant::now();
    let solved = plan.solve();
    println!(
        "{} legs solved in {:?}, {} findings",
        count,
        start.elapsed(),
        solved.findings.len()
    );
    assert_eq!(
        solved.schemes[0].routes[0]
            .centre_line
            .as_ref()
            .unwrap()
            .pieces()
            .len(),
        10_000
    );
    let upright: Vec<(f64, f64)> = (0..=count)
        .map(|i| (f64::from(i % 2), f64::from(i) * 2.0))
        .collect();
    let plan = super::common::plan(&upright, vec![Shape::bend(0.2); count as usize]);
    let start = std::time::Instant::now();
    let solved = plan.solve();
    println!(
        "{} legs due north solved in {:?}, {} findings",
        count,
        start.elapsed(),
        solved.findings.len()
    );
}
