//! Angles read and written.

use plan::units::{Fault, angle_text, degrees_minutes, parse_angle};
use std::f64::consts::PI;

#[track_caller]
fn check(input: &str, degrees: f64) {
    let read = parse_angle(input).unwrap();
    let expected = degrees * PI / 180.0;
    // two roundings of a product
    assert!(
        (read - expected).abs() <= 4.0 * f64::EPSILON * expected.abs(),
        "{input}: {read}"
    );
}

#[test]
fn reading() {
    for input in [
        "105",
        "105°",
        "105 deg",
        "105deg",
        "105 degrees",
        "105 DEG.",
        "105.0",
        "105º",
        "105˚",
    ] {
        check(input, 105.0);
    }
    for input in [
        "45°30'",
        "45° 30′",
        "45 30",
        "45.5",
        "45,5°",
        "45½",
        "45 1/2°",
        "45-30",
        "45deg 30min",
    ] {
        check(input, 45.5);
    }
    for input in [
        "45 30 15",
        "45°30'15\"",
        "45° 30′ 15″",
        "45°30'15''",
        "45-30-15",
        "45 deg 30 min 15 sec",
        "45 degrees, 30 minutes, 15 seconds",
        "45° 30 15",
    ] {
        check(input, 45.0 + 30.0 / 60.0 + 15.0 / 3600.0);
    }
    check("-45 30", -45.5);
    check("−0.5°", -0.5);
    check("0", 0.0);
    check("30'", 0.5);
    check("45° 30\"", 45.0 + 30.0 / 3600.0);
    check("720", 720.0);
    assert_eq!(parse_angle("1.8rad").unwrap().to_bits(), 1.8_f64.to_bits());
    assert_eq!(
        parse_angle("-1,8 radians").unwrap().to_bits(),
        (-1.8_f64).to_bits()
    );
    assert_eq!(parse_angle("-0").unwrap().to_bits(), 0.0_f64.to_bits());
}

#[track_caller]
fn refuse(input: &str, kind: Fault, at: usize) {
    let error = parse_angle(input).unwrap_err();
    assert_eq!((error.kind, error.at), (kind, at), "{input}: {error}");
}

#[test]
fn refusing() {
    refuse("", Fault::Empty, 0);
    refuse("--", Fault::Sign, 1);
    refuse("105 gon", Fault::AngleUnit, 4);
    refuse("105 m", Fault::AngleUnit, 4);
    refuse("1e400", Fault::AngleUnit, 1);
    refuse("45° 60'", Fault::TooLarge, 4);
    refuse("45° 30' 60\"", Fault::TooLarge, 8);
    refuse("45.5 30", Fault::NotWhole, 0);
    refuse("30' 45°", Fault::Order, 4);
    refuse("45 30 15 10", Fault::Order, 9);
    refuse("1 rad 30'", Fault::Mixed, 6);
    refuse("45° 1 rad", Fault::Mixed, 4);
    refuse("1/0", Fault::NoDenominator, 2);
    refuse("°", Fault::NoNumber, 0);
    refuse(&"1".repeat(4_000), Fault::TooLong, 64);
}

#[test]
fn writing() {
    assert_eq!(angle_text(PI), "180.00°");
    assert_eq!(angle_text(-PI / 4.0), "−45.00°");
    assert_eq!(angle_text(parse_angle("12.345").unwrap()), "12.35°");
    assert_eq!(angle_text(parse_angle("359.999").unwrap()), "360.00°");
    assert_eq!(angle_text(-1e-9), "0.00°");
    assert_eq!(angle_text(f64::NAN), "NaN rad");
    assert_eq!(degrees_minutes(parse_angle("105 7").unwrap()), "105° 07′");
    assert_eq!(degrees_minutes(parse_angle("59.9999").unwrap()), "60° 00′");
    assert_eq!(degrees_minutes(parse_angle("-0 30 30").unwrap()), "−0° 31′");
    assert_eq!(degrees_minutes(-1e-9), "0° 00′");
    assert_eq!(degrees_minutes(f64::INFINITY), "inf rad");
}
