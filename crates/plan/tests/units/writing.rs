//! Lengths and areas as text.

use super::{FEET, METRIC, ruler};
use plan::units::Graduation::{
    EighthInch, FiveMillimetres, HalfInch, HundredthFoot, Inch, Millimetre, QuarterInch,
    SixteenthInch, TenMillimetres, TenthFoot, TwoMillimetres,
};
use plan::units::{Graduation, Ruler, echo};

const INCH: f64 = 0.0254;

#[track_caller]
fn check(graduation: Graduation, length: f64, text: &str, plain: &str, bare: &str) {
    let ruler = ruler(graduation);
    let written = (ruler.text(length), ruler.plain(length), ruler.bare(length));
    assert_eq!(written, (text.into(), plain.into(), bare.into()));
}

#[test]
fn feet_and_inches() {
    check(EighthInch, 90.5 * INCH, "7′ 6 1⁄2″", "7' 6 1/2\"", "90 1⁄2");
    check(
        EighthInch,
        42.875 * INCH,
        "3′ 6 7⁄8″",
        "3' 6 7/8\"",
        "42 7⁄8",
    );
    check(
        SixteenthInch,
        11.9375 * INCH,
        "11 15⁄16″",
        "11 15/16\"",
        "11 15⁄16",
    );
    check(EighthInch, 11.9375 * INCH, "1′ 0″", "1' 0\"", "12");
    check(QuarterInch, 11.9375 * INCH, "1′ 0″", "1' 0\"", "12");
    check(QuarterInch, 11.874 * INCH, "11 3⁄4″", "11 3/4\"", "11 3⁄4");
    check(HalfInch, 11.9375 * INCH, "1′ 0″", "1' 0\"", "12");
    check(Inch, 11.9375 * INCH, "1′ 0″", "1' 0\"", "12");
    check(Inch, 11.4 * INCH, "11″", "11\"", "11");
    check(
        SixteenthInch,
        12.0625 * INCH,
        "1′ 0 1⁄16″",
        "1' 0 1/16\"",
        "12 1⁄16",
    );
    check(SixteenthInch, 0.5 * INCH, "1⁄2″", "1/2\"", "1⁄2");
    check(SixteenthInch, 0.0, "0″", "0\"", "0");
    check(SixteenthInch, -0.0, "0″", "0\"", "0");
    check(EighthInch, -0.05 * INCH, "0″", "0\"", "0");
    check(EighthInch, -0.0625 * INCH, "−1⁄8″", "-1/8\"", "−1⁄8");
    check(
        EighthInch,
        -90.5 * INCH,
        "−7′ 6 1⁄2″",
        "-7' 6 1/2\"",
        "−90 1⁄2",
    );
    check(
        EighthInch,
        100_000.0,
        "328083′ 11 7⁄8″",
        "328083' 11 7/8\"",
        "3937007 7⁄8",
    );
    check(EighthInch, f64::NAN, "NaN m", "NaN m", "NaN");
    check(EighthInch, -1e300, "-1e300 m", "-1e300 m", "-1e300");
}

#[test]
fn decimal_feet() {
    check(HundredthFoot, 12.34 * 0.3048, "12.34′", "12.34'", "12.34");
    check(HundredthFoot, 12.995 * 0.3048, "13.00′", "13.00'", "13.00");
    check(TenthFoot, 12.34 * 0.3048, "12.3′", "12.3'", "12.3");
    check(TenthFoot, -0.05 * 0.3048, "−0.1′", "-0.1'", "−0.1");
    check(TenthFoot, -0.01, "0.0′", "0.0'", "0.0");
}

#[test]
fn metres() {
    check(FiveMillimetres, 3.164, "3.165 m", "3.165 m", "3.165");
    check(Millimetre, 3.164, "3.164 m", "3.164 m", "3.164");
    check(TwoMillimetres, 3.165, "3.166 m", "3.166 m", "3.166");
    check(TenMillimetres, 3.164, "3.16 m", "3.16 m", "3.16");
    check(TenMillimetres, 2.996, "3.00 m", "3.00 m", "3.00");
    check(Millimetre, 0.05, "0.050 m", "0.050 m", "0.050");
    check(Millimetre, -0.05, "−0.050 m", "-0.050 m", "−0.050");
    check(Millimetre, -0.0004, "0.000 m", "0.000 m", "0.000");
    check(
        Millimetre,
        100_000.0,
        "100000.000 m",
        "100000.000 m",
        "100000.000",
    );
    check(Millimetre, f64::INFINITY, "inf m", "inf m", "inf");
}

#[test]
fn more_digits_and_both_systems() {
    let feet = Ruler::new(FEET);
    let metric = Ruler::new(METRIC);
    assert_eq!(feet.exact(42.883 * INCH), "3′ 6.883″");
    assert_eq!(feet.exact(11.999_6 * INCH), "1′ 0.000″");
    assert_eq!(feet.exact(-0.25 * INCH), "−0.250″");
    assert_eq!(feet.exact(-0.000_1 * INCH), "0.000″");
    assert_eq!(metric.exact(3.164_55), "3.1646 m");
    assert_eq!(metric.exact(-3.164_54), "−3.1645 m");
    assert_eq!(ruler(TenthFoot).exact(0.3048 * 12.341_25), "12.3413′");
    assert_eq!(feet.exact(f64::NAN), "NaN m");
    assert_eq!(feet.both(2.3), "7′ 6 1⁄2″ (2.300 m)");
    assert_eq!(metric.both(2.2987), "2.300 m (7′ 6 1⁄2″)");
    assert_eq!((feet.bare_unit(), metric.bare_unit()), ("in", "m"));
    assert_eq!(ruler(TenthFoot).bare_unit(), "ft");
    let at_odds = Ruler {
        units: METRIC,
        graduation: Inch,
    };
    assert_eq!(at_odds.text(3.164), "3.165 m");
}

#[test]
fn what_was_understood() {
    assert_eq!(echo(2.3, METRIC, "2m30"), "read as 2.300 m");
    assert_eq!(
        echo(4.0, METRIC, " 4 "),
        "read as 4.000 m, 4 taken as metres"
    );
    assert_eq!(
        echo(2.3, METRIC, "2300"),
        "read as 2.300 m, 2300 taken as millimetres"
    );
    assert_eq!(echo(2.300_5, METRIC, "2.3005m"), "read as 2.3005 m");
    assert_eq!(echo(0.000_04, METRIC, "0.04mm"), "read as about 0.0000 m");
    assert_eq!(
        echo(2.2987, METRIC, "90.5in"),
        "read as 2.2987 m (7′ 6 1⁄2″)"
    );
    assert_eq!(
        echo(2.1336, FEET, "84"),
        "read as 7′ 0″, 84 taken as inches"
    );
    assert_eq!(echo(2.2987, FEET, "7' 6 1/2\""), "read as 7′ 6 1⁄2″");
    assert_eq!(
        echo(2.3, FEET, "2.3 m"),
        "read as about 7′ 6.551″ (2.300 m)"
    );
    assert_eq!(
        ruler(TenthFoot).echo(3.2004, "10.5"),
        "read as 10.50′, 10.5 taken as feet"
    );
}
