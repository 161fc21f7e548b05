//! Where chains cross themselves, and corners that are rounded.

use geometry::{Chain, Direction, Fillet, Piece, Point, fillet};
use proptest::prelude::*;

use super::making::{cornered, piece, samples};

/// Crossings of the chain's fine chords: where, at which stations, and how steep.
fn coarse(chain: &Chain, count: u32) -> Vec<(Point, f64, f64, f64)> {
    let mut chords = Vec::new();
    for (i, piece) in chain.pieces().iter().enumerate() {
        let step = piece.length() / f64::from(count);
        for (part, ends) in (0_u32..).zip(samples(piece, count).windows(2)) {
            chords.push((
                chain.station_of(i) + step * f64::from(part),
                step,
                ends[0],
                ends[1],
            ));
        }
    }
    let mut found = Vec::new();
    for (i, (first, one, a, b)) in chords.iter().enumerate() {
        for (second, other, c, d) in chords.iter().skip(i + 2) {
            let (p, q) = (*b - *a, *d - *c);
            let steep = p.cross(q);
            let share = (*c - *a).cross(q) / steep;
            let along = (*c - *a).cross(p) / steep;
            if (0.0..1.0).contains(&share) && (0.0..1.0).contains(&along) {
                let sine = steep.abs() / (p.length() * q.length());
                found.push((
                    *a + p * share,
                    first + one * share,
                    second + other * along,
                    sine,
                ));
            }
        }
    }
    found
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn every_crossing_is_found_and_is_one(chain in cornered(3..6)) {
        let exact = chain.self_crossings();
        prop_assert!(exact.is_sorted_by(|a, b| a.first <= b.first));
        for crossing in &exact {
            prop_assert!(crossing.second > crossing.first - 1e-12);
            for station in [crossing.first, crossing.second] {
                prop_assert!(chain.point_at(station).distance(crossing.point) < 1e-6);
            }
        }
        let brute = coarse(&chain, 150);
        let length = chain.length();
        // Far from joints and steep, both agree; what only touches may be told either way.
        let apart = |first: f64, second: f64| {
            let round = if chain.is_closed() { length - (second - first) } else { length };
            (second - first).min(round) > 0.02 * length
        };
        let joints: Vec<f64> = (0..=chain.pieces().len()).map(|i| chain.station_of(i)).collect();
        let inside = |s: f64| joints.iter().all(|joint| (s - joint).abs() > 0.02 * length);
        for (point, first, second, sine) in &brute {
            if *sine > 0.2 && apart(*first, *second) && inside(*first) && inside(*second) {
                let near = |c: &geometry::Crossing| c.point.distance(*point) < 0.05;
                prop_assert!(exact.iter().any(near), "{point:?} at {first} and {second}");
            }
        }
        for crossing in &exact {
            let (one, other) = (chain.direction_at(crossing.first), chain.direction_at(crossing.second));
            let steep = one.unit().cross(other.unit()).abs() > 0.2;
            if steep && inside(crossing.first) && inside(crossing.second) {
                let near = |c: &(Point, f64, f64, f64)| c.0.distance(crossing.point) < 0.05;
                prop_assert!(brute.iter().any(near), "{crossing:?}");
            }
        }
    }
}

/// Two pieces that meet in a corner which turns by `turn` at (0, 0).
fn corner(turn: f64, legs: [f64; 2], sweeps: [f64; 2]) -> Option<(Piece, Piece)> {
    let out = Direction::EAST.turned(turn);
    // Each leg by its chord and sweep; the first arrives heading east, the second leaves by `turn`.
    let way = Direction::EAST.turned(-0.5 * sweeps[0]);
    let start = Point::ORIGIN + -(way.unit() * legs[0]);
    let rise = |chord: f64, sweep: f64| -0.5 * chord * (0.25 * sweep).tan();
    let end = Point::ORIGIN + out.turned(0.5 * sweeps[1]).unit() * legs[1];
    Some((
        piece(start, Point::ORIGIN, rise(legs[0], sweeps[0]))?,
        piece(Point::ORIGIN, end, rise(legs[1], sweeps[1]))?,
    ))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn roundings_are_tangent_and_of_the_radius_asked_for(
        turn in prop_oneof![-3.1..3.1_f64, -0.05..0.05_f64],
        legs in prop::array::uniform2(0.5..20.0_f64),
        sweeps in prop::array::uniform2(prop_oneof![Just(0.0), -3.0..3.0_f64, -1e-4..1e-4_f64]),
        radius in prop_oneof![0.01..0.5_f64, 0.5..30.0_f64],
        rooms in prop::array::uniform2(0.1..1.0_f64),
    ) {
        prop_assume!(turn.abs() > 1e-3);
        let (first, second) = corner(turn, legs, sweeps).unwrap();
        let corner_turn = first.end_direction().turn_to(second.start_direction());
        prop_assert!((corner_turn - turn).abs() < 1e-9);
        let room = [rooms[0] * first.length(), rooms[1] * second.length()];
        let (rounded, tight) = match fillet(&first, &second, radius, room) {
            Fillet::Round(rounded) => (rounded, false),
            Fillet::Tight(rounded) => (rounded, true),
            Fillet::Smooth => return Err(TestCaseError::fail("a corner is not smooth")),
            // In any corner with room on both sides some rounding fits.
            Fillet::None => return Err(TestCaseError::fail("nothing fits")),
        };
        let arc = rounded.arc;
        prop_assert!(rounded.before >= -1e-9 && rounded.before <= room[0] + 2e-9);
        prop_assert!(rounded.after >= -1e-9 && rounded.after <= room[1] + 2e-9);
        let (from, to) = (first.length() - rounded.before, rounded.after);
        prop_assert!(arc.start().distance(first.point_at(from)) < 1e-9);
        prop_assert!(arc.end().distance(second.point_at(to)) < 1e-9);
        let arrives = arc.direction_at(arc.length());
        prop_assert!(first.direction_at(from).turn_to(arc.direction_at(0.0)).abs() < 1e-6);
        prop_assert!(arrives.turn_to(second.direction_at(to)).abs() < 1e-6);
        prop_assert_eq!(arc.turns_left(), turn > 0.0);
        if tight {
            prop_assert!(arc.radius() < radius);
            // A hair more does not fit, for it would be drawn.
            let more = fillet(&first, &second, arc.radius() * 1.000_1, room);
            prop_assert!(!matches!(more, Fillet::Round(_)), "{:?}", more);
        } else {
            prop_assert!((arc.radius() / radius - 1.0).abs() < 1e-6);
        }
        if sweeps[0].abs().max(sweeps[1].abs()) <= 0.0 {
            // Between straights: tangent length R tan t/2.
            let taken = arc.radius() * (0.5 * turn.abs()).tan();
            prop_assert!((rounded.before - taken).abs() < 1e-6 * taken.max(1.0));
            prop_assert_eq!(tight, radius * (0.5 * turn.abs()).tan() > room[0].min(room[1]) + 1e-9);
        }
    }
}

#[test]
fn of_two_roundings_the_one_that_takes_least() {
    // A straight east to (0, 0), then a half circle of radius 5 about (-5, 0), left over it and
    // back: circles of radius 1 fit at both ends, at (-5 +- sqrt 15, 1).
    let corner = Point::ORIGIN;
    let straight = piece(Point::new(-12.0, 0.0), corner, 0.0).unwrap();
    let arch = piece(corner, Point::new(-10.0, 0.0), -5.0).unwrap();
    let room = [straight.length(), arch.length()];
    let Fillet::Round(rounded) = fillet(&straight, &arch, 1.0, room) else {
        panic!("it fits")
    };
    assert!((rounded.before - (5.0 - 15.0_f64.sqrt())).abs() < 1e-9);
    assert!(rounded.after < 0.5 * arch.length());
}
