//! The ends of a path held to a direction: along or square to a line of the site, each way.

use std::f64::consts::{FRAC_PI_2, PI};

use geometry::Point;
use geometry::angle::{from_degrees, to_degrees};
use plan::Plan;
use plan::document::{Extent, Heading, Mark, Obstacle, ObstacleKind, Reference, Shape};
use plan::edit::{Edit, End};
use plan::finding::{Code, Part, Severity};

use super::common::{path, plan};
use super::{at, codes, line, near, with};

/// A path of one onward bend, a wall that runs north-east, and two marks due north of each other.
fn beside_a_wall() -> Plan {
    let mut plan = plan(&[(0., 0.), (5., 2.)], vec![Shape::Onward]);
    plan.site_mut().obstacles.push(Obstacle::new(
        "wall",
        ObstacleKind::Wall,
        Extent::Line(vec![at(0., 0.), at(3., 3.), at(3., 9.)]),
    ));
    let mark = |name: &str, at: Point| Mark {
        name: name.into(),
        at,
    };
    plan.site_mut().marks = vec![mark("south", at(0., 0.)), mark("north", at(0., 7.))];
    plan
}

fn wall(side: usize) -> Reference {
    Reference::Wall {
        name: "wall".into(),
        side,
    }
}

fn set(end: End, heading: Option<Heading>) -> Edit {
    Edit::SetHeading {
        scheme: 0,
        route: 0,
        end,
        heading,
    }
}

#[test]
fn along_against_and_square_to_each_side() {
    let marks = || Reference::Marks("south".into(), "north".into());
    for (heading, degrees) in [
        (Heading::Along(wall(1)), 45.0),
        (Heading::Against(wall(1)), -135.0),
        (Heading::Square(wall(1)), 135.0),
        (Heading::SquareRight(wall(1)), -45.0),
        (Heading::Along(wall(2)), 90.0),
        (Heading::Against(wall(2)), -90.0),
        (Heading::Square(wall(2)), 180.0),
        (Heading::SquareRight(wall(2)), 0.0),
        (Heading::Along(marks()), 90.0),
        (Heading::Against(marks()), -90.0),
        (Heading::Square(marks()), 180.0),
        (Heading::SquareRight(marks()), 0.0),
        (Heading::Angle(1.0), to_degrees(1.0)),
    ] {
        let before = beside_a_wall();
        let after = with(&before, &set(End::Start, Some(heading.clone())));
        let turn = line(&after, 0).direction_at(0.0).angle() - from_degrees(degrees);
        near(turn.sin(), 0.0, 1e-12);
        near(turn.cos(), 1.0, 1e-12);
        assert!(!codes(&after).contains(&Code::DirectionMissed));
        // The opposite is half a turn away, and its opposite is the same again.
        let way = |heading: &Heading| heading.direction(&before.site).unwrap();
        near(
            way(&heading).turn_to(way(&heading.reversed())).abs(),
            PI,
            1e-12,
        );
        near(
            way(&heading).turn_to(way(&heading.reversed().reversed())),
            0.0,
            1e-12,
        );
        // Let go of it again.
        assert_eq!(with(&after, &set(End::Start, None)), before);
    }
}

#[test]
fn a_direction_missed_is_said_with_the_angle() {
    // One onward bend meets the start; where it ends it meets what it meets.
    let start = with(
        &beside_a_wall(),
        &set(End::Start, Some(Heading::SquareRight(wall(2)))),
    );
    let arrives = line(&start, 0).pieces()[0].end_direction().angle();
    let missed = with(&start, &set(End::End, Some(Heading::Along(wall(2)))));
    let findings = missed.solve().findings;
    // The path starts at the very end of the wall, which is told too.
    let of_direction = findings.iter().find(|f| f.code == Code::DirectionMissed);
    let finding = of_direction.unwrap();
    assert_eq!(finding.severity, Severity::Care);
    assert_eq!(finding.place.part, Part::Waypoint(1));
    let miss = FRAC_PI_2 - arrives;
    near(finding.value.unwrap(), miss, 1e-12);
    let figure = plan::units::angle_text(miss);
    assert_eq!(
        finding.sentence,
        format!("the path arrives {figure} too far to the right of the direction asked for")
    );
    // Two bends meet both.
    let shape = Edit::SetShape {
        id: super::common::leg(0),
        shape: Shape::TwoBends,
    };
    let met = with(&missed, &shape);
    assert!(!codes(&met).contains(&Code::DirectionMissed));
    assert_eq!(path(&met).waypoints, path(&missed).waypoints);
}

#[test]
fn square_to_what_is_not_there_is_refused() {
    let before = beside_a_wall();
    let marks = Reference::Marks("south".into(), "west".into());
    for (reference, expected) in [
        (
            wall(3),
            "option A, path 1, end direction: no obstacle “wall” with straight sides has a side 3",
        ),
        (
            wall(0),
            "option A, path 1, end direction: no obstacle “wall” with straight sides has a side 0",
        ),
        (
            marks,
            "option A, path 1, end direction: there are no two marks “south” and “west” apart from each other",
        ),
    ] {
        for heading in [
            Heading::Along(reference.clone()),
            Heading::Against(reference.clone()),
            Heading::Square(reference.clone()),
            Heading::SquareRight(reference.clone()),
        ] {
            let why = before.with(&set(End::End, Some(heading))).unwrap_err();
            assert_eq!(why.to_string(), expected);
        }
    }
    for angle in [f64::NAN, f64::INFINITY, 8.0] {
        assert!(
            before
                .with(&set(End::Start, Some(Heading::Angle(angle))))
                .is_err()
        );
    }
}
