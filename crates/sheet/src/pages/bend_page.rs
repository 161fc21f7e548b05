//! The page of one bend: the figures to pull, the drawing, the steps, the checks.

use plan::setout::{BendSetOut, OffsetTable, Step, SwingVerdict, Taped};
use plan::solve::Origin;
use plan::finding::Part;

use crate::document::Block;
use crate::ink::Ink;
use crate::lettering;
use crate::paper::Frame;
use crate::pen::{Pen, Style, Weight};

use super::flow::{Entry, Flow, Label};
use super::table::{Content, Table};
use super::{Job, diagram};

/// How steps are lettered: read from a clipboard on the ground.
const STEP: Style = Style::new(2.8, Weight::Regular);

/// Height of the drawing, and width of the column of figures beside it, millimetres.
const DRAWING: f64 = 84.0;
const COLUMN: f64 = 66.0;

pub(super) fn add(flow: &mut Flow, job: &Job<'_>, bend: &BendSetOut) {
    let (first, last) = bend.pegs;
    let turns = if bend.arc.turns_left() { "left" } else { "right" };
    flow.start(&format!("Bend {}: peg {first} to peg {last}, turns {turns}", bend.number));
    findings(flow, job, bend);

    let strip = flow.take(DRAWING);
    let (column, drawing) = strip.cut_right(COLUMN);
    for block in figures(&column, job, bend) {
        flow.put(block);
    }
    flow.put(diagram::drawn(&drawing, job, bend));
    flow.gap(1.5);

    let workable = bend.swing != SwingVerdict::NotWorkable;
    if workable {
        flow.heading(2, &format!("Swing from S{}", bend.number));
        flow.paragraph(&bend.swing_words(&job.voice), STEP);
        flow.list(&entries(&bend.swing_steps(&job.voice), STEP));
        flow.paragraph(&bend.rounding_words(), STEP);
        checks(flow, job, bend);
        flow.heading(2, "Or: offsets from the chord");
    } else {
        flow.heading(2, "Offsets from the chord");
        flow.paragraph(&bend.swing_words(&job.voice), STEP);
    }
    flow.list(&entries(&bend.offset_steps(&job.voice), STEP));
    for table in &bend.offsets {
        offsets(flow, job, table, bend.offsets.len() > 1);
    }
    if !workable {
        checks(flow, job, bend);
    }
}

/// Steps as numbered entries, each with its check on a line of its own.
pub(super) fn entries(steps: &[Step], style: Style) -> Vec<Entry> {
    let entry = |(index, step): (usize, &Step)| {
        let mut entry = Entry::new(Label::Number(index + 1), step.text.clone(), style);
        if let Some(check) = &step.check {
            entry.parts.push((format!("Check: {check}."), style.bold()));
        }
        entry
    };
    steps.iter().enumerate().map(entry).collect()
}

fn findings(flow: &mut Flow, job: &Job<'_>, bend: &BendSetOut) {
    let part = match job.route.origins.get(bend.piece) {
        Some(Origin::Leg(leg)) => Part::Leg(*leg),
        Some(Origin::Rounding(waypoint)) => Part::Waypoint(*waypoint),
        None => return,
    };
    let here = job.findings.iter().filter(|finding| finding.place.part == part);
    let entries: Vec<Entry> = here.map(|finding| job.entry(finding)).collect();
    if !entries.is_empty() {
        flow.list(&entries);
    }
}

/// The lengths to pull, one below the other, as large as they fit.
fn figures(frame: &Frame, job: &Job<'_>, bend: &BendSetOut) -> Vec<Block> {
    let figures: Vec<(&str, Option<&Taped>)> = if bend.swing == SwingVerdict::NotWorkable {
        vec![("Chord", Some(&bend.chord)), ("Rise at its middle", Some(&bend.rise)), ("Radius, not swung", Some(&bend.radius))]
    } else {
        vec![
            ("String, centre line", Some(&bend.radius)),
            ("String, inside edge", bend.inner.as_ref()),
            ("String, outside edge", Some(&bend.outer)),
        ]
    };
    let ruler = &job.voice.ruler;
    let says = |taped: &Option<&Taped>| taped.map_or_else(|| "none".to_owned(), |taped| ruler.text(taped.exact));
    let room = frame.width - 5.0;
    let height = figures
        .iter()
        .map(|(_, taped)| lettering::fit(&says(taped), Style::FIGURE, room).1.height)
        .fold(Style::FIGURE.height, f64::min);
    let style = Style::FIGURE.high(height);
    let each = frame.height / figures.len() as f64;
    let mut rest = *frame;
    let mut blocks = Vec::new();
    for (name, taped) in &figures {
        let (cell, below) = rest.cut_below(each);
        rest = below;
        let top = cell.start();
        let mut inks = vec![Ink::text(top.shifted(0.0, -4.0), *name, Style::BODY)];
        let (words, style) = lettering::fit(&says(taped), style, room);
        inks.push(Ink::text(top.shifted(0.0, -7.0 - style.height), words, style));
        if let (true, Some(taped)) = (job.voice.both, taped) {
            let words = ruler.companion().text(taped.exact);
            inks.push(Ink::text(top.shifted(0.0, -14.0 - style.height), words, Style::LARGE));
        }
        inks.push(Ink::line(cell.corner, cell.corner.shifted(room, 0.0), Pen::RULE));
        blocks.push(Block::Paragraph(inks));
    }
    blocks
}

fn checks(flow: &mut Flow, job: &Job<'_>, bend: &BendSetOut) {
    let length = |metres: f64| job.voice.length(metres);
    let rows = bend.checks.iter().map(|check| {
        vec![
            Content::Words(check.what.clone()),
            Content::Words(format!("{} to {}", length(check.from), length(check.to))),
            Content::Write,
            Content::Tick,
        ]
    });
    flow.heading(2, "Checks before you dig");
    flow.table(&Table {
        heads: ["measure", "must read from – to", "read", "fine"].map(str::to_owned).to_vec(),
        rows: rows.collect(),
        names: 0,
        style: STEP,
    });
}

fn offsets(flow: &mut Flow, job: &Job<'_>, table: &OffsetTable, part: bool) {
    let voice = &job.voice;
    if part {
        flow.heading(2, &format!("From {} to {}: string {}", table.from, table.to, voice.taped(&table.chord)));
    }
    let words = |taped: &Taped| Content::Words(voice.taped(taped));
    let edge = |taped: &Option<Taped>| taped.as_ref().map_or_else(|| Content::Words("–".to_owned()), words);
    let rows = table
        .rows
        .iter()
        .map(|row| vec![words(&row.along), edge(&row.inner), words(&row.centre), edge(&row.outer)]);
    flow.table(&Table {
        heads: vec![
            format!("along, zero at {}", table.from),
            "off to the inside edge".to_owned(),
            "off to the centre line".to_owned(),
            "off to the outside edge".to_owned(),
        ],
        rows: rows.collect(),
        names: 0,
        style: Style::new(3.0, Weight::Regular),
    });
}
