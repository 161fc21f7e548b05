//! Published set-outs, done and compared.

use geometry::Point;
use geometry::angle::{from_degrees, to_degrees};
use plan::setout::methods::BendJob;
use plan::setout::methods::deflections::{chord_under, deflection};
use plan::setout::{Course, Deed, Doing, Made, Method, PathLine, Spot, Spots, Taped, carry_out};
use plan::units::{Ruler, Units};

use super::{bend, job};

#[track_caller]
fn near(actual: f64, expected: f64, tolerance: f64) {
    let off = (actual - expected).abs();
    assert!(off <= tolerance, "{actual} for {expected}");
}

/// The squares of a course: the string's length, and along and off for each spot made.
fn squares(course: &Course) -> Vec<(Spot, f64, f64, f64)> {
    let square = |deed: &Deed| match deed.does {
        Doing::Square {
            from,
            to,
            along,
            off,
            ..
        } => {
            let length = course.spots.at(from)?.distance(course.spots.at(to)?);
            Some((deed.makes?, length, along.exact, off.exact))
        }
        _ => None,
    };
    course.deeds.iter().filter_map(square).collect()
}

fn on_the_centre_line(spot: &Spot) -> bool {
    match spot {
        Spot::Apex(_) => true,
        Spot::Flag { line, .. } => *line == PathLine::Centre,
        _ => false,
    }
}

#[test]
fn offsets_from_the_long_chord() {
    // Source: "Design of horizontal curve", a printed spreadsheet: R 200, chord 80, every 10 from
    // the middle.
    const PUBLISHED: [(f64, f64); 4] = [
        (0.0, 4.0408205773),
        (10.0, 3.7906641317),
        (20.0, 3.0383079987),
        (30.0, 1.7780199102),
    ];
    let rise = 1600.0 / (200.0 + (200.0_f64.powi(2) - 1600.0).sqrt());
    let job = BendJob {
        spacing: Some(10.0),
        ..job(bend(80.0, rise))
    };
    let course = job.course(Method::ChordOffsets).unwrap();
    let squares = squares(&course);
    let offsets = |x: f64| {
        squares
            .iter()
            .filter(move |(spot, _, along, _)| {
                on_the_centre_line(spot) && ((along - 40.0).abs() - x).abs() < 1e-9
            })
            .map(|(.., off)| *off)
    };
    for (x, expected) in PUBLISHED {
        assert!(offsets(x).count() > 0, "nothing at {x}");
        offsets(x).for_each(|off| near(off, expected, 5e-11));
    }
}

/// No source: computed beside the published ones for chords of gardens, every quarter of the half
/// chord from the middle.
#[test]
fn offsets_of_small_chords() {
    for (chord, rise, expected) in [
        (4.0, 0.5, [0.470486, 0.380678, 0.226493]),
        (6.0, 1.2, [1.134857, 0.933197, 0.572902]),
    ] {
        let job = BendJob {
            spacing: Some(chord / 8.0),
            ..job(bend(chord, rise))
        };
        let squares = squares(&job.course(Method::ChordOffsets).unwrap());
        for (quarter, expected) in (1_u32..).zip(expected) {
            let x = chord / 8.0 * f64::from(quarter);
            let mut found = squares.iter().filter(|(spot, _, along, _)| {
                on_the_centre_line(spot) && ((along - 0.5 * chord).abs() - x).abs() < 1e-9
            });
            near(found.next().unwrap().3, expected, 5e-7);
        }
    }
}

/// The rises in falling order, each once.
fn rises(chord: f64, rise: f64) -> Vec<f64> {
    let course = job(bend(chord, rise)).course(Method::Halving).unwrap();
    let mut rises: Vec<f64> = squares(&course)
        .iter()
        .filter(|(spot, length, along, _)| {
            on_the_centre_line(spot) && (along - 0.5 * length).abs() < 1e-9
        })
        .map(|(.., off)| *off)
        .collect();
    rises.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
    rises
}

#[test]
fn halving_and_quartering() {
    // Source: Schofield and Breach, Engineering Surveying, "Short and/or small-radius curves": 20 m,
    // then 5 m, then 1.25 m, by the quarter rule. It holds for flat bends; the exact rises beside it
    // are h₁ = h₀ / 4cos²(θ/8), computed for the same chords.
    let check = |chord: f64, rise: f64, expected: &[f64]| {
        let rises = rises(chord, rise);
        for (rise, expected) in rises.iter().zip(expected) {
            near(*rise, *expected, 1e-6);
        }
        assert!(rises.len() >= expected.len());
    };
    check(100.0, 20.0, &[20.0, 5.185440, 1.308162]);
    check(200.0, 20.0, &[20.0, 5.049024, 1.265335]);
    check(8.0, 1.0, &[1.0, 0.253789]);
    check(6.0, 1.5, &[1.5, 0.395898]);
}

#[test]
fn two_tapes_meet_where_published() {
    // Source: "Trilateration problem", a published exercise: B, C and two distances fix A. North is
    // y and east is x; A lies left of B to C.
    let (b, c) = (
        Point::new(10150.022, 9450.085),
        Point::new(9975.255, 9936.999),
    );
    let a = Point::new(10866.262041, 10032.649618);
    let tape = |exact| Taped::new(exact, &Ruler::new(Units::Metric));
    let mut spots = Spots::default();
    spots.put(Spot::Peg(1), b);
    spots.put(Spot::Peg(2), c);
    let tied = |left| {
        let one = (Spot::Peg(1), tape(923.245));
        let other = (Spot::Peg(2), tape(896.126));
        let deed = Deed::making(
            Spot::Peg(3),
            Doing::Cross {
                one,
                other,
                left,
                scratches: None,
            },
        );
        match carry_out(&deed, &spots, &[923.245, 896.126]) {
            Ok(Made::Spot(at)) => at,
            other => panic!("{other:?}"),
        }
    };
    // The published distances are rounded to the millimetre, and so is the place.
    near(tied(false).distance(a), 0.0, 1e-3);
    near(
        tied(true).distance(Point::new(9226.795760, 9444.199494)),
        0.0,
        1e-3,
    );
}

#[test]
fn offsets_from_the_tangent() {
    // Source: a published exercise: R 300 and x 10 give 0.1667, by x²/2R and exactly alike.
    let radius = 300.0;
    let chord = 100.0_f64;
    let rise = 2500.0 / (radius + (radius * radius - 2500.0_f64).sqrt());
    let job = BendJob {
        spacing: Some(10.0),
        ..job(bend(chord, rise))
    };
    let course = job.course(Method::TangentOffsets).unwrap();
    let found = squares(&course)
        .into_iter()
        .find(|(spot, _, along, _)| on_the_centre_line(spot) && (along - 10.0).abs() < 1e-9);
    near(found.unwrap().3, 0.166713, 5e-7);
}

fn seconds(degrees: f64, minutes: f64, seconds: f64) -> f64 {
    from_degrees(degrees + minutes / 60.0 + seconds / 3600.0)
}

#[test]
fn deflections_and_their_chords() {
    const SECOND: f64 = 1.0 / 3600.0;
    // Source: Pennsylvania State University lecture "Horizontal curves", page 4: a 4° bend of
    // radius 1432.39 ft, 76.62 ft along: 1°31′57″, chord 76.61 ft.
    near(
        to_degrees(deflection(1432.39, 76.62)),
        to_degrees(seconds(1.0, 31.0, 57.0)),
        SECOND,
    );
    near(chord_under(1432.39, 76.62), 76.61, 0.005);
    // Source: Schofield and Breach, Engineering Surveying, 6th edition, chapter 10 (from memory):
    // R 200 m, pegs every 20 m of through chainage.
    for (arc, expected) in [
        (14.0, seconds(2.0, 0.0, 19.0)),
        (20.0, seconds(2.0, 51.0, 53.0)),
        (10.72, seconds(1.0, 32.0, 8.0)),
    ] {
        near(
            to_degrees(deflection(200.0, arc)),
            to_degrees(expected),
            SECOND,
        );
    }
    // Source: a worked example of setting out with a theodolite, published on a teaching page:
    // R 30 m, turning 60°; arcs 7.32, 20 and 4.09 m. It rounds its angles to 5 seconds
    // and the middle one to a minute
    for (arc, expected) in [
        (7.32, seconds(6.0, 59.0, 20.0)),
        (20.0, seconds(19.0, 6.0, 0.0)),
        (4.09, seconds(3.0, 54.0, 20.0)),
    ] {
        near(
            to_degrees(deflection(30.0, arc)),
            to_degrees(expected),
            5.5 * SECOND,
        );
    }
}

/// The nails of a course lie off the tangent by the deflections, and the chords are those under
/// equal arcs.
#[test]
fn nails_aim_by_the_deflection() {
    let job = job(bend(6.0, 0.8));
    let course = job.course(Method::Deflections).unwrap();
    let arc = job.arc.length() / f64::from(job.spaces());
    let aims: Vec<f64> = squares(&course)
        .iter()
        .filter(|(spot, ..)| matches!(spot, Spot::Aim { .. }))
        .map(|(_, _, along, off)| (off / along).atan())
        .collect();
    assert!(aims.len() + 1 >= job.spaces() as usize);
    for (nth, aim) in (1_u32..=job.spaces() / 2).zip(&aims) {
        near(
            *aim,
            f64::from(nth) * deflection(job.arc.radius(), arc),
            1e-9,
        );
    }
}

/// Source: University of Melbourne, plane survey practice, "first deflection distance": chords `c` leave the
/// tangent by `c²/2R` at first and the chord before by `c²/R` from then on, exactly.
#[test]
fn successive_chords_leave_by_the_textbook_offsets() {
    let job = job(bend(6.0, 0.8));
    let course = job.course(Method::SuccessiveChords).unwrap();
    let radius = job.arc.radius();
    let chord = chord_under(radius, job.arc.length() / f64::from(job.spaces()));
    let first = squares(&course)
        .into_iter()
        .find(|(spot, ..)| on_the_centre_line(spot));
    near(first.unwrap().3, chord * chord / (2.0 * radius), 1e-12);
    let mut pulls = 0;
    for deed in &course.deeds {
        if let Doing::Cross {
            one,
            other: (Spot::Aim { .. }, off),
            ..
        } = deed.does
        {
            near(one.1.exact, chord, 1e-9);
            near(off.exact, chord * chord / radius, 1e-9);
            pulls += 1;
        }
    }
    assert_eq!(pulls, job.spaces() as usize - 2);
}
