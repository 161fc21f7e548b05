//! The normal distribution: shares below and within, and means over it.

/// The share of a normal distribution below `x` standard deviations from its middle, true to a ten
/// millionth.
///
/// Source: Abramowitz & Stegun, *Handbook of Mathematical Functions*, 7.1.26, whose error function
/// is `erf(x/√2) = 2 below(x) − 1`.
pub(super) fn below(x: f64) -> f64 {
    let z = x.abs() * std::f64::consts::FRAC_1_SQRT_2;
    let t = 1.0 / (1.0 + 0.327_591_1 * z);
    let series = t
        * (0.254_829_592
            + t * (-0.284_496_736
                + t * (1.421_413_741 + t * (-1.453_152_027 + t * 1.061_405_429))));
    let beyond = 0.5 * series * (-z * z).exp();
    if x < 0.0 { beyond } else { 1.0 - beyond }
}

/// The share of a normal distribution within `k` standard deviations on both sides, true to a few
/// ten millionths.
///
/// ```
/// use plan::budget::within;
/// assert!((within(1.959_964) - 0.95).abs() < 3e-7);
/// ```
#[must_use]
pub fn within(k: f64) -> f64 {
    1.0 - 2.0 * below(-k.abs())
}

/// Steps of a quarter of a deviation out to 4.5: for what changes over no less than that, the
/// trapezoidal rule errs by less than the tails left out.
const STEP: f64 = 0.25;
const STEPS: i32 = 18;

/// The mean over a normal distribution of what is the same on both sides of its middle.
pub(super) fn over_normal(of: impl Fn(f64) -> f64) -> f64 {
    let (mut sum, mut weights) = (0.0, 0.0);
    for step in 0..=STEPS {
        let z = f64::from(step) * STEP;
        // The middle is there once, every other step on both sides.
        let weight = (-0.5 * z * z).exp() * if step == 0 { 0.5 } else { 1.0 };
        sum += weight * of(z);
        weights += weight;
    }
    sum / weights
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: Abramowitz & Stegun, table 26.1, P(x) − Q(x) at 1, 2, 3; from memory.
    #[test]
    fn shares_of_the_table() {
        for (k, share) in [
            (1.0, 0.682_689_492_1),
            (2.0, 0.954_499_736_1),
            (3.0, 0.997_300_203_9),
        ] {
            assert!((within(k) - share).abs() < 3e-7, "{k}: {}", within(k));
        }
    }

    /// The second and fourth moments are 1 and 3.
    #[test]
    fn means_of_powers() {
        assert!((over_normal(|z| z * z) - 1.0).abs() < 1e-3);
        assert!((over_normal(|z| z.powi(4)) - 3.0).abs() < 1e-2);
    }
}
