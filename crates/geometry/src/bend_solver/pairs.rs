//! Chord and rise of every bend that has two given figures, pair by pair.
//!
//! Throughout `x = t / 2`, `a = t / 4` and `q = tan a`, so that over the radius the chord is
//! `2 sin x`, the rise `2 sin² a`, the arc length `4 a`, the apothem `cos x`, the tangent length
//! `tan x` and the external distance `1 / cos x - 1`. Where a limit is approached, the small
//! difference from it is formed from the givens first and solved for, so that no digits are lost
//! that the givens hold.

use std::f64::consts::{FRAC_PI_2, PI};

use super::refusal::{Bound, SolveError};
use super::root::{less_arctangent_ratio, less_sine_ratio, root};
use crate::bend::Figure::{
    self, Apothem, ArcLength, Chord, ExternalDistance, Radius, Rise, Sweep, TangentLength,
};

/// Chord and rise of a bend.
type Size = (f64, f64);
type Sizes = Result<Vec<Size>, SolveError>;

/// How near, in parts of the figure, an irrational limit counts as met: a few roundings, no more.
const TOUCHING: f64 = 4.0 * f64::EPSILON;

/// All bends with both figures, least sweep first; `first` comes before `second` in [`Figure`].
pub(super) fn sizes(first: (Figure, f64), second: (Figure, f64)) -> Sizes {
    let refuse = |bound| {
        Err(SolveError::OutOfReach {
            given: second,
            bound,
            other: first,
        })
    };
    match (first, second) {
        ((Chord, c), (Rise, h)) => Ok(vec![(c, h)]),
        ((Chord, c), (Radius, r)) => {
            let half = c / 2.0;
            if r < half {
                return refuse(Bound::AtLeast(half));
            }
            let apothem = ((r - half) * (r + half)).sqrt();
            let minor = (c, half * (half / (r + apothem)));
            let major = (c, r + apothem);
            Ok(if r > half {
                vec![minor, major]
            } else {
                vec![minor]
            })
        }
        ((Chord, c), (ArcLength, s)) if s <= c => refuse(Bound::Above(c)),
        ((Chord, c), (ArcLength, s)) => Ok(vec![chord_and_arc_length(c, s)]),
        ((Chord, c), (Sweep, t)) => Ok(vec![from_chord(c, quarter_tangent(t))]),
        ((Chord, c), (Apothem, d)) => {
            let half = c / 2.0;
            let radius = half.hypot(d);
            let rise = if d > 0.0 {
                half * (half / (radius + d))
            } else {
                radius - d
            };
            Ok(vec![(c, rise)])
        }
        ((Chord, c), (TangentLength, t)) => {
            let half = c / 2.0;
            if t <= half {
                return refuse(Bound::Above(half));
            }
            Ok(vec![from_chord(c, ((t - half) / (t + half)).sqrt())])
        }
        ((Chord, c), (ExternalDistance, e)) => Ok(vec![chord_and_external(c, e)]),

        ((Rise, h), (Radius, r)) => {
            if 2.0 * r <= h {
                return refuse(Bound::Above(h / 2.0));
            }
            Ok(vec![(2.0 * (h * (2.0 * r - h)).sqrt(), h)])
        }
        ((Rise, h), (ArcLength, s)) => rise_and_arc_length(h, s).or_else(refuse),
        ((Rise, h), (Sweep, t)) => Ok(vec![from_rise(h, quarter_tangent(t))]),
        ((Rise, h), (Apothem, d)) => {
            if h + 2.0 * d <= 0.0 {
                return refuse(Bound::Above(-h / 2.0));
            }
            Ok(vec![(2.0 * (h * (h + 2.0 * d)).sqrt(), h)])
        }
        ((Rise, h), (TangentLength, t)) => rise_and_tangent(h, t).or_else(refuse),
        ((Rise, h), (ExternalDistance, e)) => {
            if e <= h {
                return refuse(Bound::Above(h));
            }
            Ok(vec![from_rise(h, ((e - h) / (e + h)).sqrt())])
        }

        ((Radius, r), (ArcLength, s)) => {
            if s >= 2.0 * PI * r || s / r >= 2.0 * PI {
                return refuse(Bound::Below(2.0 * PI * r));
            }
            Ok(vec![from_sweep(r, s / r)])
        }
        ((Radius, r), (Sweep, t)) => Ok(vec![from_sweep(r, t)]),
        ((Radius, r), (Apothem, d)) => {
            if d >= r {
                return refuse(Bound::Below(r));
            }
            if d <= -r {
                return refuse(Bound::Above(-r));
            }
            Ok(vec![(2.0 * ((r - d) * (r + d)).sqrt(), r - d)])
        }
        ((Radius, r), (TangentLength, t)) => {
            let to_meeting = r.hypot(t);
            Ok(vec![(
                2.0 * t * (r / to_meeting),
                t / to_meeting * r * (t / (to_meeting + r)),
            )])
        }
        ((Radius, r), (ExternalDistance, e)) => {
            let to_meeting = r + e;
            let tangent = (e * (2.0 * r + e)).sqrt();
            Ok(vec![(
                2.0 * tangent * (r / to_meeting),
                e * (r / to_meeting),
            )])
        }

        ((ArcLength, s), (Sweep, t)) => Ok(vec![from_sweep(s / t, t)]),
        ((ArcLength, s), (Apothem, d)) => arc_length_and_apothem(s, d).or_else(refuse),
        ((ArcLength, s), (TangentLength, t)) => {
            if t <= s / 2.0 {
                return refuse(Bound::Above(s / 2.0));
            }
            Ok(vec![arc_length_and_tangent(s, t)])
        }
        ((ArcLength, s), (ExternalDistance, e)) => Ok(vec![arc_length_and_external(s, e)]),

        ((Sweep, t), (Apothem, d)) => sweep_and_apothem(t, d),
        ((Sweep, t), (TangentLength | ExternalDistance, _)) if quarter_tangent(t) >= 1.0 => {
            Err(SolveError::TangentsNeverMeet {
                figure: second.0,
                other: (Sweep, t),
            })
        }
        ((Sweep, t), (TangentLength, tangent)) => Ok(vec![from_chord(
            2.0 * tangent * (t / 2.0).cos(),
            quarter_tangent(t),
        )]),
        ((Sweep, t), (ExternalDistance, e)) => {
            Ok(vec![from_rise(e * (t / 2.0).cos(), quarter_tangent(t))])
        }

        ((Apothem, d), (TangentLength | ExternalDistance, _)) if d <= 0.0 => {
            Err(SolveError::TangentsNeverMeet {
                figure: second.0,
                other: (Apothem, d),
            })
        }
        ((Apothem, d), (TangentLength, t)) => {
            // T / d = sin x / cos² x, a quadratic in sin x
            let k = 2.0 * (t / d);
            let sum = 1.0 + k.hypot(1.0);
            let (sine, cosine) = (k / sum, (2.0 / sum).sqrt());
            Ok(vec![(
                2.0 * t * cosine,
                t * cosine * (sine / (1.0 + cosine)),
            )])
        }
        ((Apothem, d), (ExternalDistance, e)) => {
            // E / d = (1 - cos x) / cos² x, a quadratic in cos x
            let cosine = 2.0 / (1.0 + (1.0 + 4.0 * (e / d)).sqrt());
            Ok(vec![(2.0 * (d * e * (1.0 + cosine)).sqrt(), e * cosine)])
        }

        ((TangentLength, t), (ExternalDistance, e)) => {
            if e >= t {
                return refuse(Bound::Below(t));
            }
            let q = e / t; // tan(t / 4), since E / T = (1 - cos x) / sin x
            Ok(vec![from_chord(
                2.0 * (t - e) * ((1.0 + q) / (1.0 + q * q)),
                q,
            )])
        }

        // not first in order, or twice the same: the caller sees to both
        _ => Err(SolveError::SameFigure { figure: first.0 }),
    }
}

fn from_chord(chord: f64, q: f64) -> Size {
    (chord, chord / 2.0 * q)
}

fn from_rise(rise: f64, q: f64) -> Size {
    (2.0 * rise / q, rise)
}

fn from_sweep(radius: f64, sweep: f64) -> Size {
    let q = quarter_tangent(sweep);
    let chord = 4.0 * radius / (q + 1.0 / q);
    (chord, chord / 2.0 * q)
}

/// `tan(t / 4)`; exactly 1 at a half turn, which no `f64` equals.
fn quarter_tangent(sweep: f64) -> f64 {
    if (sweep - PI).abs() <= TOUCHING * PI {
        1.0
    } else {
        (sweep / 4.0).tan()
    }
}

/// Makes a half circle of what differs from one by rounding alone.
fn half_circle_if_near((chord, rise): Size) -> Size {
    let half = chord / 2.0;
    (
        chord,
        if (rise - half).abs() <= TOUCHING * half {
            half
        } else {
            rise
        },
    )
}

/// `sin x / x = c / s`, solved as `1 - sin x / x = (s - c) / s`.
fn chord_and_arc_length(c: f64, s: f64) -> Size {
    let short = (s - c) / s;
    let x = root(0.0, PI, (6.0 * short).sqrt(), |x| {
        let (value, slope) = less_sine_ratio(x);
        (value - short, slope)
    });
    let sine = (x / 2.0).sin();
    half_circle_if_near((c, s * sine * (sine / x)))
}

/// `q (1 + q²) / (1 - q²) = 2 E / c`, a cubic that only rises.
fn chord_and_external(c: f64, e: f64) -> Size {
    let k = 2.0 * (e / c);
    let q = root(0.0, 1.0, k.min(0.9), |q| {
        (
            q * (1.0 + q * q) - k * (1.0 - q) * (1.0 + q),
            1.0 + 3.0 * q * q + 2.0 * k * q,
        )
    });
    from_chord(c, q)
}

/// `sin² a / 2 a = h / s`: rises to a crest past the half circle, then falls to `1 / π` at the
/// whole turn, the value of the half circle.
fn rise_and_arc_length(h: f64, s: f64) -> Result<Vec<Size>, Bound> {
    let crest = root(1.0, 1.3, 1.17, |a| {
        (a.sin() - 2.0 * a * a.cos(), 2.0 * a * a.sin() - a.cos())
    });
    let greatest = crest.sin() * (crest.sin() / crest) / 2.0;
    let size = |a: f64| from_rise(h, a.tan());
    let excess = (h / s - greatest) / greatest;
    if excess > TOUCHING {
        return Err(Bound::AtLeast(h / greatest));
    }
    if excess >= -TOUCHING {
        return Ok(vec![size(crest)]);
    }
    let k = 2.0 * (h / s);
    let over_half_circle = h.mul_add(PI, -s) / h + PI_REST;
    if over_half_circle.abs() <= TOUCHING {
        return Ok(vec![(2.0 * h, h)]);
    }
    let near = root(0.0, crest, k, |a| {
        let (sine, cosine) = a.sin_cos();
        let ratio = sine / a;
        (sine * ratio - k, ratio * (2.0 * cosine - ratio))
    });
    if over_half_circle < 0.0 {
        return Ok(vec![size(near)]);
    }
    // Before the whole turn, solved for what is missing from it: a = π / 2 - m.
    let missing = root(0.0, FRAC_PI_2 - crest, over_half_circle / 2.0, |m| {
        let (sine, cosine) = m.sin_cos();
        let k = s / h;
        (
            2.0 * m - over_half_circle - k * sine * sine,
            2.0 - 2.0 * k * sine * cosine,
        )
    });
    Ok(vec![size(near), (2.0 * h * missing.tan(), h)])
}

/// What `f64` π lacks of π.
const PI_REST: f64 = 1.224_646_799_147_353_2e-16;

/// `q (1 - q²) / (1 + q²) = h / T`: rises to a crest and falls to nothing at the half circle.
fn rise_and_tangent(h: f64, t: f64) -> Result<Vec<Size>, Bound> {
    let crest = (5.0_f64.sqrt() - 2.0).sqrt();
    let greatest = crest * ((5.0_f64.sqrt() - 1.0) / 2.0);
    let k = h / t;
    let excess = (k - greatest) / greatest;
    if excess > TOUCHING {
        return Err(Bound::AtLeast(h / greatest));
    }
    if excess >= -TOUCHING {
        return Ok(vec![from_rise(h, crest)]);
    }
    let near = root(0.0, crest, k, |q| {
        (
            q * (1.0 - q * q) - k * (1.0 + q * q),
            1.0 - 3.0 * q * q - 2.0 * k * q,
        )
    });
    // Solved for what is missing from the half circle: q = 1 - m.
    let missing = root(0.0, 1.0 - crest, k, |m| {
        let q = 1.0 - m;
        (
            m * (1.0 + q) * q - k * (1.0 + q * q),
            3.0 * q * q - 1.0 + 2.0 * k * q,
        )
    });
    Ok(vec![from_rise(h, near), from_rise(h, 1.0 - missing)])
}

/// `cos x / 2 x = d / s`: falls from without end, through nothing at the half circle, to a trough,
/// then rises to `-1 / 2 π` at the whole turn.
fn arc_length_and_apothem(s: f64, d: f64) -> Result<Vec<Size>, Bound> {
    let size = |x: f64| {
        let (radius, sine) = (s / x / 2.0, (x / 2.0).sin());
        (2.0 * radius * x.sin(), 2.0 * radius * sine * sine)
    };
    if d == 0.0 {
        return Ok(vec![(2.0 * (s / PI), s / PI)]);
    }
    let trough = root(FRAC_PI_2, PI, 2.8, |x| {
        (-x * x.sin() - x.cos(), -x * x.cos())
    });
    let least = trough.cos() / trough / 2.0;
    let excess = (d / s - least) / least;
    if excess > TOUCHING {
        return Err(Bound::AtLeast(s * least));
    }
    if excess >= -TOUCHING {
        return Ok(vec![size(trough)]);
    }
    let k = 2.0 * (d / s);
    let near = root(0.0, trough, 1.0 / k, |x| (k * x - x.cos(), k + x.sin()));
    let under_whole_turn = d.mul_add(2.0 * PI, s) / s + d / s * (2.0 * PI_REST);
    if under_whole_turn >= -TOUCHING {
        return Ok(vec![size(near)]);
    }
    // Before the whole turn, solved for what is missing from it: x = π - m.
    let missing = root(0.0, PI - trough, under_whole_turn / k, |m| {
        let sine = (m / 2.0).sin();
        (under_whole_turn - k * m - 2.0 * sine * sine, -k - m.sin())
    });
    let radius = s / (PI - missing) / 2.0;
    let cosine = (missing / 2.0).cos();
    Ok(vec![
        size(near),
        (2.0 * radius * missing.sin(), 2.0 * radius * cosine * cosine),
    ])
}

/// `2 (1 - q²) atan q / q = s / T`, solved as its difference from 2.
fn arc_length_and_tangent(s: f64, t: f64) -> Size {
    let short = (t - s / 2.0) / t;
    let q = root(0.0, 1.0, (0.75 * short).sqrt(), |q| {
        let (value, slope) = less_arctangent_ratio(q);
        let ratio = 1.0 - value;
        (
            value + q * q * ratio - short,
            slope + 2.0 * q * ratio - q * q * slope,
        )
    });
    from_radius(s / q.atan() / 4.0, q)
}

/// `q / (2 (1 - q²)) / (atan q / q) = E / s`, which only rises.
fn arc_length_and_external(s: f64, e: f64) -> Size {
    let k = 2.0 * (e / s);
    let q = root(0.0, 1.0, k.min(0.9), |q| {
        let (value, slope) = less_arctangent_ratio(q);
        let (ratio, minus) = (1.0 - value, (1.0 - q) * (1.0 + q));
        (
            q - k * minus * ratio,
            1.0 + k * (2.0 * q * ratio + minus * slope),
        )
    });
    from_radius(s / q.atan() / 4.0, q)
}

fn from_radius(radius: f64, q: f64) -> Size {
    from_chord(4.0 * radius / (q + 1.0 / q), q)
}

fn sweep_and_apothem(t: f64, d: f64) -> Sizes {
    let q = quarter_tangent(t);
    let is_half_circle = (q - 1.0).abs() <= 0.0;
    if is_half_circle && d == 0.0 {
        return Err(SolveError::SizeOpen);
    }
    if is_half_circle || d == 0.0 || (q < 1.0) != (d > 0.0) {
        return Err(SolveError::ApothemSide {
            sweep: t,
            apothem: d,
        });
    }
    // d = R cos x, and the chord is 2 R sin x
    Ok(vec![from_chord(2.0 * d * (t / 2.0).tan(), q)])
}
