//! The page to read first: what to put right, what to bring, what to mind, in which order to work.

use plan::finding::Severity;

use crate::pen::Style;

use super::Job;
use super::flow::{Entry, Flow, Label};
use super::words;

/// So many findings are listed; the plan shows all of them.
const MOST: usize = 8;

pub(super) fn add(flow: &mut Flow, job: &Job<'_>, path: &str) {
    flow.start("Before you start");
    about(flow, job, path);
    findings(flow, job);

    flow.heading(2, "Bring");
    let tools = words::tools(job.set, job.plan.tape.length, &job.voice);
    let entries = tools.into_iter().map(|tool| Entry::new(Label::Tick, tool, Style::BODY));
    flow.list(&entries.collect::<Vec<_>>());

    flow.heading(2, "Mind");
    let cautions = words::cautions(job.plan.units);
    let entries = cautions
        .into_iter()
        .map(|(about, what)| Entry::new(Label::Tick, format!("{about} {what}"), Style::BODY));
    flow.list(&entries.collect::<Vec<_>>());

    flow.heading(2, "Order of work");
    let steps = job.set.order_of_work(&job.voice);
    flow.list(&super::bend_page::entries(&steps, Style::BODY));

    flow.paragraph(words::STANDING, Style::BODY.bold());
}

fn about(flow: &mut Flow, job: &Job<'_>, path: &str) {
    let mut lines = vec![format!("{}, option {}: {path}.", super::named(&job.plan.title, "Untitled plan"), super::option_name(job.scheme))];
    let place = job.plan.place.trim();
    if !place.is_empty() {
        lines.push(format!("Place: {place}."));
    }
    let client = job.plan.client.trim();
    if !client.is_empty() {
        lines.push(format!("For: {client}."));
    }
    lines.push(format!(
        "The path is {} long along its centre line, {} wide and covers {}.",
        job.voice.taped(&job.set.overall.length),
        job.voice.length(job.route.width),
        job.voice.ruler.area(job.route.area),
    ));
    flow.paragraph(&lines.join(" "), Style::BODY);
}

fn findings(flow: &mut Flow, job: &Job<'_>) {
    let weighty: Vec<_> = job
        .findings
        .iter()
        .filter(|finding| finding.severity != Severity::Note)
        .collect();
    if weighty.is_empty() {
        return;
    }
    flow.heading(2, "Put right first");
    let entries: Vec<Entry> = weighty.iter().take(MOST).map(|finding| job.entry(finding)).collect();
    flow.list(&entries);
    if weighty.len() > MOST {
        flow.paragraph(&format!("And {} more: open the plan to see them.", weighty.len() - MOST), Style::BODY);
    }
}
