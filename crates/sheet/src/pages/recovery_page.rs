//! Offset pegs before anyone digs, and how each peg and swing point is made again.

use plan::setout::{PegWork, lost_pegs_words, moved_peg_words};

use super::entry::{Entry, Label};
use super::flow::{Flow, Part};
use super::steps::STEP;
use super::table::{Content, Table};
use super::{Job, bend_page, words};

pub(super) fn add(flow: &mut Flow, job: &Job<'_>) {
    flow.start("Before anyone digs: offset pegs");
    let mut parts = Vec::new();
    let pegs = &job.work.pegs;
    if pegs.iter().any(|peg| peg.offset.is_ok()) {
        parts.push(Part::Paragraph(
            "From each peg square off the path, to the side that is told as you walk from peg 1: drive its offset peg there and write on it what the table says. It stays when the path is dug.".to_owned(),
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
    parts.push(Part::Heading("A root or a stone in its place".to_owned()));
    parts.push(Part::Paragraph(moved_peg_words(&job.voice), STEP));
    flow.set(&parts);
}

fn offsets(job: &Job<'_>) -> Table {
    let row = |peg: &PegWork| {
        let offset = peg.offset.as_ref().ok()?;
        Some(vec![
            Content::Words(peg.peg.name.clone()),
            Content::Words(format!(
                "{} to the {}",
                job.voice.taped(&offset.distance),
                offset.side.word()
            )),
            Content::Words(offset.written(&job.voice)),
            Content::Tick,
        ])
    };
    let heads = ["from", "square off, as you walk", "write on it", "done"];
    Table {
        heads: heads.map(str::to_owned).to_vec(),
        rows: job.work.pegs.iter().filter_map(row).collect(),
        names: 0,
        style: STEP,
    }
}
