//! The pegs and swing points, each measured from the base line and tied to both its ends.

use plan::setout::{Placing, Taped};

use crate::pen::{Style, Weight};

use super::flow::{Flow, Part};
use super::table::{Content, Table};
use super::{Job, words};

/// How the tables are lettered.
const TABLE: Style = Style::new(3.0, Weight::Regular);

pub(super) fn add(flow: &mut Flow, job: &Job<'_>) {
    let (set, voice) = (job.set, &job.voice);
    let base = &set.base;
    flow.start("Pegs from the base line");
    let mut parts = vec![Part::Paragraph(
        format!(
            "The base line runs from {} (the start) to {} (the end). It is {} long and must read {}.",
            base.from_name,
            base.to_name,
            voice.taped(&base.length),
            base.check(voice)
        ),
        Style::LARGE.bold(),
    )];
    parts.push(Part::Paragraph(
        format!(
            "Along: measured on the base line from {}; a minus lies behind it, more than the line is long beyond its end. Off: square to the base line; \
             left and right as one looks from the start to the end. Ties: straight from the start and from the end, to check by, or to set a peg by \
             where the square is in the way of something. All figures are level distances, to the nearest {}.",
            base.from_name,
            voice.ruler.graduation.label()
        ),
        Style::BODY,
    ));
    parts.push(placings(job, "peg", &set.pegs));
    if !set.swing_points.is_empty() {
        parts.push(Part::Heading("Swing points".to_owned()));
        parts.push(Part::Paragraph(
            "To check by: each is found on the page of its bend, after the pegs stand.".to_owned(),
            Style::BODY,
        ));
        parts.push(placings(job, "swing point", &set.swing_points));
    }
    parts.extend(straights(job));
    flow.set(&parts);
}

fn placings(job: &Job<'_>, what: &str, placings: &[Placing]) -> Part {
    let heads = [
        what,
        "along",
        "off",
        "tie from the start",
        "tie from the end",
        "done",
    ];
    Part::Table(Table {
        heads: heads.map(str::to_owned).to_vec(),
        rows: placings.iter().map(|placing| row(job, placing)).collect(),
        names: 0,
        style: TABLE,
    })
}

fn row(job: &Job<'_>, placing: &Placing) -> Vec<Content> {
    let voice = &job.voice;
    let words = |taped: &Taped| Content::Words(words::stacked(voice, taped.exact, ""));
    let off = &placing.off;
    let side = match off.tape {
        tape if tape > 0.0 => " left",
        tape if tape < 0.0 => " right",
        _ => "",
    };
    vec![
        Content::Words(placing.name.clone()),
        words(&placing.along),
        Content::Words(words::stacked(voice, off.exact.abs(), side)),
        words(&placing.from_start),
        words(&placing.from_end),
        Content::Tick,
    ]
}

fn straights(job: &Job<'_>) -> Vec<Part> {
    if job.set.straights.is_empty() {
        return Vec::new();
    }
    let heads = ["straight", "must read", "read", "done"];
    let rows = job.set.straights.iter().map(|straight| {
        vec![
            Content::Words(format!(
                "peg {} to peg {}",
                straight.pegs.0, straight.pegs.1
            )),
            Content::Words(job.voice.taped(&straight.length)),
            Content::Write,
            Content::Tick,
        ]
    });
    let table = Table {
        heads: heads.map(str::to_owned).to_vec(),
        rows: rows.collect(),
        names: 0,
        style: TABLE,
    };
    vec![Part::Heading("Straights".to_owned()), Part::Table(table)]
}
