//! Between which two totals a price lies where sources disagree about the amounts.

use std::cmp::Reverse;

use rust_decimal::Decimal;
use serde::Serialize;

use super::{Charge, PriceList, charge};
use crate::count::Need;

/// The totals at the least and the most of every amount that is a range.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Band {
    /// The smaller total.
    pub least: Decimal,
    /// The larger one.
    pub most: Decimal,
    /// Which need drives it, counted from 0: the one whose cost changes most, of equals the first.
    pub driver: Option<usize>,
}

/// The band of these needs; nothing where none of them is a range.
#[must_use]
pub fn band(needs: &[Need], prices: &PriceList) -> Option<Band> {
    needs.iter().find(|need| need.range.is_some())?;
    let at = |end: usize| {
        let amount = |need: &Need| need.range.map_or(need.amount, |range| range[end]);
        let at_end = needs.iter().map(|need| Need {
            amount: amount(need),
            ..need.clone()
        });
        charge(&at_end.collect::<Vec<_>>(), prices)
    };
    let [low, high] = [at(0), at(1)];
    let cost = |charge: &Charge, i: usize| {
        charge.lines[i]
            .price
            .as_ref()
            .map_or(Decimal::ZERO, |p| p.total)
    };
    let change = |i: &usize| (cost(&high, *i) - cost(&low, *i)).abs();
    Some(Band {
        // A larger amount may be cheaper in all where another supplier brings it for less.
        least: low.total.min(high.total),
        most: low.total.max(high.total),
        driver: (0..needs.len())
            .filter(|i| change(i) > Decimal::ZERO)
            .min_by_key(|i| Reverse(change(i))),
    })
}
