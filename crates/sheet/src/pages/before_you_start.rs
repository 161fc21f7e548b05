//! The page to read first: what to put right, what to bring, what to mind, in which order to work.

use plan::finding::Severity;

use crate::pen::Style;

use super::Job;
use super::entry::{Entry, Label};
use super::flow::{Flow, Part};
use super::words;

/// So many findings are listed; the plan shows all of them.
const MOST: usize = 8;

/// How the page is lettered: as large as leaves it on one page, or else the first.
const STYLES: [Style; 3] = [Style::BODY, Style::BODY.high(2.35), Style::BODY.high(2.2)];

pub(super) fn add(flow: &mut Flow, job: &Job<'_>, path: &str) {
    flow.start("Before you start");
    let tried = STYLES.map(|style| parts(job, path, style));
    let fits = |parts: &&Vec<Part>| {
        parts.iter().map(|part| flow.height(part)).sum::<f64>() <= flow.room().height
    };
    if let Some(parts) = tried.iter().find(fits).or(tried.first()) {
        flow.set(&parts.clone());
    }
}

fn parts(job: &Job<'_>, path: &str, style: Style) -> Vec<Part> {
    let mut parts = vec![
        Part::Paragraph(about(job, path), style),
        Part::Paragraph(words::STANDING.to_owned(), style.bold()),
    ];
    parts.extend(findings(job));
    let ticked = |words: Vec<String>| {
        let entries = words
            .into_iter()
            .map(|words| Entry::new(Label::Tick, words, style));
        Part::List(entries.collect())
    };
    parts.extend([
        Part::Heading("Bring".to_owned()),
        ticked(words::tools(job)),
        Part::Heading("Mind".to_owned()),
        ticked(words::cautions(job.plan)),
        Part::Heading("Order of work".to_owned()),
        Part::List(order(job, style)),
    ]);
    parts
}

/// Stage after stage, as one walks.
fn order(job: &Job<'_>, style: Style) -> Vec<Entry> {
    let stages = job.work.order.iter().map(|stage| words::stage(job, *stage));
    let last = "Stand back and walk it. Only when every check of every page is fine, and the record is written, dig.";
    stages
        .chain([last.to_owned()])
        .zip(1..)
        .map(|(words, number)| Entry::new(Label::Number(number), words, style))
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
