//! The units themselves against their published definitions.

use super::{FEET, METRIC, ruler, same};
use plan::units::{Graduation, parse_length};

#[track_caller]
fn check(input: &str, metres: f64) {
    same(parse_length(input, METRIC).unwrap(), metres, input);
    same(parse_length(input, FEET).unwrap(), metres, input);
}

/// Source: NIST Special Publication 811, appendix B.8 (inch, foot, yard, exact); from memory.
#[test]
fn units_of_length() {
    check("1 in", 0.0254);
    check("1 ft", 0.3048);
    check("1 yd", 0.9144);
    check("1 m", 1.0);
    check("1 cm", 0.01);
    check("1 mm", 0.001);
    check("5000 in", 127.0);
    check("1250 ft", 381.0);
}

/// Source: NIST Special Publication 811, appendix B.8 (square foot 9.290 304 E-02 m², exact); from memory.
#[test]
fn unit_of_area() {
    let feet = ruler(Graduation::EighthInch);
    assert_eq!(feet.area(0.092_903_04), "1.0 ft²");
    assert_eq!(feet.area(929.0304), "10000.0 ft²");
    assert_eq!(feet.area(0.004_645_152), "0.1 ft²"); // the half of a tenth
    assert_eq!(feet.area(0.004_645), "0.0 ft²");
    assert_eq!(feet.area(-9.290_304), "−100.0 ft²");
    let metric = ruler(Graduation::Millimetre);
    assert_eq!(metric.area(12.345), "12.35 m²");
    assert_eq!(metric.area(12.344_9), "12.34 m²");
    assert_eq!(metric.area(0.0), "0.00 m²");
    assert_eq!(metric.area(-0.001), "0.00 m²");
}

/// Source: NIST Special Publication 811, appendix B.8 (cubic foot 2.831 685 E-02 m³, cubic yard 7.645 549
/// E-01 m³, square yard 8.361 274 E-01 m², pound 4.535 923 7 E-01 kg exact, short ton 2000 lb); from memory.
#[test]
fn units_of_volume_and_mass() {
    let (feet, metric) = (ruler(Graduation::EighthInch), ruler(Graduation::Millimetre));
    assert_eq!(feet.volume(7.645_549), "10.0 yd³");
    assert_eq!(feet.volume(0.028_316_85), "1.0 ft³");
    assert_eq!(feet.ordered_area(8.361_274), "10.0 yd²");
    assert_eq!(feet.mass(45.359_237), "100 lb");
    assert_eq!(feet.mass(2.0 * 907.184_74), "2.00 short tons");
    // Each is rounded once, half away from zero, and nothing is never minus.
    assert_eq!(metric.volume(0.345), "0.35 m³");
    assert_eq!(metric.volume(0.344_9), "0.34 m³");
    assert_eq!(metric.volume(0.054), "54 L");
    assert_eq!(metric.volume(-1.005), "−1.01 m³");
    assert_eq!(metric.mass(999.4), "999 kg");
    assert_eq!(metric.mass(1_025.0), "1.03 t");
    assert_eq!(metric.mass(-0.2), "0 kg");
    assert_eq!(metric.ordered_area(15.95), "16.0 m²");
}

#[test]
fn graduations() {
    let metres = [
        0.001_587_5,
        0.003_175,
        0.006_35,
        0.0127,
        0.0254,
        0.003_048,
        0.030_48,
        0.001,
        0.002,
        0.005,
        0.01,
    ];
    for (graduation, metres) in Graduation::ALL.into_iter().zip(metres) {
        same(graduation.metres(), metres, graduation.label());
        // each label is a length that reads as the graduation
        same(
            parse_length(graduation.label(), METRIC).unwrap(),
            metres,
            graduation.label(),
        );
    }
}
