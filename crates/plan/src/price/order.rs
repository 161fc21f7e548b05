//! The order list as a table of text, for a spreadsheet or a supplier.

use rust_decimal::Decimal;

use super::{Charge, Line};
use crate::count::Part;
use crate::price::Unit;

/// The columns, in order.
const COLUMNS: [&str; 14] = [
    "part",
    "key",
    "name",
    "amount",
    "unit",
    "supplier",
    "article",
    "ordered",
    "ordered_in",
    "left_over",
    "unit_price",
    "total",
    "currency",
    "note",
];

/// The order list as comma-separated values (RFC 4180): a row of headings and one row a need.
///
/// `amount` and `left_over` are in `unit`, the SI unit of the need; `ordered` counts packs or units of `ordered_in`.
/// Figures have a point before the decimals and nothing between thousands. Where there is no price its cells are
/// empty and the note says why. What starts as a formula does has an apostrophe before it, so that a spreadsheet
/// takes it for text.
#[must_use]
pub fn order_csv(charge: &Charge) -> String {
    let mut builder = csv::WriterBuilder::new();
    let mut writer = builder
        .terminator(csv::Terminator::CRLF)
        .from_writer(Vec::new());
    // Rows of one length are written to memory: nothing can fail.
    let _ = writer.write_record(COLUMNS);
    for line in &charge.lines {
        let _ = writer.write_record(cells(line, charge));
    }
    let bytes = writer.into_inner().unwrap_or_default();
    String::from_utf8(bytes).unwrap_or_default()
}

/// The cells of a row, in the order of [`COLUMNS`].
fn cells(line: &Line, charge: &Charge) -> [String; COLUMNS.len()] {
    let ordered = line.ordered.as_ref();
    let priced = line.price.as_ref().ok();
    let digits = u32::from(charge.currency.digits);
    let money = |amount: Option<Decimal>| {
        amount.map_or_else(String::new, |amount| at_least(amount, digits))
    };
    [
        part(line.part).to_owned(),
        guarded(&line.key),
        guarded(&line.name),
        figure(line.amount),
        Unit::of(line.measure).sign().to_owned(),
        priced.map_or_else(String::new, |priced| guarded(&priced.supplier)),
        priced.map_or_else(String::new, |priced| guarded(&priced.article)),
        ordered.map_or_else(String::new, |ordered| ordered.count.normalize().to_string()),
        ordered.map_or_else(String::new, |ordered| guarded(&ordered.one)),
        ordered.map_or_else(String::new, |ordered| figure(ordered.left_over)),
        money(priced.map(|priced| priced.each)),
        money(priced.map(|priced| priced.total)),
        priced.map_or_else(String::new, |_| guarded(&charge.currency.sign)),
        note(line),
    ]
}

fn note(line: &Line) -> String {
    let least = line.ordered.as_ref().and_then(|ordered| {
        let would_do = ordered.would_do?.normalize();
        let count = ordered.count.normalize();
        Some(format!("least order {count}: {would_do} would do"))
    });
    match &line.price {
        Ok(_) => least.unwrap_or_default(),
        Err(missing) => missing.to_string(),
    }
}

fn part(part: Part) -> &'static str {
    match part {
        Part::Dig => "dig",
        Part::Base => "base",
        Part::Edges => "edges",
        Part::Surface => "surface",
        Part::Work => "work",
    }
}

/// An amount to a thousandth of its unit; what is no number stays empty.
fn figure(amount: f64) -> String {
    if amount.is_finite() {
        format!("{amount:.3}")
    } else {
        String::new()
    }
}

fn at_least(amount: Decimal, digits: u32) -> String {
    let mut amount = amount.normalize();
    amount.rescale(digits.max(amount.scale()));
    amount.to_string()
}

/// A text that a spreadsheet takes for text: what starts as a formula does, in narrow letters or wide ones, has an
/// apostrophe before it.
fn guarded(text: &str) -> String {
    let starts = ['=', '+', '-', '@', '＝', '＋', '－', '＠', '\t', '\r', '\n'];
    if text.trim_start_matches(' ').starts_with(starts) {
        format!("'{text}")
    } else {
        text.to_owned()
    }
}
