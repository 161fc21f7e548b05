//! `pegbow pegs`: every peg of one option as a table (RFC 4180), in metres.

use std::path::PathBuf;

use geometry::Point;
use lexopt::{Arg, Parser, ValueExt};
use plan::document::letter;
use plan::setout::{PegRow, Tie, peg_rows};

use super::{Given, Words, Wrong, help, next, scheme, spare_plans};
use crate::files::{self, shown};

const COMMAND: &str = "pegs";

/// The columns, in order.
const COLUMNS: [&str; 22] = [
    "path",
    "peg",
    "x",
    "y",
    "station",
    "left_x",
    "left_y",
    "right_x",
    "right_y",
    "base_from",
    "base_to",
    "along",
    "off",
    "tie_1_from",
    "tie_1",
    "tie_2_from",
    "tie_2",
    "tie_side",
    "check_from",
    "check",
    "crossing_degrees",
    "spread",
];

pub(super) fn run(mut parser: Parser, words: &mut Words<'_>) -> Result<u8, Wrong> {
    let (mut path, mut to, mut option) = (None, None, None);
    loop {
        let usage = |error| Wrong::usage(COMMAND, &error);
        match next(&mut parser, COMMAND, path.as_deref())? {
            Given::Help => return words.answer(help::PEGS),
            Given::End => break,
            Given::Plan(plan) => path = Some(plan),
            Given::Option(Arg::Long("to")) => {
                to = Some(PathBuf::from(parser.value().map_err(usage)?));
            }
            Given::Option(Arg::Long("option")) => {
                let value = parser.value().and_then(ValueExt::string);
                option = Some(value.map_err(usage)?);
            }
            Given::Option(other) => return Err(usage(other.unexpected())),
        }
    }
    let path = path.ok_or_else(|| Wrong::no_plan(COMMAND))?;
    let to =
        to.ok_or_else(|| Wrong::see(COMMAND, "say where the pegs go, such as --to pegs.csv"))?;
    spare_plans(&path, &to, "a table", ".csv")?;
    let plan = files::read_plan(&path)?;
    let scheme = scheme(&plan, &path, option.as_deref(), "list")?;
    let solved = plan.solve();
    let rows = peg_rows(&plan, &solved, scheme);
    if rows.is_empty() {
        return Err(Wrong::new(format!(
            "{}: nothing of option {} can be drawn, so it has no pegs: see pegbow check",
            shown(&path),
            letter(scheme)
        )));
    }
    let table = table(&rows)
        .map_err(|error| Wrong::new(format!("the table cannot be written: {error}")))?;
    files::write_atomically(&to, &table)?;
    words.complain_of_stops(&solved, scheme);
    words.answer(&format!(
        "{} pegs and swing points of option {} are written to {}\n",
        rows.len(),
        letter(scheme),
        shown(&to)
    ))
}

fn table(rows: &[PegRow]) -> Result<Vec<u8>, csv::Error> {
    let mut builder = csv::WriterBuilder::new();
    let mut writer = builder
        .terminator(csv::Terminator::CRLF)
        .from_writer(Vec::new());
    writer.write_record(COLUMNS)?;
    for row in rows {
        writer.write_record(cells(row))?;
    }
    writer
        .into_inner()
        .map_err(|error| error.into_error().into())
}

/// The cells of a row, in the order of [`COLUMNS`].
fn cells(row: &PegRow) -> [String; COLUMNS.len()] {
    let [left, right] = [row.left, row.right].map(place);
    let ties = row.ties.as_ref();
    let [first, second] = [0, 1].map(|i: usize| tie(ties.map(|ties| &ties.pair[i])));
    let check = tie(ties.and_then(|ties| ties.check.as_ref()));
    let [x, y] = place(Some(row.at));
    let of_ties = |what: fn(&plan::setout::Ties) -> String| ties.map_or_else(String::new, what);
    [
        guarded(&row.path),
        row.peg.clone(),
        x,
        y,
        row.station.map_or_else(String::new, metres),
        left[0].clone(),
        left[1].clone(),
        right[0].clone(),
        right[1].clone(),
        guarded(&row.base.from_name),
        guarded(&row.base.to_name),
        metres(row.placing.along.exact),
        metres(row.placing.off.exact),
        first[0].clone(),
        first[1].clone(),
        second[0].clone(),
        second[1].clone(),
        of_ties(|ties| ties.side.word().to_owned()),
        check[0].clone(),
        check[1].clone(),
        of_ties(|ties| format!("{:.1}", geometry::angle::to_degrees(ties.crossing))),
        of_ties(|ties| metres(ties.spread)),
    ]
}

fn place(point: Option<Point>) -> [String; 2] {
    point.map_or_else(Default::default, |point| [point.x, point.y].map(metres))
}

fn tie(tie: Option<&Tie>) -> [String; 2] {
    tie.map_or_else(Default::default, |tie| {
        [guarded(&tie.anchor.name), metres(tie.distance.exact)]
    })
}

/// Metres to a tenth of a millimetre, never minus zero.
fn metres(length: f64) -> String {
    let text = format!("{length:.4}");
    match text.strip_prefix('-') {
        Some(zero) if zero.bytes().all(|c| matches!(c, b'0' | b'.')) => zero.to_owned(),
        _ => text,
    }
}

/// A name that a spreadsheet takes for text: what starts like a formula has an apostrophe before it.
fn guarded(name: &str) -> String {
    if name.starts_with(['=', '+', '-', '@', '\t', '\r']) {
        format!("'{name}")
    } else {
        name.to_owned()
    }
}
