//! Swing: a tape hooked at the swing point strikes all three lines.

use std::f64::consts::PI;

use super::builder::Builder;
use super::{BendJob, NotHere};
use crate::setout::deed::BESIDE_THE_APEX;
use crate::setout::{Course, Doing, Method, Note, PathLine, Scratch, Spot};

/// Strings that cross at less than this, in radians (5°), fix no point: a graduation more on one
/// moves it by a dozen. Common practice asks for 30°, which is for a person to weigh.
pub(super) const LEAST_CROSSING: f64 = PI / 36.0;

/// Finds the swing point with two strings from the end pegs, checks it from the apex, and strikes.
///
/// # Errors
/// [`NotHere::StringsInOneLine`] near half a circle and on very flat bends.
pub fn course(job: &BendJob) -> Result<Course, NotHere> {
    let sine = job.bend().sweep().sin().abs();
    let crossing = sine.asin();
    if crossing < LEAST_CROSSING {
        return Err(NotHere::StringsInOneLine { crossing });
    }
    let mut builder = with_apex(job);
    let bend = job.bend();
    let scratches = Scratch::pair(
        job.ends(),
        bend.radius(),
        bend.chord(),
        &job.deviations,
        &job.ruler,
    );
    let swing = Spot::Swing(job.number);
    builder.scratched(job.ends(), swing, job.arc.centre(), Some(scratches));
    Ok(strike(job, builder, Method::Swing))
}

/// Finds the swing point square off the middle of the chord, checks it from pegs and apex, and
/// strikes.
///
/// # Errors
/// None: it always can be written; whether it can be reached is for the ground to say.
pub fn squared_off(job: &BendJob) -> Result<Course, NotHere> {
    let mut builder = with_apex(job);
    let swing = Spot::Swing(job.number);
    builder.square(job.ends(), swing, job.arc.centre());
    Ok(strike(job, builder, Method::SwingSquaredOff))
}

/// The chord and the apex, which the methods that check by the apex begin with.
pub(super) fn with_apex(job: &BendJob) -> Builder {
    let [first, last] = job.ends();
    let apex = Spot::Apex(job.number);
    let mut builder = Builder::on_the_chord(job);
    builder
        .square([first, last], apex, job.arc.apex())
        .check(&[[first, apex], [apex, last]]);
    builder
}

fn strike(job: &BendJob, mut builder: Builder, method: Method) -> Course {
    let [first, last] = job.ends();
    let (swing, apex) = (Spot::Swing(job.number), Spot::Apex(job.number));
    builder
        .check(&[[swing, first], [swing, last], [swing, apex]])
        .note(Note::NotStretching);
    if let Some(mark) = job.swing_mark {
        builder.check(&[[mark, swing]]);
    }
    for line in job.lines() {
        let Some(arc) = job.line(line) else { continue };
        let radius = builder.taped(arc.radius());
        builder.does(Doing::Strike {
            about: swing,
            radius,
            from: first,
            to: last,
            left: job.arc.turns_left(),
            line,
        });
        if line == PathLine::Centre {
            builder.note(Note::OverTheApex);
        }
    }
    for line in [PathLine::Inside, PathLine::Outside] {
        if let Some(arc) = job.line(line) {
            builder
                .along([swing, apex], job.flag(line, BESIDE_THE_APEX), arc.apex())
                .note(Note::OnTheLine);
        }
    }
    if job.line(PathLine::Inside).is_none() {
        builder.note(Note::NoInsideEdge);
    }
    builder.bend(method, job)
}
