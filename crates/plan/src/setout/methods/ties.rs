//! Two-tape ties: every flag of a bend where tapes from two set spots cross.

use geometry::{Direction, Point};

use super::builder::Builder;
use super::swing::LEAST_CROSSING;
use super::{BendJob, NotHere};
use crate::setout::{Course, Method, Note, Spot};

/// Ties the flags of all three lines from two spots that stand; neighbours check each other.
///
/// # Errors
/// [`NotHere::NotSet`] for a spot that does not stand, [`NotHere::TiesInOneLine`] where the tapes
/// to a flag cross at less than 5°.
pub fn course(job: &BendJob, from: [Spot; 2]) -> Result<Course, NotHere> {
    let mut builder = Builder::new(&job.ground, job.ruler);
    if let Some(missing) = from.into_iter().find(|spot| !builder.stands(*spot)) {
        return Err(NotHere::NotSet(missing));
    }
    builder.stretch(from[0], from[1]);
    let spaces = job.spaces();
    for line in job.lines() {
        let mut before = None;
        for nth in 0..=spaces {
            let Some((spot, at)) = job.station(line, nth, spaces) else {
                continue;
            };
            if !builder.stands(spot) {
                let crossing = crossing(from.map(|spot| builder.at(spot)), at);
                if crossing < LEAST_CROSSING {
                    return Err(NotHere::TiesInOneLine { spot, crossing });
                }
                builder.cross(from, spot, at);
                builder.check(before.map(|before| [before, spot]).as_slice());
            }
            before = Some(spot);
        }
    }
    builder.note(Note::LookAlong);
    Ok(builder.bend(Method::Ties, job))
}

/// The angle in radians at which tapes from two places cross at a third, between nothing and a
/// right angle; nothing where it is one of them.
fn crossing(from: [Point; 2], at: Point) -> f64 {
    match from.map(|from| Direction::of(at - from)) {
        [Some(one), Some(other)] => {
            let turn = one.turn_to(other).abs();
            turn.min(std::f64::consts::PI - turn)
        }
        _ => 0.0,
    }
}
