//! Two-tape ties: every flag of a bend where tapes from two set spots cross, a third as check.

use std::f64::consts::{FRAC_PI_4, PI};

use geometry::{Direction, Point};

use super::builder::Builder;
use super::swing::{LEAST_CROSSING, with_apex};
use super::{BendJob, NotHere};
use crate::setout::{Course, Method, Note, Spot};

/// A pair is kept for the next flag while its tapes cross at this or more, in radians: moving tapes
/// costs more than it gains. 45° to 135° is good; common practice, no source.
const GOOD: f64 = FRAC_PI_4;

/// Ties the flags of all three lines from spots that stand, at least two: of them the pair whose
/// tapes cross best. A further spot checks each flag; where there is none, the flag before it does.
///
/// The apex of the bend may be among them: it is set first then, off the chord.
///
/// # Errors
/// [`NotHere::NotSet`] for a spot that does not stand, [`NotHere::TooFewSpots`] for fewer than two,
/// [`NotHere::TiesInOneLine`] where all tapes to a flag cross at less than 5°.
pub fn course(job: &BendJob, from: &[Spot]) -> Result<Course, NotHere> {
    let mut builder = if from.contains(&Spot::Apex(job.number)) {
        with_apex(job)
    } else {
        Builder::new(&job.ground, job.ruler)
    };
    if let Some(missing) = from.iter().find(|spot| !builder.stands(**spot)) {
        return Err(NotHere::NotSet(*missing));
    }
    let spaces = job.spaces();
    let mut pair = None;
    for line in job.lines() {
        let mut before = None;
        for (spot, at) in (0..=spaces).filter_map(|nth| job.station(line, nth, spaces)) {
            if !builder.stands(spot) {
                let crosses = |pair: &[Spot; 2]| crossing(pair.map(|spot| builder.at(spot)), at);
                let best = pair
                    .filter(|pair| crosses(pair) >= GOOD)
                    .or_else(|| pairs(from).max_by(|a, b| crosses(a).total_cmp(&crosses(b))))
                    .ok_or(NotHere::TooFewSpots)?;
                let crossing = crosses(&best);
                if crossing < LEAST_CROSSING {
                    return Err(NotHere::TiesInOneLine { spot, crossing });
                }
                let third = from.iter().copied().find(|spot| !best.contains(spot));
                builder.cross(best, spot, at);
                builder.check(third.or(before).map(|third| [third, spot]).as_slice());
                pair = Some(best);
            }
            before = Some(spot);
        }
    }
    builder.note(Note::LookAlong);
    Ok(builder.bend(Method::Ties, job))
}

/// Every two of some spots, each once.
fn pairs(spots: &[Spot]) -> impl Iterator<Item = [Spot; 2]> {
    let beyond = |i: usize| spots[i + 1..].iter().copied();
    (0..spots.len()).flat_map(move |i| beyond(i).map(move |other| [spots[i], other]))
}

/// The angle in radians at which tapes from two places cross at a third, between nothing and a
/// right angle; nothing where it is one of them.
fn crossing(from: [Point; 2], at: Point) -> f64 {
    match from.map(|from| Direction::of(at - from)) {
        [Some(one), Some(other)] => {
            let turn = one.turn_to(other).abs();
            turn.min(PI - turn)
        }
        _ => 0.0,
    }
}
