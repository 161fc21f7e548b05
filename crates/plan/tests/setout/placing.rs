//! Pegs and swing points from the base line: found by two figures, checked by two ties.

use geometry::{Direction, Point};
use plan::document::{Mark, Shape};
use plan::setout::{BaseLine, Placing};
use plan::units::{Graduation, Units};
use plan::{Plan, example};
use proptest::prelude::*;

use super::common::plan;
use super::{near, out};

/// Where a person ends up who goes `along` the line and `off` it, left positive.
fn walked(base: &BaseLine, along: f64, off: f64) -> Point {
    let way = Direction::of(base.to - base.from).unwrap_or(Direction::EAST);
    base.from + way.unit() * along + way.left().unit() * off
}

/// The two places that lie this far from both ends of the line.
fn taped(base: &BaseLine, from_start: f64, from_end: f64) -> [Point; 2] {
    let length = base.from.distance(base.to);
    let along = (length * length + from_start * from_start - from_end * from_end) / (2.0 * length);
    let off = (from_start * from_start - along * along).max(0.0).sqrt();
    [walked(base, along, off), walked(base, along, -off)]
}

/// Both ways lead to the point, and what the tape reads is within half a division.
fn look_at(base: &BaseLine, placing: &Placing, division: f64) -> Result<(), TestCaseError> {
    // The swing point of a flat bend lies far off: so many digits are left of it.
    let far = placing.from_start.exact;
    let found = walked(base, placing.along.exact, placing.off.exact);
    prop_assert!(
        found.distance(placing.at) < 1e-9 + 1e-13 * far,
        "{placing:?}"
    );
    let ties = taped(base, placing.from_start.exact, placing.from_end.exact);
    let nearer = ties[0]
        .distance(placing.at)
        .min(ties[1].distance(placing.at));
    // Near the base line the ties cross flat: a rounding of 1e-14 there is 1e-7 across.
    prop_assert!(nearer < 1e-5 + 1e-6 * far, "{placing:?}");
    for figure in [
        placing.along,
        placing.off,
        placing.from_start,
        placing.from_end,
    ] {
        prop_assert!((figure.exact - figure.tape).abs() <= 0.5 * division + 1e-12 * (1.0 + far));
        let divisions = figure.tape / division;
        prop_assert!(
            (divisions - divisions.round()).abs() < 1e-6 + 1e-9 * far,
            "{figure:?}"
        );
    }
    let by_tape = walked(base, placing.along.tape, placing.off.tape);
    prop_assert!(by_tape.distance(placing.at) <= division * 0.5_f64.sqrt() + 1e-9 + 1e-12 * far);
    Ok(())
}

fn measured(graduation: Graduation, marks: &[(f64, f64)], plan: Plan) -> Plan {
    let mut plan = Plan {
        units: graduation.units(),
        graduation,
        ..plan
    };
    for (i, (x, y)) in marks.iter().enumerate() {
        plan.site_mut().marks.push(Mark {
            name: format!("mark {i}"),
            at: Point::new(*x, *y),
        });
    }
    plan
}

proptest! {
    #[test]
    fn every_peg_and_swing_point_is_rebuilt(
        ends in prop::collection::vec((-15.0..15.0_f64, -15.0..15.0_f64), 2..6),
        rises in prop::collection::vec(-4.0..4.0_f64, 5),
        marks in prop::collection::vec((-20.0..20.0_f64, -20.0..20.0_f64), 0..4),
        graduation in prop::sample::select(Graduation::ALL.to_vec()),
    ) {
        let legs = rises.iter().take(ends.len() - 1).map(|r| Shape::bend(*r)).collect();
        let plan = measured(graduation, &marks, plan(&ends, legs));
        let out = out(&plan);
        for placing in out.pegs.iter().chain(&out.swing_points) {
            look_at(&out.base, placing, graduation.metres())?;
        }
        // The pegs are the waypoints, in walking order, numbered from 1.
        prop_assert_eq!(out.pegs.len(), ends.len());
        for (i, (placing, (x, y))) in out.pegs.iter().zip(&ends).enumerate() {
            prop_assert_eq!(&placing.name, &format!("peg {}", i + 1));
            prop_assert!(placing.at.distance(Point::new(*x, *y)) < 1e-12);
        }
        // A swing point is as far as the string from both pegs of its bend.
        let reached = out.bends.iter().filter(|bend| bend.radius.exact <= plan.tape.length);
        for (bend, swing) in reached.zip(&out.swing_points) {
            for number in [bend.pegs.0, bend.pegs.1] {
                let string = out.pegs[number - 1].at.distance(swing.at);
                prop_assert!((string / bend.radius.exact - 1.0).abs() < 1e-9);
            }
            prop_assert_eq!(&swing.name, &format!("S{}", bend.number));
        }
    }
}

#[test]
fn the_longest_line_between_two_marks_is_the_base() {
    let path = plan(&[(0., 0.), (4., 1.)], vec![Shape::Straight]);
    let marks = [(0., 5.), (1., 5.), (12., 5.), (3., 9.)];
    let base = out(&measured(Graduation::Millimetre, &marks, path.clone())).base;
    assert_eq!(
        (base.from_name.as_str(), base.to_name.as_str()),
        ("mark 0", "mark 2")
    );
    near(base.length.exact, 12.0, 1e-12);
    // Without two marks apart: from the first peg to the farthest.
    for marks in [&[][..], &[(3., 3.)], &[(3., 3.), (3., 3.)]] {
        let base = out(&measured(Graduation::Millimetre, marks, path.clone())).base;
        assert_eq!(
            (base.from_name.as_str(), base.to_name.as_str()),
            ("peg 1", "peg 2")
        );
    }
}

#[test]
fn left_of_the_base_line_is_positive() {
    let path = plan(&[(1., 6.), (2., 3.)], vec![Shape::Straight]);
    let out = out(&measured(
        Graduation::Millimetre,
        &[(0., 5.), (10., 5.)],
        path,
    ));
    let figures: Vec<[f64; 2]> = out
        .pegs
        .iter()
        .map(|p| [p.along.tape, p.off.tape])
        .collect();
    assert_eq!(figures, [[1.0, 1.0], [2.0, -2.0]]);
}

#[test]
fn what_to_bring() {
    let example = example::plan().unwrap();
    let out = out(&example);
    let tools = out.tools;
    assert_eq!((tools.pegs, tools.swing_pegs), (7, 3));
    let flags: usize = out
        .bends
        .iter()
        .flat_map(|bend| &bend.offsets)
        .flat_map(|table| &table.rows)
        .map(|row| 1 + usize::from(row.inner.is_some()) + usize::from(row.outer.is_some()))
        .sum();
    assert_eq!(tools.flags, flags);
    // The tape must reach along the base line, off it, and to both ends of it for the ties.
    let pulls = out
        .pegs
        .iter()
        .flat_map(|p| [p.along, p.off, p.from_start, p.from_end]);
    let longest = pulls.map(|pull| pull.tape.abs()).fold(0.0, f64::max);
    assert!(
        tools.longest_pull >= longest,
        "{} for {longest}",
        tools.longest_pull
    );
    let chord = out
        .bends
        .iter()
        .map(|bend| bend.chord.tape)
        .fold(0.0, f64::max);
    assert!(tools.string >= out.base.length.tape + chord);
}

#[test]
fn a_closed_path_counts_its_first_peg_once() {
    let ring = plan(&[(-3., 0.), (3., 0.)], vec![Shape::bend(3.0); 2]);
    let out = out(&ring);
    assert_eq!(out.pegs.len(), 2);
    assert_eq!(out.bends[1].pegs, (2, 1));
    assert!(Units::ALL.len() == 2 && out.straights.is_empty());
}

#[test]
fn straights_and_their_corners() {
    let path = plan(
        &[(0., 0.), (4., 0.), (4., 3.), (7., 3.)],
        vec![Shape::Straight; 3],
    );
    let out = out(&path);
    let corners: Vec<f64> = out.straights.iter().map(|s| s.corner).collect();
    let right_angle = std::f64::consts::FRAC_PI_2;
    for (corner, expected) in corners.iter().zip([right_angle, -right_angle, 0.0]) {
        near(*corner, expected, 1e-12);
    }
    let words = plan::setout::Voice {
        ruler: path.ruler(),
        both: false,
    };
    assert_eq!(out.straights[1].words(&words), "peg 2 to peg 3: 3.000 m");
}
