//! What to read first: what to put right and to mind, what to bring, in which order to work, what is fine.

use plan::finding::Severity;

use crate::pen::Style;

use super::entry::{Entry, Label};
use super::flow::{Flow, Part};
use super::steps::STEP;
use super::words;
use super::{Chapter, Job};

/// So many findings are listed; the plan shows all of them.
const MOST: usize = 8;

pub(super) fn add(flow: &mut Flow, job: &Job<'_>, path: &str, page: impl Fn(Chapter) -> usize) {
    flow.start("Before you start");
    let ticked = |words: Vec<String>| {
        let entries = words
            .into_iter()
            .map(|words| Entry::new(Label::Tick, words, STEP));
        Part::List(entries.collect())
    };
    let mut parts = vec![
        Part::Paragraph(about(job, path), STEP),
        Part::Paragraph(words::STANDING.to_owned(), STEP.bold()),
    ];
    parts.extend(findings(job));
    parts.extend([
        Part::Heading("Mind".to_owned()),
        ticked(words::cautions(job.plan)),
    ]);
    flow.set(&parts);
    flow.start("What to bring, and in which order");
    let mut parts = vec![
        Part::Heading("Bring".to_owned()),
        ticked(words::tools(job)),
        Part::Heading("Order of work".to_owned()),
        Part::List(order(job, page)),
        Part::Heading("How things are named, and what is fine".to_owned()),
    ];
    let named = words::naming(job).into_iter().chain(words::reading(job));
    let entries = named.map(|words| Entry::new(Label::Bullet, words, STEP));
    parts.push(Part::List(entries.collect()));
    flow.set(&parts);
}

/// Stage after stage, as one walks, each with its page.
fn order(job: &Job<'_>, page: impl Fn(Chapter) -> usize) -> Vec<Entry> {
    let stages = job.work.order.iter().map(|stage| {
        let chapter = Chapter::Stage(*stage);
        format!("Page {}: {}", page(chapter), words::stage(job, *stage))
    });
    let last = format!(
        "Page {}: read the whole once more and write the record. Stand back and walk it. Only when all is fine, dig.",
        page(Chapter::Record)
    );
    stages
        .chain([last])
        .zip(1..)
        .map(|(words, number)| Entry::new(Label::Number(number), words, STEP))
        .collect()
}

fn about(job: &Job<'_>, path: &str) -> String {
    let title = super::named(&job.plan.title, "Untitled plan");
    let mut sentences = vec![format!(
        "{title}, option {}: {path}.",
        super::option_name(job.scheme)
    )];
    for (what, says) in [("Place", &job.plan.place), ("For", &job.plan.client)] {
        let says = says.trim();
        if !says.is_empty() {
            sentences.push(format!("{what}: {says}."));
        }
    }
    sentences.push(format!(
        "The path is {} long along its centre line, {} wide and covers {}.",
        job.voice.taped(&job.set.overall.length),
        job.voice.length(job.route.width),
        job.voice.ruler.area(job.route.area),
    ));
    sentences.join(" ")
}

fn findings(job: &Job<'_>) -> Vec<Part> {
    let weighty = |severity| severity != Severity::Note;
    let mut entries: Vec<Entry> = job
        .findings
        .iter()
        .filter(|finding| weighty(finding.severity))
        .map(|finding| job.entry(finding))
        .collect();
    if entries.is_empty() {
        return Vec::new();
    }
    let more = entries.len().saturating_sub(MOST);
    entries.truncate(MOST);
    let mut parts = vec![
        Part::Heading("Put right first".to_owned()),
        Part::List(entries),
    ];
    if more > 0 {
        parts.push(Part::Paragraph(
            format!("And {more} more: open the plan to see them."),
            Style::BODY,
        ));
    }
    parts
}
