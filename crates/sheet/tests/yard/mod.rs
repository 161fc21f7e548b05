//! Plans with build-ups and prices for the tests of the pages of an order, and how such pages are read.

#![allow(dead_code, reason = "each test file uses its own part of it")]

use std::fmt::Write;
use std::sync::Arc;

use plan::Plan;
use plan::count::built_in;
use plan::order::order;
use plan::price::{PriceList, Unit, read_price_list};
use plan::units::{Graduation, Units};
use sheet::{Block, Frame, Ink, Page, Sheet};

/// Half the widest pen and what an eye lets pass, millimetres.
const SLACK: f64 = 0.4;

/// The example with four options, each built of something else, all of it priced.
pub(crate) fn yard() -> Plan {
    let mut plan = plan::example::plan().unwrap();
    while plan.schemes.len() < 4 {
        let mut next = plan.schemes[plan.schemes.len() % 2].clone();
        next.name = format!("The same once more, {}", plan.schemes.len());
        plan.schemes.push(next);
    }
    for (index, scheme) in plan.schemes.iter_mut().enumerate() {
        scheme.build_up = Some(Arc::new(built_in()[[0, 3, 4, 5][index]].clone()));
    }
    plan.prices = Arc::new(prices(&plan, ""));
    plan
}

/// In feet and inches.
pub(crate) fn in_feet(mut plan: Plan) -> Plan {
    plan.units = Units::FeetInches;
    plan.graduation = Graduation::EighthInch;
    plan
}

/// A price for everything the options need but for one key; prices are invented.
pub(crate) fn prices(plan: &Plan, but: &str) -> PriceList {
    let solved = plan.solve();
    let mut keys = vec![but.to_owned()];
    let mut lines = String::new();
    let orders = (0..plan.schemes.len()).filter_map(|scheme| order(plan, &solved, scheme));
    for need in orders.flat_map(|order| order.quantities.needs) {
        if keys.contains(&need.key) {
            continue;
        }
        let unit = Unit::of(need.measure);
        let sold = match need.packs.first() {
            Some(pack) => format!(
                "Pack(name: {:?}, holds: \"{:.4}\", unit: {unit:?})",
                pack.name, pack.holds
            ),
            None => format!("Per({unit:?})"),
        };
        let price = 3 + 7 * keys.len() % 40;
        let delivery = if keys.len() % 3 == 0 { "45.00" } else { "0" };
        writeln!(
            lines,
            "(key: {:?}, supplier: \"Quarry Lane {}\", sold: {sold}, price: \"{price}.35\", delivery: \"{delivery}\"),",
            need.key,
            keys.len() % 2,
        )
        .unwrap();
        keys.push(need.key);
    }
    let text = format!(
        r#"(version: 1, currency: (sign: "€"), lines: [{lines}], labour: [(rate: "38.00")],
        overhead: "20 %", contingency: "7.5 %", taxes: [(name: "VAT", share: "19 %")], valid_days: Some(30))"#
    );
    read_price_list(text.as_bytes()).unwrap()
}

pub(crate) fn words<'a>(inks: impl IntoIterator<Item = &'a Ink>) -> String {
    let mut lines: Vec<&str> = Vec::new();
    for ink in inks {
        ink.each_text(&mut |text| lines.push(text.words.as_str()));
    }
    lines.join(" ")
}

pub(crate) fn said(sheet: &Sheet) -> String {
    let pages = sheet.pages.iter().map(|page| words(page.inks()));
    pages.collect::<Vec<_>>().join(" ")
}

/// The rows of all tables, cell by cell.
pub(crate) fn rows(sheet: &Sheet) -> Vec<Vec<String>> {
    let blocks = sheet.pages.iter().flat_map(|page| &page.blocks);
    let rows = blocks.flat_map(|block| match block {
        Block::Table(rows) => &rows[..],
        _ => &[],
    });
    let cells = rows.map(|row| row.cells.iter().map(|cell| words(&cell.inks)).collect());
    cells.collect()
}

/// Nothing lies outside what a printer prints, no words lie over others.
pub(crate) fn assert_in_order(sheet: &Sheet) {
    for page in &sheet.pages {
        let content = page.content();
        for ink in page.inks() {
            let bounds = ink.bounds();
            let holds = bounds.is_none_or(|bounds| content.holds(&bounds, SLACK));
            assert!(holds, "{}: {ink:?}", page.title);
        }
        assert_words_apart(page);
    }
}

fn assert_words_apart(page: &Page) {
    let texts: Vec<(Frame, &Ink)> = page
        .inks()
        .filter(|ink| matches!(ink, Ink::Text(_)))
        .filter_map(|ink| Some((ink.bounds()?, ink)))
        .collect();
    for (i, (frame, ink)) in texts.iter().enumerate() {
        for (other, over) in &texts[..i] {
            let shared = frame.shared(other);
            let apart = shared.is_none_or(|shared| shared.width.min(shared.height) < 0.02);
            assert!(apart, "{}: {ink:?} over {over:?}", page.title);
        }
    }
}
