//! Lengths in feet and inches as people type them.

use super::{FEET, METRIC, same};
use plan::units::parse_length;

/// `inches` read in either plan, as the text names its units.
#[track_caller]
fn check(input: &str, inches: f64) {
    let metres = inches * 254.0 / 10_000.0;
    same(parse_length(input, FEET).unwrap(), metres, input);
    same(parse_length(input, METRIC).unwrap(), metres, input);
}

#[test]
fn seven_feet_six_and_a_half() {
    for input in [
        "7' 6 1/2\"",
        "7'6 1/2\"",
        "7'6½\"",
        "7' 6½\"",
        "7'-6 1/2\"",
        "7' - 6 1/2\"",
        "7'–6½\"",
        "7'-6-1/2\"",
        "7′ 6 1⁄2″",
        "7′6 1∕2″",
        "7’ 6 ½”",
        "7‘ 6 ½“",
        "7` 6 1/2``",
        "7´ 6 1/2´´",
        "7' 6 1/2''",
        "7’ 6 1/2’’",
        "7′ 6 1/2′′",
        "7ft 6.5in",
        "7ft6.5in",
        "7 ft 6,5 in",
        "7 ft. 6.5 in.",
        "7ft. 6.50 ins",
        "7 FT 6.5 IN",
        "7 Feet 6.5 Inches",
        "7 feet 6 1/2 inches",
        "7 feet, 6 1/2 inches",
        "7 feet and 6 1/2 inches",
        "7 feet 6 1/2",
        "7' 6.5",
        "7'6½",
        "  7' 6 1/2\"  ",
        "7'\u{a0}6\u{202f}1/2\"",
        "\t7 ft\u{2009}6.5\u{2007}in\n",
        "7' 6 2/4\"",
        "7' 6 32/64\"",
        "+7' 6.5\"",
        "07' 06.50\"",
        "2 yd 1' 6 1/2\"",
        "2yd 18 1/2in",
        "90 1/2 in",
        "90 1/2\"",
        "90-1/2\"",
        "90½\"",
        "90.5\"",
        "90,5 in",
        "90.500 inches",
        "90 1/2''",
    ] {
        check(input, 90.5);
    }
}

#[test]
fn other_lengths() {
    check("0\"", 0.0);
    check("-0\"", 0.0);
    check("−0′ 0″", 0.0);
    check("½\"", 0.5);
    check("1/2 in", 0.5);
    check("1⁄2″", 0.5);
    check("0 1/2\"", 0.5);
    check(".5\"", 0.5);
    check("0.5 inch", 0.5);
    check("¾ in", 0.75);
    check("⅜\"", 0.375);
    check("11 15/16\"", 11.9375);
    check("3′ 6 7⁄8″", 42.875);
    check("7 1/2'", 90.0);
    check("7½ ft", 90.0);
    check("7.5'", 90.0);
    check("7'", 84.0);
    check("7 foot", 84.0);
    check("7' 0\"", 84.0);
    check("7' 0 1/2\"", 84.5);
    check("0' 6\"", 6.0);
    check("6 0/16\"", 6.0);
    check("6.\"", 6.0);
    check("2 yards", 72.0);
    check("2 1/2 yd", 90.0);
    check("2 yd 1 ft", 84.0);
    check("-7' 6 1/2\"", -90.5);
    check("- 7' 6 1/2\"", -90.5);
    check("−7′ 6 1⁄2″", -90.5);
    check("–6\"", -6.0);
    check("-½\"", -0.5);
    check("328083' 11\"", 3_937_007.0); // about the greatest length of a plan
}

#[test]
fn a_bare_number_is_inches() {
    for (input, inches) in [
        ("84", 84.0),
        ("7.5", 7.5),
        ("7,5", 7.5),
        ("90 1/2", 90.5),
        ("½", 0.5),
    ] {
        same(
            parse_length(input, FEET).unwrap(),
            inches * 254.0 / 10_000.0,
            input,
        );
    }
    same(parse_length("2300", FEET).unwrap(), 58.42, "2300");
    same(parse_length("-3", FEET).unwrap(), -0.0762, "-3");
}
