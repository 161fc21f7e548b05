//! What the words say: every name and figure a deed needs, for two people and for one alone.

use plan::setout::{Allowances, Crew, Doing, Manner, Method, Voice};

use super::laws::METHODS;
use super::{bend, job};

pub(super) fn manner(crew: Crew, allowances: Allowances) -> Manner {
    Manner {
        voice: Voice {
            ruler: job(bend(6.0, 0.8)).ruler,
            both: false,
        },
        crew,
        allowances,
        tape: 30.0,
    }
}

#[test]
fn the_words_carry_every_name_and_figure() {
    for method in METHODS {
        for crew in [Crew::Two, Crew::Alone] {
            let job = job(bend(3.0, 0.8));
            let course = job.course(method).unwrap();
            let manner = manner(crew, Allowances::default());
            for deed in &course.deeds {
                let step = deed.words(&manner, &course.spots);
                let names = deed.uses().into_iter().chain(deed.makes);
                for name in names.map(|spot| course.spots.name(spot)) {
                    assert!(step.text.contains(&name), "{name}: {}", step.text);
                }
                for figure in deed.figures() {
                    let read = job.ruler.text(figure.tape.abs());
                    assert!(step.text.contains(&read), "{read}: {}", step.text);
                }
                assert_eq!(step.check.is_some(), !deed.checks.is_empty());
            }
        }
    }
}

#[test]
fn a_person_alone_holds_no_zero() {
    let course = job(bend(6.0, 2.0)).course(Method::Ties).unwrap();
    let manner = manner(Crew::Alone, Allowances::default());
    for deed in &course.deeds {
        let text = deed.words(&manner, &course.spots).text;
        assert!(!text.contains("Hold"), "{text}");
    }
}

#[test]
fn what_a_ring_takes_is_printed_where_it_acts() {
    let course = job(bend(4.0, 0.5)).course(Method::Swing).unwrap();
    let ring = Allowances {
        ring: 0.012,
        ..Allowances::default()
    };
    let strike = course
        .deeds
        .iter()
        .find(|deed| matches!(deed.does, Doing::Strike { .. }))
        .unwrap();
    // R = 4²/(8·0.5) + 0.5/2 = 4.25 m.
    let text = strike.words(&manner(Crew::Two, ring), &course.spots).text;
    assert!(text.contains("4.262 m, not 4.250 m"), "{text}");
}

#[test]
fn the_foreman_is_told_how_much_longer_the_outside_is() {
    let course = job(bend(4.0, 2.0)).course(Method::Halving).unwrap();
    let told = course
        .foreman
        .unwrap()
        .words(&manner(Crew::Two, Allowances::default()).voice);
    // Half a turn of a path 1.2 m wide.
    assert!(told.check.unwrap().contains("3.770 m longer"));
}
