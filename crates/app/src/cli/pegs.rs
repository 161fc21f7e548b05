//! `pegbow pegs`: every peg of one option as a table, for lists and other instruments.

use std::path::PathBuf;

use lexopt::{Arg, Parser, ValueExt};
use plan::document::letter;
use plan::setout::{peg_rows, pegs_csv};

use super::sheet::{scheme, spare_plans};
use super::{Given, Words, Wrong, help, next};
use crate::files::{self, shown};

const COMMAND: &str = "pegs";

pub(super) fn run(mut parser: Parser, words: &mut Words<'_>) -> Result<u8, Wrong> {
    let (mut path, mut to, mut option) = (None, None, None);
    let usage = |error| Wrong::usage(COMMAND, &error);
    loop {
        match next(&mut parser, COMMAND, path.as_deref())? {
            Given::Help => return words.answer(help::PEGS),
            Given::End => break,
            Given::Plan(plan) => path = Some(plan),
            Given::Option(Arg::Long("to")) => {
                to = Some(PathBuf::from(parser.value().map_err(usage)?));
            }
            Given::Option(Arg::Long("option")) => {
                let value = parser.value().map_err(usage)?;
                option = Some(value.string().map_err(usage)?);
            }
            Given::Option(other) => return Err(Wrong::usage(COMMAND, &other.unexpected())),
        }
    }
    let path = path.ok_or_else(|| Wrong::no_plan(COMMAND))?;
    let to =
        to.ok_or_else(|| Wrong::see(COMMAND, "say where the pegs go, such as --to pegs.csv"))?;
    spare_plans(&path, &to, ("a list of pegs", ".csv"))?;
    let plan = files::read_plan(&path)?;
    let scheme = scheme(&plan, &path, option.as_deref())?;
    let rows = peg_rows(&plan, &plan.solve(), scheme);
    files::write_atomically(&to, pegs_csv(&rows).as_bytes())?;
    words.answer(&format!(
        "{} pegs and swing points of option {} are written to {}\n",
        rows.len(),
        letter(scheme),
        shown(&to)
    ))
}
