//! Published tapes, sags, right angles and crossings.

use geometry::{Direction, Point, angle};
use plan::budget::{Budget, Hung, TapeClass, Taping};
use plan::setout::{Course, Deed, Doing, Method, RightAngle, Spot, Spots, Taped};
use plan::units::Graduation;

use super::{ruler, taping};

const FOOT: f64 = 0.3048;
const INCH: f64 = 0.0254;

#[track_caller]
fn near(found: f64, expected: f64, room: f64) {
    assert!((found - expected).abs() <= room, "{found}, not {expected}");
}

/// Source: UK SI 2016/1153, Schedule 1I, paragraph 2 (as Directive 2014/32/EU, Annex X): ±(a + bL),
/// L rounded up to the next whole metre; its values at 10 m as tape makers print them, 1.1, 2.3, 4.6 mm.
#[test]
fn european_classes() {
    let classes = [TapeClass::One, TapeClass::Two, TapeClass::Three];
    for (length, permitted) in [
        (5.0, [0.6, 1.3, 2.6]),
        (8.0, [0.9, 1.9, 3.8]),
        (7.3, [0.9, 1.9, 3.8]),
        (10.0, [1.1, 2.3, 4.6]),
        (20.0, [2.1, 4.3, 8.6]),
        (30.0, [3.1, 6.3, 12.6]),
        (50.0, [5.1, 10.3, 20.6]),
    ] {
        for (class, permitted) in classes.iter().zip(permitted) {
            near(1000.0 * class.permitted(length), permitted, 1e-9);
            near(class.permitted(-length), class.permitted(length), 0.0);
        }
    }
}

/// Source: UK SI 1986/1682, regulation 24: 0.025 in and 0.015 in a yard, up to the next yard.
#[test]
fn the_older_british_tape() {
    let check = |yards: f64, inches: f64| {
        near(
            TapeClass::Imperial.permitted(yards * 0.9144),
            inches * INCH,
            1e-12,
        );
    };
    check(33.0, 0.520);
    check(11.0, 0.190);
}

/// Source: NIST Handbook 44, section 5.52, metal tapes, interval from zero.
#[test]
fn american_metal_tapes() {
    for (feet, inches) in [
        (6.0, 1.0 / 32.0),
        (7.0, 1.0 / 16.0),
        (30.0, 1.0 / 16.0),
        (31.0, 1.0 / 8.0),
        (55.0, 1.0 / 8.0),
        (56.0, 3.0 / 16.0),
        (80.0, 3.0 / 16.0),
        (81.0, 1.0 / 4.0),
        (100.0, 1.0 / 4.0),
    ] {
        near(
            TapeClass::Handbook44.permitted(feet * FOOT),
            inches * INCH,
            1e-12,
        );
    }
}

/// Source: JCGM 100:2008, 4.3.7: ±a spread evenly deviates by a/√3; from memory.
#[test]
fn an_even_spread() {
    near(
        TapeClass::Two.deviation(10.0),
        0.0023 / 3.0_f64.sqrt(),
        1e-15,
    );
}

/// Sources: three worked examples of surveying courses (`w²L³/24P²`): 48.88 m; 72.53 ft; a 50 m tape
/// of 4 kg under 5 kg, held up every 10 m and in one span.
#[test]
fn sag() {
    let metric = Hung {
        weight: 0.20,
        pull: 100.0,
    };
    near(48.88 - metric.short(48.88), 48.8605, 5e-5);
    // Feet and pounds throughout: the ratio of weight to pull is by the foot.
    let feet = Hung {
        weight: 0.016,
        pull: 15.0,
    };
    near(72.53 - feet.short(72.53), 72.512, 5e-4);
    let heavy = Hung {
        weight: 4.0 / 50.0,
        pull: 5.0,
    };
    near(5.0 * heavy.short(10.0), 0.053, 5e-4);
    near(heavy.short(50.0), 1.33, 5e-3);
}

/// Slope to plan over 10 m: 12, 50, 194 mm lost at 5, 10, 20 %, computed from `S/√(1 + g²)` for 10 m
/// of tape; common practice, no source.
#[test]
fn slope() {
    for (slope, millimetres) in [(0.05, 12.0), (0.10, 50.0), (0.20, 194.0)] {
        let sloping = Taping {
            slope,
            ..taping(Graduation::Millimetre)
        };
        near(1000.0 * sloping.short(10.0), millimetres, 0.6);
        near(
            10.0 - sloping.short(10.0),
            10.0 / 1.0_f64.hypot(slope),
            1e-12,
        );
    }
}

/// Source: common trade practice, the triangle's law of cosines: a 3-4-5 whose long side is 5 mm long
/// is 0.119426° out; all three sides out by a 5 mm deviation add as squares.
#[test]
fn three_four_five() {
    let out = |a: f64, b: f64, c: f64| {
        ((a * a + b * b - c * c) / (2.0 * a * b)).acos() - std::f64::consts::FRAC_PI_2
    };
    let each = [
        out(4.005, 3.0, 5.0),
        out(4.0, 3.005, 5.0),
        out(4.0, 3.0, 5.005),
    ];
    near(angle::to_degrees(each[2]), 0.119_426, 1e-6);
    let together = each.iter().map(|out| out * out).sum::<f64>().sqrt();
    let coarse = Taping {
        pointing: 0.005,
        per_metre: 0.0,
        ..taping(Graduation::Millimetre)
    };
    let triangle = RightAngle::ThreeFourFive {
        along: 4.0,
        square: 3.0,
        across: 5.0,
        back: false,
    };
    // Reading to the millimetre adds 0.3 mm square to the 5, 1.7 parts in a thousand.
    near(coarse.right_angle(&triangle) / together, 1.0, 0.004);
}

/// Two tapes of one length from two exact spots, crossing at an angle in degrees.
fn crossing(degrees: f64) -> (Budget, f64) {
    let (length, half) = (5.0, 0.5 * angle::from_degrees(degrees));
    let taping = Taping {
        marks: 0.0,
        ..taping(Graduation::Millimetre)
    };
    let (marks, tied) = ([Spot::Mark(0), Spot::Mark(1)], Spot::Peg(1));
    let mut spots = Spots::default();
    for (mark, way) in marks.into_iter().zip([-1.0, 1.0]) {
        spots.put(mark, Point::new(way * length * half.sin(), 0.0));
    }
    spots.put(tied, Point::new(0.0, length * half.cos()));
    let pull = Taped::new(length, &taping.ruler);
    let does = Doing::Cross {
        one: (marks[0], pull),
        other: (marks[1], pull),
        left: true,
        scratches: None,
    };
    let course = Course {
        method: Method::Ties,
        lines: Vec::new(),
        given: marks.to_vec(),
        deeds: vec![Deed::making(tied, does)],
        spots,
        foreman: None,
    };
    let one = taping.random(length).hypot(taping.class.deviation(length));
    (Budget::of(&course, &taping), one)
}

/// Source: the standard result for the cross of two arcs of equal error, semi-axes
/// `σ/(√2 sin γ/2)` and `σ/(√2 cos γ/2)`, place `√2 σ/sin γ`; from memory.
#[test]
#[allow(
    clippy::approx_constant,
    reason = "the values of the table, as printed"
)]
fn two_tapes_crossing() {
    for (degrees, long, short, place) in [
        (30.0, 2.732_051, 0.732_051, 2.828_427),
        (60.0, 1.414_214, 0.816_497, 1.632_993),
        (90.0, 1.0, 1.0, 1.414_214),
        (150.0, 2.732_051, 0.732_051, 2.828_427),
    ] {
        let (budget, one) = crossing(degrees);
        let error = budget.spots[&Spot::Peg(1)];
        let ellipse = error.ellipse();
        // Source: the chi-squared distribution of two degrees at 95 %, 5.991; from memory.
        near(ellipse.long / 5.991_46_f64.sqrt() / one, long, 2e-5);
        near(ellipse.short / 5.991_46_f64.sqrt() / one, short, 2e-5);
        near(error.place() / one, place, 1e-6);
        // Square to two tapes that run nearly in one line.
        let lies = if degrees < 90.0 {
            Direction::EAST
        } else {
            Direction::NORTH
        };
        if (degrees - 90.0_f64).abs() > 1.0 {
            near(ellipse.direction.unit().dot(lies.unit()).abs(), 1.0, 1e-9);
        }
    }
}

#[test]
fn a_millimetre_tape_is_read_to_a_third_of_it() {
    let exact = Taping {
        pointing: 0.0,
        per_metre: 0.0,
        ..Taping::smooth(ruler(Graduation::Millimetre), 30.0)
    };
    // Source: JCGM 100:2008, F.2.2.1: a resolution δx deviates by 0.29 δx; from memory.
    near(exact.random(10.0), 0.000_29, 2e-6);
}
