//! Prices: money rounded and summed, orders made up, price lists read and refused.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]
#![allow(
    clippy::float_cmp,
    reason = "what is handed through must come out the same"
)]

mod charging;
mod in_a_plan;
mod lists;
mod money;
mod refusing;
mod sums;
mod tables;

use plan::count::{Measure, Need, Pack, Part};
use plan::price::{Labour, PriceLine, PriceList, Share, Sold, Tax, Unit};
use rust_decimal::Decimal;

/// A need without packs.
fn need(key: &str, part: Part, measure: Measure, amount: f64) -> Need {
    Need {
        key: key.into(),
        name: key.replace('-', " "),
        part,
        measure,
        amount,
        range: None,
        packs: Vec::new(),
        because: Vec::new(),
    }
}

/// A need that comes in packs.
fn packed(mut need: Need, name: &str, holds: f64) -> Need {
    need.packs.push(Pack {
        name: name.into(),
        holds,
    });
    need
}

/// A line of a price list.
fn line(key: &str, supplier: &str, sold: Sold, price: Decimal) -> PriceLine {
    PriceLine {
        key: key.into(),
        name: String::new(),
        supplier: supplier.into(),
        sold,
        price,
        least_order: None,
        delivery: Decimal::ZERO,
        tax: None,
    }
}

fn pack(name: &str, holds: Decimal, unit: Unit) -> Sold {
    Sold::Pack {
        name: name.into(),
        holds,
        unit,
    }
}

fn share(percent: Decimal) -> Share {
    Share::percent(percent).unwrap()
}

fn tax(name: &str, percent: Decimal) -> Tax {
    Tax {
        name: name.into(),
        share: share(percent),
    }
}

fn list(lines: Vec<PriceLine>) -> PriceList {
    PriceList {
        lines,
        ..PriceList::default()
    }
}

fn hourly(rate: Decimal) -> Labour {
    Labour {
        key: None,
        name: String::new(),
        rate,
    }
}
