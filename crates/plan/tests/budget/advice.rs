//! What the budget advises: what would help, and what no check would show.

use plan::budget::{Budget, Remedy, Swung, Taping, blunder, changes, cheapest};
use plan::document::Surface;
use plan::setout::{Course, Doing, Method, Spot, Voice};
use plan::units::{Graduation, Units};

use super::hands::Hands;
use super::told::{Names, Told, told};
use super::{METHODS, job, ruler, taping};

const VOICE: Voice = Voice {
    ruler: plan::units::Ruler {
        units: Units::Metric,
        graduation: Graduation::Millimetre,
    },
    both: false,
};

/// Done by the printed words by hands that never err but once, a listed blunder leaves every check
/// fine, and one that is not listed does not, or moves no flag to speak of.
#[test]
fn blunders_are_unseen_by_hands_that_make_them() {
    let by = blunder(Units::Metric);
    let taping = taping(Graduation::Millimetre);
    let job = job(8.0, 2.6, Graduation::Millimetre);
    for method in METHODS {
        let course = job.course(method).unwrap();
        let budget = Budget::of(&course, &taping);
        let unseen = budget.unseen(&course, by);
        let mut names = Names::default();
        let steps = told(&course, job.ruler, &mut names);
        let given = course.given.iter().map(|&spot| {
            let at = course.spots.at(spot).unwrap();
            (names.place(&course.spots.name(spot)), (at.x, at.y), 0.0)
        });
        let given: Vec<_> = given.collect();
        let mut hands = Hands::new(&taping, 1);
        hands.errs = 0.0;
        let mut done = |steps: &[Told]| hands.job(steps, &given, names.0.len());
        let right = done(&steps);
        for (i, deed) in course.deeds.iter().enumerate() {
            for nth in 0..deed.figures().len() {
                let [more, less] = [by, -by].map(|by| {
                    let mut misread = steps.clone();
                    *misread[i].act.figure(nth) += by;
                    let wrong = done(&misread);
                    let read = right.readings.iter().zip(&wrong.readings);
                    let out = budget
                        .checks
                        .iter()
                        .zip(read)
                        .map(|(check, (right, wrong))| {
                            // A tape pulled where two no longer cross reads no number at all.
                            let out = (wrong - right).abs()
                                / (check.deviation * budget.thresholds().fine);
                            if out.is_nan() { f64::INFINITY } else { out }
                        });
                    out.fold(0.0, f64::max)
                });
                let listed = unseen.iter().any(|own| (own.deed, own.figure) == (i, nth));
                let seen = more.min(less);
                let what = format!("{method:?}, deed {i}, figure {nth}: {seen:.3}");
                // Printed figures are rounded to the millimetre, which is a few parts in a hundred
                // of a check's room.
                if listed {
                    assert!(seen < 1.05, "{what}");
                } else if seen < 0.95 {
                    let aims = matches!(deed.makes, Some(Spot::Aim { .. } | Spot::Flag { .. }));
                    // A struck line shows it by what must stand on it, which no reading tells.
                    let struck = matches!(deed.does, Doing::Strike { .. });
                    assert!(aims || struck, "{what}");
                }
            }
        }
    }
}

/// A misread radius puts a struck line beside the peg or flag that must stand on it; where nobody is
/// told to look, no check shows it.
#[test]
fn a_misread_radius_shows_by_what_stands_on_the_line() {
    let mut course = job(6.0, 0.8, Graduation::Millimetre)
        .course(Method::Swing)
        .unwrap();
    let unseen = |course: &Course| {
        let budget = Budget::of(course, &taping(Graduation::Millimetre));
        budget.unseen(course, blunder(Units::Metric))
    };
    let strikes =
        |course: &Course, place: usize| matches!(course.deeds[place].does, Doing::Strike { .. });
    assert!(
        unseen(&course)
            .iter()
            .all(|own| !strikes(&course, own.deed))
    );
    for deed in &mut course.deeds {
        deed.note = None;
    }
    let unseen = unseen(&course);
    let struck: Vec<_> = unseen
        .iter()
        .filter(|own| strikes(&course, own.deed))
        .collect();
    assert_eq!(struck.len(), 3);
    let words: Vec<String> = struck
        .iter()
        .map(|own| own.words(&course, &VOICE))
        .collect();
    assert!(
        words.iter().any(|words| words
            == "No check shows it if the 6.625 m that strikes the outside edge is misread by 100 mm, which puts the outside edge out by 100 mm: read it twice."),
        "{words:?}"
    );
    // The swing point is checked from both pegs and the apex, so a string misread is seen.
    let makes = |place: usize| course.deeds[place].makes;
    assert!(
        unseen
            .iter()
            .all(|own| makes(own.deed) != Some(Spot::Swing(1)))
    );
}

/// Tied from two spots on one side, flags are tied badly; a third spot on the other ties them well.
#[test]
fn a_better_pair_of_spots_is_found_and_is_better() {
    let job = job(6.0, 0.8, Graduation::Millimetre);
    let taping = taping(Graduation::Millimetre);
    let from = [Spot::Peg(2), Spot::Mark(0)];
    let course = plan::setout::methods::ties::course(&job, &from).unwrap();
    let found = changes(&job, &course, &taping);
    let tie = found[0];
    let Remedy::Tie {
        spot,
        from,
        instead_of,
    } = tie.remedy
    else {
        panic!("{found:?}");
    };
    assert_eq!(from, Spot::Peg(3));
    assert!([Spot::Peg(2), Spot::Mark(0)].contains(&instead_of));
    assert!(tie.after < 0.8 * tie.before, "{tie:?}");
    let name = course.spots.name(spot);
    let words = tie.words(&course.spots, &VOICE);
    assert!(
        words.starts_with(&format!("tie {name} from peg 3, not ")),
        "{words}"
    );
    // As told, the figures are the ellipse's of the spot before, with its shift.
    let error = Budget::of(&course, &taping).spots[&spot];
    let reach = error.shift.length() + error.ellipse().long;
    assert!((tie.before - reach).abs() < 1e-12);
}

#[test]
fn a_string_is_told_to_be_a_tape_and_a_tape_to_be_truer() {
    let job = job(8.0, 2.6, Graduation::Millimetre);
    let course = job.course(Method::Swing).unwrap();
    let string = Taping {
        swung: Swung::String,
        ..Taping::smooth(ruler(Graduation::Millimetre), 30.0)
    };
    let found = changes(&job, &course, &string);
    assert_eq!(found[0].remedy, Remedy::SwingTheTape);
    assert!(
        found[0]
            .words(&course.spots, &VOICE)
            .starts_with("swing the tape, not a string: ")
    );
    assert!(
        found
            .windows(2)
            .all(|pair| pair[0].before - pair[0].after >= 0.001)
    );
    let as_it_is = Budget::of(&course, &string).line_within();
    assert!(
        found
            .iter()
            .all(|change| (change.before - as_it_is).abs() < 1e-12)
    );
    // The cheapest that is enough, or the truest of all.
    for work in Surface::ALL {
        let best = cheapest(&found, work).unwrap();
        let enough = |lines: f64| lines <= work.tolerance();
        if enough(best.lines) {
            let place = found.iter().position(|change| change == best).unwrap();
            assert!(found[..place].iter().all(|change| !enough(change.lines)));
        } else {
            assert!(found.iter().all(|change| change.lines >= best.lines));
        }
    }
}

#[test]
fn the_line_is_judged_for_what_is_built() {
    let course = job(6.0, 0.8, Graduation::Millimetre)
        .course(Method::Swing)
        .unwrap();
    let budget = Budget::of(&course, &taping(Graduation::Millimetre));
    let verdicts = Surface::ALL.map(|work| budget.verdict(work));
    // Ten and more millimetres: as garden taping is, good enough for gravel and not for flags.
    let suits = verdicts.map(|verdict| verdict.suits());
    assert_eq!(suits, [true, true, false, false, false]);
    let millimetres = format!("{:.0} mm", 1000.0 * budget.line_within());
    assert_eq!(
        verdicts[4].words(&VOICE),
        format!("The line may be out {millimetres}: too much for flags, where 5 mm is forgiven")
    );
    let (_, worst) = budget.worst().unwrap();
    let all = budget.lines.iter().flat_map(|line| &line.stations);
    assert!(
        all.into_iter()
            .all(|station| station.within() <= worst.within())
    );
    for line in &budget.lines {
        assert!(line.typical() <= line.worst().unwrap().within());
    }
}
