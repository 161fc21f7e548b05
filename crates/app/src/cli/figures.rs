//! `pegbow figures`: every figure of a plan as JSON.

use lexopt::Parser;

use super::{Words, Wrong, help, only_plan};
use crate::files;

pub(super) fn run(parser: Parser, words: &mut Words<'_>) -> Result<u8, Wrong> {
    let Some(path) = only_plan(parser, "figures")? else {
        return words.answer(help::FIGURES);
    };
    let plan = files::read_plan(&path)?;
    let figures = plan::figures::figures(&plan, &plan.solve());
    words.answer(&json(&figures)?)
}

/// An answer as JSON, one line a figure.
pub(super) fn json(answer: &impl serde::Serialize) -> Result<String, Wrong> {
    let text = serde_json::to_string_pretty(answer);
    text.map(|text| text + "\n")
        .map_err(|error| Wrong::new(format!("the figures cannot be written as JSON: {error}")))
}
