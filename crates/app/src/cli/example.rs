//! `pegbow example`: the built-in example plan.

use lexopt::{Arg, Parser};

use super::{Words, Wrong, help};

pub(super) fn run(mut parser: Parser, words: &mut Words<'_>) -> Result<u8, Wrong> {
    const COMMAND: &str = "example";
    match parser
        .next()
        .map_err(|error| Wrong::usage(COMMAND, &error))?
    {
        None => words.answer(plan::example::TEXT),
        Some(Arg::Long("help") | Arg::Short('h')) => words.answer(help::EXAMPLE),
        Some(other) => Err(Wrong::usage(COMMAND, &other.unexpected())),
    }
}
