//! What rounding one taped figure of a bend does to its line on the ground, all others being exact.

use geometry::{Bend, Figure};

use super::bend::RoundingEffect;
use crate::units::Ruler;

/// What one figure does when it is taken as the tape reads it. All lengths are metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FigureEffect {
    /// How much longer the tape reads it; negative when shorter.
    pub by: f64,
    /// How far the apex moves away from the chord, square; negative towards it.
    pub apex_out: f64,
    /// How far the apex, and the middle of the chord with it, moves along the chord, away from the
    /// first peg.
    pub apex_along: f64,
    /// How far the last peg moves along the chord, away from the first.
    pub last_peg: f64,
    /// How far outside both end pegs the swung line passes; negative inside.
    pub past_pegs: f64,
}

/// What rounding one taped figure of a bend to the tape does; `None` for a figure that no tape
/// reads off in setting out, and where the rounded figure gives no bend.
///
/// * The chord: the first peg stands and the last is set so far from it. The rise is kept, so that
///   the apex goes half as far along.
/// * The rise: the end pegs stand; the apex is set so far off the middle.
/// * The radius: the end pegs stand and the swing point is found by two strings of it.
/// * The apothem: the swing point is squared off the middle of the chord and the string swung from
///   there has the exact radius. The whole line moves with the swing point; square to itself it moves
///   by all of that at the apex and by d/R of it at the end pegs.
///
/// Closed forms, derived.
///
/// ```
/// use geometry::{Bend, Figure};
/// use plan::setout::effect_of_rounding;
/// use plan::units::{Ruler, Units};
///
/// let bend = Bend::from_chord_and_rise(6.0, 0.803)?;
/// let effect = effect_of_rounding(&bend, Figure::Rise, &Ruler::new(Units::Metric)).unwrap();
/// assert!((effect.apex_out - 0.002).abs() < 1e-12); // 0.805 m on a tape of 5 mm
/// # Ok::<(), geometry::BendError>(())
/// ```
#[must_use]
pub fn effect_of_rounding(bend: &Bend, figure: Figure, ruler: &Ruler) -> Option<FigureEffect> {
    let exact = match figure {
        Figure::Chord | Figure::Rise | Figure::Radius | Figure::Apothem => bend.figure(figure)?,
        _ => return None,
    };
    let rounded = ruler.round(exact);
    let by = rounded - exact;
    let still = FigureEffect {
        by,
        apex_out: 0.0,
        apex_along: 0.0,
        last_peg: 0.0,
        past_pegs: 0.0,
    };
    Some(match figure {
        Figure::Chord => {
            Bend::from_chord_and_rise(rounded, bend.rise()).ok()?;
            FigureEffect {
                apex_along: 0.5 * by,
                last_peg: by,
                ..still
            }
        }
        Figure::Rise => {
            Bend::from_chord_and_rise(bend.chord(), rounded).ok()?;
            FigureEffect {
                apex_out: by,
                ..still
            }
        }
        Figure::Radius => FigureEffect {
            apex_out: RoundingEffect::of(bend, rounded).apex,
            ..still
        },
        _ => FigureEffect {
            apex_out: -by,
            past_pegs: -by * bend.apothem() / bend.radius(),
            ..still
        },
    })
}
