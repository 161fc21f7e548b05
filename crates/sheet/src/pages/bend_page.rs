//! The page of one bend: the figures to pull, the drawing, the steps, the checks.

use plan::budget::Verdict;
use plan::finding::{self, Severity};
use plan::setout::{
    BendSetOut, BendWork, Fastening, Manner, Method, Spot, Step, Taped, Voice, Way, WayVerdict,
};
use plan::solve::Origin;

use crate::document::Block;
use crate::ink::Ink;
use crate::lettering;
use crate::paper::Frame;
use crate::pen::Style;

use super::entry::{Entry, Label};
use super::flow::{Flow, Part};
use super::steps::{self, STEP};
use super::{Job, diagram, words};

/// Height of the drawing, the least and the most of it, and width of the column of figures beside
/// it, millimetres.
const DRAWING: f64 = 72.0;
const LEAST_DRAWING: f64 = 36.0;
const MOST_DRAWING: f64 = 100.0;
const COLUMN: f64 = 66.0;
/// Free paper below the drawing, millimetres.
const AROUND: f64 = 1.5;

pub(super) fn add(flow: &mut Flow, job: &Job<'_>, work: &BendWork) {
    let bend = &work.bend;
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
    flow.set(&not_swung(job, work));
    add_way(flow, job, bend, (work.way(), true));
    if let Some(second) = work.second_way() {
        flow.start(&format!("Bend {}, if that fails", bend.number));
        flow.set(&[Part::Paragraph(
            "Only if the way before cannot be done. Take its flags out first: their numbers begin again here.".to_owned(),
            STEP,
        )]);
        add_way(flow, job, bend, (second, false));
    }
}

/// One way to set out the bend: figures, drawing, steps.
fn add_way(flow: &mut Flow, job: &Job<'_>, bend: &BendSetOut, (way, chosen): (&Way, bool)) {
    let mut parts = vec![Part::Heading(words::sentence(way.method.name()))];
    if let WayVerdict::Awkward(reasons) | WayVerdict::NotHere(reasons) = &way.verdict {
        let sentences: Vec<String> = reasons.iter().map(|why| words::sentence(why)).collect();
        let before = if way.is_possible() {
            "With care"
        } else {
            "NOT POSSIBLE HERE"
        };
        parts.push(Part::Paragraph(
            format!("{before}: {}", sentences.join(" ")),
            STEP.bold(),
        ));
    }
    if chosen {
        parts.extend(said_first(job, bend, way));
    } else if let Some(within) = way.error {
        let surface = job.plan.set_out.surface;
        let verdict = Verdict { surface, within }.words(&job.voice);
        parts.push(Part::Paragraph(words::sentence(&verdict), STEP));
    }
    if let Ok(course) = &way.course {
        parts.extend(steps::parts(job, course));
    }
    let height = drawing_height(flow, job.voice.both, &parts);
    flow.need(height);
    let strip = flow.take(height.min(flow.room().height));
    let (column, drawing) = strip.cut_right(COLUMN);
    for block in figures(&column, job, bend, way) {
        flow.put(block);
    }
    flow.put(diagram::drawn(&drawing, job, bend, way));
    flow.gap(AROUND);
    flow.set(&parts);
}

/// Whether a way swings a tape about the swing point.
pub(super) fn swings(way: &Way) -> bool {
    matches!(way.method, Method::Swing | Method::SwingSquaredOff)
}

/// Why the bend is not swung, where it cannot be.
fn not_swung(job: &Job<'_>, work: &BendWork) -> Vec<Part> {
    let swung = work.ways.iter().filter(|way| swings(way));
    if swung.clone().any(Way::is_possible) {
        return Vec::new();
    }
    let mut reasons: Vec<String> = Vec::new();
    for way in swung {
        // Where one cannot stand says more than what one cannot pull or scratch.
        let stops = way.hindrances.iter().filter(|found| found.stops());
        let first = stops.min_by_key(|found| found.hindrance.deed);
        let reason = match first {
            Some(found) => Some(found.sentence(&job.plan.site, &job.voice.ruler)),
            None => way.verdict.reasons().first().cloned(),
        };
        reasons.extend(reason.filter(|reason| !reasons.contains(reason)));
    }
    vec![Part::Paragraph(
        words::sentence(&format!("Not swung here: {}", reasons.join("; "))),
        STEP,
    )]
}

/// What rounding does, and how true the lines come out.
fn said_first(job: &Job<'_>, bend: &BendSetOut, way: &Way) -> Option<Part> {
    let rounding = swings(way)
        .then(|| bend.rounding_words(&job.voice))
        .flatten();
    let trust = job.trust.bends.iter();
    let trust = trust.filter(|trust| trust.number == bend.number);
    let trusted = trust.flat_map(|trust| {
        let change = trust.change.as_ref().filter(|_| !trust.verdict.suits());
        let change = change.map(|(_, words)| format!("Truer: {words}."));
        [words::sentence(&trust.verdict.words(&job.voice))]
            .into_iter()
            .chain(change)
            .chain(trust.course.unseen.iter().take(MOST_UNSEEN).cloned())
    });
    let sentences: Vec<String> = rounding.into_iter().chain(trusted).collect();
    (!sentences.is_empty()).then(|| Part::Paragraph(sentences.join(" "), STEP))
}

/// So many blunders that no check shows are told, those that do the most harm.
const MOST_UNSEEN: usize = 2;

/// The drawing gives way as long as that keeps the steps on one page; where they go on anyway, it
/// takes its usual height.
fn drawing_height(flow: &Flow, both: bool, parts: &[Part]) -> f64 {
    let least = if both {
        LEAST_DRAWING + 10.0
    } else {
        LEAST_DRAWING
    };
    let taken: f64 = parts.iter().map(|part| flow.height(part)).sum();
    let left = flow.room().height - AROUND - taken;
    if left >= least {
        left.min(MOST_DRAWING)
    } else {
        DRAWING
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

fn findings(job: &Job<'_>, bend: &BendSetOut) -> Vec<Entry> {
    let part = match job.route.origins.get(bend.piece) {
        Some(Origin::Leg(leg) | Origin::SecondBend(leg)) => finding::Part::Leg(*leg),
        Some(Origin::Rounding(waypoint)) => finding::Part::Waypoint(*waypoint),
        None => return Vec::new(),
    };
    let here = job
        .findings
        .iter()
        .filter(|finding| finding.place.part == part && finding.severity != Severity::Note);
    here.map(|finding| job.entry(finding)).collect()
}

/// From the head of a figure's strip to the figure, and from its base line to that of the other
/// system, millimetres.
const BELOW_NAME: f64 = 6.0;
const OTHER: f64 = 4.8;

/// The lengths to pull, one below the other, as large as they fit.
fn figures(frame: &Frame, job: &Job<'_>, bend: &BendSetOut, way: &Way) -> Vec<Block> {
    let is_swung = swings(way);
    let figures: Vec<(&str, Option<&Taped>)> = if is_swung {
        vec![
            ("Radius, centre line", Some(&bend.radius)),
            ("Radius, inside edge", bend.inner.as_ref()),
            ("Radius, outside edge", Some(&bend.outer)),
        ]
    } else {
        vec![
            ("Chord", Some(&bend.chord)),
            ("Rise at its middle", Some(&bend.rise)),
            ("Radius, not swung", Some(&bend.radius)),
        ]
    };
    let fastening = if is_swung {
        job.manner.fastening(Spot::Swing(bend.number), true)
    } else {
        Fastening::Held
    };
    let own = Manner {
        voice: Voice {
            both: false,
            ..job.voice
        },
        ..job.manner
    };
    let ruler = &job.voice.ruler;
    let says = |taped: &Option<&Taped>| {
        taped.map_or_else(|| "none".to_owned(), |taped| own.read(taped, fastening))
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
