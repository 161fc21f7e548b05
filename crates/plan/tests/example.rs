//! The built-in example opens, can be built as drawn, and has the figures its drawing says.

use std::f64::consts::PI;

use geometry::Chain;
use plan::finding::{Code, Finding, Severity};
use plan::{example, file};

#[test]
fn written_once_it_keeps_its_bytes() {
    let plan = example::plan().unwrap();
    let text = file::write(&plan);
    let again = file::read(text.as_bytes()).unwrap();
    assert_eq!(again, plan);
    assert_eq!(file::write(&again), text);
    assert_eq!(text, example::TEXT, "the file shipped is the file written");
}

#[test]
fn what_its_options_have_to_put_right() {
    let solved = example::plan().unwrap().solve();
    let to_put_right = |letter: &str| -> Vec<(Severity, Code)> {
        let of_option = |f: &&Finding| f.place.to_string().starts_with(&format!("option {letter}"));
        let findings = solved.findings.iter().filter(of_option);
        let matter = findings.filter(|f| f.severity != Severity::Note);
        let mut all: Vec<_> = matter.map(|f| (f.severity, f.code)).collect();
        all.sort_by_key(|(_, code)| code.name());
        all
    };
    assert_eq!(to_put_right("A"), []);
    // The broad sweep passes the northern tree closely.
    let close = [
        (Severity::Care, Code::OverRoots),
        (Severity::Care, Code::TooNear),
    ];
    assert_eq!(to_put_right("B"), close);
    // Bend after bend from a given start ends as it will: out of square to the shed, into which a
    // corner of the path runs.
    let askew = [
        (Severity::Care, Code::DirectionMissed),
        (Severity::Care, Code::RunsInto),
    ];
    assert_eq!(to_put_right("C"), askew);
}

#[test]
fn the_lengths_of_its_options() {
    let solved = example::plan().unwrap().solve();
    // A: straights of 3 m, a quarter circle of 4 m, two equal bends between lines 2.4 m apart and
    // 6 m along (R = (x² + y²) / 4y = 4.35 m).
    let two_bends = 2.0 * 4.35 * (6.0 / 8.7_f64).asin();
    // B: 9.4 m and 16 m with the corner rounded by 7.5 m.
    for (letter, expected) in [
        ("A", 3.0 * 3.0 + 2.0 * PI + two_bends),
        ("B", 9.4 + 16.0 - 15.0 + 3.75 * PI),
    ] {
        let option = solved.schemes.iter().find(|s| s.letter == letter).unwrap();
        let length = option.routes[0]
            .centre_line
            .as_ref()
            .map_or(0.0, Chain::length);
        assert!(
            (length - expected).abs() < 1e-9,
            "{letter}: {length} for {expected}"
        );
        // Smooth all the way: area is width times centre line.
        assert!((option.routes[0].area - 1.2 * expected).abs() < 1e-6);
    }
}
