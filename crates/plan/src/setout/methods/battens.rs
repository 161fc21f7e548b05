//! Two battens fixed at the inscribed angle and slid against two nails, for small bends.

use std::f64::consts::PI;

use super::swing::with_apex;
use super::{BendJob, NotHere};
use crate::setout::{Course, Doing, Method, Note, PathLine, Spot};
use crate::units::Units;

/// The longest chord battens serve for, in metres: one that keeps straight is not longer. Common
/// practice, no source.
pub const LONGEST_CHORD: f64 = 5.0;

/// Draws all three lines, each with its own battens, nails and apex.
///
/// # Errors
/// [`NotHere::TurnsTooFar`] beyond half a circle, [`NotHere::BattensTooLong`] where a line's chord
/// is longer than [`LONGEST_CHORD`].
pub fn course(job: &BendJob) -> Result<Course, NotHere> {
    let sweep = job.bend().sweep();
    if job.bend().rise() > 0.5 * job.bend().chord() {
        return Err(NotHere::TurnsTooFar { sweep, most: PI });
    }
    let lines: Vec<_> = job
        .lines()
        .into_iter()
        .filter_map(|line| Some((line, job.line(line)?)))
        .collect();
    let chord = lines.iter().map(|(_, arc)| arc.chord()).fold(0.0, f64::max);
    if chord > LONGEST_CHORD {
        let most = LONGEST_CHORD;
        return Err(NotHere::BattensTooLong { chord, most });
    }
    let mut builder = with_apex(job);
    let ([first, last], apex) = (job.ends(), Spot::Apex(job.number));
    for (line, arc) in lines {
        let spots = match line {
            PathLine::Centre => [first, apex, last],
            _ => [1, 2, 3].map(|nth| job.flag(line, nth)),
        };
        let places = [arc.start(), arc.apex(), arc.end()];
        for ((spot, at), beside) in spots.into_iter().zip(places).zip([first, apex, last]) {
            if !builder.stands(spot) {
                builder
                    .square([first, last], spot, at)
                    .check(&[[beside, spot]]);
            }
        }
        let [from, over, to] = spots;
        let arm = arm(arc.start().distance(arc.apex()), job);
        // The battens meet at half a turn less half the sweep.
        let brace = builder.taped(2.0 * arm * (0.25 * sweep).cos());
        let arm = builder.taped(arm);
        builder
            .does(Doing::Slide {
                from,
                over,
                to,
                arm,
                brace,
                line,
            })
            .note(Note::Battens {
                most: LONGEST_CHORD,
            });
    }
    Ok(builder.bend(Method::Battens, job))
}

/// Where the brace meets the battens: a metre or three feet from the corner, or half way to the
/// nail, on the graduation.
fn arm(to_the_nail: f64, job: &BendJob) -> f64 {
    let most: f64 = match job.ruler.units {
        Units::Metric => 1.0,
        Units::FeetInches => 3.0 * 0.3048,
    };
    let half = 0.5 * to_the_nail;
    let whole = job.ruler.round(most.min(half));
    if whole > 0.0 { whole } else { half }
}
