//! Packs make the cost a staircase: how little less of a thing would save a whole pack.

use std::cmp::Reverse;

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use serde::Serialize;

use super::amount::SLACK;
use super::charge::cost;
use super::{Charge, Currency, Line};

/// A pack, bag or load that a little less would save.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Saving {
    /// Which line of the charge, counted from 0.
    pub line: usize,
    /// How much less would do it, in the SI unit of the line's measure.
    pub less: f64,
    /// The same as a part of a pack, 0 to 1.
    pub part: f64,
    /// What the line would cost less; nothing where it has no price.
    pub saves: Option<Decimal>,
    /// In words: `joint sand: 0.3 of a 25 kg bag less saves one: €6.20`.
    pub words: String,
}

/// Every line of which no more than `within` of its last pack is needed, what saves most first.
///
/// The last pack of a thing is not saved so, nor one that a least order keeps.
///
/// ```
/// # use plan::count::{Measure, Need, Pack, Part};
/// # use plan::price::{PriceList, charge, saves};
/// let sand = Need {
///     key: "joint-sand".into(), name: "joint sand".into(), part: Part::Surface, measure: Measure::Mass,
///     amount: 57.0, range: None, packs: vec![Pack { name: "25 kg bag".into(), holds: 25.0 }], because: vec![],
/// };
/// let charge = charge(&[sand], &PriceList::default());
/// assert_eq!(saves(&charge, 0.5)[0].words, "joint sand: 0.3 of a 25 kg bag less saves one");
/// ```
#[must_use]
pub fn saves(charge: &Charge, within: f64) -> Vec<Saving> {
    let mut savings: Vec<Saving> = charge
        .lines
        .iter()
        .enumerate()
        .filter_map(|(i, line)| saving(i, line, &charge.currency, within))
        .collect();
    savings.sort_by_key(|saving| Reverse(saving.saves));
    savings
}

fn saving(i: usize, line: &Line, currency: &Currency, within: f64) -> Option<Saving> {
    let ordered = line.ordered.as_ref()?;
    let fewer = ordered.count - Decimal::ONE;
    let priced = line.price.as_ref().ok();
    let least = priced.and_then(|priced| priced.least_order);
    let whole = ordered.packs && ordered.would_do.is_none() && fewer >= Decimal::ONE;
    if !whole || least.is_some_and(|least| fewer < least) {
        return None;
    }
    let less = line.amount - fewer.to_f64()? * ordered.holds;
    let part = less / ordered.holds;
    if !(SLACK..=within).contains(&part) {
        return None;
    }
    let saves = priced.and_then(|priced| Some(priced.total - cost(currency, priced.each, fewer)?));
    // Rounded up: so much less saves it for certain.
    let tenths = (10.0 * (part - SLACK)).ceil() / 10.0;
    let mut words = format!(
        "{}: {tenths:.1} of a {} less saves one",
        line.name, ordered.one
    );
    if let Some(saves) = saves {
        words = format!("{words}: {}", currency.write(saves));
    }
    Some(Saving {
        line: i,
        less,
        part,
        saves,
        words,
    })
}
