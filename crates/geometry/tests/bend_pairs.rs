//! The 28 pairs of figures: which bends each gives, how many, and where there are none.

#![expect(
    clippy::float_cmp,
    reason = "half circles and limits are met exactly or not at all"
)]

use std::f64::consts::{PI, TAU};

use geometry::Figure::{
    self, Apothem, ArcLength, Chord, ExternalDistance, Radius, Rise, Sweep, TangentLength,
};
use geometry::{Answer, Bend, Bound, SolveError, bends_from};

/// Lengths of the bends used here are of a few metres.
const TOLERANCE: f64 = 1e-13;

/// Figures of four bends worked by hand from Pythagorean triangles.
///
/// Half chord 2, apothem 1.5, radius 2.5: the minor bend and the major one over the same chord.
/// The half circle of radius 2.5. Half chord 2.4, apothem 0.7, radius 2.5, its rise 1.8.
fn by_hand(figure: Figure, bend: usize) -> f64 {
    let angle = 2.0 * 0.8_f64.asin();
    let steeper = 2.0 * 0.96_f64.asin();
    match figure {
        Chord => [4.0, 5.0, 4.0, 4.8][bend],
        Rise => [1.0, 2.5, 4.0, 1.8][bend],
        Radius => 2.5,
        Sweep => [angle, PI, TAU - angle, steeper][bend],
        ArcLength => 2.5 * by_hand(Sweep, bend),
        Apothem => [1.5, 0.0, -1.5, 0.7][bend],
        TangentLength => [10.0 / 3.0, f64::NAN, f64::NAN, 60.0 / 7.0][bend],
        ExternalDistance => [5.0 / 3.0, f64::NAN, f64::NAN, 45.0 / 7.0][bend],
    }
}

const MINOR: usize = 0;
const HALF_CIRCLE: usize = 1;
const MAJOR: usize = 2;
const STEEPER: usize = 3;

fn same(found: f64, expected: f64) -> bool {
    (found - expected).abs() <= TOLERANCE * expected.abs().max(1.0)
}

/// Both orders of the pair give `count` answers, least sweep first, and the `at`th is the bend.
fn check(a: Figure, b: Figure, bend: usize, count: usize, at: usize) {
    let (first, second) = ((a, by_hand(a, bend)), (b, by_hand(b, bend)));
    let answers = bends_from(first, second).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(answers.len(), count, "{first:?}, {second:?}: {answers:?}");
    let found = answers[at].bend;
    // near the meeting of two answers (4, 1 and its like) digits go as the answer says
    let slack = 10_f64.powf(15.9 - answers[at].digits).max(1.0);
    for figure in [Chord, Rise, Radius, ArcLength, Sweep] {
        let (found, expected) = (
            found.figure(figure).expect("a figure of all bends"),
            by_hand(figure, bend),
        );
        assert!(
            (found - expected).abs() <= TOLERANCE * slack * expected,
            "{first:?}, {second:?}: {figure} {found}, not {expected}"
        );
    }
    for answer in &answers {
        for (figure, given) in [first, second] {
            let back = answer.bend.figure(figure).expect("a given figure");
            assert!(
                same(back, given),
                "{first:?}, {second:?}: {figure} came back as {back}"
            );
        }
    }
    assert!(answers.is_sorted_by(|a, b| a.bend.sweep() < b.bend.sweep()));
    let turned = bends_from(second, first).expect("the same answers");
    let sizes = |answers: &[Answer]| answers.iter().map(|a| a.bend).collect::<Vec<Bend>>();
    assert_eq!(sizes(&answers), sizes(&turned));
    assert_eq!(answers[at].radius_per_first, turned[at].radius_per_second);
}

#[test]
fn below_a_half_circle_every_pair_gives_the_bend() {
    for (i, a) in Figure::ALL.into_iter().enumerate() {
        for b in Figure::ALL.into_iter().skip(i + 1) {
            match (a, b) {
                (Chord, Radius) => {
                    check(a, b, MINOR, 2, 0);
                    check(a, b, STEEPER, 2, 0);
                }
                // rise / tangent length 0.3 and 0.21: on either side of where the two meet
                (Rise, TangentLength) => {
                    check(a, b, MINOR, 2, 1);
                    check(a, b, STEEPER, 2, 1);
                }
                _ => {
                    check(a, b, MINOR, 1, 0);
                    check(a, b, STEEPER, 1, 0);
                }
            }
        }
    }
}

#[test]
fn at_the_half_circle_there_is_one_answer_exactly() {
    let figures = [Chord, Rise, Radius, ArcLength, Sweep, Apothem];
    for (i, &a) in figures.iter().enumerate() {
        for &b in &figures[i + 1..] {
            if (a, b) == (Sweep, Apothem) {
                assert_eq!(bends_from((a, PI), (b, 0.0)), Err(SolveError::SizeOpen));
                continue;
            }
            check(a, b, HALF_CIRCLE, 1, 0);
            let given = [(a, by_hand(a, HALF_CIRCLE)), (b, by_hand(b, HALF_CIRCLE))];
            let bend = bends_from(given[0], given[1]).unwrap()[0].bend;
            assert_eq!(bend.rise(), bend.chord() / 2.0, "{a}, {b}");
            assert_eq!(bend.apothem(), 0.0, "{a}, {b}");
        }
    }
}

#[test]
fn past_the_half_circle_every_pair_without_tangents_gives_the_bend() {
    let figures = [Chord, Rise, Radius, ArcLength, Sweep, Apothem];
    for (i, &a) in figures.iter().enumerate() {
        for &b in &figures[i + 1..] {
            match (a, b) {
                (Chord, Radius) => check(a, b, MAJOR, 2, 1),
                // rise / arc length 0.3613, between 1 / π and 0.3623: the other turns farther
                (Rise, ArcLength) => check(a, b, MAJOR, 2, 0),
                _ => check(a, b, MAJOR, 1, 0),
            }
        }
    }
}

/// A step of one part in 10¹² from a limit: far over rounding, far under a tape.
const STEP: f64 = 1e-12;

/// Where the pair stops: `limit` of the second figure, answers just inside, none just outside.
fn check_limit(first: (Figure, f64), figure: Figure, bound: Bound, inside: usize) {
    let limit = bound.value();
    let (low, high) = (limit - limit.abs() * STEP, limit + limit.abs() * STEP);
    let (within, without) = if bound.is_lower() {
        (high, low)
    } else {
        (low, high)
    };
    let answers = bends_from(first, (figure, within)).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(
        answers.len(),
        inside,
        "{first:?}, {figure} {within}: {answers:?}"
    );
    let refused = bends_from(first, (figure, without)).expect_err("out of reach");
    let SolveError::OutOfReach {
        given,
        bound: told,
        other,
    } = refused
    else {
        panic!("{refused:?} for {first:?}, {figure} {without}")
    };
    assert_eq!((given, other), ((figure, without), first));
    assert_eq!(
        std::mem::discriminant(&told),
        std::mem::discriminant(&bound),
        "{told:?}"
    );
    assert!(
        (told.value() / limit - 1.0).abs() < 1e-15,
        "{told:?} for {limit}"
    );
    if matches!(bound, Bound::Above(_) | Bound::Below(_)) {
        bends_from(first, (figure, limit)).expect_err("the limit itself is out");
    } else {
        assert_eq!(
            bends_from(first, (figure, limit)).map(|a| a.len()),
            Ok(1),
            "{first:?} {figure}"
        );
    }
}

/// Greatest rise for an arc length of one, where two bends of 267.13° meet: `sin² a / 2 a` at `tan a = 2 a`.
const RISE_PER_ARC: f64 = 0.362_305_676_888_354_24;
/// Greatest rise for a tangent length of one, where two bends of 103.65° meet.
const RISE_PER_TANGENT: f64 = 0.300_283_106_000_777_6;
/// Least apothem for an arc length of one, where two bends of 320.67° meet: `cos x / 2 x` at `tan x = -1 / x`.
const APOTHEM_PER_ARC: f64 = -0.168_254_208_459_197_64;

/// The sweep where two bends of the same rise and tangent length meet, 103.65°: `4 atan sqrt(sqrt 5 - 2)`.
const MEET_TANGENT_RISE: f64 = 1.809_113_788_604_762_7;

#[test]
fn just_inside_each_limit_answers_and_just_outside_none() {
    use Bound::{Above, AtLeast, AtMost, Below};
    check_limit((Chord, 4.2), Radius, AtLeast(2.1), 2);
    check_limit((Radius, 2.1), Chord, AtMost(4.2), 2);
    check_limit((Chord, 4.2), ArcLength, Above(4.2), 1);
    check_limit((ArcLength, 4.2), Chord, Below(4.2), 1);
    check_limit((Chord, 4.2), TangentLength, Above(2.1), 1);
    check_limit((TangentLength, 2.1), Chord, Below(4.2), 1);
    check_limit((Rise, 0.7), Radius, Above(0.35), 1);
    check_limit((Radius, 0.35), Rise, Below(0.7), 1);
    check_limit((Rise, 0.7), ArcLength, AtLeast(0.7 / RISE_PER_ARC), 2);
    check_limit((ArcLength, 3.0), Rise, AtMost(3.0 * RISE_PER_ARC), 2);
    check_limit((Rise, 0.7), Apothem, Above(-0.35), 1);
    check_limit((Apothem, -0.35), Rise, Above(0.7), 1);
    check_limit(
        (Rise, 0.7),
        TangentLength,
        AtLeast(0.7 / RISE_PER_TANGENT),
        2,
    );
    check_limit(
        (TangentLength, 3.0),
        Rise,
        AtMost(3.0 * RISE_PER_TANGENT),
        2,
    );
    check_limit((Rise, 0.7), ExternalDistance, Above(0.7), 1);
    check_limit((ExternalDistance, 0.7), Rise, Below(0.7), 1);
    check_limit((Radius, 1.3), ArcLength, Below(TAU * 1.3), 1);
    check_limit((ArcLength, TAU), Radius, Above(1.0), 1);
    check_limit((Radius, 1.3), Apothem, Below(1.3), 1);
    check_limit((Radius, 1.3), Apothem, Above(-1.3), 1);
    check_limit((Apothem, 1.3), Radius, Above(1.3), 1);
    check_limit((Apothem, -1.3), Radius, Above(1.3), 1);
    check_limit((ArcLength, 3.0), Apothem, AtLeast(3.0 * APOTHEM_PER_ARC), 2);
    check_limit(
        (Apothem, -0.5),
        ArcLength,
        AtLeast(-0.5 / APOTHEM_PER_ARC),
        2,
    );
    check_limit((ArcLength, 3.0), TangentLength, Above(1.5), 1);
    check_limit((TangentLength, 1.5), ArcLength, Below(3.0), 1);
    check_limit((TangentLength, 1.5), ExternalDistance, Below(1.5), 1);
    check_limit((ExternalDistance, 1.5), TangentLength, Above(1.5), 1);
}

#[test]
fn two_answers_meet_at_these_turns() {
    let check = |first: (Figure, f64), second: (Figure, f64), sweep: f64| {
        let met = bends_from(first, second).unwrap();
        assert_eq!(met.len(), 1, "{met:?}");
        assert!(
            (met[0].bend.sweep() - sweep).abs() < 1e-14,
            "{}",
            met[0].bend.sweep()
        );
        assert!(met[0].is_ill_conditioned());
        assert!(
            met[0].digits > 7.8,
            "half of the digits hold where two answers meet"
        );
    };
    check(
        (ArcLength, 1.0),
        (Rise, RISE_PER_ARC),
        4.662_244_740_828_845,
    );
    check(
        (TangentLength, 1.0),
        (Rise, RISE_PER_TANGENT),
        MEET_TANGENT_RISE,
    );
    check(
        (ArcLength, 1.0),
        (Apothem, APOTHEM_PER_ARC),
        5.596_772_091_567_774,
    );
}

#[test]
fn the_number_of_answers_changes_only_where_the_table_says() {
    let count = |first, second| bends_from(first, second).map_or(0, |answers| answers.len());
    let sweeps = |first, second| -> Vec<f64> {
        bends_from(first, second)
            .unwrap()
            .iter()
            .map(|answer| answer.bend.sweep())
            .collect()
    };
    // rise and arc length: below 1 / π one, minor; then two, both major; then none
    for (rise, expected) in [
        (0.001, 1),
        (0.1, 1),
        (0.3182, 1),
        (0.3184, 2),
        (0.36, 2),
        (0.3624, 0),
    ] {
        assert_eq!(count((Rise, rise), (ArcLength, 1.0)), expected, "{rise}");
    }
    assert!(sweeps((Rise, 0.3182), (ArcLength, 1.0))[0] < PI);
    assert!(
        sweeps((Rise, 0.3184), (ArcLength, 1.0))
            .iter()
            .all(|&sweep| sweep > PI)
    );
    // rise and tangent length: two, both minor, on either side of 103.65°; then none
    for (rise, expected) in [(1e-6, 2), (0.1, 2), (0.3002, 2), (0.3004, 0), (2.0, 0)] {
        assert_eq!(
            count((Rise, rise), (TangentLength, 1.0)),
            expected,
            "{rise}"
        );
    }
    let both = sweeps((Rise, 0.1), (TangentLength, 1.0));
    assert!(both[0] < MEET_TANGENT_RISE && MEET_TANGENT_RISE < both[1] && both[1] < PI);
    // arc length and apothem: one down to -1 / 2 π, then two, both major, then none
    for (apothem, expected) in [
        (100.0, 1),
        (0.1, 1),
        (0.0, 1),
        (-0.1591, 1),
        (-0.1592, 2),
        (-0.168, 2),
        (-0.169, 0),
    ] {
        assert_eq!(
            count((ArcLength, 1.0), (Apothem, apothem)),
            expected,
            "{apothem}"
        );
    }
    assert!(
        sweeps((ArcLength, 1.0), (Apothem, -0.168))
            .iter()
            .all(|&sweep| sweep > PI)
    );
    // a whole turn is no bend: at these two borders the second answer has just gone
    assert_eq!(count((Rise, 1.0 / PI), (ArcLength, 1.0)), 1);
    assert_eq!(count((Apothem, -1.0 / TAU), (ArcLength, 1.0)), 1);
}

#[test]
fn unlimited_pairs_answer_over_twelve_decades() {
    let pairs = [
        (Chord, Rise),
        (Chord, Apothem),
        (Chord, ExternalDistance),
        (Radius, TangentLength),
        (Radius, ExternalDistance),
        (ArcLength, ExternalDistance),
        (Apothem, TangentLength),
        (Apothem, ExternalDistance),
    ];
    for (a, b) in pairs {
        for power in -6..=6 {
            let given = 10_f64.powi(power);
            let answers = bends_from((a, 1.0), (b, given)).unwrap();
            assert_eq!(answers.len(), 1);
            let bend = answers[0].bend;
            for (figure, given) in [(a, 1.0), (b, given)] {
                let back = bend.figure(figure).unwrap();
                // what comes back passes through chord and rise, which near a half circle hold
                // apothem, tangent length and external distance less well
                let slack = (bend.radius() / bend.apothem()).abs().max(1.0);
                assert!(
                    (back / given - 1.0).abs() < 1e-15 * 8.0 * slack,
                    "{a}, {b}: {back}"
                );
            }
        }
    }
}

#[test]
fn with_the_sweep_the_half_circle_is_the_only_limit() {
    for figure in [TangentLength, ExternalDistance] {
        assert_eq!(
            bends_from((Sweep, PI.next_down() - 1e-12), (figure, 1.0))
                .unwrap()
                .len(),
            1
        );
        for sweep in [PI, PI + 1e-12, 6.0] {
            assert_eq!(
                bends_from((figure, 1.0), (Sweep, sweep)),
                Err(SolveError::TangentsNeverMeet {
                    figure,
                    other: (Sweep, sweep)
                })
            );
        }
        for apothem in [0.0, -1e-12, -3.0] {
            assert_eq!(
                bends_from((Apothem, apothem), (figure, 1.0)),
                Err(SolveError::TangentsNeverMeet {
                    figure,
                    other: (Apothem, apothem)
                })
            );
        }
    }
    for (sweep, apothem) in [
        (1.0, -1.0),
        (1.0, 0.0),
        (4.0, 1.0),
        (4.0, 0.0),
        (PI, 1.0),
        (PI, -1.0),
    ] {
        assert_eq!(
            bends_from((Sweep, sweep), (Apothem, apothem)),
            Err(SolveError::ApothemSide { sweep, apothem })
        );
    }
    for figure in [Chord, Rise, Radius, ArcLength] {
        assert_eq!(
            bends_from((Sweep, TAU.next_down()), (figure, 1.0))
                .unwrap()
                .len(),
            1
        );
        let refused = bends_from((Sweep, TAU), (figure, 1.0));
        assert_eq!(refused, Err(SolveError::WholeTurn { sweep: TAU }));
    }
}

#[test]
fn each_figure_has_its_own_range() {
    for figure in Figure::ALL {
        let other = if figure == Chord { Radius } else { Chord };
        let refused = |value| bends_from((other, 1.0), (figure, value)).unwrap_err();
        assert!(
            matches!(refused(f64::NAN), SolveError::NotFinite { figure: f, .. } if f == figure)
        );
        for value in [f64::INFINITY, f64::NEG_INFINITY] {
            assert_eq!(refused(value), SolveError::NotFinite { figure, value });
        }
        if figure != Apothem {
            for value in [0.0, -1.0] {
                assert_eq!(refused(value), SolveError::NotPositive { figure, value });
            }
            assert_eq!(
                refused(1e-40),
                SolveError::OutOfRange {
                    figure,
                    value: 1e-40
                }
            );
        }
        if figure != Sweep {
            assert_eq!(
                refused(1e40),
                SolveError::OutOfRange {
                    figure,
                    value: 1e40
                }
            );
        }
        assert_eq!(
            bends_from((figure, 1.0), (figure, 1.0)),
            Err(SolveError::SameFigure { figure })
        );
        assert!(!refused(f64::NAN).to_string().is_empty());
    }
}

#[test]
fn flat_bends_say_what_they_cannot_know() {
    // 1 mm over 10 m: chord and arc length agree to 2.7e-8, rise and external distance to 2e-8
    let flat = Bend::from_chord_and_rise(10.0, 0.001).unwrap();
    let answer = |a: Figure, b: Figure| {
        bends_from((a, flat.figure(a).unwrap()), (b, flat.figure(b).unwrap())).unwrap()[0]
    };
    assert!(!answer(Chord, Rise).is_ill_conditioned());
    assert!(!answer(Rise, ArcLength).is_ill_conditioned());
    for (a, b) in [
        (Chord, ArcLength),
        (Rise, ExternalDistance),
        (Chord, TangentLength),
    ] {
        let answer = answer(a, b);
        assert!(answer.is_ill_conditioned());
        assert!(
            answer.digits > 7.0 && answer.digits < 9.0,
            "{}",
            answer.digits
        );
    }
    // a straight written as a bend: s = c to the last digit holds nothing
    let nothing = bends_from((Chord, 10.0), (ArcLength, 10.0_f64.next_up())).unwrap()[0];
    assert!(nothing.digits < 1.0);
}
