//! Successive chords: each chord carried on by its own length and pulled in.

use super::BendJob;
use super::builder::Builder;
use super::edges::off_the_centre_line;
use super::tangent_offsets::tangents_meet;
use crate::setout::{Course, Method, Note, PathLine, Spot};

/// Walks along the bend by equal chords `c`: the first flag stands `c²/2R` off the tangent, every
/// further one where a chord meets the `c²/R` by which it leaves the chord before, carried on.
///
/// Where the tangents do not meet ahead, the first flag is tied from both pegs. Errors add up along
/// the walk, which the reading to the last peg shows.
#[must_use]
pub fn course(job: &BendJob) -> Course {
    let mut builder = Builder::on_the_chord(job);
    let [first, last] = job.ends();
    let meet = tangents_meet(job, &mut builder).ok();
    let spaces = job.spaces();
    let station = |nth: u32| job.station(PathLine::Centre, nth, spaces);
    let mut walked = vec![first];
    for (nth, (flag, at)) in (1..spaces).filter_map(|nth| Some((nth, station(nth)?))) {
        match (&walked[..], meet) {
            ([.., back, here], _) => {
                let carried = builder.at(*here) + (builder.at(*here) - builder.at(*back));
                let nail = job.aim(nth as usize);
                let (back, here) = (*back, *here);
                builder.along([back, here], nail, carried).note(Note::Aims);
                builder.cross([here, nail], flag, at);
            }
            (_, Some(meet)) => {
                builder
                    .square([first, meet], flag, at)
                    .check(&[[first, flag]]);
            }
            _ => {
                builder.cross([first, last], flag, at);
            }
        }
        if flag == Spot::Apex(job.number) {
            builder.check(&[[first, flag], [flag, last]]);
        }
        walked.push(flag);
    }
    if let Some(&flag) = walked.last() {
        builder.check(&[[flag, last]]).note(Note::Closes);
    }
    off_the_centre_line(job, &mut builder, spaces);
    builder.bend(Method::SuccessiveChords, job)
}
