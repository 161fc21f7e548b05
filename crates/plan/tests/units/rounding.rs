//! Rounding to a graduation.

use super::same;
use plan::units::Graduation;

#[track_caller]
fn check(graduation: Graduation, length: f64, expected: f64) {
    let of = format!("{length} to {}", graduation.label());
    same(graduation.round(length), expected, &of);
    let mirrored = if expected > 0.0 { -expected } else { 0.0 };
    same(graduation.round(-length), mirrored, &format!("minus {of}"));
}

#[test]
fn halves_go_away_from_zero() {
    use Graduation::{
        EighthInch, FiveMillimetres, HundredthFoot, Inch, Millimetre, QuarterInch, SixteenthInch,
        TenMillimetres, TenthFoot, TwoMillimetres,
    };
    check(FiveMillimetres, 0.0025, 0.005);
    check(FiveMillimetres, 0.0075, 0.01);
    check(FiveMillimetres, 0.0024, 0.0);
    check(FiveMillimetres, 0.002_499, 0.0);
    check(FiveMillimetres, 3.1625, 3.165);
    check(FiveMillimetres, 3.1624, 3.16);
    check(Millimetre, 1.0005, 1.001);
    check(Millimetre, 1.0015, 1.002);
    check(Millimetre, 1.0025, 1.003);
    check(Millimetre, 2.6755, 2.676); // a hair below the half in binary
    check(Millimetre, 0.1 + 0.2 + 0.0005, 0.301);
    check(Millimetre, 99_999.999_5, 100_000.0);
    check(TwoMillimetres, 0.001, 0.002);
    check(TwoMillimetres, 0.003, 0.004);
    check(TenMillimetres, 0.005, 0.01);
    check(TenMillimetres, 0.015, 0.02);
    check(TenMillimetres, 1.115, 1.12);
    check(SixteenthInch, 0.0254 / 32.0, 0.0254 / 16.0);
    check(EighthInch, 0.0254 / 16.0, 0.0254 / 8.0);
    check(EighthInch, 0.0254 * 3.0 / 16.0, 0.0254 / 4.0);
    check(QuarterInch, 0.0254 * 11.875, 0.3048);
    check(Inch, 0.0127, 0.0254);
    check(Inch, 0.0381, 0.0508);
    check(HundredthFoot, 0.001_524, 0.003_048);
    check(TenthFoot, 0.015_24, 0.030_48);
    for graduation in Graduation::ALL {
        check(graduation, 0.0, 0.0);
        check(graduation, -0.0, 0.0);
        check(graduation, 1e-12, 0.0);
    }
}

#[test]
fn lengths_no_tape_reaches() {
    for graduation in Graduation::ALL {
        assert!(graduation.round(f64::NAN).is_nan());
        same(graduation.round(f64::INFINITY), f64::INFINITY, "infinity");
        same(graduation.round(f64::MAX), f64::MAX, "the greatest number");
        assert_eq!(graduation.steps(f64::NAN), 0);
        assert_eq!(graduation.steps(f64::MAX), i64::MAX);
        assert_eq!(graduation.steps(f64::MIN), i64::MIN);
    }
    assert_eq!(Graduation::Millimetre.steps(100_000.0), 100_000_000);
    assert_eq!(Graduation::SixteenthInch.steps(-100_000.0), -62_992_126);
}
