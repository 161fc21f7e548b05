//! Offsets from the tangents: from each end peg to the apex, square off the line that touches the bend there.

use std::f64::consts::PI;

use super::builder::Builder;
use super::{BendJob, NotHere};
use crate::setout::offsets::{MOST_TYPED, step};
use crate::setout::{Course, Method, Note, PathLine, SQUARE_OFF_BELOW, Spot};

/// Bends that turn further than this (150°) have tangents that meet nearly four radii out.
const FURTHEST: f64 = PI * 5.0 / 6.0;

/// Flags on all three lines at round distances from both pegs along the tangents.
///
/// # Errors
/// [`NotHere::TurnsTooFar`] from 150° on.
pub fn course(job: &BendJob) -> Result<Course, NotHere> {
    let mut builder = Builder::on_the_chord(job);
    let meet = tangents_meet(job, &mut builder)?;
    let apex = Spot::Apex(job.number);
    let [first, last] = job.ends();
    let step = match job.spacing {
        None => step(&job.bend(), job.ruler.units),
        Some(typed) => typed.max(job.arc.length() / f64::from(MOST_TYPED)),
    };
    let lines: Vec<_> = job
        .lines()
        .into_iter()
        .filter_map(|line| Some((line, job.line(line)?)))
        .collect();
    let sine = (0.5 * job.bend().sweep()).sin();
    // On each line the apex is farther along the tangent than its last flag, by some way.
    let stops = |radius: f64| {
        (0_u32..).take_while(move |nth| f64::from(*nth) * step < radius * sine - 0.25 * step)
    };
    let most = lines
        .iter()
        .map(|(_, arc)| stops(arc.radius()).count())
        .max();
    let half = most.unwrap_or_default();
    for (peg, from_the_start) in [(first, true), (last, false)] {
        for &(line, arc) in &lines {
            let mut before = (line == PathLine::Centre).then_some(peg);
            let beside = |x: f64| {
                let along = arc.radius() * (x / arc.radius()).asin();
                arc.point_at(if from_the_start {
                    along
                } else {
                    arc.length() - along
                })
            };
            for nth in stops(arc.radius()) {
                if nth == 0 && line == PathLine::Centre {
                    continue;
                }
                let from_peg = nth as usize;
                let number = if from_the_start {
                    from_peg
                } else {
                    2 * half - from_peg
                };
                let flag = job.flag(line, number);
                builder.square([peg, meet], flag, beside(f64::from(nth) * step));
                builder.check(before.map(|before| [before, flag]).as_slice());
                before = Some(flag);
            }
            let middle = match line {
                PathLine::Centre => apex,
                _ => job.flag(line, half),
            };
            if !builder.stands(middle) {
                builder.square([peg, meet], middle, arc.apex());
            }
            builder.check(before.map(|before| [before, middle]).as_slice());
            if line == PathLine::Centre && from_the_start {
                builder.check(&[[apex, last], [meet, apex]]);
            }
        }
    }
    builder.note(Note::LookAlong);
    Ok(builder.bend(Method::TangentOffsets, job))
}

/// Sets a nail where the tangents at both pegs meet: by two tapes, or square off the chord where
/// those would run nearly in one line.
///
/// # Errors
/// [`NotHere::TurnsTooFar`] from 150° on.
pub(super) fn tangents_meet(job: &BendJob, builder: &mut Builder) -> Result<Spot, NotHere> {
    let bend = job.bend();
    let sweep = bend.sweep();
    let length = match bend.tangent_length() {
        Some(length) if sweep < FURTHEST => length,
        _ => {
            return Err(NotHere::TurnsTooFar {
                sweep,
                most: FURTHEST,
            });
        }
    };
    let meet = job.aim(1);
    let at = job.arc.start() + job.arc.start_direction().unit() * length;
    if sweep < SQUARE_OFF_BELOW {
        builder.square(job.ends(), meet, at);
    } else {
        builder.cross(job.ends(), meet, at);
    }
    let checks = job.ends().map(|end| [end, meet]);
    // Two tapes that made it say nothing by being read again.
    let checks = if sweep < SQUARE_OFF_BELOW {
        &checks[..]
    } else {
        &[]
    };
    builder.check(checks).note(Note::TangentsMeet);
    Ok(meet)
}
