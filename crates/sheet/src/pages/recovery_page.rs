//! Offset pegs before anyone digs, and how each peg and swing point is made again.

use plan::setout::{Fastening, PegWork, Spot, lost_pegs_words};

use super::entry::{Entry, Label};
use super::flow::{Flow, Part};
use super::steps::{STEP, ties_table};
use super::table::{Content, Table};
use super::{Job, bend_page, words};

pub(super) fn add(flow: &mut Flow, job: &Job<'_>) {
    flow.start("Before anyone digs: offset pegs");
    let mut parts = Vec::new();
    let pegs = &job.work.pegs;
    if pegs.iter().any(|peg| peg.offset.is_ok()) {
        let zero = match job.manner.fastening(Spot::Peg(1), false) {
            Fastening::Held => "Hold the tape's zero at each peg",
            Fastening::Hook | Fastening::Ring => "Hook the tape's ring on the nail of each peg",
            Fastening::Loop => "Loop the tape round each peg",
        };
        parts.push(Part::Paragraph(
            format!(
                "{zero} and lay it the way that is told, left and right as you walk from peg 1: drive its offset peg there and write on it what the table says. It stays when the path is dug."
            ),
            STEP,
        ));
        parts.push(Part::Table(offsets(job)));
    }
    let without = pegs.iter().filter_map(|peg| peg.offset.as_ref().err());
    let without: Vec<Entry> = without
        .map(|none| {
            let words = words::sentence(&none.words(&job.solved.surroundings));
            Entry::new(Label::Bullet, words, STEP)
        })
        .collect();
    if !without.is_empty() {
        parts.push(Part::List(without));
    }
    parts.push(Part::Heading(
        "A peg that is lost: its ties stand on page “Pegs”".to_owned(),
    ));
    parts.push(Part::List(bend_page::entries(&lost_pegs_words(), STEP)));
    flow.set(&parts);
    let swung = job.work.bends.iter().filter(|work| {
        bend_page::swings(work.way()) || work.second_way().is_some_and(bend_page::swings)
    });
    let tied = swung.filter_map(|work| work.swing_point.as_ref());
    let tied: Vec<_> = tied.filter(|tied| tied.ties.is_ok()).collect();
    if !tied.is_empty() {
        let rows = tied.into_iter().map(|tied| (tied, tied.name.clone()));
        flow.set(&[
            Part::Heading("A swing point that is lost".to_owned()),
            Part::Table(ties_table(job, "point", rows)),
        ]);
    }
}

fn offsets(job: &Job<'_>) -> Table {
    let fastening = job.manner.fastening(Spot::Peg(1), false);
    let row = |peg: &PegWork| {
        let offset = peg.offset.as_ref().ok()?;
        Some(vec![
            Content::Words(peg.peg.name.clone()),
            Content::Words(offset.way_words()),
            Content::Words(job.manner.read(&offset.distance, fastening)),
            Content::Words(offset.written(&job.voice)),
            Content::Tick,
        ])
    };
    let heads = ["from", "lay the tape", "at", "write on it", "done"];
    Table {
        heads: heads.map(str::to_owned).to_vec(),
        rows: job.work.pegs.iter().filter_map(row).collect(),
        names: 0,
        style: STEP,
    }
}
