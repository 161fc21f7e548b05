//! Typed lengths that are refused, with the place and the sentence.

use super::{FEET, METRIC};
use plan::units::{Fault, Units, parse_length};

/// `piece` is what the error must point at, nothing if something is missing at `at`.
#[track_caller]
fn check_in(units: Units, input: &str, kind: Fault, at: usize, piece: &str) {
    let error = match parse_length(input, units) {
        Ok(length) => panic!("`{input}` was read as {length}"),
        Err(error) => error,
    };
    let pointed: String = input
        .chars()
        .skip(at)
        .take(error.until - error.at)
        .collect();
    assert_eq!(
        (error.kind, error.at, pointed.as_str()),
        (kind, at, piece),
        "{input}: {error}"
    );
}

#[track_caller]
fn check(input: &str, kind: Fault, at: usize, piece: &str) {
    check_in(METRIC, input, kind, at, piece);
    check_in(FEET, input, kind, at, piece);
}

#[test]
fn nothing_or_too_much() {
    check("", Fault::Empty, 0, "");
    check("   ", Fault::Empty, 0, "");
    check("\u{a0}", Fault::Empty, 0, "");
    check(&"1".repeat(4_000), Fault::TooLong, 64, "");
    check(&"½".repeat(65), Fault::TooLong, 64, "");
    assert!(parse_length(&format!("{}1 m", " ".repeat(61)), METRIC).is_ok()); // 64 of them
}

#[test]
fn characters_and_words() {
    check("7' x", Fault::NoNumber, 3, "x");
    check("abc", Fault::NoNumber, 0, "abc");
    check("7' 6 1/2$", Fault::Character, 8, "$");
    check("7\u{0}", Fault::Character, 1, "\u{0}");
    check("7 furlongs", Fault::LengthUnit, 2, "furlongs");
    check("1e400", Fault::LengthUnit, 1, "e");
    check("2e3 m", Fault::LengthUnit, 1, "e");
    check("2.3 km", Fault::LengthUnit, 4, "km");
    check("nan", Fault::NoNumber, 0, "nan");
    check("inf", Fault::NoNumber, 0, "inf");
    check("105°", Fault::LengthUnit, 3, "°");
    check("m", Fault::NoNumber, 0, "m");
    check("'", Fault::NoNumber, 0, "'");
    check("2.3 m,", Fault::NoNumber, 6, "");
    check("7' 6\" and", Fault::NoNumber, 9, "");
    check(".", Fault::Character, 0, ".");
    check("٣ m", Fault::Character, 0, "٣");
    check("7' x\"", Fault::NoNumber, 3, "x");
}

#[test]
fn signs() {
    check("--", Fault::Sign, 1, "-");
    check("-", Fault::NoNumber, 1, "");
    check("--5 m", Fault::Sign, 1, "-");
    check("+-5 m", Fault::Sign, 1, "-");
    check("5 m -", Fault::Sign, 4, "-");
    check("2 m - 30 cm", Fault::Sign, 4, "-");
    check("7' −6\"", Fault::Sign, 3, "−");
    check("7' +6\"", Fault::Sign, 3, "+");
    check("7' - -6\"", Fault::Sign, 5, "-");
}

#[test]
fn marks_and_commas() {
    check("1,234 m", Fault::Comma, 0, "1,234");
    check("12,345 mm", Fault::Comma, 0, "12,345");
    check("1,234", Fault::Comma, 0, "1,234");
    check("7' 1,250\"", Fault::Comma, 3, "1,250");
    check("1,234,567 mm", Fault::Marks, 0, "1,234,567");
    check("1,234.5 m", Fault::Marks, 0, "1,234.5");
    check("1.234,5 m", Fault::Marks, 0, "1.234,5");
    check("1.2.3 m", Fault::Marks, 0, "1.2.3");
    check("7ft.5in", Fault::Point, 3, ".");
    check(",5 m", Fault::Character, 0, ",");
}

#[test]
fn fractions() {
    check("7' 6 1/0\"", Fault::NoDenominator, 7, "0");
    check("1/00 m", Fault::NoDenominator, 2, "00");
    check("63/4\"", Fault::WholeFraction, 0, "63/4");
    check("6 3/2\"", Fault::WholeFraction, 2, "3/2");
    check("6 4/4\"", Fault::WholeFraction, 2, "4/4");
    check("1/2/3\"", Fault::Fraction, 3, "/");
    check("6 1/\"", Fault::Fraction, 3, "/");
    check("1/", Fault::Fraction, 1, "/");
    check("/2\"", Fault::Fraction, 0, "/");
    check("1.5/2\"", Fault::Fraction, 3, "/");
    check("1/2.5\"", Fault::Fraction, 1, "/");
    check("6.5 1/2\"", Fault::Fraction, 4, "1/2");
    check("6.5½\"", Fault::Fraction, 3, "½");
    check("½ ½\"", Fault::NoUnit, 0, "½");
    check("90 - 1/2\"", Fault::Sign, 3, "-");
    check("90 -1/2\"", Fault::Sign, 3, "-");
    check("90- 1/2\"", Fault::Sign, 2, "-");
}

#[test]
fn parts() {
    check("7 6\"", Fault::NoUnit, 0, "7");
    check("2 300 mm", Fault::NoUnit, 0, "2");
    check("90-91\"", Fault::Sign, 2, "-");
    check("2 yd 6", Fault::LastUnit, 5, "6");
    check("30 cm 5", Fault::LastUnit, 6, "5");
    check("2m 3in", Fault::Mixed, 3, "3");
    check("7' 30cm", Fault::Mixed, 3, "30");
    check("6\" 7'", Fault::Order, 3, "7");
    check("30cm 2m", Fault::Order, 5, "2");
    check("7' 6'", Fault::Order, 3, "6");
    check("6\" 6\"", Fault::Order, 3, "6");
    check("7'''", Fault::NoNumber, 3, "'");
    check("7' 14\"", Fault::TooLarge, 3, "14");
    check("7' 12\"", Fault::TooLarge, 3, "12");
    check("2'300", Fault::TooLarge, 2, "300");
    check("2m 130cm", Fault::TooLarge, 3, "130");
    check("2 yd 3 ft", Fault::TooLarge, 5, "3");
    check("7.5' 6\"", Fault::NotWhole, 0, "7.5");
    check("7½' 6\"", Fault::NotWhole, 0, "7½");
    check("2.3m30", Fault::NotWhole, 0, "2.3");
    check("2m5", Fault::AfterMetres, 2, "5");
    check("2m3000", Fault::AfterMetres, 2, "3000");
    check("2m3.5", Fault::AfterMetres, 2, "3.5");
    check("2m ½", Fault::AfterMetres, 3, "½");
}

#[test]
fn bare_metric_hundreds() {
    check_in(METRIC, "100", Fault::Bare, 0, "100");
    check_in(METRIC, "230", Fault::Bare, 0, "230");
    check_in(METRIC, "-999", Fault::Bare, 1, "999");
}

#[track_caller]
fn sentence(input: &str, expected: &str) {
    assert_eq!(
        parse_length(input, METRIC).unwrap_err().to_string(),
        expected
    );
}

#[test]
fn sentences() {
    sentence("", "nothing is written here: write a number and its unit");
    sentence(
        &"9".repeat(4_000),
        &format!(
            "`{}…` is longer than 64 characters: write a shorter one",
            "9".repeat(64)
        ),
    );
    sentence(
        "7' x",
        "`x` at character 4 in `7' x` stands where a number should: write the number first, in figures",
    );
    sentence(
        "7' -",
        "after character 4 of `7' -` a number is missing: write it in figures",
    );
    sentence(
        "7 furlongs",
        "`furlongs` at character 3 in `7 furlongs` is not a unit known here: write m, cm, mm, ft, in or yd",
    );
}
