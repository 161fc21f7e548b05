//! `pegbow sheet`: the stake-out sheet, the order list or the client's page as a PDF, the plan page also as SVG.

use std::path::{Path, PathBuf};

use lexopt::{Arg, Parser, ValueExt};
use plan::Plan;
use plan::document::letter;
use sheet::{Date, OptionsRequest, Paper, Picture, Request};

use super::{Given, Words, Wrong, help, next, scheme, spare_plans};
use crate::files::{self, shown};

const COMMAND: &str = "sheet";

pub(super) fn run(mut parser: Parser, words: &mut Words<'_>) -> Result<u8, Wrong> {
    let (mut path, mut to, mut option, mut options) = (None, None, None, None);
    let (mut pages, mut prices) = (None, true);
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
            Given::Option(Arg::Long("order")) => {
                pages = Some(one_of(pages, Pages::Order)?);
                continue;
            }
            Given::Option(Arg::Long("client")) => {
                pages = Some(one_of(pages, Pages::Client)?);
                continue;
            }
            Given::Option(Arg::Long("without-prices")) => {
                prices = false;
                continue;
            }
            Given::Option(Arg::Long("options")) => Value::Options,
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
            Value::Options => options = Some(value.string().map_err(usage)?),
            Value::Option => option = Some(value.string().map_err(usage)?),
            Value::Date => request.date = Some(date(&value.string().map_err(usage)?)?),
        }
    }
    let path = path.ok_or_else(|| Wrong::no_plan(COMMAND))?;
    let to =
        to.ok_or_else(|| Wrong::see(COMMAND, "say where the sheet goes, such as --to sheet.pdf"))?;
    spare_plans(&path, &to, "a sheet", ".pdf")?;
    let plan = files::read_plan(&path)?;
    let pages = pages.unwrap_or(Pages::StakeOut);
    if pages != Pages::Client && (options.is_some() || !prices) {
        return Err(Wrong::see(
            COMMAND,
            "--options and --without-prices are for the page for a client: say --client too, or leave them out",
        ));
    }
    if pages == Pages::Client {
        if is_svg(&to) {
            return Err(only_the_plan_page(&to));
        }
        if option.is_some() {
            return Err(Wrong::see(
                COMMAND,
                "--client prints several options: name them with --options, such as --options A,B",
            ));
        }
        let request = OptionsRequest {
            schemes: schemes(&plan, &path, options.as_deref())?,
            // Without a price list there is nothing to say of prices.
            prices: prices && !plan.prices.is_empty(),
            paper: request.paper,
            both_units: request.both_units,
            date: request.date,
        };
        return write_client_page(&plan, &request, &to, words);
    }
    request.scheme = scheme(&plan, &path, option.as_deref(), "print")?;
    if is_svg(&to) {
        return write_plan_page(&plan, (&request, pages), &to, words);
    }
    write(&plan, (&request, pages), &to, words)
}

/// Which pages are written.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Pages {
    StakeOut,
    Order,
    Client,
}

/// The pages that are asked for, if no others were.
fn one_of(before: Option<Pages>, asked: Pages) -> Result<Pages, Wrong> {
    match before {
        Some(before) if before != asked => Err(Wrong::see(
            COMMAND,
            "--order and --client are two sheets: write one after the other",
        )),
        _ => Ok(asked),
    }
}

/// The options asked for by their letters, or the first of the plan.
fn schemes(plan: &Plan, path: &Path, asked: Option<&str>) -> Result<Vec<usize>, Wrong> {
    let first = scheme(plan, path, None, "print")?;
    let Some(asked) = asked else {
        return Ok((first..plan.schemes.len().min(sheet::MOST_OPTIONS)).collect());
    };
    let mut found = Vec::new();
    for letter in asked.split(',') {
        let scheme = scheme(plan, path, Some(letter), "print")?;
        if !found.contains(&scheme) {
            found.push(scheme);
        }
    }
    if found.len() > sheet::MOST_OPTIONS {
        return Err(Wrong::new(format!(
            "--options {asked}: one page holds {} options, write the others on another",
            sheet::MOST_OPTIONS
        )));
    }
    Ok(found)
}

fn write_client_page(
    plan: &Plan,
    request: &OptionsRequest,
    to: &Path,
    words: &mut Words<'_>,
) -> Result<u8, Wrong> {
    let solved = plan.solve();
    let bytes = sheet::client_page(plan, &solved, request)
        .map_err(|error| Wrong::new(format!("the page cannot be drawn: {error}")))?;
    files::write_atomically(to, &bytes)?;
    for &scheme in &request.schemes {
        words.complain_of_stops(&solved, scheme);
    }
    let letters: Vec<String> = request.schemes.iter().map(|&at| letter(at)).collect();
    words.answer(&format!(
        "the page for a client with {} {} on {} is written to {}\n",
        if letters.len() == 1 {
            "option"
        } else {
            "options"
        },
        letters.join(", "),
        request.paper.name(),
        shown(to)
    ))
}

fn is_svg(to: &Path) -> bool {
    to.extension()
        .is_some_and(|ending| ending.eq_ignore_ascii_case("svg"))
}

fn only_the_plan_page(to: &Path) -> Wrong {
    Wrong::new(format!(
        "--to {}: only the plan page of a stake-out is drawn as .svg, give other pages a name that ends in .pdf",
        shown(to)
    ))
}

/// The plan page of the stake-out alone, in lines: to true scale, its pegs numbered.
fn write_plan_page(
    plan: &Plan,
    (request, pages): (&Request, Pages),
    to: &Path,
    words: &mut Words<'_>,
) -> Result<u8, Wrong> {
    if pages != Pages::StakeOut {
        return Err(only_the_plan_page(to));
    }
    let solved = plan.solve();
    let pages = sheet::compose(plan, &solved, request).pages;
    let page = pages
        .first()
        .ok_or_else(|| Wrong::new("there is no page to draw"))?;
    let text = sheet::svg(&Picture::from(page))
        .map_err(|error| Wrong::new(format!("the plan page cannot be drawn: {error}")))?;
    files::write_atomically(to, text.as_bytes())?;
    words.complain_of_stops(&solved, request.scheme);
    words.answer(&format!(
        "the plan page of option {} on {} is written to {}\n",
        letter(request.scheme),
        request.paper.name(),
        shown(to)
    ))
}

/// The options that take a value.
enum Value {
    To,
    Paper,
    Option,
    Options,
    Date,
}

fn write(
    plan: &Plan,
    (request, pages): (&Request, Pages),
    to: &Path,
    words: &mut Words<'_>,
) -> Result<u8, Wrong> {
    let solved = plan.solve();
    let (what, bytes) = match pages {
        Pages::Order => (
            "the order list of option",
            sheet::order_list(plan, &solved, request),
        ),
        _ => ("option", sheet::stakeout(plan, &solved, request)),
    };
    let bytes = bytes.map_err(|error| Wrong::new(format!("the sheet cannot be drawn: {error}")))?;
    files::write_atomically(to, &bytes)?;
    words.complain_of_stops(&solved, request.scheme);
    words.answer(&format!(
        "{what} {} on {} is written to {}\n",
        letter(request.scheme),
        request.paper.name(),
        shown(to)
    ))
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
