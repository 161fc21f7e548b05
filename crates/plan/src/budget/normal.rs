//! The normal distribution: the share within so many deviations, of one and of two that hang together.

use std::f64::consts::{FRAC_2_PI, PI};

/// The nodes and weights of the five-point rule on −1 to 1.
///
/// Source: Abramowitz & Stegun, *Handbook of Mathematical Functions*, table 25.4, n = 5.
const RULE: [(f64, f64); 5] = [
    (-0.906_179_845_938_664, 0.236_926_885_056_189_1),
    (-0.538_469_310_105_683_1, 0.478_628_670_499_366_5),
    (0.0, 0.568_888_888_888_888_9),
    (0.538_469_310_105_683_1, 0.478_628_670_499_366_5),
    (0.906_179_845_938_664, 0.236_926_885_056_189_1),
];

/// So many panels keep the integrals here, all of smooth functions, true to nine digits.
const PANELS: u32 = 4;

/// The share of a normal distribution within `k` standard deviations on both sides.
///
/// ```
/// use plan::budget::within;
/// assert!((within(1.959_964) - 0.95).abs() < 1e-7);
/// ```
#[must_use]
pub fn within(k: f64) -> f64 {
    // Past eight deviations a double has nothing left to say.
    let end = k.clamp(0.0, 8.0);
    FRAC_2_PI.sqrt() * integral(end, |z| (-0.5 * z * z).exp())
}

/// The share of two normal variables of correlation `correlation` which are both within `k` standard
/// deviations.
///
/// What they hold beyond the product of the two shares is, by Plackett's identity
/// (*Biometrika* 41, 1954), the integral over the correlation of the density at the corners, here
/// over its arc sine.
#[must_use]
pub fn both_within(k: f64, correlation: f64) -> f64 {
    let half_square = 0.5 * k * k;
    let corner = |sine: f64| (-2.0 * half_square / (1.0 + sine)).exp();
    let more = integral(correlation.clamp(-1.0, 1.0).abs().asin(), |angle| {
        corner(angle.sin()) - corner(-angle.sin())
    });
    let alone = within(k);
    (alone * alone + more / PI).min(alone)
}

/// From nought to `end`.
fn integral(end: f64, of: impl Fn(f64) -> f64) -> f64 {
    let half = 0.5 * end / f64::from(PANELS);
    let panel = |nth: u32| {
        let middle = half * f64::from(2 * nth + 1);
        RULE.map(|(node, weight)| weight * of(middle + half * node))
            .iter()
            .sum::<f64>()
    };
    half * (0..PANELS).map(panel).sum::<f64>()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: Abramowitz & Stegun, table 26.1: P(x) − Q(x) at 1, 2, 3; from memory, to ten digits.
    #[test]
    fn shares_of_the_table() {
        for (k, share) in [
            (1.0, 0.682_689_492_1),
            (2.0, 0.954_499_736_1),
            (3.0, 0.997_300_203_9),
        ] {
            assert!((within(k) - share).abs() < 1e-8, "{k}: {}", within(k));
        }
    }

    #[test]
    fn two_that_are_one_and_two_that_are_apart() {
        for k in [1.0, 2.0, 3.0] {
            assert!((both_within(k, 0.0) - within(k).powi(2)).abs() < 1e-15);
            assert!((both_within(k, 1.0) - within(k)).abs() < 1e-4);
            assert!((both_within(k, 0.6) - both_within(k, -0.6)).abs() < 1e-15);
        }
    }

    /// With one conditioned on the other: ∫ φ(z) P(|ρz + √(1−ρ²)y| ≤ k) dz, summed by midpoints.
    #[test]
    fn two_that_hang_together() {
        let (k, correlation) = (1.5_f64, 0.8_f64);
        let steps = 4000;
        let rest = (1.0 - correlation * correlation).sqrt();
        let below = |x: f64| 0.5 + 0.5 * within(x.abs()).copysign(x);
        let strip = |nth: i32| {
            let z = -k + 2.0 * k * (f64::from(nth) + 0.5) / f64::from(steps);
            let inside = below((k - correlation * z) / rest) - below((-k - correlation * z) / rest);
            (-0.5 * z * z).exp() / (2.0 * PI).sqrt() * inside * 2.0 * k / f64::from(steps)
        };
        let expected: f64 = (0..steps).map(strip).sum();
        assert!((both_within(k, correlation) - expected).abs() < 1e-6);
    }
}
