//! Bends and fitted circles against values printed elsewhere.
//!
//! `Read` is a source seen, `from memory` one recalled whose figures were computed afresh. Units are
//! as printed (feet, inches, metres): the relations hold in any. The tolerance of each row is half a
//! unit of the last printed digit, or what the row says.

#![expect(
    clippy::approx_constant,
    reason = "printed values stand as they were printed"
)]

use std::f64::consts::PI;

use geometry::Figure::{
    self, Apothem, ArcLength, Chord, ExternalDistance, Radius, Rise, Sweep, TangentLength,
};
use geometry::{Bend, CircleFitError, Point, bends_from, circle_from_points};

fn degrees(degrees: f64) -> f64 {
    degrees * (PI / 180.0)
}

/// Degrees, minutes and seconds.
fn dms(whole: f64, minutes: f64, seconds: f64) -> f64 {
    degrees(whole + minutes / 60.0 + seconds / 3600.0)
}

/// The bend of least sweep that has both figures.
fn bend(a: Figure, first: f64, b: Figure, second: f64) -> Bend {
    bends_from((a, first), (b, second)).expect("a printed bend")[0].bend
}

fn check(bend: Bend, figure: Figure, printed: f64, tolerance: f64) {
    let found = bend.figure(figure).expect("a printed figure");
    assert!(
        (found - printed).abs() <= tolerance,
        "{figure} {found}, printed {printed}, of {bend:?}"
    );
}

fn near(found: f64, printed: f64, tolerance: f64) {
    assert!(
        (found - printed).abs() <= tolerance,
        "{found}, printed {printed}"
    );
}

#[test]
fn chord_and_rise() {
    // Common practice, no source: chord 84 in and rise 30 in swing from 44.4 in.
    let string = bend(Chord, 84.0, Rise, 30.0);
    check(string, Radius, 44.4, 1e-13);
    check(string, Apothem, 14.4, 1e-13);

    // Source: Hatfield, The American House-Carpenter, art. 518. Read.
    check(bend(Radius, 75.0, Chord, 120.0), Rise, 30.0, 1e-12);

    // Source: MatheAss help, "Circular sections", worked example. Read.
    let sections = bend(Chord, 21.0, Rise, 6.0);
    check(sections, Radius, 12.1875, 1e-13);
    check(sections, Sweep, degrees(118.979_53), degrees(5e-6));
    check(sections, ArcLength, 25.308_373, 5e-7);
    check(sections, Apothem, 6.1875, 1e-13);
    near(sections.segment_area(), 89.254_148, 5e-7);

    // Source: mathhelpforum.com, "Segment of a circle" (area to the nearest whole). Read.
    let segment = bend(Chord, 20.0, Rise, 6.0);
    check(segment, Radius, 11.333, 5e-4);
    near(segment.segment_area(), 85.0, 0.5);

    // Source: McDermott, The Civil-Engineer & Surveyor's Manual, p. 30: arc for a chord of 1. Read.
    let manual = bend(Chord, 3.592, Rise, 1.12);
    near(manual.arc_length() / manual.chord(), 1.2419, 5e-5);
    // Source: the same, p. 17: half chord 9, rise 4, diameter 81 / 4 + 4. Read.
    near(2.0 * bend(Chord, 18.0, Rise, 4.0).radius(), 24.25, 1e-13);

    // Source: hackmath.net, example 820: diameter 20, rise 6. Read.
    check(bend(Rise, 6.0, Radius, 10.0), Chord, 18.33, 5e-3);
    // Source: algebra.com, solution 8031. Read.
    check(bend(Chord, 30.0, Rise, 2.5), Radius, 46.25, 1e-13);
    // Source: askvity.info, "How to find arch radius". Read.
    check(bend(Chord, 6.0, Rise, 1.0), Radius, 5.0, 1e-13);
    // Source: algebra.com, solution 66872 (its length and area use 0.01745 and are left out). Read.
    let arch = bend(Radius, 12.0, Chord, 20.0);
    check(arch, Rise, 5.366_750_419, 1e-9);
    check(arch, Sweep, degrees(112.885_380_5), degrees(1e-6));

    // Source: Griffiths, The Artillerist's Manual: sector of radius 30, arc 36.6. Read.
    let sector = bend(Radius, 30.0, ArcLength, 36.6);
    near(
        sector.segment_area() + sector.chord() * sector.apothem() / 2.0,
        549.0,
        1e-10,
    );
}

#[test]
fn areas_of_segments() {
    let check = |rise: f64, printed: f64| {
        near(bend(Rise, rise, Radius, 0.5).segment_area(), printed, 1e-6); // the tables truncate
    };
    // Source: 19th-century mensuration table, "Segments of a circle", diameter 1, p. 395 ff. Read.
    for (rise, area) in [
        (0.300, 0.198_168),
        (0.305, 0.202_761),
        (0.310, 0.207_376),
        (0.320, 0.216_666),
        (0.325, 0.221_340),
        (0.330, 0.226_033),
        (0.340, 0.235_473),
        (0.345, 0.240_218),
        (0.350, 0.244_980),
        (0.360, 0.254_550),
        (0.370, 0.264_178),
        (0.380, 0.273_861),
        (0.390, 0.283_592),
        (0.400, 0.293_369),
        (0.412, 0.305_155),
        (0.445, 0.337_810),
        (0.470, 0.362_717),
        (0.484, 0.376_702),
    ] {
        check(rise, area);
    }
    // Source: the same kind of table, from memory.
    for (rise, area) in [
        (0.05, 0.014_681),
        (0.10, 0.040_875),
        (0.15, 0.073_875),
        (0.20, 0.111_824),
        (0.25, 0.153_546),
        (0.50, 0.392_699),
    ] {
        check(rise, area);
    }
}

#[test]
fn segments_for_a_radius_of_one() {
    // Source: machinists' handbooks, "Segments of circles for radius = 1", from memory.
    for (angle, arc, rise, chord, area) in [
        (30.0, 0.523_599, 0.034_074, 0.517_638, 0.011_799),
        (45.0, 0.785_398, 0.076_120, 0.765_367, 0.039_146),
        (60.0, 1.047_198, 0.133_975, 1.000_000, 0.090_586),
        (90.0, 1.570_796, 0.292_893, 1.414_214, 0.285_398),
        (120.0, 2.094_395, 0.500_000, 1.732_051, 0.614_185),
        (150.0, 2.617_994, 0.741_181, 1.931_852, 1.058_997),
        (180.0, 3.141_593, 1.000_000, 2.000_000, 1.570_796),
    ] {
        let segment = bend(Radius, 1.0, Sweep, degrees(angle));
        check(segment, ArcLength, arc, 5.1e-7);
        check(segment, Rise, rise, 5.1e-7);
        check(segment, Chord, chord, 5.1e-7);
        near(segment.segment_area(), area, 5.1e-7);
    }
}

#[test]
fn lengths_of_arcs_for_a_chord_of_one() {
    // Source: pocket-book table "Lengths of circular arcs", layout from memory, computed afresh.
    for (rise, length) in [
        (0.05, 1.006_653),
        (0.10, 1.026_457),
        (0.15, 1.058_960),
        (0.20, 1.103_468),
        (0.25, 1.159_119),
        (0.30, 1.224_951),
        (0.35, 1.299_974),
        (0.40, 1.383_219),
        (0.45, 1.473_773),
        (0.50, 1.570_796),
    ] {
        check(bend(Chord, 1.0, Rise, rise), ArcLength, length, 5.1e-7);
        check(bend(Chord, 1.0, ArcLength, length), Rise, rise, 2e-5);
    }
}

#[test]
fn curves_between_tangents() {
    // Source: US Army FM 5-233, Construction Surveying (1985), ch. 3, from memory; it works to 0.01
    // with tangents of five places. Angle 75°, degree of curve 15° by arc.
    let survey = bend(Radius, 5729.578 / 15.0, Sweep, degrees(75.0));
    check(survey, Radius, 381.97, 0.01);
    check(survey, TangentLength, 293.09, 0.01);
    check(survey, ArcLength, 500.00, 0.01);
    check(survey, ExternalDistance, 99.50, 0.01);
    check(survey, Rise, 78.93, 0.01);
    check(survey, Chord, 465.06, 0.01);

    // Source: Penn State lecture "Horizontal curves", p. 4. Read. Degree 4°, 76.62 ft along.
    let along = bend(Radius, 1432.39, ArcLength, 76.62);
    check(along, Chord, 76.61, 5e-3);
    near(
        along.sweep() / 2.0,
        dms(1.0, 31.0, 57.0),
        dms(0.0, 0.0, 0.5),
    ); // deflection

    // Source: scribd 338936993, degree 8°, angle 25°30'. Read.
    let road = bend(Radius, 716.20, Sweep, dms(25.0, 30.0, 0.0));
    check(road, TangentLength, 162.06, 5e-3);
    check(road, ArcLength, 318.75, 5e-3);
    // Source: the same, angle 103°30'. Read.
    check(
        bend(Radius, 716.20, Sweep, degrees(103.5)),
        TangentLength,
        908.50,
        0.01,
    );

    // Source: Besavilla, Surveying, problem 1. Read. Angle 36°, radius 190.99 m.
    let exam = bend(Radius, 1145.916 / 6.0, Sweep, degrees(36.0));
    check(exam, Radius, 190.99, 5e-3);
    check(exam, ExternalDistance, 9.83, 5e-3);
    check(exam, Rise, 9.35, 5e-3);

    // Source: MATHalino, simple curves: angle 36°30' and external distance 12.02 m. Read.
    check(
        bend(Sweep, dms(36.0, 30.0, 0.0), ExternalDistance, 12.02),
        Radius,
        226.94,
        5e-3,
    );
    // Source: MATHalino, Problem 03: rise 2 m, chord 70 m, degree by 20 m arcs 3.7. Read.
    near(1145.916 / bend(Rise, 2.0, Chord, 70.0).radius(), 3.7, 0.05);

    // Source: gyaneee.blogspot.com, "Curve by Rankine": radius 30 m, angle 60°. Read.
    let garden = bend(Radius, 30.0, Sweep, degrees(60.0));
    check(garden, TangentLength, 17.32, 5e-3);
    check(garden, ArcLength, 31.41, 0.01); // truncated
    check(garden, Chord, 30.0, 1e-12);
    near(
        bend(Radius, 30.0, ArcLength, 7.32).sweep() / 2.0,
        dms(6.0, 59.0, 20.0),
        dms(0.0, 0.0, 5.0),
    );
    near(
        bend(Radius, 30.0, ArcLength, 20.0).sweep() / 2.0,
        dms(19.0, 6.0, 0.0),
        dms(0.0, 0.0, 6.0),
    );

    // Source: askfilo, radius 240 m, angle 30° (tangent length truncated). Read.
    let railway = bend(Radius, 240.0, Sweep, degrees(30.0));
    check(railway, ArcLength, 125.66, 5e-3);
    check(railway, TangentLength, 64.3, 0.05);
    check(railway, Chord, 124.2, 0.05);

    // Source: slideserve, "Forging new generations of engineers": radius 300 ft. Read.
    check(
        bend(Radius, 300.0, Sweep, degrees(33.567)),
        ArcLength,
        175.756,
        5e-4,
    );
    check(
        bend(Radius, 300.0, Chord, 100.0),
        Sweep,
        degrees(19.1881),
        degrees(5e-5),
    );

    // Source: Schofield & Breach, Engineering Surveying, 6th ed., ch. 10, from memory: radius 200 m.
    let example = bend(Radius, 200.0, Sweep, degrees(30.0));
    check(example, TangentLength, 53.59, 5e-3);
    check(example, ArcLength, 104.72, 5e-3);
    for (arc, deflection) in [
        (14.0, dms(2.0, 0.0, 19.0)),
        (20.0, dms(2.0, 51.0, 53.0)),
        (10.72, dms(1.0, 32.0, 8.0)),
    ] {
        near(
            bend(Radius, 200.0, ArcLength, arc).sweep() / 2.0,
            deflection,
            dms(0.0, 0.0, 0.5),
        );
    }

    // Source: askfilo, radius twice the tangent length, degree 4° by 20 m arcs. Read.
    check(
        bend(Radius, 286.479, TangentLength, 286.479 / 2.0),
        ArcLength,
        265.65,
        5e-3,
    );
}

#[test]
fn tangential_angles_of_a_chain() {
    // Source: Molesworth, Pocket-book, p. 216: minutes of deflection for a chord of one chain, by
    // the rule arc for chord, 1719 / R. Read. Good to half a minute from R = 10 on.
    for (radius, printed) in [
        (10.0, 171.9),
        (20.0, 85.95),
        (50.0, 34.38),
        (80.0, 21.48),
        (160.0, 10.74),
    ] {
        let found = bend(Chord, 1.0, Radius, radius).sweep() / 2.0;
        near(found, degrees(printed / 60.0), degrees(0.06 / 60.0));
    }
}

#[test]
fn offsets_from_the_long_chord() {
    // Source: scribd 431009762, "Design of horizontal curve", radius 200, chord 80. Read.
    let curve = bend(Radius, 200.0, Chord, 80.0);
    for (x, printed) in [
        (0.0, 4.040_820_577_3),
        (10.0, 3.790_664_131_7),
        (-20.0, 3.038_307_998_7),
        (30.0, 1.778_019_910_2),
        (40.0, 0.0),
    ] {
        near(
            curve.offset_from_chord(x).expect("on the chord"),
            printed,
            5e-11,
        );
    }
    // Source: curioustab.com 66883, offset from the tangent, radius 300, x = 10. Read.
    let long = bend(Radius, 300.0, Chord, 80.0);
    near(
        long.offset_from_tangent(10.0).expect("on the bend"),
        0.1667,
        5e-5,
    );
}

#[test]
fn halving() {
    // Source: Schofield & Breach, "Short and/or small-radius curves", rise of the half is a quarter:
    // 20, 5, 1.25 m. Read. Exact over a chord of 200 m: 5.049024 and 1.265335.
    let whole = bend(Chord, 200.0, Rise, 20.0);
    near(whole.half().rise(), 5.049_024, 5e-7);
    near(whole.half().half().rise(), 1.265_335, 5e-7);
    // Garden sizes, computed afresh: 8 m with 1 m, 6 m with 1.5 m.
    near(bend(Chord, 8.0, Rise, 1.0).half().rise(), 0.253_789, 5e-7);
    near(bend(Chord, 6.0, Rise, 1.5).half().rise(), 0.395_898, 5e-7);
    // Source: Huygens, arc ≈ (8 e - c) / 3 with e the chord of the half; short by 1 part in 6439 at
    // 60° and 1 in 412 at 120°, computed afresh. Rule read in ICS Building Trades Pocketbook.
    for (angle, parts) in [(60.0, 6439.0), (120.0, 412.0)] {
        let arc = bend(Radius, 1.0, Sweep, degrees(angle));
        let rule = (8.0 * arc.half().chord() - arc.chord()) / 3.0;
        near((1.0 - rule / arc.arc_length()) * parts, 1.0, 2e-3);
    }
}

#[test]
fn how_far_the_radius_moves() {
    // dR/dh = 1/2 - c² / 8 h² and dR/dc = c / 4 h, worked by hand.
    for (chord, rise, per_chord, per_rise) in [
        (4.0, 0.3, 3.333_333, -21.722_222),
        (6.0, 0.8, 1.875, -6.531_25),
    ] {
        let answer = bends_from((Chord, chord), (Rise, rise)).expect("a bend")[0];
        near(answer.radius_per_first, per_chord, 5e-7);
        near(answer.radius_per_second, per_rise, 5e-7);
    }
}

fn points(x: &[f64], y: &[f64]) -> Vec<Point> {
    x.iter().zip(y).map(|(&x, &y)| Point::new(x, y)).collect()
}

#[test]
fn fitted_circles() {
    // Source: Gander, Golub & Strebel, Least-squares fitting of circles and ellipses, BIT 34 (1994),
    // data and fit from memory; sum of squares and errors computed afresh.
    let fit = circle_from_points(&points(
        &[1.0, 2.0, 5.0, 7.0, 9.0, 3.0],
        &[7.0, 6.0, 8.0, 7.0, 5.0, 7.0],
    ))
    .expect("a circle");
    near(fit.centre.x, 4.7398, 5e-5);
    near(fit.centre.y, 2.9835, 5e-5);
    near(fit.radius, 4.7142, 5e-5);
    near(fit.sum_of_squares, 1.227_599, 5e-7);
    let errors = fit.standard_errors.expect("three to spare");
    near(errors.centre_x, 0.4776, 5e-5);
    near(errors.centre_y, 1.5429, 5e-5);
    near(errors.radius, 1.2243, 5e-5);

    // Source: SciPy Cookbook, "Least squares circle", first data set. Read.
    let fit = circle_from_points(&points(
        &[9.0, 35.0, -13.0, 10.0, 23.0, 0.0],
        &[34.0, 10.0, 6.0, -14.0, 27.0, -10.0],
    ))
    .expect("a circle");
    near(fit.centre.x, 10.500_09, 5e-6);
    near(fit.centre.y, 9.659_95, 5e-6);
    near(fit.radius, 23.333_53, 5e-6);
    near(fit.sum_of_squares, 7.711_852, 5e-7);

    // Source: Späth's eight points: data read in two circle-fitting scripts, fit from memory.
    let fit = circle_from_points(&points(
        &[0.7, 3.3, 5.6, 7.5, 6.4, 4.4, 0.3, -1.1],
        &[4.0, 4.7, 4.0, 1.3, -1.1, -3.0, -2.5, 1.3],
    ))
    .expect("a circle");
    near(fit.centre.x, 3.043_24, 5e-6);
    near(fit.centre.y, 0.745_68, 5e-6);
    near(fit.radius, 4.105_86, 5e-6);
    near(
        fit.standard_errors.expect("five to spare").point,
        0.243_289,
        5e-7,
    );

    // Source: OSGeoLabBp tutorials, circle: four points read, fit computed afresh.
    let fit = circle_from_points(&points(
        &[11.88, 10.34, 2.58, -0.29],
        &[0.08, 8.59, 9.54, 1.95],
    ))
    .expect("a circle");
    near(fit.centre.x, 6.081_131, 5e-7);
    near(fit.centre.y, 3.629_951, 5e-7);
    near(fit.radius, 6.698_732, 5e-7);
}

#[test]
fn a_fit_does_not_depend_on_where_the_points_lie() {
    let x = [1.0, 2.0, 5.0, 7.0, 9.0, 3.0];
    let y = [7.0, 6.0, 8.0, 7.0, 5.0, 7.0];
    let here = circle_from_points(&points(&x, &y)).expect("a circle");
    let far: Vec<Point> = points(&x, &y)
        .iter()
        .map(|p| Point::new(p.x + 65_536.0, p.y - 65_536.0))
        .collect();
    let there = circle_from_points(&far).expect("a circle");
    near(there.radius, here.radius, 1e-8);
    near(there.centre.x - 65_536.0, here.centre.x, 1e-8);
    near(there.sum_of_squares, here.sum_of_squares, 1e-9);
    let line: Vec<Point> = x.iter().map(|&x| Point::new(x, 2.0 * x + 1.0)).collect();
    assert_eq!(circle_from_points(&line), Err(CircleFitError::InLine));
}
