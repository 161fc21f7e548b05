//! The pegs and swing points, each measured from the base line and tied to both its ends.

use plan::setout::{Placing, Taped};

use crate::pen::Style;

use super::Job;
use super::flow::Flow;
use super::table::{Content, Table};

pub(super) fn add(flow: &mut Flow, job: &Job<'_>) {
    let (set, voice) = (job.set, &job.voice);
    let base = &set.base;
    flow.start("Pegs from the base line");
    flow.paragraph(
        &format!(
            "The base line runs from {} (the start) to {} (the end). It must read {}.",
            base.from_name,
            base.to_name,
            voice.taped(&base.length)
        ),
        Style::LARGE.bold(),
    );
    flow.paragraph(
        &format!(
            "Along: measured on the base line from {}; a minus is behind it. Off: square to the base line; left and right as one looks \
             from the start to the end. Ties: straight from the start and from the end, to check by. All figures are level distances, to the nearest {}.",
            base.from_name,
            voice.ruler.graduation.label()
        ),
        Style::BODY,
    );
    let heads = ["peg", "along", "off", "tie from the start", "tie from the end", "done"];
    flow.table(&Table {
        heads: heads.map(str::to_owned).to_vec(),
        rows: set.pegs.iter().chain(&set.swing_points).map(|placing| row(job, placing)).collect(),
        names: 0,
        style: Style::new(3.0, crate::pen::Weight::Regular),
    });
    if !set.swing_points.is_empty() {
        flow.paragraph(
            "S1, S2 and so on are the swing points of the bends, in walking order; each is found again on its bend's page.",
            Style::BODY,
        );
    }
    straights(flow, job);
}

fn row(job: &Job<'_>, placing: &Placing) -> Vec<Content> {
    let voice = &job.voice;
    let words = |taped: &Taped| Content::Words(voice.taped(taped));
    let off = &placing.off;
    let side = match off.tape {
        tape if tape > 0.0 => " left",
        tape if tape < 0.0 => " right",
        _ => "",
    };
    vec![
        Content::Words(placing.name.clone()),
        words(&placing.along),
        Content::Words(format!("{}{side}", voice.length(off.exact.abs()))),
        words(&placing.from_start),
        words(&placing.from_end),
        Content::Tick,
    ]
}

fn straights(flow: &mut Flow, job: &Job<'_>) {
    if job.set.straights.is_empty() {
        return;
    }
    flow.heading(2, "Straights");
    let heads = ["straight", "must read", "read", "done"];
    let rows = job.set.straights.iter().map(|straight| {
        vec![
            Content::Words(format!("peg {} to peg {}", straight.pegs.0, straight.pegs.1)),
            Content::Words(job.voice.taped(&straight.length)),
            Content::Write,
            Content::Tick,
        ]
    });
    flow.table(&Table {
        heads: heads.map(str::to_owned).to_vec(),
        rows: rows.collect(),
        names: 0,
        style: Style::new(3.0, crate::pen::Weight::Regular),
    });
}
