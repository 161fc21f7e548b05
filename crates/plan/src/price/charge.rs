//! What the needs of a path come to by a price list.

use std::collections::BTreeMap;
use std::fmt;

use rust_decimal::Decimal;
use serde::Serialize;

use super::amount::Ordered;
use super::unit::{Sold, Unit};
use super::{Currency, PriceLine, PriceList, Share};
use crate::count::{Measure, Need, Part};

/// What a path comes to. Every sum is the exact sum of the rounded figures above it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Charge {
    /// The currency of every figure.
    pub currency: Currency,
    /// One line a need, in the order of the needs.
    pub lines: Vec<Line>,
    /// What suppliers ask for bringing what is ordered, in the order of their first lines.
    pub deliveries: Vec<Delivery>,
    /// The lines by part of the work, without deliveries.
    pub parts: Vec<PartSum>,
    /// All lines that have a price, and the deliveries.
    pub cost: Decimal,
    /// Overhead and profit on the cost.
    pub overhead: Added,
    /// For what turns up, on the cost.
    pub contingency: Added,
    /// Cost, overhead and contingency: the price before tax.
    pub net: Decimal,
    /// The taxes, each on its part of the net price.
    pub taxes: Vec<TaxSum>,
    /// Net price and taxes.
    pub total: Decimal,
    /// How many lines have no price: with any, every sum they belong to is less than it will be.
    pub missing: usize,
}

/// One need on the order list.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Line {
    /// The need's key.
    pub key: String,
    /// The need's name.
    pub name: String,
    /// The part of the work it belongs to.
    pub part: Part,
    /// What it is counted in.
    pub measure: Measure,
    /// How much is needed, in the SI unit of its measure.
    pub amount: f64,
    /// What is ordered: as the supplier sells it, or as it is usually sold; nothing where the amount is past counting.
    pub ordered: Option<Ordered>,
    /// Its price, or why it has none.
    pub price: Result<Priced, Missing>,
}

/// The price of what is ordered.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Priced {
    /// Who sells it; empty for labour.
    pub supplier: String,
    /// What the supplier calls it; may be empty.
    pub article: String,
    /// The price of one pack or unit.
    pub each: Decimal,
    /// The fewest packs or units that are sold at once.
    pub least_order: Option<Decimal>,
    /// Its tax, where it has one of its own.
    pub tax: Option<Share>,
    /// Price times count, rounded once.
    pub total: Decimal,
}

/// Why a line has no price.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Missing {
    /// The list has no line for it.
    NoPrice,
    /// The list sells it by another measure: by this unit.
    SoldBy(&'static str),
    /// The amount is more than is counted.
    TooMuch,
}

impl fmt::Display for Missing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoPrice => f.write_str("no price"),
            Self::SoldBy(sign) => write!(
                f,
                "no price: the list sells it by the {sign}, which does not measure what is needed"
            ),
            Self::TooMuch => f.write_str("no price: this is more than can be ordered"),
        }
    }
}

/// What a supplier asks for bringing an order.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Delivery {
    /// Who.
    pub supplier: String,
    /// The dearest delivery of the lines ordered there, once.
    pub price: Decimal,
}

/// What one part of the work comes to.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PartSum {
    /// Which part.
    pub part: Part,
    /// Its lines that have a price.
    pub sum: Decimal,
    /// How many of its lines have none.
    pub missing: usize,
}

/// A share added to the cost, rounded once.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Added {
    /// The share of the cost.
    pub share: Share,
    /// What it comes to.
    pub sum: Decimal,
}

/// One tax, rounded once.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TaxSum {
    /// What it is called; empty for the tax of lines that have one of their own.
    pub name: String,
    /// Its share.
    pub share: Share,
    /// Of which sum.
    pub on: Decimal,
    /// What it comes to.
    pub sum: Decimal,
}

/// What these needs come to.
///
/// Of several suppliers the one is taken who asks least for the amount as it is sold there, delivery aside; of equals
/// the first. Of work by the hour the rate for its key is taken, else the rate for all.
#[must_use]
pub fn charge(needs: &[Need], prices: &PriceList) -> Charge {
    let currency = &prices.currency;
    let mut deliveries = Vec::new();
    let lines: Vec<Line> = needs
        .iter()
        .map(|need| line(need, prices, &mut deliveries))
        .collect();
    let parts = parts(&lines);
    let goods = sum(parts.iter().map(|part| part.sum));
    let cost = goods.saturating_add(sum(deliveries.iter().map(|delivery| delivery.price)));
    let added = |share: Share| Added {
        share,
        sum: currency.round(share.of(cost)),
    };
    let (overhead, contingency) = (added(prices.overhead), added(prices.contingency));
    let net = sum([cost, overhead.sum, contingency.sum]);
    let taxes = taxes(&lines, prices, net);
    Charge {
        currency: currency.clone(),
        missing: parts.iter().map(|part| part.missing).sum(),
        total: net.saturating_add(sum(taxes.iter().map(|tax| tax.sum))),
        lines,
        deliveries,
        parts,
        cost,
        overhead,
        contingency,
        net,
        taxes,
    }
}

impl Charge {
    /// Whether every line has a price.
    #[must_use]
    pub fn is_complete(&self) -> bool {
        self.missing == 0
    }

    /// The total in words, which say where it is not the whole.
    #[must_use]
    pub fn total_in_words(&self) -> String {
        let total = self.currency.write(self.total);
        let (missing, all) = (self.missing, self.lines.len());
        match missing {
            0 => total,
            // What nobody has priced is no price of nothing.
            _ if missing == all => format!("incomplete: none of {all} lines has a price"),
            1 => format!("{total}, incomplete: 1 of {all} lines has no price"),
            _ => format!("{total}, incomplete: {missing} of {all} lines have no price"),
        }
    }

    /// What the overhead is of the cost and, as a margin, of the price: the two are easily taken for each other.
    #[must_use]
    pub fn overhead_in_words(&self) -> String {
        let share = self.overhead.share;
        let margin = share.as_margin();
        format!("{share} on the cost, which is {margin} % of cost and overhead together")
    }
}

fn sum(figures: impl IntoIterator<Item = Decimal>) -> Decimal {
    figures
        .into_iter()
        .fold(Decimal::ZERO, Decimal::saturating_add)
}

fn line(need: &Need, prices: &PriceList, deliveries: &mut Vec<Delivery>) -> Line {
    let quote = cheapest(need, prices).or_else(|missing| by_the_hour(need, prices).ok_or(missing));
    let (ordered, price) = match quote {
        Ok(quote) => {
            if quote.ordered.count > Decimal::ZERO && quote.delivery > Decimal::ZERO {
                let price = prices.currency.round(quote.delivery);
                deliver(deliveries, &quote.priced.supplier, price);
            }
            (Some(quote.ordered), Ok(quote.priced))
        }
        Err(missing) => (Ordered::usual(need), Err(missing)),
    };
    Line {
        key: need.key.clone(),
        name: need.name.clone(),
        part: need.part,
        measure: need.measure,
        amount: need.amount,
        ordered,
        price,
    }
}

fn deliver(deliveries: &mut Vec<Delivery>, supplier: &str, price: Decimal) {
    match deliveries.iter_mut().find(|d| d.supplier == supplier) {
        Some(delivery) => delivery.price = delivery.price.max(price),
        None => deliveries.push(Delivery {
            supplier: supplier.to_owned(),
            price,
        }),
    }
}

/// What is ordered of a need, and what it costs.
struct Quote {
    ordered: Ordered,
    priced: Priced,
    delivery: Decimal,
}

fn cheapest(need: &Need, prices: &PriceList) -> Result<Quote, Missing> {
    let mut best: Result<Quote, Missing> = Err(Missing::NoPrice);
    for line in prices.lines.iter().filter(|line| line.key == need.key) {
        let quote = quote(need, line, &prices.currency);
        best = match (best, quote) {
            (Ok(best), Ok(quote)) if quote.priced.total < best.priced.total => Ok(quote),
            (Ok(best), _) => Ok(best),
            (Err(Missing::NoPrice), quote) | (Err(_), quote @ Ok(_)) => quote,
            (best, Err(_)) => best,
        };
    }
    best
}

fn quote(need: &Need, line: &PriceLine, currency: &Currency) -> Result<Quote, Missing> {
    let unit = line.sold.unit();
    if unit.measure() != need.measure {
        return Err(Missing::SoldBy(unit.sign()));
    }
    let ordered = Ordered::by(need, &line.sold, line.least_order).ok_or(Missing::TooMuch)?;
    let total = cost(currency, line.price, ordered.count).ok_or(Missing::TooMuch)?;
    Ok(Quote {
        ordered,
        delivery: line.delivery,
        priced: Priced {
            supplier: line.supplier.clone(),
            article: line.name.clone(),
            each: line.price,
            least_order: line.least_order,
            tax: line.tax,
            total,
        },
    })
}

/// The price of hours, by the rate for them or the rate for all.
fn by_the_hour(need: &Need, prices: &PriceList) -> Option<Quote> {
    let rate = |key: Option<&str>| prices.labour.iter().find(|l| l.key.as_deref() == key);
    if need.measure != Measure::Hours {
        return None;
    }
    let labour = rate(Some(&need.key)).or_else(|| rate(None))?;
    let ordered = Ordered::by(need, &Sold::Per(Unit::Hour), None)?;
    let total = cost(&prices.currency, labour.rate, ordered.count)?;
    Some(Quote {
        ordered,
        delivery: Decimal::ZERO,
        priced: Priced {
            supplier: String::new(),
            article: labour.name.clone(),
            each: labour.rate,
            least_order: None,
            tax: None,
            total,
        },
    })
}

/// Price times count, rounded once.
pub(super) fn cost(currency: &Currency, each: Decimal, count: Decimal) -> Option<Decimal> {
    each.checked_mul(count).map(|cost| currency.round(cost))
}

fn parts(lines: &[Line]) -> Vec<PartSum> {
    let mut sums: BTreeMap<Part, PartSum> = BTreeMap::new();
    for line in lines {
        let part = line.part;
        let entry = sums.entry(part).or_insert(PartSum {
            part,
            sum: Decimal::ZERO,
            missing: 0,
        });
        match &line.price {
            Ok(priced) => entry.sum = entry.sum.saturating_add(priced.total),
            Err(_) => entry.missing += 1,
        }
    }
    sums.into_values().collect()
}

/// Lines with a tax of their own pay that alone, on what they cost; everything else pays all the others.
fn taxes(lines: &[Line], prices: &PriceList, net: Decimal) -> Vec<TaxSum> {
    let mut own: BTreeMap<Share, Decimal> = BTreeMap::new();
    for priced in lines.iter().filter_map(|line| line.price.as_ref().ok()) {
        if let Some(share) = priced.tax {
            let on = own.entry(share).or_default();
            *on = on.saturating_add(priced.total);
        }
    }
    let rest = net.saturating_sub(sum(own.values().copied()));
    let tax = |name: &str, share: Share, on: Decimal| TaxSum {
        name: name.to_owned(),
        share,
        on,
        sum: prices.currency.round(share.of(on)),
    };
    let usual = prices
        .taxes
        .iter()
        .map(|usual| tax(&usual.name, usual.share, rest));
    usual
        .chain(own.iter().map(|(share, on)| tax("", *share, *on)))
        .collect()
}
