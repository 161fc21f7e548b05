//! Taut tapes, and scratches.

use super::*;
use ObstacleKind as Kind;

/// What is met between two points, where one stands alone.
fn pulled(obstacle: Obstacle, from: (f64, f64), to: (f64, f64)) -> Option<Hindrance> {
    let surroundings = surroundings(vec![obstacle]);
    let reach = Reach::new(&surroundings, limits());
    let found = reach.pull(at(from.0, from.1), at(to.0, to.1));
    assert!(found.len() < 2, "{found:?}");
    found.into_iter().next()
}

#[track_caller]
fn check(obstacle: Obstacle, from: (f64, f64), to: (f64, f64), expected: Option<(Severity, f64)>) {
    let found = pulled(obstacle, from, to).map(|it| (it.severity, it.along));
    match (found, expected) {
        (Some((severity, along)), Some((as_expected, where_expected))) => {
            assert_eq!(severity, as_expected);
            near(along, where_expected);
        }
        _ => assert_eq!(found, expected),
    }
}

#[test]
fn through_a_wall() {
    let points = [(3.0, -5.0), (3.0, 5.0)];
    check(wall(&points), (0., 0.), (9., 0.), Some((STOPS, 2.9)));
    check(wall(&points), (9., 0.), (0., 0.), Some((STOPS, 5.9)));
    check(
        line(Kind::Wall, &points),
        (0., 0.),
        (9., 0.),
        Some((STOPS, 3.0)),
    );
    // Along its face, up to it, and past its end.
    check(wall(&points), (2.9, -4.), (2.9, 4.), None);
    check(wall(&points), (0., 0.), (2.9, 0.), None);
    check(wall(&points), (0., 5.), (9., 5.), None);
    check(line(Kind::Wall, &points), (0., 5.), (9., 5.), None);
    check(line(Kind::Wall, &points), (0., 0.), (3., 0.), None);
    check(line(Kind::Wall, &points), (3., -4.), (3., 4.), None);
    // To a peg at its far face.
    check(wall(&points), (0., 0.), (3.1, 0.), Some((STOPS, 2.9)));
}

#[test]
fn round_the_corner_of_a_house() {
    let house = || square(Kind::Building, (0.0, 0.0), 6.0);
    // From the middle of one side to that of the next, and held on two corners of one side.
    check(house(), (3., 0.), (6., 3.), Some((STOPS, 0.0)));
    check(house(), (0., 0.), (6., 0.), None);
    check(house(), (0., 0.), (6., 0.005), None); // a wall drawn to the centimetre
    check(house(), (0., 0.), (6., 0.1), Some((STOPS, 0.0)));
    check(house(), (0., 0.), (6., 6.), Some((STOPS, 0.0)));
    // From corner to corner outside, touching a third.
    check(house(), (-3., 3.), (3., -3.), None);
    check(house(), (-3., 3.01), (3., -2.99), Some((STOPS, 4.2426)));
}

#[test]
fn through_a_stem_and_between_the_posts_of_a_gate() {
    check(
        round(Kind::Tree, 4., 0.2, 0.25),
        (0., 0.),
        (9., 0.),
        Some((STOPS, 3.85)),
    );
    check(round(Kind::Tree, 4., 0.25, 0.25), (0., 0.), (9., 0.), None);
    let mut gate = line(Kind::Gate, &[(3.0, -0.5), (3.0, 0.5)]);
    check(gate.clone(), (0., 0.), (9., 0.), None);
    gate.thickness = Some(0.1);
    check(gate.clone(), (0., 0.), (9., 0.), None);
    check(
        gate,
        (0., 0.48),
        (9., 0.48),
        Some((STOPS, 3.0 - 0.0021_f64.sqrt())),
    );
}

#[test]
fn over_soft_ground_with_care() {
    let (from, to) = ((0., 0.), (9., 0.));
    for kind in [Kind::Bed, Kind::Pond] {
        check(square(kind, (2.0, -1.0), 2.0), from, to, Some((CARE, 2.0)));
    }
    let drain = line(Kind::Service, &[(5.0, -5.0), (5.0, 5.0)]);
    check(drain, from, to, Some((CARE, 5.0)));
}

#[test]
fn beyond_a_boundary() {
    let plot = || square(Kind::Boundary, (0.0, 0.0), 6.0);
    check(plot(), (1., 1.), (5., 5.), None);
    check(plot(), (0., 0.), (6., 0.), None); // along it
    check(plot(), (1., 1.), (8., 1.), Some((CARE, 5.0)));
    near(pulled(plot(), (1., 1.), (8., 1.)).unwrap().deep, 2.0);
    let line = line(Kind::Boundary, &[(5.0, -5.0), (5.0, 5.0)]);
    check(line, (1., 1.), (8., 1.), Some((CARE, 4.0)));
}

#[test]
fn a_tape_must_be_long_enough() {
    let surroundings = surroundings(Vec::new());
    let reach = Reach::new(&surroundings, limits());
    let tape = limits().tape;
    assert!(reach.tape(at(0., 0.), at(tape, 0.)).is_empty());
    let found = reach.tape(at(0., 0.), at(tape + 0.5, 0.));
    assert_eq!(
        (found[0].severity, found[0].cause),
        (STOPS, Cause::TooLong(tape))
    );
    near(found[0].deep, 0.5);
    assert!(reach.pull(at(1., 1.), at(1., 1.)).is_empty());
}

#[test]
fn scratches() {
    let scratched = |obstacle: Obstacle, half_length: f64| {
        let surroundings = surroundings(vec![obstacle]);
        let reach = Reach::new(&surroundings, limits());
        let found = reach.scratch(Point::ORIGIN, 5.0, Direction::EAST, half_length);
        assert!(found.len() < 2, "{found:?}");
        found.first().map(|it| (it.severity, it.along))
    };
    let stops = |obstacle: Obstacle, half_length| {
        scratched(obstacle, half_length).map(|(severity, _)| severity)
    };
    assert_eq!(stops(round(Kind::Pond, 5., 0., 0.1), 0.3), Some(STOPS));
    assert_eq!(stops(round(Kind::Tree, 5., 0., 0.1), 0.3), Some(STOPS));
    assert_eq!(
        stops(square(Kind::Building, (4., -1.), 2.), 0.3),
        Some(STOPS)
    );
    assert_eq!(stops(square(Kind::Bed, (4., -1.), 2.), 0.3), Some(CARE));
    assert_eq!(stops(wall(&[(4., 0.), (6., 0.)]), 0.3), Some(STOPS));
    assert_eq!(
        stops(line(Kind::Wall, &[(4., 0.), (6., 0.)]), 0.3),
        Some(STOPS)
    );
    assert_eq!(stops(line(Kind::Service, &[(4., 0.), (6., 0.)]), 0.3), None);
    assert_eq!(
        stops(square(Kind::Boundary, (-4.9, -4.9), 9.8), 0.3),
        Some(STOPS)
    );
    assert_eq!(stops(square(Kind::Boundary, (-9., -9.), 18.), 0.3), None);
    // The string itself may go through what the scratch keeps off.
    assert_eq!(stops(round(Kind::Pond, 2., 0., 1.0), 0.3), None);
    // Only the longer scratch comes to a wall 0.6 m along it to the left.
    let north = 5.0 * 0.12_f64.sin();
    let wall = || line(Kind::Wall, &[(4., north), (6., north)]);
    assert_eq!(stops(wall(), 0.59), None);
    near(scratched(wall(), 0.7).unwrap().1, 0.7 + 0.6);
    // Never more than the whole circle, and nothing of no length.
    assert_eq!(stops(round(Kind::Pond, -5., 0.1, 0.5), 99.0), Some(STOPS));
    assert_eq!(stops(round(Kind::Pond, 5., 0., 0.5), 0.0), None);
}
