//! Several pegs of a path mirrored, and copied as a path of their own: what goes along, what stays.

use geometry::{Chain, Direction, Figure, Point, Vector};
use plan::Plan;
use plan::document::{Pad, PadShape, Shape};
use plan::edit::{Edit, EditError};

use super::common::{path, plan, plan_of, route, waypoint};
use super::kinds::{every_kind, kind};
use super::{at, codes, leg_pieces, line, near, same_ground, solved, with};

fn mirror(waypoints: &[usize]) -> Edit {
    Edit::MirrorPegs {
        scheme: 0,
        route: 0,
        waypoints: waypoints.to_vec(),
    }
}

const BY: Vector = Vector { x: 3.0, y: -2.0 };

fn copy(waypoints: &[usize]) -> Edit {
    Edit::CopyPegs {
        scheme: 0,
        route: 0,
        waypoints: waypoints.to_vec(),
        by: BY,
    }
}

fn places(plan: &Plan) -> Vec<Point> {
    path(plan).waypoints.iter().map(|w| w.at).collect()
}

/// Six pegs on the line y = 0 or above it, bends of all kinds between them.
fn six() -> Plan {
    let points = [
        (0., 2.),
        (4., 0.),
        (8., 1.),
        (12., 3.),
        (16., 0.),
        (20., 2.),
    ];
    plan(
        &points,
        vec![
            Shape::bend(0.6),
            Shape::Bend {
                rise: -0.7,
                holds: vec![Figure::Chord, Figure::Sweep],
            },
            Shape::Straight,
            Shape::bend(1.0),
            Shape::bend(0.4),
        ],
    )
}

#[test]
fn pegs_between_the_first_and_the_last_go_over_and_all_else_stays() {
    let before = six();
    let after = with(&before, &mirror(&[3, 1, 4, 2, 2]));
    let expected = [
        (0., 2.),
        (4., 0.),
        (8., -1.),
        (12., -3.),
        (16., 0.),
        (20., 2.),
    ];
    assert_eq!(places(&after), expected.map(|(x, y)| at(x, y)));
    let (was, now) = (path(&before), path(&after));
    assert_eq!([&now.legs[0], &now.legs[4]], [&was.legs[0], &was.legs[4]]);
    // What is typed holds on the other side.
    let holds = vec![Figure::Chord, Figure::Sweep];
    assert_eq!(now.legs[1], Shape::Bend { rise: 0.7, holds });
    assert_eq!(now.legs[2..4], [Shape::Straight, Shape::bend(-1.0)]);
    near(line(&after, 0).length(), line(&before, 0).length(), 1e-12);
    assert_eq!(with(&after, &mirror(&[1, 2, 3, 4])), before);
}

#[test]
fn a_peg_left_out_between_stays_and_its_legs_follow_the_rule() {
    let before = six();
    let after = with(&before, &mirror(&[1, 2, 4]));
    let mut expected = places(&before);
    expected[2] = at(8., -1.);
    assert_eq!(places(&after), expected);
    assert_eq!(path(&after).legs[3..], path(&before).legs[3..]);

    // A bend beside it keeps its sweep, as under a dragging hand.
    let mut bent = before;
    bent.schemes[0].routes[0].legs[2] = Shape::bend(0.5);
    let sweep = |plan: &Plan| leg_pieces(plan, 2)[0].arc().unwrap().bend().sweep();
    near(
        sweep(&with(&bent, &mirror(&[1, 2, 4]))),
        sweep(&bent),
        1e-12,
    );
}

#[test]
fn what_a_bend_beside_them_holds_refuses_the_mirroring() {
    let mut before = six();
    before.schemes[0].routes[0].legs[2] = Shape::Bend {
        rise: 0.5,
        holds: vec![Figure::Chord],
    };
    let why = before.with(&mirror(&[1, 2, 4])).unwrap_err();
    assert_eq!(
        why.to_string(),
        "leg 3 holds its rise and chord: let one go to move this peg farther"
    );
}

/// The mirror image of a place in the line through two others.
fn image(p: Point, [from, to]: [Point; 2]) -> Point {
    let across = Direction::of(to - from).expect("two places").left().unit();
    p - across * (2.0 * across.dot(p - from))
}

#[test]
fn mirrored_any_path_of_one_run_is_its_image_and_twice_it_is_back() {
    for (name, before) in every_kind() {
        let count = path(&before).waypoints.len();
        let all: Vec<usize> = (0..count).collect();
        if count < 3 {
            continue;
        }
        let there = with(&before, &mirror(&all));
        let places = places(&before);
        let ends = [places[0], places[count - 1]];
        let (one, other) = (line(&before, 0), line(&there, 0));
        near(one.length(), other.length(), 1e-9);
        for i in 0..=40 {
            let station = one.length() * f64::from(i) / 40.0;
            let off = image(one.point_at(station), ends).distance(other.point_at(station));
            assert!(off < 1e-9, "{name} at {station}: {off} m");
        }
        assert_eq!(codes(&there), codes(&before), "{name}");
        same_ground(&one, &line(&with(&there, &mirror(&all)), 0), name);
    }
}

#[test]
fn onward_bends_at_the_border_stay_where_they_lie() {
    // The first mirrored leg and the one after the last took their shape from outside.
    let points = [
        (0., 0.),
        (4., 1.),
        (8., 3.),
        (13., 3.),
        (16., 0.),
        (20., 0.),
    ];
    let mut legs = vec![Shape::Onward; 5];
    legs[0] = Shape::Straight;
    let before = plan(&points, legs);
    let after = with(&before, &mirror(&[1, 2, 3]));
    let ends = [at(4., 1.), at(13., 3.)];
    for leg in [0, 3, 4] {
        let (was, now) = (leg_pieces(&before, leg)[0], leg_pieces(&after, leg)[0]);
        let middle = |piece: &geometry::Piece| piece.point_at(0.5 * piece.length());
        near(middle(&was).distance(middle(&now)), 0.0, 1e-9);
    }
    for leg in [1, 2] {
        let (was, now) = (leg_pieces(&before, leg)[0], leg_pieces(&after, leg)[0]);
        for share in [0.0, 0.3, 0.5, 1.0] {
            let was = image(was.point_at(share * was.length()), ends);
            near(was.distance(now.point_at(share * now.length())), 0.0, 1e-9);
        }
    }
    // Inside and after the run they still take their shape from the leg before.
    assert_eq!(path(&after).legs[2], Shape::Onward);
    assert_eq!(path(&after).legs[4], Shape::Onward);
}

#[test]
fn on_a_ring_the_run_may_go_over_the_first_peg() {
    let points = [(0., 3.), (6., 0.), (4., 8.), (0., 9.), (-4., 8.), (-6., 0.)];
    let before = plan(&points, vec![Shape::bend(0.5); 6]);
    let after = with(&before, &mirror(&[5, 0, 1]));
    let mut expected = places(&before);
    expected[0] = at(0., -3.);
    assert_eq!(places(&after), expected);
    let turned: Vec<usize> = (0..6)
        .filter(|leg| path(&after).legs[*leg] == Shape::bend(-0.5))
        .collect();
    assert_eq!(turned, [0, 5]);
}

#[test]
fn a_direction_held_at_the_start_goes_over_with_its_leg() {
    let before = kind("onward bends from a direction");
    let start = |plan: &Plan| line(plan, 0).direction_at(0.0);
    let after = with(&before, &mirror(&[0, 1, 2]));
    let along = Direction::of(at(6., 4.) - at(0., 0.)).unwrap();
    near(
        along.turn_to(start(&after)),
        -along.turn_to(start(&before)),
        1e-12,
    );
    // Not when the run begins farther on.
    let after = with(&before, &mirror(&[1, 2, 3]));
    near(start(&before).turn_to(start(&after)), 0.0, 1e-12);
}

#[test]
fn pegs_without_a_line_to_mirror_in_are_refused() {
    let sentence = "pegs are mirrored in the line from the first to the last of them, and these two stay: choose one more between them, and ends that stand apart";
    let same_place = plan(
        &[(0., 0.), (4., 2.), (0., 0.)],
        vec![Shape::Straight, Shape::Straight],
    );
    for (before, chosen) in [
        (six(), &[2, 4][..]),
        (six(), &[2]),
        (six(), &[]),
        (same_place, &[0, 1, 2]),
    ] {
        let why = before.with(&mirror(chosen)).unwrap_err();
        assert_eq!(why, EditError::MirrorLine, "{chosen:?}");
        assert_eq!(why.to_string(), sentence);
    }
    for edit in [mirror(&[1, 2, 6]), copy(&[1, usize::MAX])] {
        assert_eq!(six().with(&edit).unwrap_err(), EditError::NotThere);
    }
    let why = six().with(&copy(&[3, 3])).unwrap_err();
    assert_eq!(
        why.to_string(),
        "one peg makes no path: choose another, and what runs between them is copied"
    );
}

#[test]
fn the_run_between_chosen_pegs_is_copied_and_the_path_stays() {
    let mut before = six();
    let waypoints = &mut before.schemes[0].routes[0].waypoints;
    for (i, radius) in [(1, 0.5), (2, 1.5), (3, 1.0)] {
        waypoints[i] = waypoint((waypoints[i].at.x, waypoints[i].at.y), Some(radius));
    }
    before.schemes[0].routes[0].width = 0.9;
    // Pegs between the first and the last go along, chosen or not.
    let after = with(&before, &copy(&[3, 1]));
    assert_eq!(path(&after), path(&before));
    let (was, made) = (path(&before), &after.schemes[0].routes[1]);
    assert_eq!(made.legs, was.legs[1..3]);
    assert!((made.width - was.width).abs() < 1e-12);
    assert_eq!(made.name, "path, copy");
    let stands: Vec<(Point, Option<f64>)> =
        made.waypoints.iter().map(|w| (w.at, w.rounding)).collect();
    assert_eq!(
        stands,
        [
            (at(7., -2.), None),
            (at(11., -1.), Some(1.5)),
            (at(15., 1.), None),
        ]
    );
}

/// How far a copy lies from the line it was made of, moved back.
fn off(copy: &Chain, of: &Chain) -> f64 {
    (0..=40)
        .map(|i| copy.point_at(copy.length() * f64::from(i) / 40.0))
        .map(|place| of.nearest(place - BY).distance)
        .fold(0.0, f64::max)
}

#[test]
fn a_copied_run_of_any_path_lies_as_it_is_drawn() {
    for (name, before) in every_kind() {
        let mut before = before;
        for waypoint in &mut before.schemes[0].routes[0].waypoints {
            // Cut at a rounding the copy goes to the corner, which the path does not.
            waypoint.rounding = None;
        }
        let count = path(&before).waypoints.len();
        for first in 0..count {
            for last in first + 1..count {
                let after = with(&before, &copy(&[first, last]));
                let off = off(&line(&after, 1), &line(&before, 0));
                assert!(off < 1e-9, "{name} from {first} to {last}: {off} m");
            }
        }
        // All pegs: the whole path, a ring still a ring.
        let all: Vec<usize> = (0..count).collect();
        let after = with(&before, &copy(&all));
        assert_eq!(
            after.schemes[0].routes[1].legs,
            path(&before).legs,
            "{name}"
        );
        assert_eq!(after.schemes[0].routes[1].closed, path(&before).closed);
        near(solved(&after, 1).area, solved(&before, 0).area, 1e-9);
    }
}

#[test]
fn on_a_ring_the_copy_may_go_over_the_first_peg() {
    let ring = [(0., 0.), (6., 0.), (8., 5.), (4., 9.), (-1., 6.)];
    let legs: Vec<Shape> = [0.1, 0.2, 0.3, 0.4, 0.5].map(Shape::bend).into();
    let before = plan_of(route(&ring, legs));
    let after = with(&before, &copy(&[0, 4, 1]));
    let made = &after.schemes[0].routes[1];
    assert!(!made.closed);
    assert_eq!(made.legs, [Shape::bend(0.5), Shape::bend(0.1)]);
    let stands: Vec<Point> = made.waypoints.iter().map(|w| w.at).collect();
    assert_eq!(stands, [at(2., 4.), at(3., -2.), at(9., -2.)]);
}

#[test]
fn landings_on_the_run_go_with_the_copy_to_the_same_places() {
    let mut before = six();
    let pad = |name: &str, station| Pad {
        name: name.into(),
        station,
        shape: PadShape::Circle { diameter: 2.0 },
    };
    before.schemes[0].routes[0].pads = vec![pad("a", 1.0), pad("b", 7.0), pad("c", 19.0)];
    let after = with(&before, &copy(&[1, 3]));
    let pads = &after.schemes[0].routes[1].pads;
    assert_eq!(pads.len(), 1);
    assert_eq!(pads[0].name, "b");
    let place = line(&after, 1).point_at(pads[0].station);
    near(
        place.distance(line(&before, 0).point_at(7.0) + BY),
        0.0,
        1e-9,
    );
}
