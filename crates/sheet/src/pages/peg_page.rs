//! The pegs: driven where tapes from marks cross, or as a second way squared off the base line.

use plan::setout::{Placing, Spot, Taped};

use crate::pen::{Style, Weight};

use super::entry::{Entry, Label};
use super::flow::{Flow, Part};
use super::steps::{self, STEP, ties_table};
use super::table::{Content, Table};
use super::{Job, words};

/// How the tables are lettered.
const TABLE: Style = Style::new(3.0, Weight::Regular);

pub(super) fn add(flow: &mut Flow, job: &Job<'_>) {
    let (pegging, base) = (&job.work.pegging, &job.set.base);
    flow.start("Pegs");
    let mut before: Vec<Entry> = base
        .steps(&job.voice)
        .into_iter()
        .take(1)
        .map(|step| Entry::new(Label::Number(1), step.text, STEP))
        .collect();
    let by_eye = pegging
        .given
        .iter()
        .filter(|spot| matches!(spot, Spot::Peg(_)));
    let by_eye: Vec<String> = by_eye.map(|spot| pegging.spots.name(*spot)).collect();
    if let [first, .., last] = &by_eye[..] {
        let words = format!(
            "Drive {first} and {last} first, by eye, where the plan page has them: all else is measured from these two."
        );
        let check = format!("{first} to {last} must read {}.", base.check(&job.voice));
        before.push(Entry::new(Label::Number(2), words, STEP).checked([check]));
    }
    flow.set(&steps::numbered(job, pegging, before));
    let swung = job.work.bends.iter().filter(|work| {
        super::bend_page::swings(work.way())
            || work.second_way().is_some_and(super::bend_page::swings)
    });
    let tied = swung.filter_map(|work| work.swing_point.as_ref());
    let tied: Vec<_> = tied.filter(|tied| tied.ties.is_ok()).collect();
    if !tied.is_empty() {
        let rows = tied.into_iter().map(|tied| (tied, tied.name.clone()));
        flow.set(&[
            Part::Heading(
                "Swing points, found on the pages of their bends: to check by".to_owned(),
            ),
            Part::Table(ties_table(job, "point", rows)),
        ]);
    }
    base_line(flow, job);
}

/// The same pegs from the base line, for where no tape can be pulled to a mark.
fn base_line(flow: &mut Flow, job: &Job<'_>) {
    let (set, voice) = (job.set, &job.voice);
    let base = &set.base;
    flow.start("Pegs from the base line, if the ties fail");
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
