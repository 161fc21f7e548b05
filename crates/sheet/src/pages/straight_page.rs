//! The page of one straight: a string from peg to peg, its corners, its edges.

use plan::setout::StraightWork;

use super::Job;
use super::flow::{Flow, Part};
use super::steps::{self, STEP};

pub(super) fn add(flow: &mut Flow, job: &Job<'_>, straight: &StraightWork) {
    let (first, last) = straight.straight.pegs;
    flow.start(&format!("Straight: peg {first} to peg {last}"));
    let hindered = straight
        .hindrances
        .iter()
        .filter(|hindered| hindered.stops());
    let mut parts: Vec<Part> = hindered
        .map(|hindered| {
            let sentence = hindered.sentence(&job.plan.site, &job.voice.ruler);
            Part::Paragraph(super::words::sentence(&sentence), STEP.bold())
        })
        .collect();
    parts.extend(steps::parts(job, &straight.course));
    flow.set(&parts);
}
