//! Prices: the list a person keeps between jobs, and what the needs of a path come to by it.
//!
//! All money is decimal. An amount in SI units becomes decimal once, when it is rounded to whole packs or to
//! the division of its unit; a price times that count is rounded once, by the currency; every sum is of rounded
//! figures and exact.

mod amount;
mod band;
mod charge;
mod check;
mod currency;
mod file;
mod order;
mod saving;
mod share;
mod unit;
mod written;

use rust_decimal::Decimal;
use serde::{Deserialize, Serialize};

pub use amount::Ordered;
pub use band::{Band, band};
pub use charge::{Added, Charge, Delivery, Line, Missing, PartSum, Priced, TaxSum, charge};
pub use check::{LABOUR, PRICE_LINES, TAXES, VALID_DAYS};
pub use currency::{Currency, Halves, SignPlace};
pub use file::{PriceFileError, read_price_list, write_price_list};
pub use order::order_csv;
pub use saving::{Saving, saves};
pub use share::{Share, ShareError};
pub use unit::{Sold, Unit};
pub use written::{MoneyError, read_count, read_price};

pub(crate) use check::check;

/// The version of the price list written, and the newest one read.
pub const VERSION: u32 = 1;

/// What things, hands and the rest cost. No price is built in: a list is empty until a person fills it.
///
/// ```
/// use plan::price::{PriceList, read_price_list, write_price_list};
///
/// let text = r#"(
///     version: 1,
///     currency: (sign: "€"),
///     lines: [(key: "sub-base", supplier: "Quarry Lane", sold: Per(Tonne), price: "24.50")],
///     taxes: [(name: "VAT", share: "20 %")],
/// )"#;
/// let prices = read_price_list(text.as_bytes())?;
/// assert_eq!(read_price_list(write_price_list(&prices).as_bytes())?, prices);
/// assert!(PriceList::default().is_empty());
/// # Ok::<(), plan::price::PriceFileError>(())
/// ```
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PriceList {
    /// Version of the list, see [`VERSION`].
    pub version: u32,
    /// The currency of all its prices.
    #[serde(default)]
    pub currency: Currency,
    /// What suppliers ask.
    #[serde(default)]
    pub lines: Vec<PriceLine>,
    /// What an hour of work costs.
    #[serde(default)]
    pub labour: Vec<Labour>,
    /// Overhead and profit, as a share of the cost: a markup.
    #[serde(default)]
    pub overhead: Share,
    /// For what turns up in the ground, as a share of the cost.
    #[serde(default)]
    pub contingency: Share,
    /// Taxes, each on the whole net price.
    #[serde(default)]
    pub taxes: Vec<Tax>,
    /// For how many days a price by this list holds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub valid_days: Option<u32>,
}

impl Default for PriceList {
    fn default() -> Self {
        Self {
            version: VERSION,
            currency: Currency::default(),
            lines: Vec::new(),
            labour: Vec::new(),
            overhead: Share::default(),
            contingency: Share::default(),
            taxes: Vec::new(),
            valid_days: None,
        }
    }
}

impl PriceList {
    /// Whether nothing has been set in it.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// What one supplier asks for one thing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PriceLine {
    /// Which need it is for, see [`crate::count::Need::key`].
    pub key: String,
    /// What the supplier calls it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// Who sells it.
    #[serde(default)]
    pub supplier: String,
    /// How it is sold.
    pub sold: Sold,
    /// The price of one pack or one unit, before tax.
    #[serde(deserialize_with = "written::price")]
    pub price: Decimal,
    /// The fewest packs or units that are sold at once; rounded up as orders are.
    #[serde(
        default,
        deserialize_with = "written::some_count",
        skip_serializing_if = "Option::is_none"
    )]
    pub least_order: Option<Decimal>,
    /// What bringing an order costs; of all lines ordered from one supplier the dearest is paid, once.
    #[serde(
        default,
        deserialize_with = "written::price",
        skip_serializing_if = "Decimal::is_zero"
    )]
    pub delivery: Decimal,
    /// A tax of its own, in place of all others.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tax: Option<Share>,
}

/// What an hour of one person's work costs.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Labour {
    /// Which hours, see [`crate::count::Need::key`]; nothing stands for all that have no rate of their own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub key: Option<String>,
    /// What it is called.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// The price of an hour, before tax.
    #[serde(deserialize_with = "written::price")]
    pub rate: Decimal,
}

/// A tax on the net price.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tax {
    /// What it is called.
    pub name: String,
    /// Its share of the net price.
    pub share: Share,
}
