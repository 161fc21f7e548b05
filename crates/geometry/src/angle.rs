//! Angles: the only place where degrees become radians and back.

use std::f64::consts::{PI, TAU};

/// Radians from degrees.
#[must_use]
#[expect(
    clippy::disallowed_methods,
    reason = "the one place where degrees come in"
)]
pub fn from_degrees(degrees: f64) -> f64 {
    degrees.to_radians()
}

/// Degrees from radians.
#[must_use]
#[expect(
    clippy::disallowed_methods,
    reason = "the one place where degrees go out"
)]
pub fn to_degrees(radians: f64) -> f64 {
    radians.to_degrees()
}

/// The same angle between −π (excluded) and π (included).
#[must_use]
pub fn signed(angle: f64) -> f64 {
    if -PI < angle && angle <= PI {
        return angle; // as it is: wrapping would cost a small angle its digits
    }
    let turned = angle.rem_euclid(TAU);
    if turned > PI { turned - TAU } else { turned }
}

/// The same angle from 0 (included) to 2π (excluded).
#[must_use]
pub fn positive(angle: f64) -> f64 {
    let turned = angle.rem_euclid(TAU);
    if turned < TAU { turned } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wraps_to_both_ranges() {
        assert!((signed(1.5 * PI) + 0.5 * PI).abs() < 1e-15);
        assert!((signed(-PI) - PI).abs() < 1e-15);
        assert!((positive(-0.5 * PI) - 1.5 * PI).abs() < 1e-15);
        assert!(positive(-1e-18) < TAU);
    }
}
