//! `pegbow order`: what one option needs, and what that costs by a price list.

use std::path::PathBuf;
use std::sync::Arc;

use lexopt::{Arg, Parser, ValueExt};
use plan::Plan;
use plan::document::letter;
use plan::order::{Order, order};
use plan::price::order_csv;

use super::{Given, Words, Wrong, help, next, scheme, spare_plans};
use crate::files::{self, shown};
use crate::window::words::count as said;

const COMMAND: &str = "order";

pub(super) fn run(mut parser: Parser, words: &mut Words<'_>) -> Result<u8, Wrong> {
    let (mut path, mut to, mut option, mut prices) = (None, None, None, None);
    loop {
        let usage = |error| Wrong::usage(COMMAND, &error);
        match next(&mut parser, COMMAND, path.as_deref())? {
            Given::Help => return words.answer(help::ORDER),
            Given::End => break,
            Given::Plan(plan) => path = Some(plan),
            Given::Option(Arg::Long("to")) => {
                to = Some(PathBuf::from(parser.value().map_err(usage)?));
            }
            Given::Option(Arg::Long("prices")) => {
                prices = Some(PathBuf::from(parser.value().map_err(usage)?));
            }
            Given::Option(Arg::Long("option")) => {
                let value = parser.value().and_then(ValueExt::string);
                option = Some(value.map_err(usage)?);
            }
            Given::Option(other) => return Err(usage(other.unexpected())),
        }
    }
    let path = path.ok_or_else(|| Wrong::no_plan(COMMAND))?;
    if let Some(to) = &to {
        spare_plans(&path, to, "an order list", ".csv")?;
    }
    let mut plan = files::read_plan(&path)?;
    if let Some(list) = prices {
        plan.prices = Arc::new(files::price_list(&list)?);
    }
    let scheme = scheme(&plan, &path, option.as_deref(), "order for")?;
    let solved = plan.solve();
    let of_paths = &solved.schemes[scheme].routes;
    let drawn = of_paths.iter().any(|route| route.centre_line.is_some());
    let order = order(&plan, &solved, scheme).filter(|_| drawn).ok_or_else(|| {
        Wrong::new(format!(
            "{}: option {} has no build-up or no path, so there is nothing to order: choose at Count in the window what it is built of",
            shown(&path),
            letter(scheme)
        ))
    })?;
    words.complain_of_stops(&solved, scheme);
    let Some(to) = to else {
        return words.answer(&list(&plan, scheme, &order));
    };
    files::write_atomically(&to, order_csv(&order.charge).as_bytes())?;
    words.answer(&format!(
        "{} lines for option {} are written to {}. Total: {}\n",
        order.charge.lines.len(),
        letter(scheme),
        shown(&to),
        order.charge.total_in_words()
    ))
}

/// The order list to be read.
fn list(plan: &Plan, scheme: usize, order: &Order) -> String {
    let ruler = plan.ruler();
    let Order {
        quantities, charge, ..
    } = order;
    let mut text = format!("Option {}: {}\n", letter(scheme), quantities.build_up);
    if !quantities.not_counted.is_empty() {
        text = format!("{text}{}\n", said::not_counted(&quantities.not_counted));
    }
    let mut part = None;
    for (need, line) in quantities.needs.iter().zip(&charge.lines) {
        if part != Some(need.part) {
            part = Some(need.part);
            text = format!("{text}\n{}\n", said::part(need.part));
        }
        text = format!("{text}  {}: {}", need.name, said::amount(need, ruler));
        let ordered = line.ordered.as_ref();
        if let Some(ordered) = ordered.filter(|it| it.packs || line.price.is_ok()) {
            let ordered = said::ordered(ordered, need.measure, ruler);
            text = format!("{text}. {ordered}");
        }
        let price = match &line.price {
            Ok(priced) => charge.currency.write(priced.total),
            Err(missing) => missing.to_string(),
        };
        text = format!("{text}: {price}\n");
    }
    format!("{text}\n{}: {}\n", said::TOTAL, charge.total_in_words())
}
