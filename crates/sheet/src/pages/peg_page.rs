//! The pegs: driven where tapes from marks cross, or as a second way squared off the base line.

use plan::setout::{PegWork, Spot, Taped, moved_peg_words};

use crate::pen::{Style, Weight};

use super::entry::{Entry, Label};
use super::flow::{Flow, Part};
use super::steps::{self, STEP};
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
        let check = format!("{first} to {last} must read {}.", base_reads(job));
        before.push(Entry::new(Label::Number(2), words, STEP).checked([check]));
    }
    let stops = job.work.pegging_hindrances.iter();
    let stops = stops.filter(|hindered| hindered.stops());
    let stops: Vec<Part> = stops
        .map(|hindered| {
            let sentence = hindered.sentence(&job.plan.site, &job.voice.ruler);
            Part::Paragraph(words::sentence(&sentence), STEP.bold())
        })
        .collect();
    flow.set(&stops);
    flow.set(&steps::numbered(job, pegging, before));
    flow.set(&[
        Part::Heading("A root or a stone in its place".to_owned()),
        Part::Paragraph(moved_peg_words(&job.voice), STEP),
    ]);
    base_line(flow, job);
}

/// What the base line must read: as it is read on page “Pegs”, if it is read there.
fn base_reads(job: &Job<'_>) -> String {
    let (base, pegging) = (&job.set.base, &job.work.pegging);
    let name = |spot| pegging.spots.name(spot);
    let checks = pegging.deeds.iter().flat_map(|deed| &deed.checks);
    let read = checks.into_iter().find(|check| {
        let ends = [name(check.from), name(check.to)];
        ends.contains(&base.from_name) && ends.contains(&base.to_name)
    });
    match read {
        Some(check) => check.range(&job.manner),
        None => base.check(&job.voice),
    }
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
            base_reads(job)
        ),
        Style::LARGE.bold(),
    )];
    parts.push(Part::Paragraph(
        format!(
            "Along: measured on the base line from {}; a minus lies behind it, more than the line is long beyond its end. Off: square to the base line; \
             left and right as one looks from the start to the end. Ties: straight from the start and from the end, to check by, or to set a peg by \
             where the square is in the way of something. A dash: something stands between; set it by its ties. All figures are level distances, to the nearest {}.",
            base.from_name,
            voice.ruler.graduation.label()
        ),
        Style::BODY,
    ));
    let heads = [
        "peg",
        "along",
        "off",
        "tie from the start",
        "tie from the end",
        "done",
    ];
    parts.push(Part::Table(Table {
        heads: heads.map(str::to_owned).to_vec(),
        rows: job.work.pegs.iter().map(|peg| row(job, peg)).collect(),
        names: 0,
        style: TABLE,
    }));
    flow.set(&parts);
}

fn row(job: &Job<'_>, peg: &PegWork) -> Vec<Content> {
    let (voice, placing) = (&job.voice, &peg.placing);
    let words = |taped: &Taped| Content::Words(words::stacked(voice, taped.exact, ""));
    let off = &placing.off;
    let side = match off.tape {
        tape if tape > 0.0 => " left",
        tape if tape < 0.0 => " right",
        _ => "",
    };
    let [along, off] = if peg.off_base {
        let off = Content::Words(words::stacked(voice, off.exact.abs(), side));
        [words(&placing.along), off]
    } else {
        ["–", "–"].map(|none| Content::Words(none.to_owned()))
    };
    vec![
        Content::Words(placing.name.clone()),
        along,
        off,
        words(&placing.from_start),
        words(&placing.from_end),
        Content::Tick,
    ]
}
