//! A currency as a person sets it: how its money is rounded and written.

use rust_decimal::{Decimal, RoundingStrategy};
use serde::{Deserialize, Serialize};

use super::written;

/// How money is rounded and written. No currency is assumed: the sign is what a person types.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Currency {
    /// The sign or letters written with every amount.
    #[serde(default)]
    pub sign: String,
    /// Where the sign stands.
    #[serde(default)]
    pub place: SignPlace,
    /// How many digits stand behind the point, 0 to 4.
    #[serde(default = "two")]
    pub digits: u8,
    /// The smallest amount that is charged, where that is more than one in the last digit.
    #[serde(
        default,
        deserialize_with = "written::some_price",
        skip_serializing_if = "Option::is_none"
    )]
    pub step: Option<Decimal>,
    /// Where a half goes.
    #[serde(default)]
    pub halves: Halves,
}

/// On which side of the figures the sign stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum SignPlace {
    /// In front of them.
    #[default]
    Before,
    /// Behind them.
    After,
}

/// Where an amount goes that lies half way between two steps.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Halves {
    /// Up, away from nothing.
    #[default]
    Up,
    /// To the even one of the two.
    Even,
}

/// The space between thousands and beside a sign: a line does not break there.
const SPACE: char = '\u{a0}';

fn two() -> u8 {
    2
}

impl Default for Currency {
    fn default() -> Self {
        Self {
            sign: String::new(),
            place: SignPlace::default(),
            digits: two(),
            step: None,
            halves: Halves::default(),
        }
    }
}

impl Currency {
    /// The amount to the nearest step, or to the last digit where no step is set.
    ///
    /// ```
    /// # use plan::price::{Currency, Halves};
    /// # use rust_decimal::dec;
    /// let even = Currency { halves: Halves::Even, ..Currency::default() };
    /// assert_eq!(even.round(dec!(12.345)), dec!(12.34));
    /// assert_eq!(Currency::default().round(dec!(12.345)), dec!(12.35));
    /// ```
    #[must_use]
    pub fn round(&self, amount: Decimal) -> Decimal {
        let halves = match self.halves {
            Halves::Up => RoundingStrategy::MidpointAwayFromZero,
            Halves::Even => RoundingStrategy::MidpointNearestEven,
        };
        let digits = u32::from(self.digits);
        let mut rounded = match self.step.filter(|step| *step > Decimal::ZERO) {
            None => amount.round_dp_with_strategy(digits, halves),
            Some(step) => amount
                .checked_div(step)
                .and_then(|steps| steps.round_dp_with_strategy(0, halves).checked_mul(step))
                .unwrap_or(amount),
        };
        rounded.rescale(digits.max(rounded.normalize().scale()));
        rounded
    }

    /// The amount in words: thousands parted by no-break spaces, a point before the decimals, at least as many of
    /// them as the currency has and no fewer than the amount has.
    ///
    /// ```
    /// # use plan::price::{Currency, SignPlace};
    /// # use rust_decimal::dec;
    /// let euro = Currency { sign: "€".into(), ..Currency::default() };
    /// assert_eq!(euro.write(dec!(12345.6)), "€12\u{a0}345.60");
    /// let behind = Currency { place: SignPlace::After, ..euro };
    /// assert_eq!(behind.write(dec!(0.0125)), "0.0125\u{a0}€");
    /// ```
    #[must_use]
    pub fn write(&self, amount: Decimal) -> String {
        let mut amount = amount.normalize();
        amount.rescale(u32::from(self.digits).max(amount.scale()));
        let minus = if amount < Decimal::ZERO { "−" } else { "" };
        let figures = parted(&amount.abs().to_string());
        let sign = self.sign.trim();
        match self.place {
            _ if sign.is_empty() => format!("{minus}{figures}"),
            SignPlace::After => format!("{minus}{figures}{SPACE}{sign}"),
            SignPlace::Before if sign.ends_with(|c: char| c.is_alphanumeric() || c == '.') => {
                format!("{minus}{sign}{SPACE}{figures}")
            }
            SignPlace::Before => format!("{minus}{sign}{figures}"),
        }
    }
}

/// Plain decimal figures with their thousands parted.
fn parted(figures: &str) -> String {
    let (whole, decimals) = figures
        .find('.')
        .map_or((figures, ""), |at| figures.split_at(at));
    let mut text = String::new();
    for (i, figure) in whole.chars().enumerate() {
        if i > 0 && (whole.len() - i) % 3 == 0 {
            text.push(SPACE);
        }
        text.push(figure);
    }
    text + decimals
}
