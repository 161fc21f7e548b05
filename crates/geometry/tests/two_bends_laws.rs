//! What holds for every pair of smoothly joined bends, whatever its ends and directions.

use std::f64::consts::PI;

use geometry::{Direction, Piece, Point, SAME_DIRECTION, TwoBends, Vector, two_bends};
use proptest::prelude::*;

/// Curvature, positive to the left.
fn curvature(piece: &Piece) -> f64 {
    piece.sweep() / piece.length()
}

/// Two places from 10 mm to 10 km apart, with the turns from the chord to both directions.
#[derive(Clone, Copy, Debug)]
struct Task {
    start: Point,
    chord: Vector,
    turns: [f64; 2],
}

impl Task {
    fn leaving(&self) -> Direction {
        Direction::of(self.chord)
            .expect("a chord")
            .turned(self.turns[0])
    }

    fn arriving(&self) -> Direction {
        Direction::of(self.chord)
            .expect("a chord")
            .turned(self.turns[1])
    }

    fn end(&self) -> Point {
        self.start + self.chord
    }

    fn solve(&self) -> TwoBends {
        two_bends(self.start, self.leaving(), self.end(), self.arriving()).expect("two bends")
    }

    /// How far the curvatures are apart when the heading at the joint is the given one, from
    /// the chords: they halve the angles between the directions and add up to the way.
    fn apart(&self, joint: Direction) -> f64 {
        let (first, last) = (self.leaving().unit(), self.arriving().unit());
        let (u, v) = (first + joint.unit(), joint.unit() + last);
        let way = self.chord;
        let one = u * (way.cross(v) / u.cross(v));
        let other = way - one;
        let k = |tangent: Vector, chord: Vector| 2.0 * tangent.cross(chord) / chord.dot(chord);
        (k(first, one) - k(joint.unit(), other)).abs()
    }
}

fn turn() -> impl Strategy<Value = f64> {
    prop_oneof![
        -3.1..3.1_f64,
        (-7.0..0.0_f64, prop::bool::ANY)
            .prop_map(|(power, left)| { 10_f64.powf(power) * if left { 1.0 } else { -1.0 } }),
    ]
}

fn task() -> impl Strategy<Value = Task> {
    let place = (-50.0..50.0_f64, -50.0..50.0_f64);
    (place, -2.0..4.0_f64, -PI..PI, [turn(), turn()]).prop_map(|((x, y), size, angle, turns)| {
        let size = 10_f64.powf(size);
        Task {
            start: Point::new(size * x, size * y),
            chord: Direction::at_angle(angle).expect("finite").unit() * size,
            turns,
        }
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    /// It starts, meets and ends where and as it should.
    #[test]
    fn smooth_from_end_to_end(task in task()) {
        let bends = task.solve();
        let pieces = bends.pieces();
        let (first, last) = (&pieces[0], &pieces[pieces.len() - 1]);
        prop_assert_eq!((first.start(), last.end()), (task.start, task.end()));
        let slack = if pieces.len() == 1 { SAME_DIRECTION } else { 1e-12 };
        prop_assert!(task.leaving().turn_to(first.start_direction()).abs() < slack);
        prop_assert!(last.end_direction().turn_to(task.arriving()).abs() < slack);
        for pair in pieces.windows(2) {
            prop_assert_eq!(pair[0].end(), pair[1].start());
            let corner = pair[0].end_direction().turn_to(pair[1].start_direction());
            prop_assert!(corner.abs() < 1e-12, "{corner:e}");
        }
    }

    /// No other heading at the joint brings the curvatures nearer to each other, from where the
    /// first bend would vanish to where the second would.
    #[test]
    fn curvatures_as_near_as_can_be(task in task(), share in -0.95..0.95_f64) {
        let [a, b] = task.turns;
        prop_assume!((a - b).abs() > 1e-3 && (a + b).abs() > 1e-3);
        let bends = task.solve();
        let [first, second] = bends.pieces() else { panic!("{bends:?}") };
        let apart = (curvature(first) - curvature(second)).abs();
        let found = first.end_direction();
        prop_assert!((task.apart(found) / apart - 1.0).abs() < 1e-8);
        let other = task.apart(found.turned(0.5 * share * (a - b)));
        prop_assert!(apart < other * (1.0 + 1e-9), "{apart} {other}");
    }

    /// Turned, moved and scaled, mirrored or walked backwards it stays the same figure.
    #[test]
    fn one_figure_however_it_lies(
        task in task(),
        angle in -PI..PI,
        scale in 0.01..100.0_f64,
        x in -10.0..10.0_f64,
    ) {
        let size = task.chord.length();
        let plain = task.solve();
        prop_assume!(plain.pieces().len() == 2);
        let same = |other: &TwoBends, side: f64, scale: f64, back: bool| {
            let mut others = other.pieces().to_vec();
            if back {
                others.reverse();
            }
            others.len() == 2 && plain.pieces().iter().zip(&others).all(|(one, other)| {
                // The turns are known to a few roundings of a right angle and of the places.
                (other.sweep() - side * one.sweep()).abs() < 1e-12
                    && (other.length() - scale * one.length()).abs()
                        < 1e-12 * scale * (one.length() + size) * (1.0 + one.length() / size)
            })
        };
        let way = Direction::of(task.chord).expect("a chord");
        let moved = Task {
            start: task.start + Vector::new(x * size, -x * size),
            chord: way.turned(angle).unit() * (size * scale),
            ..task
        };
        prop_assert!(same(&moved.solve(), 1.0, scale, false), "{plain:?} {:?}", moved.solve());
        let mirrored = Task { turns: task.turns.map(|turn| -turn), ..task };
        prop_assert!(same(&mirrored.solve(), -1.0, 1.0, false));
        let (end, start) = (task.end(), task.start);
        let back = two_bends(end, task.arriving().reversed(), start, task.leaving().reversed());
        prop_assert!(same(&back.expect("two bends"), -1.0, 1.0, true));
    }

    /// The two directions at the ends of one bend give that one bend.
    #[test]
    fn one_bend_stays_one(task in task()) {
        let half = task.turns[0];
        let one = Task { turns: [half, -half], ..task };
        let bends = one.solve();
        let [Piece::Arc(arc)] = bends.pieces() else { panic!("{bends:?}") };
        prop_assert!((arc.sweep() + 2.0 * half).abs() < 1e-12);
    }
}
