//! Published set-outs, done and compared.

use geometry::Point;
use plan::setout::methods::BendJob;
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
