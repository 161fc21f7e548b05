//! `pegbow bend`: published bends, every pair, and what is refused.

use super::*;

#[test]
fn published_bends() {
    // Tolerances: half a unit in the last published digit.
    let check = |given, figure: &str, expected: f64, tolerance: f64| {
        near(&solutions(given)[0][figure], expected, tolerance);
    };
    // Common practice, no source: chord 84 in, rise 30 in, radius 44.4 in.
    let pegs = [("chord", "84in"), ("rise", "30in")];
    check(pegs, "radius", 44.4 * INCH, 1e-12);
    // Source: Hatfield, The American House-Carpenter, article 518.
    let carpenter = [("radius", "75ft"), ("chord", "120ft")];
    check(carpenter, "rise", 30.0 * 12.0 * INCH, 1e-12);
    // Source: Besavilla, Surveying for Civil and Geodetic Licensure Exam, problem 1.
    let curve = [("sweep", "36"), ("radius", "190.99m")];
    check(curve, "external_distance", 9.83, 0.005);
    check(curve, "rise", 9.35, 0.005);
    // Source: Schofield and Breach, Engineering Surveying, 6th edition, chapter 10; from memory.
    let curve = [("radius", "200m"), ("sweep", "30deg")];
    check(curve, "tangent_length", 53.59, 0.005);
    check(curve, "arc_length", 104.72, 0.005);
}

#[test]
fn a_published_bend_in_words_is_on_the_tape_and_exact() {
    // Common practice, no source: chord 84 in, rise 30 in, radius 44.4 in.
    let text = done(&["bend", "--chord", "84in", "--rise", "30in"]);
    let line = |name: &str| text.lines().find(|line| line.starts_with(name)).unwrap();
    assert!(line("radius").contains("3' 8 3/8\""), "{text}");
    assert!(line("radius").contains("3' 8.400\""), "{text}");
    assert!(line("sweep").contains("142.15 deg"), "{text}");
    for name in [
        "arc length",
        "apothem",
        "tangent length",
        "external distance",
        "segment area",
    ] {
        assert!(line(name).len() > 40, "{text}");
    }
    assert!(text.is_ascii(), "{text}");
}

#[test]
fn both_bends_of_a_chord_and_a_radius() {
    let both = solutions([("chord", "4m"), ("radius", "2.5m")]);
    assert_eq!(both.len(), 2);
    near(&both[0]["rise"], 1.0, 1e-15);
    near(&both[1]["rise"], 4.0, 1e-15);
    assert!(both[0]["sweep"].as_f64() < both[1]["sweep"].as_f64());
    assert!(both[0]["tangent_length"].is_number());
    assert!(both[1]["tangent_length"].is_null());
    assert!(both[1]["external_distance"].is_null());
    let words = done(&["bend", "--chord", "4m", "--radius", "2.5m"]);
    assert!(
        words.contains("Two bends have this chord and this radius"),
        "{words}"
    );
    assert!(words.contains("Bend 2 of 2"), "{words}");
}

#[test]
fn any_two_of_the_eight_give_the_bend_back() {
    const FIGURES: [(&str, &str); 8] = [
        ("chord", "chord"),
        ("rise", "rise"),
        ("radius", "radius"),
        ("arc", "arc_length"),
        ("sweep", "sweep"),
        ("apothem", "apothem"),
        ("tangent", "tangent_length"),
        ("external", "external_distance"),
    ];
    let bend = &solutions([("chord", "4m"), ("rise", "70cm")])[0];
    let mut pairs = 0;
    for (i, first) in FIGURES.iter().enumerate() {
        for second in &FIGURES[i + 1..] {
            let text = |(option, key): (&str, &str)| {
                let unit = if option == "sweep" { "rad" } else { "m" };
                format!("{}{unit}", bend[key])
            };
            let (one, other) = (text(*first), text(*second));
            let answers = solutions([(first.0, &one), (second.0, &other)]);
            let fits = |answer: &&Value| {
                FIGURES.iter().all(|(_, key)| {
                    let off =
                        answer[key].as_f64().unwrap_or(f64::NAN) - bend[key].as_f64().unwrap();
                    off.abs() < 1e-9 // the worst pair here loses a few digits of sixteen
                })
            };
            assert!(
                answers.iter().any(|answer| fits(&answer)),
                "{first:?} {second:?}"
            );
            pairs += 1;
        }
    }
    assert_eq!(pairs, 28);
}

#[test]
fn counts_of_other_pairs_with_two_answers() {
    let check = |given, count: usize| assert_eq!(solutions(given).len(), count, "{given:?}");
    check([("rise", "1m"), ("arc", "3m")], 2);
    check([("rise", "1m"), ("arc", "4m")], 1);
    check([("rise", "1m"), ("tangent", "4m")], 2);
    check([("arc", "6m"), ("apothem", "-1m")], 2);
    check([("chord", "4m"), ("radius", "2m")], 1);
}

#[test]
fn the_same_numbers_in_every_form() {
    let same = |chord: &str, sweep: &str, units: &str| {
        let text = done(&[
            "bend", "--chord", chord, "--sweep", sweep, "--units", units, "--json",
        ]);
        let answer: Value = serde_json::from_str(&text).unwrap();
        near(&answer["solutions"][0]["chord"], 2.2987, 1e-15);
        near(&answer["solutions"][0]["sweep"], 1.8, 1e-3);
    };
    same("7' 6 1/2\"", "1.8rad", "metric");
    same("7ft 6.5in", "103.13", "feet");
    same("90 1/2", "103.13deg", "feet");
    same("229.87cm", "103° 8'", "feet");
    same("2.2987", "1.8 rad", "metric");
}

#[test]
fn the_units_of_the_first_length_that_names_its_own() {
    let words = |args: &[&str]| done(&[&["bend"], args].concat());
    assert!(words(&["--chord", "4", "--rise", "1"]).contains("2.500 m"));
    // A bare number beside inches is inches.
    assert!(words(&["--rise", "30", "--chord", "84in"]).contains("3' 8 3/8\""));
    assert!(words(&["--rise", "30in", "--chord", "84in", "--units", "metric"]).contains("1.130 m"));
    let decimal = words(&["--chord", "8ft", "--rise", "2ft", "--graduation", "0.01ft"]);
    assert!(decimal.contains("5.00'"), "{decimal}");
}

#[test]
fn a_bend_that_hangs_on_small_slips_says_so() {
    let care = done(&["bend", "--chord", "4m", "--arc", "4.001m"]);
    assert!(
        care.contains("Care: ") && care.contains("5 mm in the chord"),
        "{care}"
    );
    let fine = done(&["bend", "--chord", "4m", "--rise", "5cm"]);
    assert!(!fine.contains("Care: "), "{fine}");
}

#[test]
fn lengths_that_cannot_be_read() {
    let check = |text: &str, expected: &str| {
        refused(
            &["bend", "--chord", text, "--rise", "1m"],
            &["--chord: ", expected],
        );
    };
    check("7' 6 1/0\"", "`0` at character 8");
    check("--", "sign out of place");
    check("1e400", "is not a unit known here");
    check(&"1".repeat(4_000), "is longer than 64 characters");
    check("", "nothing is written here");
    check("4m\0", "cannot be read");
    check("230", "may be metres, centimetres or millimetres");
    check("NaN", "a number should");
    refused(
        &["bend", "--radius", "1m", "--sweep", "45° 75'"],
        &["--sweep: "],
    );
    refused(
        &["bend", "--radius", "1m", "--sweep", "12furlongs"],
        &["not a unit"],
    );
}

#[test]
fn figures_that_give_no_bend() {
    let check = |args: &[&str], expected: &[&str]| refused(&[&["bend"], args].concat(), expected);
    check(
        &["--chord", "4m", "--radius", "1.5m"],
        &["too short", "at least 2.000 m"],
    );
    check(
        &["--chord", "84in", "--radius", "40in"],
        &["3' 4\"", "at least 3' 6\""],
    );
    check(
        &["--chord", "0", "--rise", "1m"],
        &["chord is 0.000 m", "more than 0"],
    );
    check(&["--chord", "-4m", "--rise", "1m"], &["chord is -4.000 m"]);
    check(&["--rise", "1m", "--arc", "2m"], &["at least"]);
    check(
        &["--sweep", "360", "--radius", "1m"],
        &["less than 360 deg"],
    );
    check(
        &["--sweep", "200", "--tangent", "1m"],
        &["no tangent length"],
    );
    check(&["--sweep", "180", "--apothem", "0"], &["size stays open"]);
    check(
        &["--chord", &"9".repeat(60), "--rise", "1m"],
        &["past what can be computed"],
    );
}

#[test]
fn wrong_usage() {
    let check = |args: &[&str], expected: &[&str]| refused(&[&["bend"], args].concat(), expected);
    check(
        &[],
        &["two of its figures", "--chord 4m", "pegbow bend --help"],
    );
    check(&["--chord", "4m"], &["here is only --chord 4m"]);
    check(
        &["--chord", "4m", "--rise", "1m", "--arc", "5m"],
        &["here are --chord 4m, --rise 1m, --arc 5m"],
    );
    check(
        &["--chord", "4m", "--chord", "5m"],
        &["chord is given twice"],
    );
    check(&["--cord", "4m"], &["there is no option --cord"]);
    check(&["--chord"], &["--chord needs a value"]);
    check(&["4m"], &["4m is one word too many"]);
    check(&["--json=yes", "--chord", "4m"], &["--json stands alone"]);
    check(
        &["--units", "cubits"],
        &["--units cubits", "metric or feet"],
    );
    check(&["--graduation", "3mm"], &["--graduation 3mm", "5 mm"]);
    let both = [
        "--chord",
        "4m",
        "--rise",
        "1m",
        "--units",
        "metric",
        "--graduation",
        "1/8in",
    ];
    check(&both, &["no division of a tape in metric"]);
}
