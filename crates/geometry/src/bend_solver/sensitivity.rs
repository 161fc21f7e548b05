//! How far an answer moves when a given figure does.

use super::Answer;
use crate::bend::{Bend, Figure};
use crate::bend_solver::root::less_arctangent_ratio;

/// The answer with its sensitivities: the two givens as functions of radius and
/// `q = tan(t / 4)`, their two-by-two system solved for the radius.
pub(super) fn answer(bend: Bend, first: (Figure, f64), second: (Figure, f64)) -> Answer {
    let radius = bend.radius();
    let q = 2.0 * bend.rise() / bend.chord();
    let (radius_per_first, radius_per_second) = match (first.0, second.0) {
        (Figure::Radius, _) => (1.0, 0.0),
        (_, Figure::Radius) => (0.0, 1.0),
        _ => {
            let (a, b) = (share(first.0, q), share(second.0, q));
            let determinant = determinant(&a, &b);
            // The sweep does not grow with the radius, so its row has no factor of R to share.
            let unit = |figure: Figure| if figure.is_angle() { radius } else { 1.0 };
            (
                b.per_q / determinant * unit(first.0),
                -a.per_q / determinant * unit(second.0),
            )
        }
    };
    let magnified =
        ((radius_per_first * first.1).abs() + (radius_per_second * second.1).abs()) / radius;
    let magnified = if two_answers_can_meet(first.0, second.0) {
        // where they meet, half of the digits still hold
        magnified.min(1.0 / f64::EPSILON.sqrt())
    } else {
        magnified
    };
    let digits = (Answer::ALL_DIGITS - magnified.log10()).clamp(0.0, Answer::ALL_DIGITS);
    Answer {
        bend,
        radius_per_first,
        radius_per_second,
        digits,
    }
}

/// A figure's value for a radius of one, and how it grows with `q`.
struct Share {
    /// The figure over the radius; 0 for the sweep, which no radius changes.
    per_radius: f64,
    /// `q` times the derivative by `q`, over the radius.
    per_q: f64,
    /// `per_q / per_radius = power + excess`: a round part that cancels, and the rest to full
    /// precision. `None` for the sweep and the apothem, where the ratio can be without end.
    growth: Option<(f64, f64)>,
}

fn share(figure: Figure, q: f64) -> Share {
    let plus = 1.0 + q * q;
    let minus = (1.0 - q) * (1.0 + q);
    let is_flat = q < 0.5; // what cancels differs between flat bends and the others
    let grown = |per_radius: f64, power: f64, excess: f64| Share {
        per_radius,
        per_q: per_radius * (power + excess),
        growth: Some((power, excess)),
    };
    let within = -2.0 * q * q / plus;
    let beyond = 2.0 * q * q / minus;
    match figure {
        Figure::Chord if is_flat => grown(4.0 * q / plus, 1.0, within),
        Figure::Chord => grown(4.0 * q / plus, 0.0, minus / plus),
        Figure::Rise if is_flat => grown(2.0 * q * q / plus, 2.0, within),
        Figure::Rise => grown(2.0 * q * q / plus, 0.0, 2.0 / plus),
        Figure::Radius => grown(1.0, 0.0, 0.0),
        Figure::ArcLength if is_flat => {
            // q / ((1 + q²) atan q) - 1
            let (short, _) = less_arctangent_ratio(q);
            let ratio = 1.0 - short;
            grown(
                4.0 * q.atan(),
                1.0,
                (short - q * q * ratio) / (plus * ratio),
            )
        }
        Figure::ArcLength => grown(4.0 * q.atan(), 0.0, q / plus / q.atan()),
        Figure::Sweep => Share {
            per_radius: 0.0,
            per_q: 4.0 * q / plus,
            growth: None,
        },
        Figure::Apothem => Share {
            per_radius: minus / plus,
            per_q: -4.0 * (q / plus) * (q / plus),
            growth: None,
        },
        Figure::TangentLength => grown(2.0 * q / minus, 1.0, beyond),
        Figure::ExternalDistance => grown(2.0 * q * q / minus, 2.0, beyond),
    }
}

fn determinant(a: &Share, b: &Share) -> f64 {
    match (a.growth, b.growth) {
        (Some((power_a, excess_a)), Some((power_b, excess_b))) => {
            a.per_radius * b.per_radius * ((power_b - power_a) + (excess_b - excess_a))
        }
        _ => a.per_radius * b.per_q - b.per_radius * a.per_q,
    }
}

fn two_answers_can_meet(first: Figure, second: Figure) -> bool {
    matches!(
        (first.min(second), first.max(second)),
        (Figure::Rise, Figure::ArcLength | Figure::TangentLength)
            | (Figure::ArcLength, Figure::Apothem)
    )
}
