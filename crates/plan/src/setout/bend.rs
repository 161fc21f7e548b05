//! One bend on the ground: strings, swing point, offsets, and what rounding does to it.

use geometry::{Arc, Bend};

use super::Taped;
use super::checks::{Check, checks};
use super::offsets::{OffsetTable, tables};
use crate::document::Plan;

/// Everything needed to set out one bend.
#[derive(Clone, Debug, PartialEq)]
pub struct BendSetOut {
    /// Which piece of the centre line it is, counted from 0.
    pub piece: usize,
    /// Its number among the bends of the path, from 1.
    pub number: usize,
    /// The pegs at its ends.
    pub pegs: (usize, usize),
    /// The bend in its place.
    pub arc: Arc,
    /// Its size.
    pub bend: Bend,
    /// The width of the path in metres.
    pub width: f64,
    /// The straight distance between the end pegs.
    pub chord: Taped,
    /// From the chord's middle to the apex.
    pub rise: Taped,
    /// The string of the centre line: the radius.
    pub radius: Taped,
    /// The string of the inside edge; `None` when the edge has no radius.
    pub inner: Option<Taped>,
    /// The string of the outside edge.
    pub outer: Taped,
    /// From the chord's middle to the swing point; negative when it lies on the apex's side.
    pub apothem: Taped,
    /// Half the chord: where its middle is found.
    pub half_chord: Taped,
    /// How well the bend can be swung.
    pub swing: SwingVerdict,
    /// The angle in radians at which the strings from both end pegs cross at the swing point,
    /// between nothing and a right angle.
    pub crossing: f64,
    /// How long to scratch so that the two scratches surely cross, in metres.
    pub scratch: f64,
    /// Offsets from the chord, or from both half chords from a half circle on.
    pub offsets: Vec<OffsetTable>,
    /// What rounding the string to the tape does.
    pub rounding: RoundingEffect,
    /// What must read how much.
    pub checks: Vec<Check>,
}

/// How well a bend can be swung from its swing point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SwingVerdict {
    /// The string is short enough for one to swing it well.
    Workable,
    /// It can be done on a still day with a helper.
    Awkward,
    /// The string is too long, for the wind or for the tape: use the offsets.
    NotWorkable,
}

/// What rounding the string to the tape does to the bend, the end pegs staying.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RoundingEffect {
    /// How much longer the rounded string is, in metres; negative when shorter.
    pub string: f64,
    /// How far the apex moves away from the chord, in metres; negative towards it.
    pub apex: f64,
    /// How far the swing point moves away from the chord, in metres; negative towards it.
    pub swing_point: f64,
}

/// A string up to this radius is comfortable to swing, in metres; common practice, no source.
pub const SWING_COMFORTABLE: f64 = 10.0;

/// From this radius on sag and wind spoil a swung tape, in metres. Source: pavingexpert.com,
/// setting out 5, obstructed arcs.
pub const SWING_AWKWARD: f64 = 15.0;

/// Strings that cross at less than this, in radians, fix the point between them badly: 30°, a
/// common limit for ties. Common practice, no source.
pub const SQUARE_OFF_BELOW: f64 = std::f64::consts::FRAC_PI_6;

/// The shortest scratch that is easy to see, in metres; common practice, no source.
const SHORTEST_SCRATCH: f64 = 0.3;
const LONGEST_SCRATCH: f64 = 1.0;

impl BendSetOut {
    pub(super) fn new(
        piece: usize,
        number: usize,
        pegs: (usize, usize),
        arc: Arc,
        width: f64,
        plan: &Plan,
    ) -> Self {
        let ruler = plan.ruler();
        let bend = arc.bend();
        let taped = |length: f64| Taped::new(length, &ruler);
        let inner = bend.radius() - 0.5 * width;
        let outer = bend.radius() + 0.5 * width;
        let sine = bend.sweep().sin().abs();
        let swing = if outer > plan.set_out.longest_swing || outer > plan.tape.length {
            SwingVerdict::NotWorkable
        } else if outer > plan.set_out.comfortable {
            SwingVerdict::Awkward
        } else {
            SwingVerdict::Workable
        };
        let spread = 6.0 * super::taping_allowance(bend.radius()) / sine.max(1e-3);
        Self {
            piece,
            number,
            pegs,
            arc,
            bend,
            width,
            chord: taped(bend.chord()),
            rise: taped(bend.rise()),
            radius: taped(bend.radius()),
            inner: (inner > 0.0).then(|| taped(inner)),
            outer: taped(outer),
            apothem: taped(bend.apothem()),
            half_chord: taped(0.5 * bend.chord()),
            swing,
            crossing: sine.asin(),
            scratch: ruler.round(spread.clamp(SHORTEST_SCRATCH, LONGEST_SCRATCH)),
            offsets: tables(&bend, width, pegs, &ruler, None),
            rounding: RoundingEffect::of(&bend, ruler.round(bend.radius())),
            checks: checks(&bend, width, pegs, &ruler),
        }
    }

    /// Whether the swing point is better squared off the chord than found with two strings.
    #[must_use]
    pub fn squares_off(&self) -> bool {
        self.crossing < SQUARE_OFF_BELOW
    }

    /// Whether the outside of the bend, with the apex, lies left of the walking direction.
    #[must_use]
    pub fn apex_on_left(&self) -> bool {
        !self.arc.turns_left()
    }
}

impl RoundingEffect {
    /// With the end pegs kept, a rounded radius gives another rise and another apothem, on the
    /// same side of the half circle. A string shorter than half the chord cannot reach both pegs:
    /// then the bend becomes the half circle.
    pub(super) fn of(bend: &Bend, rounded: f64) -> Self {
        let half = 0.5 * bend.chord();
        let apothem = ((rounded - half) * (rounded + half)).max(0.0).sqrt();
        let apothem = if bend.apothem() < 0.0 {
            -apothem
        } else {
            apothem
        };
        // R − d, without losing the digits of a flat bend: (c/2)² / (R + d).
        let rise = if apothem < 0.0 {
            rounded - apothem
        } else {
            half * half / (rounded + apothem).max(half)
        };
        Self {
            string: rounded - bend.radius(),
            apex: rise - bend.rise(),
            swing_point: apothem - bend.apothem(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rounding_moves_the_apex_as_the_sensitivity_says() {
        // Common practice, no source: chord 84 in, rise 30 in gives a radius of 44.4 in; for each
        // unit of radius the apex moves −h/d = −2.1 units.
        let inch = 0.0254;
        let bend = Bend::from_chord_and_rise(84.0 * inch, 30.0 * inch).unwrap();
        assert!((bend.radius() / inch - 44.4).abs() < 1e-9);
        let effect = RoundingEffect::of(&bend, bend.radius() + 0.001 * inch);
        assert!((effect.apex / effect.string + 30.0 / 14.4).abs() < 1e-3);
        assert!((effect.swing_point / effect.string - 44.4 / 14.4).abs() < 1e-3);
    }

    #[test]
    fn a_string_too_short_for_the_pegs_gives_the_half_circle() {
        let bend = Bend::from_chord_and_rise(4.001, 2.0).unwrap();
        let effect = RoundingEffect::of(&bend, 2.0);
        assert!(effect.apex.is_finite() && effect.swing_point.abs() < 0.05);
    }
}
