//! Laws of budgets: what is known is carried out, one string is one error, courses follow each other.

use plan::budget::{Budget, Call, CheckError, Swung, Taping, Thresholds};
use plan::setout::{Course, Deed, Doing, Method, PathLine, Reading, Spot, Taped};
use plan::units::Graduation;

use super::{METHODS, job, taping};

fn courses(graduation: Graduation) -> Vec<(String, Course)> {
    let mut courses = Vec::new();
    for (chord, rise) in [(6.0, 0.8), (8.0, 2.6), (4.0, 2.7)] {
        let job = job(chord, rise, graduation);
        for method in METHODS {
            if let Ok(course) = job.course(method) {
                courses.push((format!("{method:?} {chord} by {rise}"), course));
            }
        }
    }
    courses
}

/// The shift is to first order where the rounded figures put each spot.
#[test]
fn what_rounding_does_is_what_carrying_out_does() {
    let graduation = Graduation::Millimetre;
    for (what, course) in courses(graduation) {
        let budget = Budget::of(&course, &taping(graduation));
        let (stand, _) = course
            .carried_out(|deed| deed.figures().iter().map(|taped| taped.tape).collect())
            .unwrap();
        for set in stand.iter() {
            let moved = set.at - course.spots.at(set.spot).unwrap();
            let told = budget.spots[&set.spot].shift;
            // What is left is of second order, by curvatures up to those of tapes a quarter of a
            // metre long, as the shortest chords here are pulled in by.
            let room = 1e-6 + 8.0 * moved.length().powi(2);
            assert!(
                (moved - told).length() < room,
                "{what}, {}: {moved:?}, told {told:?}",
                course.spots.name(set.spot)
            );
        }
    }
}

/// With both strings and the strike long by the share `e`, `S` goes `eR²/d` off along the apothem `d`
/// and the radius grows by `eR`: nothing at the pegs, `eR(R/d − 1)` inwards at the apex.
#[test]
fn one_stretched_string_goes_through_the_pegs() {
    let job = job(6.0, 0.8, Graduation::Millimetre);
    let course = job.course(Method::Swing).unwrap();
    let stretched = Taping {
        swung: Swung::String,
        pegs: 0.0,
        pointing: 0.0,
        per_metre: 0.0,
        ..taping(Graduation::Millimetre)
    };
    let unstretched = Taping {
        swung: Swung::Tape,
        ..stretched
    };
    let of = |taping: &Taping| {
        let line = Budget::of(&course, taping).lines[0].clone();
        assert_eq!(line.line, PathLine::Centre);
        let at = |nth: usize| line.stations[nth].deviation.powi(2);
        let middle = line.stations.len() / 2;
        [0, middle].map(at)
    };
    let ([peg, apex], [peg_before, apex_before]) = (of(&stretched), of(&unstretched));
    let (radius, apothem) = (6.025, 5.225); // R = c²/8h + h/2, d = R − h
    let expected = 0.005 * radius * (radius / apothem - 1.0);
    assert!((peg - peg_before).abs() < 1e-12);
    assert!(((apex - apex_before).sqrt() - expected).abs() < 1e-9);
}

/// The tape's own error is one: at a check pulled with the tape that set it out nothing of it is seen.
#[test]
fn a_long_tape_is_not_seen_by_itself() {
    let job = job(6.0, 0.8, Graduation::Millimetre);
    let mut course = job.course(Method::SwingSquaredOff).unwrap();
    let (middle, [first, last]) = (Spot::Aim { bend: 1, nth: 1 }, job.ends());
    let half = Taped::new(3.0, &job.ruler);
    let along = Doing::Along {
        from: first,
        to: last,
        at: half,
    };
    let read = Reading::new(middle, last, 3.0, &job.ruler);
    course
        .deeds
        .insert(1, Deed::making(middle, along).checked([read]));
    course
        .spots
        .put(middle, job.arc.start().middle(job.arc.end()));
    let taping = taping(Graduation::Millimetre);
    let truer = Taping {
        class: taping.class.better()[1],
        ..taping
    };
    let [budget, with_truer] = [taping, truer].map(|taping| Budget::of(&course, &taping));
    // The middle of the chord is half way along it, and its check is the other half: deed 1.
    let of_middle = |budget: &Budget| {
        let middle = budget.checks.iter().find(|check| check.deed == 1);
        middle.unwrap().deviation
    };
    let pegs = taping.pegs.powi(2) * 2.0;
    let pulls = 2.0 * taping.random(3.0).powi(2);
    let double = (2.0 * taping.class.deviation(3.0)).powi(2);
    assert!((of_middle(&budget).powi(2) - pegs - pulls - double).abs() < 1e-12);
    assert!(of_middle(&with_truer) < of_middle(&budget));
    // From the nail to the apex over the squared-off way: the tape is long at all three pulls alike.
    assert!(with_truer.line_within() < budget.line_within());
}

/// Cut anywhere, a course errs as it does in one go.
#[test]
fn courses_follow_each_other() {
    let taping = taping(Graduation::Millimetre);
    for (what, course) in courses(Graduation::Millimetre) {
        let whole = Budget::of(&course, &taping);
        let cut = course.deeds.len() / 2;
        let part = |deeds: &[Deed], given: Vec<Spot>| Course {
            deeds: deeds.to_vec(),
            given,
            ..course.clone()
        };
        let first = part(&course.deeds[..cut], course.given.clone());
        let made = first.deeds.iter().filter_map(|deed| deed.makes);
        let stand: Vec<_> = first.given.iter().copied().chain(made).collect();
        let second = part(&course.deeds[cut..], stand);
        let after = Budget::of(&first, &taping).then(&second, &taping);
        assert_eq!(after.spots.len(), whole.spots.len());
        for (spot, error) in &after.spots {
            assert!(
                (error.place() - whole.spots[spot].place()).abs() < 1e-12,
                "{what}"
            );
        }
        let late = whole.checks.iter().filter(|check| check.deed >= cut);
        for (one, other) in after.checks.iter().zip(late) {
            assert!((one.deviation - other.deviation).abs() < 1e-12, "{what}");
        }
    }
}

/// However many checks there are, each has at least the room it would have alone, and never more
/// than if all were independent.
#[test]
fn another_check_never_narrows() {
    let taping = taping(Graduation::Millimetre);
    for (what, course) in courses(Graduation::Millimetre) {
        let checks = Budget::of(&course, &taping).checks;
        let all: Vec<&CheckError> = checks.iter().collect();
        let alone = Thresholds::over(&all[..1]);
        // Source: the normal distribution's two-sided 95 and 99.9 %; from memory.
        assert!((alone.fine - 1.960).abs() < 1e-3 && (alone.stop - 3.291).abs() < 1e-3);
        let mut before = alone;
        for count in 2..=all.len() {
            let now = Thresholds::over(&all[..count]);
            // The common factor is found to a hundredth, thresholds to a few thousandths.
            assert!(now.fine >= before.fine - 0.02, "{what}, {count}");
            assert!(now.fine >= alone.fine && now.stop >= alone.stop, "{what}");
            assert!(now.fine < now.stop);
            before = now;
        }
    }
}

/// The same check read twice is one check, but for reading it.
#[test]
fn one_check_twice_is_hardly_more_than_one() {
    let rough = Taping {
        pegs: 0.5,
        ..taping(Graduation::Millimetre)
    };
    let course = job(6.0, 0.8, Graduation::Millimetre)
        .course(Method::Swing)
        .unwrap();
    let checks = Budget::of(&course, &rough).checks;
    let twice = Thresholds::over(&[&checks[0]; 8]);
    // Eight independent ones would want 2.73 (Šidák).
    assert!(1.96 <= twice.fine && twice.fine < 2.4, "{twice:?}");
}

#[test]
fn what_checks_must_read_is_told_in_the_course() {
    for graduation in [Graduation::Millimetre, Graduation::TenMillimetres] {
        let taping = taping(graduation);
        for (what, course) in courses(graduation) {
            let budget = Budget::of(&course, &taping);
            let told = budget.told(&course, &budget.thresholds(), &taping.ruler);
            for check in &budget.checks {
                let reading = &told.deeds[check.deed].checks[check.nth];
                let [least, most] = check.range(budget.thresholds().fine);
                let step = graduation.metres();
                assert!(
                    reading.least <= least + 1e-12 && least - step < reading.least,
                    "{what}"
                );
                assert!(
                    most - 1e-12 <= reading.most && reading.most < most + step,
                    "{what}"
                );
                assert_eq!(
                    reading.taped,
                    course.deeds[check.deed].checks[check.nth].taped
                );
                let call = |reading: f64| check.call(reading, &budget.thresholds());
                assert_eq!(call(check.expected), Call::Fine);
                let out = |factor: f64| check.expected + factor * check.deviation;
                let thresholds = budget.thresholds();
                assert_eq!(call(out(-0.99 * thresholds.fine)), Call::Fine);
                assert_eq!(call(out(1.01 * thresholds.fine)), Call::LookAgain);
                assert_eq!(call(out(-1.01 * thresholds.stop)), Call::Stop);
            }
        }
    }
}
