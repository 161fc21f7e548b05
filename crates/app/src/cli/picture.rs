//! `pegbow picture`: one option as a picture, in lines or in pixels.

use std::path::PathBuf;

use lexopt::{Arg, Parser, ValueExt};
use plan::document::letter;
use sheet::PictureError;
use sheet::png::{LEAST_WIDE, MOST_WIDE};

use super::{Given, Words, Wrong, help, next, scheme, spare_plans};
use crate::files::{self, shown};
use crate::picture::{Kind, USUAL_WIDE};

const COMMAND: &str = "picture";

pub(super) fn run(mut parser: Parser, words: &mut Words<'_>) -> Result<u8, Wrong> {
    let (mut path, mut to, mut option, mut width) = (None, None, None, None);
    loop {
        let value = match next(&mut parser, COMMAND, path.as_deref())? {
            Given::Help => return words.answer(help::PICTURE),
            Given::End => break,
            Given::Plan(plan) => {
                path = Some(plan);
                continue;
            }
            Given::Option(Arg::Long("to")) => Value::To,
            Given::Option(Arg::Long("option")) => Value::Option,
            Given::Option(Arg::Long("width")) => Value::Width,
            Given::Option(other) => return Err(Wrong::usage(COMMAND, &other.unexpected())),
        };
        let usage = |error| Wrong::usage(COMMAND, &error);
        let given = parser.value().map_err(usage)?;
        match value {
            Value::To => to = Some(PathBuf::from(given)),
            Value::Option => option = Some(given.string().map_err(usage)?),
            Value::Width => width = Some(pixels(&given.string().map_err(usage)?)?),
        }
    }
    let path = path.ok_or_else(|| Wrong::no_plan(COMMAND))?;
    let where_ = "say where the picture goes, such as --to yard.svg or --to yard.png";
    let to = to.ok_or_else(|| Wrong::see(COMMAND, where_))?;
    spare_plans(&path, &to, "a picture", ".svg or .png")?;
    let kind = Kind::named(&to).ok_or_else(|| {
        Wrong::new(format!(
            "--to {}: a picture is written to a name that ends in .svg or .png",
            shown(&to)
        ))
    })?;
    let plan = files::read_plan(&path)?;
    let scheme = scheme(&plan, &path, option.as_deref(), "show")?;
    let solved = plan.solve();
    let cannot = |error: PictureError| Wrong::new(error.to_string());
    let picture = sheet::option_picture(&plan, &solved, scheme)
        .ok_or_else(|| Wrong::new("this option is not there to show"))?;
    let bytes = kind
        .bytes(&picture, width.unwrap_or(USUAL_WIDE))
        .map_err(cannot)?;
    files::write_atomically(&to, &bytes)?;
    words.complain_of_stops(&solved, scheme);
    words.answer(&format!(
        "option {} is written to {}\n",
        letter(scheme),
        shown(&to)
    ))
}

/// The options that take a value.
enum Value {
    To,
    Option,
    Width,
}

fn pixels(text: &str) -> Result<u32, Wrong> {
    let width = text.trim().parse().ok();
    width
        .filter(|width| (LEAST_WIDE..=MOST_WIDE).contains(width))
        .ok_or_else(|| {
            Wrong::new(format!(
                "--width {text}: a picture is {LEAST_WIDE} to {MOST_WIDE} pixels wide, such as --width {USUAL_WIDE}"
            ))
        })
}
