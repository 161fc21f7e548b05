//! Metric lengths as people type them.

use super::{FEET, METRIC, same};
use plan::units::parse_length;

#[track_caller]
fn check(input: &str, metres: f64) {
    same(parse_length(input, METRIC).unwrap(), metres, input);
    same(parse_length(input, FEET).unwrap(), metres, input);
}

#[track_caller]
fn bare(input: &str, metres: f64) {
    same(parse_length(input, METRIC).unwrap(), metres, input);
}

#[test]
fn two_metres_thirty() {
    for input in [
        "2.3m",
        "2.3 m",
        "2,3 m",
        "2.30m",
        "2.300 m",
        "2,30 M",
        "+2.3 m",
        " 2.3\u{a0}m ",
        "2.3 metres",
        "2.3 meters",
        "230cm",
        "230 cm",
        "230.0 CM",
        "230 centimetres",
        "2300mm",
        "2300 mm",
        "2300 MM",
        "2300 millimetres",
        "2m30",
        "2 m 30",
        "2M30",
        "2m300",
        "2m 30cm",
        "2m30cm",
        "2m 300mm",
        "2 m, 30 cm",
        "2 metres and 30 centimetres",
    ] {
        check(input, 2.3);
    }
}

#[test]
fn other_lengths() {
    check("2m05", 2.05);
    check("2m 5cm", 2.05);
    check("2m005", 2.005);
    check("2 m 30 cm 5 mm", 2.305);
    check("30 cm 5 mm", 0.305);
    check("0m80", 0.8);
    check("½ m", 0.5);
    check("2 1/2 m", 2.5);
    check("2½m", 2.5);
    check("3.165 m", 3.165);
    check("0,234 m", 0.234);
    check("1234,567 m", 1234.567);
    check("1,23 m", 1.23);
    check("1,2345 m", 1.2345);
    check("1.234 m", 1.234);
    check("-2.3 m", -2.3);
    check("−2m30", -2.3);
    check(".8m", 0.8);
    check("100000 m", 100_000.0);
    check("0.1 mm", 0.0001);
    check("0.30000000000000004 m", 0.300_000_000_000_000_04);
    check("1234.5678901234567 m", 1_234.567_890_123_456_7);
}

#[test]
fn a_bare_number_is_metres_or_whole_millimetres() {
    bare("2.3", 2.3);
    bare("2,3", 2.3);
    bare("4", 4.0);
    bare("0", 0.0);
    bare("-0", 0.0);
    bare("99", 99.0);
    bare("½", 0.5);
    bare("2 1/2", 2.5);
    bare("2.", 2.0);
    bare("125.40", 125.4);
    bare("-1.5", -1.5);
    bare("1000", 1.0);
    bare("2300", 2.3);
    bare("-2300", -2.3);
    bare("2300.5", 2300.5);
}
