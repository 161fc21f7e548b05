//! The straights: a string from peg to peg, its corners, its edges.

use super::Job;
use super::flow::{Flow, Part};
use super::steps::{self, STEP};

/// So much of a straight's steps begins on the page in hand at least, millimetres.
const BEGINNING: f64 = 60.0;

pub(super) fn add(flow: &mut Flow, job: &Job<'_>) {
    let straights = &job.work.straights;
    if straights.is_empty() {
        return;
    }
    flow.start("Straights");
    for straight in straights {
        let (first, last) = straight.straight.pegs;
        flow.need(BEGINNING);
        flow.set(&[Part::Heading(format!("Peg {first} to peg {last}"))]);
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
}
