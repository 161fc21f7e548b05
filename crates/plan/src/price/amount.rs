//! From an amount to what is ordered: whole packs, or whole divisions of a unit.

use rust_decimal::Decimal;
use rust_decimal::prelude::{FromPrimitive, ToPrimitive};
use serde::Serialize;

use super::unit::{Sold, Unit};
use super::written::LARGEST;
use crate::count::Need;

/// What is ordered of one need.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Ordered {
    /// How many packs or units.
    pub count: Decimal,
    /// What one is called: `25 kg bag`, `m³`.
    pub one: String,
    /// How much one holds, in the SI unit of the need's measure.
    pub holds: f64,
    /// Whether they are packs, which come whole.
    pub packs: bool,
    /// How much will be left over, in the SI unit of the need's measure.
    pub left_over: f64,
    /// How many would have done, where the supplier sells no fewer than `count`.
    pub would_do: Option<Decimal>,
}

/// The part of a pack or division that is not worth another one: amounts are sums of products of 64-bit numbers,
/// and one that fills its packs exactly may come out a little over.
pub(super) const SLACK: f64 = 1e-6;

/// What one orders in.
struct Lot<'a> {
    one: &'a str,
    holds: f64,
    division: Decimal,
    packs: bool,
}

impl Ordered {
    /// So much of a need as a price line sells it; nothing where the amount is more than is counted.
    pub(super) fn by(need: &Need, sold: &Sold, least: Option<Decimal>) -> Option<Self> {
        let lot = Lot {
            one: sold.one(),
            holds: sold.holds(),
            division: sold.division(),
            packs: matches!(sold, Sold::Pack { .. }),
        };
        let ordered = lot.fill(need.amount)?;
        let least = least.map(|least| (least / lot.division).ceil() * lot.division);
        let least = least.filter(|least| ordered.count > Decimal::ZERO && *least > ordered.count);
        Some(match least {
            None => ordered,
            Some(least) => Self {
                left_over: least.to_f64()? * lot.holds - need.amount,
                would_do: Some(ordered.count),
                count: least,
                ..ordered
            },
        })
    }

    /// So much of a need as it is usually sold, where no price line says how.
    pub(super) fn usual(need: &Need) -> Option<Self> {
        let unit = Unit::of(need.measure);
        let lot = match need.packs.first() {
            Some(pack) => Lot {
                one: &pack.name,
                holds: pack.holds,
                division: Decimal::ONE,
                packs: true,
            },
            None => Lot {
                one: unit.sign(),
                holds: unit.size(),
                division: unit.division(),
                packs: false,
            },
        };
        lot.fill(need.amount)
    }
}

impl Lot<'_> {
    /// The one place where an amount becomes decimal: as a whole number of divisions.
    fn fill(&self, amount: f64) -> Option<Ordered> {
        let division = self.division.to_f64()?;
        let divisions = (amount / (self.holds * division) - SLACK).ceil().max(0.0);
        let count = Decimal::from_f64(divisions)?.checked_mul(self.division)?;
        (amount.is_finite() && count <= LARGEST).then(|| Ordered {
            count,
            one: self.one.to_owned(),
            holds: self.holds,
            packs: self.packs,
            left_over: (divisions * division * self.holds - amount).max(0.0),
            would_do: None,
        })
    }
}
