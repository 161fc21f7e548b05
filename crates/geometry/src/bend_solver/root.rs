//! A bracketed root to the last digits, and series for differences that would cancel.

/// The root of `f` between `low` and `high`, where `f` is negative at `low` and positive at `high`.
///
/// `f` gives value and slope. Newton's step is taken while it stays between the closest known
/// sides, else the bracket is halved, so it ends for any `f`; the ends themselves are never tried.
pub(super) fn root(mut low: f64, mut high: f64, start: f64, f: impl Fn(f64) -> (f64, f64)) -> f64 {
    let inside = |x: f64, low: f64, high: f64| x > low && x < high;
    let middle = |low: f64, high: f64| low + (high - low) / 2.0;
    let mut x = if inside(start, low, high) {
        start
    } else {
        middle(low, high)
    };
    for _ in 0..MOST_STEPS {
        let (value, slope) = f(x);
        if value < 0.0 {
            low = x;
        } else if value > 0.0 {
            high = x;
        } else {
            return x;
        }
        let newton = x - value / slope;
        let next = if inside(newton, low, high) {
            newton
        } else {
            middle(low, high)
        };
        let step = (next - x).abs();
        x = next;
        if step <= f64::EPSILON / 2.0 * x.abs() {
            break;
        }
    }
    x
}

/// Halving alone narrows any bracket used here to one number in fewer steps.
const MOST_STEPS: usize = 200;

/// `1 - sin x / x` and its slope, to full relative precision where `x` is small.
pub(super) fn less_sine_ratio(x: f64) -> (f64, f64) {
    if x >= 1.0 {
        let ratio = x.sin() / x;
        return (1.0 - ratio, (ratio - x.cos()) / x);
    }
    // x²/3! - x⁴/5! + …; at x = 1 the first term left out is below 1e-19
    let mut term = x * x / 6.0;
    let (mut value, mut slope) = (0.0, 0.0);
    for n in [2.0, 4.0, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0, 18.0] {
        value += term;
        slope += n * term;
        term *= -x * x / ((n + 2.0) * (n + 3.0));
    }
    (value, slope / x)
}

/// `1 - atan q / q` and its slope, to full relative precision where `q` is small.
pub(super) fn less_arctangent_ratio(q: f64) -> (f64, f64) {
    if q >= 0.25 {
        let ratio = q.atan() / q;
        return (1.0 - ratio, (ratio - 1.0 / (1.0 + q * q)) / q);
    }
    // q²/3 - q⁴/5 + …; at q = 1/4 the first term left out is below 1e-18
    let mut power = q * q;
    let (mut value, mut slope) = (0.0, 0.0);
    for n in [
        2.0, 4.0, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0, 18.0, 20.0, 22.0, 24.0, 26.0,
    ] {
        value += power / (n + 1.0);
        slope += n * power / (n + 1.0);
        power *= -q * q;
    }
    (value, slope / q)
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn finds_simple_steep_and_tiny_roots() {
        let check = |low, high, start, f: &dyn Fn(f64) -> (f64, f64), expected: f64| {
            assert_relative_eq!(root(low, high, start, f), expected, max_relative = 1e-15);
        };
        check(
            0.0,
            2.0,
            1.0,
            &|x| (x * x - 2.0, 2.0 * x),
            std::f64::consts::SQRT_2,
        );
        check(0.0, 1.0, 0.5, &|x| (x - 1e-20, 1.0), 1e-20);
        check(0.0, 4.0, f64::NAN, &|x| ((x - 3.0).cbrt(), f64::NAN), 3.0); // slope of no use
        check(0.0, 1.0, 0.9, &|x| (x.powi(9) - 1e-9, 9.0 * x.powi(8)), 0.1);
    }

    #[test]
    fn series_join_without_a_step() {
        for (f, at) in [
            (less_sine_ratio as fn(f64) -> (f64, f64), 1.0_f64),
            (less_arctangent_ratio, 0.25),
        ] {
            let (below, above) = (f(at.next_down()), f(at));
            assert_relative_eq!(below.0, above.0, max_relative = 1e-14);
            assert_relative_eq!(below.1, above.1, max_relative = 1e-14);
        }
    }
}
