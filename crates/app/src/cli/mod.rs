//! The command line: the same computations as the window, for scripts, checks and a quick bend.
//!
//! Exit status: 0 done, 1 a check found something that stops, 2 it could not be done.

mod bend;
mod check;
mod example;
mod figures;
mod help;
mod order;
mod pegs;
mod picture;
mod sheet;
mod wrong;

use std::ffi::OsString;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use lexopt::{Arg, Parser};
use plan::document::letter;
use plan::finding::Severity;
use plan::{Plan, Solved};
use wrong::Wrong;

use crate::files::{self, shown};

/// What a command line asks for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Asked {
    /// Nothing more: it has been done or refused, with this exit status.
    Done(u8),
    /// The window, with a plan or with what it was left with.
    Window(Option<PathBuf>),
}

/// The exit status when all is well.
pub const DONE: u8 = 0;
/// The exit status when a check found something that stops.
pub const STOPS: u8 = 1;
/// The exit status when it could not be done.
pub const FAILED: u8 = 2;

/// Does what a command line asks for; `args` are those after the program's name.
///
/// Answers go to `out`; what is wrong, with its place and remedy, to `err`. It never panics, and a
/// reader that goes away before the end (a closed pipe) is no error.
///
/// ```
/// use pegbow::cli::{Asked, DONE, run};
/// let (mut out, mut err) = (Vec::new(), Vec::new());
/// let asked = run(["bend", "--chord", "4m", "--rise", "1m"].map(Into::into), &mut out, &mut err);
/// assert_eq!(asked, Asked::Done(DONE));
/// assert!(String::from_utf8_lossy(&out).contains("2.500 m")); // the radius
/// assert!(err.is_empty());
/// ```
pub fn run(
    args: impl IntoIterator<Item = OsString>,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Asked {
    let mut words = Words { out, err };
    let parser = Parser::from_args(args.into_iter().collect::<Vec<_>>());
    obey(parser, &mut words).unwrap_or_else(|wrong| {
        words.complain(&wrong.to_string());
        Asked::Done(FAILED)
    })
}

fn obey(mut parser: Parser, words: &mut Words<'_>) -> Result<Asked, Wrong> {
    let first = parser.next().map_err(|error| Wrong::usage("", &error))?;
    let status = match first {
        None => return Ok(Asked::Window(None)),
        Some(Arg::Long("help") | Arg::Short('h')) => words.answer(help::PEGBOW)?,
        Some(Arg::Long("version") | Arg::Short('V')) => {
            words.answer(concat!("pegbow ", env!("CARGO_PKG_VERSION"), "\n"))?
        }
        Some(Arg::Value(word)) => match word.to_str() {
            Some("bend") => bend::run(parser, words)?,
            Some("check") => check::run(parser, words)?,
            Some("example") => example::run(parser, words)?,
            Some("figures") => figures::run(parser, words)?,
            Some("order") => order::run(parser, words)?,
            Some("pegs") => pegs::run(parser, words)?,
            Some("picture") => picture::run(parser, words)?,
            Some("sheet") => sheet::run(parser, words)?,
            _ => return window(PathBuf::from(word), parser),
        },
        Some(other) => return Err(Wrong::usage("", &other.unexpected())),
    };
    Ok(Asked::Done(status))
}

/// A word that is no command is the plan to open.
fn window(path: PathBuf, mut parser: Parser) -> Result<Asked, Wrong> {
    if let Some(more) = parser.next().map_err(|error| Wrong::usage("", &error))? {
        return Err(Wrong::usage("", &more.unexpected()));
    }
    if !path.exists() {
        return Err(Wrong::neither_command_nor_file(&path));
    }
    Ok(Asked::Window(Some(path)))
}

/// Where a command's words go.
struct Words<'a> {
    out: &'a mut dyn Write,
    err: &'a mut dyn Write,
}

impl Words<'_> {
    /// Writes a whole answer.
    fn answer(&mut self, text: &str) -> Result<u8, Wrong> {
        let written = self.out.write_all(text.as_bytes());
        match written.and_then(|()| self.out.flush()) {
            Ok(()) => Ok(DONE),
            // Whoever reads has seen enough.
            Err(error) if error.kind() == io::ErrorKind::BrokenPipe => Ok(DONE),
            Err(error) => Err(Wrong::answer(&error)),
        }
    }

    /// Says what is wrong, or worth knowing beside the answer.
    fn complain(&mut self, sentence: &str) {
        // Where nobody listens there is nobody to tell.
        let _ = writeln!(self.err, "pegbow: {sentence}");
    }

    /// Says how many places of an option cannot be built, where there are any.
    fn complain_of_stops(&mut self, solved: &Solved, scheme: usize) {
        let stops = solved
            .findings
            .iter()
            .filter(|f| f.place.concerns(scheme) && f.severity == Severity::Stop)
            .count();
        if stops > 0 {
            self.complain(&format!(
                "care: {stops} {} of option {} cannot be built as drawn: see pegbow check",
                if stops == 1 { "place" } else { "places" },
                letter(scheme)
            ));
        }
    }
}

/// What a command that takes one plan was given.
enum Given<'a> {
    Help,
    Option(Arg<'a>),
    Plan(PathBuf),
    End,
}

/// The next word of a command that takes one plan.
fn next<'a>(
    parser: &'a mut Parser,
    command: &'static str,
    plan: Option<&Path>,
) -> Result<Given<'a>, Wrong> {
    match parser
        .next()
        .map_err(|error| Wrong::usage(command, &error))?
    {
        None => Ok(Given::End),
        Some(Arg::Long("help") | Arg::Short('h')) => Ok(Given::Help),
        Some(Arg::Value(word)) if plan.is_none() => Ok(Given::Plan(PathBuf::from(word))),
        Some(Arg::Value(word)) => Err(Wrong::usage(command, &Arg::Value(word).unexpected())),
        Some(option) => Ok(Given::Option(option)),
    }
}

/// The one plan of a command that takes nothing else; `None` when help was asked for instead.
fn only_plan(mut parser: Parser, command: &'static str) -> Result<Option<PathBuf>, Wrong> {
    let mut plan = None;
    loop {
        match next(&mut parser, command, plan.as_deref())? {
            Given::Help => return Ok(None),
            Given::Plan(path) => plan = Some(path),
            Given::Option(option) => return Err(Wrong::usage(command, &option.unexpected())),
            Given::End => return plan.ok_or_else(|| Wrong::no_plan(command)).map(Some),
        }
    }
}

/// What is written with `--to` never takes the place of a plan: `what` is written, to a name that
/// ends in `ending`.
fn spare_plans(path: &Path, to: &Path, what: &str, ending: &str) -> Result<(), Wrong> {
    let is_plan = |extension: &std::ffi::OsStr| extension.eq_ignore_ascii_case("ron");
    if files::is_same_file(path, to) || to.extension().is_some_and(is_plan) {
        return Err(Wrong::new(format!(
            "--to {}: {what} is not written over a plan, give a name that ends in {ending}",
            shown(to)
        )));
    }
    Ok(())
}

/// Which option of a plan was asked for by its letter, to do something with; the first if none was.
fn scheme(plan: &Plan, path: &Path, asked: Option<&str>, to_do: &str) -> Result<usize, Wrong> {
    let count = plan.schemes.len();
    let letters = match count {
        0 => {
            return Err(Wrong::new(format!(
                "{}: this plan has no option to {to_do}: draw one first",
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
