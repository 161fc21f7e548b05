//! `pegbow sheet`: the stake-out sheet of one option as a PDF.

use std::path::{Path, PathBuf};

use lexopt::{Arg, Parser, ValueExt};
use plan::Plan;
use plan::document::letter;
use plan::finding::Severity;
use sheet::{Date, Paper, Request};

use super::{Given, Words, Wrong, help, next};
use crate::files::{self, shown};

const COMMAND: &str = "sheet";

pub(super) fn run(mut parser: Parser, words: &mut Words<'_>) -> Result<u8, Wrong> {
    let (mut path, mut to, mut option) = (None, None, None);
    let mut request = Request {
        scheme: 0,
        paper: Paper::A4,
        both_units: false,
        date: None,
    };
    loop {
        let given = match next(&mut parser, COMMAND, path.as_deref())? {
            Given::Help => return words.answer(help::SHEET),
            Given::End => break,
            Given::Plan(plan) => {
                path = Some(plan);
                continue;
            }
            Given::Option(Arg::Long("both-units")) => {
                request.both_units = true;
                continue;
            }
            Given::Option(Arg::Long("to")) => Value::To,
            Given::Option(Arg::Long("paper")) => Value::Paper,
            Given::Option(Arg::Long("option")) => Value::Option,
            Given::Option(Arg::Long("date")) => Value::Date,
            Given::Option(other) => return Err(Wrong::usage(COMMAND, &other.unexpected())),
        };
        let usage = |error| Wrong::usage(COMMAND, &error);
        let value = parser.value().map_err(usage)?;
        match given {
            Value::To => to = Some(PathBuf::from(value)),
            Value::Paper => request.paper = paper(&value.string().map_err(usage)?)?,
            Value::Option => option = Some(value.string().map_err(usage)?),
            Value::Date => request.date = Some(date(&value.string().map_err(usage)?)?),
        }
    }
    let path = path.ok_or_else(|| Wrong::no_plan(COMMAND))?;
    let to =
        to.ok_or_else(|| Wrong::see(COMMAND, "say where the sheet goes, such as --to sheet.pdf"))?;
    spare_plans(&path, &to, ("a sheet", ".pdf"))?;
    let plan = files::read_plan(&path)?;
    request.scheme = scheme(&plan, &path, option.as_deref())?;
    write(&plan, &request, &to, words)
}

/// The options that take a value.
enum Value {
    To,
    Paper,
    Option,
    Date,
}

fn write(plan: &Plan, request: &Request, to: &Path, words: &mut Words<'_>) -> Result<u8, Wrong> {
    let solved = plan.solve();
    let bytes = sheet::stakeout(plan, &solved, request)
        .map_err(|error| Wrong::new(format!("the sheet cannot be drawn: {error}")))?;
    files::write_atomically(to, &bytes)?;
    let stops = solved
        .findings
        .iter()
        .filter(|f| f.place.concerns(request.scheme) && f.severity == Severity::Stop)
        .count();
    if stops > 0 {
        words.complain(&format!(
            "care: {stops} {} of option {} cannot be built as drawn: see pegbow check",
            if stops == 1 { "place" } else { "places" },
            letter(request.scheme)
        ));
    }
    words.answer(&format!(
        "option {} on {} is written to {}\n",
        letter(request.scheme),
        request.paper.name(),
        shown(to)
    ))
}

/// What is written never takes the place of a plan.
pub(super) fn spare_plans(
    path: &Path,
    to: &Path,
    (what, ending): (&str, &str),
) -> Result<(), Wrong> {
    let is_plan = |extension: &std::ffi::OsStr| extension.eq_ignore_ascii_case("ron");
    if files::is_same_file(path, to) || to.extension().is_some_and(is_plan) {
        return Err(Wrong::new(format!(
            "--to {}: {what} is not written over a plan, give a name that ends in {ending}",
            shown(to)
        )));
    }
    Ok(())
}

pub(super) fn scheme(plan: &Plan, path: &Path, asked: Option<&str>) -> Result<usize, Wrong> {
    let count = plan.schemes.len();
    let letters = match count {
        0 => {
            return Err(Wrong::new(format!(
                "{}: this plan has no option to print: draw one first",
                shown(path)
            )));
        }
        1 => "only option A".to_owned(),
        _ => format!("options A to {}", letter(count - 1)),
    };
    let Some(asked) = asked else {
        return Ok(0);
    };
    let is_asked = |scheme: &usize| letter(*scheme).eq_ignore_ascii_case(asked.trim());
    (0..count)
        .find(is_asked)
        .ok_or_else(|| Wrong::new(format!("--option {asked}: {} has {letters}", shown(path))))
}

fn paper(name: &str) -> Result<Paper, Wrong> {
    Paper::from_name(name).ok_or_else(|| {
        Wrong::new(format!(
            "--paper {name}: the sheet is printed on a4 or letter, its plan page also on a3 or tabloid"
        ))
    })
}

fn date(text: &str) -> Result<Date, Wrong> {
    fn number<T: std::str::FromStr>(text: &str, digits: usize) -> Option<T> {
        let is_plain = text.len() == digits && text.bytes().all(|byte| byte.is_ascii_digit());
        is_plain.then(|| text.parse().ok()).flatten()
    }
    let mut parts = text.split('-');
    let mut part = || parts.next().unwrap_or_default();
    let (year, month, day) = (part(), part(), part());
    let day = number(day, 2).filter(|_| parts.next().is_none());
    number(year, 4)
        .zip(number(month, 2))
        .zip(day)
        .and_then(|((year, month), day)| Date::new(year, month, day))
        .ok_or_else(|| {
            Wrong::new(format!(
                "--date {text}: there is no such day, write year, month and day as in 2026-04-30"
            ))
        })
}
