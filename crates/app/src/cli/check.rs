//! `pegbow check`: what to put right in a plan, one finding a line.

use lexopt::Parser;
use plan::finding::{Finding, Severity};

use super::{DONE, STOPS, Words, Wrong, help, only_plan};
use crate::files;

pub(super) fn run(parser: Parser, words: &mut Words<'_>) -> Result<u8, Wrong> {
    let Some(path) = only_plan(parser, "check")? else {
        return words.answer(help::CHECK);
    };
    let findings = files::read_plan(&path)?.solve().findings;
    let lines: String = findings.iter().map(line).collect();
    words.answer(&lines)?;
    let stops = |finding: &Finding| finding.severity == Severity::Stop;
    Ok(if findings.iter().any(stops) {
        STOPS
    } else {
        DONE
    })
}

fn line(finding: &Finding) -> String {
    format!(
        "{}: {}: {} [{}]\n",
        finding.severity,
        finding.place,
        finding.sentence,
        finding.code.name()
    )
}
