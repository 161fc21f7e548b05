//! What is true of every course, whatever the bend.

use geometry::{Arc, Point};
use plan::setout::methods::{NotHere, straight};
use plan::setout::{Course, Deed, Doing, Method, Part, PathLine, Spot};
use proptest::prelude::*;

use super::{bend, job, straight_job};

pub(super) const METHODS: [Method; 9] = [
    Method::Swing,
    Method::SwingSquaredOff,
    Method::ChordOffsets,
    Method::Ties,
    Method::Halving,
    Method::TangentOffsets,
    Method::Deflections,
    Method::SuccessiveChords,
    Method::Battens,
];

pub(super) fn exact(deed: &Deed) -> Vec<f64> {
    deed.figures().iter().map(|figure| figure.exact).collect()
}

/// The lines on which a spot belongs: its own distance outside the centre line.
fn outside(spot: Spot, width: f64) -> Option<f64> {
    match spot {
        Spot::Apex(_) => Some(0.0),
        Spot::Flag {
            of: Part::Bend(_),
            line,
            ..
        } => Some(line.outside(width)),
        _ => None,
    }
}

fn any_bend() -> impl Strategy<Value = Arc> {
    (
        -50.0..50.0,
        -50.0..50.0,
        2.0..12.0,
        0.0..6.3,
        0.02..0.9,
        any::<bool>(),
    )
        .prop_map(
            |(x, y, chord, way, rise, left): (f64, f64, f64, f64, f64, bool)| {
                let start = Point::new(x, y);
                let end = Point::new(x + chord * way.cos(), y + chord * way.sin());
                let rise = chord * rise;
                Arc::from_rise(start, end, if left { rise } else { -rise }).unwrap()
            },
        )
}

/// Every course that can be written for a bend.
fn courses(arc: Arc) -> Vec<Course> {
    let job = job(arc);
    METHODS
        .into_iter()
        .filter_map(|method| job.course(method).ok())
        .collect()
}

proptest! {
    #[test]
    fn no_deed_uses_a_spot_not_set_before_it(arc in any_bend()) {
        for course in courses(arc) {
            prop_assert_eq!(course.out_of_order(), None, "{:?}", course.method);
        }
    }

    #[test]
    fn exact_readings_rebuild_every_spot_and_line(arc in any_bend()) {
        for course in courses(arc) {
            let (stand, lines) = course.carried_out(exact).unwrap();
            for set in course.spots.iter() {
                let off = stand.at(set.spot).unwrap().distance(set.at);
                prop_assert!(off < 1e-9, "{:?} {:?} {off:e}", course.method, set.spot);
            }
            for (line, struck) in lines {
                let outside = line.outside(1.2);
                for at in [0.0, 0.3, 0.5, 1.0].map(|share| struck.point_at(share * struck.length())) {
                    prop_assert!((arc.outside(at) - outside).abs() < 1e-9);
                }
            }
        }
    }

    #[test]
    fn every_flag_stands_on_its_line(arc in any_bend()) {
        for course in courses(arc) {
            for set in course.spots.iter() {
                if let Some(outside) = outside(set.spot, 1.2) {
                    let off = arc.outside(set.at) - outside;
                    prop_assert!(off.abs() < 1e-9, "{:?} {:?} {off:e}", course.method, set.spot);
                }
            }
        }
    }

    #[test]
    fn every_spot_made_is_made_once_and_checks_read_what_the_plan_has(arc in any_bend()) {
        for course in courses(arc) {
            let mut made = course.given.clone();
            for deed in &course.deeds {
                if let Some(spot) = deed.makes {
                    prop_assert!(!made.contains(&spot), "{:?} {spot:?}", course.method);
                    made.push(spot);
                }
                for check in &deed.checks {
                    let read = check.read(&course.spots).unwrap();
                    prop_assert!((read - check.taped.exact).abs() < 1e-9);
                    prop_assert!(check.least <= read && read <= check.most);
                }
            }
        }
    }
}

#[test]
fn half_a_circle_has_no_two_strings_but_a_square() {
    let job = job(bend(4.0, 2.0));
    let course = job.course(Method::Swing);
    assert!(matches!(course, Err(NotHere::StringsInOneLine { .. })));
    let course = job.course(Method::SwingSquaredOff).unwrap();
    assert_eq!(course.spots.at(Spot::Swing(1)), Some(Point::new(2.0, 0.0)));
}

#[test]
fn a_bend_too_tight_for_its_width_has_no_inside_edge() {
    for course in courses(bend(1.0, 0.45)) {
        assert!(!course.lines.contains(&PathLine::Inside));
        assert!(course.foreman.is_none());
    }
}

/// Common practice, no source: whatever the radius, the outside edge is longer than the inside by
/// the width times the angle turned; half a circle of a path 1.2 m wide gives 3.770 m.
#[test]
fn the_foreman_checks_the_edges_against_each_other() {
    let course = job(bend(4.0, 2.0)).course(Method::ChordOffsets).unwrap();
    let foreman = course.foreman.unwrap();
    assert!((foreman.edges_differ.tape - 3.770).abs() < 1e-12);
    assert!((foreman.area - 1.2 * 2.0 * std::f64::consts::PI).abs() < 1e-12);
}

/// Straights: every flag on its line, every spot rebuilt.
#[test]
fn straights_run_from_one_zero() {
    let job = straight_job(Point::new(8.0, 6.0));
    let course = straight::course(&job);
    assert_eq!(course.out_of_order(), None);
    let (stand, _) = course.carried_out(exact).unwrap();
    for set in course.spots.iter() {
        assert!(stand.at(set.spot).unwrap().distance(set.at) < 1e-9);
    }
    let flag = |line, nth| Spot::Flag {
        of: Part::Straight(1),
        line,
        nth,
    };
    // 8 east and 6 north: 10 m, and half a metre to the left of its end.
    let corner = stand.at(flag(PathLine::Left, 4)).unwrap();
    assert!(corner.distance(Point::new(7.7, 6.4)) < 1e-9);
    let running: Vec<f64> = course
        .deeds
        .iter()
        .filter_map(|deed| match deed.does {
            Doing::Along {
                from: Spot::Peg(1),
                at,
                ..
            } => Some(at.tape),
            _ => None,
        })
        .collect();
    assert_eq!(running, [3.0, 6.0, 9.0]);
}
