//! What an option comes to: what to dig, buy and do, and what that costs by the plan's prices.

use rust_decimal::prelude::ToPrimitive;

use crate::compare::{Amount, Comparison, Counted, compare_counted};
use crate::count::{Measure, Paved, Quantities, quantities};
use crate::document::Plan;
use crate::price::{Band, Charge, band, charge};
use crate::solve::Solved;

/// What one option comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct Order {
    /// How much of everything.
    pub quantities: Quantities,
    /// What that costs, as far as there are prices.
    pub charge: Charge,
    /// The least and the most it may cost where sources disagree on amounts; `None` while a price is
    /// missing.
    pub band: Option<Band>,
}

/// Hours that make a day of one person's work; common practice, no source.
pub const DAY: f64 = 8.0;

/// What an option, counted from 0, comes to; `None` where it has no build-up or nothing is drawn.
#[must_use]
pub fn order(plan: &Plan, solved: &Solved, scheme: usize) -> Option<Order> {
    let quantities = quantities(plan, solved, scheme)?;
    let charge = charge(&quantities.needs, &plan.prices);
    let band = band(&quantities.needs, &plan.prices);
    Some(Order {
        quantities,
        charge,
        band,
    })
}

/// The options of a plan beside each other, with all that is counted of them.
#[must_use]
pub fn compared(plan: &Plan, solved: &Solved) -> Comparison {
    let orders: Vec<Option<Order>> = (0..plan.schemes.len())
        .map(|scheme| order(plan, solved, scheme))
        .collect();
    let mut counted: Vec<Counted> = orders
        .iter()
        .map(|order| (order.as_ref()).map_or_else(Counted::default, |o| o.counted(plan)))
        .collect();
    // Beside pavers, what is built of something else has none to cut.
    if counted.iter().any(|counted| counted.cuts.is_some()) {
        for (counted, order) in counted.iter_mut().zip(&orders) {
            if (order.as_ref()).is_some_and(|order| order.quantities.paving.is_none()) {
                counted.cuts = Some(cuts(0));
            }
        }
    }
    compare_counted(plan, solved, &counted)
}

fn cuts(count: usize) -> Amount {
    Amount {
        value: count as f64,
        text: count.to_string(),
    }
}

impl Order {
    /// The days of one person's work, if hours are counted.
    #[must_use]
    pub fn days(&self) -> Option<f64> {
        let hours = self.quantities.needs.iter();
        let hours = hours.filter(|need| need.measure == Measure::Hours);
        let hours: Vec<f64> = hours.map(|need| need.amount).collect();
        (!hours.is_empty()).then(|| hours.iter().sum::<f64>() / DAY)
    }

    /// What is compared of it.
    #[must_use]
    pub fn counted(&self, plan: &Plan) -> Counted {
        let spoil = self.quantities.spoil.bank;
        let cost = self.charge.is_complete() && !plan.prices.is_empty();
        let paving = self.quantities.paving.as_ref();
        Counted {
            cuts: paving.and_then(Paved::count).map(|count| cuts(count.cut)),
            spoil: Some(Amount {
                value: spoil,
                text: plan.ruler().volume(spoil),
            }),
            cost: cost.then(|| Amount {
                value: self.charge.total.to_f64().unwrap_or(f64::INFINITY),
                text: self.charge.total_in_words(),
            }),
            days: self.days().map(|days| Amount {
                value: days,
                text: format!("{days:.1}"),
            }),
        }
    }
}
