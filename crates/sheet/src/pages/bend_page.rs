//! The page of one bend: the figures to pull, the drawing, the steps, the checks.

use plan::finding;
use plan::setout::{BendSetOut, OffsetTable, Step, SwingVerdict, Taped};
use plan::solve::Origin;

use crate::document::Block;
use crate::ink::Ink;
use crate::lettering;
use crate::paper::Frame;
use crate::pen::{Style, Weight};

use super::entry::{Entry, Label};
use super::flow::{Flow, Part};
use super::table::{Content, Table};
use super::{Job, diagram};

/// How steps are lettered: read from a clipboard on the ground.
const STEP: Style = Style::new(2.8, Weight::Regular);

/// Height of the drawing, the least and the most of it, and width of the column of figures beside
/// it, millimetres.
const DRAWING: f64 = 86.0;
const LEAST_DRAWING: f64 = 42.0;
const MOST_DRAWING: f64 = 110.0;
const COLUMN: f64 = 66.0;
/// Free paper below the drawing, millimetres.
const AROUND: f64 = 1.5;

pub(super) fn add(flow: &mut Flow, job: &Job<'_>, bend: &BendSetOut) {
    let (first, last) = bend.pegs;
    let turns = if bend.arc.turns_left() {
        "left"
    } else {
        "right"
    };
    flow.start(&format!(
        "Bend {}: peg {first} to peg {last}, turns {turns}",
        bend.number
    ));
    let findings = findings(job, bend);
    if !findings.is_empty() {
        flow.set(&[Part::List(findings)]);
    }
    let (first_page, then) = if bend.swing == SwingVerdict::NotWorkable {
        let mut parts = offsets(job, bend, "Offsets from the chord");
        parts.extend(checks(job, bend));
        (parts, Vec::new())
    } else {
        (
            swing(job, bend),
            offsets(job, bend, "Or: offsets from the chord"),
        )
    };
    let height = drawing_height(flow, job.voice.both, &first_page);
    flow.need(height);
    let strip = flow.take(height.min(flow.room().height));
    let (column, drawing) = strip.cut_right(COLUMN);
    for block in figures(&column, job, bend) {
        flow.put(block);
    }
    flow.put(diagram::drawn(&drawing, job, bend));
    flow.gap(AROUND);
    flow.set(&first_page);
    flow.set(&then);
}

/// The drawing gives way as long as that keeps the method and its checks on one page; where they go
/// on anyway, it takes what the method leaves free.
fn drawing_height(flow: &Flow, both: bool, parts: &[Part]) -> f64 {
    let least = if both {
        LEAST_DRAWING + 10.0
    } else {
        LEAST_DRAWING
    };
    let left = |parts: &[Part]| {
        let taken: f64 = parts.iter().map(|part| flow.height(part)).sum();
        flow.room().height - AROUND - taken
    };
    let beside_all = left(parts);
    if beside_all >= least {
        return beside_all.min(DRAWING);
    }
    let without_checks = parts.len().saturating_sub(2);
    left(parts.get(..without_checks).unwrap_or_default()).clamp(DRAWING, MOST_DRAWING)
}

fn swing(job: &Job<'_>, bend: &BendSetOut) -> Vec<Part> {
    let mut parts = vec![Part::Heading(format!("Swing from S{}", bend.number))];
    if bend.swing == SwingVerdict::Awkward {
        parts.push(Part::Paragraph(bend.swing_words(&job.voice), STEP));
    }
    parts.push(Part::List(entries(&bend.swing_steps(&job.voice), STEP)));
    parts.push(Part::Paragraph(bend.rounding_words(&job.voice), STEP));
    parts.extend(checks(job, bend));
    parts
}

fn offsets(job: &Job<'_>, bend: &BendSetOut, heading: &str) -> Vec<Part> {
    let mut parts = vec![Part::Heading(heading.to_owned())];
    if bend.swing == SwingVerdict::NotWorkable {
        parts.push(Part::Paragraph(bend.swing_words(&job.voice), STEP));
    }
    parts.push(Part::List(entries(&bend.offset_steps(&job.voice), STEP)));
    for table in &bend.offsets {
        if bend.offsets.len() > 1 {
            let string = job.voice.taped(&table.chord);
            parts.push(Part::Heading(format!(
                "From {} to {}: string {string}",
                table.from, table.to
            )));
        }
        parts.push(Part::Table(offset_table(job, table)));
    }
    parts
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

fn findings(job: &Job<'_>, bend: &BendSetOut) -> Vec<Entry> {
    let part = match job.route.origins.get(bend.piece) {
        Some(Origin::Leg(leg) | Origin::SecondBend(leg)) => finding::Part::Leg(*leg),
        Some(Origin::Rounding(waypoint)) => finding::Part::Waypoint(*waypoint),
        None => return Vec::new(),
    };
    let here = job
        .findings
        .iter()
        .filter(|finding| finding.place.part == part);
    here.map(|finding| job.entry(finding)).collect()
}

/// From the head of a figure's strip to the figure, and from its base line to that of the other
/// system, millimetres.
const BELOW_NAME: f64 = 6.0;
const OTHER: f64 = 4.8;

/// The lengths to pull, one below the other, as large as they fit.
fn figures(frame: &Frame, job: &Job<'_>, bend: &BendSetOut) -> Vec<Block> {
    let figures: Vec<(&str, Option<&Taped>)> = if bend.swing == SwingVerdict::NotWorkable {
        vec![
            ("Chord", Some(&bend.chord)),
            ("Rise at its middle", Some(&bend.rise)),
            ("Radius, not swung", Some(&bend.radius)),
        ]
    } else {
        vec![
            ("Radius, centre line", Some(&bend.radius)),
            ("Radius, inside edge", bend.inner.as_ref()),
            ("Radius, outside edge", Some(&bend.outer)),
        ]
    };
    let ruler = &job.voice.ruler;
    let says = |taped: &Option<&Taped>| {
        taped.map_or_else(|| "none".to_owned(), |taped| ruler.text(taped.exact))
    };
    let room = frame.width - 5.0;
    let each = frame.height / figures.len() as f64;
    // Below its name, and above the other system if that is wanted.
    let free = each - BELOW_NAME - if job.voice.both { OTHER } else { 0.0 };
    let largest = [10.0, 7.0]
        .into_iter()
        .find(|height| *height <= free)
        .unwrap_or(5.0);
    let height = figures
        .iter()
        .map(|(_, taped)| {
            lettering::fit(&says(taped), Style::FIGURE.high(largest), room)
                .1
                .height
        })
        .fold(largest, f64::min);
    let style = Style::FIGURE.high(height);
    let mut rest = *frame;
    let mut blocks = Vec::new();
    for (name, taped) in &figures {
        let (cell, below) = rest.cut_below(each);
        rest = below;
        let top = cell.start();
        let mut inks = vec![Ink::text(top.shifted(0.0, -4.0), *name, STEP)];
        let (words, style) = lettering::fit(&says(taped), style, room);
        let base = -BELOW_NAME - style.height;
        inks.push(Ink::text(top.shifted(0.0, base), words, style));
        if let (true, Some(taped)) = (job.voice.both, taped) {
            let words = ruler.companion().text(taped.exact);
            inks.push(Ink::text(top.shifted(0.0, base - OTHER), words, STEP));
        }
        blocks.push(Block::Paragraph(inks));
    }
    blocks
}

fn checks(job: &Job<'_>, bend: &BendSetOut) -> [Part; 2] {
    let length = |metres: f64| Content::Words(job.voice.length(metres));
    let rows = bend.checks.iter().map(|check| {
        vec![
            Content::Words(check.what.clone()),
            length(check.from),
            length(check.to),
            Content::Write,
            Content::Tick,
        ]
    });
    let heads = ["measure", "from", "to", "you read", "fine"];
    let table = Table {
        heads: heads.map(str::to_owned).to_vec(),
        rows: rows.collect(),
        names: 0,
        style: if job.voice.both { Style::BODY } else { STEP },
    };
    [
        Part::Heading("Checks before you dig: each must read".to_owned()),
        Part::Table(table),
    ]
}

fn offset_table(job: &Job<'_>, table: &OffsetTable) -> Table {
    let words = |taped: &Taped| Content::Words(job.voice.taped(taped));
    let edge = |taped: &Option<Taped>| {
        taped
            .as_ref()
            .map_or_else(|| Content::Words("–".to_owned()), words)
    };
    let rows = table.rows.iter().map(|row| {
        vec![
            words(&row.along),
            edge(&row.inner),
            edge(&row.centre),
            edge(&row.outer),
        ]
    });
    let heads = [
        "off to the inside edge",
        "off to the centre line",
        "off to the outside edge",
    ];
    Table {
        heads: std::iter::once(format!("along, zero at {}", table.from))
            .chain(heads.map(str::to_owned))
            .collect(),
        rows: rows.collect(),
        names: 0,
        style: Style::new(3.0, Weight::Regular),
    }
}
