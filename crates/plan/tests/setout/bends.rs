//! One bend on the ground: strings, offsets, rounding, checks.

use geometry::{Arc, Bend, Point};
use plan::Plan;
use plan::document::Shape;
use plan::setout::{BendSetOut, SwingVerdict, Verdict, taping_allowance};
use plan::units::{Graduation, Units};
use proptest::prelude::*;

use super::common::{plan, plan_of, route};
use super::{near, out};

/// A bend of this chord and signed rise on a path of this width.
fn bend(chord: f64, rise: f64, width: f64, graduation: Graduation) -> BendSetOut {
    let route = plan::document::Route {
        width,
        ..route(&[(0., 0.), (chord, 0.)], vec![Shape::bend(rise)])
    };
    let plan = Plan {
        units: graduation.units(),
        graduation,
        ..plan_of(route)
    };
    out(&plan).bends.remove(0)
}

/// The offsets of the centre line that published rows give, at distances from the middle.
#[track_caller]
fn check_offsets(chord: f64, rise: f64, rows: &[(f64, f64)], tolerance: f64) {
    let exact = Bend::from_chord_and_rise(chord, rise).unwrap();
    let found = bend(chord, rise, 1.2, Graduation::Millimetre);
    for (x, expected) in rows {
        near(exact.offset_from_chord(*x).unwrap(), *expected, tolerance);
        near(exact.offset_from_chord(-x).unwrap(), *expected, tolerance);
        for row in &found.offsets[0].rows {
            if (row.along.tape - 0.5 * chord - x).abs() < 1e-9 {
                let centre = row.centre.unwrap();
                near(centre.exact, *expected, tolerance);
                near(centre.tape, *expected, 0.0005 + tolerance);
            }
        }
    }
}

#[test]
fn offsets_from_the_chord_as_published() {
    // Source: "Design of horizontal curve", scribd 431009762: radius 200, chord 80, every 10.
    let rise = 200.0 - (200.0_f64 * 200.0 - 1600.0).sqrt();
    let rows = [
        (0., 4.040_820_577_3),
        (10., 3.790_664_131_7),
        (20., 3.038_307_998_7),
        (30., 1.778_019_910_2),
        (40., 0.),
    ];
    check_offsets(80., rise, &rows, 1e-10);
    // Common practice, no source: chord 80, rise 5, recomputed.
    let rows = [
        (0., 5.),
        (10., 4.692_016),
        (20., 3.764_534),
        (30., 2.206_763),
        (40., 0.),
    ];
    check_offsets(80., 5., &rows, 5e-7);
    // The same for garden sizes.
    let rows = [
        (0., 0.5),
        (0.5, 0.470_486),
        (1., 0.380_678),
        (1.5, 0.226_493),
    ];
    check_offsets(4., 0.5, &rows, 5e-7);
    let rows = [
        (0., 1.2),
        (0.75, 1.134_857),
        (1.5, 0.933_197),
        (2.25, 0.572_902),
    ];
    check_offsets(6., 1.2, &rows, 5e-7);
}

#[test]
fn halving_as_computed() {
    // Source for the rule: Schofield & Breach, Engineering Surveying: the rise of each half chord
    // is nearly a quarter; exactly 1 / 4cos²(t/8) of it. Chord 100: 20, 5.185440, 1.308162.
    let whole = Bend::from_chord_and_rise(100., 20.).unwrap();
    near(whole.half().rise(), 5.185_440, 5e-7);
    near(whole.half().half().rise(), 1.308_162, 5e-7);
    near(
        Bend::from_chord_and_rise(8., 1.).unwrap().half().rise(),
        0.253_789,
        5e-7,
    );
    near(
        Bend::from_chord_and_rise(6., 1.5).unwrap().half().rise(),
        0.395_898,
        5e-7,
    );
}

#[test]
fn strings_for_the_centre_line_and_both_edges() {
    // Common practice, no source: chord 84 in, rise 30 in, radius 44.4 in.
    let inch = 0.0254;
    let found = bend(
        84.0 * inch,
        30.0 * inch,
        24.0 * inch,
        Graduation::EighthInch,
    );
    near(found.radius.exact, 44.4 * inch, 1e-12);
    near(found.radius.tape, 44.375 * inch, 1e-12);
    near(found.inner.unwrap().tape, 32.375 * inch, 1e-12);
    near(found.outer.tape, 56.375 * inch, 1e-12);
    near(found.apothem.exact, 14.4 * inch, 1e-12);
    near(found.half_chord.tape, 42.0 * inch, 1e-12);
    // With the end pegs kept the apex moves h/d = 2.1 for each unit of radius, the other way.
    near(found.rounding.string, -0.025 * inch, 1e-12);
    near(found.rounding.apex / found.rounding.string, -2.1, 0.05);
    // Too tight for the width: no inside string.
    assert_eq!(bend(2.0, 1.0, 2.0, Graduation::Millimetre).inner, None);
}

#[test]
fn how_well_a_string_can_be_swung() {
    let swing = |radius: f64, tape: f64| {
        // A quarter turn, 1.2 m wide: the outer string is 0.6 m longer.
        let chord = radius * 2.0_f64.sqrt();
        let rise = radius * (1.0 - 0.5_f64.sqrt());
        let mut plan = plan(&[(0., 0.), (chord, 0.)], vec![Shape::bend(rise)]);
        plan.tape.length = tape;
        out(&plan).bends[0].swing
    };
    assert_eq!(swing(9.3, 30.0), SwingVerdict::Workable);
    assert_eq!(swing(9.5, 30.0), SwingVerdict::Awkward);
    assert_eq!(swing(14.3, 30.0), SwingVerdict::Awkward);
    assert_eq!(swing(14.5, 30.0), SwingVerdict::NotWorkable);
    // No tape swings farther than it is long.
    assert_eq!(swing(11.0, 10.0), SwingVerdict::NotWorkable);
    assert_eq!(swing(5.0, 5.5), SwingVerdict::NotWorkable);
    assert_eq!(swing(4.8, 5.5), SwingVerdict::Workable);
}

#[test]
fn checks_have_room_and_never_read_below_nothing() {
    for (chord, rise) in [
        (4.0, 0.7),
        (4.0, 0.003),
        (4.0, 2.0),
        (4.0, 3.7),
        (40.0, 0.02),
    ] {
        for graduation in Graduation::ALL {
            let found = bend(chord, rise, 1.2, graduation);
            assert_eq!(found.checks.len(), 5);
            for check in &found.checks {
                assert!(check.from >= 0.0, "{check:?}");
                assert_eq!(check.verdict(check.must_read), Verdict::Fine, "{check:?}");
                let tape = graduation.round(check.must_read);
                assert_eq!(check.verdict(tape), Verdict::Fine, "{check:?}");
                let room = taping_allowance(check.must_read).max(graduation.metres());
                let far = check.must_read + room + graduation.metres();
                assert_eq!(check.verdict(far), Verdict::LookAgain, "{check:?}");
            }
            // Peg, apex and peg make a triangle with the chord and the rise.
            let [straight, square, side, other, _] = &found.checks[..] else {
                panic!()
            };
            let half = 0.5 * straight.must_read;
            near(half.hypot(square.must_read), side.must_read, 1e-12);
            near(side.must_read, other.must_read, 1e-15);
        }
    }
}

fn size() -> impl Strategy<Value = (f64, f64)> {
    let share = prop_oneof![1e-6..0.01_f64, 0.01..0.5_f64, 0.5..4.0_f64, Just(0.5)];
    (0.3..60.0_f64, share).prop_map(|(chord, share)| (chord, chord * share))
}

fn graduation() -> impl Strategy<Value = Graduation> {
    prop::sample::select(Graduation::ALL.to_vec())
}

proptest! {
    /// Each mark of the offset tables lies on the line it is for.
    #[test]
    fn marks_set_by_offsets_lie_on_the_lines(
        (chord, rise) in size(), width in 0.1..2.0_f64, graduation in graduation(),
    ) {
        let found = bend(chord, rise, width, graduation);
        let radius = found.radius.exact;
        let half_circle = found.bend.is_half_circle_or_more();
        prop_assert_eq!(found.offsets.len(), if half_circle { 2 } else { 1 });
        for table in &found.offsets {
            let bend = if half_circle { found.bend.half() } else { found.bend };
            prop_assert!((table.chord.exact - bend.chord()).abs() < 1e-12 * bend.chord());
            prop_assert!(table.rows.len() >= 3 && table.rows.len() < 34);
            prop_assert!(table.rows.is_sorted_by(|a, b| a.along.exact < b.along.exact));
            let arc = Arc::from_rise(Point::ORIGIN, Point::new(bend.chord(), 0.0), bend.rise()).unwrap();
            let from_swing = |along: f64, off: f64| Point::new(along, off).distance(arc.centre());
            for row in &table.rows {
                // Where the tape reads past the last peg the mark is set at the peg.
                let on_chord = row.along.exact <= bend.chord();
                let along = if on_chord { row.along.tape.min(bend.chord()) } else { row.along.tape };
                // A flat bend's swing point lies far off: so many digits are left of it.
                let digits = 1e-9 + 1e-13 * radius;
                if let Some(centre) = row.centre {
                    prop_assert!((from_swing(along, centre.exact) - radius).abs() < digits);
                }
                for (edge, out) in [(row.inner, -0.5 * width), (row.outer, 0.5 * width)] {
                    if let Some(edge) = edge {
                        // The last mark of an edge near a half circle is rounded past its widest.
                        let past = ((along - 0.5 * bend.chord()).abs() - radius - out).max(0.0);
                        prop_assert!(past <= 0.5 * graduation.metres() + 1e-9);
                        prop_assert!((from_swing(along, edge.exact) - radius - out).abs() < digits + past);
                        // What lies a nanometre below a half is rounded as the half it was meant to be.
                        prop_assert!((edge.exact - edge.tape).abs() <= 0.5 * graduation.metres() + 1.001e-9);
                    }
                }
            }
            // The centre line from peg to peg, the middle among them; each edge from one of its ends,
            // on the string to an end peg, to the other.
            let half = 0.5 * bend.chord();
            for (out, marks) in [
                (0.0, table.rows.iter().map(|row| (row.along.exact, row.centre)).collect::<Vec<_>>()),
                (-0.5 * width, table.rows.iter().map(|row| (row.along.exact, row.inner)).collect()),
                (0.5 * width, table.rows.iter().map(|row| (row.along.exact, row.outer)).collect()),
            ] {
                let reach = half * (1.0 + out / bend.radius());
                let marked: Vec<f64> = marks.iter().filter(|m| m.1.is_some()).map(|m| m.0).collect();
                let (Some(first), Some(last)) = (marked.first(), marked.last()) else {
                    prop_assert!(reach <= 0.0);
                    continue;
                };
                let near = graduation.metres() + 1e-9;
                prop_assert!((first - half + reach).abs() <= near, "{first} {half} {reach}");
                prop_assert!((last - half - reach).abs() <= near);
            }
            let middle = |row: &plan::setout::OffsetRow| (row.along.exact - 0.5 * bend.chord()).abs() < 1e-9;
            prop_assert!(table.rows.iter().any(middle));
        }
    }

    /// What rounding does, against the bend through both pegs with the string as the tape reads it.
    #[test]
    fn rounding_the_string_moves_the_apex(
        (chord, rise) in size(), graduation in graduation(),
    ) {
        let found = bend(chord, rise, 0.1, graduation);
        let string = found.radius.tape;
        prop_assert!((found.rounding.string - (string - found.radius.exact)).abs() < 1e-12);
        prop_assume!(2.0 * string > chord * (1.0 + 1e-9));
        let (pegs, swing_side) = ([Point::ORIGIN, Point::new(chord, 0.0)], -1.0_f64);
        let apothem = (string * string - 0.25 * chord * chord).sqrt();
        let behind = if found.apothem.exact < 0.0 { -apothem } else { apothem };
        let swing = Point::new(0.5 * chord, swing_side * behind);
        let Ok(struck) = Arc::about(swing, pegs[0], pegs[1], false) else {
            return Ok(()); // flatter than coordinates of its swing point can say
        };
        prop_assert!((struck.radius() / string - 1.0).abs() < 1e-9);
        // So many digits the far swing point of a flat bend leaves of the struck rise.
        let digits = 1e-9 + 1e-12 * string * string / chord;
        prop_assert!((found.rounding.apex - (struck.rise() - rise)).abs() < digits);
        let moved = behind - found.apothem.exact;
        prop_assert!((found.rounding.swing_point - moved).abs() < digits);
    }

    /// Two scratches of the length given cross, whichever way the pulls are out by the allowance.
    #[test]
    fn the_scratches_cross((chord, rise) in size(), signs in prop::array::uniform2(any::<bool>())) {
        let found = bend(chord, rise, 0.1, Graduation::Millimetre);
        let radius = found.radius.exact;
        if found.squares_off() || found.scratch > 0.999 {
            return Ok(());
        }
        let room = taping_allowance(radius);
        let pulls = signs.map(|long| radius + if long { room } else { -room });
        let along = (chord * chord + pulls[0] * pulls[0] - pulls[1] * pulls[1]) / (2.0 * chord);
        let square = pulls[0] * pulls[0] - along * along;
        prop_assert!(square > 0.0);
        let behind = square.sqrt().copysign(found.apothem.exact);
        let crossing = Point::new(along, -behind);
        let meant = Point::new(0.5 * chord, -found.apothem.exact);
        prop_assert!(crossing.distance(meant) <= 0.5 * found.scratch, "{crossing:?} {meant:?} {}", found.scratch);
    }
}

#[test]
fn both_systems_have_round_steps() {
    let steps = |graduation: Graduation| -> Vec<f64> {
        let rows = &bend(6.0, 0.8, 1.2, graduation).offsets[0].rows;
        // From the first peg on, without the rows where the inside edge begins and ends.
        let on_chord: Vec<f64> = rows
            .iter()
            .filter(|row| row.centre.is_some())
            .map(|row| row.along.exact)
            .filter(|along| (along / 0.5).fract() == 0.0 || (along / 0.6096).fract() < 1e-9)
            .collect();
        on_chord.windows(2).map(|pair| pair[1] - pair[0]).collect()
    };
    near(steps(Graduation::FiveMillimetres)[0], 0.5, 1e-12);
    near(steps(Graduation::EighthInch)[0], 0.6096, 1e-12);
    assert_eq!(Graduation::EighthInch.units(), Units::FeetInches);
}
